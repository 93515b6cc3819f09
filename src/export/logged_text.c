/* logged_text.c - what the logs of the athletes in view say about their maxima, below what is planned for them. */
#include "export/columns.h"
#include "export/logged_text.h"
#include "done/estimates.h"
#include "measure/kit.h"
#include "model/programme.h"
#include "wording/wording.h"

static const char *mass_words(const struct programme_view *view, const struct lift_estimate *estimate, mass value)
{
    return wording_mass(view->arena, value, mass_written_in(estimate->maximum), false);
}

/* "5 @ 100 kg RPE 8 on 2027-03-01", "12 speeds of the bar up to 2027-03-01". */
static const char *grounds(const struct programme_view *view, const struct lift_estimate *estimate)
{
    const char *day = view_date(view->arena, estimate->line->log->date);
    if (estimate->way == ESTIMATE_BY_SPEED)
        return arena_printf(view->arena, "%zu speeds of the bar up to %s", estimate->points, day);
    return arena_printf(view->arena, "%s @ %s RPE %s on %s", wording_number(view->arena, logged_reps(estimate->set)),
                        mass_words(view, estimate, estimate->set->load),
                        wording_number(view->arena, logged_rpe(estimate->set)), day);
}

static void add_athlete(const struct programme_view *view, const struct athlete *athlete, struct text *out)
{
    struct lift_estimate *estimates;
    size_t count = estimates_of(view->arena, view->programme, athlete, &estimates);
    struct columns columns = {.arena = view->arena};
    if (!count)
        return;
    text_addf(out, "\n%s, maxima that the logs point to: estimates, and no tested best\n", athlete->name.shown);
    for (size_t i = 0; i < count; i++) {
        const struct lift_estimate *one = &estimates[i];
        const char *const cells[] = {
            one->exercise->name.shown, mass_words(view, one, one->maximum),
            arena_printf(view->arena, "%s to %s", mass_words(view, one, one->low), mass_words(view, one, one->high)),
            grounds(view, one),
            one->before ? arena_printf(view->arena, "before that %s on %s", mass_words(view, one, one->before),
                                       view_date(view->arena, one->before_day))
                        : ""};
        columns_add(&columns, cells, 5);
    }
    columns_write(&columns, 2, 1, out);
}

void logged_text(const struct programme_view *view, struct text *out)
{
    bool *met = arena_alloc(view->arena, view->programme->athlete_count + 1);
    for (size_t i = 0; i < view->count; i++)
        met[view->occasions[i]->athlete->number] = true;
    for (size_t i = 0; i < view->programme->athlete_count; i++)
        if (met[view->programme->athletes[i]->number])
            add_athlete(view, view->programme->athletes[i], out);
}
