#!/bin/sh
# Logs in minutes: stanzas ready to fill, what a coach types until twelve cards are twelve logs, and what is left to do.
set -u

. tests/house/ok.sh
program=$(realpath "$BELLSHEET")
slipway=$(realpath examples/slipway)
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder" || exit 1

names='Ana Reed,Bo Marsh,Cy Holt,Di Penn,Ed Lowe,Flo Hart,Gus Wray,Hal Dunn,Ivy Moss,Jo Fell,Kit Snow,Liv Bray'
mkdir club
{
    cat <<'END'
gym Shed
    barbells  20 kg
    plates    4 x 20, 4 x 10, 4 x 5, 4 x 2.5 kg
    stations  rack
session Monday lifts
    straight A  3 sets rest 2:00
        back squat : 5 @ 60 kg
    straight B  3 sets rest 1:00
        push-up    : 8
        plank      : hold 30 s
END
    echo "$names" | tr ',' '\n' | sed 's/.*/athlete &\n    lifting since 2022-01\n    trains at Shed/'
    echo "camp Spring
    for     $(echo "$names" | sed 's/,/, /g')
    starts  2027-03-01
    weeks 1-2
        monday 17:30 Monday lifts
        tuesday 10:00 pads : 3 x 3:00 RPE 5
        tuesday 18:00 pads : 3 x 3:00 RPE 5"
} >club/plan.bell

log() { "$program" log club --date 2027-03-09 "$@"; }
check() { (cd "$1" && "$program" check . --date 2027-03-09 2>&1); }
log --on 2027-03-01 >monday
is "one stanza a card, in planned order" "$(echo "$names" | tr ',' '\n')" "$(sed -n 's/^log 2027-03-01 \(.*\), Monday lifts$/\1/p' monday)"
is "what was planned is in comments" "    # as planned
    # took      15 min
    # A.1 : 3 x 5 @ 60 kg  # back squat
    # B.1 : 3 x 8  # push-up
    # B.2 : 3 x hold 30 s  # front plank" "$(sed -n '2,6p' monday)"
is "it is in canonical layout" "$(cat monday)" "$("$program" format - <monday)"
is "an hour where the day has two" "log 2027-03-02 10:00  Bo Marsh, pads
log 2027-03-02 18:00  Bo Marsh, pads" "$(log --on 2027-03-02 --athlete 'bo marsh' | grep '^log')"
is "today is the day that is meant" 24 "$(log | grep -c '^log 2027-03-09')"
is "a week at once" 36 "$(log --week 1 | grep -c '^log')"

# --- nothing is printed twice ---

is "the file is named" club/logs.bell "$(log --on 2027-03-01 --append club/logs.bell)"
is "it has what would be printed" "$(cat monday)" "$(cat club/logs.bell)"
is "what is there is not printed again" "bellsheet: error: all of it is logged already" "$(log --on 2027-03-01 2>&1)"
is "nor added" "$(cksum <club/logs.bell)" "$(log --on 2027-03-01 --append club/logs.bell 2>/dev/null; cksum <club/logs.bell)"
is "nor added to a file outside the plan" "$(log --on 2027-03-02 --append other.txt; cksum <other.txt)" \
    "$(log --on 2027-03-02 --append other.txt 2>/dev/null; echo other.txt; cksum <other.txt)"
is "what remains is said of each" 12 "$(check club | grep -c 'this log says nothing \[log-empty\]')"
log --on 2027-03-02 --append club/logs.bell >/dev/null
is "further days come below" "" "$("$program" format --check club/logs.bell)"
is "and none is lost" 36 "$(grep -c '^log' club/logs.bell)"
rm club/logs.bell
printf 'log 2027-03-01 Ana Reed, Monday lifts\r\n    as planned' >club/logs.bell
log --on 2027-03-01 --append club/logs.bell >/dev/null
is "line ends are those of the file" "$(grep -c '' club/logs.bell)" "$(grep -c "$(printf '\r')" club/logs.bell)"
is "a line without end gets one" 11 "$(check club | grep -c '\[log-empty\]')"
rm club/logs.bell

# --- what is private stands apart ---

is "no log asks for what is private" "" "$(grep -E 'head knock|morning|private' monday)"
is "a stanza an athlete of what is" "$(echo "$names" | tr ',' '\n')" "$(log --on 2027-03-02 --private | sed -n 's/^private //p')"
is "it is in canonical layout" "$(log --on 2027-03-02 --private)" "$(log --on 2027-03-02 --private | "$program" format -)"
log --on 2027-03-02 --private --append club/private.bell >/dev/null
is "only its owner may read a file that is made" "-rw-------" "$(ls -l club/private.bell | cut -c 1-10)"
is "a second time all is there" "bellsheet: error: all of it is logged already" "$(log --on 2027-03-02 --private --append club/private.bell 2>&1)"
sed -i 's/^    # morning/    morning/' club/private.bell
is "a morning is one that the plan takes" "" "$(check club | grep 'private.bell.*error: ')"
sed -i 's/^    # head knock/    head knock/' club/private.bell
has "a knock is one that asks for a hold" "private.bell" "$(check club | grep 'error: ')"
is "and all of it is in canonical layout" "" "$("$program" format --check club/private.bell)"
rm club/private.bell

# --- twelve cards ---

# An editor without any help: arrows, Home, End, Delete, Backspace and letters. It reads keys, one a line, and counts
# them.
cat >editor.awk <<'END'
FNR == NR { text[++lines] = $0; next }
BEGIN { row = 1; column = want = 1 }
function at() { column = want < length(text[row]) + 1 ? want : length(text[row]) + 1 }
{
    keys++
    if ($0 == "Down") { row++; at() }
    else if ($0 == "Right") want = ++column
    else if ($0 == "End") want = column = length(text[row]) + 1
    else if ($0 == "Home") want = column = match(text[row], /[^ ]/)
    else if ($0 == "Delete") text[row] = substr(text[row], 1, column - 1) substr(text[row], column + 1)
    else if ($0 == "Backspace") { text[row] = substr(text[row], 1, column - 2) substr(text[row], column); want = --column }
    else { text[row] = substr(text[row], 1, column - 1) substr($0, 1, 1) substr(text[row], column); want = ++column }
    if (row > lines) { print "past the end" >"/dev/stderr"; exit 1 }
}
END { for (i = 1; i <= lines; i++) print text[i]; print keys >"keys" }
END

press() { key=$1; for times in $(seq "${2:-1}"); do echo "$key"; done; }
typed() { printf '%s' "$1" | sed 's/./&\n/g'; }
# Eight stanzas as planned, four (each third) with the time and effort, and with a set that went differently.
{
    press Right 4
    for card in $(seq 12); do
        if [ $((card % 3)) -ne 0 ]; then
            press Down
            press Delete 2 # as planned
            press Down 6
        else
            press Down 2
            press Delete 2 # took 15 min
            press Right 10
            press Delete 2
            typed 20
            press End
            typed ' RPE 8'
            press Home
            press Down
            press Delete 2 # A.1 : 3 x 5 @ 60 kg  # back squat
            press Right 6
            press Delete
            typed 2
            press Right 12
            typed '; 4 @ 60 kg RPE 9'
            press Home
            [ "$card" = 12 ] || press Down 4
        fi
    done
} >typed
awk -f editor.awk monday typed >club/logs.bell
echo "# $(cat keys) keystrokes for twelve logs"
is "twelve cards take fewer than 900 keystrokes" yes "$([ "$(cat keys)" -lt 900 ] && echo yes)"
is "eight as planned" 8 "$(grep -c '^    as planned$' club/logs.bell)"
is "four with two lines" 4 "$(grep -c '^    A.1 : 2 x 5 @ 60 kg; 4 @ 60 kg RPE 9  # back squat$' club/logs.bell)"
is "check has nothing to say" "" "$(check club | grep -E 'log-|error:')"
is "and all are logged" "bellsheet: error: all of it is logged already" "$(log --on 2027-03-01 2>&1)"
load() { "$program" tally club --athlete "$1" --format csv --date 2027-03-09 | sed -n 's/.*"session load, as done",,,,1,2027-03-01,\([0-9]*\),.*/\1/p'; }
is "as the tally has it, with 2 x 55 of the pads" 270 "$(load 'Cy Holt')"

# --- every line that is printed can be taken as it stands ---

cp -r "$slipway" taken
"$program" log taken --from 2027-03-01 --to 2027-05-30 --date 2027-06-01 --append taken/all.bell >/dev/null
sed 's/^    # as planned/    # /; s/^    # \(took\|[A-Z]\.[0-9]\)/    \1/' taken/all.bell >all
mv all taken/all.bell
is "hundreds of lines" yes "$([ "$(grep -c '^    [A-Z]\.' taken/all.bell)" -gt 300 ] && echo yes)"
faults() { (cd "$1" && "$program" check . --date 2027-06-01 2>&1) | grep 'all.bell.*: \(error\|warning\): '; }
is "none of them is refused" "" "$(faults taken)"
sed -i '0,/^    A\.1/s//    Z.1/' taken/all.bell
has "and one that is wrong is" "has no Z.1" "$(faults taken)"

# --- what cannot be had ---

says() { "$program" log "$@" --date 2027-03-09 2>&1 >/dev/null; echo "$?"; }
has "nobody of that name" "there is no athlete" "$(says club --athlete Nobody)"
has "a day without training" "nothing is planned then" "$(says club --on 2027-03-03)"
has "standard output is no file" "--append takes the name of a file" "$(says club --append -)"
has "a folder cannot be added to" "club" "$(says club --append club)"
has "a folder that is not there" "2" "$(says club --append nowhere/logs.bell)"
cp -r club faulty
echo camp >>faulty/plan.bell
has "a plan with errors" "1" "$(says faulty)"
finish
