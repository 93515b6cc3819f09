# usage: awk -v survivors=FILE -f tests/mutants/table.awk EQUIVALENT ALL CHOSEN RESULTS
#
# The table of tests/mutants/run. EQUIVALENT has names of mutants, and below them, indented, why nobody can tell them from
# what is written. ALL has number, sum and name, file and line of every mutant, CHOSEN the first two of those that were to be
# tried, RESULTS what became of them. Survivors that nothing explains go to the file FILE.
BEGIN { FS = "\t" }

# A name without the sum of its file.
function bare(name) { sub(/^[0-9]+ /, "", name); return name }

function room_of(file,    parts) { split(file, parts, "/"); return parts[2] }

function share(killed, all) { return all ? sprintf("%.1f %%", int(1000 * killed / all) / 10) : "-" }

FILENAME == ARGV[1] {
    if ($0 ~ /^src\//) { explained[$0] = 1; open[$0] = 1 }
    else if ($0 ~ /^ +[^ ]/) { for (name in open) delete open[name] }
    next
}
FILENAME == ARGV[2] {
    all[room_of($3)]++; name = bare($2); exists[name] = 1; file[$2] = $3; line[$2] = $4
    next
}
FILENAME == ARGV[3] { chosen[$2] = 1; next }
$2 in chosen { became[$2] = $1; by[$2] = $3 }

END {
    printf "" >survivors
    for (name in chosen) {
        what = became[name]
        room = room_of(file[name])
        if (what == "") continue
        tried[room]++
        if (what == "killed") {
            killed[room]++
            if (bare(name) in explained) wrong = wrong "\nkilled, and explained: " bare(name)
        } else if (bare(name) in explained) {
            same[room]++
        } else {
            left[room]++
            unreached[room] += what == "unreached"
            print file[name] ":" line[name] "\t" what "\t" bare(name) | ("sort -t: -k1,1 -k2,2n >" survivors)
        }
    }
    for (name in explained) if (!(name in exists)) wrong = wrong "\nexplained, and no mutant: " name
    for (name in open) wrong = wrong "\nnamed without a word on why: " name
    row = "| %-8s | %7s | %6s | %6s | %10s | %8s | %9s | %8s |\n"
    printf row, "room", "mutants", "tried", "killed", "equivalent", "survived", "unreached", "noticed"
    gsub(/%-?[0-9]*s/, "---", row)
    printf "%s", row
    row = "| %-8s | %7d | %6d | %6d | %10d | %8d | %9d | %8s |\n"
    rooms = split("figures rules limits measure room done amend", order, " ")
    for (i = 1; i <= rooms; i++) {
        room = order[i]
        if (!tried[room]) continue
        printf row, room, all[room], tried[room], killed[room], same[room], left[room], unreached[room],
            share(killed[room], tried[room] - same[room])
        if ((room == "rules" || room == "figures") && killed[room] < 0.95 * (tried[room] - same[room]))
            wrong = wrong "\nless than 95 % are noticed in " room
        sums[1] += all[room]; sums[2] += tried[room]; sums[3] += killed[room]; sums[4] += same[room]
        sums[5] += left[room]; sums[6] += unreached[room]
    }
    printf row, "all", sums[1], sums[2], sums[3], sums[4], sums[5], sums[6], share(sums[3], sums[2] - sums[4])
    if (wrong != "") print substr(wrong, 2)
    exit wrong != "" || !sums[2]
}
