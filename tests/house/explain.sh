#!/bin/sh
# Every diagnostic has its page in share/explain, and every page its diagnostic. That the source reports none but these,
# the compiler sees to.
set -u

. tests/house/ok.sh
: "${BELLSHEET:=build/bellsheet}"
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT

# names FILE: those of the table in FILE.
names()
{
    sed -n 's/^DIAGNOSTIC([A-Z_0-9]*, "\([a-z-]*\)",.*/\1/p' "$1" | sort
}

# lacks PAGE HEADING...: the headings that PAGE has nothing below.
lacks()
{
    page=$1
    shift
    for heading; do
        awk -v heading="## $heading" '
            $0 == heading { inside = 1; next }
            /^## / { inside = 0 }
            inside { words += NF }
            END { exit words < 4 }' "$page" || echo "$(basename "$page" .md): $heading"
    done
}

names src/source/diagnostics.def >"$folder/names"
for page in share/explain/*.md; do basename "$page" .md; done | sort >"$folder/pages"
is "each diagnostic has its page, and each page its diagnostic" "" "$(diff "$folder/names" "$folder/pages")"
is "more than a few" yes "$([ "$(wc -l <"$folder/names")" -gt 150 ] && echo yes)"
"$BELLSHEET" explain | sed -n 's/^  \([a-z-]*\)  *\(must\|warn\|info\)  .*/\1/p' | sort >"$folder/listed"
is "all are listed" "" "$(diff "$folder/names" "$folder/listed")"

while read -r name; do
    [ "$(sed -n 1p "share/explain/$name.md")" = "# $name" ] || echo "$name"
    "$BELLSHEET" explain "$name" | sed -n 1p | grep -q "^$name (" || echo "$name"
done <"$folder/names" >"$folder/mute"
is "each page says its name and is shown" "" "$(cat "$folder/mute")"

# What a check looks at is a matter of opinion or of a source, so its page says why, from where, and what to do.
sed -n 's/^DIAGNOSTIC([A-Z_0-9]*, "\([a-z-]*\)", \(VOLUME\|PAIRING\|PHASE\|PERSON\|SENSE\),.*/\1/p' \
    src/source/diagnostics.def >"$folder/checks"
while read -r name; do
    lacks "share/explain/$name.md" Why Source "What to do"
done <"$folder/checks" >"$folder/lacking"
is "checks give reason, source and remedy" "" "$(cat "$folder/lacking")"
printf '# x\n\nIt is.\n\n## Why\n\n' >"$folder/x.md"
is "an empty part would be seen" "x: Why" "$(lacks "$folder/x.md" Why)"

promises='\b(safe|cleared|ready|risk)\b'
is "no page promises anything" "" "$(grep -niE "$promises" share/explain/*.md src/source/diagnostics.def)"
is "a promise would be seen" 1 "$(echo 'Now it is safe to go on.' | grep -ciE "$promises")"

has "a slip of spelling is answered" sets-twice "$("$BELLSHEET" explain set-twice 2>&1 | sed 's,.*did you mean,,')"
finish
