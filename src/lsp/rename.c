/* rename.c - another name for what is declared, wherever it is used. Comments, cues and longer names are left alone,
 * because only what the tree knows as this name is changed.
 *
 * * Whether the new name can be written is not decided here: the renamed plan is compiled beside the old one, and
 * must not have an error that the old one does not have. */
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "export/json_text.h"
#include "lsp/edit.h"
#include "lsp/index.h"
#include "lsp/methods.h"

static const char REFUSED[] = "the plan would not mean the same under this name: it is taken, or cannot be written";

static const struct use *find_use(struct call *call, struct focus *focus)
{
    size_t offset;
    if (!call_focus_at(call, focus, &offset))
        return NULL;
    const struct use *use = index_at(club_index(focus->club), focus->file, offset);
    if (!use)
        call_fail(call, ERROR_FAILED, "there is no name here that the plan declares");
    else if (use->thing->shelf)
        call_fail(call, ERROR_FAILED, "this comes with the program: declare one of your own to call it otherwise");
    else if (!use->same)
        call_fail(call, ERROR_FAILED, "this is another name of it: rename it where it is declared");
    return call->code ? NULL : use;
}

json_t *lsp_prepare_rename(struct call *call)
{
    struct focus focus;
    const struct use *use = find_use(call, &focus);
    if (!use)
        return NULL;
    json_t *json = json_object();
    json_put(json, "range", page_range(&focus.page, use->name->span.start, use->name->span.end));
    json_put_words(json, "placeholder", use->thing->shown);
    return json;
}

/* --- the renamed plan --- */

/* The text of FILE with NEW in every place of THING. */
static struct text renamed_text(struct call *call, const struct focus *focus, unsigned file, const struct thing *thing,
                                const char *new)
{
    const struct index *index = club_index(focus->club);
    const struct source *source = &focus->project->sources.items[file];
    struct text text = {.arena = call->arena};
    size_t at = 0;
    text_add(&text, source->marked ? "\xef\xbb\xbf" : "");
    for (size_t i = 0; i < index->use_count; i++) {
        const struct span span = index->uses[i].name->span;
        if (span.file != file || index->uses[i].thing != thing || !index->uses[i].same)
            continue;
        text_add_bytes(&text, source->text + at, span.start - at);
        text_add(&text, new);
        at = span.end;
    }
    text_add_bytes(&text, source->text + at, source->length - at);
    return text;
}

/* Does the renamed tree say the same as the old one, apart from the name? */
static bool trees_agree(const struct node *old, const struct node *now, const struct thing *thing, const char *shown,
                        struct arena *arena)
{
    if (old->kind != now->kind || old->code != now->code)
        return false;
    if (old->kind == NODE_NAME && strcmp(old->text, now->text) != 0) {
        const char *folded = text_fold(arena, old->text, strlen(old->text));
        if (strcmp(folded, thing->folded) != 0 || strcmp(now->text, shown) != 0)
            return false;
    }
    const struct node *a = old->first, *b = now->first;
    for (; a && b; a = a->next, b = b->next)
        if (!trees_agree(a, b, thing, shown, arena))
            return false;
    return !a && !b;
}

static size_t count_errors(const struct project *project)
{
    return diag_count(project->diag, SEVERITY_ERROR);
}

/* The tree of the file that was opened as PATH. */
static const struct tree *find_tree(const struct project *project, const char *path)
{
    for (size_t i = 0; i < project->tree_count; i++)
        if (strcmp(project->sources.items[project->trees[i]->file].path, path) == 0)
            return project->trees[i];
    return NULL;
}

/* Compiles the plan of VIEW as it would become, and compares. */
static bool means_the_same(struct call *call, const struct focus *focus, const struct thing *thing, const char *new)
{
    const struct bell_options options = {.share = call->lsp->host.share, .today = call->lsp->host.today};
    struct bell_session *session;
    if (bell_open(&options, &session) != BELL_OK)
        return false;
    bell_add_path(session, focus->club->root);
    for (unsigned file = 0; file < focus->project->sources.count; file++) {
        const struct source *source = &focus->project->sources.items[file];
        if (source->shelf)
            continue;
        struct text text = renamed_text(call, focus, file, thing, new);
        bell_overlay(session, source->path, text_get(&text), text.length, 1);
    }
    bool same = bell_compile(session) == BELL_OK && count_errors(&session->project) <= count_errors(focus->project);
    for (size_t i = 0; i < focus->project->tree_count && same; i++) {
        const struct tree *tree = focus->project->trees[i];
        const struct source *source = &focus->project->sources.items[tree->file];
        const struct tree *other = source->shelf ? tree : find_tree(&session->project, source->path);
        same = other && trees_agree(tree->root, other->root, thing, new, call->arena);
    }
    bell_close(session);
    return same;
}

/* --- the edit --- */

static json_t *file_edits(struct call *call, const struct focus *focus, unsigned file, const struct thing *thing,
                          const char *new)
{
    const struct index *index = club_index(focus->club);
    struct page page = focus_page(call, focus->club, file);
    json_t *edits = json_array();
    for (size_t i = 0; i < index->use_count; i++) {
        const struct span span = index->uses[i].name->span;
        if (span.file != file || index->uses[i].thing != thing || !index->uses[i].same)
            continue;
        json_add(edits, edit_json(&page, span.start, span.end, new));
    }
    return edits;
}

json_t *lsp_rename(struct call *call)
{
    struct focus focus;
    const struct use *use = find_use(call, &focus);
    const char *asked = member_words(call->params, "newName");
    if (!use)
        return NULL;
    char *trimmed = g_strstrip(g_strdup(asked));
    const char *new = arena_copy(call->arena, trimmed, strlen(trimmed));
    g_free(trimmed);
    if (!*new || strpbrk(new, "\r\n") || !means_the_same(call, &focus, use->thing, new))
        return call_fail(call, ERROR_FAILED, REFUSED);
    json_t *edit = json_object();
    for (unsigned file = 0; file < focus.project->sources.count; file++) {
        json_t *edits = file_edits(call, &focus, file, use->thing, new);
        if (json_array_size(edits))
            edit_add(call, focus.club, edit, file, edits);
        else
            json_decref(edits);
    }
    return edit;
}
