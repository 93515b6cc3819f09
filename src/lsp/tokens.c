#include "lsp/tokens.h"

#include <string.h>

#include "export/json_text.h"
#include "lsp/index.h"
#include "lsp/methods.h"
#include "syntax/raw.h"

enum token_type {
    TOKEN_KEYWORD, TOKEN_COMMENT, TOKEN_STRING, TOKEN_NUMBER, TOKEN_PLACE, TOKEN_PERSON, TOKEN_SESSION, TOKEN_EXERCISE,
    TOKEN_KIT, TOKEN_GROUP, TOKEN_WORD
};

enum { DECLARES = 1, FROM_SHELF = 2 };

json_t *tokens_legend(void)
{
    static const char *const types[] = {"keyword", "comment", "string", "number", "variable", "class",
                                        "function", "method", "struct", "namespace", "enumMember"};
    static const char *const modifiers[] = {"declaration", "defaultLibrary"};
    json_t *legend = json_object(), *all = json_array(), *more = json_array();
    for (size_t i = 0; i < sizeof types / sizeof *types; i++)
        json_add(all, json_words(types[i]));
    for (size_t i = 0; i < sizeof modifiers / sizeof *modifiers; i++)
        json_add(more, json_words(modifiers[i]));
    json_put(legend, "tokenTypes", all);
    json_put(legend, "tokenModifiers", more);
    return legend;
}

/* A stretch about which the tree knows more than its words say. */
struct mark {
    uint32_t start, end;
    enum token_type type;
    int modifiers;
    bool line; /* it is a statement's whole line: words in it that no other mark covers are the language's */
};

struct painting {
    struct arena *arena;
    const struct focus *focus;
    const struct index *index;
    size_t use; /* the next one that may be met */
    struct mark *marks; /* in the order of their places; a line's before those in it */
    size_t count, capacity;
    json_t *data;
    struct caret last;
    size_t last_end; /* bytes */
};

/* --- marks --- */

static void add_mark(struct painting *painting, uint32_t start, uint32_t end, enum token_type type, int modifiers, bool line)
{
    painting->marks = arena_grow(painting->arena, painting->marks, painting->count, &painting->capacity,
                                 sizeof *painting->marks);
    painting->marks[painting->count++] = (struct mark){start, end, type, modifiers, line};
}

static enum token_type type_of(unsigned what)
{
    if (what & NAMED_ATHLETE)
        return TOKEN_PERSON;
    if (what & (NAMED_SESSION | NAMED_ACTIVITY))
        return TOKEN_SESSION;
    if (what & NAMED_EXERCISE)
        return TOKEN_EXERCISE;
    if (what & (NAMED_GYM | NAMED_KIT))
        return TOKEN_KIT;
    return what & (NAMED_CAMP | NAMED_LIMITS | NAMED_PROTOCOL | NAMED_PHASE | NAMED_TEST) ? TOKEN_GROUP : TOKEN_WORD;
}

static void mark_name(struct painting *painting, const struct node *statement, const struct node *name)
{
    const struct index *index = painting->index;
    while (painting->use < index->use_count && index->uses[painting->use].name->span.file < name->span.file)
        painting->use++;
    size_t at = painting->use;
    while (at < index->use_count && index->uses[at].name != name && index->uses[at].name->span.file == name->span.file &&
           index->uses[at].name->span.start < name->span.start)
        at++;
    if (at < index->use_count && index->uses[at].name == name) {
        const struct use *use = &index->uses[at];
        painting->use = at + 1;
        add_mark(painting, name->span.start, name->span.end, type_of(use->thing->what),
                 (use->declares ? DECLARES : 0) | (use->thing->shelf ? FROM_SHELF : 0), false);
    } else {
        add_mark(painting, name->span.start, name->span.end, type_of(statement_names(statement->kind, 0, false)), 0, false);
    }
}

static void mark_values(struct painting *painting, const struct node *statement, const struct node *parent)
{
    for (const struct node *at = parent->first; at; at = at->next) {
        if (node_is_statement(at))
            continue;
        if (at->kind == NODE_NAME)
            mark_name(painting, statement, at);
        else if (at->kind == NODE_TEXT)
            add_mark(painting, at->span.start, at->span.end, TOKEN_STRING, 0, false);
        else
            mark_values(painting, statement, at);
    }
}

static void mark_statements(struct painting *painting, const struct node *parent)
{
    for (const struct node *at = parent->first; at; at = at->next) {
        if (!node_is_statement(at))
            continue;
        size_t length;
        struct caret start = page_caret(&painting->focus->page, at->span.start);
        page_line(&painting->focus->page, start.line, &length);
        add_mark(painting, at->span.start, painting->focus->page.lines[start.line] + (uint32_t)length, TOKEN_KEYWORD, 0, true);
        mark_values(painting, at, at);
        mark_statements(painting, at);
    }
}

/* --- tokens --- */

/* Adds the bytes from START to END, but none after the end of their line, as five figures relative to the previous
 * token. */
static void add_token(struct painting *painting, size_t start, size_t end, enum token_type type, int modifiers)
{
    const struct page *page = &painting->focus->page;
    for (size_t at = start; at < end; at++)
        if (page->text[at] == '\r' || page->text[at] == '\n')
            end = at;
    while (end > start && strchr(" \t", page->text[end - 1]))
        end--;
    if (end <= start || start < painting->last_end)
        return;
    struct caret from = page_caret(page, start), to = page_caret(page, end);
    bool same = from.line == painting->last.line;
    const size_t figures[] = {from.line - painting->last.line, from.character - (same ? painting->last.character : 0),
                              to.character - from.character, (size_t)type, (size_t)modifiers};
    for (size_t i = 0; i < sizeof figures / sizeof *figures; i++)
        json_add(painting->data, json_integer((json_int_t)figures[i]));
    painting->last = from;
    painting->last_end = end;
}

static void paint_token(struct painting *painting, const struct raw_token *token, bool in_line)
{
    switch (token->kind) {
    case RAW_COMMENT: add_token(painting, token->start, token->end, TOKEN_COMMENT, 0); break;
    case RAW_WORD:
        if (in_line)
            add_token(painting, token->start, token->end, TOKEN_KEYWORD, 0);
        break;
    case RAW_REF: add_token(painting, token->start, token->end, TOKEN_PLACE, 0); break;
    case RAW_NUMBER: case RAW_DECIMAL_COMMA: case RAW_TIME: case RAW_DATE: case RAW_MONTH: case RAW_BAD_DATE:
    case RAW_TEMPO: case RAW_QUOTED:
        add_token(painting, token->start, token->end, TOKEN_NUMBER, 0);
        break;
    default: break; /* signs */
    }
}

/* Every raw token, except that a name or a run of words is painted as one. */
static void paint(struct painting *painting)
{
    const struct source *source = painting->focus->source;
    struct arena *scratch = arena_new();
    struct scan scan = {0};
    size_t next = 0;
    uint32_t line_end = 0;
    bool more = true;
    scan_open(&scan, scratch, source->text, (struct extent){0, (uint32_t)source->length});
    while (more) {
        more = scan_line(&scan);
        for (size_t i = 0; i < scan.count; i++) {
            const struct raw_token *token = &scan.tokens[i];
            const struct mark *mark = NULL;
            for (; next < painting->count && painting->marks[next].start <= token->start; next++) {
                mark = painting->marks[next].line ? NULL : &painting->marks[next];
                line_end = painting->marks[next].line ? painting->marks[next].end : line_end;
            }
            if (mark)
                add_token(painting, mark->start, mark->end, mark->type, mark->modifiers);
            else
                paint_token(painting, token, token->start < line_end);
        }
    }
    scan_close(&scan);
    arena_free(scratch);
}

json_t *lsp_tokens(struct call *call)
{
    struct focus focus;
    if (!call_focus(call, &focus))
        return NULL;
    struct painting painting = {.arena = call->arena, .focus = &focus, .index = club_index(focus.club), .data = json_array()};
    mark_statements(&painting, focus.tree->root);
    if (text_first_fault(focus.source->text, focus.source->length, &(const char *){NULL}, &(size_t){0}) ==
        focus.source->length)
        paint(&painting);
    json_t *result = json_object();
    json_put(result, "data", painting.data);
    return result;
}
