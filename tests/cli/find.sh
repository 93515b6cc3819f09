#!/bin/sh
# bellsheet find: by name, other name, pattern, kit, region, limb, position and lifting age; in one gym; the club's own.
set -u

. tests/house/ok.sh
: "${BELLSHEET:=build/bellsheet}"
program=$(realpath "$BELLSHEET")
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
mkdir "$folder/empty" "$folder/club"

cat >"$folder/club/club.bell" <<'END'
gym Slipway annexe
    dumbbells  pairs 4-20 kg by 2
    bands      light
    stations   bench

exercise rope hoist
    also known as  bucket hoist
    kind           strength
    pattern        pull
    side           each side, hand
    position       overhead
    lifting age    intermediate
    needs          hoist
    loads          upper back 1, arm 0.5
    cue            hand over hand
    without        hoist, one arm dumbbell row

exercise landmine row
    replaces    landmine row
    kind        strength
    pattern     pull
    loads       upper back 1
    cue         as the old hands do it
END

# look FOLDER WORDS...: what is found from there.
look()
{
    from=$1
    shift
    "$program" -C "$folder/$from" find "$@"
}

# names FOLDER WORDS...: the names of what is found, in full or line by line.
names()
{
    look "$@" | sed -n '/^[0-9]* exercises; /d; s/^\([^ ].*[^ ]\)  *[a-z ]*; .*/\1/p; s/^\([^ ;]*\( [^ ;]\{1,\}\)*\)$/\1/p' |
        grep . | sed 's/  .*//'
}

# all_say PATTERN FOLDER <NAMES: the names whose entry says nothing like it.
all_say()
{
    words=$1
    from=$2
    while read -r name; do
        look "$from" "$name" | awk -v name="$name" '
            $0 == name { found = 1 } /^$/ { found = 0 } found' | grep -q "$words" || echo "$name"
    done
}

# --- as a coach reads it ---

is "an entry in full" "trap bar deadlift
    strength: hinge, squat; both sides at once; counted in reps
    also       hex bar deadlift
    joints     spine loaded, hip deep, hip loaded, knee loaded, ankle, hand loaded, shoulder
    needs      trap bar, plates
    loads      hips, grip 0.5, low back 0.5, front thigh 0.5, back thigh 0.5, upper back 0.25
    kilograms  bar and plates
    cue        push the floor away
               take the slack out before it leaves
               chest and hips rise as one
    fault      hips shoot up first
      fix      lighten it and pause just off the floor
    stop if    the low back rounds or a rep grinds to a stop
    easier     kettlebell deadlift
    harder     conventional deadlift
    without    trap bar: raised barbell deadlift" "$(look empty hex bar deadlift | sed 's/\xc2\xa0/ /g')"
has "a limb that strikes twice" "from a stance: lead hand twice, rear hand" "$(look empty jab cross hook)"
has "whose best a percentage is of" "percent of trap bar deadlift × 0.3" \
    "$(look empty trap bar jump | sed 's/\xc2\xa0/ /g')"
has "landings, not contacts" "counted in landings" "$(look empty depth jump)"
has "kit that one exchange answers is reported once" "without    bench, partner: prone back hold" \
    "$(look empty back extension hold)"
has "four ways" "four ways" "$(look empty four-way neck hold)"

# --- by what it is found ---

is "by name, nearest first" "front squat" "$(look empty front squat | head -n 1)"
has "then the others, line by line" "double kettlebell front squat   " "$(look empty squat front)"
is "by another name" "rear foot raised split squat" "$(names empty rfess)"
has "by another name, in capitals" "nordic lower" "$(look empty NORDIC Curl)"
got=$(names empty hinge)
has "by pattern" "romanian deadlift" "$got"
has "by pattern, not the main one" "bent over row" "$got"
got=$(names empty landmine)
has "by kit" "half kneeling landmine press" "$got"
is "and each of them needs it" "" "$(echo "$got" | grep -v '^landmine row$' | all_say 'needs .*landmine' empty)"
got=$(names empty low back)
is "by a region of two words: all load it" "" "$(echo "$got" | all_say 'loads .*low back' empty)"
has "and one that does is found" "good morning" "$got"
is "a kick named low is not one of them" "" "$(echo "$got" | grep -x 'rear low kick')"
is "by limb" "" "$(names empty rear hand throw | all_say 'rear hand' empty)"
got=$(names empty split stance)
has "what is done from a stance" "landmine press from a stance" "$got"
has "a stance that no name says" "cross on the bag" "$got"
has "and what is called so" "split stance hinge" "$got"
is "each is one or the other" "" "$(echo "$got" | grep -v 'split stance' | all_say 'from a stance' empty)"
is "with another word" "" "$(names empty split stance throw | all_say 'throw' empty)"
has "a stance alone is asked for as well" "rear hand ball throw" "$(names empty stance throw)"
is "by position" "" "$(names empty kneeling | all_say 'position .*kneeling\|^kneeling' empty)"
has "by kind" "dead bug" "$(names empty strength brace)"

# --- by lifting age ---

novice=$(names empty novice jump)
has "what a novice may be given" "squat jump" "$novice"
is "is not what is for the advanced" "" "$(echo "$novice" | grep 'depth jump\|hurdle jump')"
has "who is intermediate has more" "hurdle jump" "$(names empty intermediate jump)"
is "but not that" "" "$(names empty intermediate jump | grep 'depth jump')"
got=$(names empty advanced jump)
has "the advanced have it" "depth jump" "$got"
has "and all that comes before" "squat jump" "$got"
is "what is for them comes first" "barbell squat jump" "$(echo "$got" | head -n 1)"
has "the entry says so" "; for the advanced" "$(look empty depth jump)"

# --- in a gym, and the club's own ---

got=$(names club row --kit 'Slipway annexe')
has "what can be done there" "chest supported row" "$got"
is "and nothing that cannot" "" "$(echo "$got" | grep 'cable\|towel\|inverted row$')"
has "without words, all of it" "bodyweight squat" "$(names club --kit 'slipway annexe')"
is "no barbell is there" "" "$(names club --kit 'Slipway annexe' | grep 'barbell\|back squat')"
has "the club's own" "; from intermediate on; the club's own" "$(look club bucket)"
is "what it has no kit for is left out" "1" "$(look club bucket --kit 'Slipway annexe' >/dev/null 2>&1; echo $?)"
got=$(look club landmine row)
has "what replaces an entry is found" "as the old hands do it" "$got"
is "and what it replaces is not" "1" "$(echo "$got" | grep -c '^landmine row')"

# --- what stands in ---

mkdir "$folder/hurt"
cat >"$folder/hurt/plan.bell" <<'END'
gym Boat shed
    barbells    20 kg
    plates      4 x 20, 4 x 10 kg
    dumbbells   pairs 4-20 kg by 2
    kettlebells 12, 16 kg
    stations    rack, bench
athlete Ada Finch
    lifting age novice
    trains at   Boat shed
    avoid       knee deep
        since   2027-02-01
athlete Nils Ferrow
    lifting since 2020-01
    trains at   Boat shed
    hold head
        since   2027-02-20
END
asked=$(look hurt instead of back squat for Ada Finch --date 2027-03-01 2>&1)
has "what stands in is listed" "instead of back squat for Ada Finch, at Boat shed" "$asked"
names=$(printf '%s\n' "$asked" | sed -n 's/^    \([^ ].*[^ ]\)   .*/\1/p' | sed 's/   .*//')
is "several do" "yes" "$([ "$(printf '%s\n' "$names" | grep -c .)" -ge 3 ] && echo yes)"
printf '%s\n' "$names" | while read -r name; do
    look empty "$name" | grep -A20 -xF "$name" | sed '2,${/^[a-z]/,$d}'
done >"$folder/entries"
is "none bends the knee deep" "" "$(grep -E '^    (joints|both sides|position) .*knee deep' "$folder/entries")"
is "none is for later" "" "$(grep -E 'from intermediate on|for the advanced' "$folder/entries")"
is "none wants what the gym has not" "" "$(grep -E '^    needs .*(trap bar|landmine|safety bar|rings|box)' "$folder/entries")"
has "and what each loses is said" "; loses " "$asked"
has "who decides is said" "Whoever treats the athlete decides" "$asked"
has "nobody on hold gets a list" "nothing that comes near it" "$(look hurt instead of back squat for Nils Ferrow --date 2027-03-01 2>&1)"
has "anybody may ask" "safety bar squat" "$(look empty instead of back squat 2>&1)"
has "an exercise that is none" "there is no exercise called \`back squash\`" "$(look hurt instead of back squash 2>&1)"

# --- what it returns ---

look empty jab >/dev/null
is "found" 0 $?
got=$(look empty zeppelin 2>&1)
is "nothing found" "1:nothing on the shelf or in this folder fits all of these words" "$?:$got"
got=$(look empty 2>&1)
is "nothing asked" "2:bellsheet: error: say what to look for: \`bellsheet find landmine press\`" "$?:$got"
got=$(look club row --kit Nowhere 2>&1)
is "no such gym" "2:bellsheet: error: there is no gym called \`Nowhere\` in this folder" "$?:$got"

finish
