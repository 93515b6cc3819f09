#!/bin/sh
# Closing: what was planned is kept beside the plan, one file for each month, and no edit of the plan changes it
# afterwards.
set -u

. tests/house/ok.sh
program=$(realpath "$BELLSHEET")
schema=$(realpath share/schema/programme-3.schema.json)
slipway=$(realpath examples/slipway)
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder" || exit 1
day=2027-06-01

# close CLUB DAY, and what a command that shows the whole of a club prints.
close() { "$program" close "$1" --until "$2" --date "$day" 2>/dev/null; }
show() { "$program" show "$1" --all --format json --date "$day" 2>/dev/null; }
tally() { "$program" tally "$1" --format json --date "$day" 2>/dev/null; }
check() { (cd "$1" && "$program" check . -i --date "$day" 2>&1); }
club() { rm -rf "$1"; cp -r "$slipway" "$1"; }

club open
club closed
is "a file a month" "closed/record/2027-03.bell
closed/record/2027-04.bell" "$(close closed 2027-04-11)"
cp -r closed/record once
is "closed again: nothing is written" "" "$(close closed 2027-04-11)"
is "nor by closing less" "" "$(close closed 2027-03-11)"
is "and nothing is changed" "" "$(diff -r closed/record once)"
club twice
close twice 2027-03-10 >/dev/null
close twice 2027-04-11 >/dev/null
is "closed in two goes, it is the same" "" "$(diff -r twice/record once)"
is "format leaves it alone" "" "$("$program" format --check closed/record)"
is "sums are as they were" "$(tally open | cksum)" "$(tally closed | cksum)"
is "each closed day is marked" "$(grep -h '^held 2' closed/record/* | wc -l)" "$(show closed | grep -c '"held": true')"
is "and no other" 0 "$(show open | grep -c '"held"')"
has "the schema knows the mark" '"held"' "$(cat "$schema")"
faults() { check "$1" | grep -E ': (error|warning): '; }
is "nothing new is found" "$(faults open)" "$(faults closed)"

# --- edits ---

edited()
{
    rm -rf edited
    cp -r closed edited
    sed -i "$1" edited/*.bell edited/*/[a-z]*.bell
}
march() { show "$1" | awk '/^    {$/ { one = "" } { one = one $0 "\n" } /^    }/ && one ~ /"day": "2027-03-/ { printf "%s", one }'; }
is "march has occasions" yes "$([ "$(march closed | wc -l)" -gt 1000 ] && echo yes)"
edited '/^    bout/s/2027-05-22/2027-05-29/'
is "a bout that is moved leaves closed days alone" "$(march closed | cksum)" "$(march edited | cksum)"
is "and moves the others" no "$([ "$(show closed | cksum)" = "$(show edited | cksum)" ] && echo yes || echo no)"
edited 's/safety bar squat : 5/safety bar squat : 4/'
is "so does an edit of a session" "$(march closed | cksum)" "$(march edited | cksum)"
has "which is reported" "[history-changed]" "$(check edited)"
edited 's/safety bar squat : 5/safety bar squat : 4/; s/^session Hips before hands$/& from 2027-04-12/'
is "a later version is no change of what is over" "$(march closed | cksum)" "$(march edited | cksum)"
has "nor told" "0 errors" "$(check edited | tail -n 1)"
edited 's/^session Squad floor$/session Big squad\n    also known as Squad floor/; s/  Squad floor$/  Big squad/'
is "a session that is renamed is the same by its old name" "" \
    "$(check edited | grep -E 'history-changed|held-lost|log-without-plan|error:')"
edited 's/side plank/side planck/'
sed -i 's/side planck/side plank/' edited/sessions/*.bell edited/camps/*.bell
has "a name that only the record has is reported" "info: only the record of closed days still names the exercise \`side planck\` [held-lost]" \
    "$(sed -i 's/side plank /side planck /' edited/record/2027-03.bell; check edited)"
is "and is no error" 0 "$(check edited | grep -c ' error: ')"

edited 's/^athlete Oriel Tamsin/&\n    avoid hinge\n        since 2027-03-01/'
forbidden() { check "$1" | grep -c 'error: .*2027-03.* \[avoid-broken\]'; }
is "a restriction makes no closed day an error" 0 "$(forbidden edited)"
rm -r edited/record
is "and those that are not closed it does" no "$([ "$(forbidden edited)" = 0 ] && echo yes || echo no)"

# --- long ago ---

rm -rf edited
cp -r closed edited
echo 'held nonsense' >edited/record/2026-11.bell
is "a month before all camps is not read" "$(faults closed)" "$(faults edited)"
has "unless it is asked for" "2026-11.bell:1:" "$(check edited/record)"
echo 'held nonsense' >edited/record/2027-05.bell
has "one that a camp reaches into is" "2027-05.bell:1:" "$(check edited)"

# --- what cannot be closed ---

says() { "$program" close "$@" 2>&1 >/dev/null; echo "$?"; }
has "without a day" "say until which day" "$(says open --date "$day")"
has "a day to come" "still to come" "$(says open --until 2027-06-02 --date "$day")"
has "two plans" "one plan" "$(says open closed --until 2027-03-02 --date "$day")"
has "before anything is planned" "there is nothing to close" "$(says open --until 2027-02-20 --date "$day")"
club faulty
echo 'camp' >>faulty/gym.bell
has "a plan with errors" "nothing is closed while the plan has errors" "$(says faulty --until 2027-03-02 --date "$day")"
is "nothing is written then" "" "$(ls -d open/record faulty/record 2>/dev/null)"
mkdir readonly
cp -r open/. readonly
touch readonly/record
has "no folder can be made" "readonly/record" "$(says readonly --until 2027-03-02 --date "$day")"
# --- a poor day ---

# Ann did less of A on the 1st, as its line for a poor day says: 2 of 4 sets, and all 3 of B.
mkdir poor
cat >poor/club.bell <<'END'
athlete Ann Cove
session Floor
    straight A  4 sets rest 1:00
        on a poor day  2 sets RPE 6
        push-up : 10
    straight B  3 sets rest 1:00
        side plank : hold 20 s each side
camp Spring
    for Ann Cove
    starts 2027-03-01
    weeks 1-2
        monday Floor
log 2027-03-01 Ann Cove, Floor
    on a poor day A
END
kept() { "$program" show poor --review --all --date 2027-03-14 2>/dev/null | grep -o 'sets: [^;]*'; }
is "what was done on a poor day" "sets: 5 of 14 (35.7 %)" "$(kept)"
cp -r poor poorer
"$program" close poor --until 2027-03-10 --date 2027-03-14 >/dev/null 2>&1
has "the record has what a poor day was" "on a poor day 2 sets @ RPE 6" "$(cat poor/record/*.bell)"
is "and that it was one stays told" "sets: 5 of 14 (35.7 %)" "$(kept)"
sed -i 's/on a poor day  2 sets RPE 6/on a poor day  1 set/' poor/club.bell
is "whatever is written of poor days afterwards" "sets: 5 of 14 (35.7 %)" "$(kept)"

# --- loads to a thousandth ---

mkdir fine
cat >fine/club.bell <<'END'
gym Yard
    dumbbells  pairs 10.125 kg, pairs 20.005 lb

athlete Nils Ferrow
    trains at  Yard

session Arms
    straight A  3 sets rest 2:00
        dumbbell goblet squat : 8 @ 10.125 kg
    straight B  3 sets rest 2:00
        dumbbell goblet squat : 8 @ 20.005 lb

camp Winter
    for       Nils Ferrow
    starts    2027-03-01
    week 1
        monday    Arms
END
close fine 2027-03-01 >/dev/null
is "are kept to a thousandth" "10.125 kg 20.005 lb" "$(sed -n 's/.*@ //p' fine/record/*.bell | tr '\n' ' ' | sed 's/ $//')"
is "and nothing has changed since" "" "$(check fine | grep history-changed)"

# --- of the record's months the days that are needed ---

# The load of a camp's first four weeks is compared with the four weeks before it: from the fifteenth of February on.
mkdir -p reach/record
cat >reach/plan.bell <<'END'
athlete Nils Ferrow
    stance  orthodox
session Legs
    straight A  3 sets rest 2:00
        split squat : 5 each side @ RPE 6
camp Spring
    for     Nils Ferrow
    starts  2027-03-17
    week 1
        friday  Legs
END
slip()
{
    cat >reach/record/2027-02.bell <<END
held until 2027-02-28

# a slip of the hand
held 2027-02-$1  Nils Ferrow, Legs
    camp      Winter
    planned   10 min RPE 6
    straight A  3 sets rest 2:00
        A1 split squat : 3 y 5 each side

$2

held 2027-02-16  Nils Ferrow, Legs
    camp      Winter
    planned   10 min RPE 6
    straight A  3 sets rest 2:00
        A1 split squat : 3 x 5 each side
END
    "$program" check reach --date 2027-03-01 2>&1 | grep -c 'error:'
}
is "a slip on a day that is needed is reported" 1 "$(slip 15 "")"
is "one on the day before is not read" 0 "$(slip 14 "# a note")"
is "with a log between the days all of them are" 1 "$(slip 14 'log 2027-02-15 Nils Ferrow, Legs
    took 9 min RPE 6')"

finish
