/* action_other.c - another exercise instead of one. */
#include <string.h>

#include "base/text.h"
#include "export/json_text.h"
#include "lsp/action.h"
#include "lsp/index.h"
#include "lsp/outline.h"
#include "measure/stand_in.h"
#include "model/programme.h"

/* --- what an exercise names --- */

static void add_other(const struct acting *acting, const struct use *use, const struct exercise *other, const char *why)
{
    if (!other)
        return;
    const struct span span = use->name->span;
    const char *title = arena_printf(acting->call->arena, "%s: %s", why, other->name.shown);
    action_add(acting, "refactor.rewrite", title,
               action_edit(acting, span.file, span.start, span.end, other->name.shown), NULL);
}

void action_add_others(const struct acting *acting)
{
    const struct focus *focus = acting->focus;
    const struct programme *programme = club_programme(focus->club);
    const struct use *use = index_at(club_index(focus->club), focus->file, acting->first);
    if (!use || use->declares || use->thing->what != NAMED_EXERCISE)
        return;
    for (size_t i = 0; i < programme->exercise_count; i++) {
        const struct exercise *exercise = programme->exercises[i];
        if (exercise->replaced || !text_same(exercise->name.folded, use->thing->folded))
            continue;
        add_other(acting, use, exercise->easier, "easier");
        add_other(acting, use, exercise->harder, "harder");
        for (size_t k = 0; k < exercise->without_count; k++)
            add_other(acting, use, exercise->without[k].instead,
                      arena_printf(acting->call->arena, "without %s", exercise->without[k].kit.shown));
    }
}

/* --- what may stand in --- */

static const struct athlete *find_athlete(const struct programme *programme, const char *name)
{
    for (size_t i = 0; i < programme->athlete_count; i++)
        if (text_same(programme->athletes[i]->name.shown, name))
            return programme->athletes[i];
    return NULL;
}

static const struct exercise *find_exercise(const struct programme *programme, const char *folded)
{
    for (size_t i = 0; i < programme->exercise_count; i++)
        if (!programme->exercises[i]->replaced && text_same(programme->exercises[i]->name.folded, folded))
            return programme->exercises[i];
    return NULL;
}

/* The line `for NAME, EXERCISE`, for one athlete alone, below the line that USE is in. */
static json_t *edit_for_one(const struct acting *acting, const struct use *use, const char *athlete, const char *exercise)
{
    const struct page *page = &acting->focus->page;
    size_t start = use->name->span.start, length, line = page_caret(page, start).line;
    const char *text = page_line(page, line, &length);
    size_t end = page->lines[line] + length, indent = strspn(text, " \t");
    const char *added = arena_printf(acting->call->arena, "\n%.*s    for %s, %s", (int)indent, text, athlete, exercise);
    return action_edit(acting, use->name->span.file, end, end, added);
}

/* May FINDING's grounds be seen here? What a file says of somebody's health, private or not, is shown in that file alone:
 * who is to do something else, and what that spares, would give it away. */
static bool may_be_known(const struct acting *acting, const struct finding *finding)
{
    for (size_t i = 0; i < finding->note_count; i++)
        if (finding->notes[i].placed && !focus_may_show(acting->focus, finding->notes[i].span))
            return false;
    return !finding->private;
}

/* The actions for one finding: for everybody if kit is missing, for one athlete alone if that one must not do it. */
static void add_stand_ins(const struct acting *acting, const struct finding *finding)
{
    enum { MOST = 3 };
    const struct focus *focus = acting->focus;
    const struct programme *programme = club_programme(focus->club);
    const struct use *use = index_at(club_index(focus->club), focus->file, finding->span.start);
    bool alone = finding->diagnostic == DIAG_AVOID_BROKEN;
    if (!use || use->declares || use->thing->what != NAMED_EXERCISE || !finding->of)
        return;
    const struct athlete *athlete = find_athlete(programme, finding->of->who);
    const struct stand_in_for asked = {.programme = programme,
                                       .exercise = find_exercise(programme, use->thing->folded),
                                       .athlete = alone ? athlete : NULL,
                                       .gym = athlete ? athlete->gym : NULL,
                                       .day = finding->of->first,
                                       .same_dose = true};
    struct stand_in found[STAND_INS_MOST];
    size_t count = asked.exercise && athlete ? stand_ins_find(&asked, found) : 0;
    for (size_t i = 0; i < count && i < MOST; i++) {
        const char *name = found[i].exercise->name.shown;
        struct arena *arena = acting->call->arena;
        const char *title = alone ? arena_printf(arena, "for %s, %s", athlete->name.shown, name)
                                  : arena_printf(arena, "write `%s`", name);
        json_t *edit = alone ? edit_for_one(acting, use, athlete->name.shown, name)
                             : action_edit(acting, focus->file, use->name->span.start, use->name->span.end, name);
        action_add(acting, "quickfix", arena_printf(arena, "%s: %s", title, stand_in_words(arena, asked.exercise,
                                                                                             found[i].exercise)), edit, NULL);
    }
}

void action_add_stand_ins(const struct acting *acting)
{
    const struct diag *diag = acting->focus->project->diag;
    for (size_t i = 0; i < diag->count; i++) {
        const struct finding *finding = diag->items[i];
        bool replaceable = finding->diagnostic == DIAG_KIT_MISSING || finding->diagnostic == DIAG_AVOID_BROKEN;
        if (replaceable && action_touches(acting, finding->span) && may_be_known(acting, finding))
            add_stand_ins(acting, finding);
    }
}
