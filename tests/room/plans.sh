#!/bin/sh
# usage: BELLSHEET=build/bellsheet tests/room/plans.sh
#
# The rooms whose best timetable is known, as plans: what `show` makes of each.
set -u

. tests/house/ok.sh
program=$(realpath "$BELLSHEET")

# figures PLAN: finish, waits, discs and bottleneck of its room, or why there is none.
figures()
{
    "$program" show "tests/room/plans/$1.bell" --on 2027-03-01 --format json |
        sed -n '/"rooms"/,$p' |
        sed -nE 's/^      "(finish|wait|discs|bottleneck|refused)": "?([^"]*[^",])"?,?$/\2/p' | tr '\n' ' '
}

is two-one-rack "420 60 0 rack " "$(figures two-one-rack)"
is rest-covers "1297 270 0 rack " "$(figures rest-covers)"
is eight "2307 3560 0 landmine " "$(figures eight)"
is discs "652 794 4 rack " "$(figures discs)"
is bells "1740 1740 0 rack " "$(figures bells)"
is contrast "639 720 0 3 kg ball " "$(figures contrast)"
is any-order "700 390 0 rack " "$(figures any-order)"
is no-timetable "block A wants 3 x heavy bag at one bell, the room has 2 " "$(figures no-timetable)"
has "what a line names without its kit is proposed where that is scarce" \
    "tried: Bram Oxlade does bodyweight split squat instead of back squat, as its line says; then all are done by 18:06" \
    "$("$program" check tests/room/plans/written.bell 2>&1)"
is "one alone has no room to share" "" "$(figures alone)"

finish
