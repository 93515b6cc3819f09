#!/bin/sh
# Two branches that each log something come together: alone, through git, and where they contradict each other.
set -u

. tests/house/ok.sh
program=$(realpath "$BELLSHEET")
attributes=$(realpath share/git/attributes)
config=$(realpath share/git/config)
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder" || exit 1

# join BASE OURS THEIRS, and what OURS then is, followed by the exit status.
join()
{
    cp "$2" result
    "$program" join "$1" result "$3" 2>said
    status=$?
    cat result
    [ $status = 0 ] || echo "exit $status"
}

touch none
cat >base <<'END'
# What was done in spring.

log 2027-03-01 Oriel Tamsin, Hips before hands
    took      52 min RPE 7
    A.1 : 8 @ 20 kg

log 2027-03-04 Oriel Tamsin, Long reach
    took      50 min RPE 7
END
{ cat base; printf '\nlog 2027-03-08 Oriel Tamsin, Hips before hands\n    took      45 min RPE 7\n'; } >ours
{ cat base; printf '\n# On the mat.\nlog 2027-03-08 Kofi Brandreth, pads  # late\n    # he was tired\n    took      45 min RPE 7\n'; } >theirs
is "what both add stays" "$(cat ours; printf '\n# On the mat.\nlog 2027-03-08 Kofi Brandreth, pads  # late\n    # he was tired\n    took      45 min RPE 7\n')" \
    "$(join base ours theirs)"
is "and the other way round there is the same in it" "$(join base ours theirs | sort)" "$(join base theirs ours | sort)"
is "what both add alike stays once" "$(cat ours)" "$(join base ours ours)"
is "without a common past too" "$(cat ours)" "$(join none ours ours)"
is "what one has not is added" "$(cat ours)" "$(join base base ours)"
is "nothing is written twice however often" "$(join base ours theirs)" "$(join base ours theirs >once; join base once theirs)"

sed 's/50 min/55 min/; s/# What/# All that/' base >changed
is "what only one changes is as that one has it" "$(cat changed)" "$(join base base changed)"
is "in either place" "$(cat changed)" "$(join base changed base)"
is "with what the other adds" "$(cat changed; sed -n '9,$p' ours)" "$(join base changed ours)"
sed '/Long reach/,$d' base | sed '$d' >less
is "what only one takes out goes" "$(cat less)" "$(join base less base)"
is "but not what the other adds" "$(cat less; sed -n '9,$p' ours)" "$(join base less ours)"

# --- contradictions ---

sed 's/50 min/40 min/' base >other
is "both changed one log" "$(sed '/Long reach/,$d' base)

<<<<<<< ours
log 2027-03-04 Oriel Tamsin, Long reach
    took      55 min RPE 7
=======
log 2027-03-04 Oriel Tamsin, Long reach
    took      40 min RPE 7
>>>>>>> theirs
exit 1" "$(join base changed other | sed 's/# All that/# What/')"
is "it says which and where" "bellsheet: error: result:7: \`log 2027-03-04 Oriel Tamsin, Long reach\` was changed in both versions: keep one of the two between the marks" "$(cat said)"
has "check does not take it for a log" "error: " "$("$program" check result 2>&1)"
has "both logged the same day otherwise" "exit 1" "$(join none changed other)"
has "one took out what the other changed" "<<<<<<< ours
=======
log 2027-03-04" "$(join base less changed)"
sed 's/55 min/55  min/; s/A\.1 :/A1   :/' changed >spaced
is "layout is no contradiction" "$(cat changed)" "$(join base changed spaced)"
sed 's/Oriel Tamsin/oriel   TAMSIN/' changed >spelt
has "nor are capitals another athlete" "exit 1" "$(join base changed spelt)"

# --- what a log's key is ---

printf 'log 2027-03-08 10:00 Oriel Tamsin, pads\n    took 30 min RPE 5\n' >morning
printf 'log 2027-03-08 18:00 Oriel Tamsin, pads\n    took 30 min RPE 5\n' >evening
is "another hour is another log" 2 "$(join none morning evening | grep -c '^log')"
sed 's/10:00/9:05/' morning >short
sed 's/10:00/09:05/' morning >long
is "an hour is the same with and without nought" 1 "$(join none short long | grep -c '^log')"
sed 's/Oriel Tamsin/Kofi Brandreth/' morning >his
is "another athlete too" 2 "$(join none morning his | grep -c '^log')"
cat morning morning >twice
is "a log that is there twice stays twice" 2 "$(join morning twice morning | grep -c '^log')"

# --- order and layout ---

for day in 01 03 05; do printf 'log 2027-03-%s Oriel Tamsin, pads\n    took      30 min RPE 5\n\n' $day; done | sed '$d' >odd
for day in 02 04 06; do printf 'log 2027-03-%s Oriel Tamsin, pads\n    took      30 min RPE 5\n\n' $day; done | sed '$d' >even
is "days stay in order" "01 02 03 04 05 06" "$(join none odd even | sed -n 's/^log 2027-03-\(..\).*/\1/p' | xargs)"
is "what is in canonical layout stays so" "" "$(join none odd even >laid; "$program" format --diff laid)"
is "a file with errors is joined too" "$(cat odd; echo; echo 'lug nonsense'; echo '    more of it')" \
    "$({ cat odd; echo; echo 'lug nonsense'; echo '    more of it'; } >wrong; join odd wrong odd)"
sed 's/$/\r/' ours >carriage
is "line ends are ours" "$(join base carriage theirs | grep -c '')" "$(join base carriage theirs | grep -c "$(printf '\r')")"
printf '\357\273\277' | cat - ours >marked
is "a byte order mark stays" "$(printf '\357\273\277')" "$(join base marked theirs | head -c 3)"
printf 'log 2027-03-08 Oriel Tamsin, pads\n    took 30 min RPE 5\n# aside\n    note late\n' >aside
is "a comment at the margin ends no log" "$(cat aside)" "$(join none aside none)"

# Ten pairs of versions of random lines: whatever the two have is in the result.
awk 'BEGIN {
    seed = 7
    for (file = 0; file < 20; file++) {
        name = "random" file
        for (i = 0; i < 12; i++) {
            seed = seed * 16807 % 2147483647
            kind = seed % 7
            day = seed % 5 + 1
            if (kind < 3) printf "log 2027-03-0%d Oriel Tamsin, pads\n    took %d min RPE 5\n", day, seed % 3 + 30 >name
            else if (kind == 3) printf "\n# comment %d\n", seed % 9 >name
            else if (kind == 4) printf "    # inside %d\n", seed % 9 >name
            else if (kind == 5) printf "athlete A%d\n    stance orthodox\n\n", seed % 4 >name
            else printf "\n\n" >name
        }
        printf "" >name
    }
}'
lost=0
for i in 0 2 4 6 8 10 12 14 16 18; do
    join none random$i random$((i + 1)) >got
    for side in random$i random$((i + 1)); do
        sort -u $side | grep . | while read -r line; do grep -qF -- "$line" got || echo "$side: $line"; done
    done
done >lost
is "no line of either is lost" "" "$(cat lost)"

# --- what cannot be joined ---

says() { "$program" join "$@" 2>&1; echo "exit $?"; }
has "two files" "join takes three files" "$(says base ours)"
has "a file that is not there" "nowhere: " "$(says base ours nowhere)"
has "nothing comes from standard input" "exit 2" "$(says base ours -)"
printf 'log \377\n' >binary
has "bytes that are no text" "binary: this is no text" "$(says base ours binary)"
is "and ours is left alone" "$(cat base; printf '\nlog 2027-03-08 Oriel Tamsin, Hips before hands\n    took      45 min RPE 7\n')" "$(cat ours)"

# --- git ---

if ! command -v git >/dev/null; then
    echo "skipped: git is not installed"
    finish
fi
git_() { git -C club -c user.name=Coach -c user.email=coach@example.org "$@"; }
branches()
{
    rm -rf club
    git -c init.defaultBranch=main init -q club
    cp base club/logs.bell
    echo "$1" >club/.gitattributes
    git_ add . && git_ commit -qm base
    git_ checkout -qb theirs && cp theirs club/logs.bell && git_ commit -qam theirs
    git_ checkout -q main && cp ours club/logs.bell && git_ commit -qam ours
    PATH=$folder/bin:$PATH git_ merge -q -m merged theirs >merge.said 2>&1
    echo "exit $?"
}
mkdir bin
ln -s "$program" bin/bellsheet
export HOME="$folder" GIT_CONFIG_NOSYSTEM=1 # nobody's own settings
git config --global include.path "$config"
is "git joins with it" "exit 0" "$(branches "$(cat "$attributes")")"
is "both logs are there, each with its equal line" 4 "$(grep -c '^log' club/logs.bell)"
is "and all that they took" 2 "$(grep -c 'took      45 min RPE 7' club/logs.bell)"
branches '*.bell merge=union' >/dev/null
printf 'athlete %s\n' 'Oriel Tamsin' 'Kofi Brandreth' >club/athletes.bell
printf 'session %s\n    straight A  3 sets rest 1:00\n        push-up : 8\n' 'Hips before hands' 'Long reach' >club/sessions.bell
is "lines joined without it leave one log empty" 1 "$(grep -c 'took      45 min RPE 7' club/logs.bell)"
has "which is reported" "this log says nothing [log-empty]" "$("$program" check --date 2027-06-01 club 2>&1)"
finish
