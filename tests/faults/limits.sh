#!/bin/sh
# Every limit of size says what it is when it is passed, and no name or link leads out of the plan's folder.
set -u

. tests/house/ok.sh
bellsheet=$(realpath "${BELLSHEET:-build/bellsheet}")
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT

# refused NAME "WORDS" STATUS ARGUMENT...: `check` says WORDS and ends with STATUS.
refused()
{
    name=$1
    words=$2
    status=$3
    shift 3
    got=$(timeout 300 "$bellsheet" check "$@" 2>&1 </dev/null)
    is "$name: exit" "$status" "$?"
    has "$name" "$words" "$got"
}

people()
{
    i=0
    while [ $i -lt "$1" ]; do
        echo "athlete Nobody $i"
        i=$((i + 1))
    done
    printf 'camp All\n    for Nobody 0'
    i=1
    while [ $i -lt "$1" ]; do
        printf ', Nobody %d' $i
        i=$((i + 1))
    done
    printf '\n    starts 2027-03-01\n'
}

mkdir "$folder/a"
head -c 9000000 /dev/zero | tr '\0' '#' >"$folder/a/large.bell"
refused "a file" "larger than 8 MiB" 2 "$folder/a"

mkdir "$folder/b"
deep=$folder/b
for i in 1 2 3 4 5 6 7 8 9 10 11 12 13; do
    deep=$deep/d
done
mkdir -p "$deep"
echo 'athlete A' >"$deep/a.bell"
refused "folders" "at most 12 deep" 2 "$folder/b"

mkdir "$folder/c"
(cd "$folder/c" && seq 5001 | sed 's/$/.bell/' | xargs touch)
refused "files" "at most 5000 files" 2 "$folder/c"

mkdir "$folder/d"
awk 'BEGIN { print "athlete A"; for (i = 1; i < 20; i++) printf "%*sstance southpaw\n", i * 4, "" }' >"$folder/d/a.bell"
refused "indentation" "nothing can be indented" 1 "$folder/d"

mkdir "$folder/e"
{
    printf 'athlete '
    head -c 200 /dev/zero | tr '\0' 'n'
    echo
} >"$folder/e/a.bell"
refused "a name" "120" 1 "$folder/e"

mkdir "$folder/f"
cat >"$folder/f/a.bell" <<'END'
athlete A
camp Long
    for A
    starts 2027-03-01
    bout   2099-03-01 boxing
END
refused "a camp" "at most 260 weeks" 1 "$folder/f"

mkdir "$folder/g"
{
    people 200
    cat <<'END'
    weeks 1-260
        monday roadwork : 30 min RPE 4
        tuesday roadwork : 30 min RPE 4
        wednesday roadwork : 30 min RPE 4
        thursday roadwork : 30 min RPE 4
END
} >"$folder/g/a.bell"
refused "what is placed" "at most 200000 sessions" 1 "$folder/g"

# Sets that are each athlete's own: others are shared, and take no room.
mkdir "$folder/h"
{
    people 120
    cat <<'END'
    weeks 1-260
        monday Much
        tuesday Much
        wednesday Much
        thursday Much
session Much
END
    for letter in A B C D E F G H; do
        echo "    circuit $letter 3 sets"
        for i in 1 2 3 4 5 6 7 8; do
            echo "        push-up : 1, 2, 3 @ 10% of body mass"
        done
    done
} >"$folder/h/a.bell"
refused "what it grows to" "more than the 1024 MB allowed; it is read only up to here [plan-too-large]" 1 "$folder/h"
has "what it grows to: the rest is not judged" "1 error, 0 warnings" "$got"

mkdir "$folder/i"
cat >"$folder/i/a.bell" <<'END'
session S
    straight A 101 sets
        push-up : 5
camp C
    for A
    starts 2027-03-01
    week 1
        monday S
athlete A
END
refused "sets" "100" 1 "$folder/i"
echo 'athlete A
    body mass 99999999 kg' >"$folder/i/a.bell"
refused "digits" "at most 7 digits" 1 "$folder/i"

# --- what would take as long as its square ---

# many COUNT "FORMAT": the line COUNT times, with 1, 2, 3 and so on in place of %d.
many()
{
    seq "$1" | awk -v format="$2" '{ line = format; gsub(/%d/, $1, line); print line }'
}

mkdir "$folder/j"
plan=$folder/j/a.bell
{ printf 'athlete A # '; head -c 16400 /dev/zero | tr '\0' x; echo; } >"$plan"
refused "a long line" "a line may have 16384 bytes, and this one has 16413 [line-too-long]" 1 "$plan"
is "of which a part is shown" yes "$([ "$("$bellsheet" check "$plan" 2>&1 | wc -c)" -lt 1000 ] && echo yes)"

many 5000 ':' >"$plan"
refused "a file of another kind" "1000 lines above cannot be read, so the rest of this file is skipped [too-many-faults]" 1 \
    "$plan"
is "what is said of it" yes "$([ "$("$bellsheet" check "$plan" 2>&1 | wc -c)" -lt 400000 ] && echo yes)"

{ echo 'session S'; echo '    straight A 3 sets'; many 30000 '        nothing %d : 5'; } >"$plan"
refused "too much that is wrong" "there are more than 20000 findings: the rest are counted but not listed [too-many-findings]" 1 \
    "$plan"
has "is counted to its end" "30000 errors" "$("$bellsheet" check "$plan" 2>&1 | tail -n 3)"
is "in a report too" 20001 "$("$bellsheet" check --format json "$plan" 2>/dev/null | grep -c '"severity"')"

{ echo 'athlete A'; many 201 '    avoid overhead press\n        review on 2027-04-01'; } >"$plan"
refused "restrictions" "an athlete has at most 200 restrictions [too-many-entries]" 1 "$plan"
{ echo 'athlete A'; many 201 'private A\n    avoid overhead press\n        review on 2027-04-01'; } >"$plan"
refused "one a block" "an athlete has at most 200 restrictions [too-many-entries]" 1 "$plan"
{ echo 'athlete A'; echo '    hold head'; echo '        since 2027-01-01'; many 201 '        symptoms on 2027-01-02'; } >"$plan"
refused "entries of a hold" "there are more than 200 entries here [too-many-entries]" 1 "$plan"

{ echo 'athlete A'; many 5001 'camp %d\n    for A\n    starts 2027-03-01'; } >"$plan"
refused "camps" "a plan can have at most 5000 camps [too-many-camps]" 1 "$plan"

many 101 'season %d\n    from 2027-03-01\n    to 2027-03-07' >"$plan"
refused "seasons" "a plan can have at most 100 seasons [too-many-entries]" 1 "$plan"

{ echo 'limits L'; echo '    every week'; many 600 '        sets at most %d warn'
    printf 'athlete A\ncamp C\n    for A\n    starts 2027-03-01\n    limits L\n    limits L\n'; } >"$plan"
refused "limits in force" "more than 1000 limits are in force in one camp [too-many-limits]" 1 "$plan"

{ printf 'athlete A\nsession S\n    straight A 3 sets\n        push-up : 5\n'
    many 101 'camp C%d\n    for A\n    starts 2027-03-01\n    week 1\n        monday S'; } >"$plan"
refused "one day" "A has more than 100 sessions and activities on this day" 1 "$plan"

{ printf 'athlete A\nsession S\n    straight A 3 sets\n        push-up : 5\n'; many 61 '            for novice : %d'; } >"$plan"
refused "variants" "a line has at most 60 variants" 1 "$plan"

{ printf 'gym G\n    plates 2 x 20'; seq 201 | awk '{ printf ", 2 x %d", $1 }'; echo ' kg'; } >"$plan"
refused "kit" "a list of kit has at most 200 entries, and this one has 202" 1 "$plan"

# The rows of a list that go on from block to block are not copied each time.
{ echo 'athlete A'; many 8000 'private A\n    body mass 70 kg on 2027-01-01'; } >"$plan"
if nm "$bellsheet" 2>/dev/null | grep -q __asan_init; then
    echo "ok sanitizers ask for more memory than there is: not tried"
else
    is "too many body masses are reported within 400 MB" 1 \
        "$( (ulimit -v 400000 && "$bellsheet" check "$plan" >/dev/null 2>&1) || echo $?)"
fi

# Names that are nowhere declared, as many as there are: a guess at each would take as long as the square of them.
many 20000 'exercise E%d\n    kind strength\n    replaces F%d' >"$plan"
refused "twenty thousand wrong names" "there is no exercise called \`F20000\`" 1 "$plan"

# --- ways out ---

mkdir "$folder/in" "$folder/out"
echo 'athlete Outside' >"$folder/out/o.bell"
echo 'use ../out/o.bell' >"$folder/in/a.bell"
refused "use with two points" "cannot leave" 1 "$folder/in"
echo "use $folder/out/o.bell" >"$folder/in/a.bell"
refused "use of a path from the root" "cannot leave" 1 "$folder/in"
echo 'use link.bell' >"$folder/in/a.bell"
ln -s ../out/o.bell "$folder/in/link.bell"
refused "use of a link that leads out" "cannot leave" 1 "$folder/in/a.bell"
refused "a link that leads out" "leads out of the plan" 2 "$folder/in"
rm "$folder/in/link.bell"
ln -s ../out "$folder/in/away"
echo 'athlete A' >"$folder/in/a.bell"
refused "a folder's link that leads out" "leads out of the plan" 2 "$folder/in"
rm "$folder/in/away"
echo 'use b.bell' >"$folder/in/a.bell"
echo 'use a.bell' >"$folder/in/b.bell"
got=$("$bellsheet" check "$folder/in" 2>&1)
is "files that use each other are read once" "0:" "$?:$got"
mkdir "$folder/in/below"
echo 'athlete C' >"$folder/in/below/c.bell"
ln -s below "$folder/in/same"
ln -s below/c.bell "$folder/in/d.bell"
ln -s "$folder/in" "$folder/in/below/above"
got=$("$bellsheet" check "$folder/in" 2>&1)
is "what links inside the plan's folder lead to is read once" "0:" "$?:$got"
rm "$folder/in/below/above"
got=$("$bellsheet" check "$folder/in" "$folder/in/d.bell" "$folder/in/same" 2>&1)
is "and named beside it too" "0:" "$?:$got"
echo 'athlete c' >"$folder/in/e.bell"
"$bellsheet" check "$folder/in" >"$folder/said" 2>&1
is "a name is still declared twice by two files" "1:1" "$?:$(grep -c 'another athlete called' "$folder/said")"
rm -r "$folder/in/below" "$folder/in/same" "$folder/in/d.bell" "$folder/in/e.bell"

# A hundred links to the folder that they are in, in each of two: followed one by one they would never end.
mkdir -p "$folder/fan/a" "$folder/fan/b"
echo 'athlete A' >"$folder/fan/a/a.bell"
i=0
while [ $i -lt 100 ]; do
    ln -s ../b "$folder/fan/a/$i"
    ln -s ../a "$folder/fan/b/$i"
    i=$((i + 1))
done
got=$(timeout 60 "$bellsheet" check "$folder/fan" 2>&1)
is "folders that link to one another" "0:" "$?:$got"
got=$(timeout 60 "$bellsheet" format --check "$folder/fan" 2>&1)
is "for format too" "0:" "$?:$got"

mkdir "$folder/chain"
i=0
while [ $i -lt 64 ]; do
    echo "use $((i + 1)).bell" >"$folder/chain/$i.bell"
    i=$((i + 1))
done
echo 'athlete A' >"$folder/chain/64.bell"
refused "files in a row" "files use one another more than 64 deep" 1 "$folder/chain/0.bell"
got=$("$bellsheet" check "$folder/chain/1.bell" 2>&1)
is "one fewer" "0:" "$?:$got"

# --- what is not a file ---

mkdir "$folder/pipe"
mkfifo "$folder/pipe/x.bell"
echo 'athlete A' >"$folder/pipe/a.bell"
for command in check show tally limits "print --all --out $folder/made" "format --check" "format --check $folder/pipe/x.bell" \
    "check $folder/pipe/x.bell"; do
    # shellcheck disable=SC2086
    got=$(timeout 20 "$bellsheet" $command "$folder/pipe" 2>&1 </dev/null)
    is "$command of a pipe: exit" 2 "$?"
    has "$command of a pipe" "x.bell: this is a pipe or a device, not a file" "$got"
done
got=$(cd "$folder/pipe" && timeout 20 "$bellsheet" find push-up 2>&1)
is "find beside a pipe: exit" 2 "$?"
echo 'use x.bell' >"$folder/pipe/a.bell"
refused "use of a pipe" "this is a pipe or a device, not a file" 2 "$folder/pipe/a.bell"
refused "a device" "this is a pipe or a device, not a file" 2 /dev/zero
mkfifo "$folder/pipe/out"
got=$(cd examples/slipway && timeout 20 "$bellsheet" print --on 2027-03-08 --sheet card --out "$folder/made" \
    --depends "$folder/pipe/out" 2>&1 >/dev/null)
is "a pipe that nobody reads is not waited for" "2:bellsheet: error: $folder/pipe/out: No such device or address" "$?:$got"

# --- a link that is named outright ---

mkdir "$folder/own"
ln -s ../out/o.bell "$folder/own/link.bell"
for command in check show tally limits "print --all --out $folder/made" "print --shelf --out $folder/made" format \
    "format --check"; do
    # shellcheck disable=SC2086
    got=$("$bellsheet" $command "$folder/own/link.bell" 2>&1 </dev/null)
    is "$command of a link that leads out" \
        "2:bellsheet: error: $folder/own/link.bell: this link leads out of the plan's folder" "$?:$got"
done
got=$(cd "$folder/own" && "$bellsheet" find push-up 2>&1)
is "find beside it" "2:bellsheet: error: ./link.bell: this link leads out of the plan's folder" "$?:$got"
mv "$folder/own/link.bell" "$folder/own/inner.bell"
ln -sf real.bell "$folder/own/inner.bell"
echo 'athlete A' >"$folder/own/real.bell"
got=$("$bellsheet" check "$folder/own/inner.bell" 2>&1)
is "a link to a file beside it is read" "0:" "$?:$got"

mkdir "$folder/names"
cat >"$folder/names/a.bell" <<'END'
athlete ../../up
camp C
    for ../../up
    starts 2027-03-01
    week 1
        monday 17:30 ../../../etc/hostile
session ../../../etc/hostile
    straight A 1 sets
        push-up : 5
END
(cd "$folder" && "$bellsheet" print names --week 1 --out sheets >listed 2>&1)
is "names of sheets stay in the folder" 0 "$?"
is "each of them" "" "$(grep -v '^sheets/[^/]*$' "$folder/listed")"
is "and nowhere else" "" "$(find "$folder" -name '*hostile*' ! -path "$folder/sheets/*")"

finish
