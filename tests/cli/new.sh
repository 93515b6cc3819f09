#!/bin/sh
# bellsheet new: its club checks and prints without a message, starts on the coming Monday, and overwrites nothing.
set -u

. tests/house/ok.sh
: "${BELLSHEET:=build/bellsheet}"
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT

# starts NAME TODAY MONDAY: the camp of a club made on TODAY starts on MONDAY.
starts()
{
    "$BELLSHEET" new "$folder/$2" --date "$2" >/dev/null
    is "$1" "    starts    $3" "$(grep ' starts ' "$folder/$2/camp.bell")"
}

starts "from a Wednesday to the Monday after" 2026-01-07 2026-01-12
starts "from a Monday to the next" 2026-01-12 2026-01-19
starts "from a Sunday to the day after" 2027-12-26 2027-12-27
starts "over a leap day" 2028-02-28 2028-03-06

club=$folder/2026-01-07
got=$("$BELLSHEET" check --strict --infos --date 2026-01-07 "$club" 2>&1)
is "it checks without a word" "0:" "$?:$got"
"$BELLSHEET" print "$club" --all --date 2026-01-07 --out "$folder/sheets" >"$folder/made" 2>"$folder/said"
is "it prints without a word" "0:" "$?:$(cat "$folder/said")"
is "a wall sheet for each of twelve sessions" 12 "$(grep -c -- '-wall\.pdf$' "$folder/made")"
rm "$club/private.bell"
got=$("$BELLSHEET" check --strict --infos --date 2026-01-07 "$club" 2>&1)
is "and without its private file" "0:" "$?:$got"
got=$("$BELLSHEET" format --check share/new/*.bell 2>&1)
is "it is laid out as the formatter does" "0:" "$?:$got"

is "bests stay a week before the camp" 2026-01-05 \
    "$(sed -n 's/.*trap bar deadlift.* on //p' "$club/athletes.bell")"
is "months move too" 2024-08 "$(sed -n 's/.*lifting since //p' "$club/athletes.bell" | head -n 1)"
is "the private file is its owner's alone, whatever the umask" "-rw-------" \
    "$(umask 0; "$BELLSHEET" new "$folder/open" >/dev/null; ls -l "$folder/open/private.bell" | cut -c1-10)"
is "the others are not" "-rw-rw-rw-" "$(ls -l "$folder/open/gym.bell" | cut -c1-10)"
"$BELLSHEET" format "$folder/open/private.bell" >/dev/null
is "and the formatter leaves it so" "-rw-------" "$(ls -l "$folder/open/private.bell" | cut -c1-10)"
is "git leaves the private file out" "private.bell" "$(grep private "$folder/2026-01-12/.gitignore")"

# What must not be written to.
before=$(cat "$folder/2026-01-12"/* | cksum)
got=$("$BELLSHEET" new "$folder/2026-01-12" 2>&1)
is "a folder that is not empty" "2:bellsheet: error: $folder/2026-01-12: this folder is not empty" "$?:$got"
is "and it is as it was" "$before" "$(cat "$folder/2026-01-12"/* | cksum)"
mkdir "$folder/dotted"
touch "$folder/dotted/.kept"
got=$("$BELLSHEET" new "$folder/dotted" 2>&1)
is "a folder with a hidden file" "2:bellsheet: error: $folder/dotted: this folder is not empty" "$?:$got"
mkdir "$folder/empty"
"$BELLSHEET" new "$folder/empty" >/dev/null
is "an empty folder is taken" "0" "$?"
touch "$folder/file"
got=$("$BELLSHEET" new "$folder/file" 2>&1)
is "a file in its place" "2:bellsheet: error: $folder/file: Not a directory" "$?:$got"
got=$("$BELLSHEET" new 2>&1)
is "no folder said" "2:bellsheet: error: say which folder: \`bellsheet new club\`" "$?:$got"
got=$("$BELLSHEET" new /dev/null/club 2>&1)
is "a folder that cannot be" "2:bellsheet: error: /dev/null/club: Not a directory" "$?:$got"

finish
