#!/bin/sh
# Ten thousand random words and figures of private files go through every command, format, sheet and file name, and
# none comes out. Two private files of one shape and no word in common give the same bytes, and if they bar nothing, so
# does a plan without any: so nothing that is worked out from a private figure comes out either. A new command, format
# or sheet is a line in `rows`.
set -u

. tests/house/ok.sh
: "${BELLSHEET:=build/bellsheet}"
program=$(realpath "$BELLSHEET")
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
wanted=10000

# The exit status that is due, the plan, then what is called in its folder. What is printed goes to OUT. `clean` can be
# printed, `barred` has work that the private file rules out.
rows='
0 clean  check --format json --infos .
0 clean  check --format sarif --infos .
0 clean  check --format github --infos .
0 clean  check --format gitlab --infos .
1 barred check --format json --infos .
1 barred check --format sarif --infos .
1 barred check --format github --infos .
1 barred check --format gitlab --infos .
0 clean  show . --all
0 clean  show . --all --lines
0 clean  show . --all --format json
0 clean  show . --all --review
0 barred show . --all --review
0 clean  show . --all --format json --lines
0 barred show . --all --format json
0 clean  tally .
0 clean  tally . --margin
0 clean  tally . --lines-of tonnage
0 clean  tally . --format csv
0 clean  tally . --format json
0 barred tally . --format json
0 clean  limits .
0 clean  find chin
1 clean  format --check private.bell
0 clean  print . --all --list
0 clean  print . --all --sheet wall,board,card,card-page,floor,week,parents,bout,monday,camp,tests,review,season,season-club,phone --revision r1 --out OUT --index --depends OUT/make.mk
0 clean  print . --all --sheet calendar --date 2027-02-20 --revision r1 --out OUT
0 clean  print . --week 2 --sheet wall,board,floor --coach --landscape --paper A3 --tile A4 --revision r1 --out OUT
1 barred print . --all --revision r1 --out OUT
0 barred print . --all --sheet monday,tests,review --revision r1 --out OUT
0 clean  log . --on 2027-03-01
0 barred log . --week 1
0 clean  import table.csv --date 2027-03-20 --rules table.rules
0 barred import table.csv --date 2027-03-20 --rules table.rules
0 clean  import said.txt --date 2027-03-20
0 clean  join none.txt ours.txt more.txt
0 clean  diff ../before .
0 clean  diff ../before . --format json
0 clean  diff ../before . --format markdown
0 barred diff ../before .
0 barred diff ../before . --format json
0 clean  trim . --on 2027-03-01 --to 55min
0 clean  trim . --on 2027-03-01 --to 55min --patch
1 clean  trim . --on 2027-03-01 --to 5min
0 clean  rework . --week 1
0 clean  next . --week 2
0 clean  next . --week 2 --patch
0 barred rework . --week 1
0 clean  close . --until 2027-03-14 --date 2027-03-20
0 barred close . --until 2027-03-14 --date 2027-03-20
'

# --- the plan ---

athletes='Oriel Tamsin,Kofi Brandreth,Yusra Penhallow,Mateus Quillfeather,Ilse Varholm'
mkdir "$folder/clean" "$folder/barred"
cat >"$folder/clean/gym.bell" <<'END'
gym Slipway
    barbells   2 x 20, 15 kg
    plates     4 x 20, 4 x 10, 4 x 5, 4 x 2.5, 4 x 1.25 kg
    dumbbells  pairs 4-30 kg by 2
    stations   pull-up bar, rack, bench
    also has   dip belt, landmine
END
for athlete in 'Oriel Tamsin' 'Kofi Brandreth' 'Yusra Penhallow' 'Mateus Quillfeather' 'Ilse Varholm'; do
    cat <<END
athlete $athlete
    stance         orthodox
    lifting since  2022-01
    trains at      Slipway
    avoid          throw
    away           2027-05-03 to 2027-05-09
    bests
        back squat : 1 @ 100 kg on 2027-02-01
    tests
        countermovement jump : 38, 39 cm on 2027-02-01
        countermovement jump : 41, 40 cm on 2027-02-15
END
done >"$folder/clean/athletes.bell"
cat >"$folder/clean/camp.bell" <<END
session Strength day
    contrast A  3 sets rest 3:00
        back squat : 5 @ 50% of body mass + 5 kg
        after 0:20
        box jump   : 3 all-out
    straight B  2 sets rest 2:00
        keep 3
        chin-up    : 5, 4 @ body mass
        chin-up    : 5 @ 100% of body mass
        chin-up    : 3 @ body mass + 5 kg
        back squat : 5 @ 50% of B.1
        back squat : 5 @ 40% of B.2
        back squat : 5 @ 50% of A.1
        back squat : 5 @ 75%
        push-up    : 8-10
    straight C  1 set rest 1:00
        back squat : 8-10 @ 30 kg
            next time  8-10, then 2.5 kg
log 2027-03-01 Kofi Brandreth, Strength day
    C.1 : 10 @ 30 kg
season 2027
    from    2027-01-04
    to      2027-12-26
limits own
    every week
        tonnage         at most 9000 kg
            common practice
        chest sets      at least 4
            common practice
        sparring rounds at most 12
            common practice
camp Spring
    for     Oriel Tamsin, Kofi Brandreth
    starts  2027-03-01
    limits  own
    bout    2027-03-20 kickboxing 3 x 2:00 rest 1:00
    weeks 1-2
        monday    17:30  Strength day
        thursday  18:00  sparring : 4 x 2:00 RPE 6
camp Late
    for     Yusra Penhallow, Mateus Quillfeather, Ilse Varholm
    starts  2027-03-01
    limits  own
    bout    2027-03-20 kickboxing 3 x 2:00 rest 1:00
    weeks 1-2
        tuesday   17:30  Strength day
        friday    18:00  sparring : 4 x 2:00 RPE 6
END
printf 'Day,Who,What,Line,Reps,Load,Min\n2027-03-01,Oriel Tamsin,Strength day,A1,5,60,\n2027-03-04,Oriel Tamsin,sparring,,,,14\n' \
    >"$folder/clean/table.csv"
printf 'Day : day\nWho : athlete\nWhat : session\nLine : line\nReps : reps\nLoad : load\nMin : took\n' >"$folder/clean/table.rules"
printf 'log 2027-03-01 Oriel Tamsin, Strength day\n    A.1 : 5 @ 60 kg\n' >"$folder/clean/said.txt"
printf 'log 2027-03-04 Oriel Tamsin, sparring\n    as planned\n' >"$folder/clean/more.txt"
: >"$folder/clean/none.txt"
cp "$folder/clean/said.txt" "$folder/clean/ours.txt"
cp "$folder/clean"/* "$folder/barred"
sed -i 's/^        push-up .*/&\
        half kneeling one arm press : 5 each side @ RPE 6/' "$folder/barred/camp.bell"

# private SEED: a private file; every word and figure that is its own follows "#: " too, for the list of them.
private()
{
    awk -v seed="$1" -v barred="$2" -v athletes="$athletes" '
        function random(below) { seed = seed * 16807 % 2147483647; return seed % below }
        function tell(token) { print token > "/dev/stderr"; return token }
        function word(    text, i) {
            for (i = random(5) + 8; i > 0; i--) text = text substr("abcdefghijklmnopqrstuvwxyz", random(26) + 1, 1)
            return tell(text)
        }
        function words(count,    text) { for (; count > 0; count--) text = text " " word(); return text }
        function entry(what, who, on) { print "        " what " by " who words(2) " on " on }
        function hold_over() {
            print "    head knock on 2027-01-04 19:30\n    hold head\n        since 2027-01-04 19:30"
            entry("reached 1", "club", "2027-01-05"); entry("reached 2a", "club", "2027-01-07")
            entry("reached 2b", "club", "2027-01-09"); entry("reached 3", "club", "2027-01-11")
            entry("reached 4", "club", "2027-01-13"); entry("agreed", "doctor", "2027-01-14")
            entry("reached 5", "doctor", "2027-01-15"); entry("ended", "doctor", "2027-01-20")
        }
        function hold_standing() {
            print "    suspended by the" words(2) "\n        no contact before 2027-06-01"
            print "    head knock on 2027-02-10\n    hold head\n        since 2027-02-10"
            entry("reached 1", "club", "2027-02-11"); entry("reached 2a", "club", "2027-02-13")
            print "        symptoms on 2027-02-14"
        }
        function score() { return random(5) + 1 }
        function day(number) { return sprintf("%d-%02d-%02d", 2024 + int(number / 336), number % 336 / 28 + 1, number % 28 + 1) }
        BEGIN {
            count = split(athletes, names, ",")
            for (a = 1; a <= count; a++) {
                print "private " names[a]
                print "    born " tell(sprintf("19%02d-%02d-%02d", 80 + random(20), random(12) + 1, random(28) + 1))
                for (i = 0; i < 130; i++) {
                    print "    # " words(2)
                    print "    avoid throw"
                    print "        because " words(10)
                }
                for (i = 0; i < 500; i++)
                    print "    body mass " tell(sprintf("%d.%d%d%d", 45 + random(60), random(10), random(10), random(9) + 1)) " kg on " day(i)
                for (i = 0; i < 40; i++)
                    print "    pain left knee " random(11) " of 10 on " day(i)
                for (i = 0; i < 200; i++)
                    print "    morning " day(i) " : sleep " score() ", soreness " score() ", fatigue " score() ", stress " score() ", mood " score()
                print "    tests"
                for (i = 0; i < 40; i++)
                    print "        single leg hop : " tell(sprintf("%d.%d%d", 120 + random(60), random(10), random(9) + 1)) " cm left on " day(i)
                print "    away 2027-05-03 to 2027-05-08 because" words(20)
                if (a == count)
                    hold_over()
                if (barred && a == 2)
                    hold_standing()
                if (barred && a == 1) {
                    print "    avoid overhead"
                    print "        because " words(3)
                }
            }
        }'
}

# --- running and looking ---

# printed FILE: its words, if they cannot be read as they are. Of an SVG, whose letters are outlines, the words that are
# read out; what is drawn besides would differ between the two variants.
printed()
{
    case $1 in
    *.pdf) pdftotext -q "$1" - && pdfinfo "$1" ;;
    *.svg) sed 's/="[^"]*"//g' "$1" ;;
    *) cat "$1" ;;
    esac
}

# found TOKENS FOLDER: tokens that are in a file of FOLDER or in a file's name.
found()
{
    { (cd "$2" && find . | sort); find "$2" -type f | while read -r file; do printed "$file"; done; } |
        tr -s '\302\240' ' ' | grep -owFf "$1" | sort -u
}

# compares ROW: is it the same without a private file? Not what a private file rules out, and not that file itself.
compares()
{
    case $1 in barred:* | *private.bell*) return 1 ;; esac
}

# run VARIANT: every row into $folder/VARIANT, named by its number; without the private file those that are compared with it.
run()
{
    number=0
    echo "$rows" | grep . | while read -r status plan arguments; do
        number=$((number + 1))
        [ "$1" != absent ] || compares "$plan:$arguments" || continue
        out=$folder/$1/$number
        mkdir -p "$out/OUT"
        rm -f "$folder/$plan/private.bell"
        [ "$1" = absent ] || cp "$folder/private-$plan-$1" "$folder/$plan/private.bell"
        (cd "$folder/$plan" && rm -rf OUT && set -f && "$program" ${arguments%% *} --date 2027-02-20 ${arguments#* } \
            >"$out/said" 2>"$out/said.too"; echo "exit $?" >>"$out/said"
            [ ! -d OUT ] || cp -r OUT "$out"
            [ ! -d record ] || mv record "$out")
        # What the screen shows about a plan with errors is for the coach alone.
        case $arguments in print*) [ "$plan" = clean ] || rm "$out/said.too" ;; esac
    done
}

# What `diff` compares with: another state of the plan, without any private file.
mkdir "$folder/before"
cp "$folder"/clean/*.bell "$folder/before"
sed -i 's/2 x 20, 15 kg/3 x 20, 15 kg/' "$folder/before"/*.bell

for variant in one other; do
    seed=11
    [ $variant = one ] || seed=97
    for plan in clean barred; do
        barred=
        [ $plan = clean ] || barred=1
        private $seed "$barred" >"$folder/private-$plan-$variant" 2>>"$folder/tokens"
    done
    run $variant
done
run absent
sort -u "$folder/tokens" >"$folder/private-words"
is "more than $wanted words and figures" yes \
    "$([ "$(wc -l <"$folder/private-words")" -gt "$wanted" ] && echo yes)"
total=$(echo "$rows" | grep -c .)
is "every row was run" "$total" "$(find "$folder/one" -name said | wc -l)"

number=0
while read -r status plan arguments; do
    number=$((number + 1))
    one=$folder/one/$number
    is "$plan: $arguments: none of them" "" "$(found "$folder/private-words" "$one" | head -n 5)"
    is "$plan: $arguments: nothing worked out of them" "" \
        "$(diff -rq "$one" "$folder/other/$number" | sed "s,$folder/,,g")"
    ! compares "$plan:$arguments" || is "$plan: $arguments: the same without the file" "" \
        "$(diff -rq --exclude=make.mk "$one" "$folder/absent/$number" 2>&1 | sed "s,$folder/,,g")"
    is "$plan: $arguments: ends as it should" "exit $status" "$(tail -n 1 "$one/said")"
done <<END
$(echo "$rows" | grep .)
END

# --- it can fail ---

cd "$folder/clean" || exit 2
cp "$folder/private-clean-one" private.bell
mkdir "$folder/asked"
"$program" show . --all --format json --private --date 2027-02-20 >"$folder/asked/said" 2>/dev/null
is "what is asked for is found" yes "$([ "$(found "$folder/private-words" "$folder/asked" | wc -l)" -gt 1000 ] && echo yes)"
cp "$folder/private-clean-other" private.bell
is "and differs" 1 "$("$program" show . --all --format json --private --date 2027-02-20 2>/dev/null |
    cmp -s - "$folder/asked/said"; echo $?)"
telltale=$(grep -x '[a-z]*' "$folder/private-words" | sed -n 100p)
sed -i "s/Strength day/$telltale/; s/^camp Spring/camp $telltale/" camp.bell
for sheet in wall card floor week monday camp tests review season season-club; do
    mkdir "$folder/$sheet"
    "$program" print . --week 1 --athlete 'Oriel Tamsin' --sheet $sheet --date 2027-02-20 --out "$folder/$sheet" \
        >/dev/null 2>&1
    for file in "$folder/$sheet"/*; do
        mv "$file" "$folder/$sheet/sheet.${file##*.}" # the name may have it too
    done
    is "a word on a $sheet sheet is seen" "$telltale" "$(found "$folder/private-words" "$folder/$sheet")"
done
mkdir "$folder/named"
touch "$folder/named/card-$telltale.svg"
is "and one in the name of a file" "$telltale" "$(found "$folder/private-words" "$folder/named")"
finish
