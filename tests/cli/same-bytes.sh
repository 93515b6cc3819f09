#!/bin/sh
# One plan gives one set of bytes, whatever the folder, the time zone, the language and the hour; and one source gives
# one object file, wherever it is.
set -u

. tests/house/ok.sh
: "${BELLSHEET:=build/bellsheet}"
bellsheet=$(realpath "$BELLSHEET")
top=$(pwd)
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT

cp -r examples/one-week "$folder/club"
mkdir "$folder/deeper"
cp -r examples/one-week "$folder/deeper/club"
cd "$folder" || exit 2

# print_in FOLDER OUT: the sheets of the plan in FOLDER, with what is said about them.
print_in()
{
    mkdir -p "$2"
    (cd "$1" && "$bellsheet" print club --all --date 2027-03-01 --out "$folder/$2/sheets") >"$folder/$2/said" 2>&1
    sed "s,$folder/$2/,," "$folder/$2/said" >"$folder/$2/names"
    rm "$folder/$2/said"
    (cd "$1" && "$bellsheet" check club --date 2027-03-01 --format json) >"$folder/$2/check.json" 2>&1
}

# alike NAME OUT: OUT contains what the first printing made.
alike()
{
    is "$1" "" "$(diff -rq first "$2" 2>&1)"
}

print_in . first
has "there are sheets" ".pdf" "$(find first -name '*.pdf')"
has "and cards" ".svg" "$(find first -name '*.svg')"

print_in deeper deep
alike "another folder" deep

# The two zones are never on one date at the same time of day for long: one is 14 hours ahead, the other 12 behind.
for zone in Pacific/Kiritimati Etc/GMT+12 Asia/Kathmandu; do
    TZ=$zone print_in . zone
    alike "time zone $zone" zone
    rm -r zone
done

# In de_DE a decimal is written with a comma, in tr_TR the small letter of I is another.
for name in C C.UTF-8 POSIX $(locale -a 2>/dev/null | grep -i -E '^(de_DE|tr_TR|ar_|th_TH)'); do
    LC_ALL=$name print_in . locale
    alike "language $name" locale
    rm -r locale
done

SOURCE_DATE_EPOCH=1804464000 COLUMNS=40 LINES=10 HOME=/nowhere XDG_CONFIG_HOME=/nowhere print_in . env
alike "environment" env

# The program and its shelf in another place: what it makes does not say where.
mkdir -p elsewhere/bin elsewhere/share
cp "$bellsheet" "$(dirname "$bellsheet")"/libbellsheet-sheets-*.so elsewhere/bin
cp -r "$top/share" elsewhere/share/bellsheet
first_program=$bellsheet
bellsheet=$folder/elsewhere/bin/bellsheet
print_in . moved
alike "another copy of the program" moved
bellsheet=$first_program

# One source in two folders.
for copy in one two/deeper; do
    mkdir -p "$copy"
    cp -r "$top/Makefile" "$top/src" "$top/include" "$top/grammar" "$copy"
    mkdir -p "$copy/share"
    if ! env -u MAKEFLAGS -u MFLAGS -u MAKELEVEL -u BUILD make -C "$copy" build/obj/syntax/values.o build/obj/cli/options.o build/gen/scan.o >log 2>&1; then
        refuse "objects are built in $copy" "$(tail -n 5 log)"
    fi
done
for object in obj/syntax/values.o obj/cli/options.o gen/scan.o; do
    if cmp one/build/$object two/deeper/build/$object >log 2>&1; then
        echo "ok $object is the same in two folders"
    else
        refuse "$object is the same in two folders" "$(cat log)"
    fi
done

finish
