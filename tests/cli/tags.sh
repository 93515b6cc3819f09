#!/bin/sh
# The structure of printed PDF files as qpdf and poppler read it: tables of rows of cells, headings, the language, and
# texts in the order in which they are to be read.
set -u

. tests/house/ok.sh
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT

"$BELLSHEET" print examples/slipway --week 2 --out "$folder" --sheet wall,floor,week,camp,card-page --date 2027-02-24 \
    >"$folder/names" 2>/dev/null
is "a week is printed" 0 $?

# plain FILE: the same without compression, which poppler would undo for each text anew. Prints what it is called.
plain()
{
    [ -f "$1.plain" ] || qpdf --qdf --object-streams=disable "$1" "$1.plain"
    echo "$1.plain"
}

# types FILE: how often each structure type is in it, "TR 9" a line.
types()
{
    sed -n 's|^ */S /\([A-Z][A-Za-z0-9]*\)$|\1|p' "$(plain "$1")" | sort | uniq -c |
        awk '$2 != "Transparency" { print $2, $1 }'
}

# tree FILE: its structure, a line an element: depth, type; texts behind a quote. poppler takes seconds to print it.
tree()
{
    [ -f "$1.tree" ] || pdfinfo -struct-text "$(plain "$1")" >"$1.tree" 2>&1
    cat "$1.tree"
}

# uneven: of a structure on standard input, rows that have another number of cells than the first of their table, and
# cells outside rows.
uneven()
{
    awk '
        function end_row() { if (row && first && cells != first) print "a row of " cells " and one of " first
                             if (row && !first) first = cells; row = 0 }
        { match($0, /^ */); depth = RLENGTH / 2; type = $1; end = ""
          for (d = depth; d <= last; d++) if (at[d] == "TR") end = 1
          if (end) end_row()
          at[depth] = type; last = depth }
        type == "Table" { first = 0 }
        type == "TR" { row = 1; cells = 0; if (at[depth - 1] != "Table") print "a row outside a table" }
        type == "TH" || type == "TD" { cells++; if (at[depth - 1] != "TR") print "a cell outside a row" }
        END { end_row() }'
}

wall=$(find "$folder" -name '*-squad-floor-wall.pdf')
week=$folder/harbour-final-week-02-oriel-tamsin-week.pdf
camp=$folder/lock-gate-night-kofi-brandreth-camp.pdf # of seven weeks: of twelve, poppler takes four times as long

for sheet in "$wall" "$week" "$camp"; do
    name=$(basename "$sheet" .pdf | sed 's/.*-//')
    for type in Table TR TH TD H1; do
        is "$name: there are elements $type" 1 "$(types "$sheet" | grep -c "^$type [1-9]")"
    done
    is "$name: every row of a table has as many cells" "" "$(pdfinfo -struct "$sheet" 2>&1 | uneven)"
done
is "a row that is short is seen, and a cell without a row" "a row of 1 and one of 2
a cell outside a row" "$(printf '%s\n' Document '  Table' '    TR' '      TH' '      TD' '    TR' '      TD' '    TD' | uneven)"
is "headings go by rank: the session on both pages, its blocks, eleven exercises" "H1 2,H2 yes,H3 11" \
    "$(types "$wall" | awk '$1 == "H1" { a = $2 } $1 == "H2" { b = $2 > 4 ? "yes" : "no" } $1 == "H3" { c = $2 }
        END { print "H1 " a ",H2 " b ",H3 " c }')"
for sheet in "$folder"/*.pdf; do
    grep -a -c -E '^ *(/Lang \(en-GB\)|/DisplayDocTitle true)' "$(plain "$sheet")" |
        grep -qx 2 || echo "$sheet"
done >"$folder/mute"
is "every file tells its language and wants its title shown" "" "$(cat "$folder/mute")"
mkdir "$folder/spanish"
cp examples/first/*.bell "$folder/spanish"
sed -i '0,/^camp .*/s//&\n    print in Spanish/' "$folder"/spanish/plan.bell
"$BELLSHEET" print "$folder/spanish" --week 2 --sheet wall --out "$folder/spanish/out" >/dev/null 2>&1
is "and one in Spanish its own" "/Lang (es)" \
    "$(qpdf --qdf --object-streams=disable "$folder"/spanish/out/*-wall.pdf - | grep -a -o '/Lang ([^)]*)')"

# unmarked FILE: lines of its pages that draw outside all marks, and marks within marks or left open.
unmarked()
{
    sed -n '/^%% Contents for page/,/^endstream/p' "$(plain "$1")" | LC_ALL=C awk '
        /^stream$/ { page = 1; next }
        /^endstream$/ { if (deep) print "a mark is left open"; page = 0; deep = 0; next }
        !page { next }
        /(BDC|BMC)$/ { if (deep++) print "a mark within a mark"; next }
        /^EMC$/ { if (deep-- < 1) print "a mark that nothing opened"; next }
        !deep && /(^| )(f|S|B|b|s|Tj|TJ|Do|re|l)$/ { print }'
}

for sheet in "$folder"/*.pdf; do
    unmarked "$sheet" | sed "s|^|$sheet: |"
done >"$folder/loose"
is "rules, axes and their figures are artifacts, all else is content" "" "$(cat "$folder/loose")"
sed '/^\/Artifact BMC$/d' "$(plain "$wall")" >"$folder/bare.plain"
is "a file without such marks is seen" yes "$([ "$(unmarked "$folder/bare" | wc -l)" -gt 20 ] && echo yes)"
is "and they were put into each page" "" "$(for sheet in "$folder"/*.pdf; do grep -a -q '^/Artifact BMC$' "$(plain "$sheet")" || echo "$sheet"; done)"
is "qpdf finds nothing" "" "$(for sheet in "$folder"/*.pdf; do qpdf --check "$sheet" >"$folder/q" 2>&1 || cat "$folder/q"; done)"

one=$(find "$folder" -name '*-long-reach-wall.pdf')
is "the wall sheet of one athlete has no table" "" "$(types "$one" | grep -E '^(Table|TR|TD) ')"

# row FILE WORDS: the texts of the rows that have a cell with just WORDS, cells separated by "|".
row()
{
    tree "$1" | awk -v words="\"$2\"" '
        { type = $1 }
        /^  P/ || type == "TR" { if (hit) print line; line = ""; hit = 0; next }
        type == "TH" || type == "TD" { line = line "|"; next }
        type ~ /^"/ { sub(/^ */, ""); if ($0 == words) hit = 1; gsub(/"/, ""); line = line $0; next }
        type == "Table" { if (hit) print line; line = ""; hit = 0 }
        END { if (hit) print line }'
}

is "the camp's weeks count down to the bout" "|weeks out|6|5|4|3|2|1|0" "$(row "$camp" "weeks out" | head -n 1)"
is "a lift is a row of what is done of it each week" "|back squat|3 ×4112.5kgwith bar|3 ×4115kgwith bar|4 ×3120kgwith bar|\
4 ×3122.5kgwith bar|3 ×2112.5kgwith bar|3 ×2112.5kgwith bar|" "$(row "$camp" "back squat" | sed 's/\xc2\xa0/ /g')"
has "a chart is a row of its numbers" "|Sparringrounds|6|6|6|6|6|4|" "$(row "$camp" Sparring)"
has "the week's table has figure and limit" "|sparring rounds|6|at most 24" "$(row "$week" "sparring rounds")"
has "who does what otherwise is a row of a table" "|Ilseinstead:kettlebell deadlift|" "$(row "$wall" "Ilse")"

# spoken FILE: what qpdf reads of its figures' words, "3 orthodox" a line.
spoken()
{
    qpdf --json=2 --json-key=qpdf "$1" | sed -n 's|^ *"/Alt": "u:\(.*\)",*$|\1|p' | sort | uniq -c |
        sed 's/^ *//; s/\xc2\xa0/ /g'
}

is "stances, tempo and discs of a wall are read out" "1 2-0-X-0 (seconds down, held, up, held; X as fast as possible)
1 20 kg bar, one end: 20 kg + 1.25 kg
1 30 kg safety bar, a side: 20 kg + 2.5 kg
2 3-1-X-0 (seconds down, held, up, held; X as fast as possible)
3 orthodox
3 southpaw" "$(spoken "$(find "$folder" -name '*-hips-before-hands-wall.pdf')" | LC_ALL=C sort)"
for sheet in "$folder"/*.pdf; do
    [ "$(types "$sheet" | sed -n 's/^Figure //p')" = "$(spoken "$sheet" | awk '{ n += $1 } END { if (n) print n }')" ] || echo "$sheet"
done >"$folder/speechless"
is "every figure of every file has words" "" "$(cat "$folder/speechless")"

# said FILE: what its figures say, in the order of the file, and what is written on them, behind "|": of a bar its discs.
said()
{
    grep -a '^ *\/Alt <FEFF' "$1" | sed 's/.*FEFF\(.*\)>/\1/' | awk '
        { out = ""
          for (i = 1; i < length($0); i += 4)
              out = out sprintf("%c", 16 * (index(hex, substr($0, i + 2, 1)) - 1) + index(hex, substr($0, i + 3, 1)) - 1)
          print out }' hex=0123456789ABCDEF >"$folder/said"
    tree "$1" | awk '/^ *Figure/ { getline; gsub(/^ *"|"$/, ""); print }' | paste -d '|' "$folder/said" -
}

# apart: the lines of these whose two halves are not about the same mark.
apart()
{
    awk -F '|' '
        { want = $1 }
        /^[0-9X]+-/ { sub(/ .*/, "", want); gsub(/-/, "", want); if ($2 != want) print; next }
        / kg bar|bar, / { sub(/.*: /, "", want); gsub(/ kg| \+ /, "", want); if (index($2, want) != 1) print; next }
        { if ($2 != "") print }'
}

is "each figure says what is written on it" "" "$(said "$wall" | apart)$(said "$(find "$folder" -name '*-hips-before-hands-wall.pdf')" | apart)"
is "eleven figures of one wall were looked at" 11 "$(wc -l <"$folder/said")"
is "and one that says another's words is seen" "3-1-X-0 (down)|20X0
20 kg bar, a side: 10 kg + 5 kg|10
orthodox|20" "$(printf '%s\n' '3-1-X-0 (down)|20X0' '20 kg bar, a side: 10 kg + 5 kg|10' 'orthodox|20' '2-0-X-0 (down)|20X0' 'southpaw|' | apart)"

# places FILE: where WORDS... are in what is read out, in rising order if they follow one another.
in_order()
{
    file=$1
    shift
    all=$(tree "$file" | tr '\n' ' ')
    for words; do
        case $all in
        *"$words"*) all=${all#*"$words"} ;;
        *)
            echo "\"$words\" is not behind what goes before it"
            return
            ;;
        esac
    done
}

is "a week is read day by day, then what it adds up to, then the foot" "" \
    "$(in_order "$week" "Oriel Tamsin, Harbour final, week 2 of 12" "Mon 8" "17:30" "Hips before hands" "landmine press" "Tue 9" "pads" \
        "Wed 10" "Collar and cu" "Sat 13" "Session load" "sparring rounds" "Stop for pain" "page 1 of 2")"
is "a camp is read from its phases over its charts to the foot" "" \
    "$(in_order "$camp" "from Monday" "weeks out" "phases" "power" "Session load" "Sparring" "Strikes" "Sets" "Lifts" \
        "Heaviest lift" "Coloured lines" "Stop for pain" "page 1 of 2" "from Monday" "back squat" "page 2 of 2")"
is "a wall sheet is read in the order of the session" "" \
    "$(in_order "$wall" "Squad " "rope" "trap bar deadlift" "Ilse" "kettlebell deadlift" "split squat" "Stop for pain")"
is "and what is out of order is seen" '"roadwork" is not behind what goes before it' "$(in_order "$week" "Sat 13" "roadwork")"
is "numbers of an axis are not read out" "" "$(tree "$camp" | grep -x ' *"2000"')"

finish
