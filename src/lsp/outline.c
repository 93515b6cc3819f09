/* outline.c - symbols, folds and selections. */
#include "lsp/outline.h"

#include <string.h>

#include "base/text.h"
#include "export/json_text.h"
#include "lsp/index.h"
#include "lsp/methods.h"
#include "lsp/uri.h"
#include "syntax/phrases.h"
#include "syntax/read.h"

size_t statement_end(const struct node *statement)
{
    size_t end = statement->span.end;
    for (const struct node *at = statement->first; at; at = at->next) {
        size_t other = statement_end(at);
        end = other > end ? other : end;
    }
    return end;
}

const struct node *statement_at(const struct node *root, size_t offset)
{
    const struct node *found = NULL;
    for (const struct node *at = root->first; at && at->span.start <= offset; at = at->next)
        if (node_is_statement(at))
            found = at;
    if (!found)
        return NULL;
    const struct node *inner = statement_at(found, offset);
    return inner ? inner : found;
}

bool is_on_line(const struct page *page, const struct node *statement, size_t offset)
{
    return page_caret(page, statement->span.start).line == page_caret(page, offset).line;
}

const char *statement_words(struct arena *arena, const struct focus *focus, const struct node *statement)
{
    return arena_copy(arena, focus->source->text + statement->span.start, statement->span.end - statement->span.start);
}

/* --- symbols --- */

/* The numbers of the protocol. */
enum { SYMBOL_NAMESPACE = 3, SYMBOL_CLASS = 5, SYMBOL_METHOD = 6, SYMBOL_FUNCTION = 12, SYMBOL_OBJECT = 19,
       SYMBOL_EVENT = 24, SYMBOL_STRUCT = 23, SYMBOL_KEY = 20 };

static int symbol_kind(const struct node *statement)
{
    switch ((int)statement->kind) {
    case STATEMENT_ATHLETE: case STATEMENT_PRIVATE: return SYMBOL_CLASS;
    case STATEMENT_SESSION: case STATEMENT_ACTIVITY: return SYMBOL_FUNCTION;
    case STATEMENT_EXERCISE: case STATEMENT_ITEM: case STATEMENT_FILLER: case STATEMENT_ROUND: return SYMBOL_METHOD;
    case STATEMENT_GYM: return SYMBOL_STRUCT;
    case STATEMENT_CAMP: case STATEMENT_SEASON: case STATEMENT_LIMITS: case STATEMENT_PROTOCOL: return SYMBOL_NAMESPACE;
    case STATEMENT_SPAN: case STATEMENT_PLACE: case STATEMENT_BOUT: case STATEMENT_LOG:
    case STATEMENT_RESULTS: return SYMBOL_EVENT;
    default: return SYMBOL_OBJECT;
    }
}

/* Statements at the margin, and within them those that open a block of their own. */
static bool is_symbol(const struct focus *focus, const struct phrasebook *book, const struct node *node)
{
    if (!node_is_statement(node))
        return false;
    return node->parent == focus->tree->root || phrasebook_statement(book, node->kind)->opens != NOTHING;
}

static json_t *symbols_below(struct call *call, const struct focus *focus, const struct phrasebook *book,
                             const struct node *parent);

static json_t *symbol_json(struct call *call, const struct focus *focus, const struct phrasebook *book,
                           const struct node *node)
{
    const struct node *name = statement_declares(node->kind) ? node_find(node, NODE_NAME) : NULL;
    const char *words = statement_words(call->arena, focus, node);
    json_t *json = json_object();
    json_put_words(json, "name", name ? name->text : words);
    if (name)
        json_put_words(json, "detail", arena_copy(call->arena, words, strcspn(words, " \t")));
    json_put(json, "kind", json_integer(symbol_kind(node)));
    json_put(json, "range", page_range(&focus->page, node->span.start, statement_end(node)));
    const struct span selected = name ? name->span : node->span;
    json_put(json, "selectionRange", page_range(&focus->page, selected.start, selected.end));
    json_put(json, "children", symbols_below(call, focus, book, node));
    return json;
}

static json_t *symbols_below(struct call *call, const struct focus *focus, const struct phrasebook *book,
                             const struct node *parent)
{
    json_t *all = json_array();
    for (const struct node *at = parent->first; at; at = at->next)
        if (is_symbol(focus, book, at))
            json_add(all, symbol_json(call, focus, book, at));
    return all;
}

/* The same as a flat list, for clients that cannot show symbols inside symbols. */
static void flatten(struct call *call, const struct focus *focus, json_t *symbols, const char *around, json_t *all)
{
    for (size_t i = 0; i < json_array_size(symbols); i++) {
        json_t *symbol = json_array_get(symbols, i), *one = json_object(), *location = json_object();
        json_put_words(location, "uri", focus->document->uri);
        json_put(location, "range", json_incref(json_object_get(symbol, "range")));
        json_put(one, "name", json_incref(json_object_get(symbol, "name")));
        json_put(one, "kind", json_incref(json_object_get(symbol, "kind")));
        json_put(one, "location", location);
        json_put_words(one, "containerName", around);
        json_add(all, one);
        flatten(call, focus, json_object_get(symbol, "children"), member_words(symbol, "name"), all);
    }
}

json_t *lsp_document_symbol(struct call *call)
{
    struct focus focus;
    if (!call_focus(call, &focus))
        return NULL;
    json_t *symbols = symbols_below(call, &focus, phrasebook_new(call->arena), focus.tree->root);
    if (call->lsp->wishes.hierarchy)
        return symbols;
    json_t *all = json_array();
    flatten(call, &focus, symbols, NULL, all);
    json_decref(symbols);
    return all;
}

/* Are all letters of QUERY in NAME, in their order? */
static bool is_wanted(const char *name, const char *query)
{
    for (; *query && *name; name++)
        query += *query == *name;
    return *query == '\0';
}

static void add_workspace_symbols(struct call *call, struct club *club, const char *query, json_t *all)
{
    const struct index *index = club_index(club);
    for (size_t i = 0; i < index->thing_count; i++) {
        const struct thing *thing = index->things[i];
        bool hidden = thing->shelf || thing->alias || diag_is_private(club->session->project.diag, thing->name->span);
        if (hidden || !is_wanted(thing->folded, query))
            continue;
        json_t *one = json_object();
        json_put_words(one, "name", thing->shown);
        json_put(one, "kind", json_integer(symbol_kind(thing->statement)));
        json_put(one, "location", focus_location(call, club, thing->name->span));
        json_add(all, one);
    }
}

json_t *lsp_workspace_symbol(struct call *call)
{
    const char *query = member_words(call->params, "query");
    struct workspace *workspace = &call->lsp->workspace;
    json_t *all = json_array();
    query = text_fold(call->arena, query, strlen(query));
    for (guint i = 0; i < workspace->clubs->len; i++) {
        struct club *club = g_ptr_array_index(workspace->clubs, i);
        if (club_refresh(workspace, club))
            add_workspace_symbols(call, club, query, all);
    }
    return all;
}

/* --- folds --- */

/* The indentation of line NUMBER in bytes; sets *EMPTY if the line is blank, *COMMENT if it only has a comment. */
static size_t indent_of(const struct page *page, size_t number, bool *empty, bool *comment)
{
    size_t length, indent = 0;
    const char *line = page_line(page, number, &length);
    while (indent < length && strchr(" \t", line[indent]))
        indent++;
    *empty = indent == length;
    *comment = !*empty && line[indent] == '#';
    return indent;
}

static void add_fold(json_t *all, size_t first, size_t last, const char *kind)
{
    if (last <= first)
        return;
    json_t *fold = json_object();
    json_put_number(fold, "startLine", first);
    json_put_number(fold, "endLine", last);
    json_put_words(fold, "kind", kind);
    json_add(all, fold);
}

/* An open line: deeper lines belong to it. */
struct open_line {
    size_t line, indent;
};

json_t *lsp_folding(struct call *call)
{
    struct focus focus;
    if (!call_focus(call, &focus))
        return NULL;
    const struct page *page = &focus.page;
    struct open_line *open = arena_alloc(call->arena, (page->line_count + 1) * sizeof *open);
    size_t depth = 0, last = 0, remarks = 0;
    json_t *all = json_array();
    for (size_t line = 0; line <= page->line_count; line++) {
        bool empty = true, comment = false, ends = line == page->line_count;
        size_t indent = ends ? 0 : indent_of(page, line, &empty, &comment);
        if (!comment && remarks)
            add_fold(all, line - remarks, line - 1, "comment");
        remarks = comment ? remarks + 1 : 0;
        if (!ends && (empty || comment))
            continue;
        while (depth && (ends || open[depth - 1].indent >= indent))
            add_fold(all, open[--depth].line, last, NULL);
        last = line;
        open[depth++] = (struct open_line){line, indent};
    }
    return all;
}

/* --- selections --- */

/* RANGE inside OUTER, which is taken over. */
static json_t *selection_json(const struct page *page, size_t start, size_t end, json_t *outer)
{
    json_t *json = json_object();
    json_put(json, "range", page_range(page, start, end));
    if (outer)
        json_put(json, "parent", outer);
    return json;
}

/* The chain of what contains OFFSET: the file, statements with their blocks, their lines, values. */
static json_t *selections(const struct focus *focus, const struct node *node, size_t offset, json_t *outer)
{
    for (const struct node *at = node->first; at; at = at->next) {
        size_t end = node_is_statement(at) ? statement_end(at) : at->span.end;
        if (offset < at->span.start || offset > end || at->span.start == end)
            continue;
        if (!node->parent || at->span.start != node->span.start || at->span.end != node->span.end)
            outer = selection_json(&focus->page, at->span.start, end, outer);
        if (node_is_statement(at) && offset <= at->span.end && at->span.end < end)
            outer = selection_json(&focus->page, at->span.start, at->span.end, outer);
        return selections(focus, at, offset, outer);
    }
    return outer;
}

json_t *lsp_selection(struct call *call)
{
    struct focus focus;
    if (!call_focus(call, &focus))
        return NULL;
    const json_t *positions = json_object_get(call->params, "positions");
    json_t *all = json_array();
    for (size_t i = 0; i < json_array_size(positions); i++) {
        struct caret position = {0};
        caret_read(json_array_get(positions, i), &position);
        json_t *file = selection_json(&focus.page, 0, focus.page.length, NULL);
        json_add(all, selections(&focus, focus.tree->root, page_offset(&focus.page, position), file));
    }
    return all;
}

/* --- links --- */

json_t *lsp_links(struct call *call)
{
    struct focus focus;
    if (!call_focus(call, &focus))
        return NULL;
    json_t *all = json_array();
    const struct node *use = node_find(focus.tree->root, STATEMENT_USE);
    for (; use; use = node_next_alike(use)) {
        const struct node *text = use->first;
        char *folder = g_path_get_dirname(focus.document->path);
        json_t *link = json_object();
        json_put(link, "range", page_range(&focus.page, text->span.start, text->span.end));
        json_put_words(link, "target", uri_of_path(call->arena, arena_printf(call->arena, "%s/%s", folder, text->text)));
        json_add(all, link);
        g_free(folder);
    }
    return all;
}
