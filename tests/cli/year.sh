#!/bin/sh
# A year of an invented club, made from a seed: six athletes, twenty camps, some 240 logs. Half of it is closed. Then
# something changes, in each of the ways of `changes`: what is closed stays the same to the byte, and what is open is as
# if the plan had just been written so. Another way is another row.
set -u

. tests/house/ok.sh
program=$(realpath "$BELLSHEET")
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder" || exit 1
closed=2027-07-04
today=2027-07-05

# What happens, and sed's edit of the plan. The camps of the second half of the year have the numbers from 11 on.
changes='a bout that is moved%/^camp C13$/,/^$/s/bout .*/bout 2027-09-19 boxing 3 x 3:00/
a bout of a camp under way that is moved%/^camp C12$/,/^$/s/bout .*/bout 2027-07-26 boxing 3 x 3:00/
a bout that is cancelled%/^camp C13$/,/^$/{/bout /d;/phases/d;/base :/d;/taper :/d}
a bout that is called off%/^camp C13$/,/^$/s/^    bout .*/&\n        cancelled on 2027-07-05/
an ill week%s/^athlete A2$/&\n    out since 2027-08-02\n        until 2027-08-09/
somebody who joins%/^camp C15$/,/^$/s/for .*/for A1, A2, A3, A4, A5, A6/
a session that is edited%s/^session S1$/& from 2027-07-05/; /^session S1/,/^$/s/back squat : 5/back squat : 4/
a session that is renamed%s/^session S2$/session T2\n    also known as S2/;t;s/ S2$/ T2/
a block that is renamed%s/^session S3$/& from 2027-07-05/; /^session S3/,/^$/s/straight B/straight C/
a bout that is postponed%/^camp C13$/,/^$/s/^    bout .*/&\n        postponed to 2027-09-19 on 2027-07-05/
a second bout%/^camp C13$/,/^$/s/^    bout .*/&\n    bout 2027-10-24 boxing 3 x 3:00/
a gym that is closed%s/^gym Hall$/&\n    closed 2027-08-02 to 2027-08-05/
somebody who leaves%/^camp C15$/,/^$/s/for A1, A2, A3/for A1, A2 until 2027-09-20, A3/
a restriction that has ended%s/^athlete A3$/&\n    avoid push-up\n        instead kneeling push-up\n        since 2027-06-20\n        ended by physio on 2027-07-05/
a restriction without a first day%s/^athlete A3$/&\n    avoid push-up\n        instead kneeling push-up/
a restriction that is entered%s/^athlete A3$/&\n    avoid push-up\n        instead kneeling push-up\n        since 2027-07-05/
clocks abroad%/^camp C14$/,/^$/{s/^    starts .*/&\n    time zone Asia\/Bangkok from 2027-07-26 to 2027-08-08/;s/    week 2$/&\n        saturday 06:00 travel : 8 h\n            time zones 7 east/}
a gym abroad%s/^gym Hall$/gym Court\n    time zone America\/New_York\n    barbells 20 kg\n    plates 8 x 20, 8 x 10, 8 x 5, 8 x 2.5, 8 x 1.25 kg\n    stations rack\n\n&/;/^camp C14$/,/^$/s/^    starts .*/&\n    at Court from 2027-07-26 to 2027-08-08/
a gym whose clocks are others%s/Europe\/London/Europe\/Lisbon/
a day off%/^camp C14$/,/^$/s/    week 2$/&\n        monday off/'

make_year()
{
    awk -v seed="$1" '
    function random(below) { seed = seed * 16807 % 2147483647; return seed % below }
    function iso(day,    y, m, d) { # days from 2027-01-04
        m = 1; d = day + 4
        while (d > length_of[m]) { d -= length_of[m]; m++ }
        return sprintf("2027-%02d-%02d", m, d)
    }
    BEGIN {
        split("31 28 31 30 31 30 31 31 30 31 30 31", length_of, " ")
        print "gym Hall\n    time zone  Europe/London\n    barbells   4 x 20 kg\n    plates     8 x 20, 8 x 10, 8 x 5, 8 x 2.5, 8 x 1.25 kg"
        print "    dumbbells  pairs 4-30 kg by 2\n    stations   rack, bench, pull-up bar\n"
        for (a = 1; a <= 6; a++) {
            print "athlete A" a "\n    stance " (a % 2 ? "orthodox" : "southpaw") "\n    lifting since 2020-01\n    trains at Hall"
            print "    bests\n        back squat : 1 @ " 80 + 5 * random(10) " kg on 2026-12-20\n"
        }
        for (s = 1; s <= 4; s++) {
            print "session S" s "\n    rpe 6/7/7/...\n    straight A  3 sets rest 2:00\n        back squat : 5 @ 70/72.5/75/...%"
            print "    straight B  2/3/3/... sets rest 1:30\n        push-up : " 6 + random(6) "/10/12/...\n"
        }
        print "limits own\n    every week\n        sets at most 90\n"
        for (c = 1; c <= 20; c++) {
            start = int((c - 1) / 2) * 35 + (c % 2 ? 0 : 7)
            first = c % 2 ? 1 : 4
            print "camp C" c "\n    for A" first ", A" first + 1 ", A" first + 2 "\n    starts " iso(start) "\n    limits own"
            if (c % 2 || c == 12)
                print "    bout " iso(start + 26) " boxing 3 x 3:00\n    phases\n        base : until taper\n        taper : 7 days"
            hour = c % 2 ? "17:30" : "18:30"
            monday = "S" 1 + random(4)
            print "    weeks 1-4\n        monday " hour " " monday "\n        thursday " hour " sparring : 4 x 2:00 RPE 7"
            print "    week 2\n        friday " hour " S" 1 + random(4) "\n"
            for (l = 0; l < 12 && start + 28 < 180; l++) {
                logs[start + 7 * (l % 4) + 3 " " first + l % 3 " sparring"]
                logs[start + 7 * (l % 4) " " first + l % 3 " " monday]
            }
        }
        for (key in logs) {
            split(key, part, " ")
            print "log " iso(part[1]) " A" part[2] ", " part[3] "\n    took " 18 + part[1] % 5 " min RPE 7\n"
        }
    }' >year.bell
}

# days CLUB first|last: what `show` has of the closed days, or of the others.
days()
{
    "$program" show "$1" --all --format json --date $today 2>/dev/null |
        awk -v half="$2" -v closed=$closed '
            /^  "occasions"/ { inside = 1 }
            /^    \{$/ { one = "" }
            inside { one = one $0 "\n" }
            inside && /^    \}/ && match(one, /"day": "[0-9-]*"/) {
                day = substr(one, RSTART + 8, 10)
                if ((day <= closed) == (half == "first"))
                    printf "%s", one
            }'
}

mkdir plan
(cd plan && make_year "${SEED:-7}")
is "the year has no errors" 0 "$("$program" check plan --date $today 2>&1 | grep -c ' error: ')"
"$program" close plan --until $closed --date $today >written 2>/dev/null
is "seven months are written" 7 "$(wc -l <written)"
is "each of their entries says its zone" "$(cat plan/record/*.bell | grep -c '^held 2')" \
    "$(cat plan/record/*.bell | grep -c '^    zone *Europe/London$')"
days plan first >was
is "much is closed" yes "$([ "$(grep -c '"held": true' was)" -gt 100 ] && echo yes)"
printf '%s\n' "$changes" >rows
while IFS=% read -r what edit; do
    rm -rf changed anew
    cp -r plan changed
    sed -i "$edit" changed/year.bell
    cp -r changed anew
    rm -r anew/record
    is "$what changes the plan" 1 "$(cmp -s plan/year.bell changed/year.bell; echo $?)"
    is "$what: no errors" "" "$("$program" check changed --date $today 2>&1 | grep ' error: ')"
    days changed first | sed 's/"T2"/"S2"/' >is # a name is no figure
    is "$what: closed days stay" "" "$(diff was is | head -n 5)"
    is "$what: open days are as anew" "" "$(days changed last >got; days anew last | diff - got | head -n 5)"
done <rows
sed -i 's/^    planned 16 min/    planned 17 min/; s/^    planned   \([0-9]*\) /    planned   1\1 /' plan/record/2027-02.bell
days plan first >is
is "an edit of the record would be seen" no "$(cmp -s was is && echo yes || echo no)"
finish
