#!/bin/sh
# The README shows a plan and its sheet: the plan is the one in examples/first, and the picture is still its sheet.
# Links of our pages lead to files that are there.
set -u

. tests/house/ok.sh
: "${BELLSHEET:=build/bellsheet}"
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT

# shown_plan PAGE: its first block of a plan.
shown_plan()
{
    awk '/^```bell/ { inside = 1; next } /^```/ && inside { exit } inside' "$1"
}

# dead_links PAGE: links of PAGE to what is not there, from PAGE's own folder.
dead_links()
{
    grep -o ']([^)]*)' "$1" | sed 's/^](//; s/)$//; s/#.*//' | grep -v '^https\?:' | grep . |
        while read -r target; do
            [ -e "$(dirname "$1")/$target" ] || echo "$target"
        done
}

# differs PICTURE: how far it lies from the README's, 0 to 1, in thousandths.
differs()
{
    compare -metric RMSE examples/first/sheet.png "$1" null: 2>&1 | sed 's/.*(\(.*\)).*/\1/' |
        awk '{ print $1 == $1 + 0 ? int($1 * 1000) : 1000 }'
}

is "the plan shown is the plan kept" "$(cat examples/first/plan.bell)" "$(shown_plan README.md)"
got=$("$BELLSHEET" check --strict --infos --date 2027-03-01 examples/first 2>&1)
is "it checks without a word" "0:" "$?:$got"

# Other fonts or another poppler move pixels a little; another word on the sheet moves many.
BELLSHEET=$BELLSHEET examples/first/make-picture "$folder/sheet.png"
got=$(differs "$folder/sheet.png")
if [ "$got" -le 20 ]; then
    echo "ok the picture is its sheet"
else
    refuse "the picture is its sheet" "off by $got thousandths: run examples/first/make-picture"
fi
convert examples/first/sheet.png -fill white -draw 'rectangle 90,170 320,330' "$folder/other.png"
got=$(differs "$folder/other.png")
is "a sheet without its first exercise would be told apart" yes "$([ "$got" -gt 20 ] && echo yes)"

for page in README.md DEVELOPERS.md grammar/notation.md share/doc/*.md; do
    is "links of $page" "" "$(dead_links "$page")"
done
echo 'See [this](nowhere.md) and [that](page.md).' >"$folder/page.md"
is "a dead link would be found" nowhere.md "$(dead_links "$folder/page.md")"

finish
