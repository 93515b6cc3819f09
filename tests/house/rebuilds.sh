#!/bin/sh
# A change of what a plan means is not a rebuild of everything: each unit includes the parts of the model that it reads.
set -u

. tests/house/ok.sh
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT

# rebuilds HEADER [FOLDER]: how many of the program's units the compiler would make again were HEADER changed.
rebuilds()
{
    find "${2:-${BUILD_DIR:-build}/obj}" -name '*.d' -exec grep -lE "(^| )$1( |:|\$)" {} + | wc -l
}

# verdict HEADER MOST [FOLDER]: "few", or how many units too many include it; none at all says that nothing was counted.
verdict()
{
    count=$(rebuilds "$1" "${3:-}")
    [ "$count" -gt 0 ] || { echo "nobody includes $1"; return; }
    [ "$count" -le "$2" ] && echo few || echo "$count include $1, and at most $2 may"
}

is "the programme as a whole" few "$(verdict src/model/programme.h 96)"

mkdir "$folder/obj"
for unit in $(seq 97); do
    printf 'build/obj/%s.o: src/a/%s.c \\\n src/model/programme.h src/base/arena.h\n' "$unit" "$unit" >"$folder/obj/$unit.d"
done
is "one too many is seen" "97 include src/model/programme.h, and at most 96 may" \
    "$(verdict src/model/programme.h 96 "$folder/obj")"
is "and a header that nobody includes" "nobody includes src/model/program.h" \
    "$(verdict src/model/program.h 60 "$folder/obj")"

finish
