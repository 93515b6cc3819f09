#!/bin/sh
# The table of `make coverage` adds up the files of each room, and fails below a floor.
set -u

. tests/house/ok.sh
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT

# files BRANCHES LINES: a table of files in which of 1,000 branches of the rules BRANCHES are reached, and of 500 lines of
# the figures LINES.
files()
{
    cat <<END
filename,line_total,line_covered,branch_total,branch_covered
src/rules/one.c,10,10,600,600
src/rules/two.c,30,29,400,$(($1 - 600))
src/limits/one.c,5,5,20,20
src/figures/one.c,500,$2,5000,5000
END
}
files 999 500 >"$folder/good.csv"
files 900 500 >"$folder/bad.csv"
files 999 400 >"$folder/lines.csv"
is "what is above its floor passes" 0 "$(tests/coverage-table "$folder/good.csv" >"$folder/table" 2>&1; echo $?)"
has "a room's files are added up" "| rules | 40 | 97.5 % | 1000 | 1 | 99.9 % |" "$(cat "$folder/table")"
has "and the rooms" "| all | 545 | 99.8 % | 6020 | 1 | 99.9 % |" "$(cat "$folder/table")"
is "rooms stand in the order of their names" "figures limits rules all" \
    "$(awk -F ' *[|] *' 'NR > 2 { print $2 }' "$folder/table" | tr '\n' ' ' | sed 's/ $//')"
is "what is below its floor fails" 1 "$(tests/coverage-table "$folder/bad.csv" >"$folder/table" 2>&1; echo $?)"
has "and is named" "of rules fewer branches are reached than" "$(cat "$folder/table")"
is "so does the whole where too few lines are reached" 1 \
    "$(tests/coverage-table "$folder/lines.csv" >"$folder/table" 2>&1; echo $?)"
has "which is said" "fewer lines are reached than" "$(cat "$folder/table")"
grep -v figures "$folder/good.csv" >"$folder/less.csv"
is "a room that is not there fails" 1 "$(tests/coverage-table "$folder/less.csv" >"$folder/table" 2>&1; echo $?)"
finish
