/* action.c - what can be done about a finding: its fix, or a waiver whose reason the coach fills in. */
#include <string.h>

#include "amend/placed.h"
#include "export/json_text.h"
#include "figures/dates.h"
#include "lsp/action.h"
#include "lsp/diagnostic.h"
#include "lsp/edit.h"
#include "lsp/index.h"
#include "lsp/methods.h"
#include "lsp/outline.h"
#include "lsp/publish.h"
#include "model/programme.h"
#include "rules/run.h"

enum { WEEK = 7 };

json_t *action_add(const struct acting *acting, const char *kind, const char *title, json_t *edit,
                   const struct finding *finding)
{
    json_t *action = json_object();
    json_put_words(action, "title", title);
    json_put_words(action, "kind", kind);
    if (finding) {
        json_t *diagnostics = json_array();
        json_add(diagnostics, diagnostic_json(acting->call, acting->focus->club, &acting->focus->page, finding));
        json_put(action, "diagnostics", diagnostics);
    }
    if (edit)
        json_put(action, "edit", edit);
    json_add(acting->all, action);
    return action;
}

json_t *action_edit(const struct acting *acting, unsigned file, size_t start, size_t end, const char *text)
{
    struct page page = focus_page(acting->call, acting->focus->club, file);
    json_t *edit = json_object(), *edits = json_array();
    json_add(edits, edit_json(&page, start, end, text));
    edit_add(acting->call, acting->focus->club, edit, file, edits);
    return edit;
}

bool action_touches(const struct acting *acting, struct span span)
{
    return span.file == acting->focus->file && span.start <= acting->last && span.end >= acting->first;
}

/* --- fixes --- */

static void add_fix(const struct acting *acting, const struct finding *finding)
{
    const struct span fix = finding->fix;
    struct arena *arena = acting->call->arena;
    if (!finding->replacement || acting->focus->project->sources.items[fix.file].shelf)
        return;
    const char *title = *finding->replacement ? arena_printf(arena, "write `%s`", finding->replacement)
                        : finding->help       ? finding->help
                                              : "leave it out";
    json_t *edit = action_edit(acting, fix.file, fix.start, fix.end < fix.start ? fix.start : fix.end, finding->replacement);
    json_put(action_add(acting, "quickfix", title, edit, finding), "isPreferred", json_true());
}

/* --- waivers --- */

/* The camp of whose week or phase a finding speaks, if any of its days are in the camp; or NULL. */
static const struct camp *find_camp(const struct programme *programme, const struct whose *of)
{
    for (size_t i = 0; i < programme->camp_count; i++) {
        const struct camp *camp = programme->camps[i];
        const struct span span = camp->name.span;
        if (span.file == of->span.file && span.start == of->span.start && of->first <= camp->last && of->last >= camp->first)
            return camp;
    }
    return NULL;
}

/* The indentation of the lines below CAMP, which has some. */
static const char *indent_below(struct arena *arena, const struct source *source, const struct node *camp)
{
    const struct node *at = camp->first;
    while (!node_is_statement(at))
        at = at->next;
    size_t line = at->span.start;
    while (source->text[line - 1] == ' ' || source->text[line - 1] == '\t')
        line--;
    return arena_copy(arena, source->text + line, at->span.start - line);
}

/* The end of the line that holds the last byte of STATEMENT's block. */
static size_t block_end(const struct source *source, const struct node *statement)
{
    size_t end = statement_end(statement);
    while (end < source->length && source->text[end] != '\n')
        end++;
    return end;
}

static void add_waiver(const struct acting *acting, const struct finding *finding)
{
    const struct focus *focus = acting->focus;
    struct arena *arena = acting->call->arena;
    const char *name = diagnostic_name(finding->diagnostic);
    const struct rule *rule = rule_find(name);
    if (!rule || rule->marks & (FIRM | HEALTH) || finding->severity == SEVERITY_INFO || !finding->of)
        return;
    const struct camp *camp = find_camp(club_programme(focus->club), finding->of);
    if (!camp)
        return;
    unsigned file = camp->name.span.file;
    const struct source *source = &focus->project->sources.items[file];
    const struct node *statement = placed_statement(focus->project, camp->name.span);
    int first = finding->of->first > camp->first ? finding->of->first : camp->first;
    int week = (first - date_monday(camp->first)) / WEEK + 1;
    const char *indent = indent_below(arena, source, statement);
    size_t end = block_end(source, statement);
    const char *lines = arena_printf(arena, "\n%swaive  %s in week %d\n%s    because ", indent, name, week, indent);
    action_add(acting, "quickfix", arena_printf(arena, "waive %s in week %d, and say why", name, week),
               action_edit(acting, file, end, end, lines), finding);
}

/* --- the whole --- */

/* Does the client want actions of KIND? If it names no kinds, it wants all. */
static bool wants(const struct call *call, const char *kind)
{
    const json_t *only = member_at(call->params, "context.only");
    bool any = json_array_size(only) > 0, found = false;
    for (size_t i = 0; i < json_array_size(only); i++) {
        const char *asked = json_string_value(json_array_get(only, i));
        size_t length = asked ? strlen(asked) : 0;
        found |= asked && strncmp(kind, asked, length) == 0 && (kind[length] == '\0' || kind[length] == '.');
    }
    return !any || found;
}

json_t *lsp_code_action(struct call *call)
{
    struct focus focus;
    struct acting acting = {.call = call, .focus = &focus};
    if (!call_focus(call, &focus))
        return NULL;
    if (!page_read_range(&focus.page, json_object_get(call->params, "range"), &acting.first, &acting.last))
        return call_fail(call, ERROR_INVALID_PARAMS, "there is no such range");
    acting.all = json_array();
    const struct file_findings *findings = &publish_gather(call->arena, focus.club)[focus.file];
    for (size_t i = 0; i < findings->count && wants(call, "quickfix"); i++) {
        const struct finding *finding = findings->items[i];
        if (!action_touches(&acting, finding->span))
            continue;
        add_fix(&acting, finding);
        add_waiver(&acting, finding);
    }
    if (wants(call, "quickfix"))
        action_add_stand_ins(&acting);
    if (wants(call, "refactor.rewrite")) {
        action_add_others(&acting);
        action_add_next(&acting);
    }
    return acting.all;
}
