#!/bin/sh
# bellsheet print --shelf: a book of all exercises, with an outline; the club's own among them; and what it refuses.
set -u

. tests/house/ok.sh
: "${BELLSHEET:=build/bellsheet}"
program=$(realpath "$BELLSHEET")
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
mkdir "$folder/empty" "$folder/club" "$folder/broken"

cat >"$folder/club/club.bell" <<'END'
exercise rope hoist
    kind        strength
    pattern     pull
    side        each side, hand
    loads       upper back 1
    cue         hand over hand

exercise goblet squat
    replaces    goblet squat
    kind        strength
    pattern     squat
    loads       front thigh 1
    cue         as we do it here
END
echo 'exercise half a thing' >"$folder/broken/club.bell"

# book FOLDER OPTIONS...: the book of that folder, into out/ below it.
book()
{
    from=$1
    shift
    "$program" -C "$folder/$from" print --shelf --out out "$@" 2>&1
}

# The outline as lines, with two spaces before what is nested. The tool prints what is nested before its heading.
outline()
{
    qpdf --json --json-key=outlines "$1" | grep '"title": ' | awk '
        { indent = match($0, /"/); sub(/^ *"title": "/, ""); sub(/",?$/, "") }
        NR == 1 { deep = indent }
        indent == deep { nested = nested "\n  " $0; next }
        { print $0 nested; nested = "" }'
}

got=$(book empty)
is "one file, and no word besides" "0:out/shelf.pdf" "$?:$got"
pdf=$folder/empty/out/shelf.pdf
qpdf --check "$pdf" >"$folder/said" 2>&1
is "its structure is sound" 0 $?
is "it is A4" "595.276 x 841.89 pts (A4)" "$(pdfinfo "$pdf" | sed -n 's/^Page size: *//p')"
pages=$(pdfinfo "$pdf" | sed -n 's/^Pages: *//p')
pdftotext -layout "$pdf" "$folder/text"
has "pages are counted" "page 1 of $pages" "$(cat "$folder/text")"
has "to the last" "page $pages of $pages" "$(cat "$folder/text")"

# Every exercise of the files, once in the outline, under its pattern.
sed -n 's/^exercise //p' share/exercises/*.bell | sort >"$folder/declared"
outline "$pdf" | sed -n 's/^  //p' | sort >"$folder/outlined"
is "every exercise is in the outline" "" "$(diff "$folder/declared" "$folder/outlined")"
is "under the patterns, in their order" \
    "hinge squat lunge push pull rotate brace carry jump throw strike neck grip shoulder care hip care trunk care \
footwork locomotion" "$(outline "$pdf" | grep -v '^  ' | tr '\n' ' ' | sed 's/ $//')"
is "the hinges are under hinge" "back extension hold" \
    "$(outline "$pdf" | grep -A1 -x hinge | sed -n 's/^  //p')"
is "each is titled once on paper" "$(wc -l <"$folder/declared")" \
    "$(grep -o 'in \(reps\|seconds\|metres\|landings\|strikes\)\b' "$folder/text" | wc -l)"
has "it says how many" "$(wc -l <"$folder/declared" | tr -d ' ') exercises" "$(cat "$folder/text")"
has "a stop rule" "Stop if: a catch lands on bent wrists" "$(cat "$folder/text")"
has "the cautions" "see a doctor before you train" "$(cat "$folder/text")"

book empty --date 2027-03-01 >/dev/null
cp "$pdf" "$folder/first.pdf"
book empty --date 2027-03-01 >/dev/null
is "the same bytes again" "$(cksum <"$folder/first.pdf")" "$(cksum <"$pdf")"
book empty --paper Letter >/dev/null
is "on other paper" "612 x 792 pts (letter)" "$(pdfinfo "$pdf" | sed -n 's/^Page size: *//p')"

# --- the club's own ---

got=$(book club)
is "with a plan" "0:out/shelf.pdf" "$?:$got"
pdftotext -layout "$folder/club/out/shelf.pdf" "$folder/text"
has "the club's own are counted" ", 2 of them the club's own" "$(cat "$folder/text")"
has "what replaces an entry is there" "as we do it here" "$(cat "$folder/text")"
is "and is there once" "1" "$(outline "$folder/club/out/shelf.pdf" | grep -c '^  goblet squat$')"
is "under its pattern" "pull" "$(outline "$folder/club/out/shelf.pdf" |
    awk '/^[^ ]/ { pattern = $0 } $0 == "  rope hoist" { print pattern }')"
got=$(book broken)
is "not of a plan with an error" 1 $?
has "which is shown" "no-kind" "$got"

# --- what it refuses ---

got=$("$program" -C "$folder/empty" print --shelf 2>&1)
is "no folder" "2:bellsheet: error: say where the files go: --out FOLDER" "$?:$got"
got=$("$program" -C "$folder/empty" print --shelf --list)
is "a list needs none" "0:./shelf.pdf" "$?:$got"
got=$(book empty --week 2)
is "a week" "2" "$?"
has "and why" "--shelf prints no sessions" "$got"
got=$(book empty --watch)
is "watching" "2" "$?"
got=$(book empty --paper B7)
is "unknown paper" "2:bellsheet: error: there is no such paper: A4, A3, A2, A1, Letter or Tabloid" "$?:$got"

finish
