#!/bin/sh
# usage: BELLSHEET=build/bellsheet tests/golden/forms.sh
#
# Every statement beside every form of value, right and wrong: forms/NAME.bell is a plan in which the lines from `# each VALUES:
# TITLE` to the next blank line are repeated for each line of forms/VALUES.values, with that line in place of %v and its number in
# place of %n. forms/NAME.msg says, title by title, what `bellsheet check` finds: the column, the message, and behind `<-` the
# values that it says it of; last, those of which it finds nothing. A finding in a line that does not come from a value stands
# under `elsewhere`. A line `# date: DAY` sets today. UPDATE=1 writes the .msg files anew: read each line against the notation
# before you keep it.
set -u

. tests/house/ok.sh
: "${BELLSHEET:=build/bellsheet}"
program=$(realpath "$BELLSHEET")
cd tests/golden || exit 2
folder=$(mktemp -d)
: >"$folder/unread"
trap 'rm -rf "$folder"' EXIT
cp -r messages/club "$folder"

# A file with more faults than this program lists is not read to its end, so a template makes a plan of every so many titles.
titles=6

# grown TEMPLATE SHARE: the plan that its SHAREth few titles stand for; "LINE title value number", parted by tabs, of each line
# that comes from a value, into $folder/from. Fails where there is no such share.
grown()
{
    awk -v from="$folder/from" -v share="$2" -v titles="$titles" '
        function put(text) { print text; line++ }
        function end(    i, j, at, text) {
            for (i = 1; i <= values; i++)
                for (j = 1; j <= lines; j++) {
                    text = part[j]
                    while (at = index(text, "%v"))
                        text = substr(text, 1, at - 1) value[i] substr(text, at + 2)
                    gsub(/%n/, i, text)
                    put(text)
                    print line "\t" title "\t" value[i] "\t" i >from
                }
            values = lines = 0
        }
        /^# each / {
            file = $3
            sub(/:$/, "", file)
            title = substr($0, index($0, ": ") + 2)
            left_out = count < share * titles || count >= share * titles + titles
            count++
            while (!left_out && (getline text < ("forms/" file ".values")) > 0)
                value[++values] = text
            close("forms/" file ".values")
            next
        }
        /^$/ { end(); left_out = 0; next }
        left_out { next }
        { if (values) part[++lines] = $0; else put($0) }
        END { end(); exit share * titles >= count }' "$1"
}

# told: what is said on standard input, gathered.
told()
{
    awk -F '\t' -v from="$folder/from" '
        BEGIN {
            while ((getline < from) > 0) {
                title[$1] = $2
                value[$1] = $3
                number[$1] = $4
                if (!($2 in seen)) {
                    seen[$2]
                    order[++titles] = $2
                }
                if (!(($2, $3) in had)) {
                    had[$2, $3]
                    all[$2] = all[$2] " " $4
                    by_number[$2, $4] = $3
                }
            }
            order[++titles] = "elsewhere"
        }
        # in_short TEXT ROW: quoted from its value is %v, or %p for a part of it, and its number %n: what is said of many is
        # written once.
        function in_short(text, row,    done, quote, n) {
            while (match(text, /`[^`]*`/)) {
                quote = substr(text, RSTART + 1, RLENGTH - 2)
                n = length(quote) - length(number[row])
                if (quote == value[row])
                    quote = "%v"
                else if (quote != "" && index(value[row], quote))
                    quote = "%p"
                else if (n > 0 && substr(quote, n + 1) == number[row] && substr(quote, n, 1) ~ /[A-Za-z ]/)
                    quote = substr(quote, 1, n) "%n"
                done = done substr(text, 1, RSTART) quote "`"
                text = substr(text, RSTART + RLENGTH)
            }
            return done text
        }
        # listed NUMBERS: the values that these are of, or more than four of them by their lines in the file of values.
        function listed(numbers, of,    n, i, from, text, id) {
            n = split(numbers, id, " ")
            if (n <= 4) {
                for (i = 1; i <= n; i++)
                    text = text (i > 1 ? " | " : "") by_number[of, id[i]]
                return text
            }
            for (i = 1; i <= n; i++) {
                from = id[i]
                while (i < n && id[i + 1] == id[i] + 1)
                    i++
                text = text (text == "" ? "lines " : ", ") from (from == id[i] ? "" : "-" id[i])
            }
            return text
        }
        /^plan\.bell:[0-9]+:[0-9]+: (error|warning|info): / {
            split($0, place, ":")
            text = substr($0, length(place[1] place[2]) + 3)
            row = place[2]
            if (row in value)
                text = in_short(text, row)
            of = row in title ? title[row] : "elsewhere"
            if (row in value)
                spoken[of, number[row]]
            key = of SUBSEP text
            if (!(key in who)) {
                what[of] = what[of] "\n" text
                who[key] = ""
            }
            if (!((key, number[row]) in counted))
                who[key] = who[key] " " (row in value ? number[row] : row)
            counted[key, number[row]]
        }
        END {
            for (i = 1; i <= titles; i++) {
                of = order[i]
                if (of == "elsewhere" && !(of in what))
                    continue
                print of
                n = split(what[of], texts, "\n")
                for (j = 2; j <= n; j++)
                    print "    " texts[j] (of == "elsewhere" ? "" : " <- " listed(who[of, texts[j]], of))
                n = split(all[of], numbers, " ")
                fine = ""
                for (j = 1; j <= n; j++)
                    if (!((of, numbers[j]) in spoken))
                        fine = fine " " numbers[j]
                if (of != "elsewhere")
                    print "    fine: " listed(fine, of)
            }
        }'
}

for template in forms/*.bell; do
    name=${template#forms/}
    name=${name%.bell}
    date=$(sed -n '/^# date: /{s///p;q}' "$template")
    : >"$folder/told"
    share=0
    while grown "$template" "$share" >"$folder/plan.bell"; do
        (cd "$folder" && "$program" check -i --notes --color=never --date "${date:-2027-03-01}" plan.bell) >"$folder/out" 2>"$folder/said"
        echo $? >>"$folder/status"
        told <"$folder/said" >>"$folder/told"
        grep 'too-many-faults' "$folder/said" >>"$folder/unread"
        share=$((share + 1))
    done
    [ -z "${UPDATE:-}" ] || cp "$folder/told" "forms/$name.msg"
    if cmp -s "forms/$name.msg" "$folder/told"; then
        echo "ok $name"
    else
        refuse "$name" "another message:
$(diff -u "forms/$name.msg" "$folder/told" 2>&1)"
    fi
done
is "every plan has errors" 1 "$(sort -u "$folder/status")"
is "and was read to its end" "" "$(cat "$folder/unread" 2>&1)"
finish
