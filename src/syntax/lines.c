#include "syntax/lines.h"

#include <ctype.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "syntax/line.h"

enum { DEEPEST = 12, MOST_FAULTS = 1000 };

/* One step of indentation that is open. */
struct indent_level {
    uint32_t start, length; /* the white space that its lines start with */
    int place;              /* what its lines belong to */
    const struct statement *fallback; /* a line without keyword, or NULL */
    int opens;              /* what lines below its last statement belong to */
    enum node_kind last;    /* that statement */
    struct span last_span;
};

struct lines {
    struct scan scan;
    struct line line; /* the one being read */
    struct indent_level levels[DEEPEST];
    int depth;
    uint32_t line_start;
    bool more;                 /* lines are left to scan */
    size_t found;              /* findings before this file's */
    bool cut;                  /* too many of its lines could not be read */
    bool settled;              /* the line's indentation is dealt with, its statement not yet */
    bool blank;                /* blank lines stand above the line being read */
    bool skipping;             /* dropping a block below a line that could not be read */
    uint32_t skip_deeper_than; /* in bytes of indentation */
};

static char small(char c)
{
    return c >= 'A' && c <= 'Z' ? (char)(c + ('a' - 'A')) : c;
}

static bool same_letters(const char *a, const char *b, size_t length)
{
    if (memcmp(a, b, length) == 0)
        return true;
    for (size_t i = 0; i < length; i++)
        if (small(a[i]) != small(b[i]))
            return false;
    return true;
}

size_t line_spells(const struct line *line, size_t at, const struct phrase *phrase)
{
    const char *word = phrase->words, *end = word + phrase->length;
    size_t length = phrase->head;
    for (size_t taken = 0; at + taken < line->count; length = strcspn(++word, " |>")) {
        const struct raw_token *token = &line->tokens[at + taken];
        if (token->end - token->start != length || !same_letters(line->text + token->start, word, length))
            return 0;
        taken++;
        word += length;
        if (word == end)
            return taken;
    }
    return 0;
}

bool line_prints_ref(const struct line *line, size_t at)
{
    size_t length;
    const char *text = at < line->count ? line_text(line, at, &length) : "";
    if (*text < 'A' || *text > 'Z' || length < 2)
        return false;
    for (size_t i = 1; i < length; i++)
        if (!isdigit((unsigned char)text[i]))
            return false;
    return true;
}

bool line_has(const struct line *line, enum raw_kind kind)
{
    for (size_t i = line->at; i < line->count; i++)
        if (line->tokens[i].kind == kind)
            return true;
    return false;
}

void line_grow(struct line *line)
{
    size_t count = (size_t)(line->made_end - line->made), room = count;
    line->made = arena_grow(line->lines->scan.arena, line->made, count, &room, sizeof *line->made);
    line->made_end = line->made + count;
    line->made_limit = line->made + room;
}

/* --- indentation --- */

static struct indent_level *top(struct lines *lines)
{
    return &lines->levels[lines->depth - 1];
}

static bool same_bytes(const struct lines *lines, uint32_t a, uint32_t b, uint32_t length)
{
    const char *text = lines->line.reader->source->text;
    return memcmp(text + a, text + b, length) == 0;
}

static struct span indent_span(const struct lines *lines, uint32_t end)
{
    return (struct span){lines->line.reader->tree->file, lines->line_start, end};
}

static void push_structure(struct lines *lines, int token)
{
    const struct line *line = &lines->line;
    uint32_t at = line->count ? line->tokens[0].start : (uint32_t)line->reader->source->length;
    line_push(&lines->line, token, (PLAN_STYPE){0}, (struct extent){at, at});
}

static void skip_block(struct lines *lines, uint32_t deeper_than)
{
    lines->skipping = true;
    lines->skip_deeper_than = deeper_than;
}

/* Leaves a mark in the tree for a line that is not read and that was meant as a statement of KIND (0: not known). */
static void push_broken(struct lines *lines, int kind)
{
    struct line *line = &lines->line;
    struct extent place = line_place(line, 0, line->count);
    line_push(line, T_BROKEN, (PLAN_STYPE){.T_BROKEN = kind}, place);
    line_push(line, T_NEWLINE, (PLAN_STYPE){0}, (struct extent){place.end, place.end});
}

/* Opens a level for a line that is indented deeper. Returns false when its block is dropped. */
static bool open_level(struct lines *lines, uint32_t length)
{
    struct indent_level *level = top(lines);
    struct line *line = &lines->line;
    struct diag *diag = line->reader->diag;
    if (level->opens == SKIPPED) {
        skip_block(lines, level->length);
        return false;
    }
    if (level->opens == NOTHING || lines->depth == DEEPEST) {
        struct finding *finding =
            diag_error(diag, DIAG_UNEXPECTED_INDENT, line_span(line, 0, line->count),
                       lines->depth == DEEPEST ? "this is nested too deeply"
                                               : "nothing can be indented below the line above");
        if (lines->depth < DEEPEST && level->last_span.end)
            diag_note(diag, finding, level->last_span, "this line takes nothing below it");
        push_broken(lines, 0);
        skip_block(lines, level->length);
        return false;
    }
    int place = level->opens;
    lines->levels[lines->depth++] =
        (struct indent_level){.start = lines->line_start, .length = length, .place = place,
                              .fallback = phrasebook_default(line->reader->phrases, place)};
    push_structure(lines, T_INDENT);
    return true;
}

/* A line whose white space starts differently from that of LEVEL: columns cannot be compared. */
static void report_mixed(struct lines *lines, struct indent_level *level, uint32_t length)
{
    struct diag *diag = lines->line.reader->diag;
    struct finding *finding =
        diag_error(diag, DIAG_MIXED_INDENTATION, indent_span(lines, lines->line_start + length),
                   "this line and the one it should line up with start with different white space");
    diag_note(diag, finding, (struct span){lines->line.reader->tree->file, level->start,
                                           level->start + (level->length ? level->length : 1)},
              "that line starts differently");
    diag_help(diag, finding, "indent both with four spaces a step");
}

/* Brings the levels in line with the indentation of LENGTH bytes. Returns false when the line is dropped. */
static bool settle_indent(struct lines *lines, uint32_t length)
{
    while (lines->depth > 1 && top(lines)->length > length) {
        lines->depth--;
        push_structure(lines, T_DEDENT);
    }
    struct indent_level *level = top(lines);
    if (!same_bytes(lines, level->start, lines->line_start, level->length)) {
        report_mixed(lines, level, length);
        push_broken(lines, 0);
        level->opens = SKIPPED;
        skip_block(lines, level->length);
        return false;
    }
    if (length == level->length)
        return true;
    if (level->last == NODE_FILE && lines->depth == 1) {
        /* It is read all the same, as a line that is not indented. */
        diag_error(lines->line.reader->diag, DIAG_UNEXPECTED_INDENT, line_span(&lines->line, 0, lines->line.count),
                   "the first line of a plan is not indented");
        return true;
    }
    return open_level(lines, length);
}

static void report_wrong_column(struct lines *lines, uint32_t length, int below)
{
    struct diag *diag = lines->line.reader->diag;
    struct finding *finding =
        diag_error(diag, DIAG_BAD_INDENTATION, indent_span(lines, lines->line_start + length),
                   "this line starts at column %u, and no block above does", length + 1);
    diag_help(diag, finding, "start it at column %u or %u, like the lines it belongs to",
              lines->levels[below].length + 1, lines->levels[below + 1].length + 1);
}

/* A line that comes back to a column at which no open block starts: it could belong to either of two, and is not
 * read. */
static bool comes_back_wrong(struct lines *lines, uint32_t length)
{
    if (lines->depth < 2 || length >= top(lines)->length)
        return false;
    int below = 0;
    while (below + 1 < lines->depth && lines->levels[below + 1].length <= length)
        below++;
    if (lines->levels[below].length == length)
        return false;
    struct indent_level *above = &lines->levels[below + 1];
    if (same_bytes(lines, above->start, lines->line_start, length))
        report_wrong_column(lines, length, below);
    else
        report_mixed(lines, above, length);
    while (lines->depth > below + 1) {
        lines->depth--;
        push_structure(lines, T_DEDENT);
    }
    push_broken(lines, 0);
    top(lines)->opens = SKIPPED;
    skip_block(lines, top(lines)->length);
    return true;
}

/* --- lines --- */

static void read_statement(struct lines *lines)
{
    struct line *line = &lines->line;
    struct indent_level *level = top(lines);
    size_t taken;
    bool blank = lines->blank;
    lines->settled = lines->blank = false;
    line->at = 0;
    line->reported = line->reader->failed = false;
    line->abandoned = false;
    const struct statement *statement = line_statement(line, level->place, level->fallback, &taken);
    level->last_span = line_span(line, 0, line->count);
    if (!statement) {
        statement = line_report_unknown(line, level->place, &taken);
        line->reader->failed = true; /* one report a line */
    }
    if (!statement) {
        push_broken(lines, 0);
        level->opens = SKIPPED;
        level->last = STATEMENT_END;
        return;
    }
    level->opens = statement->opens;
    level->last = statement->kind;
    line->reader->statement = statement->kind;
    line->reader->blank_before = blank;
    struct extent head = line_place(line, 0, taken);
    if (!taken)
        head.end = head.start;
    line->reader->head = head;
    line_push(line, statement->form->token, (PLAN_STYPE){.T_HEAD_BARE = (int)statement->kind}, head);
    line->at = taken;
    line_values(line, statement->form, 0);
    uint32_t end = line->tokens[line->count - 1].end;
    line_push(line, T_NEWLINE, (PLAN_STYPE){0}, (struct extent){end, end});
}

static void settle_line(struct lines *lines)
{
    uint32_t indent = lines->line.tokens[0].start - lines->line_start;
    if (lines->skipping && indent <= lines->skip_deeper_than)
        lines->skipping = false;
    lines->settled = !lines->skipping && !comes_back_wrong(lines, indent) && settle_indent(lines, indent);
    if (!lines->settled)
        lines->blank = false;
}

static void add_comment(struct lines *lines, const struct raw_token *token, bool own_line)
{
    struct tree *tree = lines->line.reader->tree;
    tree->comments = arena_grow(tree->arena, tree->comments, tree->comment_count, &tree->comment_capacity,
                                sizeof *tree->comments);
    tree->comments[tree->comment_count++] =
        (struct comment){.span = {tree->file, token->start, token->end}, .own_line = own_line,
                         .blank_before = own_line && lines->blank};
    if (own_line)
        lines->blank = false;
}

static void end_file(struct lines *lines)
{
    struct line *line = &lines->line;
    line->count = 0;
    while (lines->depth > 1) {
        lines->depth--;
        push_structure(lines, T_DEDENT);
    }
    push_structure(lines, T_YYEOF);
    line->last = true;
}

/* Takes the next line from the scanner. */
static void next_line(struct lines *lines)
{
    struct line *line = &lines->line;
    struct scan *scan = &lines->scan;
    lines->line_start = scan->next;
    lines->more = scan_line(scan);
    line->tokens = scan->tokens;
    line->count = scan->count;
    if (line->count && line->tokens[line->count - 1].kind == RAW_COMMENT) {
        line->count--;
        add_comment(lines, &line->tokens[line->count], line->count == 0);
    }
    if (line->count)
        settle_line(lines);
    else if (scan->count == 0 && lines->more)
        lines->blank = true;
}

/* Are there so many faults that the rest, if there is any, is skipped? A file of another kind has one in each line. */
static bool is_hopeless(struct lines *lines)
{
    struct diag *diag = lines->line.reader->diag;
    if (diag->count - lines->found < MOST_FAULTS || !lines->line.text[lines->scan.next])
        return false;
    struct span span = {lines->line.file, lines->scan.next, lines->scan.next};
    diag_error(diag, DIAG_TOO_MANY_FAULTS, span, "%d lines above cannot be read, so the rest of this file is skipped",
               MOST_FAULTS);
    lines->cut = true;
    lines->more = false;
    return true;
}

/* The grammar gets a change of indentation before the statement is looked at; that decides what messages say. */
void line_make(struct line *line)
{
    struct lines *lines = line->lines;
    line->made_end = line->made;
    while (line->made_end == line->made) {
        if (lines->settled)
            read_statement(lines);
        else if (lines->more && !is_hopeless(lines))
            next_line(lines);
        else
            end_file(lines);
    }
    line->given = line->made;
}

void read_lines(struct reader *reader, struct extent place)
{
    struct lines lines = {.line = {.reader = reader, .lines = &lines, .text = reader->source->text,
                                   .file = reader->tree->file},
                          .depth = 1, .more = true, .found = reader->diag->count};
    struct line *line = reader->line = &lines.line;
    lines.levels[0] = (struct indent_level){.place = IN_FILE, .fallback = phrasebook_default(reader->phrases, IN_FILE)};
    struct arena *scratch = arena_beside(reader->tree->arena);
    scan_open(&lines.scan, scratch, reader->source->text, place);
    line->odd_spaces = lines.scan.odd_spaces;
    /* A line that is nested too deeply ends the grammar's work early; it continues with what is left. */
    do
        plan_parse(reader);
    while (!line->last || line->given < line->made_end);
    if (lines.cut)
        node_add(reader->tree->root, node_new(reader->tree, NODE_BROKEN, (struct extent){0, 0}));
    scan_close(&lines.scan);
    arena_free(scratch);
}
