#!/bin/sh
# Logs from tables and from pages: what becomes of each row, what is refused and why, and that a second run adds
# nothing.
set -u

. tests/house/ok.sh
program=$(realpath "$BELLSHEET")
slipway=$(realpath examples/slipway)
reference=$(realpath grammar/notation.md)
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder" || exit 1

cp -r "$slipway" club
rm club/logs.bell
import() { "$program" import "$@" --date 2027-06-01 2>said; echo "exit $?" >>said; }
says() { import "$@" >/dev/null; sed 's/^bellsheet: error: //' said; }
check() { "$program" check club --date 2027-06-01 2>&1 | grep -E 'error:|\[log-'; }

cat >rules <<'END'
# What the counter on the bar writes.
separated by semicolon
decimal comma
Date    : day as day.month.year
Who     : athlete
Lift    : exercise
Reps    : reps
Weight  : load in kg
m/s     : speed
Felt    : RPE
Minutes : took in min
Whole   : session RPE
Remark  : note
read OT as Oriel Tamsin
END
head='Date;Who;Lift;Reps;Weight;m/s;Felt;Minutes;Whole;Remark'
# table ROW...: a table of these.
table() { printf '%s\n' "$head" "$@"; }

# --- what comes of rows ---

table '1.3.2027;OT;safety bar squat;5;75;0,45;7;52;7;"left ""it"" off"' \
    '1.3.2027;OT;safety bar squat;5;75;;;;;' '1.3.2027;OT;safety bar squat;5;75;;;;;' \
    '01.03.2027;oriel tamsin;safety bar squat;4;77,50;;9;;;' \
    '1.3.2027;OT;landmine press from a stance;4;20;;;;;' \
    '' '2.3.2027;OT;;;;;;45;6;' >first.csv
logs='log 2027-03-01 Oriel Tamsin, Hips before hands
    took      52 min RPE 7
    A.1 : 4 @ 20 kg
    B.1 : 5 @ 75 kg RPE 7 0.45 m/s; 2 x 5 @ 75 kg; 4 @ 77.5 kg RPE 9
    note      left "it" off

log 2027-03-02 Oriel Tamsin, pads
    took      45 min RPE 6'
is "rows of one session are one log" "$logs" "$(import first.csv club --rules rules)"
is "a dry run says what would be added" "2 logs to add, 0 there already, 0 refused
exit 0" "$(cat said)"
is "and adds nothing" "" "$(ls club/logs.bell 2>/dev/null)"
is "it is in canonical layout" "$logs" "$(import first.csv club --rules rules | "$program" format -)"
is "the plan may be the folder it is called in" "$logs" "$(cd club && "$program" import ../first.csv --rules ../rules --date 2027-06-01 2>/dev/null)"
is "a table may come from standard input" "$logs" "$(import - club --rules rules <first.csv)"
sed 's/$/\r/' first.csv >carriage.csv
is "lines may end in CR LF" "$logs" "$(import carriage.csv club --rules rules)"
printf '\357\273\277' | cat - first.csv >marked.csv
is "a byte order mark may stand in front" "$logs" "$(import marked.csv club --rules rules)"
sed 's/;/\t/g' first.csv >tabs.csv
sed 's/semicolon/tab/' rules >tabs.rules
is "tabs may part the fields" "$logs" "$(import tabs.csv club --rules tabs.rules)"
sed 's/\([0-9]\),\([0-9]\)/\1.\2/g; s/;/,/g' first.csv >commas.csv
sed '/^separated/d; /^decimal/d' rules >commas.rules
is "commas and points are what is meant otherwise" "$logs" "$(import commas.csv club --rules commas.rules)"
sed 's/^\([0-9]*\)\.\([0-9]*\)\.\(2027\)/\2-\1-\3/' first.csv >american.csv
sed 's/as day.month.year/as month-day-year/' rules >american.rules
is "days are written as the rules say" "$logs" "$(import american.csv club --rules american.rules)"
sed 's/;75;/;165;/g' first.csv >pounds.csv
sed 's/in kg/in lb/' rules >pounds.rules
has "loads may be in pounds" "5 @ 165 lb RPE 7" "$(import pounds.csv club --rules pounds.rules)"
sed 's/;75;/;165 lb;/g' first.csv >unit.csv
has "and may say so themselves" "2 x 5 @ 165 lb; 4 @ 77.5 kg" "$(import unit.csv club --rules rules)"

sed -n '/^# What the counter writes/,/^```/p' "$reference" | sed '$d' >told.rules
table '1.3.2027;OT;safety bar squat;5;75;0,45;;52;;' >told.csv
is "the reference's rules are read" "log 2027-03-01 Oriel Tamsin, Hips before hands
    took      52 min
    B.1 : 5 @ 75 kg 0.45 m/s" "$(import told.csv club --rules told.rules)"

# --- a second run ---

is "the file is named" club/logs.bell "$(import first.csv club --rules rules --append club/logs.bell)"
is "it has the logs" "$logs" "$(cat club/logs.bell)"
is "check has nothing to say of them" "" "$(check)"
is "a second run adds nothing" "" "$(import first.csv club --rules rules --append club/logs.bell)"
is "and says so" "0 logs added, 2 there already, 0 refused
exit 0" "$(cat said)"
is "the file is as it was" "$logs" "$(cat club/logs.bell)"
table '2.3.2027;OT;;;;;;40;6;' '9.3.2027;OT;;;;;;45;6;' >second.csv
is "what is logged otherwise is refused" "second.csv: row 2: club/logs.bell:7 has a log of the same already, and it says something else
1 log to add, 0 there already, 1 refused
exit 1" "$(says second.csv club --rules rules)"
"$program" log club --on 2027-03-09 --athlete 'Oriel Tamsin' --append club/logs.bell --date 2027-06-01 >/dev/null
has "and so is what waits to be filled in" "club/logs.bell:10 has a log of the same already, and it has not been filled in" "$(says second.csv club --rules rules)"
rm club/logs.bell
import first.csv club --rules rules --append outside >/dev/null
is "a file outside the plan is looked at too" "0 logs added, 2 there already, 0 refused
exit 0" "$(import first.csv club --rules rules --append outside >/dev/null; cat said)"

# --- rows that are refused ---

# refused ROW...: why the rows of such a table are refused.
refused() { table "$@" >refused.csv; says refused.csv club --rules rules | sed -n 's/^refused.csv: //p'; }
is "a day that there is not" "row 2: \`31.2.2027\` is not a day written day.month.year" "$(refused '31.2.2027;OT;;;;;;45;6;')"
is "a day to come" "row 2: this day is still to come" "$(refused '1.7.2027;OT;;;;;;45;6;')"
is "an athlete whom the plan does not know" "row 2: there is no athlete called \`Nobody\`" "$(refused '2.3.2027;Nobody;;;;;;45;6;')"
is "nobody" "row 2: the row does not say whose it is" "$(refused '2.3.2027;;;;;;;45;6;')"
is "an exercise that there is not" "row 2: there is no exercise called \`unicorn\`" "$(refused '1.3.2027;OT;unicorn;5;;;;;;')"
is "an exercise that the session has not" "row 2: \`Hips before hands\` has no back squat" "$(refused '1.3.2027;OT;back squat;5;60;;;;;')"
is "a figure that is none" "row 2: \`5x\` is not a number of repetitions, seconds or metres
row 3: row 2 of the same log is refused" "$(refused '1.3.2027;OT;safety bar squat;5x;60;;;;;' '1.3.2027;OT;safety bar squat;5;60;;;;;')"
is "a load that is none" "row 2: \`60.5\` is not a load" "$(refused '1.3.2027;OT;safety bar squat;5;60.5;;;;;')"
is "an effort beyond the scale" "row 2: \`11\` is not an RPE from 1 to 10" "$(refused '1.3.2027;OT;safety bar squat;5;60;;11;;;')"
is "and below it" "row 2: RPE is from 1 to 10" "$(refused '1.3.2027;OT;safety bar squat;5;60;;0;;;')"
is "a set without repetitions" "row 2: it does not say how many repetitions there were" "$(refused '1.3.2027;OT;safety bar squat;;60;;;;;')"
is "a day without training" "row 2: nothing was planned that day, and the row does not say what it is of" "$(refused '14.3.2027;OT;;;;;;45;6;')"
is "rows that contradict each other" "row 2: row 3 of the same log is refused
row 3: how long it took is \`50 min\` here and \`45 min\` in an earlier row of the same log" "$(refused '2.3.2027;OT;;;;;;45;6;' '2.3.2027;OT;;;;;;50;6;')"
is "a row that says nothing" "row 2: it says nothing of what was done" "$(refused '2.3.2027;OT;;;;;;;;')"
is "too few fields" "row 2: it has 3 fields, and the first row has 10" "$(refused '2.3.2027;OT;')"
is "a quote that is never closed" "row 2: a quote is opened here and never closed" "$(refused '2.3.2027;"OT;;;;;;45;6;')"
is "words behind a quote" "row 2: something stands behind the quote that closes a field" "$(refused '2.3.2027;"O"T;;;;;;45;6;')"
is "a quote inside" "row 2: a quote stands inside a field that does not start with one" "$(refused '2.3.2027;O"T;;;;;;45;6;')"
is "a note that would be cut short" "row 2: its words hold a \`#\` that stands alone, which would start a comment in a plan" "$(refused '2.3.2027;OT;;;;;;45;6;bar # two')"
has "what nobody may read in a log" "row 2: a log that others read does not say how somebody is" "$(refused '2.3.2027;OT;;;;;;45;6;she had a fever')"
has "figures that the plan would not take" "row 3: " "$(refused '2.3.2027;OT;;;;;;45;6;' '1.3.2027;OT;side plank;5;60;;;;;')"
table '2.3.2027;"Oriel
Tamsin";;;;;;45;6;"two
lines"' '3.3.2027;Nobody;;;;;;45;6;' >lines.csv
has "a field may hold line ends" "    note      two lines" "$(import lines.csv club --rules rules)"
has "and rows are counted as a spreadsheet counts" "lines.csv: row 3: there is no athlete" "$(cat said)"

# --- rules that are wrong ---

# wrong RULE: what is said about the rules with that line instead of the fifth.
wrong() { sed "5s/.*/$1/" rules >wrong.rules; says first.csv club --rules wrong.rules | grep '^wrong.rules'; }
is "a column that can be no such thing" "wrong.rules:5:11: no column can be \`athlet\`" "$(wrong 'Who     : athlet' | sed 's/; .*//')"
is "a unit that there is not" "wrong.rules:8:15: \`load in stone\` cannot be read; write \`load in kg\`; it can be in: kg lb" \
    "$(sed 's/in kg/in stone/' rules >wrong.rules; says first.csv club --rules wrong.rules | grep '^wrong')"
has "a form of days that is none" "wrong.rules:4:14: \`day as day.day.year\` cannot be read" \
    "$(sed 's/day\.month/day.day/' rules >wrong.rules; says first.csv club --rules wrong.rules)"
has "a line that is no rule" "wrong.rules:5:1: \`Who is the athlete\` is no rule" "$(wrong 'Who is the athlete')"
has "the athlete is missing" "no rule says which column is the athlete" "$(wrong '')"
has "a column that the table has not" "wrong.rules:5:1: the table has no column \`Whom\`" "$(wrong 'Whom : athlete')"
has "two columns for one thing" "wrong.rules:6:1: the column \`Who\` is the athlete already" \
    "$(sed 's/: exercise/: athlete/' rules >wrong.rules; says first.csv club --rules wrong.rules)"
has "a reading of nothing" "wrong.rules:5:1: this line does not say as what it is read" "$(wrong 'read OT')"
is "nothing is imported by rules that are wrong" "" "$(import first.csv club --rules wrong.rules)"

# --- text of logs ---

cat >pasted <<'END'
log 2027-03-08 Oriel Tamsin, Hips before hands
  A1 : 8 @ 20 kg ; 8 @ 22.5 kg
  took 50 min RPE 7

log 2027-03-09 Oriel Tamsin, pads
  # as planned
log 2027-03-10 Oriel Tamsin, unicorn
  took 5 min
athlete Somebody Else
  stance orthodox
END
pasted='log 2027-03-08 Oriel Tamsin, Hips before hands
    A.1 : 8 @ 20 kg; 8 @ 22.5 kg
    took      50 min RPE 7'
is "logs are taken as they are" "$pasted" "$(import pasted club)"
is "what is not is refused" "bellsheet: error: pasted:5: this log says nothing
bellsheet: error: pasted:7: there is no session or activity called \`unicorn\`
bellsheet: error: pasted:9: this is not a log, and only logs can be taken; a table needs --rules
1 log to add, 0 there already, 3 refused
exit 1" "$(cat said)"
import pasted club --append club/logs.bell >/dev/null
is "a second time they are there" "0 logs to add, 1 there already, 3 refused" "$(import pasted club >/dev/null; grep there said | tail -n 1)"
sed 's/50 min/55 min/' pasted >other
has "and otherwise they are refused" "other:1: club/logs.bell:1 has a log of the same already, and it says something else" "$(says other club)"
sed -n '1,4p' pasted | cat - pasted | sed '/^log.*09/,$d' >twice
has "twice in one text is once" "0 logs to add, 2 there already" "$(says twice club)"
rm club/logs.bell

# --- results of tests ---

mkdir tested
cat >tested/club.bell <<'END'
athlete Ann Cove
    lifting since 2022-01
athlete Bea Elland
    lifting since 2022-01
session One
    straight A  3 sets rest 2:00
        push-up : 8
camp Spring
    for     Ann Cove, Bea Elland
    starts  2027-03-01
    week 1
        monday  One
END
printf '%s\n' 'Date : day' 'Name : athlete' 'Test : test' 'Value : result' 'Side : side' 'read L as left' 'read R as right' \
    'read CMJ as countermovement jump' >tests.rules
tested() { printf '%s\n' 'Date,Name,Test,Value,Side' "$@"; }
tested 2027-02-22,'Ann Cove',CMJ,38.1, 2027-02-22,'Ann Cove','single leg hop',152,L 2027-02-22,'Ann Cove','countermovement jump',38.9, \
    2027-02-22,'Ann Cove','single leg hop',168,R 2027-02-22,'Ann Cove','single leg hop',150,L 2027-02-23,'Bea Elland','push-up',24, >tests.csv
results='results 2027-02-22 Ann Cove
    countermovement jump : 38.1, 38.9 cm
    single leg hop       : 152, 150 cm left
    single leg hop       : 168 cm right

results 2027-02-23 Bea Elland
    push-up : 24 reps'
is "trials of a day come together" "$results" "$(import tests.csv tested --rules tests.rules)"
import tests.csv tested --rules tests.rules --append tested/tests.bell >/dev/null
is "what is added has the one layout" "" "$("$program" format --check tested/tests.bell)"
has "and is read" "countermovement jump  38.9 cm on 2027-02-22" "$("$program" show tested --week 1 --date 2027-06-01 2>/dev/null)"
is "a second run adds nothing" "0 logs added, 2 there already, 0 refused" \
    "$(import tests.csv tested --rules tests.rules --append tested/tests.bell >/dev/null; grep there said)"
tested 2027-02-24,'Ann Cove','jump on the moon',1, 2027-02-25,'Ann Cove','single leg hop',140, 2027-02-26,'Ann Cove',push-up,, \
    2027-02-27,Cat,push-up,20, 2027-02-28,'Ann Cove',,20, 2027-06-02,'Ann Cove',push-up,20, 2027-03-02,'Ann Cove','single leg hop',140,up \
    2027-02-23,'Bea Elland','push-up',25, 2027-03-03,'Ann Cove',push-up,x, >tests.csv
is "each row that is refused is reported" "tests.csv: row 2: there is no test called \`jump on the moon\`
tests.csv: row 3: which side? single leg hop is measured on each
tests.csv: row 4: it names a test and gives no result
tests.csv: row 5: there is no athlete called \`Cat\`
tests.csv: row 6: it has a result and does not say of which test
tests.csv: row 7: this day is still to come
tests.csv: row 8: \`up\` is not a side: left or right
tests.csv: row 9: tested/tests.bell:6 has a log of the same already, and it says something else
tests.csv: row 10: \`x\` is not a result
0 logs to add, 0 there already, 9 refused
exit 1" "$(says tests.csv tested --rules tests.rules)"
printf 'results 2027-02-20 Ann Cove\n    push-up : 20 reps\n' >base.bell
{ cat base.bell; printf '\nresults 2027-02-22 Ann Cove\n    push-up : 24 reps\n'; } >ours.bell
{ cat base.bell; printf '\nresults 2027-02-23 Bea Elland\n    push-up : 24 reps\n'; } >theirs.bell
"$program" join base.bell ours.bell theirs.bell
is "two who add results lose none" 3 "$(grep -c '^results' ours.bell)"
is "nor a line that both have" 2 "$(grep -c '24 reps' ours.bell)"

# --- a thousand rows, and what cannot be had ---

{
    echo 'Date;Who;Workout;Line;Reps;Weight'
    awk 'BEGIN { for (i = 0; i < 84; i++) for (k = 0; k < 12; k++)
        printf "%d.%d.2027;OT;Hips before hands;B%d;%s;%d\n", i % 28 + 1, 3 + int(i / 28), k % 2 + 1, k % 2 ? "30 s" : 5, k % 2 ? 0 : 70 + k }'
} >thousand.csv
printf '%s\n' 'separated by semicolon' 'decimal comma' 'Date : day as day.month.year' 'Who : athlete' 'Workout : session' \
    'Line : line' 'Reps : reps' 'Weight : load in kg' 'read OT as Oriel Tamsin' >thousand.rules
import thousand.csv club --rules thousand.rules >thousand
is "a thousand rows are 84 logs" "84 logs to add, 0 there already, 0 refused
exit 0" "$(cat said)"
is "of two lines each" "84 84" "$(grep -c '^    B.1 : 5 @ 70 kg; 5 @ 72 kg' thousand) $(grep -c '^    B.2 : 6 x 30 s$' thousand)"
is "no command line, no import" "import takes a table or a text, and then the plan if it is not in this folder
exit 2" "$(says)"
has "a table that is not there" "exit 2" "$(says nowhere.csv club --rules rules)"
has "rules that are not there" "exit 2" "$(says first.csv club --rules nowhere)"
printf 'Date;Who\n\377;x\n' >binary.csv
has "bytes that are no text" "binary.csv:2: " "$(says binary.csv club --rules rules)"
: >empty.csv
has "an empty table" "the table has no column" "$(says empty.csv club --rules rules)"
cp -r club faulty
echo camp >>faulty/gym.bell
is "a plan with errors" "the plan has errors: see \`bellsheet check\`
exit 1" "$(says first.csv faulty --rules rules)"
# --- what messages do to a log ---

pasted='log 2027-03-01 Oriel Tamsin, Hips before hands
    took      52 min RPE 7
    A.1 : 4 @ 20 kg
    skipped   C because the hall closed
    note      left it off

log 2027-03-02 Oriel Tamsin, pads
    missed because the train was late'
# posted WHAT: standard input is read as those logs.
posted() { is "a log $1" "$pasted" "$(import - club)"; }
posted "without its indentation" <<'END'
log 2027-03-01 Oriel Tamsin, Hips before hands
took 52 min RPE 7
A1 : 4 @ 20 kg
skipped C because the hall closed
Note left it off
log 2027-03-02 Oriel Tamsin, pads
missed because the train was late
END
posted "that is indented as a whole" <<'END'
    log 2027-03-01 Oriel Tamsin, Hips before hands
        took 52 min RPE 7
        A.1: 4 @ 20 kg
        skipped C because the hall closed
        note left it off
  log 2027-03-02 Oriel Tamsin, pads
        missed because the train was late
END
posted "that is quoted" <<'END'
> > log 2027-03-01 Oriel Tamsin, Hips before hands
> >     took 52 min RPE 7
> >     A.1 : 4 @ 20 kg
> >     skipped C because the hall closed
> >     note left it off
>
>log 2027-03-02 Oriel Tamsin, pads
>    missed because the train was late
END
printf 'log 2027-03-01 Oriel Tamsin, Hips before hands\n\302\240\302\240took 52 min RPE 7\r\n\343\200\200A.1 : 4 @ 20 kg\r\n    skipped C because the hall closed
note left it off\n\nlog 2027-03-02 Oriel Tamsin, pads\n\342\200\203missed because the train was late' | posted "with spaces of other kinds"
is "results without their indentation" "results 2027-03-02 Oriel Tamsin
    countermovement jump : 38.6, 39.2 cm" "$(printf 'results 2027-03-02 Oriel Tamsin\ncountermovement jump : 38.6, 39.2 cm\n' | import - club)"
is "what else stands in a message is refused" "<standard input>:1: this is not a log, and only logs can be taken; a table needs --rules
<standard input>:4: this is not a log, and only logs can be taken; a table needs --rules
1 log to add, 0 there already, 2 refused
exit 1" "$(printf 'Here it is:\nlog 2027-03-02 Oriel Tamsin, pads\ntook 40 min\nThanks!\n' | says - club)"
finish
