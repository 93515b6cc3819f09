#!/bin/sh
# From a knock to the head to the end of the hold, day by day: what is said, and what is planned.
set -u

. tests/house/ok.sh
: "${BELLSHEET:=build/bellsheet}"
program=$(pwd)/$BELLSHEET
case $BELLSHEET in /*) program=$BELLSHEET ;; esac
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT

cat >"$folder/club.bell" <<'END'
athlete Tevita Sorrel
    stance        southpaw
athlete Oriel Tamsin
    stance        orthodox
session Mixed
    straight A  1 set
        stationary bike     : 10 min @ RPE 3
        jab                 : 10 southpaw @ RPE 5
        back squat          : 5 @ RPE 6
        squat jump          : 5 contacts @ RPE 5
        jab on the bag      : 10 southpaw @ RPE 5
        four-way neck hold  : hold 5 s each way @ RPE 4
        goblet squat        : 8 @ RPE 4
        pallof press        : 8 each side
limits Own
    every week
        sets  at most 99
            common practice
camp Spring
    for       Tevita Sorrel, Oriel Tamsin
    starts    2027-03-01
    limits    Own
    weeks 1-4
        monday, tuesday, wednesday, thursday, friday, saturday, sunday 18:00  Mixed
camp Second
    for       Tevita Sorrel
    starts    2027-03-01
    limits    Own
    weeks 1-4
        saturday  10:00  light sparring : 4 x 2:00 RPE 5
        sunday    10:00  travel : 2 h
END
cp "$folder/club.bell" "$folder/kept"
before='reached 2a by club physio on 2027-03-03
reached 2b by club physio on 2027-03-04
reached 3 by club physio on 2027-03-05
reached 4 by club physio on 2027-03-06'

# held LINES BELOW: the club with a hold from 1 March, LINES in it, and BELOW below the athlete.
held()
{
    {
        sed '/southpaw$/q' "$folder/kept"
        [ -z "${2:-}" ] || printf '    %s\n' "$2"
        printf '    hold head\n        since     2027-03-01 19:00\n'
        [ -z "$1" ] || printf '%s\n' "$1" | sed 's/^/        /'
        sed '1,/southpaw$/d' "$folder/kept"
    } >"$folder/club.bell"
}

# check DAY: what is said on DAY; planned DAY: what Tevita does on that day, as far as it is known then.
check()
{
    "$program" check --date "$1" "$folder" 2>&1
    echo "exit $?"
}
planned()
{
    "$program" show "$folder" --date "$1" --on "$1" --athlete "Tevita Sorrel" 2>/dev/null |
        grep -oE 'stationary bike|jab on the bag|jab|back squat|squat jump|four-way neck hold|goblet squat|pallof press|sparring|travel' |
        sort -u | paste -sd, -
}

# --- a hold in the plan ---

held ""
said=$(check 2027-03-02)
has "all training is barred" "Tevita Sorrel is on hold, but has Mixed on 2027-03-02 [hold-broken]" "$said"
has "in every camp" "Tevita Sorrel is on hold, but has light sparring on 2027-03-06 [hold-broken]" "$said"
is "what is no training is not" "" "$(printf '%s\n' "$said" | grep 'has travel')"
has "and fails" "exit 1" "$said"
is "others are free" "" "$(printf '%s\n' "$said" | grep 'Oriel.*on hold')"
is "nothing is planned" "" "$(planned 2027-03-02)"
is "but what is no training" travel "$(planned 2027-03-07)"
is "the session before its hour is history" "" "$(check 2027-03-01 | grep 'on 2027-03-01 \[hold')"

# --- out ---

held "" "out since 2027-03-01"
said=$(check 2027-03-02)
has "who is out is out without an error" "exit 0" "$said"
is "and does nothing" "" "$(planned 2027-03-02)"
is "out alone plans nothing either" "" "$(sed '/hold head/,/since     /d' "$folder/club.bell" >"$folder/plain"
    mv "$folder/plain" "$folder/club.bell"; planned 2027-03-02)"
has "and is no error" "exit 0" "$(check 2027-03-02)"

# --- step by step ---

held "$before
agreed by doctor Ines Tarrant on 2027-03-08
reached 5 by doctor Ines Tarrant on 2027-03-09
ended by doctor Ines Tarrant on 2027-03-12" "out since 2027-03-01"
is "step 1 allows nothing" "" "$(planned 2027-03-02)"
is "2a" "stationary bike" "$(planned 2027-03-03)"
is "2b: light resistance, at its effort" "goblet squat,stationary bike" "$(planned 2027-03-04)"
is "3: the sport, alone" "back squat,goblet squat,jab,stationary bike" "$(planned 2027-03-05)"
is "4: no bag, no neck, no jumps before a doctor agrees" "back squat,goblet squat,jab,pallof press,stationary bike" \
    "$(planned 2027-03-07 | sed 's/,travel//')"
is "4, agreed" "back squat,four-way neck hold,goblet squat,jab,jab on the bag,pallof press,squat jump,stationary bike" \
    "$(planned 2027-03-08)"
is "5: all training" "back squat,four-way neck hold,goblet squat,jab,jab on the bag,pallof press,squat jump,stationary bike" \
    "$(planned 2027-03-10)"
has "an end lets the plan be told that out is over" "[out-outlasts-hold]" "$(check 2027-03-12)"
sed -i 's/^    out since 2027-03-01/&\n        until 2027-03-11/' "$folder/club.bell"
is "and then nothing more is said" "exit 0" "$(check 2027-03-12 | tail -n 1)"
has "sparring is back" sparring "$(planned 2027-03-13)"

# --- symptoms ---

held "$before" "out since 2027-03-01"
printf 'private Tevita Sorrel\n    hold head\n        symptoms on 2027-03-04\n' >"$folder/private.bell"
is "symptoms: nothing more that day" "" "$(planned 2027-03-04)"
is "and the step once more" "goblet squat,stationary bike" "$(planned 2027-03-05 | sed 's/,travel//')"
has "the next came too soon now" "this entry does not count" "$(check 2027-03-06)"
sed -i 's/on 2027-03-04/on 2027-03-06/' "$folder/private.bell"
is "from 4 on it is 3 again" "back squat,goblet squat,jab,stationary bike" "$(planned 2027-03-07 | sed 's/,travel//')"
held "$before"
has "a copy without them would plan more" "the plan has to say \`out since 2027-03-06\` [out-missing]" "$(check 2027-03-07)"
held "$before" "out since 2027-03-06"
is "and the line says enough" 0 "$(check 2027-03-07 | grep -c out-missing)"

# --- a hold in the private file alone ---

cp "$folder/kept" "$folder/club.bell"
printf 'private Tevita Sorrel\n    head knock on 2027-03-01 19:00\n    hold head\n        since 2027-03-01 19:00\n' \
    >"$folder/private.bell"
said=$(check 2027-03-02)
has "it demands a line in the plan" "the plan has to say \`out since 2027-03-01\` [out-missing]" "$said"
has "and fails" "exit 1" "$said"
sed -i '/^athlete Tevita/s/$/\n    out since 2027-03-01/' "$folder/club.bell"
is "with it all is well" "exit 0" "$(check 2027-03-02 | tail -n 1)"
sed -i '/hold head/,$d' "$folder/private.bell"
has "a knock without a hold is an error" "[knock-without-hold]" "$(check 2027-03-02)"
rm "$folder/private.bell"
is "a copy plans nothing" "" "$(planned 2027-03-05)"

# --- what is done ---

held ""
cat >>"$folder/club.bell" <<'END'
log 2027-03-01 18:00 Tevita Sorrel, Mixed
    took  20 min RPE 5
END
is "what was logged before its hour is no breach" 0 "$(check 2027-03-02 | grep -c breached)"
cat >>"$folder/club.bell" <<'END'
log 2027-03-02 Tevita Sorrel, Mixed
    took  20 min RPE 5
log 2027-03-03 Tevita Sorrel, Mixed
    took  20 min RPE 5
END
said=$(check 2027-03-05)
is "breaches of days gone by are reported once" 1 "$(printf '%s\n' "$said" | grep -c 'breached]')"
is "and are no errors" 0 "$(printf '%s\n' "$said" | grep -c 'error.*2027-03-0[23] \[hold')"
held "$before
agreed by doctor Ines Tarrant on 2027-03-08
reached 5 by doctor Ines Tarrant on 2027-03-09
ended by doctor Ines Tarrant on 2027-03-12"
printf 'log 2027-03-02 Tevita Sorrel, Mixed\n    took  20 min RPE 5\n' >>"$folder/club.bell"
is "nor for ever" 0 "$(check 2027-03-12 | grep -c 'breached]')"

# --- suspensions ---

cp "$folder/kept" "$folder/club.bell"
sed -i '/^athlete Tevita/s/$/\n    suspended by the commission\n        no contact before 2027-03-21/' "$folder/club.bell"
said=$(check 2027-03-02)
has "no sparring while suspended" "is suspended by the commission, but has light sparring on 2027-03-06 [suspension-broken]" "$said"
is "all else may be done" 1 "$(printf '%s\n' "$said" | grep -c suspension-broken)"
is "from its day on" 0 "$(check 2027-03-21 | grep -c suspension-broken)"
sed -i 's/before 2027-03-21/until further notice/' "$folder/club.bell"
has "or until further notice" "[suspension-broken]" "$(check 2027-03-27)"
held "" "suspended by the commission
        no contact before 2027-03-02"
has "its passing ends no hold" "Tevita Sorrel is on hold" "$(check 2027-03-05)"
finish
