# usage: awk -v said=FOLDER -v pairs=FILE -v keep=FOLDER -f judge.awk EDITS
#
# EDITS is what edits.awk has printed, and FOLDER/N.shown and FOLDER/N.notes what `check` says of the file on line N, as it is
# shown and in full. Prints a line for each plan: how it is called, and where one of its edits does not hold, a tab and why.
# Writes "NAME SIZE" to FILE for each edit that holds, and its plan into KEEP, if that is given, beside all that may still be
# found in it (FOLDER/N.too, as it is shown, of a plan that is judged in full only).

# What is found, and nothing of where it stands, as keys of FOUND.
function read_heads(file, found,    line) {
    while ((getline line < file) > 0) {
        if (line ~ /^[^ ]*: (error|warning|info): .*\]$/) {
            sub(/^[^ ]*: /, "", line)
            found[line]
        } else if (line ~ /^(limits|the limits of .*) are checked once/)
            found[line]
    }
    close(file)
}

function end_plan() {
    if (base != "")
        print base (why != "" ? "\t" why : edits ? "" : "\tno edit after which it is quiet")
}

# A few lines leave people and weeks out; of one plan the restriction is the edit.
function is_aside(head) {
    if (plan ~ /^messages\//)
        return head ~ /^info: .*\[(athlete-without-camp|weeks-empty)\]/
    return plan ~ /\/sets-under-restricted\.bell$/ && head ~ /^info: .*\[region-left-out\]/
}

function begin_plan(    head, fires) {
    end_plan()
    base = plan = $3
    sub(/\.bell$/, "", base)
    edits = 0
    why = plan " does not break " $2
    split("", others)
    for (head in heads) {
        if (index(head, "[" $2 "]"))
            why = ""
        else if (head !~ /^(limits|the limits of .*) are checked once/)
            others[head]
    }
    broken = why == ""
}

function name_of(path) {
    sub(/.*\//, "", path)
    return path
}

# Keeps the plan of the edit as PATH.bell, and what it may say as PATH.allowed.
function keep_edit(path,    line, head, sorted) {
    print "# date: " $4 > (path ".bell")
    while ((getline line < $5) > 0)
        print line > (path ".bell")
    close($5)
    close(path ".bell")
    read_heads(said "/" NR ".too", heads)
    for (head in others)
        heads[head]
    sorted = "sort -u >'" path ".allowed'"
    printf "" | sorted
    for (head in heads)
        print head | sorted
    close(sorted)
}

{
    split("", heads)
    read_heads(said "/" NR ".shown", heads)
    read_heads(said "/" NR ".notes", heads)
    large = $6
    for (i = 7; i <= NF; i++)
        large = large " " $i
}

$1 == 0 { begin_plan(); next }

broken {
    edits++
    wrong = large ~ /^not / ? large : ""
    for (head in heads)
        if (wrong == "" && !(head in others) && !is_aside(head))
            wrong = head
    if (wrong == "") {
        print $2, large > pairs
        if (keep != "")
            keep_edit(keep "/" name_of(base) "-" $1)
    } else if (why == "")
        why = plan ", edit " $1 ": " wrong
}

END { end_plan() }
