#!/bin/sh
# usage: BELLSHEET=build/bellsheet tests/golden/checks.sh
#
# Every check from both sides of its border. A plan here and in messages/ may hold lines
#
#     # quiet: TEXT        with TEXT in place of the line above, the check says nothing
#     # quiet with: TEXT   with TEXT as one more line
#     # quiet without      without the line above
#
# checks/NAME.bell and checks/NAME-more.bell break the check NAME; a line `# date: DAY` sets today. The edit is the least
# there is: figures one unit of their last place apart (a day, a second, a round), or one name for another. A plan of
# messages/ has a line that cannot be read or meant, and the edit mends it. Either way what is left must be read and
# checked, and must say nothing that the first does not say. `bellsheet explain` lists the names: one without such a
# pair fails. UPDATE=1 writes the .msg files anew. KEEP=FOLDER keeps the plans with their edits there, and beside each, as
# .allowed, what may still be found in it: `make mutants` tries them one by one.
set -u

. tests/house/ok.sh
: "${BELLSHEET:=build/bellsheet}"
program=$(realpath "$BELLSHEET")
cd tests/golden || exit 2
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
[ -z "${KEEP:-}" ] || cp -r messages/club "$KEEP"

# named NAMES-FILE PLAN...: "NAME PLAN" for each plan that breaks a check or has a line to be mended: of checks/ the longest
# name that its own begins with, of messages/ that in its .msg.
named()
{
    names=$1
    shift
    printf '%s\n' "$@" | awk -v file="$names" '
        BEGIN { while ((getline name < file) > 0) names[name] }
        /^checks\// {
            own = $0
            gsub(/^checks\/|\.bell$/, "", own)
            best = ""
            for (name in names)
                if (index(own "-", name "-") == 1 && length(name) > length(best))
                    best = name
            print best, $0
        }
        /^messages\// {
            edits = 0
            best = ""
            while ((getline line < $0) > 0)
                edits += line ~ /^ *# quiet/
            close($0)
            said = $0
            sub(/bell$/, "msg", said)
            while (best == "" && (getline line < said) > 0)
                if (match(line, /\[[a-z-]*\]$/))
                    best = substr(line, RSTART + 1, RLENGTH - 2)
            close(said)
            if (edits)
                print best, $0
        }'
}

# check_all EDITS: what is said of each file that edits.awk has listed, into $folder/said. A plan of checks/ is called from
# there, for its .msg.
check_all()
{
    line=0
    rm -rf "$folder/said"
    mkdir "$folder/said"
    while read -r number name plan date file _; do
        line=$((line + 1))
        said=$folder/said/$line
        case $plan:$number in
        checks/*:0) (cd checks && "$program" check -i --color=never --date "$date" "${plan#checks/}") 2>"$said.shown" ;;
        messages/*) [ -z "${KEEP:-}" ] || "$program" check -i --color=never --date "$date" "$file" >"$said.too" 2>&1 ;;
        *) "$program" check -i --color=never --date "$date" "$file" 2>"$said.shown" ;;
        esac >/dev/null
        "$program" check -i --notes --color=never --date "$date" "$file" >"$said.notes" 2>&1
    done <"$1"
}

# judge ROWS PAIRS: a line for each plan, with why not, if one of its edits does not hold; those that do go to PAIRS.
judge()
{
    rm -rf "$folder/plans"
    mkdir "$folder/plans"
    cp -r messages/club "$folder/plans" # for what a plan of messages/ uses
    awk -v folder="$folder/plans" -f edits.awk "$1" >"$folder/edits"
    check_all "$folder/edits"
    : >"$2"
    awk -v said="$folder/said" -v pairs="$2" -v keep="${KEEP:-}" -f judge.awk "$folder/edits"
}

# audit NAMES-FILE PAIRS-FILE: names without a pair, and names with a figure none of whose edits is one unit or
# one thing more or fewer.
audit()
{
    while read -r name; do
        grep -q "^$name " "$2" || echo "$name: no plan that breaks it has an edit after which it is quiet"
        grep -lE "at (most|least) .*\[$name\]" checks/*.msg >/dev/null 2>&1 || continue
        grep -qxE "$name (unit|line)" "$2" || echo "$name: no plan that breaks it by one unit"
    done <"$1"
}

# What no plan of a few lines shows is tried by name elsewhere. One has no trial: a plan too deep takes more nesting than there
# are statements.
tried_elsewhere()
{
    case $1 in
    too-deep) return 0 ;;
    esac
    grep -rqE "\"$1\"|\[$1\]" ../unit ../cli ../faults ../property ../published --include='*.c' --include='*.sh'
}

# audit_lines NAMES-FILE PAIRS-FILE: names of what is found in lines and on sheets that nothing mends.
audit_lines()
{
    while read -r name; do
        grep -q "^$name " "$2" || tried_elsewhere "$name" || echo "$name: no plan has it and an edit that mends it"
    done <"$1"
}

"$program" explain >"$folder/list"
sed -n '/^lines$/q; s/^  \([a-z][a-z-]*\)  .*/\1/p' "$folder/list" >"$folder/names"
sed -n '/^lines$/,/^sheets$/s/^  \([a-z][a-z-]*\)  .*/\1/p' "$folder/list" >"$folder/slips"
named "$folder/names" checks/*.bell messages/*.bell >"$folder/rows"
judge "$folder/rows" "$folder/pairs" >"$folder/verdicts"
line=0
while read -r number name plan rest; do
    line=$((line + 1))
    case $plan:$number in checks/*:0) ;; *) continue ;; esac
    base=${plan%.bell}
    [ -z "${UPDATE:-}" ] || cp "$folder/said/$line.shown" "$base.msg"
    cmp -s "$base.msg" "$folder/said/$line.shown" ||
        refuse "$base" "another message:
$(diff -u "$base.msg" "$folder/said/$line.shown" 2>&1)"
done <"$folder/edits"
while IFS='	' read -r base why; do
    if [ "$why" ]; then refuse "$base" "$why"; else echo "ok $base"; fi
done <"$folder/verdicts"
is "all plans were judged" "$(wc -l <"$folder/rows")" "$(wc -l <"$folder/verdicts")"
is "every check is tried at both sides of its border" "" "$(audit "$folder/names" "$folder/pairs")"
is "whatever is wrong with a line is tried, and mended" "" "$(audit_lines "$folder/slips" "$folder/pairs")"

# --- that this can say no ---

printf 'sets-over\nsets-invented\n' >"$folder/invented"
has "a check without a pair is named" "sets-invented: no plan" "$(audit "$folder/invented" "$folder/pairs")"
has "a message without one too" "sets-invented: no plan" "$(audit_lines "$folder/invented" "$folder/pairs")"
printf 'sets-over name\nsets-invented name\n' >"$folder/named"
has "a figure must be tried by one unit" "sets-over: no plan that breaks it by one unit" \
    "$(audit "$folder/invented" "$folder/named")"
KEEP=
judged()
{
    echo "sets-over $folder/sets-over.bell" >"$folder/row"
    judge "$folder/row" "$folder/pair"
}
sed 's/# quiet: straight A  12 sets/# quiet: straight A  11 sets/' checks/sets-over.bell >"$folder/sets-over.bell"
has "two units are not the least edit" "not the least edit: 13 and 11" "$(judged)"
sed 's/at most 12/at most 11/' checks/sets-over.bell >"$folder/sets-over.bell"
has "an edit that does not silence" "edit 1: error: Oriel Tamsin: 12 sets" "$(judged)"
sed 's/at most 12/at most 13/' checks/sets-over.bell >"$folder/sets-over.bell"
has "a plan that breaks nothing" "does not break sets-over" "$(judged)"
sed "s/# quiet: .*/# quiet: strait A  13 sets rest 1:30/" checks/sets-over.bell >"$folder/sets-over.bell"
has "an edit that cannot be read" "[" "$(judged)"
sed 's/for     Oriel/for     Orial/' checks/sets-over.bell >"$folder/sets-over.bell"
has "a plan whose limits are not checked" "does not break sets-over" "$(judged)"

finish
