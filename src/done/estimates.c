#include "done/estimates.h"

#include "figures/dates.h"
#include "figures/estimate.h"
#include "model/programme.h"

enum { LINE_DAYS = 42 /* days whose sets make one line of load over speed: common practice, no source */ };

milli logged_rpe(const struct logged_set *set)
{
    milli middle = (set->effort_band.low + set->effort_band.high) / 2;
    switch (set->effort) {
    case EFFORT_RPE: return middle;
    case EFFORT_RESERVE: return middle <= 10000 ? 10000 - middle : 0;
    case EFFORT_ALL_OUT: return 10000;
    case EFFORT_NONE: case EFFORT_EASY: case EFFORT_REP_MAX: case EFFORT_PULSE: break;
    }
    return 0;
}

milli logged_reps(const struct logged_set *set)
{
    const struct part *part = set->parts;
    for (size_t i = 0; i < set->part_count; i++)
        if (part[i].unit != UNIT_REPS || part[i].max || part[i].amount.low != part[0].amount.low)
            return 0;
    return set->part_count ? part->amount.low : 0;
}

static bool is_lift(const struct logged_set *set)
{
    return set->kind == LOAD_MASS && set->pieces == 1 && set->load > 0 && logged_reps(set) > 0;
}

/* In pounds to the whole pound: nobody has a smaller one, and an estimate's error is many times that. */
static mass rounded(double value, mass like)
{
    enum mass_unit unit = mass_written_in(like);
    mass whole = (mass)(value + 0.5);
    return unit == MASS_IN_LB ? (whole + MASS_LB / 2) / MASS_LB * MASS_LB : mass_round_in(whole, unit);
}

/* --- repetitions --- */

/* The highest maximum that LINE points to; false if none of its sets gives any. */
static bool of_line(const struct athlete *athlete, const struct logged_line *line, struct lift_estimate *estimate)
{
    bool any = false;
    for (size_t i = 0; i < line->set_count; i++) {
        const struct logged_set *set = &line->sets[i];
        struct estimate read;
        milli rpe = logged_rpe(set);
        if (!rpe || !is_lift(set)
            || !estimate_from_reps((enum onerm_equation)athlete->equation, (double)set->load, logged_reps(set), rpe, &read)
            || (any && rounded(read.maximum, set->load) <= estimate->maximum))
            continue;
        any = true;
        estimate->line = line;
        estimate->set = set;
        estimate->maximum = rounded(read.maximum, set->load);
        estimate->low = rounded(read.low, set->load);
        estimate->high = rounded(read.high, set->load);
        estimate->share = (milli)((double)set->load * 100000 / read.maximum + 0.5);
    }
    return any;
}

static bool by_reps(const struct athlete *athlete, const struct logged_line *const *lines, size_t count,
                    struct lift_estimate *estimate)
{
    bool any = false;
    for (size_t i = 0; i < count; i++) {
        struct lift_estimate now = {.exercise = lines[i]->exercise, .way = ESTIMATE_BY_REPS};
        if (lines[i]->exercise->kind != EXERCISE_STRENGTH || !of_line(athlete, lines[i], &now))
            continue;
        bool same_day = any && estimate->line->log->date == now.line->log->date;
        if (same_day && estimate->maximum >= now.maximum)
            continue;
        now.before = same_day ? estimate->before : any ? estimate->maximum : 0;
        now.before_day = same_day ? estimate->before_day : any ? estimate->line->log->date : 0;
        bool first = !any || (same_day && estimate->first_day == now.line->log->date);
        now.first = first ? now.maximum : estimate->first;
        now.first_day = first ? now.line->log->date : estimate->first_day;
        *estimate = now;
        any = true;
    }
    return any;
}

/* --- speed --- */

static bool by_speed(struct arena *arena, const struct logged_line *const *lines, size_t count,
                     struct lift_estimate *estimate)
{
    const struct logged_line *last = NULL;
    size_t points = 0, capacity = 0;
    struct speed_point *items = NULL;
    mass like = 0;
    for (size_t i = count; i-- > 0 && (!last || lines[i]->log->date > last->log->date - LINE_DAYS);)
        for (size_t s = 0; s < lines[i]->set_count; s++) {
            const struct logged_set *set = &lines[i]->sets[s];
            if (!is_lift(set) || set->speed <= 0)
                continue;
            last = last ? last : lines[i];
            like = set->load;
            items = arena_grow(arena, items, points, &capacity, sizeof *items);
            items[points++] = (struct speed_point){(double)set->load, set->speed};
        }
    struct estimate read;
    if (!last || !estimate_from_speed(items, points, last->exercise->slowest, &read))
        return false;
    *estimate = (struct lift_estimate){.exercise = last->exercise, .way = ESTIMATE_BY_SPEED, .line = last, .points = points,
                                       .maximum = rounded(read.maximum, like), .low = rounded(read.low, like),
                                       .high = rounded(read.high, like)};
    return true;
}

/* --- all lifts --- */

/* Where ATHLETE's lifts begin. */
static size_t first_of(const struct programme *programme, const struct athlete *athlete)
{
    size_t low = 0, high = programme->lifted_count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (programme->lifted[middle]->log->athlete->number < athlete->number)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

size_t estimates_of(struct arena *arena, const struct programme *programme, const struct athlete *athlete,
                    struct lift_estimate **estimates)
{
    return estimates_between(arena, programme, athlete, 0, DATE_LAST, estimates);
}

size_t estimates_between(struct arena *arena, const struct programme *programme, const struct athlete *athlete, int first,
                         int last, struct lift_estimate **estimates)
{
    size_t count = 0, capacity = 0, end;
    *estimates = NULL;
    for (size_t i = first_of(programme, athlete); i < programme->lifted_count; i = end) {
        const struct logged_line *const *lines = (const struct logged_line *const *)programme->lifted;
        size_t from = i, to;
        for (end = i; end < programme->lifted_count && lines[end]->log->athlete == lines[i]->log->athlete
                      && lines[end]->exercise == lines[i]->exercise;)
            end++;
        if (lines[i]->log->athlete != athlete)
            break;
        while (from < end && lines[from]->log->date < first)
            from++;
        for (to = from; to < end && lines[to]->log->date <= last;)
            to++;
        struct lift_estimate found[2];
        size_t ways = 0;
        ways += by_reps(athlete, lines + from, to - from, &found[ways]);
        ways += by_speed(arena, lines + from, to - from, &found[ways]);
        for (size_t k = 0; k < ways; k++) {
            *estimates = arena_grow(arena, *estimates, count, &capacity, sizeof **estimates);
            (*estimates)[count++] = found[k];
        }
    }
    return count;
}
