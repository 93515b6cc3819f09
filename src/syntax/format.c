#include "syntax/format.h"

#include <limits.h>
#include <string.h>

#include "parse.h"
#include "syntax/format_values.h"
#include "syntax/phrases.h"

enum { STEP = 4, LONGEST_ALIGNED = 32, DECLARATION_COLUMN = 10 };

/* A statement of the file, in the order written. */
struct format_row {
    const struct node *node;
    int depth;
    unsigned column; /* at which the colons, or the bounds, of its block stand */
};

/* Where a comment belongs: before ROW at DEPTH, or at the end of ROW's line. */
struct spot {
    size_t row;
    int depth;
};

struct layout {
    struct arena *arena;
    const struct phrasebook *phrases;
    const struct source *source;
    const struct tree *tree;
    struct format_row *rows;
    size_t count, capacity;
    struct spot *spots; /* one a comment */
};

/* --- one statement --- */

/* What stands between a statement's head and the rest of its line. */
enum seam {
    SEAM_NONE,
    SEAM_KEYWORD, /* the rest starts in a column that the block's kind settles */
    SEAM_DAYS,    /* the same, of a day */
    SEAM_LETTER,  /* two spaces, after a block's letter */
    SEAM_COLON,   /* a colon, in line with its neighbours' */
    SEAM_BOUND    /* two spaces and more, in line with its neighbours */
};

struct halves {
    struct text head; /* in the C library's memory: only the command line formats */
    enum seam seam;
    const struct node *rest; /* its first value, or NULL */
};

static const struct node *first_statement(const struct node *parent)
{
    const struct node *child = parent->first;
    while (child && !node_is_statement(child))
        child = child->next;
    return child;
}

static bool ends_head(const struct node *value)
{
    return node_is_statement(value) || value->kind == NODE_DOSE || value->kind == NODE_INTERVALS ||
           value->kind == NODE_LOGGED_SETS || value->kind == NODE_WHEN || value->kind == NODE_SHARE;
}

/* `for novice`, `filler hip switch`, `strength`: names in front of a colon. */
static void split_at_colon(struct halves *halves, const struct node *node, const char *phrases)
{
    const struct node *rest = node->first;
    while (rest && !ends_head(rest))
        rest = rest->next;
    format_spelling(&halves->head, phrases);
    if (*phrases)
        text_add_char(&halves->head, ' ');
    format_values(&halves->head, node->first, rest);
    halves->seam = SEAM_COLON;
    halves->rest = rest;
}

static void split_round(struct halves *halves, const struct node *node, const char *phrases)
{
    const struct node *name = node->first->next;
    format_spelling(&halves->head, phrases);
    text_add_char(&halves->head, ' ');
    format_value(&halves->head, node->first);
    text_add(&halves->head, " : ");
    format_value(&halves->head, name);
    halves->seam = SEAM_COLON;
    halves->rest = name->next;
}

static void split_block(struct halves *halves, const struct node *node, const char *phrases)
{
    const struct node *letter = node_find(node, NODE_LETTER);
    format_spelling(&halves->head, phrases);
    if (letter) {
        text_add_char(&halves->head, ' ');
        format_value(&halves->head, letter);
    }
    halves->seam = letter ? SEAM_LETTER : SEAM_NONE;
    halves->rest = letter ? letter->next : node->first;
}

static void split_after(struct halves *halves, const struct node *value, enum seam seam)
{
    format_value(&halves->head, value);
    halves->seam = seam;
    halves->rest = value->next;
}

/* NODE's line in two. The caller ends halves.head. */
static struct halves split_statement(const struct layout *layout, const struct node *node)
{
    struct halves halves = {.seam = SEAM_NONE};
    const char *phrases = node_kind_name(node->kind);
    switch (phrasebook_statement(layout->phrases, node->kind)->form->token) {
    case T_HEAD_ITEM:
    case T_HEAD_VARIANT:
    case T_HEAD_PHASE:
    case T_HEAD_LOGGED:
    case T_HEAD_MORNING:
        split_at_colon(&halves, node, phrases);
        break;
    case T_HEAD_ROUND:
        split_round(&halves, node, phrases);
        break;
    case T_HEAD_BLOCK:
        split_block(&halves, node, phrases);
        break;
    case T_HEAD_WEEKS:
        split_after(&halves, node->first, SEAM_COLON);
        break;
    case T_HEAD_SPAN:
        split_after(&halves, node->first, SEAM_NONE);
        break;
    case T_HEAD_PLACE:
        split_after(&halves, node->first, SEAM_DAYS);
        break;
    case T_HEAD_LIMIT:
        split_after(&halves, node->first, SEAM_BOUND);
        break;
    default:
        /* A statement without phrase is its names. */
        if (*phrases) {
            format_spelling(&halves.head, phrases);
            halves.seam = SEAM_KEYWORD;
            halves.rest = node->first;
        } else {
            format_values(&halves.head, node->first, first_statement(node));
        }
    }
    if (halves.rest && node_is_statement(halves.rest))
        halves.rest = NULL;
    return halves;
}

/* --- columns --- */

/* Rare lines that are longer than their neighbours, and move none of them: a plan keeps its layout when the language gains
 * such a line. */
static bool moves_nothing(enum node_kind kind)
{
    switch ((int)kind) {
    case STATEMENT_MISSED:
    case STATEMENT_POOR_DAY:
    case STATEMENT_POOR_TAKEN:
    case STATEMENT_NEXT_TIME:
    case STATEMENT_TIME_ZONES:
    case STATEMENT_DELOAD:
        return true;
    default:
        return false;
    }
}

static bool has_keyword_column(const struct statement *statement)
{
    if (moves_nothing(statement->kind))
        return false;
    switch (statement->form->token) {
    case T_HEAD_BARE:
    case T_HEAD_FORMER:
    case T_HEAD_MORNING:
    case T_HEAD_CHANGEOVER:
    case T_HEAD_EXPECTED:
    case T_HEAD_ITEM:
    case T_HEAD_KNOCK:
    case T_HEAD_PAIN:
    case T_HEAD_VARIANT:
    case T_HEAD_PHASE:
    case T_HEAD_LOGGED:
    case T_HEAD_ROUND:
    case T_HEAD_BLOCK:
    case T_HEAD_WEEKS:
    case T_HEAD_SPAN:
    case T_HEAD_PLACE:
    case T_HEAD_LIMIT:
        return false;
    default:
        return true;
    }
}

/* The column of what follows the keywords of PLACE: after the longest that the place has, used or not. Right below a
 * declaration, where most lines are read as a table, it is never nearer than DECLARATION_COLUMN. */
static unsigned keyword_column(const struct phrasebook *book, int place, bool in_declaration)
{
    size_t longest = in_declaration ? DECLARATION_COLUMN - 1 : 0;
    for (size_t i = 0; i < book->count; i++) {
        const struct statement *statement = &book->all[i];
        size_t length = strcspn(node_kind_name(statement->kind), "|");
        if ((statement->places & place) && has_keyword_column(statement) && length > longest)
            longest = length;
    }
    return (unsigned)longest + 1;
}

static unsigned day_column(void)
{
    size_t longest = 0;
    for (int day = 1; *word_phrases(T_DAY, day); day++) {
        size_t length = strcspn(word_phrases(T_DAY, day), "|");
        longest = length > longest ? length : longest;
    }
    return (unsigned)longest + 1;
}

static bool lines_up(enum seam seam)
{
    return seam == SEAM_COLON || seam == SEAM_BOUND;
}

/* The column of the colons or bounds below PARENT: after the longest head, except that one very long name does not push
 * all the others. */
static unsigned block_column(const struct layout *layout, const struct node *parent)
{
    unsigned column = 0;
    for (const struct node *child = first_statement(parent); child; child = child->next) {
        struct halves halves = split_statement(layout, child);
        unsigned width = text_width(text_get(&halves.head), halves.head.length);
        if (halves.rest && lines_up(halves.seam) && width <= LONGEST_ALIGNED && width > column)
            column = width;
        text_free(&halves.head);
    }
    return column;
}

static void pad_to(struct text *line, unsigned column)
{
    for (unsigned width = text_width(text_get(line), line->length); width < column; width++)
        text_add_char(line, ' ');
}

/* Keywords in a block stand alone between exercises, whose lines have a column of their own. */
static unsigned column_below(const struct phrasebook *book, const struct node *parent,
                             enum seam seam)
{
    if (parent->kind == NODE_FILE)
        return 0;
    if (seam == SEAM_DAYS)
        return day_column();
    int opens = phrasebook_statement(book, parent->kind)->opens;
    return opens == IN_BLOCK ? 0 : keyword_column(book, opens, parent->parent->kind == NODE_FILE);
}

static void add_joint(const struct layout *layout, const struct format_row *row, struct text *line,
                      enum seam seam)
{
    switch (seam) {
    case SEAM_NONE:
        text_add_char(line, ' ');
        return;
    case SEAM_LETTER:
        text_add(line, "  ");
        return;
    case SEAM_KEYWORD:
    case SEAM_DAYS:
        text_add_char(line, ' ');
        pad_to(line, column_below(layout->phrases, row->node->parent, seam));
        return;
    case SEAM_COLON:
    case SEAM_BOUND:
        break;
    }
    pad_to(line, row->column);
    text_add(line, seam == SEAM_COLON ? " : " : "  ");
}

static void add_row(const struct layout *layout, const struct format_row *row, struct text *out)
{
    struct halves halves = split_statement(layout, row->node);
    struct text *line = &halves.head;
    if (halves.rest) {
        add_joint(layout, row, line, halves.seam);
        format_values(line, halves.rest, first_statement(row->node));
    }
    text_addf(out, "%*s", row->depth * STEP, "");
    text_add_bytes(out, text_get(line), line->length);
    text_free(line);
}

/* --- rows and comments --- */

static void collect_rows(struct layout *layout, const struct node *parent, int depth)
{
    const struct node *child = first_statement(parent);
    unsigned column = child ? block_column(layout, parent) : 0;
    for (; child; child = child->next) {
        layout->rows = arena_grow(layout->arena, layout->rows, layout->count, &layout->capacity,
                                  sizeof *layout->rows);
        layout->rows[layout->count++] = (struct format_row){child, depth, column};
        collect_rows(layout, child, depth + 1);
    }
}

static uint32_t indent_of(const struct source *source, uint32_t offset)
{
    return offset - source->lines[source_line(source, offset) - 1];
}

/* How deep a comment on a line of its own, before row NEXT, belongs: among the lines above it as
 * deep as it is indented, but never deeper than they are nor less deep than the row below. */
static int comment_depth(const struct layout *layout, const struct comment *comment, size_t next)
{
    int least = next < layout->count ? layout->rows[next].depth : 0;
    if (next == 0)
        return least;
    const struct format_row *above = &layout->rows[next - 1];
    const struct node *node = above->node;
    uint32_t indent = indent_of(layout->source, comment->span.start);
    int depth = above->depth;
    if (depth == 0 && indent > indent_of(layout->source, node->span.start) &&
        phrasebook_statement(layout->phrases, node->kind)->opens != NOTHING)
        return 1; /* of a declaration that has no other lines yet */
    while (depth > least && indent < indent_of(layout->source, node->span.start)) {
        node = node->parent;
        depth--;
    }
    return depth > least ? depth : least;
}

static void find_spots(struct layout *layout)
{
    size_t row = 0;
    int deepest = INT_MAX;
    layout->spots =
        arena_alloc(layout->arena, (layout->tree->comment_count + 1) * sizeof *layout->spots);
    for (size_t i = 0; i < layout->tree->comment_count; i++) {
        const struct comment *comment = &layout->tree->comments[i];
        while (row < layout->count && layout->rows[row].node->span.start < comment->span.start) {
            row++;
            deepest = INT_MAX;
        }
        if (!comment->own_line) {
            layout->spots[i] = (struct spot){row - 1, 0};
            continue;
        }
        /* After a comment that came back out of a block, no later one belongs to that block. */
        int depth = comment_depth(layout, comment, row);
        deepest = depth < deepest ? depth : deepest;
        layout->spots[i] = (struct spot){row, deepest};
    }
}

static struct layout layout_new(struct arena *arena, const struct sources *sources,
                                const struct tree *tree, const struct phrasebook *phrases)
{
    struct layout layout = {
        .arena = arena, .phrases = phrases, .source = &sources->items[tree->file], .tree = tree};
    collect_rows(&layout, tree->root, 0);
    find_spots(&layout);
    return layout;
}

/* --- the whole file --- */

static void add_comment(const struct layout *layout, const struct comment *comment,
                        struct text *out)
{
    text_add_bytes(out, layout->source->text + comment->span.start,
                   comment->span.end - comment->span.start);
}

/* Must there be a blank line above declaration ROW? `use` lines may stand close together. */
static bool parts_declarations(const struct layout *layout, size_t row)
{
    if (row == 0 || row >= layout->count || layout->rows[row].depth > 0)
        return false;
    const struct node *node = layout->rows[row].node;
    size_t above = row - 1;
    return node->kind != STATEMENT_USE || layout->rows[above].depth > 0 ||
           layout->rows[above].node->kind != STATEMENT_USE;
}

static void add_blank(struct text *out, bool wanted)
{
    if (wanted && out->length)
        text_add_char(out, '\n');
}

/* The comments on lines of their own before ROW, from comment AT on. Returns the first comment after them. *PARTED is
 * set if one of them took the blank line between two declarations. */
static size_t add_comments_before(const struct layout *layout, size_t row, size_t at, bool *parted,
                                  struct text *out)
{
    for (; at < layout->tree->comment_count; at++) {
        const struct comment *comment = &layout->tree->comments[at];
        const struct spot *spot = &layout->spots[at];
        if (!comment->own_line || spot->row != row)
            break;
        bool parts = !*parted && spot->depth == 0 && parts_declarations(layout, row);
        *parted |= parts;
        add_blank(out, parts || comment->blank_before);
        text_addf(out, "%*s", spot->depth * STEP, "");
        add_comment(layout, comment, out);
        text_add_char(out, '\n');
    }
    return at;
}

static void add_file(const struct layout *layout, struct text *out)
{
    size_t at = 0;
    bool parted = false;
    for (size_t i = 0; i < layout->count; i++) {
        parted = false;
        at = add_comments_before(layout, i, at, &parted, out);
        add_blank(out,
                  layout->rows[i].node->blank_before || (!parted && parts_declarations(layout, i)));
        add_row(layout, &layout->rows[i], out);
        if (at < layout->tree->comment_count && !layout->tree->comments[at].own_line &&
            layout->spots[at].row == i) {
            text_add(out, "  ");
            add_comment(layout, &layout->tree->comments[at++], out);
        }
        text_add_char(out, '\n');
    }
    add_comments_before(layout, layout->count, at, &parted, out);
}

/* --- the proof --- */

static bool same_comments(const struct layout *a, const struct layout *b)
{
    if (a->tree->comment_count != b->tree->comment_count)
        return false;
    for (size_t i = 0; i < a->tree->comment_count; i++) {
        const struct comment *left = &a->tree->comments[i], *right = &b->tree->comments[i];
        size_t length = left->span.end - left->span.start;
        if (left->own_line != right->own_line || a->spots[i].row != b->spots[i].row ||
            a->spots[i].depth != b->spots[i].depth ||
            length != right->span.end - right->span.start ||
            memcmp(a->source->text + left->span.start, b->source->text + right->span.start,
                   length) != 0)
            return false;
    }
    return true;
}

static bool is_proven(const struct layout *layout, const struct text *out)
{
    struct arena *arena = layout->arena;
    struct sources sources = {.arena = arena};
    struct diag *diag = diag_new(arena, &sources);
    int file = source_add(&sources, layout->source->name, text_get(out), out->length);
    const struct tree *tree = read_file(arena, &sources, (unsigned)file, layout->phrases, diag);
    if (diag_count(diag, SEVERITY_ERROR) || !node_same(layout->tree->root, tree->root))
        return false;
    struct layout again = layout_new(arena, &sources, tree, layout->phrases);
    return same_comments(layout, &again);
}

enum format_outcome format_source(struct arena *arena, const struct sources *sources, unsigned file,
                                  const struct phrasebook *phrases, struct diag *diag,
                                  struct text *out)
{
    size_t errors = diag_count(diag, SEVERITY_ERROR);
    const struct tree *tree = read_file(arena, sources, file, phrases, diag);
    if (diag_count(diag, SEVERITY_ERROR) > errors)
        return FORMAT_FAULTY;
    struct layout layout = layout_new(arena, sources, tree, phrases);
    add_file(&layout, out);
    if (!is_proven(&layout, out))
        return FORMAT_UNPROVEN;
    const struct source *source = layout.source;
    bool same = !source->marked && source->length == out->length &&
                memcmp(source->text, text_get(out), out->length) == 0;
    return same ? FORMAT_SAME : FORMAT_CHANGED;
}
