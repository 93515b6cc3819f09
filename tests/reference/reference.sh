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
. tests/reference/page.sh
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT

run_example()
{
    name=$1:$2
    example=$folder/page/$2
    if [ "$3" != whole ] && [ ! -f "$contexts/$3.bell" ]; then
        refuse "$name" "there is no context $3"
        return
    fi
    build_plan "$example.bell" "$3"
    if [ "$4" = good ]; then
        got=$(said text)
        is "$name" "0:" "$?:$got"
    elif [ -f "$example.output" ]; then
        got=$(said output)
        is "$name" "1:$(cat "$example.output")" "$?:$got"
    elif [ -s "$example.text" ]; then
        got=$(said text)
        is "$name" "1:$(cat "$example.text")" "$?:$got"
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

kit=$(sed -n 's/^ *needs  *//p' share/exercises/*.bell | tr ',' '\n' | sed 's/^ *//; s/ *$//' | sort -u |
    grep -vxE '(weight )?plates?|barbell|dumbbells?|kettlebells?|throwing ball|band|partner|wall')
says_all "all kit of the shelf is named" '(^|[ 0-9])' "$kit"

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
is "a message that is not reported is found" \
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
