#!/bin/sh
# Commands that write, killed with the whole of their group: at random moments, and at a call on a file. Each file is then the
# old one or the new one, whole, beside nothing but temporary files; and the same command, run again, makes all of them new
# and leaves nothing.
#
# A sample is tried, or KILLS; where PROOF asks for a part, that part of 2,100. COMMANDS="print format" kills only these.
set -u

. tests/house/ok.sh
bellsheet=$(realpath "${BELLSHEET:-build/bellsheet}")
: "${KILLS:=36}" "${PROOF:=}"
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
export SOURCE_DATE_EPOCH=1800000000
commands="print format next log private join import close trim"
: "${COMMANDS:=$commands}"

first=0
last=$KILLS
if [ -n "$PROOF" ]; then
    first=$((2100 * (${PROOF%/*} - 1) / ${PROOF#*/}))
    last=$((2100 * ${PROOF%/*} / ${PROOF#*/}))
fi

# Sanitizers come before what is preloaded: there it is the clock alone.
calls=yes
if nm "$bellsheet" 2>/dev/null | grep -q __asan_init; then
    calls=
else
    "${CC:-gcc}" -std=c17 -O1 -fPIC -shared -o "$folder/inject.so" tests/faults/inject.c -ldl || exit 1
fi

# --- what each command writes into: $folder/old-NAME ---

"$bellsheet" new "$folder/club" --date 2027-02-24 >/dev/null
"$bellsheet" log "$folder/club" --on 2027-03-01 >"$folder/base.bell"
cp "$folder/base.bell" "$folder/ours.bell"
"$bellsheet" log "$folder/club" --on 2027-03-02 | sed 's/# took/took/' | tee -a "$folder/ours.bell" >"$folder/theirs.bell"

for name in $commands; do
    cp -r "$folder/club" "$folder/old-$name"
done
for file in "$folder"/old-format/*.bell; do
    sed 's/ : /   :   /' "$folder/club/${file##*/}" >"$file"
done
rm -r "$folder/old-print" "$folder/old-next" "$folder/old-trim"
cp -r examples/slipway "$folder/old-trim"
mkdir "$folder/old-next"
cat >"$folder/old-next/plan.bell" <<'END'
gym Yard
    barbell   20 kg
    plates    8 x 20, 4 x 10, 4 x 5, 4 x 2.5, 4 x 1.25 kg
    stations  rack

athlete Wren Holloway
    stance         orthodox
    lifting since  2020-01
    trains at      Yard

session Legs
    straight A  3 sets  rest 3:00
        back squat : 8-10 @ 60 kg
            next time 8-10, then 2.5 kg

camp Spring
    for     Wren Holloway
    starts  2027-03-01
    weeks 1-4
        monday  Legs

log 2027-03-01 Wren Holloway, Legs
    A.1 : 10 @ 60 kg; 10 @ 60 kg; 10 @ 60 kg
END
for name in log join; do
    cp "$folder/base.bell" "$folder/old-$name/logs.bell"
done
"$bellsheet" log "$folder/club" --on 2027-03-01 --private >"$folder/old-private/private.bell"
cp "$folder/ours.bell" "$folder/ours-for-join.bell"
mkdir "$folder/old-print"

# run NAME FOLDER [WRAPPER...]: the command, whose process this becomes, writes into FOLDER.
run()
{
    name=$1
    at=$2
    shift 2
    case $name in
    print) set -- "$@" "$bellsheet" print "$folder/club" --week 1 --revision "${revision:-new}" --all-again --out "$at" ;;
    format) set -- "$@" "$bellsheet" format "$at" ;;
    next) set -- "$@" "$bellsheet" next "$at" --week 2 --date 2027-03-02 --apply ;;
    log) set -- "$@" "$bellsheet" log "$at" --on 2027-03-02 --append "$at/logs.bell" ;;
    private) set -- "$@" "$bellsheet" log "$at" --on 2027-03-02 --private --append "$at/private.bell" ;;
    join) set -- "$@" "$bellsheet" join "$folder/base.bell" "$at/logs.bell" "$folder/theirs.bell" ;;
    import) set -- "$@" "$bellsheet" import "$folder/theirs.bell" "$at" --append "$at/logs.bell" ;;
    close) set -- "$@" "$bellsheet" close "$at" --until 2027-03-02 --date 2027-03-03 ;;
    trim) set -- "$@" "$bellsheet" trim "$at" --date 2027-02-20 --on 2027-03-11 --to 45min --apply ;;
    esac
    exec "$@" >"$folder/said" 2>&1 </dev/null
}

# In thousandths of a second.
now()
{
    echo $(($(date +%s%N) / 1000000))
}

(revision=old && run print "$folder/old-print")
for name in $commands; do
    cp -r "$folder/old-$name" "$folder/new-$name"
    start=$(now)
    (run "$name" "$folder/new-$name") || refuse "$name" "$(cat "$folder/said")"
    echo $(($(now) - start + 10)) >"$folder/time-$name"
    [ "$(diff -rq "$folder/old-$name" "$folder/new-$name" | grep -c .)" -gt 0 ] || refuse "$name" "nothing is written"
    [ -n "$calls" ] || continue
    cp -r "$folder/old-$name" "$folder/tried"
    (export FAULT_KIND=files FAULT_LOG="$folder/count-$name" LD_PRELOAD="$folder/inject.so" && run "$name" "$folder/tried")
    rm -r "$folder/tried"
done

# --- the kills ---

# strike NAME MOMENT: starts the command in $folder/tried in a group of its own, and ends that. $folder/struck says
# whether the signal came in time.
strike()
{
    rm -f "$folder/struck"
    if [ -n "$calls" ] && [ $(($2 % 2)) -eq 0 ]; then
        (
            at=$(($2 / 2 % $(cat "$folder/count-$1") + 1))
            export FAULT_KIND=files FAULT_SIGNAL=9 FAULT_AT=$at FAULT_LOG="$folder/reached" LD_PRELOAD="$folder/inject.so"
            rm -f "$folder/reached"
            run "$1" "$folder/tried" setsid -w
        )
        [ ! -s "$folder/reached" ] || mv "$folder/reached" "$folder/struck"
        return
    fi
    (run "$1" "$folder/tried" setsid) &
    wait_ms=$(($2 / 2 % $(cat "$folder/time-$1")))
    sleep "$(printf '%d.%03d' $((wait_ms / 1000)) $((wait_ms % 1000)))"
    kill -s KILL -- -$! 2>/dev/null
    wait $! 2>/dev/null
    [ $? -ne 137 ] || : >"$folder/struck"
}

# torn NAME: what is in $folder/tried and neither in old nor in new, but for temporary files.
torn()
{
    (cd "$folder/tried" && find . -type f ! -name '.bellsheet-??????') | while read -r file; do
        # It says between two sheets which of them are new.
        if [ "$file" = ./sheets.json ] && jq -e . "$folder/tried/$file" >/dev/null 2>&1; then
            continue
        fi
        cmp -s "$folder/tried/$file" "$folder/old-$1/$file" || cmp -s "$folder/tried/$file" "$folder/new-$1/$file" ||
            echo "case $case, $1: $file"
    done
    (cd "$folder/old-$1" && find . -type f) | while read -r file; do
        [ -e "$folder/tried/$file" ] || echo "case $case, $1: $file is gone"
    done
}

: >"$folder/torn"
: >"$folder/left"
: >"$folder/killed"
remains=0
case=$first
while [ "$case" -lt "$last" ]; do
    # shellcheck disable=SC2086
    set -- $COMMANDS
    shift $((case % $#))
    name=$1
    # The case's own moment, by the multiplier and the high bits of a well-known generator.
    moment=$(((case * 1103515245 + 12345) % 2147483648 * 1103515245 % 2147483648 / 8192))
    rm -rf "$folder/tried"
    cp -r "$folder/old-$name" "$folder/tried"
    strike "$name" "$moment" >/dev/null 2>&1
    [ ! -e "$folder/struck" ] || echo "$name" >>"$folder/killed"
    torn "$name" >>"$folder/torn"
    [ -z "$(find "$folder/tried" -name '.bellsheet-??????')" ] || remains=$((remains + 1))
    (run "$name" "$folder/tried")
    diff -r "$folder/new-$name" "$folder/tried" 2>&1 | sed "s/^/case $case, $name: /" >>"$folder/left"
    case=$((case + 1))
done

rm -rf "$folder/tried"
struck=$(wc -l <"$folder/killed")
each=$(sort "$folder/killed" | uniq -c | awk '{ printf "%s%s %d", separator, $2, $1; separator = ", " }')
is "killed $struck times in $((last - first)) cases ($each): each file whole" "" "$(head -20 "$folder/torn")"
is "and run again ($remains times a temporary file was there): all new, nothing left" "" "$(head -20 "$folder/left")"
[ "$struck" -gt $(((last - first) / 3)) ] || refuse "killing" "hardly anything was running when it was to be killed: $struck"
finish
