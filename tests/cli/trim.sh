#!/bin/sh
# A session cut to the time available: what goes, the change of the plan that says so, and what it refuses.
set -u

. tests/house/ok.sh
program=$(realpath "$BELLSHEET")
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder" || exit 1

cat >gym.bell <<'END'
gym Slipway
    barbells   2 x 20 kg
    plates     8 x 20, 4 x 10, 4 x 5, 4 x 2.5 kg
    dumbbells  pairs 4-30 kg by 2
    stations   pull-up bar, rack, bench
gym Annexe
    dumbbells  pairs 4-30 kg by 2
    stations   pull-up bar

athlete Oriel Tamsin
    stance        orthodox
    lifting since 2020-01
    trains at     Slipway
    bests
        back squat : 1 @ 100 kg on 2027-02-01

athlete Kofi Brandreth
    stance        southpaw
    lifting since 2020-01
    trains at     Slipway
    bests
        back squat : 1 @ 120 kg on 2027-02-01

session Strength
    rounds 3 x 2:00 rest 0:30
        rope : easy
    straight A  3 sets rest 3:00
        keep 1
        back squat : 5 @ 75%
    superset B  4/4/3/4 sets rest 1:00
        keep 2
        chin-up : 5
        push-up : 10
    straight C  rest 1:00
        keep 3
        dead bug  : 5, 5, 4, 4
        side plank : 2 x hold 20 s each side
    rounds D  4 x 1:00 rest 0:30
        keep 3
        shadow boxing : easy
    superset E  3 sets rest 0:45
        keep 3
        band pull-apart : 15
    straight F  4 sets rest 1:00
        push-up : 8

session Slow start
    straight A  4 sets rest 1:00
        keep 3
        90-90 hip switch : 10 each side
    straight B  3 sets rest 3:00
        keep 1
        push-up : 5

session Whose rounds
    rounds 6 x 2:00 rest 1:00
        keep 3
        rope : easy
    ladder A  rest 1:00
        keep 2
        pull-up : 1, 2, 3, 4
    every B  1:00 for 6:00
        keep 3
        push-up : 5
    as many rounds as possible C  in 6:00
        keep 3
        push-up : 8

session All first
    straight A  3 sets rest 3:00
        keep 1
        push-up : 5

limits none here
    every week
        sparring rounds   at most 40
            common practice
END
cat >camp.bell <<'END'
camp Spring
    for       Oriel Tamsin
    starts    2027-03-01
    limits    none here
    weeks 1-4
        monday, thursday 17:30  Strength
        tuesday   10:00  Slow start
        friday    10:00  Whose rounds
        saturday  10:00  All first
        sunday    09:00  roadwork : 30 min RPE 4
camp Pair
    for       Oriel Tamsin, Kofi Brandreth
    starts    2027-05-03
    limits    none here
    weeks 1-2
        tuesday   18:00  Strength
    week 3
        tuesday   18:00  Strength
            coaches 2
        wednesday, friday  18:00  Strength
END
"$program" format gym.bell camp.bell 2>/dev/null
cp camp.bell whole.bell.old
cp gym.bell gym.bell.old

trim() { "$program" trim . --date 2027-02-20 "$@" 2>&1; }
patch() { trim --patch "$@"; }
again() { cp whole.bell.old camp.bell; cp gym.bell.old gym.bell; }
errors() { "$program" check . --date 2027-02-20 2>&1 | grep -c ': error: '; }
status() { trim "$@" >/dev/null; echo $?; }
minutes() { "$program" show . --on "$1" --date 2027-02-20 2>/dev/null | sed -n 's/.* · \([0-9]*\):[0-9]* · column.*/\1/p' | sort -n | tail -n 1; }

# --- what goes ---

whole=$(minutes 2027-03-01)
other=$(minutes 2027-03-15)
is "nothing has to go" "It takes $((whole + 1)) min: nothing has to go." "$(trim --on 2027-03-01 --to 2h | tail -n 1)"
is "and there is no patch" "" "$(patch --on 2027-03-01 --to 2h)"
told=$(trim --on 2027-03-01 --to "$((whole - 1))min")
has "first a set of the last block of keep 3" "  D rounds" "$(echo "$told" | grep without)"
has "proven" "and no cut loses less" "$told"
has "nothing of keep 1" "  A straight" "$(echo "$told" | grep -v -e without -e goes)"
told=$(trim --on 2027-03-01 --to 44min)
has "no care" "  E superset" "$(echo "$told" | grep -v -e without -e goes)"
has "and nothing without keep" "  F straight" "$(echo "$told" | grep -v -e without -e goes)"
is "keep 2 goes before keep 3 is gone" "" "$(trim --on 2027-03-01 --to 50min | grep '^  B .*without')"

# --- a line that ends too late on several days ---

sed '/^camp Pair/,$s/^\( *\)tuesday   18:00  Strength$/&\n\1    out by 18:45/' whole.bell.old >camp.bell
"$program" format camp.bell 2>/dev/null
is "the room ends too late" yes "$("$program" check . --date 2027-02-20 2>&1 | grep -q room-overrun && echo yes)"
is "a day of them is cut, though the others stay" 0 "$(status --on 2027-05-04 --to 44min)"
trim --apply --on 2027-05-04 --to 44min >/dev/null
is "it is found on the others alone" "" "$("$program" check . --date 2027-02-20 2>&1 | grep -F 'Strength on 2027-05-04')"
has "which are reported as before" "Strength on 2027-05-11" "$("$program" check . --date 2027-02-20 2>&1)"
again

# --- the plan that says so ---

for on in 2027-03-01 2027-03-11 2027-05-04 2027-05-18 2027-05-19; do
    for to in 50 44 40 38; do
        again
        patch --on $on --to ${to}min >patch
        is "$on to $to: a patch" yes "$([ -s patch ] && echo yes)"
        git apply patch 2>said
        is "$on to $to: git apply takes it" "" "$(cat said)"
        cp camp.bell patched
        again
        is "$on to $to: --apply names the file" ./camp.bell "$(trim --apply --on $on --to ${to}min | tail -n 1)"
        is "$on to $to: and writes the same" "" "$(diff camp.bell patched)"
        is "$on to $to: it keeps its layout" "" "$("$program" format --check camp.bell 2>&1)"
        is "$on to $to: no error" 0 "$(errors)"
        is "$on to $to: it takes no longer" yes "$([ "$(minutes $on)" -lt $to ] && echo yes)"
        is "$on to $to: other days are as they were" "$other" "$(minutes 2027-03-15)"
        is "$on to $to: twice changes nothing" "" "$(trim --apply --on $on --to ${to}min | grep camp.bell)"
        is "$on to $to: nor does the patch" "" "$(diff camp.bell patched)"
        git apply patch 2>/dev/null
        is "$on to $to: which no longer applies" "" "$(diff camp.bell patched)"
    done
done
again
has "the day gets a line of its own" "    week 2
        thursday  17:30  Strength" "$(trim --apply --on 2027-03-11 --to 50min >/dev/null; cat camp.bell)"
again
has "of two days of a week one is set apart" "        friday    18:00  Strength
        wednesday 18:00  Strength
" "$(trim --apply --on 2027-05-19 --to 50min >/dev/null; cat camp.bell)"
again
has "a line of one day takes it below" "            coaches 2
            " "$(trim --apply --on 2027-05-18 --to 50min >/dev/null; cat camp.bell)"

# --- what no line can say, and the least of a warm-up ---

again
told=$(trim --on 2027-03-05 --to 30min)
has "rounds without a letter are left whole" "left whole: no line below the session can shorten it" "$told"
has "every gives up rounds" "change  B : 1:00 for" "$(patch --on 2027-03-05 --to 36min)"
has "a ladder its last set" "change  A.1 : 1, 2, 3
" "$(patch --on 2027-03-05 --to 22min)"
is "five minutes of the warm-up stay" 5 "$(trim --on 2027-03-02 --to 1min | sed -n 's/^  A straight *\([0-9]*\) min.*/\1/p')"

# --- one of a squad ---

# done NAME: when NAME finishes among the others.
done_at() { "$program" show . --on 2027-05-04 --date 2027-02-20 2>/dev/null | sed -n "s/^ *$1 · done at //p"; }
again
told=$(trim --on 2027-05-04 --to 50min --athlete 'Kofi Brandreth')
has "one of a squad is cut among the others" "That is among the 2 who do it there" "$told"
has "from when the athlete is done among them" ": 56 min as planned, 50 min wanted" "$told"
is "and is not in time as planned" 18:55:17 "$(done_at 'Kofi Brandreth')"
patch --on 2027-05-04 --to 50min --athlete 'Kofi Brandreth' >patch
git apply patch 2>said
is "git apply takes that patch" "" "$(cat said)"
has "which is for the athlete alone" "            for     Kofi Brandreth
                change  " "$(cat camp.bell)"
is "who is then in time" yes "$([ "$(done_at 'Kofi Brandreth')" \< 18:50:01 ] && echo yes)"
has "the others do all of it" "Oriel Tamsin, Pair" "$("$program" show . --on 2027-05-04 --date 2027-02-20 | grep -B 2 '54:10')"
is "the other week is as it was" "$whole" "$(minutes 2027-05-11)"
is "twice changes nothing" "" "$(trim --apply --on 2027-05-04 --to 50min --athlete 'Kofi Brandreth' | grep camp.bell)"
is "no error" 0 "$(errors)"
trim --apply --on 2027-05-04 --to 50min --athlete 'Oriel Tamsin' >/dev/null
is "the other one has lines of their own" 2 "$(grep -c 'for     [KO].* [BT][a-z]*$' camp.bell)"
trim --apply --on 2027-05-04 --to 40min --athlete 'Kofi Brandreth' >/dev/null
is "cut again to less" yes "$([ "$(done_at 'Kofi Brandreth')" \< 18:40:01 ] && echo yes)"
again
is "one of a squad keeps what matters" 1 "$(status --on 2027-05-04 --to 10min --athlete 'Kofi Brandreth')"
is "is not written" "" "$(trim --apply --on 2027-05-04 --to 10min --athlete 'Kofi Brandreth' >/dev/null; diff camp.bell whole.bell.old)"

# --- a lighter week, which takes its share of what a line says ---

light()
{
    again
    sed -i '/^camp Spring/,/^camp Pair/s/^\( *\)weeks 1-4/\1week 2\n\1    deload    75% of the sets, RPE 1 lower\n&/' camp.bell
    "$program" format camp.bell 2>/dev/null
}
light
whole=$(minutes 2027-03-08)
to=$((whole - 5))
while [ "$to" -ge "$((whole - 15))" ]; do
    light
    told=$(trim --apply --on 2027-03-08 --to ${to}min)
    has "lighter, to $to: it is done" "Done after" "$told"
    is "lighter, to $to: it takes no longer" yes "$([ "$(minutes 2027-03-08)" -lt "$to" ] && echo yes)"
    is "lighter, to $to: all that should go can be said" "" "$(echo "$told" | grep 'left whole' | grep -v rounds)"
    to=$((to - 5))
done
light
trim --apply --on 2027-03-08 --to 35min >/dev/null
has "two sets are left of the three that are written" "change  C.1 : 5, 5, 4
" "$(cat camp.bell)"
light
trim --apply --on 2027-03-08 --to 29min >/dev/null
has "as of a whole block" "change  B : 3 sets
" "$(cat camp.bell)"

# --- two gyms ---

again
sed -i '/Strength/a\            at Annexe for Kofi Brandreth' camp.bell
is "each gym is reported" 2 "$(trim --on 2027-05-04 --to 50min | grep -c '^Strength on')"
trim --apply --on 2027-05-04 --to 50min >/dev/null
is "both are in time" yes "$([ "$(minutes 2027-05-04)" -lt 50 ] && echo yes)"

# --- refusals ---

again
is "keep 1 alone" 1 "$(status --on 2027-03-06 --to 5min)"
has "with a reason" "Not enough" "$(trim --on 2027-03-06 --to 5min)"
is "and no patch" "bellsheet: error: it cannot be cut that far" "$(patch --on 2027-03-06 --to 5min)"
has "a day without" "nothing is planned then" "$(trim --on 2027-03-03 --to 40min)"
has "a day without a session" "no session is planned then" "$(trim --on 2027-03-07 --to 40min)"
has "no day" "say which day" "$(trim --to 40min)"
has "no time" "is not a day such as 2027-03-20, nor a time such as 40min" "$(trim --on 2027-03-01 --to forty)"
has "zero" "is not a day such as 2027-03-20, nor a time such as 40min" "$(trim --on 2027-03-01 --to 0min)"
has "both" "choose one" "$(trim --on 2027-03-01 --to 40min --patch --apply)"
has "standard input" "cannot be changed" "$("$program" trim - --on 2027-03-01 --to 40min --apply <camp.bell 2>&1)"
"$program" close . --until 2027-03-03 --date 2027-03-10 >/dev/null 2>&1
has "a closed day" "is closed" "$("$program" trim . --on 2027-03-01 --to 40min --date 2027-03-10 2>&1)"
rm -r record
chmod a-w . && chmod a-w camp.bell
is "what cannot be written stays" "" "$([ "$(id -u)" = 0 ] || trim --apply --on 2027-03-01 --to 50min >/dev/null; diff camp.bell whole.bell.old)"
chmod u+w . camp.bell
finish
