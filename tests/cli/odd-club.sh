#!/bin/sh
# usage: BELLSHEET=build/bellsheet tests/cli/odd-club.sh
#
# The odd club of the golden sheets, with more that is rare: what is shown of it, added up, kept by `close` and printed for the
# coach. Each answer below was read and compared with the plan by hand.
set -u

. tests/house/ok.sh
program=$(realpath "$BELLSHEET")
odd=$(realpath tests/golden/sheets/odd.bell)
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder" || exit 1
mkdir club
cp "$odd" club/odd.bell

cat >club/more.bell <<'PLAN'
exercise odd hook
    kind skill
    pattern strike
    side per stance, rear hand
    loads shoulder 1
    joints none
    counts strikes
exercise odd kick
    kind skill
    pattern strike
    side per stance, rear leg
    joints none
    counts strikes
exercise odd knee
    kind skill
    pattern strike
    side per stance, lead leg
    joints none
    counts strikes
exercise odd bounce
    kind power
    pattern jump
    side both
    joints none
    counts contacts
exercise odd lunge
    kind strength
    pattern lunge
    side each side, leg
    loads front thigh 1
    joints knee deep
    counts reps
    weigh one hand
test odd throw
    unit          kg
    higher is better
    typical error 1 kg
    common practice
    retest        every 4 weeks
season 2028
    from  2028-01-03
    to    2028-12-24
athlete Pim *Ashdown*
    print in      Spanish
    avoid         right knee
        since     2027-02-10
        can do    odd lunge, odd knee, odd kick, odd hook, odd jab, odd combination, odd run, odd rope, odd row
        ended by  club physio on 2027-03-02
    bests
        odd squat : 2 @ 50 kg on 2027-01-20
    tests
        odd throw : 20 kg on 2027-02-01
        odd throw : 24 kg on 2027-03-01
        odd throw : 23 kg on 2027-03-29
athlete Quill Harrow
    trains at     Slipway
    stance        southpaw
    out since     2027-03-02
    hold head
        since     2027-03-02
limits Much
    based on Odd limits
    every week
        sets  within 4-140
session Odd pair
    superset A  2 sets rest 1:00
        odd row   : 8
        after 0:10
        odd lunge : 6 each side
        odd jab   : 10 strikes
camp Numbers
    for       Rook Pell
    starts    2027-04-05
    week 1
        monday    18:00  Odd pair
            drop  A.1
            add   A odd run : 20 m
session Odd record
    purpose keep all of it
    rounds A  2 x 3 x 1:00 rest 0:30 block rest 2:00
        keep 2
        on a poor day 2 rounds RPE 5
        odd hook : 5 rear hand + 3 lead hand
        round 2  : odd kick : 4 rear leg
    circuit B  2 rounds rest 1:00
        on a poor day 1 round
        odd knee  : 4 lead leg
        odd jab   : max
        odd lunge : 6 each side
        odd row   : 2 x 3 rest 15 s
    straight C  3 sets rest 1:00
        odd rope : max
        odd run  : 40 m in 0:10
        odd combination : 6 alternating stances
        odd row  : work up to a 3RM
            as a test
        odd row  : 8, 6, 5 @ RPE 6
            as a test
            cue chin over the hands
            stop the grip goes
        odd bounce : max
        odd row  : 5 @ 100% of body mass
        odd row  : 5 @ 8RM
        odd swing : 5 @ 12-16 kg
    straight E  1 set
        odd row  : 2 x 3 rest 15 s
    for time D  2 rounds in 6:00
        odd row  : 10
camp Record
    for       Pim *Ashdown*, Quill Harrow
    starts    2027-03-01
    limits    Much
    week 1
        monday    18:00  Odd record
        tuesday   18:00  Odd record
        thursday  08:00  By the sea
        friday    18:00  roadwork : 6 km in 40:00 RPE 4
        saturday  18:00  roadwork : 30 min @ pulse 120-140
PLAN
cat >club/private.bell <<'PLAN'
private Wren Holloway
    bests
        odd squat : 1 @ 120 kg on 2027-02-25
    avoid     odd rope
        since 2027-02-27
    body mass 64 kg on 2027-03-10
    body mass 63 kg on 2027-02-01
private Pim *Ashdown*
    tests
        odd hop : 155 cm left on 2027-03-02
        odd hop : 160 cm right on 2027-03-02
    return right knee
        since     2027-02-10
        step      1 work of the hip
            allows  hinge, brace
        step      2 to a box
            allows  squat
            when    pain at most 2 of 10, odd hop more than 90% of the other side
        step      3 all of it
            allows  lunge
        reached   1 by club physio on 2027-02-20
        ended by  club physio on 2027-03-02
    pain      right knee 1 of 10 on 2027-02-26
    morning   2027-02-22 : sleep 4, soreness 3, fatigue 4, stress 5, mood 4
PLAN

# ask ARGUMENTS...: what the program answers on 3 March, no-break spaces as spaces.
ask()
{
    "$program" "$@" --date 2027-03-03 2>said | sed 's,\xc2\xa0, ,g'
}

# --- shown ---

pim=$(ask show club --week 1 --athlete "Pim *Ashdown*" --session "Odd record")
has "rounds within rounds" "A  2 times (rounds · 3 × 1:00 · rest 0:30) · rest between 2:00 · 10:00 · keep 2 · on a poor day: 2 rounds, RPE 5" "$pim"
has "a circuit has rounds on a poor day, too" "circuit · 2 rounds · rest 1:00 · 5:30 · on a poor day: 1 round" "$pim"
has "the hand that strikes" "round 1: odd hook  5 strikes rear hand + 3 strikes lead hand  8 s a set" "$pim"
has "as many as possible of each stance" "max orthodox + max southpaw" "$pim"
has "pieces of a set" "2 × 3 rest 15 s" "$pim"
has "a distance in a time" "3 × 40 m in 0:10" "$pim"
has "an error of common practice has no source" "23 kg on 2027-03-29  typical error 1 kg common practice, no source  -1 kg since 2027-03-01" "$pim"
has "and its next day" "again by 2027-04-26" "$pim"
ask show club --on 2027-03-01 --lines >monday
has "each line says where it stands" "odd.bell:" "$(cat monday)"
has "discs of both units" "10 + 5 kg + 5 + 2.5 lb a side on barbell 20 kg, collars 2 x 0.5 kg" "$(cat monday)"
is "JSON keeps what is private" "" "$(ask show club --all --format json | grep -o '"load": 120')"
has "unless it is asked for" "120" "$(ask show club --all --format json --private | grep -A3 '"exercise": "odd squat"')"
has "phases that were left out" '"strength"' "$(ask show club --all --format json | grep -A2 left_out_phases | head -n 3)"

pair=$(ask show club --on 2027-04-05)
has "lines keep their numbers when the first is dropped" "A.2  odd lunge  2 × 6 each side" "$pair"
has "and one that is added has a number of its own" "A.4  odd run" "$pair"
is "the first that is left waits for nothing" "" "$(printf '%s' "$pair" | grep -o 'after 0:10')"
ask print club --on 2027-04-05 --sheet wall --out pair >said
has "the sheets number them as logs do" "A3 odd jab" "$(pdftotext -q -layout pair/*wall.pdf - | tr -s ' \n' ' ')"
away=$(ask show club --from 2027-03-01 --to 2027-03-07 --athlete "Pim *Ashdown*" --private)
has "the way back: the step on that day" "return right knee: step 1, work of the hip, since 2027-02-20 by club physio" "$away"
has "what the next one waits for" "step 2, to a box, waits for pain at most 2 of 10 (it was 1 of 10 on 2027-02-26, there); odd hop more than 90% of the other side (not tested on both sides)" "$away"
is "no other answer has it" "" "$(ask show club --all | grep -oE 'work of the hip|it was 1|155 cm')"
is "nor is a season without a day in it" 2027 "$(ask show club --all --format json | sed -n '/"seasons"/,/]/s/.*"name": "\(.*\)".*/\1/p')"

# --- a room ---

cp -r club room
cat >room/room.bell <<'PLAN'
limits Odd bodies
    based on Odd limits
    every week
        tonnage with throws, with body mass at most 300 kg warn
session Odd room
    rounds 4 x 1:00 rest 0:30
        odd rope : easy
    straight A 3 sets rest 2:00
        odd squat : 3 @ 85%
            for Marlo Quist : 5 @ 20 kg
            for Rook Pell : 5 @ 20 kg
    straight B 2 sets rest 1:00
        odd press from a stance : 4 own @ 10 kg
camp Room
    for       Marlo Quist, Rook Pell from 2027-05-01
    starts    2027-04-26
    limits    Odd bodies
    week 1
        thursday 18:00 Odd room
            late Marlo Quist by 3 min
camp Room of two
    for       Wren Holloway, Marlo Quist
    starts    2027-04-26
    limits    Odd bodies
    week 1
        friday   18:00 Odd room
            late Marlo Quist by 3 min
camp Room of three
    for       Wren Holloway, Marlo Quist, Rook Pell
    starts    2027-04-26
    week 1
        saturday 18:00 Odd room
PLAN
sed -i '/avoid     odd rope/,/since/d' room/private.bell
two=$(ask show room --on 2027-04-30)
has "a bar alone" "20 kg with bar  nothing on barbell 20 kg" "$two"
has "sets on the way up to a heavy one" "warm up × 1" "$two"
has "who comes late misses rounds" "2 rounds missed" "$two"
has "one disc, two discs" "(1 disc to change)" "$two"
has "of one of two only that one's hours" "Marlo Quist · done at" "$(ask show room --on 2027-04-30 --athlete "Marlo Quist")"
is "and not the other's" "" "$(ask show room --on 2027-04-30 --athlete "Marlo Quist" | grep -o 'Wren Holloway · done')"
has "the same for programs" '"rounds_missed": 2' "$(ask show room --on 2027-04-30 --format json --athlete "Marlo Quist" | grep missed)"
three=$(ask show room --on 2027-05-01)
has "a room that cannot do it says why" "3 x rope" "$three$(cat said)"
has "for programs, too" '"refused"' "$(ask show room --on 2027-05-01 --format json | grep refused)"
has "tonnage with the body is for the coach" "with body mass" "$(ask tally room --margin --private --week 1)"
is "and for nobody else" "" "$(ask tally room --margin --week 1 | grep -o 'with body mass')"

# --- a review ---

"$program" show club --review --all --date 2027-04-30 2>said >review.md
has "a name in Markdown" '### Pim \*Ashdown\*' "$(cat review.md)"
has "a bout without rules, and one with them" "Bout on 2027-03-26. Bout on 2027-04-17: kickboxing 3 x 2:00 rest 1:00." "$(cat review.md)"
is "a hold is for the coach alone, and so are private results" "> - odd hop left: 155 cm on 2027-03-02
> - odd hop right: 160 cm on 2027-03-02
> - held from 2027-03-02, not ended" \
    "$("$program" show club --review --all --private --date 2027-04-30 2>said | diff review.md - | grep '^[<>]')"
is "of one athlete it is that athlete's camps" "# Record" \
    "$(ask show club --review --week 1 --athlete "Pim *Ashdown*" | grep '^# ')"

# --- added up ---

has "of a limit the line that misses it" "odd.bell" "$(ask tally club --lines-of sets)"
has "time has a unit" '"unit": "min"' "$(ask tally club --lines-of time --format json)"
has "rounds by the clock, of a whole block" "Odd record, block A" "$(ask tally club --lines-of 'clock rounds' --athlete 'Pim *Ashdown*')"
for format in text csv json; do
    has "weeks as $format" "sparring rounds" "$(ask tally club --format $format)"
    has "margins as $format" "sparring rounds" "$(ask tally club --margin --format $format)"
done
"$program" tally club --from 2026-01-01 --to 2026-02-01 --date 2027-03-03 >none 2>&1
is "before the plan there is nothing to add up" 2 $?
has "one lift a week" "odd squat" "$(ask tally club --by lift --from 2027-03-01 --to 2027-03-14)"

# --- kept ---

cp -r club closed
"$program" close closed --until 2027-03-02 --date 2027-03-03 >said 2>&1
is "days gone by are kept" 0 $?
record=$(cat closed/record/2027-03.bell)
has "rounds within rounds" "    rounds A  2 x 3 x 1:00 rest 0:30 block rest 2:00
        keep 2
        on a poor day 2 rounds @ RPE 5" "$record"
has "a distance in a time" "odd run         : 3 x 40 m in 0:10" "$record"
has "stances in turn" "odd combination : 3 x 6 strikes alternating stances" "$record"
has "a test, a cue and a stop line of this day" "            as a test" "$record"
has "rounds against the clock" "for time D  2 rounds in 6:00" "$record"
# What is counted is the same, but for the last grams of discs in pounds.
for plan in club closed; do
    ask tally $plan --week 1 --athlete "Pim *Ashdown*" --format csv >$plan.csv
done
is "and counts as it did" "" "$(diff club.csv closed.csv)"

# --- printed for the coach ---

ask print club --on 2027-03-02 --sheet wall,board,card,card-page,floor,phone --coach --private --paper A3 --landscape --out day >names
is "a day of the odd club is printed" "" "$(grep 'error:' said | head -n 3)"
ask print club --month 2027-03 --athlete "Wren Holloway" --sheet week,bout,camp,tests,season,calendar --paper Tabloid --coach --private \
    --out month >>names
is "and a month of one athlete" "" "$(grep 'error:' said | head -n 3)"
is "each file is there" "" "$(while read -r name; do [ -s "$name" ] || echo "$name"; done <names)"
# pages PDF: its words on one line
pages() { pdftotext -q -layout "$1" - | sed 's/\xc2\xa0/ /g' | tr -s ' \n\f' ' '; }
has "the floor of a session tells who is on hold" "On hold: Quill Harrow." "$(pages day/2027-03-02-1800-odd-record-floor.pdf)"
ask print club --on 2027-03-04 --sheet wall,floor --landscape --coach --out thursday >names
has "on another day, too" "On hold: Quill Harrow." "$(pages thursday/*floor.pdf)"
ask print club --week 2027-W12 --athlete "Marlo Quist" --sheet week --out marlo >names
marlo=$(pages marlo/*week.pdf)
has "a week in two camps has the limits of both" "at most 30" "$marlo"
is "what both leave out stands there once" "" "$(printf '%s' "$marlo" | grep -o 'left out: strength; left out')"
has "those of the other" "at most 30 a side" "$marlo"
ask print club --week 2027-W10 --sheet monday --out head >names
has "who logged nothing did not do nothing" "last week 5 sessions planned, none logged" "$(pages head/*monday.pdf)"
season=$(echo month/*season.pdf)
is "a season is on American paper" 1 "$(pdfinfo "$season" | grep -c '1224 x 792 pts\|792 x 1224 pts')"
is "what is private is on no season" "" "$(pages "$season" | grep -oE '120 kg|odd rope')"
bouts=$(for file in month/*bout.pdf; do pages "$file"; done)
has "a bout without an hour" "Friday 26 March 2027 RPE 9–10." "$bouts"
is "and without a length" "" "$(printf '%s' "$bouts" | grep -o ' 0 min')"
has "a day without an hour in the calendar" "DTSTART;VALUE=DATE:20270326" "$(cat month/*calendar.ics)"
finish
