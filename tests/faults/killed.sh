#!/bin/sh
# Print and format killed at random moments: every file is the old one or the new one, whole. KILLS says how often.
set -u

. tests/house/ok.sh
bellsheet=$(realpath "${BELLSHEET:-build/bellsheet}")
: "${KILLS:=40}"
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
export SOURCE_DATE_EPOCH=1800000000

print_as()
{
    exec "$bellsheet" print examples/slipway --on 2027-03-08 --revision "$1" --all-again --out "$2" >/dev/null 2>&1
}

# In thousandths of a second.
now()
{
    echo $(($(date +%s%N) / 1000000))
}

start=$(now)
(print_as old "$folder/old")
whole=$(($(now) - start + 20))
(print_as new "$folder/new")
count=$(find "$folder/old" -type f ! -name sheets.json | wc -l)
is "there is something to write, and it changes" "$count" "$(diff -rq "$folder/old" "$folder/new" | wc -l)"
mkdir "$folder/plans"
for file in examples/slipway/*.bell; do
    sed 's/ : /   :   /' "$file" >"$folder/plans/${file##*/}"
done
cp -r "$folder/plans" "$folder/plans.new"
"$bellsheet" format "$folder"/plans.new/*.bell
cp -r "$folder/plans" "$folder/plans.work"
cp -r "$folder/old" "$folder/out"

# is_whole FOLDER OLD NEW
is_whole()
{
    for file in "$2"/*; do
        name=${file##*/}
        [ "$name" != sheets.json ] || continue # it says between two files that one is being made
        cmp -s "$1/$name" "$file" || cmp -s "$1/$name" "$3/$name" || echo "$name"
    done
}

seed=$$
killed=0
mixed=0
wrong=
i=0
while [ $i -lt "$KILLS" ]; do
    seed=$(((seed * 1103515245 + 12345) % 2147483648))
    wait_ms=$((seed / 65536 % whole))
    case $((i % 4)) in
    0 | 2) print_as new "$folder/out" & ;;
    1) print_as old "$folder/out" & ;;
    3)
        cp "$folder"/plans/*.bell "$folder/plans.work"
        wait_ms=$((wait_ms / 8))
        "$bellsheet" format "$folder"/plans.work/*.bell >/dev/null 2>&1 &
        ;;
    esac
    process=$!
    sleep "$(printf '0.%03d' "$((wait_ms < 1000 ? wait_ms : 999))")"
    kill -KILL "$process" 2>/dev/null && killed=$((killed + 1))
    wait "$process" 2>/dev/null
    wrong=$wrong$(is_whole "$folder/out" "$folder/old" "$folder/new")
    wrong=$wrong$(is_whole "$folder/plans.work" "$folder/plans" "$folder/plans.new")
    if ! diff -rq "$folder/out" "$folder/old" >/dev/null && ! diff -rq "$folder/out" "$folder/new" >/dev/null; then
        mixed=$((mixed + 1))
    fi
    i=$((i + 1))
done
is "killed $killed times of $KILLS ($mixed times between two files): each file whole" "" "$wrong"
[ "$killed" -gt 0 ] || refuse "killing" "nothing was running when it was to be killed"

finish
