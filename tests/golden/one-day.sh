#!/bin/sh
# usage: BELLSHEET=build/bellsheet tests/golden/one-day.sh
#
# The plans of several.sh, asked for one day alone: on the first everybody walks, on the second nobody comes. Nothing is said
# then that is not said of the whole, and what nobody asked for is passed over.
set -u

. tests/house/ok.sh
: "${BELLSHEET:=build/bellsheet}"
program=$(realpath "$BELLSHEET")
cd tests/golden/several || exit 2
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT

# heads: what is found, without where it stands. What is alike in several weeks is one finding, which names the first of them: so
# weeks are left out, and weeks without a camp altogether.
heads()
{
    sed -nE 's/^[^ ]*: ((error|warning|info): .*\])$/\1/p' "$1" | grep -v '\[weeks-empty\]$' |
        sed 's/ in the week from [0-9-]*//' | sort -u
}

for plan in *.bell; do
    name=${plan%.bell}
    date=$(sed -n '/^# date: /{s///p;q}' "$plan")
    everybody=$(sed -n 's/^athlete //p' "$plan" | sed '$!s/$/, /' | tr -d '\n')
    {
        cat "$plan"
        printf 'camp Walks\n    for %s\n    starts 2029-01-01\n    week 1\n' "$everybody"
        printf '        monday walk : 10 min RPE 1\n        tuesday walk : 10 min RPE 1\n            absent %s\n' "$everybody"
    } >"$folder/$name.bell"
    "$program" check -i --notes --color=never --date "$date" "$folder/$name.bell" >"$folder/said" 2>&1
    heads "$folder/said" >"$folder/all"
    for day in 2029-01-01 2029-01-02; do
        "$program" check -i --notes --color=never --date "$date" --from $day --to $day "$folder/$name.bell" >"$folder/one" 2>&1
        is "$name: $day does not break off" yes "$([ $? -le 1 ] && echo yes)"
        heads "$folder/one" >"$folder/heads"
        is "$name: $day" "" "$(comm -23 "$folder/heads" "$folder/all")"
    done
    is "$name: on a day on which nobody comes nothing is wrong" "" "$(grep '^error' "$folder/heads")"
done

finish
