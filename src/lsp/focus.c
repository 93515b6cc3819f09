/* focus.c - what a request looks at: a document in its plan, up to date. */
#include <string.h>

#include "export/json_text.h"
#include "lsp/server.h"
#include "lsp/uri.h"
#include "plan/plan_files.h"

struct page focus_page(struct call *call, const struct club *club, unsigned file)
{
    const struct source *source = &club->session->project.sources.items[file];
    struct shown_file *shown = &club->files[file];
    if (!shown->page) {
        struct page *page = arena_alloc(club->arena, sizeof *page);
        *page = page_make(club->arena, source->text, source->length, call->lsp->encoding);
        page->marked = source->marked && source->version >= 0; /* no client shows that of a file on the disk */
        shown->page = page;
    }
    return *shown->page;
}

static const char *path_uri(const struct club *club, unsigned file)
{
    const struct source *source = &club->session->project.sources.items[file];
    struct shown_file *shown = &club->files[file];
    const char *path = source->path;
    if (!shown->uri)
        shown->uri = uri_of_path(club->arena, *path == '/' ? path : plan_true_path(club->arena, path));
    return shown->uri;
}

const char *focus_uri(struct call *call, const struct club *club, unsigned file)
{
    const struct source *source = &club->session->project.sources.items[file];
    const struct document *document =
        source->shelf ? NULL : club_document(&call->lsp->workspace, club, source);
    return document ? document->uri : path_uri(club, file);
}

json_t *focus_location(struct call *call, const struct club *club, struct span span)
{
    struct page page = focus_page(call, club, span.file);
    json_t *location = json_object();
    json_put_words(location, "uri", focus_uri(call, club, span.file));
    json_put(location, "range", page_range(&page, span.start, span.end));
    return location;
}

static const struct tree *tree_of(const struct project *project, unsigned file)
{
    for (size_t i = 0; i < project->tree_count; i++)
        if (project->trees[i]->file == file)
            return project->trees[i];
    return NULL;
}

bool call_focus(struct call *call, struct focus *focus)
{
    struct workspace *workspace = &call->lsp->workspace;
    const char *uri = member_words(json_object_get(call->params, "textDocument"), "uri");
    struct document *document = workspace_find(workspace, uri);
    if (!document) {
        call_fail(call, ERROR_INVALID_PARAMS, "this document is not open");
        return false;
    }
    struct club *club = document->club;
    int file = club_refresh(workspace, club) ? document_file(workspace, document) : -1;
    if (file < 0) {
        call_fail(call, ERROR_FAILED, club->loaded ? "this file is no part of the plan" : bell_failure(club->session));
        return false;
    }
    const struct project *project = &club->session->project;
    *focus = (struct focus){.document = document, .club = club, .project = project,
                          .source = &project->sources.items[file], .file = (unsigned)file,
                          .tree = tree_of(project, (unsigned)file), .page = focus_page(call, club, (unsigned)file)};
    return focus->tree != NULL;
}

bool call_focus_at(struct call *call, struct focus *focus, size_t *offset)
{
    struct caret position;
    if (!call_focus(call, focus))
        return false;
    if (!caret_read(json_object_get(call->params, "position"), &position)) {
        call_fail(call, ERROR_INVALID_PARAMS, "there is no such position");
        return false;
    }
    *offset = page_offset(&focus->page, position);
    return true;
}

bool focus_may_show(const struct focus *focus, struct span span)
{
    return span.file == focus->file || !diag_is_private(focus->project->diag, span);
}
