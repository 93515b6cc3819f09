#!/bin/sh
# Faults of the machine and of the command line: a clear message, exit status 2, and nothing left half written.
set -u

. tests/house/ok.sh
: "${BELLSHEET:=build/bellsheet}"
bellsheet=$(realpath "$BELLSHEET")
plans=$(pwd)/examples/one-week
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder" || exit 2

# refused NAME WORDS ARGUMENT...: the command cannot run, says so in WORDS, and prints nothing.
refused()
{
    name=$1
    words=$2
    shift 2
    "$bellsheet" "$@" >out 2>err </dev/null
    got="status $?, $(wc -c <out) bytes: $(cat err)"
    has "$name" "status 2, 0 bytes: " "$got"
    has "$name: why" "$words" "$got"
}

# fills NAME ARGUMENT...: standard output is on a full disk.
fills()
{
    name=$1
    shift
    "$bellsheet" "$@" >/dev/full 2>err </dev/null
    has "full disk: $name" "status 2: bellsheet: error: standard output: " "status $?: $(cat err)"
}

# --- what is read ---

mkdir empty folder.bell
refused "a file that is not there" "bellsheet: error: missing.bell: No such file or directory" check missing.bell
refused "a folder that is not there" "bellsheet: error: nowhere: No such file or directory" print nowhere --all --out o
refused "a folder without plans" "bellsheet: error: empty: no plan in this folder (plans end in .bell)" check empty
refused "a folder named like a plan" "bellsheet: error: folder.bell: no plan in this folder" check folder.bell
refused "a file below a file" "err/x.bell: Not a directory" check err/x.bell
if [ -e /proc/self/mem ]; then
    refused "a file that cannot be read" "bellsheet: error: /proc/self/mem: Input/output error" check /proc/self/mem
fi
ln -s loop.bell loop.bell
refused "a link that leads to itself" "loop.bell: Too many levels of symbolic links" check loop.bell
head -c 9000000 /dev/zero | tr '\0' '#' >large.bell
refused "a file that is too large" "large.bell: larger than 8 MiB" check large.bell
refused "a folder to start in that is not there" "bellsheet: error: cannot go to \`nowhere\`" -C nowhere check .

# --- what was asked for ---

refused "no command" "bellsheet check club/"
refused "an unknown command" "there is no command \`chekc\`; \`bellsheet --help\` lists them" chekc
refused "an unknown option" "--weak" print --weak 3
refused "an option without its value" "--week" print "$plans" --week
refused "an option of another command" "\`check\` takes no --sheet" check "$plans" --sheet wall
refused "a week that is no number" "\`two\` is not a week" print "$plans" --week two --out o
refused "a day that is none" "\`2027-02-30\` is not a day such as 2027-03-20" print "$plans" --on 2027-02-30 --out o
refused "a date that is none" "\`tomorrow\` is not a day such as 2027-03-20" check "$plans" --date tomorrow
refused "an unknown format" "there is no format \`xml\`: text, " check "$plans" --format xml
refused "an unknown sheet" "there is no sheet \`poster\`: wall" print "$plans" --all --sheet poster --out o
refused "an unknown paper" "there is no such paper" print "$plans" --all --paper B7 --out o
refused "a distance without a unit" "\`4\` is not a distance" print "$plans" --all --read-from 4 --out o
refused "no week" "say which: --week N, --on DAY, --from DAY --to DAY, --month MONTH or --all" print "$plans" --out o
refused "no folder for the files" "say where the files go: --out FOLDER" print "$plans" --all
refused "a colour that is none" "--color is auto, always or never, not \`blue\`" check "$plans" --color=blue
refused "a week without sessions" "no session is planned then" print "$plans" --week 50 --out none
refused "a season in a plan without one" "no season is declared for these days" print "$plans" --all --sheet season --out none
refused "a week without a bout" "no bout is planned then" print "$plans" --week 1 --sheet bout --out none
refused "a club without juniors" "nobody planned then is known to be under 18" print "$plans" --week 1 --sheet parents --out none
refused "tests that nobody did" "nobody has results of tests to show" print "$plans" --all --sheet tests --out none
refused "a name with a slip" 'there is no athlete `Oriel Tamsn`; did you mean `Oriel Tamsin`?' \
    print "$plans" --week 2 --athlete "Oriel Tamsn" --out none
is "which leaves no file" "" "$(find none -type f 2>/dev/null)"
printf 'gym Shed\n  unit kg\n' >kept.bell
chmod 444 kept.bell
refused "a plan that is write-protected" "kept.bell: this file is write-protected" format kept.bell
is "which stays as it is" "gym Shed|  unit kg" "$(paste -sd'|' kept.bell)"
refused "logs for a file that is write-protected" "kept.bell: this file is write-protected" \
    log "$plans" --week 1 --append kept.bell
chmod 644 kept.bell
rm kept.bell
refused "a comparison with what is not there" "there is no folder \`nosuch\` here, and \`diff\` of a revision needs a git" \
    diff "$plans" nosuch
SOURCE_DATE_EPOCH=yesterday
export SOURCE_DATE_EPOCH
refused "a time that is none" "SOURCE_DATE_EPOCH is not a time in seconds since 1970: \`yesterday\`" check "$plans"
unset SOURCE_DATE_EPOCH

# --- what is written ---

echo kept >way
refused "a file in the way of the folder" "bellsheet: error: way: Not a directory" print "$plans" --week 1 --out way
is "which is left alone" "kept" "$(cat way)"
refused "a folder where none can be made" "/proc/sheets: " print "$plans" --week 1 --out /proc/sheets

# halves FOLDER: the files below it that are not whole, or not a sheet at all.
halves()
{
    find "$1" -type f | while read -r file; do
        case $file in
        *.pdf) tail -n 1 "$file" | grep -q '%%EOF' || echo "$file" ;;
        */sheets.json) [ "$(tail -n 1 "$file")" = ']}' ] || echo "$file" ;;
        *.svg) tail -n 1 "$file" | grep -q '</svg>' || echo "$file" ;;
        *) echo "$file" ;;
        esac
    done
}

# A limit on the size of files takes the part of a full disk: writing beyond it fails in the same way. A build that counts
# what is reached would write its counts under that limit, too: they go elsewhere, and what it says of them is left out.
mkdir full
(
    trap '' XFSZ
    ulimit -f 8
    GCOV_PREFIX=$PWD/counts "$bellsheet" print "$plans" --week 1 --out full
) >out 2>said </dev/null
status=$?
grep -v '^libgcov profiling error' said >err
has "no room for a sheet" "status 2: bellsheet: error: full/" "status $status: $(cat err)"
has "no room for a sheet: why" "File too large" "$(cat err)"
is "which leaves nothing half written" "" "$(halves full)"

first=$("$bellsheet" print "$plans" --week 1 --list --out taken | head -n 1)
mkdir -p "$first"
"$bellsheet" print "$plans" --week 1 --out taken >out 2>err </dev/null
has "a folder in the way of a sheet" "status 2: bellsheet: error: $first: Is a directory" "status $?: $(cat err)"
is "which leaves nothing half written either" "" "$(halves taken)"

fills "help" --help
fills "help of a command" print --help
fills "version" --version
fills "checks" explain
fills "one check" explain load-rise
fills "exercises" find squat -C "$plans"
fills "findings" check "$plans" --format json
fills "list" print "$plans" --week 1 --list
fills "understood" show "$plans" --week 1
fills "sums" tally "$plans"
printf 'gym   Slipway\n    barbells 20 kg\n' >crooked.bell
"$bellsheet" format - <crooked.bell >/dev/full 2>err
has "full disk: layout" "status 2: bellsheet: error: " "status $?: $(cat err)"

finish
