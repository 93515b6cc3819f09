#include "measure/tonnage.h"

#include "figures/load.h"
#include "measure/kit.h"
#include "measure/limbs.h"
#include "model/exercise.h"
#include "model/set.h"

static const struct {
    const char *name, *unit;
} gaps[] = {
    [GAP_THROWN] = {"throws, jumps and strikes", "reps"},
    [GAP_BODY] = {"body mass", "reps"},
    [GAP_CARRIED] = {"carried", "m"},
    [GAP_HELD] = {"held", "s"},
    [GAP_BAND] = {"with a band", "reps"},
    [GAP_REP_MAX] = {"at a rep maximum", "reps"},
    [GAP_EFFORT] = {"by effort alone", "reps"},
    [GAP_UNSAID] = {"without a load", "reps"},
};

const char *tonnage_gap_name(enum tonnage_gap gap)
{
    return gaps[gap].name;
}

const char *tonnage_gap_unit(enum tonnage_gap gap)
{
    return gaps[gap].unit;
}

/* How many of what is held a repetition moves: one where the hands take turns, a side each (renegade rows). */
static milli pieces_moved(const struct exercise *exercise, const struct load *load)
{
    if (exercise->side == SIDE_EACH_SIDE && exercise->workers & WORKER_HAND)
        return 1;
    if (load->pieces > 1)
        return load->pieces;
    bool pair = exercise_needs(exercise, "dumbbells") || exercise_needs(exercise, "kettlebells");
    return exercise->weigh == WEIGH_ONE_HAND && pair ? 2 : 1;
}

/* The mass that a repetition moves, without body mass: with a load for each hand, both. */
static struct range mass_moved(const struct exercise *exercise, const struct load *load)
{
    switch (load->kind) {
    case LOAD_BODY: return (struct range){load->made, load->made};
    case LOAD_NONE: case LOAD_BAND: case LOAD_TEST: return (struct range){0, 0};
    case LOAD_MASS: case LOAD_PERCENT: break;
    }
    milli pieces = pieces_moved(exercise, load);
    mass low = load->made > 0 ? load->made : load->asked;
    mass high = load->asked_high > low ? load->asked_high : low;
    return (struct range){low * pieces, high * pieces};
}

/* What repetitions without a mass are loaded by. */
static enum tonnage_gap unloaded_gap(const struct load *load)
{
    if (load->kind == LOAD_BAND)
        return GAP_BAND;
    if (load->effort == EFFORT_REP_MAX)
        return GAP_REP_MAX;
    return load->effort == EFFORT_RPE || load->effort == EFFORT_RESERVE ? GAP_EFFORT : GAP_UNSAID;
}

/* Whether repetitions without a mass would make a tonnage, if they had one. */
static bool is_lift(const struct exercise *exercise, bool thrown)
{
    return !thrown && (exercise->kind == EXERCISE_STRENGTH || exercise->kind == EXERCISE_POWER);
}

/* How often RUN moves its load. A jump is counted by its landings and a strike by its blows, and each is one. */
static struct range repetitions(const struct set_run *run, const struct exercise *exercise, bool thrown, int times)
{
    struct range reps = run_done(run, exercise, UNIT_REPS, times);
    if (!thrown)
        return reps;

    struct range landings = run_done(run, exercise, UNIT_CONTACTS, times);
    struct range blows = run_done(run, exercise, UNIT_STRIKES, times);
    return (struct range){reps.low + landings.low + blows.low, reps.high + landings.high + blows.high};
}

struct tonnage tonnage_of(const struct exercise *exercise, const struct set_run *run, int times)
{
    const unsigned fast = 1u << PATTERN_THROW | 1u << PATTERN_JUMP | 1u << PATTERN_STRIKE;
    bool thrown = exercise->patterns & fast;
    struct range reps = repetitions(run, exercise, thrown, times), each = mass_moved(exercise, &run->load);
    struct range moved = {load_tonnage(reps.low, each.low), load_tonnage(reps.high, each.high)};
    struct tonnage tonnage = {0};
    *(thrown ? &tonnage.thrown : &tonnage.lifted) = moved;
    if (run->load.kind == LOAD_BODY && !thrown) {
        tonnage.body = (struct range){load_tonnage(reps.low, run->load.body), load_tonnage(reps.high, run->load.body)};
        tonnage.left_out[GAP_BODY] = reps.high;
        tonnage.body_unknown = run->load.body ? 0 : reps.high;
    }
    if (each.high > 0) {
        tonnage.left_out[GAP_THROWN] = thrown ? reps.high : 0;
        tonnage.left_out[GAP_CARRIED] = run_done(run, exercise, UNIT_METRES, times).high;
        tonnage.left_out[GAP_HELD] = run_done(run, exercise, UNIT_SECONDS, times).high;
    } else if (run->load.kind == LOAD_BAND || (run->load.kind != LOAD_BODY && is_lift(exercise, thrown))) {
        tonnage.left_out[unloaded_gap(&run->load)] = reps.high;
    }
    return tonnage;
}
