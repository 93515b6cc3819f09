#!/bin/sh
# Every example of grammar/notation.md means what it says: this reads them all out of the page and runs them.
#
# A fenced block is one of
#   ```bell               a whole plan, without errors
#   ```bell part=NAME     lines that stand where contexts/NAME.bell has @@; without errors
#   ```bell error         either of these, and the ```text block that follows holds its errors and what helps,
#                         word for word; ```text output holds all that the program prints
# Each statement of src/syntax/kinds.def and each word of words.def must stand in some example without errors.
set -u

. tests/house/ok.sh
: "${BELLSHEET:=build/bellsheet}"
case $BELLSHEET in /*) ;; *) BELLSHEET=$PWD/$BELLSHEET ;; esac
contexts=$PWD/tests/reference/contexts
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT

# split_page PAGE FOLDER: one file a block, LINE.bell or LINE.text by the block's first line, and a list of them.
split_page()
{
    rm -rf "$2"
    mkdir -p "$2"
    awk -v folder="$2" '
    /^```/ && inside { inside = 0; close(file); next }
    /^```/ {
        inside = 1
        file = "/dev/null"
        kind = substr($1, 4)
        part = error = ""
        for (i = 2; i <= NF; i++) {
            if ($i ~ /^part=/) part = substr($i, 6)
            if ($i == "error") error = "error"
        }
        if (kind == "bell") {
            file = folder "/" FNR ".bell"
            print FNR, part == "" ? "whole" : part, error == "" ? "good" : "error" >(folder "/list")
            wanted = error == "" ? "" : FNR
        } else if (kind == "text" && wanted != "") {
            file = folder "/" wanted ($2 == "output" ? ".output" : ".text")
            wanted = ""
        }
        printf "" >file
        next
    }
    inside { print >file }
    ' "$1"
}

# build_plan EXAMPLE PART: makes $folder/plan/plan.bell of it.
build_plan()
{
    rm -rf "$folder/plan"
    mkdir "$folder/plan"
    cp "$contexts/club.bell" "$folder/plan"
    if [ "$2" = whole ]; then
        cp "$1" "$folder/plan/plan.bell"
        return
    fi
    awk -v example="$1" '
    /^ *@@$/ {
        indent = substr($0, 1, index($0, "@") - 1)
        while ((getline line <example) > 0)
            print line == "" ? "" : indent line
        next
    }
    { print }
    ' "$contexts/$2.bell" >"$folder/plan/plan.bell"
}

# The errors and what helps, without their places.
only_messages()
{
    awk '
    / error: / && /^[^ ]*: /                { sub(/^[^ ]*: /, ""); print; mine = 1; next }
    / (warning|note|info): / && /^[^ ]*: /  { mine = / note: / && mine; next }
    mine && /^ *= (help|fix): /             { sub(/^ *= /, ""); print }
    '
}

run_example()
{
    name=$1:$2
    example=$folder/page/$2
    if [ "$3" != whole ] && [ ! -f "$contexts/$3.bell" ]; then
        refuse "$name" "there is no context $3"
        return
    fi
    build_plan "$example.bell" "$3"
    got=$(cd "$folder/plan" && "$BELLSHEET" check --color=never --date 2027-03-01 plan.bell 2>&1)
    status=$?
    if [ "$4" = good ]; then
        is "$name" "0:" "$status:$(echo "$got" | only_messages)"
    elif [ -f "$example.output" ]; then
        is "$name" "1:$(cat "$example.output")" "$status:$got"
    elif [ -s "$example.text" ]; then
        is "$name" "1:$(cat "$example.text")" "$status:$(echo "$got" | only_messages)"
    else
        refuse "$name" "no text block says what is wrong with it"
    fi
}

# run_page PAGE
run_page()
{
    split_page "$1" "$folder/page"
    while read -r line part kind; do
        run_example "$1" "$line" "$part" "$kind"
    done <"$folder/page/list"
}

# table_phrases STATEMENT|WORD TABLE: the first spelling of each.
table_phrases()
{
    sed -n "s/^$1([^\"]*\"\([^|\"#]*\).*/\1/p" "$2" | grep .
}

# says_all NAME PATTERN-START PHRASES: some good example of the page holds each.
says_all()
{
    missing=$(echo "$3" | while read -r phrase; do
        grep -qiE "$2$phrase( |\$|[,;:])" "$folder/good" || echo "$phrase"
    done)
    is "$1" "" "$missing"
}

run_page grammar/notation.md
awk '$3 == "good" { print $1 }' "$folder/page/list" | while read -r line; do
    sed 's/\(^\|[[:space:]]\)#\( .*\)\?$//' "$folder/page/$line.bell"
done >"$folder/good"
says_all "every statement has an example" '^ *' "$(table_phrases STATEMENT src/syntax/kinds.def)"
says_all "every word has an example" '(^|[ 0-9])' "$(table_phrases WORD src/syntax/words.def)"

# And the test can fail.
page()
{
    cat >"$folder/page.md"
    run_page "$folder/page.md" | sed "s|^\([a-z ]*\)$folder/|\1|"
}

got=$(page <<'END'
```bell
gym Slipway
    barbells 20 kgs of iron
```
END
)
has "an error in a good example is found" "not ok page.md:1: wanted:" "$got"

got=$(page <<'END'
```bell error part=gym
plates 4 x 25 kg
```
```text
error: nothing of the kind
```
END
)
has "an error that does not come is found" "not ok page.md:1: wanted:" "$got"

got=$(page <<'END'
```bell error part=gym
plats 4 x 25 kg
```
```text
error: nothing of the kind
```
END
)
has "another message is found" "not ok page.md:1: wanted:" "$got"

got=$(page <<'END'
```bell error part=gym
plats 4 x 25 kg
```
END
)
is "a message that is not told is found" \
    "not ok page.md:1: no text block says what is wrong with it" "$got"

got=$(page <<'END'
```bell part=harbour
plates 4 x 25 kg
```
END
)
is "a context that is not there is found" "not ok page.md:1: there is no context harbour" "$got"

echo 'gym Slipway' >"$folder/good"
got=$(says_all "x" '^ *' "gym
session")
has "a statement without example is found" "not ok x: wanted:" "$got"

finish
