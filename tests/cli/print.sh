#!/bin/sh
# bellsheet print: files that other programs accept, the index, the rule for make, the watch.
set -u

. tests/house/ok.sh
case $BELLSHEET in
/*) bellsheet=$BELLSHEET ;;
*) bellsheet=$(pwd)/$BELLSHEET ;;
esac
examples=$(pwd)/examples
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder" || exit 1

run()
{
    "$bellsheet" print "$@" --date 2027-02-24
}

# nothing NAME TEXT: TEXT is empty.
nothing()
{
    is "$1" "" "$2"
}

# --- a whole week, every sheet ---

all=wall,board,card,card-page,floor,week,camp
run "$examples/slipway" --week 2 --out all --sheet $all --index --coach >names 2>findings
is "a week is printed" 0 $?
is "each file named is there" "" "$(while read -r name; do [ -s "$name" ] || echo "$name"; done <names)"
is "and no other, but their list" "$(sort names)" "$(find all -type f ! -name sheets.json | sort)"
is "--list names the same, but for further sides and the index" \
    "$(grep -v -e '-[0-9]\.svg$' -e index.html names)" \
    "$(run "$examples/slipway" --week 2 --out all --sheet $all --list)"
nothing "only small letters are warned of" \
    "$(grep ': warning: \(wall\|board\|card\|card-page\|floor\|week\|camp\): ' findings | grep -v 'too-small-to-read')"

small()
{
    grep -A1 'warning: wall: .*too-small-to-read' "$1" | sed -n 's/.*| session //p' | sort -u | paste -sd, -
}
is "headings, people and discs must be read from the floor too: two of eight walls are, on two pages" \
    "Hips before hands,Legs under the jab,Long reach,Short rope,Squad bags,Squad floor" "$(small findings)"
nothing "and none takes more than the two pages it may" "$(
    for file in all/*-wall.pdf; do pdfinfo "$file" | awk -v f="$file" '/^Pages:/ && $2 > 2 { print f, $2 }'; done)"
has "what mends them is reported" "fix: A2 paper or 3 pages would help" "$(cat findings)"
# notes FOLDER: of each wall there that says at its foot that it is too small, its session and what would help.
notes()
{
    for file in "$1"/*-wall.pdf; do
        pdftotext -q -raw "$file" - | sed 's/\xc2\xa0/ /g' | sed -n "s|^Too small to be read from 3 m. |$(basename "$file" -wall.pdf | cut -c17-): |p"
    done
}
is "and stands at the foot of those six" "hips-before-hands: A2 paper or 3 pages would help.
legs-under-the-jab: A2 paper or 3 pages would help.
long-reach: A2 paper or 3 pages would help.
short-rope: A2 paper or 4 pages would help.
squad-bags: A2 paper or 3 pages would help.
squad-floor: A1 paper or 6 pages would help." "$(notes all | sort)"
run "$examples/slipway" --week 2 --out advised --sheet board --paper A4 --pages 1 >/dev/null 2>advised.findings
has "the load board says what mends it" "fix: A3 paper or 2 pages would help" "$(cat advised.findings)"
has "and so does its foot" "Too small to be read from 3 m. A3 paper or 2 pages would help." \
    "$(pdftotext -q -raw advised/*two-stances-board.pdf - | sed 's/\xc2\xa0/ /g')"
for way in "A3 1" "A4 2"; do
    paper=${way% *} pages=${way#* }
    run "$examples/slipway" --week 2 --out "$paper-$pages" --sheet board --paper "$paper" --pages "$pages" >/dev/null 2>way.findings
    nothing "$paper paper, $pages a sheet: that mends it" "$(grep 'session Two stances' way.findings)"
done
grep -q 'session Two stances' advised.findings || refuse "the board is one that cannot be read" "nothing said"
run "$examples/slipway" --week 2 --out third --sheet wall --pages 3 >/dev/null 2>third.findings
is "a third page is enough for four more" "Short rope,Squad floor" "$(small third.findings)"
run "$examples/slipway" --week 2 --out second --sheet wall --paper A2 >/dev/null 2>second.findings
is "and larger paper for all but the largest" "Squad floor" "$(small second.findings)"
run "$examples/slipway" --week 2 --out sixth --sheet wall --pages 6 >/dev/null 2>sixth.findings
is "on as many pages as the feet say all eight can be read" "" "$(small sixth.findings)$(notes sixth)"
run "$examples/slipway" --week 2 --out largest --sheet wall --paper A1 >/dev/null 2>largest.findings
is "and on the paper that they say" "" "$(small largest.findings)$(notes largest)"

nothing "qpdf finds nothing" "$(for file in all/*.pdf; do qpdf --check "$file" >q 2>&1 || cat q; done)"
nothing "xmllint finds nothing" "$(xmllint --noout all/*.svg 2>&1)"
nothing "every font is embedded, a subset and has its characters" \
    "$(for file in all/*.pdf; do pdffonts "$file" | awk -v f="$file" 'NR > 2 && $0 !~ / yes +yes +yes +[0-9]+ +[0-9]+ *$/ { print f ": " $0 }'; done)"
has "a PDF tells its session" "Title:           Hips before hands, Monday 8 March 2027" \
    "$(pdfinfo all/*hips-before-hands-wall.pdf)"
for sheet in wall board card-page floor week camp; do
    has "$sheet is tagged" "Tagged:          yes" "$(pdfinfo "$(find all -name "*-$sheet.pdf" | head -n 1)")"
done
for card in all/*-card.svg; do
    grep -q '<title>' "$card" && grep -q '<desc>' "$card" && grep -q 'role="img"' "$card" || echo "$card"
done >bare
nothing "every card says in words what it shows" "$(cat bare)"

nothing "no sheet for the floor tells what is private" "$(
    for file in all/*-wall.pdf all/*-floor.pdf all/*-week.pdf all/*-camp.pdf; do
        pdftotext -q "$file" - | grep -i -E 'body mass [0-9]|born|under 18|2010|injur|concussion protocol|\<avoid\>|review on' |
            sed "s|^|$file: |"
    done
)"
run "$examples/slipway" --on 2027-03-08 --out plain --sheet floor >names.plain
pdftotext -q -layout plain/*squad-floor-floor.pdf - | sed 's/\xc2\xa0/ /g' >plain.words
nothing "without --coach no exchange is named on the floor sheet" "$(grep -E 'Varholm|Penhallow|Quillfeather|Ilse: ' plain.words)"
has "the floor sheet has the squad's finish" "Slipway: 19:00–19:4[0-9], alone 43 min" "$(sed 's/19:4[0-9],/19:4[0-9],/' plain.words)"
has "whose turn it is at the bar" "Lụa A1 · 1 80 kg" "$(tr -s ' ' <plain.words)"
has "what is changed on it" "off 2.5 kg; on 25 kg, 2.5 kg" "$(cat plain.words)"
has "and when the bell rings for all" "19:00:00 Bell for all: rounds · 3 × 2:00" "$(tr -s ' ' <plain.words)"
has "the coach's copy tells who takes what" "Lụa: 80 kg with bar; Mateus: 130 kg with bar" \
    "$(pdftotext -q all/*squad-floor-floor.pdf - | sed 's/\xc2\xa0/ /g' | tr '\n' ' ')"
has "the coach's copy tells who does what else" "Ilse: kettlebell deadlift" \
    "$(pdftotext -q all/*squad-floor-floor.pdf - | tr '\n' ' ')"

run "$examples/slipway" --week 2 --out again --sheet $all --index --coach >names.again 2>/dev/null
nothing "the same plan gives the same bytes" "$(diff -rq all again 2>&1)"

has "after the bout a camp is provisional" "provisional until its result and the medical check" \
    "$(pdftotext -q all/harbour-final-oriel-tamsin-camp.pdf - | tr '\n' ' ')"
stances=$(pdftotext -q -raw all/*two-stances-wall.pdf - | sed 's/\xc2\xa0/ /g')
has "a number beside a load says what it counts, lest 6 and 5 kg be 65" "slam 6 reps 5 kg" "$(echo $stances)"
has "one time of a combination is no strike" "10 + 10 times" "$(echo $stances)"
run "$examples/slipway" --week 4 --sheet week --athlete "Oriel Tamsin" --out between >/dev/null 2>&1
has "a week in which one phase gives way to another names both" "base, then strength" \
    "$(pdftotext -q between/*week.pdf - | tr '\n' ' ')"

# --- papers and parts ---

for paper in A4 A3 A2 A1 Letter Tabloid; do
    run "$examples/slipway" --on 2027-03-11 --sheet wall --paper $paper --out "p$paper" >/dev/null 2>&1
    run "$examples/slipway" --on 2027-03-11 --sheet wall --paper $paper --landscape --out "l$paper" >/dev/null 2>&1
    upright=$(pdfinfo p$paper/*wall.pdf | sed -n 's/^Page size: *\([0-9.]*\) x \([0-9.]*\) pts.*/\1 \2/p')
    turned=$(pdfinfo l$paper/*wall.pdf | sed -n 's/^Page size: *\([0-9.]*\) x \([0-9.]*\) pts.*/\2 \1/p')
    is "$paper lies down at the size it stands" "$upright" "$turned"
done
run "$examples/slipway" --on 2027-03-11 --sheet $all --paper Tabloid --out american >/dev/null 2>&1
nothing "beside an American wall the rest is on Letter" "$(
    for file in american/*-card-page.pdf american/*-floor.pdf american/*-week.pdf american/*-camp.pdf; do
        pdfinfo "$file" | grep -q 'Page size:.*(letter)' || echo "$file"
    done
)"
has "and lies as it lies on A4" "792 x 612" "$(pdfinfo american/*oriel-tamsin-week.pdf)"
nothing "beside any other it is on A4" "$(
    for file in parts/*-floor.pdf all/*-card-page.pdf all/*-week.pdf all/*-camp.pdf; do
        [ ! -f "$file" ] || pdfinfo "$file" | grep -q 'Page size:.*(A4)' || echo "$file"
    done
)"
run "$examples/slipway" --on 2027-03-11 --sheet wall,floor --paper A2 --tile A4 --out parts >parts.names 2>/dev/null
has "a poster in parts says so in its name" "-wall-tiles.pdf" "$(cat parts.names)"
has "and is on the smaller paper" "A4" "$(pdfinfo parts/*tiles.pdf)"
has "other sheets stay whole" "-floor.pdf" "$(cat parts.names)"
nothing "qpdf finds nothing in the parts" "$(qpdf --check parts/*tiles.pdf 2>&1 >/dev/null)"

# --- what is asked for wrongly ---

run "$examples/slipway" --week 2 --out o --sheet poster >out 2>&1
is "an unknown sheet is refused" 2 $?
has "and the sheets are named" "wall, card, week, parents, bout, monday, camp, tests, review, season, season-club, floor, card-page, board, phone" "$(cat out)"
run "$examples/slipway" --week 2 --out o --tile B5 >out 2>&1
is "an unknown paper is refused" 2 $?
run "$examples/slipway" --week 2 --out o --pages 0 >out 2>&1
is "no pages at all are refused" 2 $?
run "$examples/slipway" --week 2 --list --index >out 2>&1
is "--list makes no index" 2 $?
nothing "and nothing was printed" "$(ls o 2>/dev/null)"

# --- nothing to print ---

mkdir there
for out in empty empty/below there there/below/ "$folder/empty" ./there/a/b; do
    run "$examples/slipway" --week 60 --out "$out" >out 2>&1
    is "$out: a week without sessions is said" 2 $?
    has "$out: as an error" "planned then" "$(cat out)"
    nothing "$out: no empty folder is left" "$(ls -d empty there/* 2>/dev/null)"
done
is "a folder that was there stays" there "$(ls -d there)"
touch there/kept
run "$examples/slipway" --week 60 --out there/new >out 2>&1
is "and what is in it" kept "$(ls there)"
echo 'nonsense' >broken.bell
run broken.bell --week 1 --out unread >out 2>&1
nothing "a plan with errors leaves no folder" "$(ls -d unread 2>/dev/null)"

# --- what a card may not tell ---

mkdir told
sed '/^athlete Mateus/,/^$/s/^    avoid         overhead/    out since 2027-02-19\n    hold head\n        since 2027-02-19\n@&/' \
    "$examples/slipway/athletes.bell" >told/held
for step in 2a 2b 3 4; do
    day=$((${day:-20} + 1))
    sed -i "s/^@/        reached $step by club physio on 2027-02-$day\n@/" told/held
done
sed 's/^@//' told/held >told/athletes.bell
rm told/held
cp -r "$examples/slipway/camps" "$examples/slipway/sessions" "$examples/slipway"/gym.bell "$examples/slipway"/limits.bell told
cat >told/private.bell <<'END'
private Mateus Quillfeather
    born      2001-02-03
    body mass 84.4 kg on 2027-03-01
    avoid     all-out
        because sprained acromioclavicular joint, second grade
END
run told --on 2027-03-08 --sheet card,card-page,wall --athlete "Mateus Quillfeather" --out told/out >out 2>&1
is "the cards of the restricted are printed" 0 $?
for file in told/out/*-card-page.pdf told/out/*-card.svg; do
    case $file in
    *.pdf) pdftotext -q "$file" - ;;
    *) sed -n 's/<desc>/&/p; /<desc>/,/<.desc>/p' "$file" ;;
    esac >words
    case $file in
    *card*) has "$(basename "$file") has its line" "nothing else" "$(tr '\n' ' ' <words)" ;;
    esac
    nothing "$(basename "$file") tells nothing of why" \
        "$(grep -i -E 'sprain|acromio|grade|2001|84\.4|avoid|overhead|hold head|since' words)"
done

nothing "no wall is made of who is on hold" "$(ls told/out | grep wall)"
run told --on 2027-03-08 --sheet wall --out told/walls >out 2>&1
nothing "and no wall has the name" "$(for file in told/walls/*squad*-wall.pdf; do pdftotext -q "$file" -; done |
    grep -i -E 'mateus|quillfeather|on hold')"
run told --on 2027-03-08 --sheet board --out told/boards >out 2>&1
nothing "nor has any board" "$(for file in told/boards/*-board.pdf; do pdftotext -q "$file" -; done |
    grep -i -E 'mateus|quillfeather|on hold')"
is "though that is the squad's, too" 1 "$(ls told/boards | grep -c squad.*-board)"
is "though it is the squad's" 1 "$(ls told/walls | grep -c squad.*-wall)"
run told --on 2027-03-08 --sheet floor --out told/floor >out 2>&1
words=$(pdftotext -q told/floor/*squad*-floor.pdf - | tr '\n' ' ')
nothing "the floor sheet tells nobody" "$(printf '%s' "$words" | grep -i -E 'on hold|mateus')"
has "every floor sheet has the signs" "double vision" "$words"
has "and whom to call" "call an ambulance" "$(printf '%s' "$words" | tr '[:upper:]' '[:lower:]')"
has "and that nobody is left alone" "not left alone" "$words"
run told --on 2027-03-08 --sheet floor --coach --out told/coach >out 2>&1
words=$(pdftotext -q told/coach/*squad*-floor.pdf - | tr '\n' ' ')
has "the coach's copy says who is on hold" "On hold: Mateus." "$words"
nothing "and not since when" "$(printf '%s' "$words" | grep -o -E 'since|February|2027-02')"

# --- hours of the room ---

run "$examples/slipway" --on 2027-03-08 --session "Squad floor" --sheet wall,card,card-page --out hours >out 2>&1
words=$(pdftotext -q -layout hours/*-wall.pdf - | sed 's/\xc2\xa0/ /g' | tr -s ' ')
has "a squad's wall has the hours of each block" "19:09–19:18" "$words"
has "and when all are done" "19:00–19:48" "$words"
words=$(pdftotext -q hours/*-card-page.pdf - | sed 's/\xc2\xa0/ /g')
has "a card has the hour of each set, where and after whom" "19:09:20 25 kg trap bar, 19:12:13 after Mateus, 19:15:06" "$words"
has "and for who hears it" "19:12:13 after Mateus" "$(sed 's/\xc2\xa0/ /g' hours/*lụa-card.svg)"
run "$examples/slipway" --on 2027-03-08 --session "Hips before hands" --sheet card-page --out last >out 2>&1
last=$(pdftotext -q last/*-card-page.pdf - | sed 's/\xc2\xa0/ /g')
has "a card has the sets of the last time" "Last time: 2 × (4 + 4) @ 20 kg, 4 + 4 @ 22.5 kg RPE 8" "$last"
has "a line for what is left out" "left out, and why" "$last"
has "and says where it is folded" "fold here" "$last"
has "a block's heading has its hour" "19:09 · superset · 3 sets" "$words"

# --- the load board ---

run "$examples/slipway" --on 2027-03-08 --session "Squad floor" --sheet board --out boards >out 2>&1
words=$(pdftotext -q -layout boards/*-board.pdf - | sed 's/\xc2\xa0/ /g' | tr -s ' \n' ' ')
has "the board has the lifts across" "A1 trap bar deadlift B1 landmine press from a stance" "$words"
has "and loads in its cells" "80 kg with bar" "$words"
has "and what somebody does instead" "kettlebell deadlift" "$words"
nothing "but no line without a load" "$(printf '%s' "$words" | grep -o 'shoulder tap plank')"
run "$examples/slipway" --on 2027-03-10 --session "Squad bags" --sheet board --paper A2 --out boards >out 2>&1
is "on the paper that is asked for" 1 "$(pdfinfo boards/*bags-board.pdf | grep -c '1683.78 x 1190.55')"

# --- the gym's own warm-up ---

mkdir warm
cp -r told/camps told/sessions told/limits.bell "$examples/slipway/athletes.bell" warm
sed 's/^gym Slipway$/&\n    warm up 8, 4 @ 30, 70%/' "$examples/slipway/gym.bell" >warm/gym.bell
run warm --on 2027-03-08 --sheet card --athlete "Oriel Tamsin" --out warm/out >out 2>&1
is "a gym with a warm-up of its own is printed" 0 $?
run warm --on 2027-03-08 --sheet card-page --athlete "Oriel Tamsin" --out warm/out >out 2>&1
warm_up=$(pdftotext -q -raw warm/out/*hips*-card-page.pdf - | grep 'Warm up' | sed 's/\xc2\xa0/ /g')
# Of 21.25 kg of plates and half of a 20 kg bar 70 % are 21.9 kg, 11.9 of them plates; 30 % are less than the bar's share.
is "its steps are on the card, those that the bar leaves" "Warm up: 4 × 11.25 kg" "$warm_up"

# --- the index ---

page=all/index.html
nothing "the index is well-formed" "$(xmllint --html --noout $page 2>&1)"
nothing "it has no script and loads nothing from elsewhere" "$(grep -i -E '<script|https?:|<link|@import| on[a-z]+=' $page)"
nothing "every picture has words" "$(grep -o '<img[^>]*>' $page | grep -v ' alt="[^"]')"
nothing "every address leads to a file" "$(
    grep -o -E '(src|href)="[^#"][^"]*"' $page | sed 's/^[a-z]*="//; s/"$//' | while read -r address; do
        name=$(env printf '%b' "$(printf '%s' "$address" | sed 's/%/\\x/g')")
        [ -f "all/$name" ] || echo "$name"
    done
)"
is "every card is shown" "$(find all -name '*.svg' | wc -l)" "$(grep -c '<img' $page)"
has "it is as wide as a phone" 'content="width=device-width, initial-scale=1"' "$(cat $page)"

cat >odd.bell <<'END'
gym Hall
    barbells 20 kg
athlete Ana <b> & "C"
    trains at Hall
session Push & <pull>
    straight A 2 sets
        push-up : 5
camp Odd & even
    for Ana <b> & "C"
    starts 2027-03-01
    week 1
        monday 18:00 Push & <pull>
END
run odd.bell --week 1 --out odd --index >/dev/null 2>&1
is "odd names are printed" 0 $?
has "and escaped" 'Push &amp; &lt;pull&gt;, Ana &lt;b&gt; &amp; &quot;C&quot;' "$(cat odd/index.html)"
nothing "an odd name's card is well-formed" "$(xmllint --noout odd/*.svg 2>&1)"

# --- make ---

mkdir "my plans"
cp odd.bell "my plans/odd.bell"
cat >Makefile <<END
sheets/index.html:
	'$bellsheet' print "my plans" --week 1 --out sheets --index --depends sheets.d --date 2027-02-24 >/dev/null 2>&1
-include sheets.d
END
make -s >/dev/null 2>&1
is "make prints once" 0 $?
has "and knows of the plan" 'my\ plans/odd.bell' "$(cat sheets.d)"
is "the second time nothing is to do" 0 "$(make -q; echo $?)"
touch -d '-1 hour' sheets/*; touch "my plans/odd.bell"
is "a plan that was saved is printed again" 1 "$(make -q; echo $?)"
mv "my plans/odd.bell" "my plans/other.bell"
make -s >out 2>&1
is "a plan that is gone does not stop make" 0 $?

# --- watch ---

# soon COMMAND...: COMMAND succeeds within some seconds.
soon()
{
    tries=0
    until "$@" 2>/dev/null; do
        tries=$((tries + 1))
        [ $tries -lt 100 ] || return 1
        sleep 0.1
    done
}

# rested N: the watch has come to rest N times.
rested()
{
    [ "$(grep -c '^watching: ' watch.log)" -ge "$1" ]
}

mkdir club
cp odd.bell club/odd.bell
"$bellsheet" print club --week 1 --out watched --sheet card --watch --date 2027-02-24 >watch.out 2>watch.log &
watch=$!
trap 'kill $watch 2>/dev/null; rm -rf "$folder"' EXIT
card=watched/2027-03-01-1800-push-pull-ana-b-c-card.svg
soon rested 1
is "the watch prints at once" 0 $?
before=$(cksum <$card)
sed 's/push-up : 5/push-up : 7/' odd.bell >club/.new
mv club/.new club/odd.bell
soon rested 2
is "a plan renamed into place is printed again" 0 $?
[ "$before" != "$(cksum <$card)" ]
is "as it is now" 0 $?
before=$(cksum <$card)
echo 'nonsense' >>club/odd.bell
soon rested 3
has "what is wrong is shown" "error: " "$(cat watch.log)"
is "the last good sheet is kept" "$before" "$(cksum <$card)"
cp odd.bell club/odd.bell
soon rested 4
[ "$before" != "$(cksum <$card)" ]
is "and when it is mended there is a new one" 0 $?
sed -e '/^gym/,/^    barbells/d' -e '/^athlete/,$d' odd.bell >club/more.bell
soon rested 5
is "a plan that was added counts" 0 $?

# An editor that keeps a backup moves the plan away first, then writes it anew, in two parts.
mv club/odd.bell club/odd.bell~
head -n 3 odd.bell >club/odd.bell
sed 's/push-up : 5/push-up : 9/' odd.bell | tail -n +4 >>club/odd.bell
soon grep -q 'push-up: .*9' $card
is "a plan moved to a backup and written anew is printed again" 0 $?
sleep 0.5
before=$(cksum <$card)
rests=$(grep -c '^watching: ' watch.log)
rm club/odd.bell club/more.bell
soon rested $((rests + 1))
is "a plan that is gone is noticed" 0 $?
is "and its sheet stays" "$before" "$(cksum <$card)"
sed 's/push-up : 5/push-up : 11/' odd.bell >club/odd.bell
soon grep -q 'push-up: .*11' $card
is "when it is back it is printed" 0 $?
kill $watch
wait $watch 2>/dev/null

# A single file, replaced as a whole under its name.
: >watch.log
"$bellsheet" print club/odd.bell --week 1 --out single --sheet card --watch --date 2027-02-24 >watch.out 2>watch.log &
watch=$!
soon rested 1
sed 's/push-up : 5/push-up : 13/' odd.bell >club/odd.bell.part
mv club/odd.bell.part club/odd.bell
soon grep -q 'push-up: .*13' single/${card#*/}
is "a single file that was replaced is followed" 0 $?
kill $watch
trap 'rm -rf "$folder"' EXIT
wait $watch 2>/dev/null

# An absence without an end is not given that of the season.
mkdir "$folder/away"
cat >"$folder/away/club.bell" <<'END'
season 2027
    from  2027-01-04
    to    2027-12-26
athlete Wren Ashdown
    out since   2027-03-09
athlete Pim Ashdown
    out since   2027-03-09
        until   2027-03-14
camp Spring
    for         Wren Ashdown, Pim Ashdown
    starts      2027-03-01
    weeks 1-3
        tuesday pads : 40 min RPE 5
END
run "$folder/away" --all --sheet season --out "$folder/away/o" >/dev/null 2>&1
has "out without an end" "away from 9 Mar" "$(pdftotext "$folder"/away/o/*wren*.pdf - | tr -s ' \302\240' ' ')"
has "out with an end" "away 9 Mar to 14 Mar" "$(pdftotext "$folder"/away/o/*pim*.pdf - | tr -s ' \302\240' ' ')"
finish
