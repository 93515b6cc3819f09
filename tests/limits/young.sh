#!/bin/sh
# The lists `under 18` and `novices` apply by themselves, on every copy of a plan and whatever limits its camp has.
set -u

. tests/house/ok.sh
: "${BELLSHEET:=build/bellsheet}"
program=$(realpath "$BELLSHEET")
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder" || exit 2

# plan AGE LIFTING LIMITS: fourteen, a month of lifting, and a day that no fourteen-year-old should have.
plan()
{
    cat <<END
gym Boat shed
    barbells   15 kg
    plates     4 x 5, 4 x 2.5, 4 x 1.25 kg
    stations   rack, bench, box
athlete Wren Holloway
    $1
    $2
    stance     orthodox
    trains at  Boat shed
    bests
        back squat : 1 @ 40 kg on 2027-02-20
session Hard day
    straight A  3 sets rest 2:00
        back squat  : 1 @ 95%
    straight B  1 set rest 2:00
        bench press : work up to a 1RM
    straight C  2 sets rest 2:00
        bench press : 2 @ 20 kg RPE 9
    straight D  14 sets rest 0:30
        depth jump  : 10
limits Own
    every week
        sets             at most 99
        sparring rounds  at most 40
        intensity        at most 100%
        one-rep tests    at most 9
    every session
        contacts         at most 400
camp Spring
    for        Wren Holloway
    starts     2027-03-01
$3
    week 1
        monday    17:30  Hard day
        wednesday 17:30  sparring : 12 x 2:00 RPE 7
        saturday  17:30  sparring : 12 x 2:00 RPE 7
END
}

# errors: what plan.bell breaks, by name and how often.
errors()
{
    "$program" check --date 2027-03-01 "$@" 2>&1 | sed -n 's/.*: error: .*\[\([a-z-]*\)\]$/\1/p' | sort | uniq -c |
        sed 's/^ *//' | tr '\n' ',' | sed 's/,$//'
}

all='1 contacts-over,3 intensity-outside,1 lifts-over,1 sparring-over'
for limits in '' '    limits    house defaults' '    limits    Own'; do
    for age in 'born       2012-06-21' 'age group  under 18' 'age group  under 16'; do
        plan "$age" '#' "$limits" >plan.bell
        is "$age,${limits:- no limits}" "$all" "$(errors plan.bell)"
    done
    plan '#' 'lifting since 2027-02' "$limits" >plan.bell
    is "a month of lifting,${limits:- no limits}" '3 intensity-outside,1 lifts-over,1 sparring-over' \
        "$(errors plan.bell | sed 's/1 session-too-long,//; s/1 time-over,//')"
done

# Whom the lists are not for, and about whom nothing is reported.
plan 'born       1999-06-21' 'lifting since 2020-01' '    limits    Own' >plan.bell
is "grown and trained" "" "$(errors plan.bell)"
plan '#' '#' '    limits    Own' >plan.bell
is "nothing is known" "" "$(errors plan.bell)"
plan 'age group  under 21' 'lifting since 2020-01' '    limits    Own' >plan.bell
is "under 21 need not be under 18" "" "$(errors plan.bell)"

# The coach's word about the same people counts, and is shown as information.
plan 'age group  under 18' 'lifting since 2020-01' '    limits    Own' |
    sed 's/^    every session/    under 18\
        sparring rounds  at most 24\
&/' >plan.bell
is "the coach's own" '1 contacts-over,3 intensity-outside,1 lifts-over' "$(errors plan.bell)"
has "is reported" "Own sets sparring rounds at 24; under 18, which applies by itself, has 8 [limit-loosened]" \
    "$("$program" check -i plan.bell 2>&1)"

# With the private file and without it: the same errors, the same sheets, and the same report.
mkdir with without
plan 'age group  under 18' '#' '' >without/plan.bell
cp without/plan.bell with
printf 'private Wren Holloway\n    born  2012-06-21\n' >with/private.bell
is "with the private file" "$(errors without)" "$(errors with)"
for format in json github sarif gitlab; do
    for copy in with without; do
        (cd $copy && "$program" check --format $format --date 2027-03-01 . >../$copy.$format 2>/dev/null)
    done
    is "with it, $format" "$(sed 's/without/with/g' "without.$format")" "$(cat "with.$format")"
    is "the coach on the floor is no matter of $format" "" "$(grep -E 'ask-the-coach|supervision' "with.$format")"
done
plan '#' '#' '' >with/plan.bell
has "the age group is asked for" age-group-missing "$(errors with)"
printf 'private Wren Holloway\n    born  1999-06-21\n' >with/private.bell
is "not of the grown" "" "$(errors with)"

# The card says that a child is one, and the child lifts a little less rather than a little more.
mkdir club && plan 'age group  under 18' '#' '' | sed 's/1 @ 95%/5 @ 72%/; /straight B/,/straight D/{/straight D/!d}
    s/14 sets/2 sets/; s/12 x/4 x/' >club/plan.bell
"$program" print club --week 1 --sheet card --out out >/dev/null 2>said
is "a plan for the young is printed" 0 $?
has "with a coach" "Lift only with a coach beside you." "$("$program" show --format text club/plan.bell 2>/dev/null
    cat out/*.svg)"
finish
