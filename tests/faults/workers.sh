#!/bin/sh
# Sheets come out alike, and are named in one order, however many processes make them.
set -u

. tests/house/ok.sh
bellsheet=$(realpath "${BELLSHEET:-build/bellsheet}")
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
export SOURCE_DATE_EPOCH=1800000000

if ! command -v taskset >/dev/null || [ "$(nproc)" -lt 2 ]; then
    echo "ok with one processor there is nothing to compare"
    finish
fi
print_week()
{
    (cd "$folder" && "$@" "$bellsheet" print "$club" --week 2 --out sheets >said 2>warned)
}
club=$(realpath examples/slipway)
print_week taskset -c 0
is "one process prints" 0 "$?"
mv "$folder/sheets" "$folder/one"
mv "$folder/said" "$folder/one.said"
mv "$folder/warned" "$folder/one.warned"
print_week env
is "several print" 0 "$?"
is "the same bytes" "" "$(diff -r "$folder/one" "$folder/sheets" 2>&1)"
is "named in the same order" "$(cat "$folder/one.said")" "$(cat "$folder/said")"
is "with the same warnings" "$(cat "$folder/one.warned")" "$(cat "$folder/warned")"
is "every file once" "$(wc -l <"$folder/said")" "$(find "$folder/sheets" -type f ! -name sheets.json | wc -l)"

# Two camps meet in one session at one hour: a sheet each.
cat >"$folder/two.bell" <<'END'
athlete A
athlete B
camp One
    for A
    starts 2027-03-01
    week 1
        monday 17:30 S
camp Two
    for B
    starts 2027-03-01
    week 1
        monday 17:30 S
session S
    straight A 1 sets
        push-up : 5
END
is "two camps with one session do not take each other's file" \
    "out/2027-03-01-1730-s-wall.pdf out/2027-03-01-1730-s-wall-two.pdf" \
    "$(cd "$folder" && "$bellsheet" print two.bell --week 1 --sheet wall --out out 2>/dev/null | tr '\n' ' ' | sed 's/ $//')"
is "and both are there" 2 "$(find "$folder/out" -name '*.pdf' | wc -l)"

# A file that cannot be written ends the run with its cause.
mkdir -p "$folder/blocked"
name=$(sed -n '3s|.*/||p' "$folder/said")
mkdir "$folder/blocked/$name"
got=$("$bellsheet" print examples/slipway --week 2 --out "$folder/blocked" 2>&1 >/dev/null)
is "a file that cannot be written" "2:bellsheet: error: $folder/blocked/$name: Is a directory" "$?:$got"
is "leaves no temporary" "" "$(find "$folder/blocked" -name '*.??????')"

finish
