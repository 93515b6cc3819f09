#!/bin/sh
# usage: BELLSHEET=build/bellsheet tests/golden/several.sh
#
# Plans of several people each, and what is said of all of them together: cases of a check that checks.sh, which shows both
# sides of one border, would need a plan for each. A comment above each says which it is. A line `# date: DAY` sets today.
# UPDATE=1 writes the .msg files anew: read each against the rule before you keep it.
set -u

. tests/house/ok.sh
: "${BELLSHEET:=build/bellsheet}"
program=$(realpath "$BELLSHEET")
cd tests/golden/several || exit 2
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT

# heads FILE: what is found, without where it stands.
heads()
{
    sed -nE 's/^[^ ]*: ((error|warning|info): .*\])$/\1/p' "$1" | sort -u
}

for plan in *.bell; do
    name=${plan%.bell}
    date=$(sed -n '/^# date: /{s///p;q}' "$plan")
    "$program" check -i --color=never --date "$date" "$plan" >"$folder/said" 2>&1
    status=$?
    [ -z "${UPDATE:-}" ] || cp "$folder/said" "$name.msg"
    if cmp -s "$name.msg" "$folder/said"; then
        echo "ok $name"
    else
        refuse "$name" "another message:
$(diff -u "$name.msg" "$folder/said" 2>&1)"
    fi
    is "$name: status" "$(grep -c '^[1-9][0-9]* error' "$name.msg")" "$status"

    # Of one of them nothing is said that is not said of all.
    heads "$folder/said" >"$folder/all"
    sed -n 's/^athlete //p' "$plan" >"$folder/athletes"
    while read -r athlete; do
        "$program" check -i --color=never --date "$date" --athlete "$athlete" "$plan" >"$folder/one" 2>&1
        [ $? -le 2 ] || echo "$athlete: it breaks off"
        heads "$folder/one" | comm -23 - "$folder/all"
    done <"$folder/athletes" >"$folder/more"
    is "$name: one at a time" "" "$(cat "$folder/more")"
done

finish
