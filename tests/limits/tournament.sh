#!/bin/sh
# The days of a tournament are one bout, even if they are in two weeks: no sessions are asked for in either, what
# applies after a bout begins after its last day, or after the day that was lost, and sheets count down to the next of
# its days.
set -u

. tests/house/ok.sh
program=$(realpath "${BELLSHEET:-build/bellsheet}")
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
    starts    2027-03-01
    bout      2027-03-13, 2027-03-14, 2027-03-16 boxing 3 x 3:00 rest 1:00
    phases
        taper    : until recovery
        recovery : 14 days
    limits    Own
    weeks 1-4
        monday    17:30 Pushes
        saturday  07:30 Pushes
limits Own
    recovery
        sessions   at least 3 a week warn
    7 days after a bout
        push sets  at most 1 a week warn
END

# margins PLAN NAME: what is left in each week, the first on the left.
margins()
{
    "$program" tally "$1" --margin --date 2027-04-20 2>/dev/null | sed -n "s/^  $2  .*warn *//p" | tr -s ' '
}

is "after a bout: behind the last day" "- - -2.29 -2.72 -" "$(margins plan.bell 'push sets')"
sed 's/2027-03-13, 2027-03-14, //' plan.bell >one.bell
is "as if the last day were the bout" "$(margins one.bell 'push sets')" "$(margins plan.bell 'push sets')"
sed 's/^    bout .*/&\n        result lost by decision on 2027-03-13\n        medical check doctor Ines Tarrant on 2027-03-15/' plan.bell >lost.bell
is "lost on the first day: behind that day" "- +0.14 -5.14 - -" "$(margins lost.bell 'push sets')"
is "no sessions are asked for in a week that has a day of it" "- - - -1 -0.86" "$(margins plan.bell 'sessions')"
show=$("$program" show plan.bell --date 2027-03-01 2>/dev/null)
has "the next day is counted to" "monday 2027-03-15 17:30  Pushes · 4:45 · the day before the bout" "$show"
has "up to the first" "monday 2027-03-08 17:30  Pushes · 4:45 · 5 days before the bout" "$show"
has "the second week is the bout's too" "Ana Maro, Cup · week 3 of 5 · bout week" "$show"
"$program" print plan.bell --all --sheet camp --date 2027-03-01 --out out >/dev/null 2>&1
has "the camp sheet counts no weeks past it" "weeks out 1 0 0" "$(pdftotext -layout out/cup-ana-maro-camp.pdf - | tr -s ' ')"
finish
