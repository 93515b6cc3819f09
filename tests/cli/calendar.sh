#!/bin/sh
# usage: BELLSHEET=build/bellsheet [BUILD_DIR=build] tests/cli/calendar.sh
#
# The calendar of an athlete's days, around both changes of the clocks and with days abroad: its lines as RFC 5545 wants
# them, and as icalendar (Python) and ical.js read it back. Either reader is skipped, with a message, if it is missing;
# `make clients` brings ical.js. What has moved keeps its UID, what is dropped is cancelled, and what stays is the same
# to the byte.
set -u

. tests/house/ok.sh
: "${BUILD_DIR:=build}"
program=$(realpath "$BELLSHEET")
readers=$(realpath tests/clients)
modules=${NODE_PATH:-$(realpath -m "$BUILD_DIR/clients/node_modules")}
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder" || exit 1
for python in python3 /usr/bin/python3 ''; do
    [ -n "$python" ] && "$python" -c 'import icalendar' 2>/dev/null && break
done

mkdir plan
cat >plan/plan.bell <<'END'
gym Quayside
    time zone  Europe/London
gym Palm court
    time zone  Asia/Bangkok

athlete Tomos Redgrave
    stance         orthodox
    lifting since  2020-01
    trains at      Quayside

limits Own
    every week
        sets  at most 99
            common practice

session Schrägbank; nach der Reise und ganz langsam ohne jede Eile früh aufhören
    straight A  3 sets rest 1:30
        push-up : 5

camp Spring
    for     Tomos Redgrave
    starts  2027-03-22
    at      Palm court from 2027-04-05 to 2027-04-11
    limits  Own
    week 1
        saturday  17:30  pads : 60 min RPE 6
        saturday  23:30  work : 3 h
        monday    Schrägbank; nach der Reise und ganz langsam ohne jede Eile früh aufhören
    week 2
        monday    17:30  pads : 60 min RPE 6
    week 3
        tuesday   07:00  pads : 60 min RPE 6

camp Autumn
    for     Tomos Redgrave
    starts  2027-10-25
    limits  Own
    week 1
        saturday  17:30  bag work : 60 min RPE 6
        saturday  23:30  work : 3 h
    week 2
        monday    17:30  bag work : 60 min RPE 6
END

# print_it DATE: the calendar, made on DATE
print_it()
{
    "$program" print plan --all --sheet calendar --date "$1" --out out >said 2>&1
}

ics=out/tomos-redgrave-calendar.ics

# fields FILE: of each event, unfolded, UID DTSTART SEQUENCE STATUS DTSTAMP
fields()
{
    tr -d '\r' <"$1" | awk '
        /^ / { line = line substr($0, 2); next }
        { take(line); line = $0 }
        END { take(line) }
        function take(line,    at) {
            at = index(line, ":")
            name = substr(line, 1, at - 1); value = substr(line, at + 1)
            if (line == "BEGIN:VEVENT") split("", of)
            sub(/;.*/, "", name)
            of[name] = value
            if (line == "END:VEVENT") print of["UID"], of["DTSTART"], of["SEQUENCE"], of["STATUS"], of["DTSTAMP"]
        }'
}

# read_back WHAT WANTED: both readers see the events WANTED, without their UIDs
read_back()
{
    if [ -n "$python" ]; then
        is "$1: as icalendar reads it" "$2" "$("$python" -B "$readers/read_calendar.py" $ics 2>&1 | cut -d' ' -f2-)"
    else
        echo "skipped: no icalendar for Python is here"
    fi
    if command -v node >/dev/null && [ -d "$modules/ical.js" ]; then
        is "$1: as ical.js reads it" "$2" "$(NODE_PATH=$modules node "$readers/read_calendar.cjs" $ics 2>&1 | cut -d' ' -f2-)"
    else
        echo "skipped: no ical.js is here"
    fi
}

# --- as it is written ---

print_it 2027-02-01
is "it is printed" 0 $?
is "one file" "$ics" "$(cat said)"
is "every line ends in CRLF" "$(wc -l <$ics)" "$(grep -c "$(printf '\r')\$" $ics)"
is "no line is longer than 75 octets" "" "$(tr -d '\r' <$ics | LC_ALL=C awk 'length > 75')"
is "some are folded" yes "$(grep -q '^ ' $ics && echo yes)"
is "between characters" 0 "$(LC_ALL=C grep -c "^ [$(printf '\200')-$(printf '\277')]" $ics)"
is "signs with a meaning are escaped" yes "$(tr -d '\r' <$ics | grep -q '^SUMMARY:Schrägbank\\; nach der' && echo yes)"
is "no load and no effort" 0 "$(grep -ciE 'kg|rpe|%' $ics)"
is "a zone is a few lines" yes "$([ "$(sed -n '/BEGIN:VTIMEZONE/,/END:VTIMEZONE/p' $ics | wc -l)" -lt 60 ] && echo yes)"
is "two zones" "Europe/London Asia/Bangkok" "$(tr -d '\r' <$ics | sed -n 's/^TZID://p' | tr '\n' ' ' | sed 's/ $//')"
is "UIDs are of one event each" "" "$(fields $ics | cut -d' ' -f1 | sort | uniq -d)"
is "all are dated so" 20270201T000000Z "$(fields $ics | cut -d' ' -f5 | sort -u)"

# By hand: London is an hour ahead of UTC from 28 March 01:00 UTC to 31 October 01:00 UTC, Bangkok seven hours always.
long='Schrägbank; nach der Reise und ganz langsam ohne jede Eile früh aufhören'
read_back "at first" "2027-03-22 - 0 CONFIRMED $long | Quayside
2027-03-27T17:30:00Z 2027-03-27T18:30:00Z 0 CONFIRMED pads | Quayside
2027-03-27T23:30:00Z 2027-03-28T02:30:00Z 0 CONFIRMED work | -
2027-03-29T16:30:00Z 2027-03-29T17:30:00Z 0 CONFIRMED pads | Quayside
2027-04-06T00:00:00Z 2027-04-06T01:00:00Z 0 CONFIRMED pads | Palm court
2027-10-30T16:30:00Z 2027-10-30T17:30:00Z 0 CONFIRMED bag rounds | Quayside
2027-10-30T22:30:00Z 2027-10-31T01:30:00Z 0 CONFIRMED work | -
2027-11-01T17:30:00Z 2027-11-01T18:30:00Z 0 CONFIRMED bag rounds | Quayside"

# --- as it changes ---

fields $ics >first
print_it 2027-02-05
is "nothing changed: nothing is written" "" "$(cat said)"
rm said
sed -i '/^camp Autumn/,$s/monday    17:30  bag/tuesday   18:00  bag/; /tuesday   07:00  pads/d; /^    at      Palm/d; s/    week 3/    week 3\n        friday    12:00  bag work : 30 min RPE 5/' plan/plan.bell
print_it 2027-02-10
fields $ics >second
is "what moved has its UID" "$(sed -n 's/ 20271101T173000 0 CONFIRMED .*//p' first)" "$(sed -n 's/ 20271102T180000 1 CONFIRMED 20270210T.*//p' second)"
is "what was dropped is cancelled" "$(sed -n 's/ 20270406T070000 0 CONFIRMED .*//p' first)" "$(sed -n 's/ 20270406T070000 1 CANCELLED 20270210T.*//p' second)"
is "what is new begins at 0" 1 "$(grep -c ' 20270409T120000 0 CONFIRMED 20270210T' second)"
is "all else is as it was" 6 "$(sort first | comm -12 - "$(sort second >sorted; echo sorted)" | wc -l)"
read_back "then" "2027-03-22 - 0 CONFIRMED $long | Quayside
2027-03-27T17:30:00Z 2027-03-27T18:30:00Z 0 CONFIRMED pads | Quayside
2027-03-27T23:30:00Z 2027-03-28T02:30:00Z 0 CONFIRMED work | -
2027-03-29T16:30:00Z 2027-03-29T17:30:00Z 0 CONFIRMED pads | Quayside
2027-04-06T00:00:00Z 2027-04-06T01:00:00Z 1 CANCELLED pads | Palm court
2027-04-09T11:00:00Z 2027-04-09T11:30:00Z 0 CONFIRMED bag rounds | Quayside
2027-10-30T16:30:00Z 2027-10-30T17:30:00Z 0 CONFIRMED bag rounds | Quayside
2027-10-30T22:30:00Z 2027-10-31T01:30:00Z 0 CONFIRMED work | -
2027-11-02T18:00:00Z 2027-11-02T19:00:00Z 1 CONFIRMED bag rounds | Quayside"
print_it 2027-02-15
is "a cancelled day is cancelled once" "" "$(cat said)"

# A day by other clocks has changed, although its hour is written as before.
sed -i 's/^    starts  2027-10-25/&\n    time zone Asia\/Bangkok from 2027-11-02 to 2027-11-02/' plan/plan.bell
print_it 2027-02-20
is "another zone is a change" "2 CONFIRMED" "$(fields $ics | sed -n 's/.* 20271102T180000 \(.*\) 20270220T.*/\1/p')"

# --- in another language ---

fields $ics >third
cp $ics english
rm said
sed -i 's/^    stance  /    print in Spanish\n&/' plan/plan.bell
print_it 2027-02-25
fields $ics >fourth
told="DESCRIPTION;LANGUAGE=es:traducción sin revisar por un nativo"
is "activities are in the athlete's language" "manoplas
rondas de saco
trabajo" "$(tr -d '\r' <$ics | sed -n 's/^SUMMARY;LANGUAGE=es://p' | sort -u)"
is "a session is as the coach wrote it" yes "$(tr -d '\r' <$ics | grep -q '^SUMMARY:Schrägbank\\; nach der' && echo yes)"
is "nobody is said to have read these words" "$told" "$(tr -d '\r' <$ics | grep '^DESCRIPTION')"
is "no event is new or gone" "$(cut -d' ' -f1,2,4 third)" "$(cut -d' ' -f1,2,4 fourth)"
is "what has other words is one higher" "$(awk '{ print $1, $3 + ($4 == "CONFIRMED" && $2 !~ /^[0-9]*$/) }' third)" "$(cut -d' ' -f1,3 fourth)"
print_it 2027-02-26
is "printed again, it is the same" "" "$(cat said)"
rm said
sed -i 's/print in Spanish/print in Thai/; s/ 12:00  bag/ 12:30  bag/' plan/plan.bell
print_it 2027-03-01
fields $ics >fifth
is "what moved as the language changed has its UID" "$(sed -n 's/ 20270409T120000 .*//p' fourth)" "$(sed -n 's/ 20270409T123000 .*//p' fifth)"
is "and no event is new or gone" "$(cut -d' ' -f1,4 fourth)" "$(cut -d' ' -f1,4 fifth)"
rm said
sed -i '/print in/d; s/ 12:30  bag/ 12:00  bag/' plan/plan.bell
print_it 2027-03-05
is "back in English only numbers and dates differ" "$(grep -v '^SEQUENCE\|^DTSTAMP' english)" "$(grep -v '^SEQUENCE\|^DTSTAMP' $ics)"

# --- without zones, and where their files are ---

mv out abroad
sed -i '/time zone/d' plan/plan.bell
print_it 2027-02-01
is "without a zone hours are those of the phone" 0 "$(grep -cE 'TZID|VTIMEZONE' $ics)"
read_back "without a zone" "$(cat <<END
2027-03-22 - 0 CONFIRMED $long | Quayside
2027-03-27T17:30:00 2027-03-27T18:30:00 0 CONFIRMED pads | Quayside
2027-03-27T23:30:00 2027-03-28T02:30:00 0 CONFIRMED work | -
2027-03-29T17:30:00 2027-03-29T18:30:00 0 CONFIRMED pads | Quayside
2027-04-09T12:00:00 2027-04-09T12:30:00 0 CONFIRMED bag rounds | Quayside
2027-10-30T17:30:00 2027-10-30T18:30:00 0 CONFIRMED bag rounds | Quayside
2027-10-30T23:30:00 2027-10-31T02:30:00 0 CONFIRMED work | -
2027-11-02T18:00:00 2027-11-02T19:00:00 0 CONFIRMED bag rounds | Quayside
END
)"

# --- days that come back ---

cp $ics first.ics
cp plan/plan.bell kept.bell
autumn() { sed -i "/^camp Autumn/,\$s/$1/$2/" plan/plan.bell; }
autumn '^        tuesday   18:00  bag' '        wednesday 19:00  bag'
sed -i 's/^    stance  /    print in English\n&/' plan/plan.bell
print_it 2027-02-03
moved=$(fields $ics | sed -n 's/ 20271103T190000 1 CONFIRMED .*//p')
is "moved within its week, it is the same" "$(cp $ics moved.ics; fields first.ics | sed -n 's/ 20271102T180000 .*//p')" "$moved"
is "English needs no word about who has read it" "" "$(grep '^DESCRIPTION' $ics)"
autumn '^        wednesday 19:00.*' '&\n        tuesday   18:00  bag work : 60 min RPE 6'
print_it 2027-02-05
new=$(fields $ics | sed -n 's/ 20271102T180000 0 CONFIRMED .*//p')
is "what is new where it once was is another" yes "$([ -n "$new" ] && [ "$new" != "$moved" ] && echo yes)"
is "and each has a UID of its own" "" "$(fields $ics | cut -d' ' -f1 | sort | uniq -d)"
autumn '^        tuesday   18:00  bag.*' '        thursday  12:00  bag work : 60 min RPE 6'
print_it 2027-02-07
is "the new one may move, too" "$new" "$(fields $ics | sed -n 's/ 20271104T120000 1 CONFIRMED .*//p')"
sed -i '/^        thursday  12:00  bag/d' plan/plan.bell
print_it 2027-02-09
autumn '^        wednesday 19:00.*' '&\n        friday    12:00  bag work : 60 min RPE 6'
print_it 2027-02-11
is "what was cancelled is no other day's" "$new" "$(fields $ics | sed -n 's/ 20271104T120000 2 CANCELLED .*//p')"
is "which is new" 1 "$(fields $ics | grep -c ' 20271105T120000 0 CONFIRMED 20270211T')"
autumn '^        friday    12:00  bag' '        thursday  12:00  bag'
print_it 2027-02-13
is "back on its day and hour it is on again" "$new" "$(fields $ics | sed -n 's/ 20271104T120000 3 CONFIRMED .*//p')"
is "and the other is cancelled" 1 "$(fields $ics | grep -c ' 20271105T120000 1 CANCELLED')"
# A program that has dropped the lines of the zones: what was cancelled there stays so.
mv out home
mv abroad out
sed -i '/BEGIN:VTIMEZONE/,/END:VTIMEZONE/d' $ics
print_it 2027-03-06
is "a zone that nobody describes any more" 1 "$(fields $ics | grep -c ' 20270406T070000 1 CANCELLED')"
rm -r out
mv kept.bell plan/plan.bell
print_it 2027-02-01

mkdir -p zones/Europe plan2
cp /usr/share/zoneinfo/Europe/London zones/Europe/London
printf 'gym Quayside\n    time zone  Europe/London\n' >plan2/plan.bell
is "files elsewhere, within the sandbox" "" "$(TZDIR=$folder/zones "$program" check plan2 2>&1)"
head -c 100 /usr/share/zoneinfo/Europe/London >zones/Europe/London
is "a file that is cut short" "error: the time zone \`Europe/London\` cannot be read: this is not a file of a time zone, or it is damaged [unknown-time-zone]" \
    "$(TZDIR=$folder/zones "$program" check plan2 2>&1 | sed -n '1s/^[^ ]* //p')"
is "no files at all" "error: this machine has no time-zone files, so \`Europe/London\` cannot be looked up [unknown-time-zone]" \
    "$(TZDIR=$folder/nowhere "$program" check plan2 2>&1 | sed -n '1s/^[^ ]* //p')"
is "the machine's own zone has no part in it" "$(cat $ics)" "$(rm -r out; TZ=Asia/Kathmandu print_it 2027-02-01; cat $ics)"
finish
