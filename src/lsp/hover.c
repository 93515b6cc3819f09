/* hover.c - what the word under the pointer stands for. */
#include <string.h>

#include "base/text.h"
#include "export/json_text.h"
#include "figures/dates.h"
#include "lsp/hover_plan.h"
#include "lsp/index.h"
#include "lsp/lifted.h"
#include "lsp/methods.h"
#include "lsp/outline.h"
#include "measure/counts.h"
#include "model/programme.h"
#include "rules/margin.h"
#include "wording/entry.h"
#include "wording/wording.h"

/* --- a percentage --- */

/* The bar and the discs: " · 20 kg bar, 20 + 10 kg a side". */
static void add_plating(struct arena *arena, struct text *out, const struct load *load)
{
    const struct plating *plating = &load->plating;
    if (plating->bar)
        text_addf(out, " " WORDING_DOT " %s", wording_bar(arena, plating->bar));
    for (int i = 0; i < plating->disc_count; i++)
        text_addf(out, "%s%s", i ? " + " : plating->bar ? ", " : " " WORDING_DOT " ",
                  wording_stamped(arena, plating->discs[i]));
    if (plating->disc_count)
        text_add(out, plating->one_sleeve ? " on the sleeve" : " a side");
}

static bool same_load(const struct load *a, const struct load *b)
{
    return a->percent.low == b->percent.low && a->percent.high == b->percent.high && a->made == b->made &&
           a->asked_high == b->asked_high && a->plating.bar == b->plating.bar && a->plating.disc_count == b->plating.disc_count &&
           memcmp(a->plating.discs, b->plating.discs, sizeof a->plating.discs) == 0;
}

static void add_load(struct arena *arena, struct text *out, const struct lifted *first, int last_week)
{
    const struct load *load = &first->run->load;
    int week = first->occasion->week;
    const char *made = wording_load_mass(arena, load, first->occasion->athlete->pounds);
    text_addf(out, last_week > week ? "- weeks %d" WORDING_TO "%d: " : "- week %d: ", week, last_week);
    text_addf(out, "%s = %s", wording_load_share(arena, load), *made ? made : "no best to take it from");
    add_plating(arena, out, load);
    text_add(out, "\n");
}

/* The loads of ATHLETE on LINE; weeks in a row are put together. */
static void add_athlete(struct arena *arena, struct text *out, const struct lifted_line *line, const struct athlete *athlete)
{
    const struct lifted *first = NULL;
    int last_week = 0;
    for (size_t i = 0; i < line->count; i++) {
        const struct lifted *lifted = &line->items[i];
        if (lifted->occasion->athlete != athlete)
            continue;
        const struct best *best = lifted->run->load.best;
        if (!first)
            text_addf(out, "**%s**%s\n\n", athlete->name.shown,
                      best && !best->private
                          ? arena_printf(arena, ", of %s%s",
                                         wording_mass(arena, best->one_max, lifted->run->load.unit, athlete->pounds),
                                         best->estimated ? " est." : "")
                          : "");
        if (first && !same_load(&first->run->load, &lifted->run->load)) {
            add_load(arena, out, first, last_week);
            first = NULL;
        }
        first = first ? first : lifted;
        last_week = lifted->occasion->week;
    }
    if (first)
        add_load(arena, out, first, last_week);
    if (first)
        text_add(out, "\n");
}

static bool add_percentage(struct call *call, const struct focus *focus, const struct node *statement, size_t offset,
                           struct text *out)
{
    size_t length, line = page_caret(&focus->page, offset).line;
    page_line(&focus->page, line, &length);
    size_t start = focus->page.lines[line];
    struct lifted_lines lines = lifted_find(call->arena, focus, start, start + length);
    for (size_t i = 0; i < lines.count; i++) {
        if (lines.items[i].start != start || !statement)
            continue;
        const struct programme *programme = club_programme(focus->club);
        for (size_t a = 0; a < programme->athlete_count; a++)
            add_athlete(call->arena, out, &lines.items[i], programme->athletes[a]);
    }
    return out->length > 0;
}

/* --- an exercise --- */

static void add_exercise(struct arena *arena, struct text *out, const struct exercise *exercise)
{
    const char *trained = entry_patterns(arena, exercise);
    text_addf(out, "**%s** " WORDING_DOT " %s%s%s\n\n", exercise->name.shown, exercise_kinds.names[exercise->kind],
              *trained ? ", " : "", trained);
    hover_row(out, "loads", entry_loads(arena, exercise));
    hover_row(out, "side", entry_side(arena, exercise));
    hover_row(out, "position", entry_positions(arena, exercise));
    hover_row(out, "joints", entry_joints(arena, exercise, false));
    hover_row(out, "both sides", entry_joints(arena, exercise, true));
    hover_row(out, "needs", entry_needs(arena, exercise));
    hover_row(out, "percentages of", entry_base(arena, exercise));
    hover_row(out, "from", entry_age(exercise));
    for (size_t i = 0; i < exercise->cue_count; i++)
        hover_row(out, "cue", exercise->cues[i]);
    hover_row(out, "stop if", exercise->stop);
    hover_row(out, "easier", exercise->easier ? exercise->easier->name.shown : NULL);
    hover_row(out, "harder", exercise->harder ? exercise->harder->name.shown : NULL);
}

/* --- a limit --- */

static const char *margin_words(struct arena *arena, const struct margin *margin)
{
    char day[DATE_TEXT_SIZE];
    const char *left = counted_amount(arena, margin->counted, margin->left < 0 ? -margin->left : margin->left);
    return arena_printf(arena, "%s from %s: %s %s", margin->athlete->name.shown, date_format(margin->first, day), left,
                        margin->left < 0 ? "past it" : "left");
}

static bool add_limit(struct call *call, const struct focus *focus, const struct node *statement, struct text *out)
{
    const struct programme *programme = club_programme(focus->club);
    struct club *club = focus->club;
    if (statement->kind != STATEMENT_LIMIT || programme->incomplete)
        return false;
    if (!club->margins) {
        club->margins = arena_alloc(club->arena, sizeof *club->margins);
        rules_measure(programme, club->margins);
    }
    const struct limit *limit = NULL;
    for (size_t i = 0; i < club->margins->count; i++) {
        const struct margin *margin = &club->margins->items[i];
        const struct span span = margin->limit->span;
        if (span.file != focus->file || span.start != statement->span.start || counted_tells_body(margin->counted))
            continue;
        if (!limit)
            text_addf(out, "source: %s\n\n", margin->limit->source ? margin->limit->source : "none is given");
        limit = margin->limit;
        text_addf(out, "- %s\n", margin_words(call->arena, margin));
    }
    return limit != NULL;
}

/* --- the whole --- */

static bool add_thing(struct call *call, const struct focus *focus, const struct thing *thing, struct text *out)
{
    const struct programme *programme = club_programme(focus->club);
    for (size_t i = 0; thing->what == NAMED_EXERCISE && i < programme->exercise_count; i++)
        if (!programme->exercises[i]->replaced && text_same(programme->exercises[i]->name.folded, thing->folded))
            add_exercise(call->arena, out, programme->exercises[i]);
    for (size_t i = 0; thing->what == NAMED_SESSION && i < programme->session_count; i++)
        if (text_same(programme->sessions[i]->name.folded, thing->folded))
            hover_session(call->arena, focus, programme->sessions[i], out);
    for (size_t i = 0; thing->what == NAMED_ATHLETE && i < programme->athlete_count; i++)
        if (text_same(programme->athletes[i]->name.folded, thing->folded))
            hover_athlete(call->arena, focus, programme->athletes[i], out);
    return out->length > 0;
}

json_t *lsp_hover(struct call *call)
{
    struct focus focus;
    size_t offset;
    if (!call_focus_at(call, &focus, &offset))
        return NULL;
    struct text out = {.arena = call->arena};
    const struct node *statement = statement_at(focus.tree->root, offset);
    const struct use *use = index_at(club_index(focus.club), focus.file, offset);
    if (!statement || !is_on_line(&focus.page, statement, offset))
        return NULL;
    bool shown = use && focus_may_show(&focus, use->thing->name->span);
    bool found = (shown && add_thing(call, &focus, use->thing, &out)) || add_limit(call, &focus, statement, &out) ||
                 (!use && add_percentage(call, &focus, statement, offset, &out));
    if (!found)
        return NULL;
    json_t *hover = json_object(), *contents = json_object();
    json_put_words(contents, "kind", "markdown");
    json_put_words(contents, "value", text_get(&out));
    json_put(hover, "contents", contents);
    const struct span span = use ? use->name->span : statement->span;
    json_put(hover, "range", page_range(&focus.page, span.start, span.end));
    return hover;
}
