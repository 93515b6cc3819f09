#!/bin/sh
# The power goes while a file is written of which there may be no other copy: what is then on the disk is the old file or the
# new one, whatever of the unfinished work has landed; and once the command has ended it is the new one.
set -u

. tests/house/ok.sh
bellsheet=$(realpath "${BELLSHEET:-build/bellsheet}")
folder=$(realpath "$(mktemp -d)")
trap 'rm -rf "$folder"' EXIT

if nm "$bellsheet" 2>/dev/null | grep -q __asan_init; then
    echo "ok sanitizers come before what is preloaded: not tried"
    finish
    exit
fi
"${CC:-gcc}" -std=c17 -O1 -fPIC -shared -o "$folder/record.so" tests/faults/power_record.c -ldl || exit 1
"${CC:-gcc}" -std=c17 -O1 -o "$folder/replay" tests/faults/power_replay.c || exit 1
"$bellsheet" new "$folder/made" --date 2027-02-24 >/dev/null

# survives NAME FILE COMMAND...: COMMAND, run in a copy of the club, writes its FILE.
survives()
{
    name=$1
    path=$folder/club/$2
    shift 2
    rm -rf "$folder/club" "$folder/old"
    cp -r "${made:-$folder/made}" "$folder/club"
    [ ! -f "$path" ] || cp "$path" "$folder/old"
    (cd "$folder/club" && POWER_LOG=$folder/log POWER_FOLDER=$folder/club LD_PRELOAD=$folder/record.so \
        "$bellsheet" "$@" >"$folder/said" 2>&1) || refuse "$name: the command" "$(cat "$folder/said")"
    if cmp -s "$path" "$folder/old"; then
        refuse "$name" "nothing was written"
    fi
    got=$("$folder/replay" "$folder/log" "$path" "$folder/old" "$path")
    has "$name: the old file or the new one" " 0 faults" "$got"
}

club=$folder/club
sed 's/ : /   :   /' "$folder/made/sessions.bell" >"$folder/made/a" && mv "$folder/made/a" "$folder/made/sessions.bell"
survives format sessions.bell format "$club/sessions.bell"
made=examples/slipway
survives "trim --apply" camps/harbour-final.bell trim "$club" --date 2027-02-20 --on 2027-03-11 --to 45min --apply
made=
survives "log --append, a new file" logs.bell log "$club" --on 2027-03-01 --append "$club/logs.bell"
survives "log --private --append" private.bell log "$club" --on 2027-03-01 --private --append "$club/private.bell"
survives "a new private file" mornings.bell log "$club" --on 2027-03-01 --private --append "$club/mornings.bell"
survives close record/2027-03.bell close "$club" --until 2027-03-02 --date 2027-03-03
"$bellsheet" log "$folder/made" --on 2027-03-01 >"$folder/made/logs.bell"
"$bellsheet" log "$folder/made" --on 2027-03-02 | sed 's/# took/took/' >"$folder/theirs.bell"
survives "log --append" logs.bell log "$club" --on 2027-03-02 --append "$club/logs.bell"
survives import logs.bell import "$folder/theirs.bell" "$club" --append "$club/logs.bell"
survives join logs.bell join "$folder/made/logs.bell" "$club/logs.bell" "$folder/theirs.bell"

# The model itself: without a wait for the file, or for its name, it finds the fault.
printf old >"$folder/old"
printf new >"$folder/new"
replay()
{
    printf '%b' "$1" >"$folder/log"
    "$folder/replay" "$folder/log" /f/plan "$folder/old" "$folder/new" | tail -n 1 | sed 's/.*, //'
}
is "a file in one piece" "0 faults" "$(replay 'create 1 /f/t\nwrite 1 3\nnewsync 1\nrename /f/t /f/plan\nfolder /f\n')"
is "one whose bytes are not waited for" 0 \
    "$(replay 'create 1 /f/t\nwrite 1 3\nnewrename /f/t /f/plan\nfolder /f\n' | grep -c '^0 faults')"
is "one whose name is not waited for" 0 \
    "$(replay 'create 1 /f/t\nwrite 1 3\nnewsync 1\nrename /f/t /f/plan\n' | grep -c '^0 faults')"
is "one that is written in place" 0 \
    "$(replay 'create 1 /f/plan\nwrite 1 3\nnewsync 1\nfolder /f\n' | grep -c '^0 faults')"

finish
