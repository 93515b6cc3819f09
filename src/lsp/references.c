/* references.c - from a name to where it is declared, and to where it is used. */
#include "export/json_text.h"
#include "lsp/index.h"
#include "lsp/methods.h"

static const struct use *find_use(struct call *call, struct focus *focus)
{
    size_t offset;
    if (!call_focus_at(call, focus, &offset))
        return NULL;
    return index_at(club_index(focus->club), focus->file, offset);
}

json_t *lsp_definition(struct call *call)
{
    struct focus focus;
    const struct use *use = find_use(call, &focus);
    return use ? focus_location(call, focus.club, use->thing->name->span) : NULL;
}

json_t *lsp_references(struct call *call)
{
    struct focus focus;
    const struct use *use = find_use(call, &focus);
    if (!use)
        return NULL;
    const struct index *index = club_index(focus.club);
    bool declaration = json_is_true(member_at(call->params, "context.includeDeclaration"));
    json_t *all = json_array();
    for (size_t i = 0; i < index->use_count; i++)
        if (index->uses[i].thing == use->thing && (declaration || !index->uses[i].declares))
            json_add(all, focus_location(call, focus.club, index->uses[i].name->span));
    return all;
}

json_t *lsp_highlight(struct call *call)
{
    enum { READ = 2, WRITE = 3 };
    struct focus focus;
    const struct use *use = find_use(call, &focus);
    if (!use)
        return NULL;
    const struct index *index = club_index(focus.club);
    json_t *all = json_array();
    for (size_t i = 0; i < index->use_count; i++) {
        const struct span span = index->uses[i].name->span;
        if (index->uses[i].thing != use->thing || span.file != focus.file)
            continue;
        json_t *one = json_object();
        json_put(one, "range", page_range(&focus.page, span.start, span.end));
        json_put(one, "kind", json_integer(index->uses[i].declares ? WRITE : READ));
        json_add(all, one);
    }
    return all;
}
