# forms.awk - writes the forms of kinds.def into the grammar: awk -f forms.awk kinds.def parse.y
#
# For @tokens@ stands one token a form, HEAD_ID; for @heads@ its alternatives: with and without each part in brackets;
# for @steps@ how the line is to be read, STEPS_ID, which is what the PART rows say of the symbols in turn.

FNR == NR {
    if (split($0, quoted, "\"") < 3)
        next
    row = quoted[1]
    sub(/, *$/, "", row)
    if (sub(/^PART\(/, "", row))
        steps_of[row] = quoted[2]
    if (sub(/^FORM\(/, "", row)) {
        ids[++count] = row
        parts[count] = quoted[2]
    }
    next
}

FNR == 1 {
    for (i = 1; i <= count; i++) {
        tokens = tokens " HEAD_" ids[i]
        steps = steps "#define STEPS_" ids[i] " \"" steps_in(parts[i]) "\"\n"
        expand(ids[i], parts[i])
    }
    place(1)
}

/^@tokens@/ { print "%token <int>" tokens; place(FNR + 1); next }
/^@heads@/ { printf "%s", heads; place(FNR + 1); next }
/^@steps@/ { printf "%s", steps; next }
{ print }

function place(line) {
    printf "#line %d \"%s\"\n", line, FILENAME
}

function fail(why) {
    print "forms.awk: " why > "/dev/stderr"
    exit 1
}

function steps_in(form,    all, word, n, i) {
    gsub(/[][]/, " ", form)
    n = split(form, word, " ")
    for (i = 1; i <= n; i++) {
        if (!(word[i] in steps_of))
            fail("no PART says how " word[i] " is read")
        all = all steps_of[word[i]]
    }
    return all
}

# One alternative for each choice of what the brackets in FORM hold.
function expand(id, form,    open, end, depth) {
    open = index(form, "[")
    if (!open) {
        add_head(id, form)
        return
    }
    depth = 1
    for (end = open + 1; depth > 0; end++)
        depth += (substr(form, end, 1) == "[") - (substr(form, end, 1) == "]")
    expand(id, substr(form, 1, open - 1) substr(form, end))
    expand(id, substr(form, 1, open - 1) substr(form, open + 1, end - open - 2) substr(form, end))
}

# Each symbol but the colon has nodes, which are the statement's children.
function add_head(id, form,    word, n, i, symbols, action) {
    sub(/^!/, "", form)
    n = split(form, word, " ")
    for (i = 1; i <= n; i++) {
        if (word[i] != ":")
            action = action " adopt($$, $" i + 1 ");"
        symbols = symbols (word[i] == ":" ? " \":\"" : " " word[i])
    }
    heads = heads "  | HEAD_" id symbols "\n    { $$ = reader_statement(reader, $1, @$);" action " }\n"
}
