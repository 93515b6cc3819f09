#!/bin/sh
# bellsheet format: what it writes, what it leaves alone, and its exit status.
set -u

. tests/house/ok.sh
case $BELLSHEET in
/*) bellsheet=$BELLSHEET ;;
*) bellsheet=$(pwd)/$BELLSHEET ;;
esac
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder" || exit 1

# format ARGUMENT...: sets got to both outputs and "status N".
format()
{
    got=$("$bellsheet" format "$@" 2>&1)
    got="$got
status $?"
}

crooked()
{
    printf 'gym   Slipway\r\n\tbars trap bar 25kg # new\r\n\r\n'
}

straight='gym Slipway
    bars        trap bar 25 kg  # new'

crooked >crooked.bell
printf '%s\n' "$straight" >straight.bell
printf 'gym Slipway\n    bras 2,5 kg\n' >faulty.bell

format --check crooked.bell straight.bell
is "check names what differs" "crooked.bell
status 1" "$got"
is "check writes nothing" "$(crooked | cksum)" "$(cksum <crooked.bell)"

format --diff crooked.bell straight.bell
has "diff shows what goes" "-gym   Slipway" "$got"
has "diff shows what comes" "+    bars        trap bar 25 kg  # new" "$got"
has "diff fails where there is one" "status 1" "$got"
is "diff writes nothing" "$(crooked | cksum)" "$(cksum <crooked.bell)"

got=$(crooked | "$bellsheet" format -)
is "standard input to standard output" "$straight" "$got"

ln -s crooked.bell link.bell
chmod 640 crooked.bell
format link.bell
is "a file is rewritten in silence" "
status 0" "$got"
is "in its one layout" "$straight" "$(cat crooked.bell)"
is "a link stays a link" "crooked.bell" "$(readlink link.bell)"
is "permissions stay" "-rw-r-----" "$(ls -l crooked.bell | cut -c1-10)"

format --check crooked.bell straight.bell
is "then nothing differs" "
status 0" "$got"

before=$(cksum <faulty.bell)
crooked >crooked.bell
format faulty.bell crooked.bell
has "a faulty file is reported" "faulty.bell:2:5: error:" "$got"
has "and fails" "status 1" "$got"
is "and is left as it is" "$before" "$(cksum <faulty.bell)"
is "while the next is still formatted" "$straight" "$(cat crooked.bell)"

format missing.bell straight.bell
has "a file that is not there cannot be formatted" "missing.bell: No such file" "$got"
has "which is another status" "status 2" "$got"
format
has "a name is needed" "status 2" "$got"

mkdir -p gym/sessions gym/empty
crooked >gym/club.bell
crooked >gym/sessions/a.bell
crooked >gym/notes.txt
cp faulty.bell gym/sessions/faulty.bell
format --check gym/
has "a folder's plans are looked at, below it too" "gym/club.bell
gym/sessions/a.bell" "$got"
format gym
is "they are formatted" "$straight
$straight" "$(cat gym/club.bell gym/sessions/a.bell)"
has "but for the faulty one" "gym/sessions/faulty.bell:2:5: error:" "$got"
is "and nothing else is touched" "$(crooked | cksum)" "$(cksum <gym/notes.txt)"
format gym/empty
is "a folder without plans" "bellsheet: error: gym/empty: no plan in this folder (plans end in .bell)
status 2" "$got"

finish
