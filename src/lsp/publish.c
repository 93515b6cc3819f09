#include "lsp/publish.h"

#include <string.h>

#include "export/json_text.h"
#include "export/service.h"
#include "lsp/methods.h"
#include "lsp/uri.h"

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

/* Does LIST hold the same neutral thing as FINDING already? */
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

/* --- one finding --- */

/* The words of FINDING, what would mend it, and the notes that stand nowhere. */
static const char *message_of(struct call *call, const struct finding *finding)
{
    struct text text = {.arena = call->arena};
    text_add(&text, finding->words);
    for (size_t i = 0; i < finding->note_count; i++)
        if (!finding->notes[i].placed || !call->lsp->wishes.related)
            text_addf(&text, "\nnote: %s", finding->notes[i].words);
    if (finding->help)
        text_addf(&text, "\nfix: %s", finding->help);
    return text_keep(call->arena, &text);
}

static json_t *related_json(struct call *call, const struct club *club, const struct finding *finding)
{
    json_t *all = json_array();
    for (size_t i = 0; i < finding->note_count; i++) {
        if (!finding->notes[i].placed)
            continue;
        json_t *one = json_object();
        json_put(one, "location", focus_location(call, club, finding->notes[i].span));
        json_put_words(one, "message", finding->notes[i].words);
        json_add(all, one);
    }
    return all;
}

/* SPAN without the line ends that it may end in. */
static size_t shown_end(const struct page *page, struct span span)
{
    size_t end = span.end < span.start ? span.start : span.end;
    while (end > span.start && end <= page->length && strchr("\r\n", page->text[end - 1]))
        end--;
    return end;
}

json_t *diagnostic_json(struct call *call, const struct club *club, const struct page *page,
                        const struct finding *finding)
{
    /* What only informs is for whoever looks at the line: error 1, warning 2, hint 4. */
    static const int severities[] = {[SEVERITY_INFO] = 4, [SEVERITY_WARNING] = 2, [SEVERITY_ERROR] = 1};
    const char *name = diagnostic_name(finding->diagnostic);
    json_t *json = json_object();
    json_put(json, "range", page_range(page, finding->span.start, shown_end(page, finding->span)));
    json_put(json, "severity", json_integer(severities[finding->severity]));
    json_put_words(json, "code", name);
    if (call->lsp->wishes.descriptions) {
        const char *path = arena_printf(call->arena, "%s/explain/%s.md", call->lsp->host.share, name);
        json_t *description = json_object();
        json_put_words(description, "href", uri_of_path(call->arena, path));
        json_put(json, "codeDescription", description);
    }
    json_put_words(json, "source", "bellsheet");
    json_put_words(json, "message", message_of(call, finding));
    if (call->lsp->wishes.related && finding->note_count)
        json_put(json, "relatedInformation", related_json(call, club, finding));
    return json;
}

static json_t *list_json(struct call *call, const struct club *club, unsigned file, const struct file_findings *list)
{
    json_t *all = json_array();
    struct page page = focus_page(call, club, file);
    for (size_t i = 0; i < list->count; i++)
        json_add(all, diagnostic_json(call, club, &page, list->items[i]));
    return all;
}

/* --- pushing --- */

static void push(struct lsp *lsp, const char *uri, const struct document *document, json_t *diagnostics)
{
    json_t *params = json_object();
    json_put_words(params, "uri", uri);
    if (document && document->versioned)
        json_put(params, "version", json_integer(document->version));
    json_put(params, "diagnostics", diagnostics);
    lsp_notify(lsp, "textDocument/publishDiagnostics", params);
}

/* A number for LIST in this version of the file. */
static uint64_t mark_of(const struct file_findings *list, const struct document *document)
{
    uint64_t hash = list->hash;
    if (document)
        hash = text_hash(hash, (const char *)&document->version, sizeof document->version);
    return hash;
}

/* Publishes LIST, that of FILE, unless the client was told just that. */
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
        push(call->lsp, uri, document, list_json(call, club, file, list));
}

/* Clears what was told of files that are no longer NOW in the plan. */
static void clear_gone(struct lsp *lsp, struct club *club, GHashTable *now)
{
    GHashTableIter at;
    gpointer uri;
    g_hash_table_iter_init(&at, club->published);
    while (g_hash_table_iter_next(&at, &uri, NULL))
        if (!now || !g_hash_table_contains(now, uri))
            push(lsp, uri, NULL, json_array());
}

static void publish_club(struct call *call, struct club *club)
{
    GHashTable *now = g_hash_table_new_full(g_str_hash, g_str_equal, g_free, g_free);
    const struct sources *sources = &club->session->project.sources;
    struct file_findings *lists = publish_gather(call->arena, club);
    for (unsigned file = 0; club->loaded && file < sources->count; file++)
        if (!sources->items[file].shelf)
            publish_file(call, club, file, &lists[file], now);
    clear_gone(call->lsp, club, now);
    g_hash_table_destroy(club->published);
    club->published = now;
    club->unpublished = false;
}

void publish_all(struct lsp *lsp)
{
    struct workspace *workspace = &lsp->workspace;
    struct call call = {.lsp = lsp, .arena = arena_new()};
    bool again = false;
    for (guint i = workspace->clubs->len; i-- > 0;) {
        struct club *club = g_ptr_array_index(workspace->clubs, i);
        if ((club->lone || club->dropped) && !club_is_open(workspace, club)) {
            clear_gone(lsp, club, NULL);
            g_ptr_array_remove_index(workspace->clubs, i);
            continue;
        }
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
        json_put(report, "items", list_json(call, focus.club, focus.file, list));
    return report;
}
