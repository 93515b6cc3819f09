#include "limits/share.h"

#include "measure/avoid.h"
#include "measure/hold.h"
#include "model/programme.h"

enum { WHOLE = 100000 /* per cent, in thousandths */ };

static int overlap(int first, int last, int other_first, int other_last)
{
    int from = first > other_first ? first : other_first;
    int to = last < other_last ? last : other_last;
    return to >= from ? to - from + 1 : 0;
}

/* --- days --- */

bool limit_is_of_days(const struct in_force *in_force)
{
    const struct limit *limit = in_force->layered->limit;
    return limit->phase || limit->stretch != STRETCH_ALL;
}

/* The days of a week that a limit counts, both included; none if LAST is before FIRST. */
struct counted_days {
    int first, last;
};

static struct counted_days days_of(const struct in_force *in_force, int first, int last)
{
    const struct limit *limit = in_force->layered->limit;
    const struct camp *camp = in_force->camp;
    const struct phase *phase = limit->phase ? in_force->phase : NULL;
    bool after = limit->stretch == STRETCH_AFTER_BOUT || (phase && phase->after_bout);
    if (limit_is_of_days(in_force)) {
        first = in_force->first > first ? in_force->first : first;
        last = in_force->last < last ? in_force->last : last;
    }
    for (size_t i = 0; i < camp->bout_count && !after; i++) {
        bool ends = i + 1 == camp->bout_count; /* behind the last bout nothing is asked for any more */
        if (camp->bouts[i]->day <= last && (ends || camp->bouts[i]->day >= first))
            last = camp->bouts[i]->day - 1;
    }
    first = camp->first > first ? camp->first : first;
    last = camp->last < last ? camp->last : last;
    return (struct counted_days){first, last};
}

int limit_days(const struct in_force *in_force, int first, int last)
{
    const struct camp *camp = in_force->camp;
    struct counted_days days = days_of(in_force, first, last);
    int count = overlap(days.first, days.last, first, last);
    bool after = in_force->layered->limit->stretch == STRETCH_AFTER_BOUT;
    for (size_t i = 0; i < camp->phase_count; i++)
        if (camp->phases[i].after_bout && count > 0 && !after && !limit_is_of_days(in_force))
            count -= overlap(days.first, days.last, camp->phases[i].first, camp->phases[i].last);
    return count > 0 ? count : 0;
}

/* In whole units if there is at least one. */
static milli whole(milli value)
{
    return value >= 1000 ? value - value % 1000 : value;
}

milli limit_for_days(milli value, int days)
{
    return whole(value * days / DAYS_OF_WEEK);
}

/* --- a phase whose volume comes down --- */

/* How far below the peak week COUNTED may come in PHASE, in thousandths of a per cent; 0 where nothing is to come down. */
static milli cut_in(const struct limit_table *table, const struct athlete *athlete, const struct phase *phase,
                    enum counted counted)
{
    struct holder holder = {athlete, phase, phase->first, phase->last};
    const struct layered *found = limit_table_find_peak(table, counted, &holder);
    if (!found)
        found = limit_table_find(table, COUNTED_VOLUME, &holder);
    if (!found || !found->limit->phase || found->limit->bound == LIMIT_AT_MOST)
        return 0;
    milli most = found->limit->bound == LIMIT_WITHIN ? found->limit->top : found->limit->value;
    return most > WHOLE ? WHOLE : most;
}

/* How often is not what comes down before a bout (Bosquet et al. 2007, Med Sci Sports Exerc 39:1358-1365: the frequency
 * of training is kept), and what a heading says of the phase itself is what its coach wants there. */
static bool comes_down(const struct in_force *in_force)
{
    return counted_group(in_force->layered->counted) != GROUP_SESSIONS && !limit_is_of_days(in_force);
}

/* Of so many sevenths of a week: those of a phase that comes down count for what its deepest cut leaves. */
static milli after_cuts(const struct limit_table *table, const struct in_force *in_force,
                        const struct athlete *athlete, int first, int last, struct floor *floor)
{
    const struct camp *camp = in_force->camp;
    milli value = in_force->layered->limit->value * floor->days;
    struct counted_days days = days_of(in_force, first, last);
    for (size_t i = 0; i < camp->phase_count && comes_down(in_force); i++) {
        const struct phase *phase = &camp->phases[i];
        int inside = phase->after_bout ? 0 : overlap(days.first, days.last, phase->first, phase->last);
        milli cut = inside ? cut_in(table, athlete, phase, in_force->layered->counted) : 0;
        if (!cut)
            continue;
        value -= in_force->layered->limit->value * inside * cut / WHOLE;
        floor->phase = phase;
    }
    return value / DAYS_OF_WEEK;
}

/* --- what is barred --- */

/* Whether sets of EXERCISE count in full in COUNTED, one of a region, a pattern or a kind. */
static bool counts_in(const struct exercise *exercise, enum counted counted)
{
    enum { SETS_TO_SESSIONS = COUNTED_PATTERN_SESSIONS - COUNTED_PATTERN_SETS };
    int sets = counted >= COUNTED_PATTERN_SESSIONS ? (int)counted - SETS_TO_SESSIONS : (int)counted;
    if (exercise->kind == EXERCISE_MOBILITY || exercise->kind == EXERCISE_WARM_UP || sets < COUNTED_PATTERN_SETS)
        return false;
    if (sets < COUNTED_REGION_SETS)
        return (int)exercise->pattern == sets - COUNTED_PATTERN_SETS;
    if (sets < COUNTED_KIND_SETS)
        return exercise->loads[sets - COUNTED_REGION_SETS] >= 1000;
    return (int)exercise->kind == sets - COUNTED_KIND_SETS;
}

static bool is_barred(const struct athlete *athlete, const struct exercise *exercise, int day)
{
    for (size_t i = 0; i < athlete->avoid_count; i++)
        if (avoid_stands(&athlete->avoids[i], day) && avoid_bars(&athlete->avoids[i], exercise))
            return true;
    return false;
}

/* VALUE in the proportion in which the exercises that count for it are left to ATHLETE. Sessions are asked for as ever
 * while there is anything to do in them. */
static milli after_restrictions(const struct programme *programme, enum counted counted,
                                const struct athlete *athlete, int day, milli value)
{
    int64_t all = 0, left = 0;
    if (!athlete_restricted(athlete, day))
        return value;
    for (size_t i = 0; i < programme->exercise_count; i++)
        if (counts_in(programme->exercises[i], counted)) {
            all++;
            left += !is_barred(athlete, programme->exercises[i], day);
        }
    if (all == left)
        return value;
    if (counted_group(counted) == GROUP_SESSIONS)
        return left ? value : 0;
    return value * left / all;
}

struct floor limit_floor(const struct programme *programme, const struct limit_table *table,
                         const struct in_force *in_force, const struct athlete *athlete, int first, int last)
{
    enum counted counted = in_force->layered->counted;
    struct floor floor = {.days = limit_days(in_force, first, last)};
    if (athlete_away(programme, athlete, first, last))
        return floor;
    milli value = after_cuts(table, in_force, athlete, first, last, &floor);
    milli left = after_restrictions(programme, counted, athlete, first, value);
    floor.restricted = left < value;
    bool scaled = floor.phase || floor.restricted || floor.days < DAYS_OF_WEEK;
    floor.value = scaled ? whole(left) : in_force->layered->limit->value;
    return floor;
}
