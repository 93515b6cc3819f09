#include "lsp/edit.h"

#include <string.h>

#include "export/json_text.h"

void edit_add(struct call *call, const struct club *club, json_t *edit, unsigned file, json_t *edits)
{
    const struct source *source = &club->session->project.sources.items[file];
    const char *uri = focus_uri(call, club, file), *key = call->lsp->wishes.versioned_edits ? "documentChanges" : "changes";
    if (!json_object_get(edit, key))
        json_put(edit, key, call->lsp->wishes.versioned_edits ? json_array() : json_object());
    json_t *all = json_object_get(edit, key);
    if (!call->lsp->wishes.versioned_edits) {
        json_put(all, uri, edits);
        return;
    }
    const struct document *document = club_document(&call->lsp->workspace, club, source);
    json_t *change = json_object(), *about = json_object();
    json_put_words(about, "uri", uri);
    json_put(about, "version", document && document->versioned ? json_integer(document->version) : json_null());
    json_put(change, "textDocument", about);
    json_put(change, "edits", edits);
    json_add(all, change);
}

json_t *edit_json(const struct page *page, size_t start, size_t end, const char *text)
{
    json_t *edit = json_object();
    json_put(edit, "range", page_range(page, start, end));
    json_put_words(edit, "newText", text);
    return edit;
}
