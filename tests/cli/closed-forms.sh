#!/bin/sh
# A closed day says what was planned, in whatever form it was planned: a plan that has them all is closed, and means after it what
# it meant before, in every word of `show` and with no finding of its history.
set -u

. tests/house/ok.sh
program=$(realpath "$BELLSHEET")
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder" || exit 1
mkdir club
cat >club/plan.bell <<'END'
gym Slipway
    barbells      2 x 20 kg
    plates        4 x 20, 4 x 10, 4 x 5, 4 x 2.5, 4 x 1.25 kg
    dumbbells     pairs 4-30 kg by 2
    kettlebells   2 x 12, 2 x 16 kg
    balls         3 kg
    bands         light, medium
    stations      2 x rack, landmine, bench, heavy bag, pull-up bar, box, sled
    also has      2 x rope, 4 x mat

gym Annexe
    barbells      20 kg
    plates        4 x 20, 4 x 10 kg
    stations      rack, pull-up bar

athlete Oriel Tamsin
    stance        southpaw
    lifting since 2020-02
    body mass     60 kg on 2027-02-22
    trains at     Slipway
    bests
        back squat : 1 @ 100 kg on 2027-02-22
        bench press : 1 @ 60 kg on 2027-02-22

athlete Kofi Brandreth
    stance        orthodox
    lifting since 2020-09
    trains at     Slipway
    bests
        back squat : 1 @ 120 kg on 2027-02-22
        bench press : 1 @ 90 kg on 2027-02-22

session Loads
    straight A  3 sets rest 2:00
        keep 1
        on a poor day 2 sets RPE 6
        on purpose  the last set tells
        back squat : 5 @ 70/75/...%
            cue  knees out
            stop the back rounds
    straight B  3 sets rest 1:00-2:00
        bench press : 5 @ 2 in reserve
    straight C  3 sets rest 1:00
        bench press : 5 @ 8RM
    straight D  3 sets
        goblet squat : 8-10 @ 16 kg RPE 7-8
    straight E
        bench press : 5, 3, 1 @ 40, 45, 50 kg
    straight F
        back squat : work up to a 3RM
            as a test
    straight G  2 sets
        chin-up : max @ bodyweight + 5 kg
    straight H  3 sets
        dumbbell bench press : 8 @ 2 x 12 kg tempo 3-1-X-0
    straight I  2 sets
        landmine press from a stance : 4 orthodox + 4 southpaw @ 30 kg
    straight J  2 sets
        rear hand ball throw : 4 each stance @ 3 kg all-out
    straight K  3 sets
        pallof press : 8 each side @ light band easy

session Times
    rounds A  3 x 2:00 rest 1:00
        rope : easy
        filler push-up : 5
        round 2 : rope : all-out
    superset B  3 sets rest 1:00
        push-up : 8
        side plank : hold 25 s each side
    as many rounds as possible C in 8:00
        push-up : 5
        air squat : 5
    for time D  3 sets
        push-up : 5
        air squat : 5
    every E 1:00 for 6:00
        push-up : 5
    straight F
        sled push : 4 x 20 m rest 0:30
    straight G
        bike sprint : 6 x 0:20 rest 1:40 pulse 150-160
    straight H  2 sets
        pogo jump : 10 contacts
    straight I
        jab on the bag : 3 x 10 strikes
    ladder J
        push-up : 1, 2, 3
    cluster K  3 sets rest 2:00
        back squat : 2+2+2 rest 0:20 @ 60 kg
    contrast L  3 sets rest 3:00
        back squat : 3 @ 80%
        after 0:20
        box jump : 3
    complex M  2 sets rest 2:00
        deadlift : 3 @ 40 kg
        bent over row : 3
    circuit N  2 sets rest 1:00
        air squat : 8
        dead bug : 8
END
cat >club/camp.bell <<'END'
limits nothing
    every week
        sets at most 9999 warn
camp Spring
    for       Oriel Tamsin, Kofi Brandreth
    starts    2027-03-01
    limits    nothing
    weeks 1-3
        monday    17:30  Loads
            run by  the head coach
        tuesday   17:30  Times
            at      Annexe
            optional
        wednesday 07:00  roadwork : 5000 m in 25:00 pulse 140-150
        thursday  18:00  pads : 6 x 3:00 rest 1:00 RPE 6
        friday    18:00  sparring : 3 rounds RPE 8
        saturday  08:00  travel : 9 h
            time zones 7 east
        sunday    swimming : 30 min RPE 4
END
# The record keeps what was planned, and not why: who ran it, what it was in place of, what was asked before it was loaded.
bare()
{
    awk -F ' · ' '{
        line = $1
        for (i = 2; i <= NF; i++)
            if ($i !~ /^(asked |run by |no side given|no .* at )/)
                line = line " · " $i
        gsub(/  +/, "  ", line)
        sub(/ +$/, "", line)
        print line
    }' "$1"
}
show() { "$program" show club --date 2027-03-15 --from 2027-03-01 --to 2027-03-14 "$@" 2>/dev/null; }
check() { "$program" check club -i --date 2027-03-15 2>&1; }
check >before.said
is "the plan has no error" "" "$(grep ': error: ' before.said)"
show >before
show --format json >before.json
is "it shows something" yes "$([ "$(wc -l <before)" -gt 100 ] && echo yes)"
is "it is closed" 0 "$("$program" close club --until 2027-03-14 --date 2027-03-15 >said 2>&1; echo $?)"
is "the record can be read, and nothing of it was planned otherwise" "" "$(check | grep ': error: \|history-changed')"
show >after
bare before >before.bare
bare after >after.bare
is "what is shown is the same" "" "$(diff before.bare after.bare)"
show --format json >after.json
is "and as many sets" "$(grep -c '"parts"' before.json)" "$(grep -c '"parts"' after.json)"
is "the record is in its layout" "" "$("$program" format --check club/record 2>&1)"
cp -r club/record record
is "closing again" 0 "$("$program" close club --until 2027-03-14 --date 2027-03-15 >said 2>&1; echo $?)"
is "changes nothing" "" "$(diff -r record club/record)"
sed -i 's/back squat : 5 @ 70/back squat : 4 @ 70/' club/plan.bell
has "what is planned otherwise later is reported" "history-changed" "$(check)"
finish
