#!/bin/sh
# As many as a limit allows are read, and the first beyond is reported where it stands, once.
set -u

. tests/house/ok.sh
bellsheet=$(realpath "${BELLSHEET:-build/bellsheet}")
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
plan=$folder/plan.bell

# check: what `check` says of the plan.
check()
{
    "$bellsheet" check --date 2027-03-01 "$plan" 2>&1
}

tests/bench/edges >"$folder/edges"
while IFS='|' read -r name most words before line; do
    tests/bench/edges --plan "$most" "$before" "$line" >"$plan"
    said=$(check)
    is "$most $name are read" "0:0" "$?:$(printf '%s\n' "$said" | grep -cF "$words")"
    above=$(wc -l <"$plan")
    tests/bench/edges --plan $((most + 1)) "$before" "$line" >"$plan"
    said=$(check)
    is "$((most + 1)) $name: exit" 1 $?
    is "$((most + 1)) $name are one fault, at the last" "1 error, there" "$(printf '%s\n' "$said" | grep ': error: ' |
        awk -F: -v above="$above" -v words="$words" '{ where = $2 > above && index($0, words) ? "there" : $0 }
            END { print NR (NR == 1 ? " error, " : " errors, the last of them ") where }')"
done <"$folder/edges"

# What is skipped is said where something is.
seq 1000 | sed 's/.*/:/' >"$plan"
is "1000 lines that cannot be read are all" 0 "$(check | grep -c too-many-faults)"
echo : >>"$plan"
has "one more is skipped" "plan.bell:1001:1: error: 1000 lines above cannot be read, so the rest of this file is skipped" "$(check)"
finish
