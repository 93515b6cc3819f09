/* sync.c - what the client says about its documents, folders and files. */
#include <string.h>

#include "export/json_text.h"
#include "lsp/methods.h"
#include "lsp/uri.h"

static struct document *find_document(const struct call *call)
{
    const json_t *about = json_object_get(call->params, "textDocument");
    return workspace_find(&call->lsp->workspace, member_words(about, "uri"));
}

static void set_version(struct document *document, const json_t *about)
{
    const json_t *version = json_object_get(about, "version");
    document->versioned = json_is_integer(version);
    if (document->versioned)
        document->version = json_integer_value(version);
    document->changed = true;
}

json_t *lsp_did_open(struct call *call)
{
    const json_t *about = json_object_get(call->params, "textDocument"), *text = json_object_get(about, "text");
    const char *uri = member_words(about, "uri");
    if (!*uri || !json_is_string(text))
        return NULL;
    struct document *document =
        workspace_add(&call->lsp->workspace, uri, json_string_value(text), json_string_length(text));
    set_version(document, about);
    call->lsp->unsettled = true;
    return NULL;
}

/* One of the changes of a notification: a stretch or the whole. */
static void apply_change(const struct call *call, struct document *document, const json_t *change)
{
    const json_t *text = json_object_get(change, "text"), *range = json_object_get(change, "range");
    size_t start = 0, end = document->length;
    if (!json_is_string(text))
        return;
    if (json_is_object(range)) {
        struct page page = page_make(call->arena, document->text, document->length, call->lsp->encoding);
        if (!page_read_range(&page, range, &start, &end))
            return;
    }
    document_splice(document, start, end, json_string_value(text), json_string_length(text));
}

json_t *lsp_did_change(struct call *call)
{
    struct document *document = find_document(call);
    if (!document)
        return NULL;
    const json_t *changes = json_object_get(call->params, "contentChanges");
    for (size_t i = 0; i < json_array_size(changes); i++)
        apply_change(call, document, json_array_get(changes, i));
    set_version(document, json_object_get(call->params, "textDocument"));
    call->lsp->unsettled = true;
    return NULL;
}

json_t *lsp_did_close(struct call *call)
{
    struct document *document = find_document(call);
    if (document)
        workspace_remove(&call->lsp->workspace, document);
    call->lsp->unsettled = true;
    return NULL;
}

json_t *lsp_did_save(struct call *call)
{
    struct document *document = find_document(call);
    if (document)
        document->club->stale = true;
    call->lsp->unsettled = true;
    return NULL;
}

json_t *lsp_folders_changed(struct call *call)
{
    struct workspace *workspace = &call->lsp->workspace;
    const json_t *removed = member_at(call->params, "event.removed"), *added = member_at(call->params, "event.added");
    for (size_t i = 0; i < json_array_size(removed); i++) {
        const char *path = uri_path(call->arena, member_words(json_array_get(removed, i), "uri"));
        if (path)
            workspace_remove_folder(workspace, path);
    }
    for (size_t i = 0; i < json_array_size(added); i++) {
        const char *path = uri_path(call->arena, member_words(json_array_get(added, i), "uri"));
        if (path)
            workspace_add_folder(workspace, path);
    }
    workspace_sort(workspace);
    call->lsp->unsettled = true;
    return NULL;
}

json_t *lsp_files_changed(struct call *call)
{
    workspace_sort(&call->lsp->workspace);
    call->lsp->unsettled = true;
    return NULL;
}

/* {"bellsheet": {"athlete": NAME}}: whose loads the hints are. */
json_t *lsp_configured(struct call *call)
{
    const json_t *settings = member_at(call->params, "settings.bellsheet");
    if (!json_is_object(settings))
        return NULL;
    const char *athlete = member_words(settings, "athlete");
    call->lsp->athlete = *athlete ? arena_copy(call->lsp->arena, athlete, strlen(athlete)) : NULL;
    if (call->lsp->wishes.refresh_hints)
        lsp_ask(call->lsp, "workspace/inlayHint/refresh", NULL);
    return NULL;
}
