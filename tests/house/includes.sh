#!/bin/sh
# The include directions of src/ hold, and the script that says so can say no.
set -u

. tests/house/ok.sh
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT

# one FILE LINE...: makes a tree that holds only FILE with these lines.
one()
{
    rm -rf "$folder/src" "$folder/grammar"
    mkdir -p "$folder/$(dirname "$1")"
    file=$1
    shift
    printf '%s\n' "$@" >"$folder/$file"
}

# passes NAME / refuses NAME WORDS: what the script must make of that tree.
passes()
{
    got=$(tests/check-includes "$folder" 2>&1)
    is "$1" "0:" "$?:$got"
}

refuses()
{
    got=$(tests/check-includes "$folder" 2>&1)
    is "$1" "1:$2" "$?:$got"
}

got=$(tests/check-includes 2>&1)
is "this checkout" "0:" "$?:$got"

one src/measure/time.c '#include <glib.h>' '#include "base/arena.h"' '#include "model/programme.h"'
passes "downwards and within a room"

one src/cli/main.c '#include "render/render.h"' '#include "syntax/tree.h"'
passes "the command line includes any room"

one grammar/parse.y '%{' '#include "syntax/tree.h"' '#include "scan.h"' '%}'
passes "the grammar is part of syntax"

one src/base/arena.c '#include <stdlib.h>' '#include "model/programme.h"'
refuses "base includes model" 'src/base/arena.c:2: room "base" may not include "model/programme.h"'

one src/figures/plates.h '  #  include "source/span.h"'
refuses "figures includes source" \
    'src/figures/plates.h:1: room "figures" may not include "source/span.h"'

one src/rules/check_volume.c '#include "syntax/kinds.def"'
refuses "rules includes syntax" 'src/rules/check_volume.c:1: room "rules" may not include "syntax/kinds.def"'

one src/resolve/resolve_dose.c '#include "syntax/tree.h"'
passes "the resolver includes syntax"

one src/measure/loads.c '#include "syntax/tree.h"'
refuses "measure includes syntax" 'src/measure/loads.c:1: room "measure" may not include "syntax/tree.h"'

one src/syntax/values.c '#include "figures/dates.h"'
passes "syntax includes figures"

one src/syntax/values.c '#include "resolve/names.h"'
refuses "syntax includes resolve" 'src/syntax/values.c:1: room "syntax" may not include "resolve/names.h"'

one src/layout/wall.c '#include "parse.h"'
refuses "layout includes the parser" 'src/layout/wall.c:1: room "layout" may not include "parse.h"'

one grammar/scan.l '#include "model/programme.h"'
refuses "the grammar includes model" 'grammar/scan.l:1: room "syntax" may not include "model/programme.h"'

one src/base/text.c '#include "arena.h"'
refuses "a header without its room" 'src/base/text.c:1: "arena.h" is not written as "room/file"'

one src/base/text.c '#include "../base/arena.h"'
refuses "a header by way of .." 'src/base/text.c:1: "../base/arena.h" is not written as "room/file"'

one src/base/text.c '#include "attic/arena.h"'
refuses "a header of no room" 'src/base/text.c:1: "attic/arena.h" names no room of ours'

one src/attic/old.c '#include "base/arena.h"'
refuses "a room of no rank" 'src/attic/old.c:1: room "attic" has no line in tests/check-includes'

one src/base/deep/arena.c 'int x;'
refuses "a file too deep" 'src/base/deep/arena.c:1: is not src/ROOM/FILE, so no rule builds it'

rm -rf "$folder/src" "$folder/grammar"
got=$(tests/check-includes "$folder" 2>/dev/null)
is "an empty tree" "1:" "$?:$got"

finish
