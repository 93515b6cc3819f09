#!/bin/sh
# share/ci/federation.mk: many clubs checked at once, whole or in shares, and one report of all.
set -u

. tests/house/ok.sh
: "${BELLSHEET:=build/bellsheet}"
case $BELLSHEET in
/*) program=$BELLSHEET ;;
*) program=$(pwd)/$BELLSHEET ;;
esac
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT

mkdir "$folder/clubs" "$folder/clubs/broken" "$folder/clubs/away" "$folder/clubs/notes"
cp -r examples/first examples/over-limit "$folder/clubs"
echo athlete >"$folder/clubs/broken/a.bell"
ln -s nowhere "$folder/clubs/away/a.bell"
cp share/ci/federation.mk "$folder/clubs"

# clubs ARGUMENTS...: prints make's status.
clubs()
{
    (cd "$folder/clubs" && make -f federation.mk -j2 "$@" BELLSHEET="$program" >"$folder/said" 2>&1)
    echo $?
}

is "a federation with faults fails" 2 "$(clubs check-clubs)"
errors=$(jq .counts.errors "$folder/clubs/reports/over-limit.json")
warnings=$(jq .counts.warnings "$folder/clubs/reports/over-limit.json")
is "each club is named, the worst first" "| Club | Errors | Warnings |
|---|---:|---:|
| away | could not be checked | |
| over-limit | $errors | $warnings |
| broken | 1 | 0 |
| first | 0 | 0 |" "$(cat "$folder/clubs/reports/clubs.md")"
has "why one could not be checked is kept" "no plan" "$(cat "$folder/clubs/reports/away.said")"

merged=$folder/clubs/reports/clubs.sarif
is "one log has all the runs, each in a category of its own" "bellsheet/broken/ bellsheet/first/ bellsheet/over-limit/" \
    "$(jq -r '[.runs[].automationDetails.id] | join(" ")' "$merged")"
is "and all that was found" "$(cat "$folder"/clubs/reports/*.json | jq -s '[.[].findings | length] | add')" \
    "$(jq '[.runs[].results | length] | add' "$merged")"
is "its places are those of the federation" "over-limit/" "$(jq -r '.runs[2].results[0].locations[0].physicalLocation
    .artifactLocation.uri' "$merged" | grep -o '^[a-z-]*/')"

whole=$(cat "$folder/clubs/reports/clubs.md" "$merged" | cksum)
rm -r "$folder/clubs/reports"
is "one machine's share does not fail" 0 "$(clubs report-clubs PART=1 PARTS=2)"
is "it leaves the others'" "away first" "$(cd "$folder/clubs/reports" && echo *.status | sed 's/\.status//g')"
is "a share that is missing shows" 0 "$(clubs sum-clubs)"
has "by name" "| broken | was not checked | |" "$(cat "$folder/clubs/reports/clubs.md")"
is "and fails" 2 "$(clubs verdict-of-clubs)"
is "the second machine's" 0 "$(clubs report-clubs PART=2 PARTS=2)"
clubs sum-clubs >/dev/null
is "shares gathered are the whole" "$whole" "$(cat "$folder/clubs/reports/clubs.md" "$merged" | cksum)"

rm -r "$folder/clubs/broken" "$folder/clubs/away" "$folder/clubs/over-limit"
is "a federation without faults passes" 0 "$(clubs check-clubs)"
is "and forgets the clubs that are gone" "| first | 0 | 0 |" "$(sed 1,2d "$folder/clubs/reports/clubs.md")"

finish
