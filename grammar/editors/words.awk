# words.awk - puts the language's words into an editor's file: awk -f words.awk kinds.def words.def TEMPLATE
#
# For @STYLE GROUP@ in the template stand the phrases of a group, the longest first, so that the first that fits is
# meant. Styles: regex, alternatives within a JSON text; vim and lisp, quoted items over several lines.
#
# Groups of statements, by what stands behind their words:
#   declarations   stand at a line's start
#   texts          words for people
#   colons         a name or a place, a colon, values
#   placed         a day of the week
#   names          names and nothing else
#   named          names, with dates and the like
#   values         values
#   openers        all whose line is usually followed by lines that belong to them
# Groups of words in values: units, sides, words; and those that end a name: joints (dates, reasons), turns (of days),
# bounds (of limits).

FNR == 1 { file++ }

file == 1 && /^FORM\(/ {
    split($0, quoted, "\"")
    parts[id_of($0)] = quoted[2]
}
file == 1 && /^STATEMENT\(/ { sort_statement() }
file == 2 && /^WORD\(/ { sort_word() }
file == 3 {
    while (match($0, /@(regex|vim|lisp) [a-z]+@/)) {
        split(substr($0, RSTART + 1, RLENGTH - 2), asked, " ")
        $0 = substr($0, 1, RSTART - 1) written(asked[1], asked[2]) substr($0, RSTART + RLENGTH)
    }
    print
}

function id_of(row) {
    sub(/^[A-Z]*\(/, "", row)
    sub(/,.*/, "", row)
    return row
}

function sort_statement(    quoted, columns, form, opens, group) {
    split($0, quoted, "\"")
    split(quoted[3], columns, ", *")
    form = columns[3]
    opens = columns[4]
    sub(/\).*/, "", opens)
    if (opens != "NOTHING" && opens !~ /^IN_(PLACE|ITEM|FAULT|BOUT|RESULT|REASON|STEP_YOUNG|LIMIT)$/)
        add("openers", quoted[2])
    if (columns[2] ~ /IN_FILE/) {
        add("declarations", quoted[2])
        return
    }
    if (parts[form] == "TEXT")
        group = "texts"
    else if (form == "PLACE")
        group = "placed"
    else if (parts[form] ~ /^(NAME|names)$/)
        group = "names"
    else if (parts[form] == "" || parts[form] ~ /dose|value|kit|figures|shares|factor|bound|when|length|clock|piece/)
        group = "values"
    else
        group = "named"
    if (parts[form] ~ / :/ || parts[form] ~ /\[:/) {
        add("colons", quoted[2])
        group = "named"
    }
    if (group != "placed" || parts[form] != "")
        add(group, quoted[2])
}

function sort_word(    quoted, token, where) {
    split($0, quoted, "\"")
    token = id_of($0)
    where = quoted[3]
    if (token == "MEASURE")
        add("units", quoted[2])
    else if (token == "SIDE")
        add("sides", quoted[2])
    else if (token !~ /^DAY$/)
        add("words", quoted[2])
    else
        add("placed", quoted[2])
    if (where ~ /IN_NAMED|IN_WEEKS|IN_LENGTH/)
        add("joints", quoted[2])
    if (where ~ /IN_PLACED/ || token == "BY_WEEKS")
        add("turns", quoted[2])
    if (token ~ /^(AT_MOST|AT_LEAST|WITHIN|NONE)$/)
        add("bounds", quoted[2])
}

# Puts PHRASES into a group, behind those that are as long.
function add(group, phrases,    each, n, i, k) {
    n = split(phrases, each, "|")
    for (i = 1; i <= n; i++) {
        if (each[i] == "" || each[i] == "#" || (group, each[i]) in held)
            continue
        held[group, each[i]] = 1
        for (k = ++count[group]; k > 1 && length(item[group, k - 1]) < length(each[i]); k--)
            item[group, k] = item[group, k - 1]
        item[group, k] = each[i]
    }
}

function written(style, group,    all, line, piece, i) {
    if (!count[group]) {
        print "words.awk: there is no group " group > "/dev/stderr"
        exit 1
    }
    for (i = 1; i <= count[group]; i++) {
        piece = item[group, i]
        if (style == "regex") {
            gsub(/ /, " +", piece)
            all = all (i > 1 ? "|" : "") piece
            continue
        }
        piece = style == "vim" ? "'" piece "'" (i < count[group] ? ", " : "") : "\"" piece "\"" (i < count[group] ? " " : "")
        if (length(line piece) > 100) {
            sub(/ $/, "", line)
            all = all line "\n" (style == "vim" ? "      \\ " : "    ")
            line = ""
        }
        line = line piece
    }
    return all line
}
