#!/bin/sh
# What a week gives up of blocks of each kind, as `rework` writes it: sets, rounds, the length of an `every`, the figures of a
# list. Each way is written, and the plan with it checked.
set -u

. tests/house/ok.sh
program=$(realpath "$BELLSHEET")
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder" || exit 1

# cut NAME LIMIT WANTED [DELOAD]: the block of standard input, done on two days of week 2, is over LIMIT; the patch adds the line WANTED,
# and with it the week is within its limits.
cut()
{
    cat >plan.bell <<'END'
gym Slipway
    dumbbells    pairs 4-30 kg by 2
    stations     pull-up bar, 2 x heavy bag

athlete Oriel Tamsin
    stance         orthodox
    lifting since  2020-01
    trains at      Slipway

END
    cat >>plan.bell
    cat >>plan.bell <<END
limits ours
    every week
        $2
            common practice

camp Spring
    for       Oriel Tamsin
    starts    2027-03-01
    limits    ours
    week 1
        monday    17:30  Floor
    week 2
        monday, thursday  17:30  Floor
${4:-}
END
    "$program" format plan.bell 2>/dev/null
    is "$1: there is one error" 1 "$("$program" check plan.bell --date 2027-02-20 --week 2 2>&1 | grep -c ': error: ')"
    "$program" rework plan.bell --date 2027-02-20 --week 2 --patch >patch 2>&1
    has "$1: what is given up" "$3" "$(sed -n 's/^+//p' patch | tr -s ' ')"
    "$program" rework plan.bell --date 2027-02-20 --week 2 --apply >said 2>&1
    is "$1: the week is mended" "" "$("$program" check plan.bell --date 2027-02-20 --week 2 2>&1 | grep ': error: ')"
}

cut "a superset" "chest sets at most 9" " change A : 4 sets" <<'END'
session Floor
    superset A  5 sets rest 2:00
        keep 2
        push-up  : 8
        dead bug : 8
END
cut "a superset whose lines give the sets" "chest sets at most 9" " change A.1 : 4 sets" <<'END'
session Floor
    superset A  rest 2:00
        keep 2
        push-up  : 5 x 8
        dead bug : 5 x 8
END
cut "a list" "chest sets at most 7" " change A.1 : 12, 10, 8" <<'END'
session Floor
    straight A  rest 2:00
        keep 2
        push-up  : 12, 10, 8, 6
END
cut "a list in a superset" "chest sets at most 7" " change A.1 : 12, 10, 8" <<'END'
session Floor
    superset A  4 sets rest 2:00
        keep 2
        push-up  : 12, 10, 8, 6
        dead bug : 8
END
cut "a circuit" "chest sets at most 7" " change A : 3 sets" <<'END'
session Floor
    circuit A  4 sets rest 2:00
        keep 2
        push-up  : 8
        dead bug : 8
END
cut "rounds" "clock rounds at most 9" " change A : 4 x 2:00 rest 1:00" <<'END'
session Floor
    rounds A  5 x 2:00 rest 1:00
        keep 2
        jab on the bag : easy
END
cut "every minute" "chest sets at most 19" " change A : 1:00 for 9:00" <<'END'
session Floor
    every 1:00 for 10:00
        keep 2
        push-up : 5
END
cut "a lighter week" "chest sets at most 5" " change A.1 : 3 sets" "        deload 75% of the sets" <<'END'
session Floor
    straight A  4 sets rest 2:00
        keep 2
        push-up : 8
END

# What is said below a line for one week or day stays with that day, and the rest goes along.
{
    cat <<'END'
gym Slipway
    stations     pull-up bar
athlete Oriel Tamsin
    trains at    Slipway
athlete Kofi Brandreth
    trains at    Slipway
session Floor
    straight A  6 sets rest 2:00
        keep 2
        push-up : 8
limits ours
    every week
        chest sets at most 11
            common practice
camp Spring
    for       Oriel Tamsin, Kofi Brandreth
    starts    2027-03-01
    limits    ours
    weeks 1-3
        monday, thursday  17:30  Floor
            run by   Oriel Tamsin
            absent   Kofi Brandreth on 2027-03-01
            absent   Kofi Brandreth on 2027-03-08
            absent   Oriel Tamsin on 2027-03-18
            waive    sets-over in week 1
                because  it was agreed
            waive    sets-over in weeks 2-3
                because  it was agreed
            waive    chest-under in week 2
                because  it was agreed
END
} | sed '/run by/d; /waive/,/because/d' >plan.bell
"$program" format plan.bell 2>/dev/null
"$program" rework plan.bell --date 2027-02-20 --week 2 --apply >said 2>&1
is "a line with days below it: the week is mended" "" "$("$program" check plan.bell --date 2027-02-20 --week 2 2>&1 | grep ': error: ')"
is "who is absent stays so, each on the one day" "2027-03-01 2027-03-08 2027-03-18" \
    "$(sed -n 's/.*absent .* on //p' plan.bell | sort | uniq | tr '\n' ' ' | sed 's/ $//')"
finish
