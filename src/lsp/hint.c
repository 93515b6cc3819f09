/* hint.c - after each percentage, the kilograms that it comes to: week by week for one athlete, from the least to
 * the most for several. */
#include <string.h>

#include "base/text.h"
#include "export/json_text.h"
#include "lsp/lifted.h"
#include "lsp/methods.h"
#include "model/athlete.h"
#include "model/occasion.h"
#include "wording/wording.h"

enum { MOST_FIGURES = 8 };

/* Is LIFTED the work of the athlete that the client named? If it named none, anybody's counts. */
static bool is_asked_for(const struct call *call, const struct lifted *lifted)
{
    return !call->lsp->athlete || strcmp(lifted->occasion->athlete->name.shown, call->lsp->athlete) == 0;
}

static mass made_of(const struct lifted *lifted)
{
    return lifted->run->load.made ? lifted->run->load.made : lifted->run->load.asked;
}

static const char *number(struct arena *arena, mass load, enum mass_unit unit)
{
    char text[MASS_TEXT_SIZE];
    const char *words = mass_format(load, unit, text);
    return arena_copy(arena, words, strlen(words));
}

/* The unit to write behind the figure of ONE, which that of OTHER follows: none where both have the same. */
static const char *unit_before(struct arena *arena, const struct lifted *one, const struct lifted *other)
{
    enum mass_unit unit = one->run->load.unit;
    return unit == other->run->load.unit ? "" : arena_printf(arena, " %s", mass_unit_name(unit));
}

/* What LINE comes to for one athlete, each load where it changes; NULL if there are too many. */
static const char *in_weeks(struct call *call, const struct lifted_line *line)
{
    struct text text = {.arena = call->arena};
    const struct lifted *last = NULL;
    int figures = 0;
    for (size_t i = 0; i < line->count; i++) {
        const struct lifted *lifted = &line->items[i];
        if (!is_asked_for(call, lifted) || !made_of(lifted) || (last && made_of(last) == made_of(lifted)))
            continue;
        if (++figures > MOST_FIGURES)
            return NULL;
        if (last)
            text_addf(&text, "%s/", unit_before(call->arena, last, lifted));
        text_add(&text, number(call->arena, made_of(lifted), lifted->run->load.unit));
        last = lifted;
    }
    return last ? arena_printf(call->arena, "%s %s", text_get(&text), mass_unit_name(last->run->load.unit)) : NULL;
}

static const char *hint_words(struct call *call, const struct lifted_line *line)
{
    const struct lifted *least = NULL, *most = NULL;
    bool several = false;
    for (size_t i = 0; i < line->count; i++) {
        const struct lifted *lifted = &line->items[i];
        if (!is_asked_for(call, lifted) || !made_of(lifted))
            continue;
        several |= least && least->occasion->athlete != lifted->occasion->athlete;
        least = !least || made_of(lifted) < made_of(least) ? lifted : least;
        most = !most || made_of(lifted) > made_of(most) ? lifted : most;
    }
    if (!least)
        return NULL;
    const char *weeks = several ? NULL : in_weeks(call, line), *unit = mass_unit_name(most->run->load.unit);
    if (weeks)
        return weeks;
    const char *low = number(call->arena, made_of(least), least->run->load.unit);
    const char *high = number(call->arena, made_of(most), most->run->load.unit);
    return made_of(least) == made_of(most) ? arena_printf(call->arena, "%s %s", high, unit)
                                           : arena_printf(call->arena, "%s%s" WORDING_TO "%s %s", low,
                                                          unit_before(call->arena, least, most), high, unit);
}

json_t *lsp_inlay_hint(struct call *call)
{
    struct focus focus;
    size_t first, last;
    if (!call_focus(call, &focus))
        return NULL;
    if (!page_read_range(&focus.page, json_object_get(call->params, "range"), &first, &last))
        return call_fail(call, ERROR_INVALID_PARAMS, "there is no such range");
    struct lifted_lines lines = lifted_find(call->arena, &focus, first, last);
    json_t *all = json_array();
    for (size_t i = 0; i < lines.count; i++) {
        const char *words = hint_words(call, &lines.items[i]);
        if (!words)
            continue;
        json_t *hint = json_object();
        json_put(hint, "position", caret_json(page_caret(&focus.page, lines.items[i].behind)));
        json_put_words(hint, "label", words);
        json_put(hint, "paddingLeft", json_true());
        json_add(all, hint);
    }
    return all;
}
