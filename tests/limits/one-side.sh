#!/bin/sh
# A restriction of one side, joint and demand: what stays is worked out by hand from the stance ledger, and by every way
# that work comes into a session nothing gets through that is barred. Southpaw is right hand and right foot in front.
set -u

. tests/house/ok.sh
: "${BELLSHEET:=build/bellsheet}"
program=$(realpath "$BELLSHEET")
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder" || exit 2

cat >plan.bell <<'END'
gym Boat shed
    barbells      20 kg
    plates        4 x 20, 4 x 10, 4 x 5, 4 x 2.5 kg
    dumbbells     pairs 4-30 kg by 2
    stations      rack, box, bench, heavy bag
athlete Nils Ferrow
    stance        southpaw
    lifting since 2020-01
    trains at     Boat shed
    avoid         right knee deep
        since  2027-02-01
    avoid         left hand impact
        since  2027-02-01
session Own work
    straight A  2 sets rest 1:30
        step-in lunge from a stance : 4 orthodox + 2 southpaw
    straight B  2 sets rest 1:30
        single leg squat to a box : 6 each side
    straight C  2 sets rest 1:30
        single leg squat to a box : 5, 6 right
    straight D  2 sets rest 1:00
        cross on the bag : 6 each stance
    straight E  2 sets rest 1:00
        jab on the bag : 6 each stance
    straight F  2 sets rest 1:00
        one arm dumbbell row : 8 each side @ 10 kg
camp Spring
    for     Nils Ferrow
    starts  2027-03-01
    week 1
        monday  Own work
END
# The lead leg works: left in orthodox stance. The rear hand of a southpaw is the left one.
shown=$("$program" show plan.bell --week 1 --date 2027-03-01 2>/dev/null)
line() { printf '%s\n' "$shown" | sed -n "s/^ *$1  *//p" | sed 's/\xc2\xa0/ /g; s/  */ /g'; }
is "the stance whose lead leg is the left one stays" \
    "step-in lunge from a stance 2 × 4 orthodox 12 s a set · right side left out" "$(line A.1)"
is "the left side stays" "single leg squat to a box 2 × 6 left 18 s a set · right side left out" "$(line B.1)"
is "the right hand's cross stays" "cross on the bag 2 × 6 strikes orthodox 6 s a set · left side left out" "$(line D.1)"
is "the right hand's jab stays" "jab on the bag 2 × 6 strikes southpaw 6 s a set · left side left out" "$(line E.1)"
is "work of another joint is whole" "one arm dumbbell row 2 × 8 each side 10 kg one hand 48 s a set" "$(line F.1)"
has "where nothing is left the line is an error" "has to avoid right knee deep, but C.1 single leg squat to a box asks for it" \
    "$("$program" check plan.bell --date 2027-03-01 2>&1)"

# The ledger of what stays: no right leg in A and B (2 x 4 and 2 x 6 on the left), no left hand in D and E.
sed '/straight C/,/6 right/d' plan.bell >stays.bell
is "the stays plan has no error" "0 errors" "$("$program" check stays.bell --date 2027-03-01 2>&1 | sed -n 's/^\([0-9]* errors*\),.*/\1/p')"
shown=$("$program" show stays.bell --week 1 --date 2027-03-01 2>/dev/null)
is "reps of the left leg and of no right one" "8 - 12 20" "$(line 'reps  *left leg')"
is "no row for the right leg" "" "$(line 'reps  *right leg')"
is "strikes of the right hand alone" "12 12 - 24" "$(line 'strikes  *right hand')"
is "none of the left" "" "$(line 'strikes  *left hand')"

"$program" print stays.bell --week 1 --date 2027-03-01 --sheet wall,card-page,floor --out out >said 2>&1
is "they are printed" "0" $?
[ -d out ] || cat said
text=$(for sheet in out/*.pdf; do pdftotext -raw "$sheet" - | sed 's/\xc2\xa0/ /g'; done | tr '\n' ' ')
has "the card says which side is left out" "right side left out" "$text"
is "no sheet says why" "" "$(printf '%s' "$text" | grep -oiE 'avoid|restriction|knee deep|impact' | sort -u)"

# Every way into a session: a line, a variant, a change, an addition, what replaces missing kit, an easier form, a warm-up,
# an activity. Each of these is barred to both sides, or to all that the line asks for.
barred()
{
    has "$1" "[avoid-broken]" "$("$program" check "$2" --date 2027-03-01 2>&1)"
}
into()
{
    sed "/straight B/,/each side @ 10 kg/d; s/4 orthodox + 2 southpaw/4 orthodox/" plan.bell >way.bell
}
into && sed -i "s/^        step-in.*/        split squat : 5 each side/" way.bell
barred "a line whose other knee bends as deep" way.bell
into && sed -i "s/^        step-in.*/&\n            for Nils Ferrow, bodyweight squat : 8/" way.bell
barred "a variant" way.bell
into && sed -i "s/^        monday.*/&\n            change A.1 : 2 southpaw/" way.bell
barred "a change" way.bell
into && sed -i "s/^        monday.*/&\n            add A goblet squat : 8 @ 12 kg/" way.bell
barred "an addition" way.bell
into && sed -i "s/^        step-in.*/        safety bar squat : 5 @ 40 kg/" way.bell
barred "what replaces missing kit" way.bell
into && sed -i "s/^    straight A.*/    rounds  2 x 2:00 rest 0:30\n        continuous squat : easy\n&/" way.bell
barred "a warm-up round" way.bell
into && sed -i "s/^        monday.*/&\n        tuesday 18:00 bag rounds : 4 x 2:00 RPE 6/" way.bell
barred "an activity" way.bell
into && sed -i "s/^        step-in.*/        single leg hop and stick : 3 each side\n            as a test/; s/right knee deep/right knee impact/" way.bell
is "a test is work: the other side alone is tested" "3 contacts left" \
    "$("$program" show way.bell --week 1 --date 2027-03-01 2>/dev/null | sed 's/\xc2\xa0/ /g' | grep -o '3 contacts [a-z ]*[a-z]')"
into && sed -i "s/^        step-in.*/        countermovement jump : 3\n            as a test/; s/right knee deep/right knee impact/" way.bell
barred "a test on both legs" way.bell
into && sed -i "s/^    straight A.*/&\n        on a poor day  1 set/; s/^        step-in.*/        split squat : 5 each side/" way.bell
barred "a line that has less on a poor day" way.bell
into && sed -i "s/right knee deep/strike/; s/^        monday.*/&\n        tuesday 18:00 pads : 30 min RPE 6/" way.bell
barred "an activity that strikes, where striking is barred" way.bell
into
is "and the way itself is clear" "0 errors" "$("$program" check way.bell --date 2027-03-01 2>&1 | sed -n 's/^\([0-9]* errors*\),.*/\1/p')"
finish
