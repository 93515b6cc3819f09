# usage: awk -v folder=FOLDER -f edits.awk ROWS
#
# ROWS has "NAME PLAN" a line. Writes each plan with each of its edits made (checks.sh says what they look like) into FOLDER.
# Prints a line for each plan and edit: its number, from 0 for the plan as it stands; NAME; PLAN; today; the file to be
# checked; how large the edit is: "unit", "name", "line", "mended", or what is wrong with it.

# Units of the last place that lie between two figures: 2027-03-01, 1:30, 17:30, 82.5%, 3-0-1-0. 0 where they are no such two.
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

# How far two lines differ that stand in one place.
function size(one, other,    before, after, n, m, i, d, unit, wrong, first, text) {
    n = split(one, before)
    m = split(other, after)
    unit = n == m
    for (i = 1; unit && i <= n; i++)
        if (before[i] != after[i]) {
            d = apart(before[i], after[i])
            if (d != 1 && d != -1) { unit = 0; wrong = before[i] " and " after[i] }
        }
    if (unit)
        return "unit"
    for (first = 1; first <= n && first <= m && before[first] == after[first]; first++) ;
    for (; n > first && m > first && before[n] == after[m]; n--) m--
    for (i = first; i <= n; i++) text = text before[i]
    for (i = first; i <= m; i++) text = text after[i]
    return text ~ /[0-9]/ ? "not the least edit: " wrong : "name"
}

# Writes the plan to FILE with the edit on line I made; returns its size.
function edit(i, file,    text, indent, above, at, put, result, k) {
    text = indent = lines[i]
    sub(/#.*/, "", indent)
    sub(/^ *# quiet[^:]*:? */, "", text)
    for (above = i - 1; lines[above] ~ /^ *# quiet/; above--) ;
    result = "line"
    if (lines[i] ~ /# quiet without/) { at = above; put = "#" }
    else if (lines[i] ~ /# quiet with:/) { at = i; put = indent text }
    else if (lines[i] ~ /# quiet:/) { at = above; put = indent text; result = size(lines[above], put) }
    else return "not an edit: " lines[i]
    for (k = 1; k <= count; k++)
        print k == at ? put : lines[k] > file
    close(file)
    return result
}

{
    name = $1; plan = $2; count = number = 0; date = "2027-03-01"
    while ((getline line < plan) > 0) {
        lines[++count] = line
        if (line ~ /^# date: /)
            date = substr(line, 9)
    }
    close(plan)
    print number, name, plan, date, plan, "whole"
    for (i = 1; i <= count; i++)
        if (lines[i] ~ /^ *# quiet/) {
            file = folder "/" ++files ".bell"
            large = edit(i, file)
            print ++number, name, plan, date, file, plan ~ /^messages\// && large !~ /^not an/ ? "mended" : large
        }
}
