#include "layout/week_words.h"

#include "done/as_done.h"
#include "language/language.h"
#include "layout/frame.h"
#include "measure/kit.h"
#include "measure/member.h"
#include "model/activity.h"
#include "model/gym.h"
#include "model/occasion.h"
#include "model/season.h"
#include "wording/wording.h"

const char *week_done(const struct frame *frame, int last_logged, const struct occasion *occasion)
{
    struct arena *arena = frame->press.arena;
    const struct outcome *outcome = &occasion->outcome;
    if (occasion->date > last_logged || (occasion->activity && occasion->activity->rest))
        return "";
    if (!occasion_done(occasion))
        return said(arena, "not done");
    const char *time = outcome->timed ? arena_printf(arena, said(arena, " %d\u00a0min"), (outcome->seconds + 30) / 60) : "";
    const char *rpe = outcome->rpe.high > 0
                          ? arena_printf(arena, *time ? said(arena, " \u00b7 RPE\u00a0%s") : said(arena, " RPE\u00a0%s"), wording_range(arena, outcome->rpe))
                          : "";
    return arena_printf(arena, "%s%s%s", *time || *rpe ? said(arena, "done:") : said(arena, "done"), time, rpe);
}

const char *week_check(struct arena *arena, const struct occasion *occasion)
{
    const struct bout *bout = occasion_bout(occasion);
    for (size_t i = 0; bout && i < occasion->camp->phase_count; i++) {
        const struct phase *phase = &occasion->camp->phases[i];
        if (phase->after_bout && phase->bout == bout && !bout->checked)
            return said_guard(arena, "then the medical check");
    }
    return "";
}

const char *week_reason(const struct sheet_request *request, int day)
{
    struct arena *arena = request->arena;
    const struct closure *closure = gym_closed(occasion_gym(request->occasions[0]), day);
    if (closure && closure->because)
        return arena_printf(arena, said(arena, "closed, because %s"), closure->because);
    for (size_t i = 0; i < request->count; i++) {
        const struct camp *camp = request->occasions[i]->camp;
        for (size_t k = 0; k < camp->day_off_count; k++)
            if (camp->days_off[k].day == day)
                return arena_printf(arena, said(arena, "because %s"), camp->days_off[k].because);
    }
    return "";
}
