#!/bin/sh
# What is installed can be built against: the header, the .pc file, the shared library and the static one; and nothing can
# be seen of either but what the header declares.
set -u

. tests/house/ok.sh
: "${BUILD_DIR:=build}" "${CC:=gcc}"
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT

# Under a prefix of its own, below a DESTDIR: as packages are made.
if ! make BUILD="$BUILD_DIR" PREFIX=/opt/bells DESTDIR="$folder/tree" install-files >"$folder/said" 2>&1; then
    sed 's/^/    /' "$folder/said"
    refuse "make install-files" "see above"
    finish
fi
there=$folder/tree/opt/bells
PKG_CONFIG_PATH=$there/lib/pkgconfig
export PKG_CONFIG_PATH
# The .pc file tells of /opt/bells, where it is not: it is asked for what it says, and told where it is.
said=$(pkg-config --cflags --libs bellsheet)
has "the .pc file tells where the header is" "-I/opt/bells/include " "$said"
has "and where the library is" "-L/opt/bells/lib -lbellsheet" "$said"

build()
{
    # shellcheck disable=SC2046 # flags are words
    "$CC" -std=c17 -Wall -Wextra -Werror ${VARIANT_FLAGS:-} examples/embed/embed.c -o "$1" \
        $(pkg-config --define-variable=prefix="$there" --define-variable=libdir="$there/lib" $2 --cflags --libs bellsheet |
            sed "$3") 2>"$folder/said" || cat "$folder/said"
}
[ -z "${SANITIZE:-}" ] || VARIANT_FLAGS=-fsanitize=$SANITIZE
build "$folder/shared" "" ""
build "$folder/static" --static "s|-lbellsheet|$there/lib/libbellsheet.a|"

mkdir "$folder/plan"
echo 'athlete Oriel' >"$folder/plan/a.bell"
for kind in shared static; do
    said=$(LD_LIBRARY_PATH=$there/lib "$folder/$kind" "$there/share/bellsheet" examples/first 2>&1)
    is "$kind: a plan is compiled" 1 "$(echo "$said" | grep -c 'findings, [1-9][0-9]* bytes of JSON$')"
    said=$(LD_LIBRARY_PATH=$there/lib "$folder/$kind" "$there/share/bellsheet" "$folder/plan" "$folder/plan/a.bell" \
        'athlete
' 2>&1)
    is "$kind: what is laid over a file is what is wrong" 1 "$(echo "$said" | grep -c "a.bell:1:8: error: ")"
    said=$(LD_LIBRARY_PATH=$there/lib "$folder/$kind" "$there/share/bellsheet" "$folder/none" 2>&1)
    is "$kind: a failure comes back" "2:embed: cannot compile: $folder/none: No such file or directory" "$?:$said"
done

# The program alone, without what it loads to print: it says so, and checks all the same.
mkdir -p "$folder/alone/bin" "$folder/alone/share"
cp "$there/bin/bellsheet" "$folder/alone/bin"
ln -s "$there/share/bellsheet" "$folder/alone/share/bellsheet"
"$folder/alone/bin/bellsheet" check "$folder/plan" >"$folder/said" 2>&1
is "check needs no sheets" 0 $?
said=$("$folder/alone/bin/bellsheet" print "$folder/plan" --week 1 --out "$folder/out" 2>&1)
is "print says that it cannot" 2: "$?:$(echo "$said" | grep -v '^bellsheet: error: sheets cannot be made here: .')"
is "and leaves nothing behind" no "$([ -e "$folder/out" ] && echo yes || echo no)"
is "the program starts without cairo and Pango" "" "$(ldd "$there/bin/bellsheet" | grep -i 'cairo\|pango\|fontconfig')"

seen()
{
    nm "$@" --defined-only | awk 'NF == 3 && $2 ~ /[A-Z]/ { print $3 }' | sort -u
}
declared=$(grep -o 'bell_[a-z_]*(' include/bellsheet/bellsheet.h | tr -d '(' | sort -u)
is "the shared library shows what is declared" "$declared" "$(seen -D "$there"/lib/libbellsheet.so | grep -v '^_\?_\?\(gcov\|asan\|ubsan\|tsan\)')"
is "and so does the static one" "$declared" "$(seen -g "$there/lib/libbellsheet.a" | grep -v '^_\?_\?\(gcov\|asan\|ubsan\|tsan\)')"
is "it needs neither cairo nor Pango" "" "$(ldd "$there/lib/libbellsheet.so" | grep -i 'cairo\|pango\|fontconfig')"
drawn=$(grep -o 'bell_[a-z_]*(' include/bellsheet/sheets.h | tr -d '(' | sort -u)
is "what draws shows what its header declares, and the command" "$(printf '%s\nbell_sheets_print\n' "$drawn" | sort -u)" \
    "$(seen -D "$there"/lib/libbellsheet-sheets-*.so | grep -v '^_\?_\?\(gcov\|asan\|ubsan\|tsan\)')"

# A sheet as bytes, by a program that knows the headers alone.
cat >"$folder/sheet.c" <<'END'
#include <bellsheet/sheets.h>
#include <stdio.h>

int main(int argc, char **argv)
{
    struct bell_session *session;
    const char *bytes;
    size_t length;
    int pages;
    const struct bell_options options = {.share = argv[1]};
    const struct bell_sheet card = {.kind = "card", .day = "2027-03-08", .athlete = "Oriel Tamsin", .format = BELL_SHEET_SVG};
    if (argc != 3 || bell_open(&options, &session) != BELL_OK || bell_add_path(session, argv[2]) != BELL_OK ||
        bell_compile(session) != BELL_OK || bell_sheet_make(session, &card, &bytes, &length, &pages) != BELL_OK)
        return 2;
    printf("%.5s %d\n", bytes, pages);
    bell_close(session);
    return 0;
}
END
# shellcheck disable=SC2046 # flags are words
"$CC" -std=c17 -Wall -Wextra -Werror ${VARIANT_FLAGS:-} "$folder/sheet.c" -o "$folder/sheet" \
    $(pkg-config --define-variable=prefix="$there" --define-variable=libdir="$there/lib" --cflags --libs bellsheet-sheets) 2>&1
is "a sheet as bytes" "<?xml 3" "$(LD_LIBRARY_PATH=$there/lib "$folder/sheet" "$there/share/bellsheet" examples/slipway 2>&1)"
is "a program of at most 60 lines" yes "$([ "$(wc -l <examples/embed/embed.c)" -le 60 ] && echo yes)"

finish
