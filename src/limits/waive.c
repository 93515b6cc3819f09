#include "limits/waive.h"

#include <string.h>

#include "figures/mass.h"
#include "measure/kit.h"
#include "model/programme.h"

/* --- a waiver --- */

static bool places(const struct waived_days *days, const void *place)
{
    for (size_t i = 0; i < days->count; i++)
        if (days->occasions[i]->place == place)
            return true;
    return false;
}

static bool has_camp(const struct waived_days *days, const struct camp *camp)
{
    if (days->camp)
        return days->camp == camp;
    for (size_t i = 0; i < camp->athlete_count; i++)
        if (camp->athletes[i] == days->athlete)
            return true;
    return false;
}

bool waiver_reaches(const struct waiver *waiver, const struct waived_days *days)
{
    if (!days->athlete || (waiver->camp && !has_camp(days, waiver->camp)))
        return false;
    if (waiver->place)
        return places(days, waiver->place) && waiver->first <= days->last && waiver->last >= days->first;
    return waiver->first <= days->first && waiver->last >= days->last;
}

bool waiver_covers(const struct waiver *waiver, milli figure, bool floor)
{
    if (!waiver->capped)
        return true;
    return floor ? figure >= waiver->cap : figure > 0 && figure <= waiver->cap;
}

/* --- a verdict --- */

milli limit_figure(const struct athlete *athlete, enum counted counted, milli amount)
{
    enum counted_group group = counted_group(counted);
    if (group == GROUP_TONNAGE && gym_unit(athlete->gym) == MASS_IN_LB)
        return (mass_sum_to_lb(amount) + 500) / 1000 * 1000;
    return group == GROUP_TIME ? amount / 60 : amount;
}

enum diagnostic limit_diagnostic(const struct layered *layered, bool most)
{
    static const enum diagnostic found[GROUP_MEASURED][2] = {
        [GROUP_STRIKES] = {DIAG_STRIKES_UNDER, DIAG_STRIKES_OVER},
        [GROUP_THROWS] = {DIAG_THROWS_UNDER, DIAG_THROWS_OVER},
        [GROUP_CONTACTS] = {DIAG_CONTACTS_UNDER, DIAG_CONTACTS_OVER},
        [GROUP_TIME] = {DIAG_TIME_UNDER, DIAG_TIME_OVER},
        [GROUP_LOAD] = {DIAG_LOAD_UNDER, DIAG_LOAD_OVER},
        [GROUP_SPARRING] = {DIAG_SPARRING_UNDER, DIAG_SPARRING_OVER},
        [GROUP_ROUNDS] = {DIAG_ROUNDS_UNDER, DIAG_ROUNDS_OVER},
        [GROUP_HOLDS] = {DIAG_HOLDS_UNDER, DIAG_HOLDS_OVER},
        [GROUP_DISTANCE] = {DIAG_DISTANCE_UNDER, DIAG_DISTANCE_OVER},
        [GROUP_LIFTS] = {DIAG_LIFTS_UNDER, DIAG_LIFTS_OVER},
        [GROUP_TONNAGE] = {DIAG_TONNAGE_UNDER, DIAG_TONNAGE_OVER},
        [GROUP_SETS] = {DIAG_SETS_UNDER, DIAG_SETS_OVER},
        [GROUP_SESSIONS] = {DIAG_SESSIONS_UNDER, DIAG_SESSIONS_OVER}};
    return layered->against != COUNTED_NONE ? DIAG_RATIO_OUTSIDE : found[layered->kind][most];
}

const struct waiver *work_waiver(const struct judged_work *work, enum diagnostic what, milli figure, bool floor)
{
    const struct programme *programme = work->programme;
    const char *name = diagnostic_name(what);
    const struct waived_days days = {.athlete = work->athlete,
                                     .first = work->first,
                                     .last = work->last,
                                     .occasions = work->occasions,
                                     .count = work->count};
    for (size_t i = 0; i < programme->waiver_count; i++) {
        const struct waiver *waiver = &programme->waivers[i];
        if (strcmp(waiver->check, name) == 0 && waiver_reaches(waiver, &days) && waiver_covers(waiver, figure, floor))
            return waiver;
    }
    return NULL;
}

const struct waiver *limit_waiver(const struct judged_work *work, const struct limit_verdict *verdict,
                                  const struct limit_end *end)
{
    const struct layered *layered = verdict->in_force->layered;
    bool most = end == &verdict->most, ratio = layered->against != COUNTED_NONE;
    milli amount = most ? verdict->amount.high : verdict->amount.low;
    milli figure = ratio ? 0 : limit_figure(work->athlete, layered->counted, amount);
    return work_waiver(work, limit_diagnostic(layered, most), figure, !ratio && !most);
}
