#!/bin/sh
# What logs say, against the works that it comes from, got as a user gets it: a plan, a command and what it prints.
set -u

. tests/house/ok.sh
program=$(realpath "$BELLSHEET")
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder" || exit 2

# --- a week's load, monotony and strain ---
# Daily loads of three weeks of a rugby sevens team: table 2 of PMC10230214. Monotony and strain: Foster 1998, Med Sci
# Sports Exerc 30:1164-1168, by the deviation of a sample; the results are ours.

# week LOADS LIMITS: in plan.bell a week of the daily LOADS, as minutes of RPE 10; a load with a ? may be left out
week()
{
    {
        printf 'athlete Wren Holloway\n    stance orthodox\nactivity field\n    contact none\n'
        printf 'limits Ours\n    every week\n%s\n' "${2:-        monotony at most 100}"
        printf 'camp Spring\n    for Wren Holloway\n    starts 2027-03-01\n    limits Ours\n    week 1\n'
        set -- $1
        for day in monday tuesday wednesday thursday friday saturday sunday; do
            load=$1
            shift
            [ "$load" != 0 ] || continue
            printf '        %s 10:00 field : %d min RPE 10\n' "$day" "$((${load%[?]} / 10))"
            [ "${load%[?]}" = "$load" ] || printf '            optional\n'
        done
    } >plan.bell
}

# row NAME: of the tally of plan.bell, the low and the high figure of week 1
row()
{
    "$program" tally plan.bell --format json 2>/dev/null | awk -v name="$1" '
        $0 ~ "\"name\": \"" name "\"" { on = 1 }
        { gsub(/,$/, "", $2) }
        on && /"low"/ { low = $2 }
        on && /"high"/ { print low, $2; exit }'
}

week '600 750 200 750 800 0 0'
is "first week: load" '3100 3100' "$(row 'session load')"
is "monotony" '1.219 1.219' "$(row monotony)"
is "strain" '3778.324 3778.324' "$(row strain)"
week '800 600 300 800 500 650? 0'
is "second week, with what may be left out: load" '3000 3650' "$(row 'session load')"
week '800 600 300 800 500 300 0'
is "the same without it: monotony" '1.61 1.61' "$(row monotony)"
is "strain" '5313.776 5313.776' "$(row strain)"
week '800 600 300 800 500 650 0'
is "and with it: monotony" '1.808 1.808' "$(row monotony)"
is "strain" '6597.642 6597.642' "$(row strain)"
week '650 600 0 700 600 0 0'
is "third week: monotony" '1.064 1.064' "$(row monotony)"
is "strain" '2712.713 2712.713' "$(row strain)"
week '500 500 500 500 500 500 500'
is "days all alike have none" '' "$(row monotony)"

# The optional session of the second week is 350 more on a day that has 300 without it: a range from one to the other.
week '800 600 300 800 500 300 0'
awk '/saturday/ { print; print "        saturday 16:00 field : 35 min RPE 10\n            optional"; next } { print }' plan.bell >more.bell
mv more.bell plan.bell
is "a session that may be left out makes a range: load" '3300 3650' "$(row 'session load')"
is "monotony" '1.61 1.808' "$(row monotony)"
is "strain" '5313.776 6597.642' "$(row strain)"

week '800 600 300 800 500 650 0' '        monotony at most 1.8 warn
        strain at most 6597 warn'
has "a limit on monotony" 'a monotony of 1.81 in week 1 of Spring (from 2027-03-01), at most 1.8' "$("$program" check plan.bell 2>&1)"
has "and on strain" 'a strain of 6598 in week 1 of Spring (from 2027-03-01), at most 6597' "$("$program" check plan.bell 2>&1)"
week '800 600 300 800 500 650 0' '        monotony at most 1.81 warn
        strain at most 6598 warn'
is "which just holds" '' "$("$program" check plan.bell 2>&1 | grep outside)"

# --- done of planned ---
# Three of four sessions, and 1440 of 1549.5: arithmetic alone, there is no source for a figure that is enough.

{
    printf 'athlete Wren Holloway\n    stance orthodox\nactivity field\n    contact none\n'
    printf 'camp Spring\n    for Wren Holloway\n    starts 2027-03-01\n    week 1\n'
    printf '        %s 10:00 field : %s\n' monday '60 min RPE 7' tuesday '60 min RPE 8' wednesday '45 min RPE 6' \
        thursday '75:54 min RPE 5'
    printf 'log 2027-03-0%d Wren Holloway, field\n    %s\n' 1 'as planned' 2 'as planned' 3 'took 90 min RPE 6' 4 'missed because exam'
} >plan.bell
is "three of four" '75 75' "$(row 'sessions, done of planned')"
is "1440 of 1549.5 is 92.93 %" '92.933 92.933' "$(row 'load, done of planned')"

# adherence LOGS [LIMIT]: four sessions of 50 min RPE 8
adherence()
{
    {
        printf 'athlete Wren Holloway\n    stance orthodox\nactivity field\n    contact none\n'
        printf 'limits Ours\n    every week\n        %s\n' "${2:-adherence at least 1%}"
        printf 'camp Spring\n    for Wren Holloway\n    starts 2027-03-01\n    limits Ours\n    week 1\n'
        for day in monday tuesday wednesday thursday; do
            printf '        %s 10:00 field : 50 min RPE 8\n' "$day"
        done
        printf '%s\n' "$1"
    } >plan.bell
}

three='log 2027-03-01 Wren Holloway, field
    as planned
log 2027-03-02 Wren Holloway, field
    missed because exam
log 2027-03-03 Wren Holloway, field
    took 45 min RPE 8
log 2027-03-04 Wren Holloway, field
    took 50 min RPE 9'
adherence "$three"
is "three of four sessions" '75 75' "$(row 'sessions, done of planned')"
is "1210 of 1600" '75.625 75.625' "$(row 'load, done of planned')"
is "effort as it was meant" '8 8' "$(row field)"
adherence "$three" 'adherence at least 75.1% warn'
has "below a limit" '75 % of the sessions done in week 1 of Spring (from 2027-03-01), at least 75.1 %' "$("$program" check plan.bell 2>&1)"
adherence "$three" 'adherence at least 75% warn'
is "at it" '' "$("$program" check plan.bell 2>&1 | grep adherence)"
adherence "log 2027-03-01 Wren Holloway, field
    as planned"
is "what comes after the last log is still open" '100 100' "$(row 'sessions, done of planned')"
is "and a day gone by without a log is not" '50 50' "$("$program" --date 2027-03-03 tally plan.bell --format csv 2>/dev/null |
    tr -d '\r' | awk -F, '/sessions, done/ { print $(NF - 1), $NF }')"

# --- maxima from logged sets ---
# As many repetitions as were done and left: Zourdos et al. 2016, J Strength Cond Res 30:267-275. Epley 1985 and Brzycki
# 1993 as above, quoted from memory; the arithmetic is ours.

# lifted EXERCISE SETS [EQUATION]: a log of SETS in plan.bell
lifted()
{
    {
        printf 'gym Yard\n    barbell 20 kg\n    plates 4 x 20, 4 x 10, 4 x 5, 4 x 2.5, 4 x 1.25 kg\n    stations rack, bench\n'
        printf 'athlete Wren Holloway\n    stance orthodox\n    trains at Yard\n%s\n' "${3:+    estimate by $3}"
        printf 'session One\n    straight A 3 sets\n        %s : 5 @ 60 kg\n' "$1"
        printf 'camp Spring\n    for Wren Holloway\n    starts 2027-03-01\n    week 1\n        monday One\n'
        printf 'log 2027-03-01 Wren Holloway, One\n    A1 : %s\n' "$2"
    } >plan.bell
}

# estimated KEY: of the estimates of plan.bell
estimated()
{
    "$program" show plan.bell --format json 2>/dev/null |
        awk -v key="\"$1\":" '/"estimates"/ { on = 1 } on && /\]/ { exit } on && $1 == key { gsub(/[",]/, "", $2); print $2 }'
}

for row in '5@100kg RPE 8/epley/123.333' '5@100kg RPE 8/brzycki/120' '4@92.5kg RPE 8/epley/111' \
    '4@92.5kg RPE 8/brzycki/107.419' '3@95kg RPE 9/epley/107.667' '3@95kg RPE 9/brzycki/103.636' \
    '3@97.5kg RPE 9.5/epley/108.875'; do
    set=${row%%/*} want=${row##*/} equation=${row#*/}
    equation=${equation%/*}
    lifted 'back squat' "$(echo "$set" | sed 's/@/ @ /; s/kg/ kg/')" "$equation"
    is "$set by $equation" "$want" "$(estimated one_rep_maximum_kg)"
done
lifted 'back squat' '5 @ 100 kg RPE 8'
is "one repetition less" 120 "$(estimated low_kg)"
is "and one more is its error" 126.667 "$(estimated high_kg)"
is "turned round: 5 at RPE 8" 81.081 "$(estimated percent)"
lifted 'back squat' '3 @ 100 kg RPE 9'
is "3 at RPE 9" 88.235 "$(estimated percent)"
lifted 'back squat' '5 @ 100 kg RPE 8' brzycki
is "5 at RPE 8 by Brzycki" 83.333 "$(estimated percent)"
lifted 'back squat' '3 @ 100 kg RPE 9' brzycki
is "3 at RPE 9 by Brzycki" 91.667 "$(estimated percent)"
lifted 'back squat' '8 @ 100 kg RPE 8'
is "8 at RPE 8 are ten" 75 "$(estimated percent)"
lifted 'back squat' '9 @ 100 kg RPE 8'
is "beyond ten repetitions nothing is said" '' "$(estimated percent)"
lifted 'back squat' '5 @ 100 kg RPE 6.5'
is "nor below RPE 7" '' "$(estimated percent)"
lifted 'back squat' '1 @ 100 kg RPE 10'
is "a single that was all there is is the maximum" 100 "$(estimated one_rep_maximum_kg)"
lifted 'back squat' '5 @ 100 kg 2 in reserve'
is "two in reserve are RPE 8" 123.333 "$(estimated one_rep_maximum_kg)"

# Four loads at their speeds, and the bench press's 0.17 m/s (doi 10.3233/IES-202247); the line is ours.
lifted 'bench press' '3 @ 40 kg 1.10 m/s; 3 @ 55 kg 0.86 m/s; 3 @ 70 kg 0.63 m/s; 3 @ 85 kg 0.40 m/s'
is "the athlete's own line at 0.17 m/s" 99.674 "$(estimated one_rep_maximum_kg)"
is "its error is 3.7 %" 95.986 "$(estimated low_kg)"
has "for people" '4 speeds of the bar up to 2027-03-01' "$("$program" show plan.bell 2>/dev/null)"
lifted 'bench press' '3 @ 40 kg 1.10 m/s; 3 @ 40 kg 1.05 m/s; 3 @ 55 kg 0.86 m/s'
is "two loads are no line" '' "$(estimated one_rep_maximum_kg)"
lifted 'bench press' '3 @ 40 kg 0.40 m/s; 3 @ 55 kg 0.63 m/s; 3 @ 70 kg 0.86 m/s'
is "nor one on which heavier is faster" '' "$(estimated one_rep_maximum_kg)"

finish
