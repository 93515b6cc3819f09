#!/bin/sh
# No retired word comes back in an identifier, and the script that says so can say no.
set -u

. tests/house/ok.sh
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT

# one FILE LINE...: makes a tree that holds only FILE with these lines; more FILE LINE...: adds a file.
one()
{
    rm -rf "$folder/src" "$folder/grammar"
    more "$@"
}

more()
{
    mkdir -p "$folder/$(dirname "$1")"
    file=$1
    shift
    printf '%s\n' "$@" >"$folder/$file"
}

# passes NAME / refuses NAME WORDS: what the script must make of that tree.
passes()
{
    got=$(tests/check-names "$folder" 2>&1)
    is "$1" "0:" "$?:$got"
}

refuses()
{
    got=$(tests/check-names "$folder" 2>&1)
    is "$1" "1:$2" "$?:$got"
}

got=$(tests/check-names 2>&1)
is "this checkout" "0:" "$?:$got"

# The house's words (share/doc/style.md) and the script's retire the same ones: there a star, here the first of its kind.
retired_by_page()
{
    sed -n 's/.*| \([a-z]*\)\* .*/\1/p' "$1" | sort -u
}
is "the page names what the script rejects" "$(sed -n 's/^ *retired[a-z_]*\["\([a-z]*\)"\].*/\1/p' tests/check-names | sort -u)" \
    "$(retired_by_page share/doc/style.md)"
echo '| one | for | slop* |' >"$folder/page.md"
is "a word that only the page retires would be seen" slop "$(retired_by_page "$folder/page.md")"

one src/base/a.c '/* What a plan lacks is told apart,' ' * piece by piece: a slip. */' 'static int gap; // blind' \
    'static const char *words = "mend \" the doubt", sign = '\''"'\'', *more = "told";'
passes "prose may use any word"

one src/rules/a.c 'int line_slip(void);'
refuses "a part of a name" 'src/rules/a.c:1: `line_slip`: `slip` is retired, write diagnostic, or diagnose'

one src/rules/a.c '/* one */ bool told; /* two' '*/ int WALL_APART;'
refuses "a whole name, capitals, and behind a comment" 'src/rules/a.c:1: `told`: `told` is retired, write logged, or a plain word
src/rules/a.c:2: `WALL_APART`: `apart` is retired, write private'

one grammar/scan.l '["]    { return doubts; }'
refuses "behind a lone quote in a pattern" 'grammar/scan.l:1: `doubts`: `doubts` is retired, write poisoned, or poison'

one src/layout/a.c 'struct piece *piece_new(struct look look);'
more src/room/b.c 'struct room_piece *piece; int look;'
refuses "a sheet's words on sheets alone" 'src/layout/a.c:1: `piece`: `piece` is retired, write box
src/layout/a.c:1: `piece_new`: `piece` is retired, write box
src/layout/a.c:1: `look`: `look` is retired, write style
src/layout/a.c:1: `look`: `look` is retired, write style'

one src/base/a.h 'struct line { int at; };'
more src/layout/b.h 'static const struct line line = {1};' 'struct line;' 'enum line {'
refuses "a tag given twice, whatever it is of" 'src/layout/b.h:3: the tag `line` is given in src/base/a.h:1 too'

one src/base/line.h 'struct one { int at; };'
more src/syntax/line.h 'struct other { int at; };'
refuses "a file name that two files have" 'src/syntax/line.h: there is src/base/line.h too'

rm -rf "$folder/src"
refuses "a tree without sources" "check-names: no sources below $folder"

finish
