#!/bin/sh
# A signal to the process group (Ctrl-C, a closed terminal, a shutdown) at any call on a file leaves no temporary file: it
# would hold an athlete's training for whoever looks. What a kill left is removed by the next run in the folder, and what
# another run is writing just now is not.
set -u

. tests/house/ok.sh
bellsheet=$(realpath "${BELLSHEET:-build/bellsheet}")
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
export SOURCE_DATE_EPOCH=1800000000

if ldd "$bellsheet" | grep -q 'asan\|ubsan' || nm "$bellsheet" 2>/dev/null | grep -q __asan_init; then
    echo "ok sanitizers come before what is preloaded: not tried"
    finish
fi
"${CC:-gcc}" -std=c17 -O1 -fPIC -shared -o "$folder/inject.so" tests/faults/inject.c -ldl || exit 1

print_to()
{
    "$bellsheet" print examples/slipway --on 2027-03-08 --sheet card --athlete 'Oriel Tamsin' --all-again --out "$1" >/dev/null 2>&1
}

# left FOLDER: what lies there and is no sheet.
left()
{
    find "$1" -type f ! -name '*.svg' ! -name a.bell ! -name base ! -name sheets.json 2>/dev/null | sed 's,.*/,,'
}

# interrupt SIGNAL STEP FOLDER COMMAND...: runs COMMAND in its own process group and sends SIGNAL at every STEP-th call; what
# each run leaves in FOLDER goes into $folder/left, and how many calls were met into $folder/met.
interrupt()
{
    signal=$1 step=$2 place=$3 at=1
    shift 3
    : >"$folder/left"
    while [ $at -lt 2000 ]; do
        rm -f "$folder/log"
        FAULT_KIND=files FAULT_SIGNAL=$signal FAULT_AT=$at FAULT_LOG="$folder/log" LD_PRELOAD="$folder/inject.so" \
            setsid -w "$@" >/dev/null 2>&1
        [ -s "$folder/log" ] || break
        left "$place" >>"$folder/left"
        at=$((at + step))
    done
    is "$(basename "$place"), signal $signal at $((at / step)) calls" "" "$(cat "$folder/left")"
    [ $((at / step)) -gt 5 ] || refuse "interrupting" "hardly a call on a file was met"
}

mkdir "$folder/plans"
for signal in 2 1 15; do
    interrupt $signal $((signal == 2 ? 1 : 7)) "$folder/out" \
        "$bellsheet" print examples/slipway --on 2027-03-08 --sheet card --athlete 'Oriel Tamsin' --all-again --out "$folder/out"
    interrupt $signal 1 "$folder/plans" sh -c "sed 's/ : /   :  /' examples/first/club.bell >'$folder/plans/a.bell'
        exec '$bellsheet' format '$folder/plans/a.bell'"
done
"$bellsheet" new "$folder/club" --date 2027-02-24 >/dev/null
is "where names of people stand is for its owner alone" "drwx------ drwx------" \
    "$(stat -c %A "$folder/club" "$folder/out" | tr '\n' ' ' | sed 's/ $//')"
"$bellsheet" log "$folder/club" --on 2027-03-01 >"$folder/plans/base"
interrupt 2 3 "$folder/plans" sh -c "cp '$folder/plans/base' '$folder/plans/a.bell'
    exec '$bellsheet' log '$folder/club' --on 2027-03-02 --append '$folder/plans/a.bell'"
interrupt 2 3 "$folder/plans" sh -c "cp '$folder/plans/base' '$folder/plans/a.bell'
    exec '$bellsheet' join '$folder/plans/base' '$folder/plans/a.bell' '$folder/plans/base'"
rm "$folder/plans/base"

# What a killed run left is swept away, here one that was killed while it had the temporary file open.
print_to "$folder/out"
FAULT_KIND=files FAULT_SIGNAL=9 FAULT_AT=40 LD_PRELOAD="$folder/inject.so" \
    setsid -w "$bellsheet" print examples/slipway --on 2027-03-08 --sheet card --athlete 'Oriel Tamsin' --all-again --out "$folder/out" >/dev/null 2>&1
echo "Oriel Tamsin" >"$folder/out/.bellsheet-abcdef"
echo mine >"$folder/out/.bellsheet-notes"
print_to "$folder/out"
is "a later print removes what a killed one left, and nothing else" .bellsheet-notes "$(left "$folder/out")"
echo "Oriel Tamsin" >"$folder/out/.bellsheet-abcdef"
flock "$folder/out/.bellsheet-abcdef" "$bellsheet" print examples/slipway --on 2027-03-08 --sheet card --athlete 'Oriel Tamsin' --all-again --out "$folder/out" \
    >/dev/null 2>&1
is "and not what is being written" ".bellsheet-abcdef .bellsheet-notes" "$(left "$folder/out" | sort | tr '\n' ' ' | sed 's/ $//')"
cp "$folder/out/.bellsheet-abcdef" "$folder/plans"
sed 's/ : /   :  /' examples/first/club.bell >"$folder/plans/a.bell"
"$bellsheet" format "$folder/plans/a.bell"
is "format removes it too" "" "$(left "$folder/plans")"
cp "$folder/out/.bellsheet-abcdef" "$folder/plans"
"$bellsheet" log "$folder/club" --on 2027-03-02 --append "$folder/plans/a.bell" >/dev/null
is "and so does what adds a log" "" "$(left "$folder/plans")"

finish
