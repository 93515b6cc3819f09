#include "base/text.h"
#include "figures/mass.h"
#include "language/language.h"
#include "model/log.h"
#include "model/set.h"
#include "wording/wording.h"

static void add_load(struct text *out, const struct logged_set *set)
{
    char number[MASS_TEXT_SIZE];
    enum mass_unit unit = mass_written_in(set->load);
    const char *figure = said_figures(out->arena, mass_format(set->load, unit, number));
    switch (set->kind) {
    case LOAD_MASS:
        text_add(out, " @" WORDING_GAP);
        if (set->pieces > 1)
            text_addf(out, "%d" WORDING_GAP WORDING_TIMES WORDING_GAP, set->pieces);
        text_addf(out, "%s" WORDING_GAP "%s", figure, wording_mass_unit(out->arena, unit));
        break;
    case LOAD_BODY:
        if (set->load > 0)
            text_addf(out, " + %s" WORDING_GAP "%s", figure, wording_mass_unit(out->arena, unit));
        break;
    case LOAD_BAND:
        text_addf(out, ", %s", said_as(out->arena, "kit", set->thing));
        break;
    default:
        break;
    }
}

const char *wording_logged_set(struct arena *arena, const struct logged_set *set)
{
    struct text out = {.arena = arena};
    bool sums = set->count > 1 && set->part_count > 1; /* 2 × (4 + 4) is not 2 × 4 and then four */
    if (set->count > 1)
        text_addf(&out, "%d" WORDING_GAP WORDING_TIMES WORDING_GAP, set->count);
    text_add(&out, sums ? "(" : "");
    for (size_t i = 0; i < set->part_count; i++)
        text_addf(&out, "%s%s", i ? " + " : "", wording_amount(arena, &set->parts[i]));
    text_add(&out, sums ? ")" : "");
    add_load(&out, set);
    if (set->effort == EFFORT_RPE)
        text_addf(&out, said(arena, " RPE\u00a0%s"), wording_range(arena, set->effort_band));
    return text_keep(arena, &out);
}
