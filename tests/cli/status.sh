#!/bin/sh
# What every command has in common: exit status, colour, -C, -, -- and where messages go.
set -u

. tests/house/ok.sh
: "${BELLSHEET:=build/bellsheet}"
bellsheet=$(realpath "$BELLSHEET")
plans=$(pwd)/examples/one-week
cases=$(pwd)/tests/golden/messages
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder" || exit 2
unset NO_COLOR

# run ARGUMENT...: sets status, out and err.
run()
{
    "$bellsheet" "$@" >out.txt 2>err.txt
    status=$?
    out=$(cat out.txt)
    err=$(cat err.txt)
}

# --- exit status ---

run check "$cases/fine-tabs.bell"
is "a clean plan" "0::" "$status:$out:$err"
run check "$cases/series-too-long.bell"
has "a plan with a warning" "0 errors, 1 warning" "$err"
is "passes" "0:" "$status:$out"
run check --strict "$cases/series-too-long.bell"
is "but not when strict" "1:" "$status:$out"
run check "$cases/rpe-over.bell"
is "a plan with an error fails" "1:" "$status:$out"
for format in sarif github gitlab json; do
    run check --format $format "$cases/rpe-over.bell"
    is "and the same as $format" "1:" "$status:$err"
done
run print "$cases/rpe-over.bell" --week 1 --out sheets
is "it is not printed" "1:" "$status:$out"
is "and leaves no sheet" "" "$(find sheets -type f 2>/dev/null)"
run --help
is "help is no fault" "0:" "$status:$err"
run --version
is "nor is the version" "0:" "$status:$err"
has "which is one line" "bellsheet " "$out"

# --- colour ---

escape=$(printf '\033')
run check "$cases/rpe-over.bell"
is "no colour in a file" "" "$(grep "$escape" err.txt)"
run check --color=always "$cases/rpe-over.bell"
has "colour where it is asked for" "$escape[" "$err"
run check --color "$cases/rpe-over.bell"
has "and without a word" "$escape[" "$err"
run check --color=never "$cases/rpe-over.bell"
is "none where it is refused" "" "$(grep "$escape" err.txt)"
if script -qec true /dev/null </dev/null >/dev/null 2>&1; then
    terminal="'$bellsheet' check '$cases/rpe-over.bell'"
    has "colour on a terminal" "$escape[" "$(script -qec "$terminal" /dev/null </dev/null)"
    is "but not under NO_COLOR" "" "$(NO_COLOR=1 script -qec "$terminal" /dev/null </dev/null | grep "$escape")"
    has "an empty NO_COLOR says nothing" "$escape[" "$(NO_COLOR='' script -qec "$terminal" /dev/null </dev/null)"
else
    echo "skipped: colour on a terminal: no pseudo-terminal can be had here"
fi

# --- where plans come from ---

cp "$cases/rpe-over.bell" rpe-over.bell
mkdir club
cp "$cases"/club/*.bell club
run check - <rpe-over.bell
is "standard input" "1:" "$status:$out"
has "has a name in messages" "<standard input>:5:30: error: RPE is from 1 to 10 [bad-rpe]" "$err"
mkdir elsewhere
run -C elsewhere check ../rpe-over.bell
has "-C goes to a folder first" "../rpe-over.bell:5:30: error:" "$err"
run check -C elsewhere ../rpe-over.bell
has "also behind the command" "../rpe-over.bell:5:30: error:" "$err"
cp rpe-over.bell ./--strict.bell
run check -- --strict.bell
has "-- ends the options" "--strict.bell:5:30: error:" "$err"
run check club rpe-over.bell club/
is "a file named twice is read once" "1" "$(grep -c ': error: ' err.txt)"
rm club/month.bell
run -C club check
is "no name means the folder at hand" "0::" "$status:$out:$err"

# --- what prints goes to standard output, and what is wrong to standard error ---

run print "$plans" --week 1 --out sheets
is "sheets are named" "$(find sheets -type f ! -name sheets.json | LC_ALL=C sort)" "$(echo "$out" | LC_ALL=C sort)"
is "and the exit status is clean" "0" "$status"
run check --format json "$cases/rpe-over.bell"
has "findings for programs" '"bad-rpe"' "$out"

finish
