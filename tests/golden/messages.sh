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

# verdict NAME: the summary and exit status that the case must have, by the last line of its message.
verdict()
{
    case $1 in
    fine-*) echo " 0" ;;
    *)
        if grep -q ': error: ' "$folder/msg"; then
            echo "1 error, 0 warnings 1"
        else
            echo "0 errors, 1 warning 0"
        fi
        ;;
    esac
}

for plan in *.bell; do
    name=${plan%.bell}
    date=$(sed -n 's/^# date: //p' "$plan")
    "$program" check --color=never --date "${date:-2027-03-01}" "$plan" >"$folder/out" 2>"$folder/msg"
    status=$?
    [ -s "$folder/out" ] && refuse "$name" "something on standard output"
    counts=$(grep -a -E '^[0-9]+ errors?, [0-9]+ warnings?$' "$folder/msg")
    if [ "$counts $status" != "$(verdict "$name")" ]; then
        refuse "$name" "not one finding (exit status $status):
$(cat "$folder/msg")"
        continue
    fi
    if [ -n "${UPDATE:-}" ]; then
        cp "$folder/msg" "$name.msg"
    fi
    if diff -u "$name.msg" "$folder/msg" >"$folder/diff" 2>&1; then
        echo "ok $name"
    else
        refuse "$name" "another message:
$(cat "$folder/diff")"
    fi
done

for message in *.msg; do
    [ -f "${message%.msg}.bell" ] || refuse "${message%.msg}" "a message without its plan"
done

finish
