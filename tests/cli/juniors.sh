#!/bin/sh
# A room of the under-18, as a coach would try it: what the plan says is printed, nobody's age is on the wall, each card
# asks for a coach on every page, and what could hurt a child in it is refused before a sheet is made.
set -u

. tests/house/ok.sh
: "${BELLSHEET:=build/bellsheet}"
program=$(realpath "$BELLSHEET")
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT

is "the room is clean" "0 errors, 0 warnings 0" "$("$program" check --date 2027-03-01 examples/juniors 2>&1 |
    tail -n 1 | grep . || echo '0 errors, 0 warnings') $?"
for week in 1 6; do
    "$program" print examples/juniors --week $week --sheet wall,card,card-page,floor,week,parents,camp --date 2027-03-01 \
        --out "$folder/$week" >"$folder/names" 2>"$folder/said"
    is "week $week is printed" 0 $?
    is "week $week, every sheet" "$(sort "$folder/names" | uniq | wc -l)" "$(find "$folder/$week" -type f ! -name sheets.json | wc -l)"
done
"$program" print examples/juniors --week 1 --sheet floor --coach --out "$folder/coach" >/dev/null 2>&1
first=$(find "$folder/coach" -name '*03-01*floor.pdf')
has "the coach learns whom to stand beside" \
    "With a coach beside them when they lift: Wren Holloway, Tove Marrick, Ivo Castellane, Asha Penrose" \
    "$(pdftotext -layout "$first" - | tr -s ' ')"

# It is on every page of every card, and nothing that hangs or lies about has an age or a restriction on it.
pages=0
lacking=''
for card in "$folder"/[16]/*-card-page.pdf; do
    pages=$((pages + $(pdftotext "$card" - | grep -c 'Lift only with a coach beside you.')))
    lacking="$lacking$(pdftotext "$card" - | grep -c '^page ' | sed 's/^/ /')"
done
is "each page of a card asks for a coach" "$pages" "$(echo "$lacking" | tr ' ' '\n' | awk '{ sum += $1 } END { print sum }')"
is "there are such pages" yes "$([ "$pages" -gt 8 ] && echo yes)"
for sheet in "$folder"/[16]/*.pdf; do
    pdftotext "$sheet" - | grep -inE 'under 1[0-9]|years old|born|age group|novice|avoid|overhead' | sed "s|^|$(basename "$sheet"): |"
done >"$folder/ages"
is "nobody's age or restriction is on a sheet" "" "$(cat "$folder/ages")"

# A bout with its weigh-in, for parents: what has no length gives none, and who hits is no partner.
mkdir "$folder/bout"
cat >"$folder/bout/club.bell" <<'END'
gym Shed
    also has      4 x rope
athlete Pim Ashdown
    age group     under 18
    trains at     Shed
camp Spring
    for           Pim Ashdown
    starts        2027-03-01
    bout          2027-03-06 19:00 kickboxing 3 x 2:00 rest 1:00
        weigh-in  2027-03-05 17:00
    week 1
        tuesday   18:00  sparring : 2 x 2:00 RPE 5
END
"$program" print "$folder/bout" --week 1 --sheet parents --date 2027-03-01 --out "$folder/bout/o" >/dev/null 2>&1
pdftotext -layout "$folder/bout/o"/*parents.pdf "$folder/parents"
is "a weigh-in takes no minutes" "" "$(grep -w '0.min' "$folder/parents")"
has "opponents hit" "Opponents hit each other, and blows to the head can land." "$(cat "$folder/parents")"
has "partners spar" "at Shed. Partners hit each other, and blows to the head can land." "$(cat "$folder/parents")"

# try WHAT EDIT CHECK ATHLETE: with EDIT, a sed script, the plan fails by CHECK, and no sheet bears the ATHLETE's name.
try()
{
    rm -rf "$folder/club" "$folder/none"
    mkdir "$folder/club"
    sed "$2" examples/juniors/club.bell >"$folder/club/club.bell"
    has "$1 is reported" "[$3]" "$("$program" check --date 2027-03-01 "$folder/club" 2>&1 | grep ': error: ')"
    "$program" print "$folder/club" --week 1 --sheet wall,card-page --date 2027-03-01 --out "$folder/none" >/dev/null 2>&1
    is "$1: print fails" 1 $?
    is "$1: not for $4" "" "$(for sheet in "$folder"/none/*.pdf; do
        [ -e "$sheet" ] && pdftotext "$sheet" - | grep "$4" | grep -v "after.$4" # whose turn another's card names
    done)"
}
try "a heavy single" 's/8 @ 60%/1 @ 95%/' intensity-outside Ivo
try "five that are all that can be done" 's/goblet squat : 10 @ 8 kg RPE 6/goblet squat : 5 @ 8 kg RPE 10/' \
    intensity-outside Tove
try "a test of one repetition" 's/for novice, push-up *: 8 @ RPE 6/for Wren Holloway : work up to a 1RM/' lifts-over Wren
try "a hundred landings" 's/box jump *: 5/box jump : 50/; s/squat jump *: 5/squat jump : 50/' contacts-over Asha
try "twelve rounds of sparring" 's/light sparring *: 4 x/light sparring : 12 x/' sparring-over Ivo
try "an hour and a half" 's/straight C  *2 sets rest 1:00/straight C 2 sets rest 45:00/; s/under *55 min/under 3 h/' \
    time-over Ivo
finish
