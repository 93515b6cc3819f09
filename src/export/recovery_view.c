#include "export/recovery_view.h"

#include "export/show_programme.h"
#include "figures/dates.h"
#include "measure/criteria.h"
#include "model/athlete.h"
#include "model/recovery.h"

/* The stage in force on DAY; NULL: the way back has not begun, or is over. */
static const struct recovery_stage *stage_on(const struct recovery *recovery, int day)
{
    const struct recovery_stage *stage = NULL;
    if (recovery->ended && day >= recovery->ended)
        return NULL;
    for (size_t i = 0; i < recovery->stage_count && recovery->stages[i].first <= day; i++)
        stage = &recovery->stages[i];
    return stage;
}

static void add_next(const struct programme_view *view, const struct athlete *athlete, const struct recovery *recovery,
                     const struct recovery_step *next, int day, struct text *out)
{
    text_addf(out, "    step %s, %s, waits for", next->name, next->title);
    for (size_t i = 0; i < next->criterion_count; i++) {
        struct criterion_state state = criterion_on(view->arena, athlete, recovery, &next->criteria[i], day);
        text_addf(out, "%s %s", i ? ";" : "", next->criteria[i].words);
        if (state.figure)
            text_addf(out, " (%s%s)", state.known ? state.words : "not tested on both sides",
                      !state.known ? "" : state.met ? ", there" : ", not there");
    }
    text_addf(out, "%s; a person enters that it is reached\n", next->criterion_count ? "" : " no figure");
}

void recoveries_text(const struct programme_view *view, const struct athlete *athlete, int day, struct text *out)
{
    for (size_t i = 0; view->private && i < athlete->recovery_count; i++) {
        const struct recovery *recovery = athlete->recoveries[i];
        const struct recovery_stage *stage = stage_on(recovery, day);
        char since[DATE_TEXT_SIZE];
        if (!stage)
            continue;
        text_addf(out, "  return %s: ", recovery->shown);
        if (stage->step < 0)
            text_add(out, "no step is entered as reached");
        else
            text_addf(out, "step %s, %s, since %s%s%s", recovery->steps[stage->step].name,
                      recovery->steps[stage->step].title, date_format(stage->first, since), stage->by ? " by " : "",
                      stage->by ? stage->by : "");
        text_add_char(out, '\n');
        int next = stage->step + 1;
        if (next < (int)recovery->step_count)
            add_next(view, athlete, recovery, &recovery->steps[next], day, out);
    }
}
