#!/bin/sh
# A week brought within its limits: by the fewest changes, without any to what others run; and what is in the way.
set -u

. tests/house/ok.sh
program=$(realpath "$BELLSHEET")
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder" || exit 1

cat >club.bell <<'END'
gym Slipway
    dumbbells  pairs 4-30 kg by 2
    stations   pull-up bar

athlete Oriel Tamsin
    stance         orthodox
    lifting since  2020-01
    trains at      Slipway

session Floor
    straight A  5 sets rest 2:00
        keep 1
        push-up : 8
    straight B  6 sets rest 1:00
        keep 3
        push-up : 10
    straight C  3 sets rest 1:00
        keep 2
        dead bug : 8

limits ours
    every week
        chest sets        at most 22
            common practice
        sparring rounds   at most 40
            common practice
END
plan()
{
    cp club.bell plan.bell
    cat >>plan.bell
    "$program" format plan.bell 2>/dev/null
    cp plan.bell before.bell
}
rework() { "$program" rework plan.bell --date 2027-02-20 "$@" 2>&1; }
errors() { "$program" check plan.bell --date 2027-02-20 --week "$1" 2>&1 | grep -c ': error: '; }
status() { rework "$@" >/dev/null; echo $?; }
# mended NAME WEEK: the first way is written and mends the week, by patch and by --apply, once.
mended()
{
    is "$1: there is something to mend" yes "$([ "$(errors "$2")" -gt 0 ] && echo yes)"
    rework --week "$2" --patch >patch
    git apply patch 2>said
    is "$1: git apply takes the patch" "" "$(cat said)"
    cp plan.bell patched
    cp before.bell plan.bell
    is "$1: --apply names the file" plan.bell "$(rework --week "$2" --apply | tail -n 1)"
    is "$1: and writes the same" "" "$(diff plan.bell patched)"
    is "$1: the week is mended" 0 "$(errors "$2")"
    is "$1: in its layout" "" "$("$program" format --check plan.bell 2>&1)"
    has "$1: twice changes nothing" "is within its limits" "$(rework --week "$2" --apply)"
    is "$1: indeed" "" "$(diff plan.bell patched)"
}

# --- moves and hours ---

plan <<'END'
camp Spring
    for       Oriel Tamsin
    starts    2027-03-01
    limits    ours
    weeks 1-3
        monday    17:30  Floor
        monday    17:45  pads : 60 min RPE 6
            run by  the boxing coach
        saturday  10:00  sparring : 4 x 2:00 RPE 6
END
mended "two at once" 2
cp before.bell plan.bell
told=$(rework --week 2)
has "what is ours goes a day on" "  1. Floor from monday to tuesday" "$told"
is "what others run stays" "" "$(echo "$told" | grep 'pads')"
is "three ways at most" 3 "$(echo "$told" | grep -c '^  [0-9]\.')"
rework --week 2 --apply >/dev/null
has "the old hour is off in that week alone" "    week 2
        monday    17:30  off
        tuesday   17:30  Floor" "$(cat plan.bell)"
is "week 1 has it still" 1 "$(errors 1)"

plan <<'END'
camp Spring
    for       Oriel Tamsin
    starts    2027-03-01
    limits    ours
    weeks 1-3
        monday    17:30  roadwork : 30 min RPE 4
        monday    17:45  pads : 60 min RPE 6
            run by  the boxing coach
END
mended "an activity, in the first week of its line" 1
is "an activity stays in the other weeks" 1 "$(errors 2)"

plan <<'END'
camp Spring
    for       Oriel Tamsin
    starts    2027-03-01
    limits    ours
    weeks 1-3
        monday    17:30  Floor
            run by  the wrestling coach
        monday    17:45  pads : 60 min RPE 6
            run by  the boxing coach
END
has "between two others nothing is ours" "nothing in it is ours to change" "$(rework --week 2)"
is "which is no success" 1 "$(status --week 2)"
has "and it says what stays" "This stays whatever is changed:
  Oriel Tamsin" "$(rework --week 2)"
is "nothing is written" "" "$(rework --week 2 --apply >/dev/null; diff plan.bell before.bell)"

# --- the order of a day ---

between()
{
    cat <<'END'
session Short
    straight A  2 sets rest 1:00
        dead bug : 8
camp Spring
    for       Oriel Tamsin
    starts    2027-03-01
    limits    ours
END
    echo "    $1"
    cat <<'END'
        monday    17:30  Floor
        monday    17:45  Short
        tuesday, wednesday, thursday, friday, saturday, sunday 17:30  pads : 10 min RPE 6
            run by  the boxing coach
        tuesday, wednesday, thursday, friday, saturday, sunday 17:45  pads : 60 min RPE 6
            run by  the boxing coach
END
}
for span in "weeks 1-3" "week 2"; do
    between "$span" >plan.in
    plan <plan.in
    mended "order, $span" 2
    has "order, $span: each takes the other's hour" "+        monday 17:45  Floor" "$(sed 's/  *17:/ 17:/' patch)"
    has "order, $span: of both" "+        monday 17:30  Short" "$(sed 's/  *17:/ 17:/' patch)"
    cp before.bell plan.bell
    has "order, $span: it is reported first" "  1. Floor and Short on monday in the other order" "$(rework --week 2)"
done

# --- something else in place of a line ---

cp club.bell club.whole
sed -i -e 's/^    stations .*/&, bench/' -e 's/^        push-up : 10/&\n            without bench, high press : 10/' \
    -e 's/at most 22/at most 8/' club.bell
cat >>club.bell <<'END'
exercise high press
    kind          strength
    pattern       push
    side          both
    loads         chest 0.5
    joints        shoulder, elbow, wrist
    weigh         added to the body
    cue           hands on the wall
    fault         hips sag
        fix       stand up
    stop          the shoulder pinches
END
plan <<'END'
camp Spring
    for       Oriel Tamsin
    starts    2027-03-01
    limits    ours
    weeks 1-3
        monday    17:30  Floor
END
mv club.whole club.bell
mended "another exercise" 2
cp before.bell plan.bell
has "another exercise: it is reported first" "  1. Floor on monday: high press instead of push-up" "$(rework --week 2)"
sed -i 's/loads  *chest 0.5/loads chest 0.5, shoulder 1, arm 1, trunk 1/' plan.bell
is "another exercise: none that loads more elsewhere" "" "$(rework --week 2 | grep 'instead of')"

# --- sets by keep ---

weeks()
{
    sed -i "s/at most 22/at most $1/" club.bell
    plan <<'END'
camp Spring
    for       Oriel Tamsin
    starts    2027-03-01
    limits    ours
    week 1
        monday    17:30  Floor
    week 2
        monday, thursday  17:30  Floor
    weeks 3-4
        monday    17:30  Floor
        thursday  17:30  Floor
END
    sed -i "s/at most $1/at most 22/" club.bell
}
weeks 21
for week in 2 3; do
    mended "sets, week $week" $week
    has "sets, week $week: of keep 3" "B" "$(cat patch)"
    cp before.bell plan.bell
done
has "one set is enough" "one set fewer of B" "$(rework --week 3)"
weeks 12
mended "more than one change" 3
has "both days give up a block" "drop" "$(cat patch)"
weeks 9
told=$(rework --week 3)
has "keep 1 stays" "This stays whatever was changed:
  Oriel Tamsin: " "$told"
has "with the lines that cannot all hold" "      plan.bell:$(sed -n '/chest sets/=' plan.bell): chest sets " "$told"
is "with status 1" 1 "$(status --week 3)"
is "and no patch" "" "$(rework --week 3 --patch | grep '^[-+]')"

# --- what is asked badly ---

has "no week" "say which week" "$(rework)"
has "a week without anything" "nothing is planned then" "$(rework --week 9)"
has "both" "choose one" "$(rework --week 2 --patch --apply)"
has "nothing to do" "is within its limits" "$(weeks 40; rework --week 3)"
"$program" check plan.bell --date 2027-02-20 >/dev/null 2>&1
echo 'camp' >>plan.bell
is "a plan that cannot be read" 1 "$(status --week 3)"
finish
