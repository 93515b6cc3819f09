#!/bin/sh
# No phrase that reads as translated comes back in a comment or a text, and the script that says so can say no.
set -u

. tests/house/ok.sh
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT

# one FILE LINE...: makes a tree that holds only FILE with these lines.
one()
{
    rm -rf "$folder/src" "$folder/tests"
    mkdir -p "$folder/$(dirname "$1")"
    file=$1
    shift
    printf '%s\n' "$@" >"$folder/$file"
}

# judged NAME WANTED: the exit status of the script in that tree, and what it says.
judged()
{
    got=$(tests/check-phrases "$folder" 2>&1)
    is "$1" "$2" "$?:$got"
}

got=$(tests/check-phrases 2>&1)
is "this checkout" "0:" "$?:$got"

# share/doc/style.md has them in a table of its own, between quotes that no other table there has.
by_page()
{
    sed -n 's/^| "\([a-zA-Z ]*\)" |.*/\1/p' "$1" | sort
}
is "the page has the phrases that the script rejects" \
    "$(sed -n 's/^ *instead\["\([a-zA-Z ]*\)"\] = .*/\1/p' tests/check-phrases | sort)" "$(by_page share/doc/style.md)"
echo '| "of after" | later |' >"$folder/page.md"
is "a phrase that only the page has would be seen" "of after" "$(by_page "$folder/page.md")"

one src/base/a.c '/* A program is told to stop, and two bells are told apart;' ' * the figure of BEFORE. */' 'int is_told; /* a year */'
judged "other uses of the words" "0:"

one src/base/a.c '/* A finding is told' ' * once. */' 'static const char *words = "which came to be";'
judged "in a comment and in a text" "1:src/base/a.c:1: \`is told\`: write reports, shows or enters
src/base/a.c:3: \`came to be\`: write turned out"

one src/base/a.c '/* What is held' ' * against a limit, and that' ' * which is not. */'
judged "over the end of a line" "1:src/base/a.c:2: \`held against\`: write compared with
src/base/a.c:3: \`that which\`: write what"

one tests/cli/a.sh '# It goes' '# on with the next.'
judged "over the end of a line of a script" "1:tests/cli/a.sh:2: \`goes on with\`: write continues"

rm -rf "$folder/src" "$folder/tests"
judged "an empty tree" "1:check-phrases: nothing to read below $folder"

finish
