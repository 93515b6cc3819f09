#!/bin/sh
# usage: BELLSHEET=build/bellsheet tests/golden/messages.sh
#
# Each messages/NAME.bell holds one mistake, and messages/NAME.msg what `bellsheet check` says of it: exactly one
# finding, at its columns. Of fine-NAME.bell it says nothing. A line `# date: DAY` sets today. UPDATE=1 writes the
# .msg files anew, for a look at their diff; a case with more than one finding fails all the same.
set -u

. tests/house/ok.sh
: "${BELLSHEET:=build/bellsheet}"
program=$(realpath "$BELLSHEET")
cd tests/golden/messages || exit 2
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT

# called: "NAME DATE" for each plan.
called()
{
    awk '
        /^# date: / { date[FILENAME] = substr($0, 9) }
        END {
            for (i = 1; i < ARGC; i++)
                print substr(ARGV[i], 1, length(ARGV[i]) - 5), ARGV[i] in date ? date[ARGV[i]] : "2027-03-01"
        }' *.bell
}

# verdicts: for each line "NAME STATUS" of standard input the name, if the plan has exactly one finding or, of fine-NAME, none,
# and the status that goes with it; NAME and STATUS otherwise.
verdicts()
{
    awk -v folder="$folder" '
        {
            file = folder "/" $1 ".said"
            counts = ""
            error = 0
            while ((getline line < file) > 0) {
                error += index(line, ": error: ") > 0
                if (line ~ /^[0-9]+ errors?, [0-9]+ warnings?$/)
                    counts = counts line
            }
            close(file)
            wanted = $1 ~ /^fine-/ ? " 0" : error ? "1 error, 0 warnings 1" : "0 errors, 1 warning 0"
            print counts " " $2 == wanted ? $1 : $0
        }'
}

called >"$folder/called"
while read -r name date; do
    "$program" check --color=never --date "$date" "$name.bell" >"$folder/out" 2>"$folder/$name.said"
    echo "$name $?"
    [ ! -s "$folder/out" ] || echo "$name" >>"$folder/loud"
done <"$folder/called" | verdicts >"$folder/verdicts"
is "every plan was checked" "$(ls ./*.bell | wc -l)" "$(wc -l <"$folder/verdicts")"
is "nothing goes to standard output" "" "$(cat "$folder/loud" 2>/dev/null)"
while read -r name status; do
    if [ -n "$status" ]; then
        refuse "$name" "not one finding (exit status $status):
$(cat "$folder/$name.said")"
        continue
    fi
    [ -z "${UPDATE:-}" ] || cp "$folder/$name.said" "$name.msg"
    if cmp -s "$name.msg" "$folder/$name.said"; then
        echo "ok $name"
    else
        refuse "$name" "another message:
$(diff -u "$name.msg" "$folder/$name.said" 2>&1)"
    fi
done <"$folder/verdicts"

for message in *.msg; do
    [ -f "${message%.msg}.bell" ] || refuse "${message%.msg}" "a message without its plan"
done

finish
