#include "lsp/publish.h"

#include <string.h>

#include "export/json_text.h"
#include "export/service.h"
#include "lsp/diagnostic.h"
#include "lsp/methods.h"

/* --- gathering --- */

static uint64_t hash_words(uint64_t hash, const char *words)
{
    return words ? text_hash(hash, words, strlen(words)) : text_hash(hash, "", 1);
}

static uint64_t hash_finding(uint64_t hash, const struct finding *finding)
{
    const uint32_t figures[] = {finding->span.start, finding->span.end, (uint32_t)finding->severity,
                                (uint32_t)finding->diagnostic};
    hash = text_hash(hash, (const char *)figures, sizeof figures);
    hash = hash_words(hash_words(hash, finding->words), finding->help);
    for (size_t i = 0; i < finding->note_count; i++) {
        const struct span *span = &finding->notes[i].span;
        const uint32_t place[] = {finding->notes[i].placed, span->file, span->start, span->end};
        hash = text_hash(hash_words(hash, finding->notes[i].words), (const char *)place, sizeof place);
    }
    return hash;
}

/* Does LIST contain the same neutral message as FINDING already? */
static bool holds(const struct file_findings *list, const struct finding *finding)
{
    if (!service_is_neutral(finding))
        return false;
    for (size_t i = 0; i < list->count; i++)
        if (service_is_neutral(list->items[i]) && list->items[i]->span.start == finding->span.start &&
            list->items[i]->severity == finding->severity && strcmp(list->items[i]->words, finding->words) == 0)
            return true;
    return false;
}

struct file_findings *publish_gather(struct arena *arena, const struct club *club)
{
    const struct project *project = &club->session->project;
    const struct export_context context = {.infos = true};
    struct file_findings *lists = arena_alloc(arena, (project->sources.count + 1) * sizeof *lists);
    for (size_t i = 0; club->loaded && i < project->diag->count; i++) {
        const struct finding *finding = service_finding(project->diag, &context, project->diag->items[i]);
        if (!finding || project->sources.items[finding->span.file].shelf)
            continue;
        struct file_findings *list = &lists[finding->span.file];
        if (holds(list, finding))
            continue;
        list->items = arena_grow(arena, list->items, list->count, &list->capacity, sizeof *list->items);
        list->items[list->count++] = finding;
        list->hash = hash_finding(list->hash, finding);
    }
    return lists;
}

/* The findings of LIST, of FILE, as an array of JSON. */
static const char *list_text(struct call *call, const struct club *club, unsigned file, const struct file_findings *list)
{
    struct text text = {.arena = call->arena};
    struct page page = focus_page(call, club, file);
    for (size_t i = 0; i < list->count; i++) {
        text_add(&text, i ? "," : "[");
        diagnostic_write(call, club, &page, list->items[i], &text);
    }
    text_add(&text, list->count ? "]" : "[]");
    return text_keep(call->arena, &text);
}

/* --- pushing --- */

/* Publishes DIAGNOSTICS, an array of JSON, as those of URI, which may be open as DOCUMENT. */
static void push(struct call *call, const char *uri, const struct document *document, const char *diagnostics)
{
    struct text text = {.arena = call->arena};
    text_add(&text, "{\"uri\":");
    diagnostic_write_words(&text, uri);
    if (document && document->versioned)
        text_addf(&text, ",\"version\":%lld", document->version);
    text_add(&text, ",\"diagnostics\":");
    text_add(&text, diagnostics);
    text_add(&text, "}");
    lsp_notify_text(call->lsp, "textDocument/publishDiagnostics", text_keep(call->arena, &text));
}

/* A number for LIST in this version of the file. */
static uint64_t mark_of(const struct file_findings *list, const struct document *document)
{
    uint64_t hash = list->hash;
    if (document)
        hash = text_hash(hash, (const char *)&document->version, sizeof document->version);
    return hash;
}

/* Publishes LIST, that of FILE, unless the client has just that already. */
static void publish_file(struct call *call, struct club *club, unsigned file, const struct file_findings *list, GHashTable *now)
{
    const struct source *source = &club->session->project.sources.items[file];
    const struct document *document = club_document(&call->lsp->workspace, club, source);
    const char *uri = focus_uri(call, club, file);
    static const struct file_findings nothing;
    bool pulled = document && call->lsp->wishes.pull; /* it asks for these itself */
    if (pulled) {
        club->asks_again |= document->asked_for != list->hash;
        list = &nothing;
    }
    uint64_t *mark = g_new(uint64_t, 1);
    const uint64_t *before = g_hash_table_lookup(club->published, uri);
    *mark = mark_of(list, pulled ? NULL : document);
    g_hash_table_insert(now, g_strdup(uri), mark);
    if (before ? *before != *mark : list->count || (document && !pulled))
        push(call, uri, document, list_text(call, club, file, list));
}

/* Clears what was published for files that are no longer in the plan, which is NOW. */
static void clear_gone(struct call *call, const struct club *club, GHashTable *now)
{
    /* In the order of their names: how a table holds them changes with the folder that the club is in. */
    GList *uris = g_list_sort(g_hash_table_get_keys(club->published), (GCompareFunc)strcmp);
    for (const GList *uri = uris; uri; uri = uri->next)
        if (!now || !g_hash_table_contains(now, uri->data))
            push(call, uri->data, NULL, "[]");
    g_list_free(uris);
}

/* What was edited last comes first: it is what the coach looks at. */
static void publish_club(struct call *call, struct club *club)
{
    GHashTable *now = g_hash_table_new_full(g_str_hash, g_str_equal, g_free, g_free);
    const struct sources *sources = &club->session->project.sources;
    struct file_findings *lists = publish_gather(call->arena, club);
    unsigned count = club->loaded ? (unsigned)sources->count : 0, first = 0;
    while (first < count && (sources->items[first].shelf || !club->edited || strcmp(sources->items[first].path, club->edited) != 0))
        first++;
    if (first < count)
        publish_file(call, club, first, &lists[first], now);
    for (unsigned file = 0; file < count; file++)
        if (file != first && !sources->items[file].shelf)
            publish_file(call, club, file, &lists[file], now);
    clear_gone(call, club, now);
    g_hash_table_destroy(club->published);
    club->published = now;
    club->unpublished = false;
}

/* Removes the clubs that no open document belongs to, and clears what was published for them. This comes before
 * anything else is published, because their files may now belong to another club. */
static void drop_clubs(struct call *call, struct workspace *workspace)
{
    for (guint i = workspace->clubs->len; i-- > 0;) {
        struct club *club = g_ptr_array_index(workspace->clubs, i);
        if (!(club->lone || club->dropped) || club_is_open(workspace, club))
            continue;
        clear_gone(call, club, NULL);
        g_ptr_array_remove_index(workspace->clubs, i);
    }
}

void publish_all(struct lsp *lsp)
{
    struct workspace *workspace = &lsp->workspace;
    struct call call = {.lsp = lsp, .arena = arena_new()};
    bool again = false;
    drop_clubs(&call, workspace);
    for (guint i = workspace->clubs->len; i-- > 0;) {
        struct club *club = g_ptr_array_index(workspace->clubs, i);
        bool first = club->stale && !club->revision; /* all its files are read, and the shelf */
        if (first)
            progress_tell(lsp, true);
        club_refresh(workspace, club);
        if (first)
            progress_tell(lsp, false);
        if (club->unpublished)
            publish_club(&call, club);
        again |= club->asks_again;
        club->asks_again = false;
    }
    if (again && lsp->wishes.refresh_findings)
        lsp_ask(lsp, "workspace/diagnostic/refresh", NULL);
    arena_free(call.arena);
}

/* --- asked for --- */

static json_t *list_json(struct call *call, const struct club *club, const struct page *page,
                         const struct file_findings *list)
{
    json_t *all = json_array();
    for (size_t i = 0; i < list->count; i++)
        json_add(all, diagnostic_json(call, club, page, list->items[i]));
    return all;
}

json_t *lsp_diagnostic(struct call *call)
{
    struct focus focus;
    if (!call_focus(call, &focus))
        return NULL;
    const struct file_findings *list = &publish_gather(call->arena, focus.club)[focus.file];
    focus.document->asked_for = list->hash;
    const char *id = arena_printf(call->arena, "%016llx", (unsigned long long)list->hash);
    json_t *report = json_object();
    bool same = strcmp(member_words(call->params, "previousResultId"), id) == 0;
    json_put_words(report, "kind", same ? "unchanged" : "full");
    json_put_words(report, "resultId", id);
    if (!same)
        json_put(report, "items", list_json(call, focus.club, &focus.page, list));
    return report;
}
