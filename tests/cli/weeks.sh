#!/bin/sh
# A week is an athlete's, whatever camps it is made of: one sheet with every day right, one total in the CSV. And the
# ways in which days are asked for.
set -u

. tests/house/ok.sh
program=$(realpath "$BELLSHEET")
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder" || exit 1
cat >plan.bell <<'END'
gym Hall
    barbells   1 x 20 kg
athlete Ana Maro
    stance orthodox
    lifting since 2020-01
    trains at Hall
session Pushes
    straight A  3 sets rest 2:00
        push-up : 5
camp Cup
    for       Ana Maro
    starts    2027-02-01
    bout      2027-02-14 19:30 boxing 3 x 3:00 rest 1:00
        weigh-in 2027-02-13 17:00
    weeks 1-2
        monday    17:30 Pushes
camp Derby
    for       Ana Maro
    starts    2027-02-08
    weeks 1-2
        tuesday   17:30 Pushes
camp Squad
    for       Ana Maro
    starts    2027-01-25
    weeks 1-4
        wednesday 17:30 pads : 30 min RPE 5
END

sheets()
{
    "$program" print plan.bell --sheet week --list "$@" 2>/dev/null | wc -l
}

days()
{
    "$program" show plan.bell "$@" 2>/dev/null | sed -n 's/^  [a-z]*day \(2027-[0-9-]*\).*/\1/p' | sort -u | tr '\n' ' '
}

is "three camps in one week make one sheet" 1 "$(sheets --week 2027-W06)"
is "a month has a sheet a week" 3 "$(sheets --month 2027-02)"
is "a week of the year" "2027-02-08 2027-02-09 2027-02-10 2027-02-13 2027-02-14 " "$(days --week 2027-W06)"
is "from a day to a day" "2027-02-09 2027-02-10 2027-02-13 " "$(days --from 2027-02-09 --to 2027-02-13)"
is "up to a day" "2027-01-27 2027-02-01 " "$(days --to 2027-02-01)"
is "a month" "2027-01-27 " "$(days --month 2027-01)"
is "week 53 of a year of 52" 2 "$("$program" show plan.bell --week 2027-W53 >out 2>&1; echo $?)"
is "month 13" 2 "$("$program" show plan.bell --month 2027-13 >out 2>&1; echo $?)"
is "a time is not a day" 2 "$("$program" show plan.bell --to 40min >out 2>&1; echo $?)"
is "minutes of the CSV's weeks" "30 34.75 50.5 34.75" "$("$program" tally plan.bell --format csv 2>/dev/null | tr -d '\r' |
    awk -F, '$3 == "count" && $4 == "time" { sum[$9] += $10 } END { print sum["2027-01-25"], sum["2027-02-01"], sum["2027-02-08"], sum["2027-02-15"] }')"

# An athlete in several camps has one week for all of them: in the order of days, with one ledger and one column.
text=$("$program" show plan.bell --week 2027-W06 2>/dev/null)
is "show tells the camps above the week" "Ana Maro, Cup · week 2 of 2 · bout week
  and Derby · week 1 of 2
  and Squad · week 3 of 4" "$(printf '%s\n' "$text" | head -n 3)"
is "show goes by days, each with its camp" "monday Cup, tuesday Derby, wednesday Squad, saturday Cup, sunday Cup, " \
    "$(printf '%s\n' "$text" | sed -n 's/^  \([a-z]*day\) .* · \(Cup\|Derby\|Squad\).*/\1 \2/p' | tr '\n' ',' | sed 's/,/, /g')"
sed 's/push-up : 5/rear hand ball throw : 4 orthodox @ 3 kg/; s/barbells .*/balls 3 kg/' plan.bell >throws.bell
is "and adds the week up once" "24 in 1" "$("$program" show throws.bell --week 2027-W06 2>/dev/null |
    awk '/stance ledger/ { n++ } /right hand/ { sum += $NF } END { print sum " in " n }')"
is "and JSON, with the camps that it is of" "Cup week 2, Derby week 1, Squad week 3: 24" \
    "$("$program" show throws.bell --week 2027-W06 --format json 2>/dev/null | python3 -c '
import json, sys
ledgers = json.load(sys.stdin)["ledgers"]
for l in ledgers:
    print(", ".join("%s week %d" % (c["camp"], c["week"]) for c in l["camps"]) + ":",
          *(sum(r[s]["high"] for s in ("orthodox", "southpaw", "no_stance")) for r in l["limbs"] if r["limb"] == "right hand"))')"
is "JSON goes by days" "Squad Cup Squad Cup Derby Squad Cup Cup Derby Squad " \
    "$("$program" show plan.bell --format json 2>/dev/null | sed -n '/"occasions"/,/"ledgers"/s/^      "camp": "\(.*\)",/\1/p' | tr '\n' ' ')"
is "one athlete, one table" "Ana Maro, Squad, Cup and Derby" "$("$program" tally plan.bell 2>/dev/null | grep Ana)"
is "tally says whose week each is" "2027-01-25 2027-02-01 2027-02-08 2027-02-15 Squad week 1 week 2 week 3 week 4 Cup week 1 week 2 Derby week 1 week 2 " \
    "$("$program" tally plan.bell 2>/dev/null | sed -n '2,5p' | tr -s ' \n' ' ' | sed 's/^ //')"
sed 's/^\( *for *\)Ana Maro/\1Ana Maro until 2027-01-27, Ana Maro from 2027-02-01/' plan.bell >back.bell
is "who comes back is in one camp all the same" "Ana Maro, Squad, Cup and Derby" "$("$program" tally back.bell 2>/dev/null | grep Ana)"
is "camps that share no week have a table each" 3 "$("$program" tally plan.bell --week 2 2>/dev/null | grep -c '^Ana')"

# column FROM: the times of the weeks, as text gives them.
is "the CSV's weeks are the tally's" "30 34.75 50.5 34.75 " \
    "$("$program" tally plan.bell 2>/dev/null | sed -n 's/^  time  *min *//p' | tr -s ' ' | sed 's/$/ /')"
# Every sum of every week, in CSV, text and JSON.
"$program" tally plan.bell --format csv 2>/dev/null | tr -d '\r' |
    awk -F, '$3 == "count" { low[$4 $5] += $10; high[$4 $5] += $11; seen[$4 $5 $9]++ }
             END { for (k in low) print k, low[k], high[k]; for (k in seen) if (seen[k] > 1) print "twice:", k }' | sort >csv
"$program" tally plan.bell 2>/dev/null | sed -n '6,$p' | awk '
    /:$/ { exit }
    { name = ""; low = high = 0
      for (i = 1; i <= NF && $i !~ /^[0-9]/; i++) name = name (name == "" ? "" : " ") $i
      sub(/ (min|kg)$/, "", name)
      for (; i <= NF; i++) { n = split($i, ends, "–"); low += ends[1]; high += ends[n] }
      print name, low, high }' | sort >text
is "every sum of the CSV is the text's" "" "$(diff csv text)"
"$program" tally plan.bell --format json 2>/dev/null | awk '
    /"group":/ { counts = /"count"/ }
    counts && /"name":/ { name = $0; sub(/.*: "/, "", name); sub(/",.*/, "", name) }
    counts && /"low":/ { sub(/,/, ""); low[name] += $2 }
    counts && /"high":/ { high[name] += $2 }
    END { for (k in low) print k, low[k], high[k] }' | sort >json
is "and the JSON's" "" "$(diff csv json)"
is "there are sums" yes "$([ "$(wc -l <csv)" -gt 10 ] && echo yes)"

# words FILE: of a sheet, spaces plain.
words()
{
    pdftotext -q -layout "$1" - | sed 's/\xc2\xa0/ /g' | tr -s ' '
}

sed 's/^    trains at Hall/&\n    away 2027-02-11 to 2027-02-12 because work/; s/^camp Derby/&\n    limits Own/
    s/^gym Hall/&\n    closed 2027-02-15/' plan.bell >away.bell
cat >>away.bell <<'END'
    week 3
        thursday  17:30 Pushes
    week 4
        monday    17:30 Pushes
        friday    17:30 Pushes
            absent Ana Maro
limits Own
    every week
        push sets at most 4 warn
END
rm -rf out
"$program" print away.bell --week 2027-W06 --sheet week --out out >names 2>said
is "a sheet of several camps is named for its week" "out/2027-w06-ana-maro-week.pdf" "$(cat names)"
words out/2027-w06-ana-maro-week.pdf >sheet
has "its title names them" "Ana Maro, Cup week 2 of 2, Derby week 1 of 2, Squad week 3 of" "$(cat sheet)"
has "days on which nobody trains say why" "Thu 11 away" "$(cat sheet)"
is "no day is called rest that is not" 0 "$(grep -v '3:00 rest' sheet | grep -c 'rest$\|rest [MTWFS]')"
has "weigh-in and bout are on it" "17:00" "$(cat sheet)"

# The day of a bout has a page of its own; weeks without one have none.
"$program" print away.bell --all --sheet bout --out day >names 2>said
is "a page for the week of the bout alone" 1 "$(grep -c bout.pdf names)"
words "$(cat names)" >day.txt
for part in "Sunday 14 February 2027, 19:30" "boxing 3 x 3:00 rest 1:00" "Weigh-in: Saturday 13 February 2027, 17:00" \
    "medical check by" "in the corner" "rounds" "minutes" "RPE" "result" "seen by a doctor" "see a doctor before you train"; do
    has "the day of the bout: $part" "$part" "$(cat day.txt)"
done
has "with the rules of the bout" "boxing 3 x 3:00" "$(cat sheet)"
has "a limit of one of its camps holds" "! at most 4" "$(cat sheet)"
is "a limit of several camps once" 1 "$(grep -c 'sparring rounds' sheet)"
has "its foot names them" "Cup, Derby, Squad ·" "$(cat sheet)"
"$program" print away.bell --week 2027-W07 --sheet week --out out >names 2>said
words "$(cat names)" >sheet
has "a closed gym" "Mon 15 closed" "$(cat sheet)"
has "who is absent" "Fri 19 absent" "$(cat sheet)"
has "and a day of rest" "Thu 18 rest" "$(cat sheet)"

"$program" print plan.bell --week 2027-W06 --sheet card-page,card,floor --athlete 'ana maro' --out out >names 2>said
is "one athlete's cards of a week share a page" 1 "$(grep -c card-page names)"
words out/2027-w06-ana-maro-card-page.pdf >sheet
has "each card has its day" "Monday 8 February 2027" "$(cat sheet)"
has "and the other its own" "Tuesday 9 February 2027" "$(cat sheet)"
is "both announce weigh-in and bout" 2 "$(grep -o 'Weigh-in Sat 13 Feb 17:00. Bout Sun 14 Feb 19:30.' sheet | wc -l)"
has "the coach's notes do too" "Ana Maro: Weigh-in Sat 13 Feb 17:00. Bout Sun 14 Feb 19:30." \
    "$(words out/2027-02-09-1730-pushes-floor.pdf)"
"$program" print plan.bell --week 2027-W06 --sheet card-page --out out >names 2>said
is "without a name, each session has its page" 2 "$(grep -c card-page names)"
"$program" print plan.bell --on 2027-02-09 --sheet card-page --athlete 'ana maro' --out out >names 2>said
is "a session alone keeps its name" out/2027-02-09-1730-pushes-card-page.pdf "$(cat names)"

# Nobody counts down to a bout that was called off; before that day it was still to come.
sed 's/^    bout  .*/&\n        cancelled on 2027-02-06/' plan.bell >off.bell
show=$("$program" show off.bell --date 2027-02-07 2>/dev/null)
is "a bout that was called off is counted down to no longer" "Ana Maro, Cup · week 1 of 2 · 1 week out
Ana Maro, Cup · week 2 of 2" "$(printf '%s\n' "$show" | grep 'Ana Maro, Cup')"
is "nor are its days" 0 "$(printf '%s\n' "$show" | grep -c 'before the bout')"
is "and nobody is announced for it" 0 "$("$program" print off.bell --week 2 --sheet floor --out off --date 2027-02-07 >names 2>/dev/null
    words "$(head -n 1 names)" | grep -c 'Weigh-in\|Bout')"
finish
