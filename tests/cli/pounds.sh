#!/bin/sh
# A gym in pounds: they lead on every sheet, in every message and every sum, and nothing is rounded to kilograms.
set -u

. tests/house/ok.sh
case $BELLSHEET in
/*) bellsheet=$BELLSHEET ;;
*) bellsheet=$(pwd)/$BELLSHEET ;;
esac
club=$(pwd)/examples/pounds
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder" || exit 1

# --- the example: every sheet, and what is said and summed ---

"$bellsheet" print "$club" --week 1 --out sheets --sheet wall,card,card-page,floor,week,camp --coach --index --date 2027-02-24 \
    >names 2>said
is "all sheets are printed" 0 $?
: >texts
while read -r name; do
    case $name in
    *.pdf) pdftotext -layout "$name" - ;;
    *) sed 's/<[^>]*>/ /g' "$name" ;;
    esac >>texts
done <names
{
    "$bellsheet" check "$club" --infos
    "$bellsheet" show "$club" --week 1
    "$bellsheet" tally "$club"
    "$bellsheet" tally "$club" --margin
    "$bellsheet" tally "$club" --lines-of tonnage
    for by in lift session day week; do "$bellsheet" tally "$club" --by $by; done
    "$bellsheet" limits "$club"
} >>texts 2>&1
is "no kilogram anywhere" "" "$(grep -nwi 'kg\|kilograms' texts said)"
has "loads are in pounds" "195" "$(pdftotext sheets/*turn-first-wall.pdf -)"
has "and so is the week, beside its limit" "at most 24000 lb" "$(pdftotext -layout sheets/*wren-holloway-week.pdf -)"
has "discs bear what is stamped on them" "discs: in pounds" "$(pdftotext -layout sheets/*turn-first-wall.pdf -)"
has "the bar too" "60 lb trap bar" "$(pdftotext -layout sheets/*pull-and-carry-wall.pdf -)"

# --- loads ---

# plan GYM LOAD [EXERCISE]: a plan of one athlete, in plan.bell
plan()
{
    printf 'gym Pier\n%s\n\nathlete Wren Holloway\n    stance orthodox\n    trains at Pier\n' "$1"
    printf '    bests\n        back squat : 5 @ 225 lb on 2027-02-20\n'
    printf '\nsession One\n    straight A 3 sets rest 2:00\n        %s : %s\n' "${3:-back squat}" "$2"
    printf '\ncamp Spring\n    for Wren Holloway\n    starts 2027-03-01\n    week 1\n        monday One\n'
} >plan.bell
bar='    barbells 45 lb
    stations rack
    plates 8 x 45, 4 x 25, 4 x 10, 4 x 5, 4 x 2.5 lb'

# errors: of plan.bell, on one line
errors()
{
    "$bellsheet" check plan.bell --color=never 2>&1 | grep -A9 ': error:' | grep -E 'error:|fix:' |
        sed 's/^plan.bell:[0-9:]* //; s/^ *fix/fix/' | paste -sd'|'
}

# made: how plan.bell is built
made()
{
    "$bellsheet" show plan.bell | sed -n 's/^ *A.1 *//p' | LC_ALL=C sed 's/\xc2\xa0/ /g; s/ \xc2\xb7 /, /g' | tr -s ' '
}

plan "$bar" "5 @ 180 lb"
is "180 lb are built" "" "$(errors)"
has "to the last digit" "180 lb with bar 45 + 10 + 10 + 2.5 lb a side on barbell 45 lb" "$(made)"
"$bellsheet" show plan.bell --format json >json
has "and so in figures" '"made_lb": 180' "$(cat json)"
plan "$bar" "5 @ 181 lb"
is "181 lb are not, and the nearest are offered" \
    'error: 181 lb for back squat cannot be made at Pier [load-cannot-be-made]|fix: write `180 lb`, the nearest that can be made' \
    "$(errors)"
plan "$bar" "5 @ 80%"
has "a share of a best in pounds is one in pounds" "80 % est., 210 lb with bar" "$(made)"
plan '    dumbbells pairs 10-80 lb by 5
    stations bench' "5 @ 2 x 40 lb" "dumbbell bench press"
is "dumbbells of 10 to 80 by 5 hold 40" "" "$(errors)"
plan '    unit lb
    barbells 20 kg
    stations rack
    plates 4 x 10, 4 x 45 lb, 4 x 5 kg' "5 @ 60%"
has "discs of both hang on one bar, each with its unit" "156.14 lb with bar 45 lb + 5 kg a side on barbell 20 kg" "$(made)"
plan '    kettlebells 16, 24 kg, 53 lb' "5 @ 24 kg" "goblet squat"
has "a bell has the mass that is stamped on it" "24 kg" "$(made)"
plan '    kettlebells 16, 24 kg, 53 lb' "5 @ 53 lb" "goblet squat"
has "whatever leads in the gym" "53 lb" "$(made)"

finish
