#!/bin/sh
# A week is an athlete's, whatever camps it is made of: one sheet with every day right, one total in the CSV. And the ways
# in which days are asked for.
set -u

. tests/house/ok.sh
program=$(realpath "$BELLSHEET")
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder" || exit 1
cat >plan.bell <<'END'
gym Hall
    barbells   1 x 20 kg
athlete Ana Maro
    stance orthodox
    lifting since 2020-01
    trains at Hall
session Pushes
    straight A  3 sets rest 2:00
        push-up : 5
camp Cup
    for       Ana Maro
    starts    2027-02-01
    bout      2027-02-14 19:30 boxing 3 x 3:00 rest 1:00
        weigh-in 2027-02-13 17:00
    weeks 1-2
        monday    17:30 Pushes
camp Derby
    for       Ana Maro
    starts    2027-02-08
    weeks 1-2
        tuesday   17:30 Pushes
camp Squad
    for       Ana Maro
    starts    2027-01-25
    weeks 1-4
        wednesday 17:30 pads : 30 min RPE 5
END

sheets()
{
    "$program" print plan.bell --sheet week --list "$@" 2>/dev/null | wc -l
}

days()
{
    "$program" show plan.bell "$@" 2>/dev/null | sed -n 's/^  [a-z]*day \(2027-[0-9-]*\).*/\1/p' | sort -u | tr '\n' ' '
}

is "three camps in one week make one sheet" 1 "$(sheets --week 2027-W06)"
is "a month has a sheet a week" 3 "$(sheets --month 2027-02)"
is "a week of the year" "2027-02-08 2027-02-09 2027-02-10 2027-02-13 2027-02-14 " "$(days --week 2027-W06)"
is "from a day to a day" "2027-02-09 2027-02-10 2027-02-13 " "$(days --from 2027-02-09 --to 2027-02-13)"
is "up to a day" "2027-01-27 2027-02-01 " "$(days --to 2027-02-01)"
is "a month" "2027-01-27 " "$(days --month 2027-01)"
is "week 53 of a year of 52" 2 "$("$program" show plan.bell --week 2027-W53 >out 2>&1; echo $?)"
is "month 13" 2 "$("$program" show plan.bell --month 2027-13 >out 2>&1; echo $?)"
is "a time is not a day" 2 "$("$program" show plan.bell --to 40min >out 2>&1; echo $?)"
is "minutes of the CSV's weeks" "30 34.75 50.5 34.75" "$("$program" tally plan.bell --format csv 2>/dev/null | tr -d '\r' |
    awk -F, '$3 == "count" && $4 == "time" { sum[$9] += $10 } END { print sum["2027-01-25"], sum["2027-02-01"], sum["2027-02-08"], sum["2027-02-15"] }')"
finish
