#!/bin/sh
# Only the coach's own screen shows how far somebody is above a division, without a word about what to do, and not for
# the young: they only get the referral.
set -u

. tests/house/ok.sh
: "${BELLSHEET:=build/bellsheet}"
program=$(realpath "$BELLSHEET")
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder" || exit 2

# plan GROUP MASS
plan()
{
    cat >plan.bell <<END
athlete Wren Holloway
    stance orthodox
    $1
session One
    straight A 1 set
        push-up : 5
camp Spring
    for     Wren Holloway
    starts  2027-03-01
    bout    2027-03-13 boxing 3 x 3:00
        division  63.5 kg
    week 1
        monday One
private Wren Holloway
    body mass 70 kg on 2027-02-01
    body mass $2 kg on 2027-02-22
    body mass 60 kg on 2027-03-10
END
}
shown() { "$program" show plan.bell --week 1 --date 2027-03-01 "$@" 2>/dev/null; }
plan 'lifting age advanced' 66.1
is "the last weighing, and how far above" \
    "  division of 63.5 kg: 66.1 kg on 2027-02-22, 2.6 kg above it; a doctor or a dietitian plans how weight is made" \
    "$(shown --private | grep division)"
is "nobody else hears of it" "" "$(shown | grep -E 'division|66|2\.6')"
is "nor does a program" "" "$(shown --format json | grep -E '66\.1|2\.6')"
is "nothing is said of losing" "" "$(shown --private | grep -iE 'lose|cut|drop')"
plan 'lifting age advanced' 63.5
has "at the division is not above it" "63.5 kg on 2027-02-22, not above it" "$(shown --private)"
plan 'age group under 18' 66.1
is "of the young nothing is said" "" "$(shown --private | grep division)"
plan 'lifting age advanced' 66.1
sed -i 's/63.5 kg/140 lb/' plan.bell
has "a division in pounds" "division of 140 lb:" "$(shown --private)"
sed -i 's/division  140 lb/division  140/' plan.bell
has "a mass has its unit" "[no-unit]" "$("$program" check plan.bell --date 2027-03-01 2>&1)"
finish
