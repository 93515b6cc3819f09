#!/bin/sh
# The table of `make coverage` adds up the files of each room, and fails below a floor.
set -u

. tests/house/ok.sh
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT

# files TAKEN: a table of files in which of 1,000 branches of the rules TAKEN are reached.
files()
{
    cat <<END
filename,line_total,line_covered,line_percent,branch_total,branch_covered,branch_percent
src/rules/one.c,10,10,1.0,600,600,1.0
src/rules/two.c,30,20,0.666,400,$(($1 - 600)),0.9
src/limits/one.c,5,5,1.0,20,20,1.0
src/figures/one.c,5,5,1.0,5000,5000,1.0
END
}
files 999 >"$folder/good.csv"
files 900 >"$folder/bad.csv"
is "what is above its floor passes" 0 "$(tests/coverage-table "$folder/good.csv" >"$folder/table" 2>&1; echo $?)"
has "a room's files are added up" "| rules | 40 | 75.0 % | 1000 | 1 | 99.9 % |" "$(cat "$folder/table")"
has "and the rooms" "| all | 50 | 80.0 % | 6020 | 1 | 99.9 % |" "$(cat "$folder/table")"
is "rooms stand in the order of their names" "figures limits rules all" \
    "$(awk -F ' *[|] *' 'NR > 2 { print $2 }' "$folder/table" | tr '\n' ' ' | sed 's/ $//')"
is "what is below its floor fails" 1 "$(tests/coverage-table "$folder/bad.csv" >"$folder/table" 2>&1; echo $?)"
has "and is named" "of rules fewer branches are reached than" "$(cat "$folder/table")"
grep -v figures "$folder/good.csv" >"$folder/less.csv"
is "a room that is not there fails" 1 "$(tests/coverage-table "$folder/less.csv" >"$folder/table" 2>&1; echo $?)"
finish
