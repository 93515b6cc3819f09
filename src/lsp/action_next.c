/* action_next.c - the next loads by the rules of the lines and what was done, as `next --apply` writes them. If the
 * client can wait for that (codeAction/resolve), the server only works out whether the plan has errors with them
 * when one is chosen. */
#include <string.h>

#include "amend/proposed.h"
#include "base/text.h"
#include "export/json_text.h"
#include "figures/dates.h"
#include "lsp/action.h"
#include "lsp/edit.h"
#include "lsp/methods.h"
#include "model/programme.h"
#include "plan/plan_files.h"

/* The proposals in question: one of them, or all. */
struct chosen {
    struct proposal *items;
    size_t count;
};

/* All next loads in FOCUS's plan, which is complete. */
static struct chosen find_next(struct call *call, const struct focus *focus)
{
    struct chosen chosen = {0};
    const struct programme *programme = club_programme(focus->club);
    if (!programme->incomplete && programme->log_count)
        chosen.count = next_of(call->arena, programme, 0, NULL, &chosen.items);
    return chosen;
}

/* --- the edit --- */

/* The file of PROJECT at the true path PATH, or -1. */
static int file_at(struct arena *arena, const struct project *project, const char *path)
{
    for (size_t i = 0; i < project->sources.count; i++)
        if (!project->sources.items[i].shelf && strcmp(plan_true_path(arena, project->sources.items[i].path), path) == 0)
            return (int)i;
    return -1;
}

/* Is AT inside a character of TEXT? */
static bool splits(const char *text, size_t at)
{
    return ((unsigned char)text[at] & 0xc0) == 0x80;
}

/* Adds to EDIT what turns FILE into the LENGTH bytes of TEXT: it replaces the stretch between their common beginning
 * and end. */
static void add_difference(struct call *call, const struct focus *focus, unsigned file, const char *text, size_t length,
                           json_t *edit)
{
    const struct source *source = &focus->project->sources.items[file];
    size_t least = source->length < length ? source->length : length, head = 0, tail = 0;
    while (head < least && source->text[head] == text[head])
        head++;
    while (head > 0 && (splits(source->text, head) || splits(text, head)))
        head--;
    while (tail < least - head && source->text[source->length - 1 - tail] == text[length - 1 - tail])
        tail++;
    while (tail > 0 && splits(text, length - tail))
        tail--;
    if (head == length && head == source->length)
        return;
    struct page page = focus_page(call, focus->club, file);
    json_t *edits = json_array();
    const char *new = arena_copy(call->arena, text + head, length - tail - head);
    json_add(edits, edit_json(&page, head, source->length - tail, new));
    edit_add(call, focus->club, edit, file, edits);
}

/* The workspace edit that writes CHOSEN into the plan; NULL, with an error as the answer, if the plan would have an
 * error. */
static json_t *make_edit(struct call *call, const struct focus *focus, const struct chosen *chosen)
{
    const struct bell_session *session = focus->club->session;
    const struct project_request request = session_request(session);
    struct project before = session->project;
    before.arena = call->arena;
    struct proposed proposed = proposed_of(call->arena, &before, chosen->items, chosen->count);
    if (proposed.standing)
        proposed_write(call->arena, &request, &before, &proposed);
    if (!proposed.standing || proposed.wrong)
        return call_fail(call, ERROR_FAILED, "the plan would have an error with it; `bellsheet next` says which");
    json_t *edit = json_object();
    const struct project_request *after = &proposed.attempt.request;
    for (size_t i = 0; i < after->overlay_count; i++) {
        int file = file_at(call->arena, &session->project, after->overlays[i].path);
        if (file >= 0)
            add_difference(call, focus, (unsigned)file, after->overlays[i].text, after->overlays[i].length, edit);
    }
    return edit;
}

/* --- offering --- */

/* What identifies ONE, or all if it is NULL, when the action is chosen later. */
static json_t *data_of(const struct focus *focus, const struct proposal *one)
{
    json_t *data = json_object(), *about = json_object();
    json_put_words(about, "uri", focus->document->uri);
    json_put(data, "textDocument", about);
    if (!one)
        return data;
    json_put_words(data, "athlete", one->occasion->athlete->name.shown);
    json_put_words(data, "line", one->item->ref);
    json_put(data, "day", json_integer(one->occasion->date));
    json_put_words(data, "session", one->occasion->session->name.folded);
    return data;
}

static bool is_meant(const json_t *data, const struct proposal *one)
{
    return strcmp(member_words(data, "athlete"), one->occasion->athlete->name.shown) == 0 &&
           strcmp(member_words(data, "line"), one->item->ref) == 0 &&
           strcmp(member_words(data, "session"), one->occasion->session->name.folded) == 0 &&
           json_integer_value(json_object_get(data, "day")) == one->occasion->date;
}

/* A client that cannot wait for the edit gets it at once, or no action if there is no edit. */
static void offer(const struct acting *acting, const char *title, const struct proposal *one, const struct chosen *chosen)
{
    struct call inner = *acting->call;
    bool waits = acting->call->lsp->wishes.resolves_actions;
    json_t *edit = waits ? NULL : make_edit(&inner, acting->focus, chosen);
    if (!waits && !edit)
        return;
    json_t *action = action_add(acting, "refactor.rewrite", title, edit, NULL);
    if (waits)
        json_put(action, "data", data_of(acting->focus, one));
}

/* Does the line of SPAN, or what is in it, touch what was asked about? */
static bool touches_line(const struct acting *acting, struct span span)
{
    const struct page *page = &acting->focus->page;
    size_t line = span.file == acting->focus->file ? page_caret(page, span.start).line : 0;
    return span.file == acting->focus->file && page_caret(page, acting->first).line <= line &&
           line <= page_caret(page, acting->last).line;
}

void action_add_next(const struct acting *acting)
{
    struct chosen all = find_next(acting->call, acting->focus);
    bool any = false;
    for (size_t i = 0; i < all.count; i++) {
        struct proposal *one = &all.items[i];
        char day[DATE_TEXT_SIZE];
        if (!touches_line(acting, one->item->span) && !touches_line(acting, one->occasion->span))
            continue;
        date_format(one->occasion->date, day);
        const char *title = arena_printf(acting->call->arena, "next for %s on %s: %s %s, because %s",
                                         one->occasion->athlete->name.shown, day, one->item->ref,
                                         proposed_dose(acting->call->arena, one), one->why);
        offer(acting, title, one, &(struct chosen){one, 1});
        any = true;
    }
    if (any && all.count > 1)
        offer(acting, arena_printf(acting->call->arena, "write all %zu next loads of the plan", all.count), NULL, &all);
}

/* --- taking --- */

/* Those of ALL that DATA identifies; none if the plan has changed so that they are gone. */
static struct chosen choose(const struct chosen *all, const json_t *data)
{
    if (!json_object_get(data, "athlete"))
        return *all;
    for (size_t i = 0; i < all->count; i++)
        if (is_meant(data, &all->items[i]))
            return (struct chosen){&all->items[i], 1};
    return (struct chosen){0};
}

static json_t *edit_again(struct call *call)
{
    struct focus focus;
    if (!call_focus(call, &focus))
        return NULL;
    const struct chosen all = find_next(call, &focus), chosen = choose(&all, call->params);
    if (!chosen.count)
        return call_fail(call, ERROR_FAILED, "the plan has changed since; ask again");
    return make_edit(call, &focus, &chosen);
}

json_t *lsp_resolve_action(struct call *call)
{
    struct call inner = *call;
    inner.params = json_object_get(call->params, "data");
    json_t *edit = json_is_object(inner.params) ? edit_again(&inner) : NULL;
    if (inner.code)
        return call_fail(call, inner.code, inner.words);
    json_t *action = json_deep_copy(call->params);
    if (edit)
        json_put(action, "edit", edit);
    return action;
}
