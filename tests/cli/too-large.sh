#!/bin/sh
# A plan has room for a certain number of sessions and activities; one athlete more is reported at the line that places
# them. So have lists about one athlete.
set -u

. tests/house/ok.sh
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT

# club COUNT: a plan with so many athletes, who do something on each day of 260 weeks.
club()
{
    awk -v count="$1" 'BEGIN {
        for (i = 1; i <= count; i++) {
            print "athlete A" i
            print "    stance  orthodox"
            names = names (i > 1 ? ", " : "") "A" i
        }
        print "limits Own\n    every week\n        sets  at most 99"
        print "camp Long\n    for     " names "\n    starts  2027-03-01\n    limits  Own\n    weeks 1-260"
        print "        mon, tue, wed, thu, fri, sat, sun  roadwork : 30 min"
    }'
}

club 109 >"$folder/plan.bell"
said=$("$BELLSHEET" limits "$folder/plan.bell" 2>&1 >/dev/null)
is "109 x 1820 are read" "0 " "$? $said"
club 110 >"$folder/plan.bell"
said=$("$BELLSHEET" limits "$folder/plan.bell" 2>&1 >/dev/null)
is "110 x 1820 fail" 1 $?
has "and it is said where" "plan.bell:229:9: error: a plan can have at most 200000 sessions and activities, counted for each athlete [too-many-sessions]" "$said"

# What was read of it is not checked: the rest is missing, so each of its weeks would look too empty.
said=$("$BELLSHEET" check --date 2027-02-20 "$folder/plan.bell" 2>&1)
is "it is not checked" 1 $?
has "one fault, and no warning about what could not be read" "1 error, 0 warnings" "$said"
has "which is said" "limits are checked once these errors are fixed" "$said"

# Of what is looked at on every day an athlete has so much; the first line beyond it is reported, and no other.
while IFS='|' read -r most line; do
    {
        printf 'athlete Oriel Tamsin\n    stance  orthodox\n'
        seq $((most + 3)) | while read -r number; do
            printf '%s\n' "$line" | sed "s/%d/$number/; s/^/    /"
        done
    } >"$folder/plan.bell"
    is "more than $most lines \`$line\` are one fault" "plan.bell:$((most + 3))" \
        "$("$BELLSHEET" check --date 2027-03-01 "$folder/plan.bell" 2>&1 | sed -n 's/.*\(plan.bell:[0-9]*\):.*\[too-many-entries\]$/\1/p')"
done <<'END'
100|away 2027-04-02 to 2027-04-11 because exam
100|out since 2027-02-20
100|suspended by Harbour League %d
100|hold head
100|head knock on 2027-01-20 19:30
END
finish
