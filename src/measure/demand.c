#include "measure/demand.h"

#include "figures/effort.h"
#include "figures/mass.h"
#include "model/athlete.h"
#include "model/exercise.h"
#include "model/occasion.h"

const struct best *athlete_best(const struct athlete *athlete, const struct exercise *exercise,
                                int day)
{
    const struct exercise *base = exercise->base ? exercise->base : exercise;
    const struct best *found = NULL;
    for (size_t i = 0; athlete && i < athlete->best_count; i++) {
        const struct best *best = &athlete->bests[i];
        if (best->exercise == base && best->date <= day && (!found || best->date >= found->date))
            found = best;
    }
    return found;
}

/* LOAD in thousandths of a per cent of the best, including the factor of `percent of`, to the nearest. */
static milli share_of(mass load, mass one_max, milli factor)
{
    return mass_ratio(load, mass_share(one_max, factor * 100));
}

struct range run_percent(const struct athlete *athlete, const struct exercise *exercise,
                         const struct set_run *run, int day)
{
    const struct load *load = &run->load;
    switch (load->kind) {
    case LOAD_PERCENT: return load->percent;
    case LOAD_NONE: case LOAD_BAND: case LOAD_BODY: case LOAD_TEST: return (struct range){0, 0};
    case LOAD_MASS: break;
    }
    const struct best *best = load->best ? load->best : athlete_best(athlete, exercise, day);
    /* A factor that makes a plan's load for one leg from the best for two says nothing of how heavy kilograms are. */
    bool unlike = exercise->base && exercise->base->side != exercise->side;
    if (!best || unlike)
        return (struct range){0, 0};
    mass low = load->made > 0 ? load->made : load->asked;
    mass high = load->asked_high > low ? load->asked_high : low;
    return (struct range){share_of(low, best->one_max, exercise->factor),
                          share_of(high, best->one_max, exercise->factor)};
}

struct range run_rpe(const struct set_run *run)
{
    const struct range *band = &run->load.effort_band;
    switch (run->load.effort) {
    case EFFORT_RPE:
        return *band;
    case EFFORT_RESERVE:
        return (struct range){10000 - band->high, 10000 - band->low};
    case EFFORT_ALL_OUT:
    case EFFORT_REP_MAX:
        return (struct range){10000, 10000};
    case EFFORT_NONE:
    case EFFORT_EASY:
    case EFFORT_PULSE:
        break;
    }
    return (struct range){0, 0};
}

struct range run_reps(const struct set_run *run)
{
    struct range most = {0, 0};
    for (size_t i = 0; i < run->part_count; i++) {
        const struct part *part = &run->parts[i];
        if (part->unit != UNIT_REPS || part->max)
            continue;
        if (part->amount.high > most.high)
            most.high = part->amount.high;
        if (part->amount.low > most.low)
            most.low = part->amount.low;
    }
    return most;
}

static bool is_weighted(const struct exercise *exercise, const struct set_run *run)
{
    return load_is_weighed(run->load.kind) || exercise->weigh != WEIGH_UNSAID;
}

/* Whether the effort asked for takes a load of 80 % and up: so few repetitions are left in all, done and in reserve,
 * with a weight and not with the body alone. */
static bool effort_is_heavy(const struct exercise *exercise, const struct set_run *run)
{
    milli rpe = run_rpe(run).high, reps = run_reps(run).low;
    int64_t possible, least, most;
    return is_weighted(exercise, run) && rpe >= HEAVY_RPE && reps > 0 &&
           effort_reps_at(HEAVY_PERCENT, &possible) == EFFORT_REPS_KNOWN && effort_reserve(rpe, &least, &most) &&
           reps + least <= possible;
}

bool run_is_heavy(const struct athlete *athlete, const struct exercise *exercise,
                  const struct set_run *run, int day)
{
    milli percent = run_percent(athlete, exercise, run, day).high;
    return percent > 0 ? percent >= HEAVY_PERCENT : effort_is_heavy(exercise, run);
}

/* Repetitions that the effort leaves possible in all, the fewest that it may mean; 0 where it does not say. */
static milli reps_possible(const struct set_run *run)
{
    const struct load *load = &run->load;
    milli reps = run_reps(run).low > 0 ? run_reps(run).low : run_reps(run).high;
    int64_t least, most;
    if (load->effort == EFFORT_REP_MAX)
        return load->effort_band.low;
    return reps > 0 && effort_reserve(run_rpe(run).high, &least, &most) ? reps + least : 0;
}

milli run_percent_met(const struct athlete *athlete, const struct exercise *exercise,
                      const struct set_run *run, int day)
{
    milli percent = run_percent(athlete, exercise, run, day).high;
    if (percent > 0 || exercise->kind != EXERCISE_STRENGTH || !is_weighted(exercise, run))
        return percent;
    return effort_percent_for(reps_possible(run));
}

bool run_is_one_rep_test(const struct athlete *athlete, const struct exercise *exercise,
                         const struct set_run *run, int day)
{
    enum { ONE = 1000, NEAR_BEST = 95000, NEAR_ALL_OUT = 9000 };
    if (run->load.effort == EFFORT_REP_MAX)
        return run->load.effort_band.low <= ONE;
    return run_reps(run).high == ONE && is_weighted(exercise, run) &&
           (run_percent(athlete, exercise, run, day).high >= NEAR_BEST || run_rpe(run).high >= NEAR_ALL_OUT);
}

bool run_is_hard(const struct athlete *athlete, const struct exercise *exercise,
                 const struct set_run *run, int day)
{
    if (run_rpe(run).high >= HARD_RPE)
        return true;
    milli percent = run_percent(athlete, exercise, run, day).high;
    milli reps = run_reps(run).high;
    int64_t possible;
    return percent > 0 && reps > 0 && effort_reps_at(percent, &possible) == EFFORT_REPS_KNOWN &&
           possible - reps <= HARD_RESERVE;
}

bool item_is_heavy(const struct occasion *occasion, const struct item *item)
{
    for (size_t i = 0; i < item->run_count; i++) {
        const struct set_run *run = &item->runs[i];
        if (run_is_heavy(occasion->athlete, item->exercise, run, occasion->date) ||
            (is_weighted(item->exercise, run) && run_rpe(run).high >= HEAVY_RPE))
            return true;
    }
    return false;
}

bool item_is_hard(const struct occasion *occasion, const struct item *item)
{
    for (size_t i = 0; i < item->run_count; i++)
        if (run_is_hard(occasion->athlete, item->exercise, &item->runs[i], occasion->date))
            return true;
    return false;
}

/* Something is warmed up to: strength work, and power work with a bar (a ball needs no ramp). */
static bool is_lift(const struct item *item)
{
    return !item->filler && item->run_count && item->runs[0].load.made > 0 &&
           (item->exercise->kind == EXERCISE_STRENGTH || item->runs[0].load.plating.bar);
}

const struct item *occasion_ramped(const struct occasion *occasion)
{
    for (size_t b = 0; b < occasion->block_count; b++)
        for (size_t i = 0; i < occasion->blocks[b].item_count; i++) {
            const struct item *item = &occasion->blocks[b].items[i];
            if (is_lift(item) && item_is_heavy(occasion, item))
                return item;
        }
    return NULL;
}
