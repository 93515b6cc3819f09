#!/bin/sh
# After two weeks off: which volume is too much in which week, and which lift, at both sides of each border.
set -u

. tests/house/ok.sh
: "${BELLSHEET:=build/bellsheet}"
program=$(realpath "$BELLSHEET")
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder" || exit 2

# told CHECK PLAN: the names of which CHECK finds something.
told()
{
    "$program" check -i --notes --color=never --date 2027-01-01 "$2" 2>&1 |
        sed -n "s/^[^ ]*: [a-z]*: Case \([a-z0-9-]*\): .*\[$1\]\$/\1/p" | sort -u | tr '\n' ' '
}

# off NAME AWAY... -- "WEEK DAY SESSION"...: one who is away, and does SESSION on that day of that week; weeks begin on 4 January.
off()
{
    name=$1
    shift
    printf 'athlete Case %s\n    stance orthodox\n    lifting since 2020-01\n    trains at Back room\n' "$name"
    printf '    bests\n        back squat : 1 @ 100 kg on 2027-01-01\n'
    while [ "$1" != -- ]; do
        printf '    away %s\n' "$1"
        shift
    done
    shift
    printf 'camp Of %s\n    for Case %s\n    starts 2027-01-04\n    limits Own\n' "$name" "$name"
    for line; do
        echo "$line" | sed 's/\([0-9]*\) \([a-z]*\) \(.*\)/    week \1\n        \2 \3/'
    done
}

# jabs SETS COUNT: a session of that name
jabs() { printf 'session Jabs %s\n    straight A %s sets rest 1:00\n        jab : %s orthodox\n' "$1-$2" "$1" "$2"; }

{
    printf 'gym Back room\n    barbells 1 x 20 kg\n    plates 2 x 20, 2 x 10, 2 x 5, 2 x 2.5 kg\n    stations rack\n'
    printf 'limits Own\n    every week\n        sets at most 99\n            common practice\n'
    for count in 100 60 200; do jabs 10 "$count"; done
    for count in 400 500 501 700 701 800 801 900 901 1000; do jabs 1 "$count"; done
    printf 'session Heavy\n    straight A 5 sets rest 3:00\n        back squat : 8 @ 75.1%%\n'
    printf 'session Light\n    straight A 5 sets rest 3:00\n        back squat : 8 @ 75%%\n'
} >kept.bell

before='1 monday Jabs 10-100' two_weeks='2027-01-11 to 2027-01-24'

{
    cat kept.bell
    off first-500    "$two_weeks" -- "$before" '4 monday Jabs 1-500'
    off first-501    "$two_weeks" -- "$before" '4 monday Jabs 1-501'
    off second-700   "$two_weeks" -- "$before" '5 monday Jabs 1-700'
    off second-701   "$two_weeks" -- "$before" '5 monday Jabs 1-701'
    off third-800    "$two_weeks" -- "$before" '6 monday Jabs 1-800'
    off third-801    "$two_weeks" -- "$before" '6 monday Jabs 1-801'
    off fourth-900   "$two_weeks" -- "$before" '7 monday Jabs 1-900'
    off fourth-901   "$two_weeks" -- "$before" '7 monday Jabs 1-901'
    off fifth-1000   "$two_weeks" -- "$before" '8 monday Jabs 1-1000'
    off thirteen     '2027-01-11 to 2027-01-23' -- "$before" '4 monday Jabs 1-1000'
    off four-before  '2027-02-01 to 2027-02-14' -- "$before" '7 monday Jabs 1-501'
    off just-within  '2027-02-07 to 2027-02-20' -- "$before" '8 monday Jabs 1-701'
    off five-before  '2027-02-08 to 2027-02-21' -- "$before" '8 monday Jabs 1-1000'
    off highest      '2027-01-18 to 2027-01-31' -- "$before" '2 monday Jabs 10-60' '5 monday Jabs 1-400'
    off cut-week     '2027-01-13 to 2027-01-26' -- "$before" '2 monday Jabs 10-200' '4 thursday Jabs 1-501'
    off twice        "$two_weeks" '2027-02-01 to 2027-02-14' -- "$before" '7 monday Jabs 1-501'
    off twice-turned '2027-02-01 to 2027-02-14' "$two_weeks" -- "$before" '7 monday Jabs 1-501'
    off never-off    -- "$before" '4 monday Jabs 1-1000'
    off from-sunday  '2027-01-17 to 2027-01-31' -- '1 monday Jabs 10-60' '2 monday Jabs 10-100' '5 monday Jabs 1-400'
    off back-sunday  '2027-01-11 to 2027-01-30' -- "$before" '4 sunday Jabs 1-501'
    off then-second  '2027-01-11 to 2027-01-30' -- "$before" '5 monday Jabs 1-700'
    off then-701     '2027-01-11 to 2027-01-30' -- "$before" '5 monday Jabs 1-701'
    off then-fourth  '2027-01-11 to 2027-01-30' -- "$before" '7 monday Jabs 1-900'
    off then-901     '2027-01-11 to 2027-01-30' -- "$before" '7 monday Jabs 1-901'
} >volume.bell
is "strikes after time off" \
    "back-sunday cut-week first-501 four-before fourth-901 from-sunday just-within second-701 then-701 then-901 third-801 \
twice twice-turned " \
    "$(told time-off-volume volume.bell)"
said=$("$program" check -i --notes --color=never --date 2027-01-01 volume.bell 2>&1)
has "the message has the days and the shares" "the third week after 14 days off; at most 800" "$said"
has "the source too" "Caterisano et al. 2019" "$said"

# Lines that meet are one time off, in whichever order they stand.
{
    cat kept.bell
    off meet       '2027-01-11 to 2027-01-17' '2027-01-18 to 2027-01-24' -- "$before" '4 monday Jabs 1-501'
    off meet-500   '2027-01-11 to 2027-01-17' '2027-01-18 to 2027-01-24' -- "$before" '4 monday Jabs 1-500'
    off turned     '2027-01-20 to 2027-01-24' '2027-01-11 to 2027-01-15' '2027-01-16 to 2027-01-19' -- "$before" '4 monday Jabs 1-501'
    off overlap    '2027-01-11 to 2027-01-20' '2027-01-15 to 2027-01-24' -- "$before" '4 monday Jabs 1-501'
    off within     '2027-01-11 to 2027-01-24' '2027-01-20 to 2027-01-22' -- "$before" '4 monday Jabs 1-501'
    off longer     '2027-01-11 to 2027-01-24' '2027-01-25 to 2027-01-31' -- "$before" '5 monday Jabs 1-501'
    off thirteen   '2027-01-11 to 2027-01-17' '2027-01-18 to 2027-01-23' -- "$before" '4 monday Jabs 1-1000'
    off a-day-free '2027-01-11 to 2027-01-17' '2027-01-19 to 2027-01-25' -- "$before" '4 wednesday Jabs 1-1000'
    off a-day-more "$two_weeks" '2027-02-02 to 2027-02-02' -- "$before" '5 monday Jabs 1-701'
} >met.bell
is "time off of several lines" "a-day-more longer meet overlap turned within " "$(told time-off-volume met.bell)"
has "its days are those of all of them" "Case meet: 501 strikes in week 4 of Of meet (from 2027-01-25), the first week after 14 days off" \
    "$("$program" check -i --notes --color=never --date 2027-01-01 met.bell 2>&1)"

{
    cat kept.bell
    off first-heavy "$two_weeks" -- '4 monday Heavy'
    off first-light "$two_weeks" -- '4 monday Light'
    off last-day    "$two_weeks" -- '7 sunday Heavy'
    off day-later   "$two_weeks" -- '8 monday Heavy'
    off thirteen    '2027-01-11 to 2027-01-23' -- '4 monday Heavy'
    off never-off   -- '4 monday Heavy'
    off day-before  "$two_weeks" -- '1 sunday Heavy'
} >lifts.bell
said=$("$program" check -i --notes --color=never --date 2027-01-01 lifts.bell 2>&1)
is "lifts after time off, which are one finding" "found 2 times in all, for Case first-heavy, Case last-day" \
    "$(echo "$said" | sed -n '/time-off-lifting/,/found/s/.*note: found/found/p')"
has "which week it is" "in the first week after 14 days off; at most 30 [time-off-lifting]" "$said"

# heavy AWAY... -- WEEK DAY: what is said of that lift.
heavy()
{
    { cat kept.bell; off one "$@"; } >one.bell
    "$program" check -i --notes --color=never --date 2027-01-01 one.bell 2>&1 | sed -n 's/.*best, in \(.*\); at most.*time-off-lifting\]/\1/p'
}
is "a lift on the last day of the first week" "the first week after 14 days off" "$(heavy "$two_weeks" -- '4 sunday Heavy')"
is "and on the next day" "the second week after 14 days off" "$(heavy "$two_weeks" -- '5 monday Heavy')"
is "of two times off the later counts" "the first week after 20 days off" \
    "$(heavy '2027-02-01 to 2027-02-20' "$two_weeks" -- '7 sunday Heavy')"
is "whichever stands first" "the first week after 20 days off" \
    "$(heavy "$two_weeks" '2027-02-01 to 2027-02-20' -- '7 sunday Heavy')"
is "a later one that is too short hides none" "the third week after 14 days off" \
    "$(heavy "$two_weeks" '2027-02-01 to 2027-02-07' -- '6 monday Heavy')"

finish
