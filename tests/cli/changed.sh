#!/bin/sh
# bellsheet print into a folder that was printed before: only what changed is printed, what the plan no longer has goes,
# and nothing that print did not make is touched.
set -u

. tests/house/ok.sh
bellsheet=$(realpath "$BELLSHEET")
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cp -r examples/slipway "$folder/club"
cd "$folder" || exit 1

# run ARGUMENTS: names of what was printed, without the folder's name; messages go to the file `said`.
run()
{
    "$bellsheet" print club --date 2027-02-24 --out out "$@" 2>said | sed 's|^out/||' | sort
}

# state: the name and bytes of every file, and when it was written.
state()
{
    (cd out && find . -type f -exec stat -c '%n %y %s' {} + | sort)
}

first=$(run --week 2)
cp out/sheets.json list.json
is "the first time everything is printed" "$(cd out && ls | grep -v sheets.json)" "$first"
is "the list names each sheet once" "$(echo "$first" | grep -v -e '-[0-9]\.svg$')" "$(sed -n 's/.*"name": "\([^"]*\)".*/\1/p' out/sheets.json)"
echo "a coach's own notes" >out/2027-03-08-1730-hips-before-hands-wall.txt
echo "<svg/>" >out/my-own-card.svg
before=$(state)
is "the second time nothing is" "" "$(run --week 2)"
is "and no file is written" "$before" "$(state)"
has "what could not be laid out well is said again" "too-small-to-read" "$(cat said)"

for file in club/gym.bell club/camps/*.bell club/athletes.bell; do
    sed -i '1s/^/# a comment\n/' "$file"
done
"$bellsheet" format club/sessions/*.bell
is "after comments nothing is printed" "" "$(run --week 2)"
is "and no file is written" "$before" "$(state)"

# One load of one session of one athlete.
cp -r club club.before
sed -i 's|landmine press from a stance : 3 orthodox + 3 southpaw @ 80/82.5/85/80%|landmine press from a stance : 3 orthodox + 3 southpaw @ 95%|
s|landmine press from a stance : 4 orthodox + 4 southpaw @ 78/80/82.5/75%|landmine press from a stance : 4 orthodox + 4 southpaw @ 60%|' club/sessions/*.bell
changed=$(run --week 2)
[ -n "$changed" ] || refuse "a changed load" "nothing was printed"
is "a changed load prints the sheets of its session alone" "" \
    "$(echo "$changed" | grep -v -e "$(grep -l 'landmine press' club/sessions/*.bell | xargs sed -n 's/^session \(.*\)/\1/p' | tr 'A-Z ' 'a-z-' | paste -sd'|' | sed 's/|/\\|/g')")"
is "and of it no more than the plan's difference" "$(echo "$changed" | wc -l)" "$(echo "$changed" | grep -c 'landmine\|hips-before-hands\|turn\|two-stances')"
has "what hangs there no longer holds" "stale: " "$(cat said)"
is "each is named with its version" "$(sed -n 's/^stale: \([0-9]*\) .*/\1/p' said)" "$(grep -c '^  .*(version [0-9a-f]\{8\}): printed again as version' said)"

# Back as it was: the same versions as at first.
rm -rf club
cp -r club.before club
run --week 2 >/dev/null
is "a plan that is as it was has the versions that it had" "$(cat list.json)" "$(cat out/sheets.json)"

# Other weeks that were printed stay, and are named if they are out of date.
run --week 3 >/dev/null
rm -rf club
cp -r club.before club
week2=$(cd out && ls 2027-03-0[89]* 2027-03-1[0-4]* 2>/dev/null | sort)
sed -i 's/^\( *\)sunday .*long run.*//' club/camps/*.bell
sed -i 's|trap bar deadlift  : 5 @ 75/77.5/80/75%|trap bar deadlift  : 5 @ 60%|' club/sessions/squad.bell
run --week 3 >/dev/null
has "of another week what no longer holds is named" "2027-03-08-1900-squad-floor-wall.pdf (version" "$(cat said)"
has "with why" "the plan has changed since" "$(cat said)"
is "and stays" "$week2" "$(cd out && ls 2027-03-0[89]* 2027-03-1[0-4]* | sort)"
"$bellsheet" print club --date 2027-02-24 --stale --out out >stale 2>/dev/null
is "--stale says so by its status" 1 $?
has "--stale names it" "2027-03-08-1900-squad-floor-wall.pdf" "$(cat stale)"
version=$(sed -n 's/.*squad-floor-wall.pdf (version \([0-9a-f]*\)).*/\1/p' stale | head -n 1)
good=$(sed -n 's/.*"2027-03-15-1900-squad-floor-wall.pdf", "sheet": "wall", "version": "\([0-9a-f]*\)".*/\1/p' out/sheets.json)
"$bellsheet" print club --date 2027-02-24 "--stale=$version,$good" >stale 2>/dev/null
is "a version alone can be asked about" "1
$version: take it down; no sheet of the plan is like it
$good holds: 2027-03-15-1900-squad-floor-wall" "$?
$(cat stale)"
run --all >/dev/null
is "once all is printed nothing is stale" "0" "$("$bellsheet" print club --date 2027-02-24 --stale --out out >/dev/null 2>&1; echo $?)"

# What the plan no longer has goes, and nothing else.
sed -i '/Squad floor$/d' club/camps/*.bell
run --all >/dev/null
is "sheets of a session that is no longer placed are gone" "" "$(cd out && ls | grep squad-floor)"
has "and said to be" "squad-floor-wall.pdf (version" "$(cat said)"
has "with why" "the plan no longer has it" "$(cat said)"
is "what print did not make stays" "a coach's own notes <svg/>" "$(cat out/2027-03-08-1730-hips-before-hands-wall.txt out/my-own-card.svg | paste -sd' ')"
is "the folder holds what the list has, and what is not print's" "" \
    "$(cd out && for f in *.svg *.pdf; do grep -q "\"${f%-[0-9].svg}" sheets.json || echo "$f"; done | grep -v my-own)"

# A second page that a card no longer has.
rm -rf out
cat >one.bell <<'END'
gym Hall
    barbells    20 kg
athlete Ana Berg
    trains at   Hall
session Push
    straight A  3 sets rest 2:00
        push-up : 8
END
cat >two.bell <<'END'
camp Spring
    for       Ana Berg
    starts    2027-03-01
    weeks 1-1
        monday    18:00  Push
END
cp one.bell short.bell
for i in 1 2 3 4 5 6 7 8 9; do
    printf '    straight %s  3 sets rest 2:00\n        push-up : 8\n' "$(echo ABCDEFGHIJ | cut -c$((i + 1)))" >>one.bell
done
print_two()
{
    cat "$1" two.bell >plan.bell
    "$bellsheet" print plan.bell --week 1 --sheet card --out out >/dev/null 2>said
    (cd out && ls | grep svg | paste -sd' ')
}
is "a long card has more sides" "2027-03-01-1800-push-ana-berg-card-2.svg 2027-03-01-1800-push-ana-berg-card.svg" "$(print_two one.bell | sed 's/ [^ ]*-[3-9].svg//g')"
echo kept >out/2027-03-01-1800-push-ana-berg-card-9.svg
is "a shorter one loses them, and no file that is not its own" "2027-03-01-1800-push-ana-berg-card-9.svg 2027-03-01-1800-push-ana-berg-card.svg" "$(print_two short.bell)"

# One folder for sheets of every kind and of two plans: none removes another's, in whichever order they are printed.
rm -rf out
sed 's/Ana Berg/Zoe Berg/' plan.bell >zoe.bell
print_also()
{
    "$bellsheet" print "$1" --week 1 --sheet "$2" --date 2027-02-24 --out out 2>>said | sed 's|^out/||' >>all
}
: >all
: >said
for sheet in week phone calendar camp phone week card; do
    print_also plan.bell "$sheet"
    print_also zoe.bell "$sheet"
done
print_also plan.bell wall
print_also plan.bell monday
is "sheets of all kinds stand beside one another" "$(sort -u all)" "$(cd out && ls | grep -v sheets.json)"
is "with those of the other plan" "2 2 2" "$(for sheet in week phone calendar; do ls out | grep -c "$sheet"; done | paste -sd' ')"
is "and none is said to be stale" "" "$(grep stale said)"

# Two names that come out alike as the name of a file.
sed '/^camp/,$d' plan.bell >alike.bell
printf 'athlete Ana-Berg\n    trains at   Hall\n' >>alike.bell
sed 's/Ana Berg/Ana Berg, Ana-Berg/' two.bell >>alike.bell
rm -rf out
"$bellsheet" print alike.bell --week 1 --sheet phone,calendar --out out --date 2027-02-24 >/dev/null 2>&1
is "a page and a calendar each, where names are written alike" \
    "ana-berg-2-calendar.ics ana-berg-2-phone.html ana-berg-calendar.ics ana-berg-phone.html" "$(ls out | grep -v json | paste -sd' ')"
is "each with its own name" "1 1" "$(grep -c '<h1>Ana Berg\b' out/ana-berg-phone.html) $(grep -c '<h1>Ana-Berg\b' out/ana-berg-2-phone.html)"

# A list that print did not write, or that somebody wrote so that other files would be removed.
echo precious >precious.svg
echo '{"format": 1, "sheets": [{"name": "../precious.svg", "sheet": "card", "version": "0", "pages": 1}]}' >out/sheets.json
"$bellsheet" print plan.bell --week 1 --sheet card --out out >/dev/null 2>said
is "a list with a way out of the folder is refused" "2 precious" "$? $(cat precious.svg)"
has "in plain words" "sheets.json is no list that \`print\` made" "$(cat said)"
echo '[[[' >out/sheets.json
"$bellsheet" print plan.bell --week 1 --sheet card --out out >/dev/null 2>&1
is "so is what is no list at all" 2 $?
rm out/sheets.json
"$bellsheet" print plan.bell --week 1 --sheet card --out out >/dev/null 2>&1
is "once it is moved away all is printed" 0 $?
is "--all-again prints what stands there" "out/2027-03-01-1800-push-ana-berg-card.svg" \
    "$("$bellsheet" print plan.bell --week 1 --sheet card --all-again --out out 2>/dev/null)"

finish
