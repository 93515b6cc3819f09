#!/bin/sh
# What the program says after a knockout, and about body mass: no number of days, no advice on weight, and always where
# to ask.
set -u

. tests/house/ok.sh
: "${BELLSHEET:=build/bellsheet}"
program=$(realpath "$BELLSHEET")

# said NAME: the finding of a plan that breaks NAME, without the plan's own lines, and the page.
said()
{
    for plan in tests/golden/checks/"$1"*.bell; do
        date=$(sed -n 's/^# date: //p' "$plan")
        "$program" check -i --color=never --date "${date:-2027-03-01}" "$plan" 2>&1
    done | sed -n "/\[$1\]\$/,/^[^ ]*: \(error\|warning\|info\)/p" | grep -v '^ *[0-9]* |\|^      |'
    "$program" explain "$1"
}

# promises TEXT: a number of days or weeks, or what to eat, drink or leave out.
promises()
{
    printf '%s\n' "$1" | tr '\n' ' ' | sed 's/seven days/last week/g; s/2027-[0-9-]*/DATE/g' |
        grep -oiE '([0-9]+|two|three|seven|ten|thirty|sixty|ninety) (days|weeks|months)|sauna|sweat|fluid|calorie|diet plan|lose weight|cut weight|weight cut'
}

for name in hold-broken hold-entry stopped-without-hold provisional mass-planned mass-falling; do
    words=$(said "$name")
    has "$name: is reported" "[$name]" "$words"
    is "$name: no number of days, no advice on weight" "" "$(promises "$words")"
    has "$name: the finding asks the commission's rules" "commission's rules" "$(said "$name" | sed "/^$name (/q")"
    has "$name: and a physician" physician "$(said "$name" | sed "/^$name (/q")"
    has "$name: so does the page" "commission's" "$("$program" explain "$name")"
    has "$name: the page names the physician" physician "$("$program" explain "$name" | tr '\n' ' ')"
done
is "a number of days is seen" "30 days" "$(promises "out for 30 days")"
is "advice is seen" sauna "$(promises "sit in the sauna")"
finish
