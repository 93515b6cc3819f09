#!/bin/sh
# The sheets that report: the review of a camp, test results, the head coach's page. What they say was worked out by
# hand from the plan and the logs below.
set -u

. tests/house/ok.sh
program=$(realpath "$BELLSHEET")
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
mkdir "$folder/club"
cd "$folder" || exit 2

cat >club/club.bell <<'END'
gym Slipway
    barbells   20 kg
    plates     4 x 20, 4 x 10, 4 x 5, 4 x 2.5, 4 x 1.25 kg
    stations   rack, bench
test jump on a box
    unit           cm
    higher is better
    typical error  1 cm
    common practice
    retest         every 4 weeks
athlete Ann Cove
    lifting since  2022-01
    trains at      Slipway
    tests
        jump on a box : 40 cm on 2027-02-26
        jump on a box : 41 cm on 2027-03-12
        jump on a box : 44 cm on 2027-03-19
athlete Bea Elland
    lifting since  2022-01
    trains at      Slipway
session Strength day
    straight A  3 sets rest 3:00
        back squat : 5 @ 100 kg
limits Squad
    every week
        sparring rounds at most 6
            common practice
camp Spring squad
    for       Ann Cove, Bea Elland
    starts    2027-03-01
    limits    Squad
    bout      2027-03-27 kickboxing 3 x 2:00 rest 1:00
    phases
        base     : until strength
        strength : 1-3 weeks keep 3
        power    : 1-2 weeks keep 2
        taper    : 5 days keep 1
    weeks 1-3
        monday     17:30  Strength day
        tuesday    18:00  pads : 60 min RPE 6
        saturday   10:00  roadwork : 45 min RPE 4
    week 3
        friday     18:00  sparring : 8 x 2:00 RPE 8
            waive sparring-over in week 3
                because visitors came
END
cat >club/logs.bell <<'END'
log 2027-03-01 Ann Cove, Strength day
    took  30 min RPE 7
    A1 : 3 x 5 @ 100 kg RPE 8
log 2027-03-02 Ann Cove, pads
    took  50 min RPE 7
log 2027-03-06 Ann Cove, roadwork
    missed because exam
log 2027-03-08 Ann Cove, Strength day
    took  30 min RPE 8
    A1 : 3 x 5 @ 105 kg RPE 8
log 2027-03-09 Ann Cove, pads
    as planned
END
today=2027-03-15

# no-break spaces as spaces
plainly() { sed 's,\xc2\xa0, ,g'; }
# said FILE: its words on one line
said() { pdftotext -q -layout "$1" - | plainly | tr -s ' \n\f' ' '; }
# holds NAME WORDS TEXT
holds() { case $3 in *"$2"*) is "$1" "$2" "$2" ;; *) is "$1" "$2" "$3" ;; esac; }

# --- the review ---

# Ann: of six placed up to the 14th four were done; of 2 x (360 + 180) = 1,080 of planned load (strength days have no
# effort planned) 210 + 350 + 240 + 360 = 1,160 was done, 107.4 %. 5 reps at RPE 8 are seven: Epley, 105 (1 + 7/30) =
# 129.5 kg (a repetition either way: 126 to 133), and 100 (1 + 7/30) = 123.33 kg at first. The least detectable change
# is 1.96 x 1.4142 x 1 = 2.77 cm; 44 - 40 is more. The camp has 26 days before the bout's and itself: the taper takes 5,
# power as many as 14 of what is left, strength the rest of 7.
"$program" show club --review --all --date $today 2>/dev/null | plainly >review.md
holds "Ann's sessions" "- sessions done: 4 of 6 (66.7 %)" "$(cat review.md)"
holds "her sets: a day without a log of its lines is as planned" "sets: 6 of 6 (100 %)" "$(cat review.md)"
holds "her load" "session load: 1160 of 1080 (107.4 %)" "$(cat review.md)"
holds "her squat, last and first" \
    "- back squat: estimated maximum 129.5 kg, 126 kg to 133 kg, by the log of 2027-03-08; 123.33 kg by that of 2027-03-01" \
    "$(cat review.md)"
holds "her jumps" "- jump on a box: 40 cm on 2027-02-26, 44 cm on 2027-03-19: more than the error (up to 2.8 cm)" "$(cat review.md)"
holds "Bea has no log" "### Bea Elland

- no log" "$(cat review.md)"
holds "strength gave way" "strength had 8 of its full 21 days." "$(cat review.md)"
holds "what was waived" "- sparring-over, 2027-03-15 to 2027-03-21: visitors came" "$(cat review.md)"
is "asked for by a week it is of the whole camp all the same" '' \
    "$("$program" show club --review --week 1 --date $today 2>/dev/null | plainly | diff - review.md)"

"$program" print club --all --sheet review,tests --date $today --out out >/dev/null 2>&1
is "one review, and one sheet of tests for who was tested" "spring-squad-ann-cove-tests.pdf spring-squad-review.pdf" \
    "$(cd out && echo *.pdf)"
review=$(said out/spring-squad-review.pdf)
for words in "sessions 4 of 6 (67 %); sets 6 of 6 (100 %); load 1160 of 1080 (107 %)" \
    "123.33 kg on 1 Mar, then 129.5 kg on 8 Mar (126 kg to 133 kg)" \
    "40 cm on 26 Feb, then 44 cm on 19 Mar: more than the error (up to 2.8 cm)" \
    "strength had 8 of its full 21 days." "sparring-over, 15 Mar to 21 Mar: visitors came"; do
    holds "the sheet: $words" "$words" "$review"
done

# --- tests ---

tests=$(said out/spring-squad-ann-cove-tests.pdf)
holds "the last result" "44 cm on 19 Mar" "$tests"
holds "against the one before: 3 cm are more than 2.77" "+3 cm since 12 Mar: more than the error" "$tests"
holds "against the first" "+4 cm since 26 Feb: more than the error" "$tests"
holds "when it is due: four weeks later" "again by 16 Apr" "$tests"
"$program" print club --all --sheet tests --date 2027-04-20 --out out >/dev/null 2>&1
holds "and after that day" "retest overdue since 16 Apr" "$(said out/spring-squad-ann-cove-tests.pdf)"
sed -i 's/44 cm on 2027-03-19/43 cm on 2027-03-19/' club/club.bell
"$program" print club --all --sheet tests --date $today --out out >/dev/null 2>&1
holds "2 cm are within it" "+2 cm since 12 Mar: within the error" "$(said out/spring-squad-ann-cove-tests.pdf)"
sed -i '/typical error/d; /^    common practice/d' club/club.bell
"$program" print club --all --sheet tests --date $today --out out >/dev/null 2>&1
holds "without a known error nobody can tell" "+2 cm since 12 Mar: too few to tell" "$(said out/spring-squad-ann-cove-tests.pdf)"

# --- the head coach's page ---

"$program" print club --week 3 --sheet monday --date $today --out out >/dev/null 2>&1
is "the page of the week" out/2027-w11-monday.pdf "$(echo out/*monday.pdf)"
monday=$(said out/2027-w11-monday.pdf)
# Last week: 540 planned, 240 + 360 done. Effort is known on one day of two: the strength day has none planned.
holds "what Ann did" "last week 2 of 3 sessions done; load 600, planned 540" "$monday"
holds "what she is to do: 26, 60, 16 x 2 - 1 and 45 min" "this week 4 sessions" "$monday"
holds "how many rounds" "8 sparring rounds" "$monday"
holds "a session that nobody logged" "1 session of last week not logged" "$monday"
holds "Bea is in no log" "last week 3 sessions planned, none logged" "$monday"
sed -i '/waive sparring-over/,+1d' club/club.bell
"$program" print club --week 3 --sheet monday --date $today --out out >/dev/null 2>said
is "a page that reports is made whatever it reports" 0 "$?"
holds "and says what is over its limit" "to decide 8 sparring rounds, at most 6" "$(said out/2027-w11-monday.pdf)"
"$program" print club --week 3 --sheet week --date $today --out out2 >/dev/null 2>&1
is "while a sheet to train by is not" 1 "$?"

# --- private ---

cat >club/private.bell <<'END'
private Ann Cove
    tests
        jump on a box : 51 cm on 2027-03-14
    hold head
        since  2027-02-20 19:30
private Bea Elland
    tests
        jump on a box : 52 cm on 2027-03-14
END
sed -i 's/^athlete Ann Cove/&\n    out since 2027-02-20/' club/club.bell
"$program" print club --all --sheet review,tests,monday --date $today --out shared >/dev/null 2>&1
"$program" print club --all --sheet review,tests,monday --private --date $today --out own >/dev/null 2>&1
for file in shared/*.pdf; do said "$file"; done >words
is "nothing private on what is shared" '' "$(grep -oE '5[12] cm|hold|private.bell' words | head -n 1)"
is "Bea, whose only results are private, has no sheet" no "$([ -e shared/spring-squad-bea-elland-tests.pdf ] && echo yes || echo no)"
is "the coach's own copy has a name of its own" spring-squad-bea-elland-tests-private.pdf "$(cd own && echo *bea*)"
is "and nobody else can read it" 600 "$(stat -c %a own/spring-squad-bea-elland-tests-private.pdf)"
is "nor the list with its version" 600 "$(stat -c %a own/sheets.json)"
holds "it has the result" "52 cm on 14 Mar" "$(said own/spring-squad-bea-elland-tests-private.pdf)"
holds "and says what it is" "Do not hang it up." "$(said own/spring-squad-bea-elland-tests-private.pdf)"
is "the head coach's page has no such copy" '' "$(cd own && ls | grep monday-private)"
# A share of a private result: 70 % of 2347 N are 1643 N, which have to be shown where they are done; the result itself
# is shown nowhere, and without it there is nothing to take a share of.
mkdir share
cat >share/club.bell <<'END'
gym Slipway
    barbells  20 kg
    plates    4 x 20 kg
    stations  rack
athlete Ann Cove
    lifting since  2022-01
    trains at      Slipway
session Holds
    straight A  3 sets rest 2:00
        hip pull hold : hold 45 s @ 70% of isometric mid-thigh pull
camp Spring
    for     Ann Cove
    starts  2027-03-01
    week 1
        monday  17:00  Holds
END
printf 'private Ann Cove\n    tests\n        isometric mid-thigh pull : 2347, 2291 N on 2027-02-20\n' >share/private.bell
"$program" print share --week 1 --sheet wall,board,card,card-page,floor,week,camp,monday,tests,review --date 2027-02-28 --out held \
    >/dev/null 2>&1
{
    for file in held/*.pdf; do said "$file"; done
    sed 's/="[^"]*"//g' held/*.svg | plainly
    for format in text json; do "$program" show share --all --format $format --date 2027-02-28; done
    "$program" show share --all --review --date 2027-02-28
    "$program" check share --format json --infos --date 2027-02-28
} >words 2>/dev/null
is "the load stands where it is done" yes "$(said held/2027-03-01-1700-holds-wall.pdf | grep -q '1643 N' && echo yes)"
is "the result stands nowhere" '' "$(grep -aoE '23(47|19)|2291' words | head -n 1)"
is "but where it is asked for" yes "$("$program" show share --private --all --date 2027-02-28 2>/dev/null | grep -q 2347 && echo yes)"
rm share/private.bell
is "without it there is nothing to take a share of" 1 \
    "$("$program" check share --date 2027-02-28 2>&1 | grep -c 'has no result of isometric mid-thigh pull by this day')"

finish
