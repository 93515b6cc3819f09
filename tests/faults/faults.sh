#!/bin/sh
# Each allocation and each call on a file fails once, in check, print and format: the program says so and ends with
# status 2, every file is the old one or the new one, and no temporary is left.
#
# FAULTS=all tries every call; otherwise the first ones and some of the rest.
set -u

. tests/house/ok.sh
bellsheet=$(realpath "${BELLSHEET:-build/bellsheet}")
: "${FAULTS:=some}"
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
export SOURCE_DATE_EPOCH=1800000000

if ldd "$bellsheet" | grep -q 'asan\|ubsan' || nm "$bellsheet" 2>/dev/null | grep -q __asan_init; then
    echo "ok sanitizers have their own malloc: not tried"
    finish
fi
"${CC:-gcc}" -std=c17 -O1 -fPIC -shared -o "$folder/inject.so" tests/faults/inject.c -ldl || exit 1

mkdir "$folder/plan"
cat >"$folder/plan/a.bell" <<'END'
athlete   A
gym  G
    plates 4 x 20, 4 x 10 kg
camp One
    for A
    starts 2027-03-01
    week 1
        monday 17:30 S
session S   # a comment
    straight A 2 sets rest 1:00
        push-up : 5
END
cp -r "$folder/plan" "$folder/plan.old"

# old NAME, new NAME: what the command writes before and after.
make_reference()
{
    "$bellsheet" print "$folder/plan" --week 1 --revision old --all-again --out "$folder/old" >/dev/null 2>&1
    "$bellsheet" print "$folder/plan" --week 1 --revision new --all-again --out "$folder/new" >/dev/null 2>&1
    mkdir "$folder/plan.new"
    "$bellsheet" format - <"$folder/plan/a.bell" >"$folder/plan.new/a.bell"
}
make_reference
is "there is something to write, and a list of it" 3 "$(find "$folder/old" -type f | wc -l)"
is "and it changes" 2 "$(diff -rq "$folder/old" "$folder/new" | wc -l)"

# Files of $1 that are neither as in $2 nor as in $3.
broken_files()
{
    for file in "$1"/* "$1"/.[!.]*; do
        [ -e "$file" ] || continue
        name=${file##*/}
        [ "$name" != sheets.json ] || continue # it says between two files that one is being made
        cmp -s "$file" "$2/$name" || cmp -s "$file" "$3/$name" || echo "$name"
    done
    [ "$(find "$1" -type f | wc -l)" = "$(find "$2" -type f | wc -l)" ] || echo "a file too few or too many"
}

run_command()
{
    case $1 in
    check) "$bellsheet" check "$folder/plan.work" --strict ;;
    print) "$bellsheet" print "$folder/plan.work" --week 1 --revision new --all-again --out "$folder/out" ;;
    format) "$bellsheet" format "$folder/plan.work/a.bell" ;;
    esac
}

# try COMMAND KIND N: one fault. Prints what is wrong. Status 1: N is more than there are calls.
try()
{
    rm -rf "$folder/out" "$folder/plan.work" "$folder/reached"
    cp -r "$folder/old" "$folder/out"
    cp -r "$folder/plan" "$folder/plan.work"
    (
        export LD_PRELOAD="$folder/inject.so" FAULT_KIND=$2 FAULT_AT=$3 FAULT_LOG="$folder/reached"
        run_command "$1"
    ) >"$folder/said" 2>"$folder/errors" </dev/null
    status=$?
    [ -s "$folder/reached" ] || return 1
    case $2:$status in
    *:2) grep -q '^bellsheet: error: ' "$folder/errors" || echo "$1 $2 $3: no message" ;;
    # What could not be closed after reading was read; what is as it should be is no failure.
    *:0) [ "$1" != print ] || [ -z "$(broken_files "$folder/out" "$folder/new" "$folder/new")" ] ||
        echo "$1 $2 $3: status 0 and not all written" ;;
    *:1) [ "$1" = check ] || echo "$1 $2 $3: status 1" ;;
    *) echo "$1 $2 $3: status $status" ;;
    esac
    wrong=$(broken_files "$folder/out" "$folder/old" "$folder/new"
        broken_files "$folder/plan.work" "$folder/plan.old" "$folder/plan.new")
    [ -z "$wrong" ] || echo "$1 $2 $3: broken: $wrong"
    return 0
}

# try_all COMMAND KIND
try_all()
{
    n=1
    tried=0
    : >"$folder/wrong"
    while try "$1" "$2" $n >>"$folder/wrong"; do
        tried=$((tried + 1))
        if [ "$FAULTS" = all ] || [ $n -lt 24 ]; then
            n=$((n + 1))
        else
            n=$((n + n / 4))
        fi
    done
    is "$1, each call failing once: $2 ($tried tried up to call $n)" \
        "" "$(head -20 "$folder/wrong")"
    [ "$tried" -gt 3 ] || refuse "$1 $2" "only $tried calls"
}

for command in check print format; do
    try_all $command memory
    try_all $command files
done

# A full disk behind standard output.
if [ -w /dev/full ]; then
    "$bellsheet" check "$folder/plan" --format json >/dev/full 2>"$folder/errors"
    is "a report that cannot be written" "2:1" "$?:$(grep -c '^bellsheet: error: standard output' "$folder/errors")"
    "$bellsheet" format - <"$folder/plan/a.bell" >/dev/full 2>"$folder/errors"
    is "a layout that cannot be written" "2:1" "$?:$(grep -c '^bellsheet: error: standard output' "$folder/errors")"
fi

finish
