#!/bin/sh
# The catalogues of the sheets' words: sound by msgfmt, complete by what the code looks up, naming of the shelf only what is
# there, and built into tables.
set -u

. tests/house/ok.sh
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT

po/extract >"$folder/texts.pot"

# lacks CATALOGUE: the texts of the code that it has no words for, "nothing" where it has all.
lacks()
{
    msgcmp "$1" "$folder/texts.pot" 2>"$folder/said" && echo nothing || grep -v 'is not used' "$folder/said"
}

# unknown CATALOGUE KIND FILES...: what it calls a KIND that none of FILES declares.
unknown()
{
    catalogue=$1 kind=$2
    shift 2
    msgcat --no-wrap "$catalogue" | grep -A1 "^msgctxt \"$kind\"" | sed -n 's/^msgid "\(.*\)"$/\1/p' | while read -r name; do
        grep -qxE "$kind +$name" "$@" || echo "$name"
    done
}

# unguarded CATALOGUE: the stop lines of the shelf that it has no words for.
unguarded()
{
    msgcat --no-wrap "$1" | grep -A1 '^msgctxt "stop"' | sed -n 's/^msgid "\(.*\)"$/\1/p' | LC_ALL=C sort -u >"$folder/guards"
    sed -n 's/^ *stop  *//p' share/exercises/*.bell | LC_ALL=C sort -u | LC_ALL=C comm -23 - "$folder/guards"
}

# unnamed CATALOGUE: the activities of the shelf that it has no name for.
unnamed()
{
    msgcat --no-wrap "$1" | grep -A1 '^msgctxt "activity"' | sed -n 's/^msgid "\(.*\)"$/\1/p' | LC_ALL=C sort -u >"$folder/activities"
    sed -n 's/^activity  *//p' share/activities/*.bell | LC_ALL=C sort -u | LC_ALL=C comm -23 - "$folder/activities"
}

# unlisted_kit CATALOGUE: the kit that exercises of the shelf need, or that a room's timetable names, and that it has no words for.
unlisted_kit()
{
    msgcat --no-wrap "$1" | grep -A1 '^msgctxt "kit"' | sed -n 's/^msgid "\(.*\)"$/\1/p' | LC_ALL=C sort -u >"$folder/kit"
    {
        sed -n 's/^ *needs  *//p' share/exercises/*.bell | tr ',' '\n' | sed 's/^ *//; s/^[0-9]* x //'
        sed -n 's/.* = add_discs(.*"\(.*\)");$/\1/p; s/.* = add_kind(&kit, "\([^"]*\)".*/\1/p' src/squad/squad_kit.c
    } | LC_ALL=C sort -u |
        LC_ALL=C comm -23 - "$folder/kit"
}

for catalogue in po/*.po; do
    is "$catalogue is sound" "" "$(msgfmt --check -o /dev/null "$catalogue" 2>&1)"
    is "$catalogue has all words" "nothing" "$(lacks "$catalogue")"
    is "the shelf has the exercises of $catalogue" "" "$(unknown "$catalogue" exercise share/exercises/*.bell)"
    is "$catalogue has all stop lines of the shelf" "" "$(unguarded "$catalogue")"
    is "$catalogue has all activities of the shelf" "" "$(unnamed "$catalogue")"
    is "$catalogue has all kit of the shelf" "" "$(unlisted_kit "$catalogue")"
    is "no word of $catalogue is a draft" "" "$(grep -n '^#, .*fuzzy' "$catalogue")"
done

# What the page for the phone says stands in a script, which the extractor does not read: the program lists it.
spoken()
{
    grep -oE "(say|counter)\\('[^']+'(, '[^']+')?" "$1" | grep -oE "'[^']+'" | tr -d "'" | LC_ALL=C sort -u
}
unlisted()
{
    spoken "$1" | while read -r words; do
        grep -qF "msgid \"$words\"" "$folder/texts.pot" || grep -qF "msgid \" $words\"" "$folder/texts.pot" || echo "$words"
    done
}
is "all words of the page's script are listed" "" "$(unlisted share/phone/page.js)"
sed "s/say('Copied.')/say('Taken.')/" share/phone/page.js >"$folder/page.js"
is "a word that is not listed is found" "Taken." "$(unlisted "$folder/page.js")"

# It can say no.
sed '/^msgid "Thursday"/,/^msgstr/d' po/es.po >"$folder/short.po"
is "a missing word is found" "1" "$(lacks "$folder/short.po" | grep -c 'Thursday\|used but not defined')"
sed 's/^msgstr "página %d de %d"/msgstr "página %s de %d"/' po/es.po >"$folder/wrong.po"
is "a wrong placeholder is found" "1" "$(msgfmt --check -o /dev/null "$folder/wrong.po" 2>&1 | grep -c 'are not the same')"
sed 's/^msgid "the groin pulls"$/msgid "the groin sings"/' po/th.po >"$folder/silent.po"
is "a missing stop line is found" "the groin pulls" "$(unguarded "$folder/silent.po")"
sed 's/^msgid "easy bike"$/msgid "easy boat"/' po/th.po >"$folder/silent.po"
is "an activity without a name is found" "easy bike" "$(unnamed "$folder/silent.po")"
sed 's/^msgid "sandbag"$/msgid "hatbag"/; s/^msgid "ball"$/msgid "bale"/' po/th.po >"$folder/boxes.po"
is "missing kit is found" "ball
sandbag" "$(unlisted_kit "$folder/boxes.po")"
sed '$a\
\
msgctxt "exercise"\
msgid "moon press"\
msgstr "press lunar"' po/es.po >"$folder/moon.po"
is "an exercise that is not on the shelf is found" "moon press" "$(unknown "$folder/moon.po" exercise share/exercises/*.bell)"

is "all catalogues are in the program" "$(printf 'English, %s' "$(sed -n 's/^"X-Name: \(.*\)\\n"$/\1/p' po/*.po | LC_ALL=C sort | paste -sd, | sed 's/,/, /g')")" \
    "$(printf 'athlete Somebody\n    print in Latin\n' >"$folder/a.bell"; "${BELLSHEET:-build/bellsheet}" check "$folder/a.bell" 2>&1 | sed -n 's/.*one of: //p')"
