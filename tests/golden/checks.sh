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
cp -r messages/club "$folder" # for what a plan of messages/ uses
[ -z "${KEEP:-}" ] || cp -r messages/club "$KEEP"

# edit NUMBER PLAN: PLAN with its edit of that number made, and the lines before and after it in $folder/edit.
edit()
{
    awk -v number="$1" -v note="$folder/edit" '
        { lines[NR] = $0 }
        END {
            for (i = 1; i <= NR; i++) {
                if (lines[i] !~ /^ *# quiet( with|)(:|out)/ || ++seen != number)
                    continue
                text = lines[i]
                indent = text
                sub(/#.*/, "", indent)
                sub(/^ *# quiet[^:]*:? */, "", text)
                above = i - 1
                while (lines[above] ~ /^ *# quiet/)
                    above--
                if (lines[i] ~ /# quiet without/) { kind = "without"; lines[above] = "#" }
                else if (lines[i] ~ /# quiet with:/) { kind = "with"; lines[i] = indent text }
                else { kind = "word"; before = lines[above]; lines[above] = indent text }
                print kind > note
                print before > note
                print indent text > note
            }
            for (i = 1; i <= NR; i++)
                print lines[i]
        }' "$2"
}

# size: of the edit in $folder/edit: "line", "unit", "name", or what is wrong with it.
size()
{
    awk '
        # Units of the last place that lie between two figures, or -1: 2027-03-01, 1:30, 17:30, 82.5%, 3-0-1-0.
        function apart(a, b,    i, parts, others, n, sum, differ) {
            if (a ~ /^[0-9]+-[0-9]+-[0-9]+$/ && b ~ /^[0-9]+-[0-9]+-[0-9]+$/)
                return days(a) - days(b)
            gsub(/[^0-9.:-]/, "", a)
            gsub(/[^0-9.:-]/, "", b)
            if (a ~ /^[0-9]+:[0-9][0-9]$/ && b ~ /^[0-9]+:[0-9][0-9]$/) {
                split(a, parts, ":"); split(b, others, ":")
                return parts[1] * 60 + parts[2] - others[1] * 60 - others[2]
            }
            if (a ~ /-/) {
                n = split(a, parts, "-")
                if (split(b, others, "-") != n)
                    return 0
                for (i = 1; i <= n; i++) { sum += parts[i] - others[i]; differ += parts[i] != others[i] }
                return differ == 1 ? sum : 0
            }
            if (a !~ /^[0-9]+(\.[0-9]+)?$/ || b !~ /^[0-9]+(\.[0-9]+)?$/ || places(a) != places(b))
                return 0
            sub(/\./, "", a); sub(/\./, "", b)
            return a - b
        }
        function places(a) { return a ~ /\./ ? length(a) - index(a, ".") : 0 }
        function days(d,    p, y, m) {
            split(d, p, "-"); y = p[1]; m = p[2] + 0
            if (m < 3) { y--; m += 12 }
            return 365 * y + int(y / 4) - int(y / 100) + int(y / 400) + int((153 * m - 457) / 5) + p[3]
        }
        NR == 1 { kind = $0 }
        NR == 2 { n = split($0, before) }
        NR == 3 { m = split($0, after) }
        END {
            if (kind != "word") { print "line"; exit }
            unit = n == m
            for (i = 1; unit && i <= n; i++)
                if (before[i] != after[i]) {
                    d = apart(before[i], after[i])
                    if (d != 1 && d != -1) { unit = 0; wrong = before[i] " and " after[i] }
                }
            if (unit) { print "unit"; exit }
            for (first = 1; first <= n && first <= m && before[first] == after[first]; first++) ;
            for (; n > first && m > first && before[n] == after[m]; n--) m--
            for (i = first; i <= n; i++) text = text before[i]
            for (i = first; i <= m; i++) text = text after[i]
            print text ~ /[0-9]/ ? "not the least edit: " wrong : "name"
        }' "$folder/edit"
}

# heads PLAN DATE [HOW]: what is found in PLAN, in full and, of a check, as it is shown too (missed floors are listed
# together there), and nothing of where it stands.
heads()
{
    {
        [ "${3:-}" = in-full ] || "$program" check -i --color=never --date "$2" "$1" 2>&1
        "$program" check -i --notes --color=never --date "$2" "$1" 2>&1
    } |
        sed -n 's/^[^ ]*: \(\(error\|warning\|info\): .*\]\)$/\1/p; /^limits are checked once/p' | sort -u
}

# keep PATH DATE: the plan with its edit.
keep()
{
    { echo "# date: $2"; cat "$folder/plan.bell"; } >"$1.bell"
    { cat "$folder/others"; heads "$folder/plan.bell" "$2"; } | sort -u >"$1.allowed"
}

# judge NAME PLAN: one line "NAME SIZE" for each edit of PLAN that holds, "no: ..." for one that does not.
judge()
{
    case $2 in messages/*) how=in-full ;; *) how= ;; esac
    date=$(sed -n 's/^# date: //p' "$2")
    date=${date:-2027-03-01}
    heads "$2" "$date" $how >"$folder/fires"
    grep -qF "[$1]" "$folder/fires" || { echo "no: $2 does not break $1"; return; }
    grep -vF "[$1]" "$folder/fires" | grep -v '^limits are checked' >"$folder/others"
    count=$(grep -c '^ *# quiet' "$2")
    number=0
    while [ "$number" -lt "$count" ]; do
        number=$((number + 1))
        edit "$number" "$2" >"$folder/plan.bell"
        case $2 in
        messages/*) size=mended aside='(athlete-without-camp|weeks-empty)' ;; # a few lines leave people and weeks out
        */sets-under-restricted.bell) size=$(size) aside=region-left-out ;; # the restriction is the edit
        *) size=$(size) aside=nothing ;;
        esac
        heads "$folder/plan.bell" "$date" $how | grep -vE "^info: .*\[$aside\]" >"$folder/quiet"
        if [ "${size#not}" != "$size" ]; then
            echo "no: $2, edit $number: $size"
        elif [ -n "$(comm -13 "$folder/others" "$folder/quiet")" ]; then
            echo "no: $2, edit $number: $(comm -13 "$folder/others" "$folder/quiet")"
        else
            echo "$1 $size"
            [ -z "${KEEP:-}" ] || keep "$KEEP/$(basename "$2" .bell)-$number" "$date"
        fi
    done
}

# name_of PLAN NAMES-FILE: the check that a plan of checks/ is about, the longest name that its own begins with.
name_of()
{
    awk -v plan="$(basename "$1" .bell)" '
        index(plan "-", $0 "-") == 1 && length > length(best) { best = $0 }
        END { print best }' "$2"
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
: >"$folder/pairs"
for plan in checks/*.bell messages/*.bell; do
    base=${plan%.bell}
    case $plan in
    checks/*)
        name=$(name_of "$plan" "$folder/names")
        date=$(sed -n 's/^# date: //p' "$plan")
        (cd checks && "$program" check -i --color=never --date "${date:-2027-03-01}" "${plan#checks/}") \
            >/dev/null 2>"$folder/msg"
        [ -z "${UPDATE:-}" ] || cp "$folder/msg" "$base.msg"
        diff -u "$base.msg" "$folder/msg" >"$folder/diff" 2>&1 ||
            refuse "$base" "another message:
$(cat "$folder/diff")"
        ;;
    messages/*)
        grep -q '^ *# quiet' "$plan" || continue
        name=$(sed -n 's/.*\[\([a-z-]*\)\]$/\1/p' "$base.msg" | head -n 1)
        ;;
    esac
    judge "$name" "$plan" >"$folder/said"
    if [ ! -s "$folder/said" ]; then
        refuse "$base" "no edit after which it is quiet"
    elif grep -q '^no: ' "$folder/said"; then
        refuse "$base" "$(grep '^no: ' "$folder/said")"
    else
        echo "ok $base"
    fi
    cat "$folder/said" >>"$folder/pairs"
done
is "every check is tried at both sides of its border" "" "$(audit "$folder/names" "$folder/pairs")"
is "whatever is wrong with a line is tried, and mended" "" "$(audit_lines "$folder/slips" "$folder/pairs")"

# --- that this can say no ---

printf 'sets-over\nsets-invented\n' >"$folder/invented"
has "a check without a pair is named" "sets-invented: no plan" "$(audit "$folder/invented" "$folder/pairs")"
has "a message without one too" "sets-invented: no plan" "$(audit_lines "$folder/invented" "$folder/pairs")"
printf 'sets-over name\nsets-invented name\n' >"$folder/named"
has "a figure must be tried by one unit" "sets-over: no plan that breaks it by one unit" \
    "$(audit "$folder/invented" "$folder/named")"
sed 's/# quiet: straight A  12 sets/# quiet: straight A  11 sets/' checks/sets-over.bell >"$folder/sets-over.bell"
has "two units are not the least edit" "not the least edit: 13 and 11" "$(judge sets-over "$folder/sets-over.bell")"
sed 's/at most 12/at most 11/' checks/sets-over.bell >"$folder/sets-over.bell"
has "an edit that does not silence" "edit 1: error: Oriel Tamsin: 12 sets" "$(judge sets-over "$folder/sets-over.bell")"
sed 's/at most 12/at most 13/' checks/sets-over.bell >"$folder/sets-over.bell"
has "a plan that breaks nothing" "does not break sets-over" "$(judge sets-over "$folder/sets-over.bell")"
sed "s/# quiet: .*/# quiet: strait A  13 sets rest 1:30/" checks/sets-over.bell >"$folder/sets-over.bell"
has "an edit that cannot be read" "[" "$(judge sets-over "$folder/sets-over.bell")"
sed 's/for     Oriel/for     Orial/' checks/sets-over.bell >"$folder/sets-over.bell"
has "a plan whose limits are not checked" "does not break sets-over" "$(judge sets-over "$folder/sets-over.bell")"

finish
