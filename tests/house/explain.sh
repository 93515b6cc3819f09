#!/bin/sh
# Every name that can stand in brackets at the end of a finding has a page of `bellsheet explain`, and every page its
# name: names are those with which the source reports, and those of the table of checks.
set -u

. tests/house/ok.sh
: "${BELLSHEET:=build/bellsheet}"
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT

# names FILE...: those with which the files report.
names()
{
    cat "$@" | tr '\n' ' ' >"$folder/source"
    grep -oE '(diag_error|diag_report|line_slip|line_mend)\([^;"]*"[^"%]*"' "$folder/source" | sed 's/.*"\(.*\)"/\1/'
    # Things that are looked for by name, and what is found on sheets.
    grep -oE 'resolver_find\([^;"]*"[a-z]+"' "$folder/source" | sed 's/.*"\(.*\)"/unknown-\1/'
    grep -oE '\[PROBLEM_[A-Z_]*\] = "[^"]*"' "$folder/source" | sed 's/.*"\(.*\)"/\1/'
    # What services are told in place of what the coach alone reads.
    grep -oE 'SERVICE_NAME\[\] = "[^"]*"' "$folder/source" | sed 's/.*"\(.*\)"/\1/'
}

names src/*/*.c | sort -u >"$folder/slips"
sed -n 's/^ *\(\(OVER\|UNDER\|PAIR\|DAY\|SENSE\)(\|{\)"\([a-z-]*\)",.*/\3/p' src/rules/table.c | sort >"$folder/checks"
sort -u "$folder/slips" "$folder/checks" >"$folder/all"
"$BELLSHEET" explain | sed -n 's/^  \([a-z-]*\)  *\(must\|warn\|info\)  .*/\1/p' | sort >"$folder/explained"
is "what can be found is explained" "" "$(comm -23 "$folder/all" "$folder/explained")"
is "what is explained can be found" "" "$(comm -13 "$folder/all" "$folder/explained")"
is "more than a few" yes "$([ "$(wc -l <"$folder/slips")" -gt 100 ] && [ "$(wc -l <"$folder/checks")" -gt 50 ] && echo yes)"
while read -r name; do
    "$BELLSHEET" explain "$name" | sed -n 1p | grep -q "^$name (" || echo "$name"
done <"$folder/explained" >"$folder/mute"
is "each has its page" "" "$(cat "$folder/mute")"

cat >"$folder/new.c" <<'END'
    diag_error(r->diag,
               "never-heard-of", node->span, "words");
END
is "a name that is new is seen" never-heard-of "$(names "$folder/new.c")"
has "a slip of spelling is answered" sets-twice "$("$BELLSHEET" explain set-twice 2>&1 | sed 's,.*did you mean,,')"
finish
