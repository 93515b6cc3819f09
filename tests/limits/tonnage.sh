#!/bin/sh
# What a limit on tonnage counts is its words; what reveals body mass is for the coach alone, in every format.
set -u

. tests/house/ok.sh
program=$(realpath "$BELLSHEET")
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder" || exit 2

# plan LIMIT: 2 x 5 x 80 = 800 kg lifted, 4 x 6 x 3 = 72 kg thrown, 2 x 5 of a body mass of 61.7 kg.
plan()
{
    cat >plan.bell <<END
athlete Oriel Tamsin
    stance  southpaw
session Lifts
    straight A  2 sets rest 3:00
        back squat : 5 @ 80 kg
    straight B  2 sets rest 3:00
        chin-up : 5 @ body mass
    straight C  4 sets rest 1:00
        rear hand ball throw : 3 each stance @ 3 kg
limits Own
    every week
        $1
            common practice
camp Spring
    for     Oriel Tamsin
    starts  2027-03-01
    limits  Own
    week 1
        monday  Lifts
END
}
cat >private.bell <<END
private Oriel Tamsin
    body mass 61.7 kg on 2027-02-01
END

# said PLAN...: name of each finding, of text
said()
{
    "$program" check "$@" --color=never 2>&1 | sed -n 's/.*: \(error\|warning\): .*, at \(most\|least\) \(.*\) \[.*/\1 \2 \3/p'
}

plan "tonnage at most 799 kg"
is "tonnage is what is lifted" "error most 799 kg" "$(said plan.bell)"
plan "tonnage at most 800 kg"
is "to the kilogram" "" "$(said plan.bell)"
plan "tonnage with throws at most 871 kg"
is "with throws" "error most 871 kg" "$(said plan.bell)"
plan "tonnage with throws at most 872 kg"
is "to the kilogram too" "" "$(said plan.bell)"
plan "tonnage with throws, with body mass at most 1488 kg"
is "with both" "warning most 1488 kg" "$(said plan.bell private.bell)"
"$program" check plan.bell private.bell >/dev/null 2>&1
is "which is for the coach and of no weight for the verdict" 0 $?
is "and unknown without the private file" "" "$(said plan.bell)"
plan "tonnage with body mass, with throws at most 1489 kg"
is "to the kilogram, by either order" "" "$(said plan.bell private.bell)"
plan "tonnage with body mass at least 1500 kg"
is "a floor of what is not known is not asked for" "" "$(said plan.bell)"
is "and of what is known is" "warning least 1500 kg" "$(said plan.bell private.bell)"
plan "tonnage at most 800"
has "a tonnage has a unit" "fix: write \`800 kg\` or \`800 lb\`" "$("$program" check plan.bell 2>&1)"

# --- what is counted by landings or blows is moved too, and hands that take turns move one bell ---

# moved DOSE: tonnage and tonnage with throws of two sets
moved()
{
    cat >moved.bell <<END
gym Yard
    barbell      20 kg
    bars         trap bar 20 kg
    plates       4 x 5 kg
    dumbbells    2 x 1, 2 x 10 kg
    kettlebells  16 kg
athlete Oriel Tamsin
    stance    southpaw
    trains at Yard
session Moved
    straight A  2 sets rest 1:00
        $1
camp Spring
    for     Oriel Tamsin
    starts  2027-03-01
    week 1
        monday  Moved
END
    "$program" tally moved.bell --by session --format csv 2>/dev/null | tr -d '\r' |
        awk -F, '$7 == "tonnage" || $7 == "tonnage with throws" { printf "%s %s %s; ", $7, $9, $10 }'
}
is "jumps with a bell in each hand" "tonnage with throws 160 160; " "$(moved "dumbbell squat jump : 4 @ 10 kg")"
is "with one bell" "tonnage with throws 96 160; " "$(moved "kettlebell squat jump : 3-5 @ 16 kg")"
is "with a bar" "tonnage with throws 240 240; " "$(moved "trap bar jump : 4 @ 30 kg")"
is "blows with a weight in the hand" "tonnage with throws 20 20; " \
    "$(moved "jab with a hand weight : 5 each stance @ 1 kg")"
is "with one in each" "tonnage with throws 40 40; " "$(moved "jab cross with hand weights : 5 each stance @ 1 kg")"
is "rows by one hand and the other" "tonnage 160 160; tonnage with throws 160 160; " \
    "$(moved "renegade row : 4 each side @ 10 kg")"
is "also where both bells are named" "tonnage 160 160; tonnage with throws 160 160; " \
    "$(moved "renegade row : 4 each side @ 2 x 10 kg")"
is "and split squats with both" "tonnage 320 320; tonnage with throws 320 320; " \
    "$(moved "split squat : 4 each side @ 2 x 10 kg")"

# --- 10 x 61.7 = 617 kg of body mass: in no format, unless it is asked for ---

plan "tonnage with body mass at most 1 kg"
for format in json sarif github gitlab; do
    "$program" check plan.bell private.bell --format $format
done >told 2>/dev/null
for format in text csv json; do
    "$program" tally plan.bell private.bell --format $format
    "$program" tally plan.bell private.bell --format $format --margin
    for by in lift session day week; do
        "$program" tally plan.bell private.bell --format $format --by $by
    done
    "$program" tally plan.bell private.bell --format $format --lines-of "tonnage with body mass"
done >>told 2>/dev/null
"$program" print plan.bell private.bell --week 1 --out sheets --sheet wall,card,card-page,floor,week,camp >names 2>/dev/null
is "sheets are printed" 0 $?
while read -r name; do
    case $name in # letters of an SVG are outlines; what it says is in its words
    *.pdf) pdftotext -layout "$name" - ;;
    *.svg) sed 's/="[^"]*"//g' "$name" ;;
    *) cat "$name" ;;
    esac
done <names >>told
is "no report, sum or sheet tells it" "" "$(grep -nE '\b(617|1417|1489|61\.7)\b' told)"
is "nor that there is such a sum" "" "$(grep -n 'tonnage with body mass' told)"
has "the lines of it are refused" "ask for them with --private" \
    "$("$program" tally plan.bell private.bell --lines-of "tonnage with body mass" 2>&1)"
for format in text csv json; do
    has "$format tells who asks" 1417 "$("$program" tally plan.bell private.bell --private --format $format 2>/dev/null)"
    has "$format, by lift" 617 "$("$program" tally plan.bell private.bell --private --format $format --by lift 2>/dev/null)"
done
has "what is left out has its row" "tonnage, body mass" "$("$program" tally plan.bell private.bell 2>/dev/null)"
has "so have throws" "tonnage, throws, jumps and strikes" "$("$program" tally plan.bell 2>/dev/null)"

finish
