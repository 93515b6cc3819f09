#!/bin/sh
# The faults planted in examples/over-limit are found, each at its line, and nothing else is; what is said about them is
# kept in examples/over-limit/expected (`UPDATE=1 tests/limits/over-limit.sh` writes it anew).
set -u

. tests/house/ok.sh
: "${BELLSHEET:=build/bellsheet}"
example=examples/over-limit
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT

"$BELLSHEET" check "$example" --date 2027-03-01 --notes 2>"$folder/said"
is "the plan fails" 1 $?

# FILE:LINE CHECK, of what was found and of what was planted.
sed -n 's/^\([^: ]*:[0-9]*\):[0-9]*: \(error\|warning\): .* \[\([a-z-]*\)\]$/\1 \3/p' "$folder/said" |
    sort -u >"$folder/found"
grep -n '# planted:' "$example"/*.bell | sed 's/^\([^:]*:[0-9]*\):.*# planted: /\1 /' |
    while read -r place names; do
        # The names of checks have a hyphen each; what follows them are words.
        echo "$names" | tr ',' '\n' | sed 's/^ *//' | grep -xE '[a-z]+(-[a-z]+)+' | sed "s|^|$place |"
    done | sort -u >"$folder/planted"
is "each planted fault is found at its line, and no other" "" "$(diff "$folder/planted" "$folder/found")"
is "a few dozen of them" yes "$([ "$(wc -l <"$folder/planted")" -gt 30 ] && echo yes)"

# One at least of each family.
for family in volume pairing phase person sense; do
    "$BELLSHEET" explain | sed -n "/^$family/,/^\$/p" | sed -n 's/^  \([a-z-]*\) .*/\1/p' >"$folder/names"
    is "$family is broken" yes "$(grep -qwFf "$folder/names" "$folder/found" && echo yes)"
done

grep -E '^[^ ]+: (error|warning): .*\]$|^      fix: ' "$folder/said" >"$folder/lines"
[ -z "${UPDATE:-}" ] || cp "$folder/lines" "$example/expected"
is "what is said of them" "$(cat "$example/expected")" "$(cat "$folder/lines")"
finish
