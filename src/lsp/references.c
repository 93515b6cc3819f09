/* references.c - from a name to where it is declared, and to where it stands. */
#include "export/json_text.h"
#include "lsp/index.h"
#include "lsp/methods.h"

static const struct use *find_use(struct call *call, struct view *view)
{
    size_t offset;
    if (!call_view_at(call, view, &offset))
        return NULL;
    return index_at(club_index(view->club), view->file, offset);
}

json_t *lsp_definition(struct call *call)
{
    struct view view;
    const struct use *use = find_use(call, &view);
    return use ? view_location(call, view.club, use->thing->name->span) : NULL;
}

json_t *lsp_references(struct call *call)
{
    struct view view;
    const struct use *use = find_use(call, &view);
    if (!use)
        return NULL;
    const struct index *index = club_index(view.club);
    bool declaration = json_is_true(member_at(call->params, "context.includeDeclaration"));
    json_t *all = json_array();
    for (size_t i = 0; i < index->use_count; i++)
        if (index->uses[i].thing == use->thing && (declaration || !index->uses[i].declares))
            json_add(all, view_location(call, view.club, index->uses[i].name->span));
    return all;
}

json_t *lsp_highlight(struct call *call)
{
    enum { READ = 2, WRITE = 3 };
    struct view view;
    const struct use *use = find_use(call, &view);
    if (!use)
        return NULL;
    const struct index *index = club_index(view.club);
    json_t *all = json_array();
    for (size_t i = 0; i < index->use_count; i++) {
        const struct span span = index->uses[i].name->span;
        if (index->uses[i].thing != use->thing || span.file != view.file)
            continue;
        json_t *one = json_object();
        json_put(one, "range", page_range(&view.page, span.start, span.end));
        json_put(one, "kind", json_integer(index->uses[i].declares ? WRITE : READ));
        json_add(all, one);
    }
    return all;
}
