#!/bin/sh
# Who adds a kind of load or of effort is led by the compiler to each place that tells kinds apart.
set -u

. tests/house/ok.sh
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT

flags=$(pkg-config --cflags glib-2.0 jansson pangocairo)
# A cache of compilations does not see a header that comes to stand before another.
export CCACHE_DISABLE=1

# stops HEADER EDIT KIND: the files below src that no longer compile when sed's EDIT is done to HEADER, of those with a case
# of a KIND, which all switches over it have; with the error where it is another than a kind that a switch does not handle.
stops()
{
    rm -rf "${folder:?}"/*
    mkdir -p "$folder/$(dirname "$1")"
    sed "$2" "src/$1" >"$folder/$1"
    cmp -s "src/$1" "$folder/$1" && echo "the edit of $1 changes nothing"
    grep -lE "case $3_[A-Z]" src/*/*.c | while read -r file; do
        # shellcheck disable=SC2086 # flags are words
        ${CC:-cc} -std=c17 -D_POSIX_C_SOURCE=200809L -Werror=switch -fsyntax-only $flags \
            -I"$folder" -Isrc -Iinclude -I"${BUILD_DIR:-build}/gen" "$file" 2>"$folder/said" && continue
        grep -q 'not handled in switch' "$folder/said" && echo "$file" || echo "$file: $(grep -m 1 error "$folder/said")"
    done
}

is "nothing stops where no kind is added" "" "$(stops model/kinds.h '1s/kinds.h/no kind/' LOAD)"
is "a new kind of load" "src/export/notation.c
src/measure/demand.c
src/measure/tonnage.c
src/model/kinds.c
src/wording/wording_load.c" "$(stops model/kinds.h 's/ROW(BAND, "thing")/ROW(SLED, "sled") &/' LOAD)"
is "a new kind of effort" "src/amend/proposed.c
src/done/estimates.c
src/export/record.c
src/measure/demand.c
src/wording/wording_load.c" "$(stops model/kinds.h 's/ROW(EASY, "easy")/ROW(GLIDING, "gliding") &/' EFFORT)"
is "a new word for a load" "src/resolve/resolve_alike.c
src/resolve/resolve_choice.c
src/resolve/resolve_dose.c
src/resolve/resolve_load.c
src/resolve/resolve_logged.c
src/syntax/format_dose.c" "$(stops syntax/tree.h 's/LOAD_WORD_FIGURE, /LOAD_WORD_SLED, &/' LOAD_WORD)"
has "the build makes that an error" "-Werror=switch" "$(grep '^WARN ' Makefile)"

finish
