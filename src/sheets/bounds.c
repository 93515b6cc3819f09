/* bounds.c - a camp's limits as the sheets need them: flat, week by week, each with its verdict. */
#include "sheets/request.h"

#include "figures/dates.h"
#include "limits/waive.h"
#include "measure/kit.h"
#include "model/programme.h"

enum { WEEKS_BEFORE = 4 };

struct bounds {
    struct arena *arena;
    const struct programme *programme;
    const struct limit_table *table;
    const struct athlete *athlete;
    const struct occasion **occasions; /* the athlete's, in every camp, by date */
    struct tally *tallies;             /* of each */
    size_t occasion_count;
    struct sheet_bound *items;
    size_t count, capacity;
};

/* --- what the athlete does --- */

static void gather(struct bounds *bounds)
{
    const struct programme *programme = bounds->programme;
    size_t most = programme->occasion_count + 1, own = 0;
    bounds->occasions = arena_alloc(bounds->arena, most * sizeof(struct occasion *));
    for (size_t i = 0; i < programme->occasion_count; i++)
        if (programme->occasions[i].athlete == bounds->athlete)
            bounds->occasions[own++] = &programme->occasions[i];
    bounds->tallies = arena_alloc(bounds->arena, (own + 1) * sizeof *bounds->tallies);
    for (size_t i = 0; i < own; i++)
        tally_occasion(&bounds->tallies[i], bounds->occasions[i]);
    bounds->occasion_count = own;
}

/* The week from MONDAY. */
static struct judged_work week_of(const struct bounds *bounds, int monday)
{
    size_t at = 0;
    while (at < bounds->occasion_count && bounds->occasions[at]->date < monday)
        at++;
    struct judged_work week = {.programme = bounds->programme,
                               .athlete = bounds->athlete,
                               .first = monday,
                               .last = monday + 6,
                               .occasions = bounds->occasions + at,
                               .tallies = bounds->tallies + at};
    struct tally *sum = arena_alloc(bounds->arena, sizeof *sum);
    for (; at < bounds->occasion_count && bounds->occasions[at]->date <= week.last; at++) {
        tally_add(sum, &bounds->tallies[at]);
        week.count++;
    }
    week.tally = sum;
    return week;
}

/* --- one limit --- */

/* The load from which a rise in the week of MONDAY is measured. */
static milli rises_from(const struct bounds *bounds, int monday)
{
    const struct tally *before[WEEKS_BEFORE];
    for (int back = 0; back < WEEKS_BEFORE; back++)
        before[back] = week_of(bounds, monday - 7 * (back + 1)).tally;
    return tally_highest_done(before, WEEKS_BEFORE);
}

/* What is waived is not marked, as a check does not report it, but its reason is given. */
static void put_miss(struct sheet_bound *bound, const struct judged_work *work, const struct limit_verdict *verdict,
                     const struct limit_end *end)
{
    const struct waiver *waiver = end->broken ? limit_waiver(work, verdict, end) : NULL;
    bound->missed |= end->broken && !waiver;
    if (waiver)
        bound->waived = waiver->because;
}

/* The same for a rise in load, which is not a sum of a week: the limit is broken if LOAD is above what it may rise to. */
static void put_rise(struct sheet_bound *bound, const struct judged_work *work)
{
    milli load = tally_load(work->tally).high;
    if (!bound->most.asked || bound->from <= 0 || (load - bound->from) * 100000 <= bound->most.value * bound->from)
        return;
    const struct waiver *waiver = work_waiver(work, DIAG_LOAD_RISE, (load - bound->from) * 100000 / bound->from, false);
    bound->waived = waiver ? waiver->because : NULL;
}

/* Puts the verdict on a limit, or on one side of it, into BOUND. A floor that is lower because of a restriction is
 * left out, because a sheet does not say that less is asked of somebody. */
static void put_verdict(struct sheet_bound *bound, const struct judged_work *work, const struct limit_verdict *verdict)
{
    bool least = verdict->least.asked && !verdict->floor.restricted, most = verdict->most.asked;
    milli reached = limit_reached(verdict);
    *(verdict->side == SIDE_RIGHT ? &bound->right : &bound->amount) = verdict->amount;
    bound->other = verdict->other;
    bound->least = (struct sheet_end){least, verdict->least.value, verdict->least.whole};
    bound->most = (struct sheet_end){most, verdict->most.value, verdict->most.whole};
    if (least)
        put_miss(bound, work, verdict, &verdict->least);
    put_miss(bound, work, verdict, &verdict->most);
    if (verdict->side != SIDE_RIGHT || (most ? reached > bound->reached : reached < bound->reached))
        bound->reached = reached;
}

/* Whether weeks can be drawn beside LAYERED: it is about a week's sum, or about something measured that a phase
 * limits too. The sum of a phase or a session cannot be drawn so, and a distance below a peak is not a sum of its
 * week. */
static bool is_of_weeks(const struct layered *layered)
{
    return layered->kind == GROUP_MEASURED ? layered->counted >= COUNTED_COUNT : layered->limit->scope == LIMIT_WEEK;
}

/* The verdict on IN_FORCE in WEEK of the camp, which is WORK. Nothing that reveals body mass goes on a sheet. */
static void add_bound(struct bounds *bounds, const struct judged_work *work, const struct in_force *in_force, int week)
{
    const struct layered *layered = in_force->layered;
    int first = limit_first_side(layered), last = limit_last_side(layered);
    struct sheet_bound bound = {
        .counted = layered->counted,
        .against = layered->against,
        .unit = gym_unit(bounds->athlete->gym),
        .a_side = first != last,
        .week = week,
        .only = layered->limit->phase && in_force->phase ? in_force->phase->name.shown : NULL};
    if (layered->counted == COUNTED_LOAD_RISE)
        bound.from = rises_from(bounds, work->first);
    for (int side = first; side <= last; side++) {
        struct limit_verdict verdict;
        limit_judge(work, bounds->table, in_force, (enum side)side, &verdict);
        if (verdict.tells_body)
            return;
        put_verdict(&bound, work, &verdict);
    }
    if (!bound.least.asked && !bound.most.asked)
        return;
    if (layered->counted == COUNTED_LOAD_RISE)
        put_rise(&bound, work);
    bounds->items = arena_grow(bounds->arena, bounds->items, bounds->count, &bounds->capacity,
                               sizeof *bounds->items);
    bounds->items[bounds->count++] = bound;
}

static void add_week(struct bounds *bounds, int week)
{
    static const enum limit_scope scopes[] = {LIMIT_WEEK, LIMIT_PHASE};
    const struct limit_table *table = bounds->table;
    int monday = date_monday(table->camp->first) + 7 * (week - 1);
    struct judged_work work = week_of(bounds, monday);
    struct holder holder = {.athlete = bounds->athlete,
                            .phase = camp_phase_between(table->camp, monday, monday + 6),
                            .first = monday,
                            .last = monday + 6};
    struct in_force *found = arena_alloc(bounds->arena, (table->most + 1) * sizeof *found);
    for (size_t s = 0; s < sizeof scopes / sizeof *scopes; s++) {
        size_t count = limit_table_pick(table, scopes[s], &holder, found);
        for (size_t i = 0; i < count; i++)
            if (is_of_weeks(found[i].layered))
                add_bound(bounds, &work, &found[i], week);
    }
}

/* A limit has one verdict for the week, whichever camp asks for it. */
static bool is_alike(const struct sheet_bound *a, const struct sheet_bound *b)
{
    return a->counted == b->counted && a->against == b->against && a->a_side == b->a_side &&
           a->least.asked == b->least.asked && a->most.asked == b->most.asked && a->least.value == b->least.value &&
           a->most.value == b->most.value;
}

/* Removes from BOUNDS, from FIRST on, what is in it before FIRST already. */
static void drop_alike(struct bounds *bounds, size_t first)
{
    size_t kept = first;
    for (size_t i = first; i < bounds->count; i++) {
        size_t before = 0;
        while (before < first && !is_alike(&bounds->items[before], &bounds->items[i]))
            before++;
        if (before < first)
            bounds->items[before].missed |= bounds->items[i].missed;
        else
            bounds->items[kept++] = bounds->items[i];
    }
    bounds->count = kept;
}

const struct sheet_bound *sheet_week_bounds(const struct programme *programme, struct arena *arena,
                                            const struct occasion_group *group, size_t *count)
{
    const struct occasion *first = group->occasions[0];
    struct bounds bounds = {.arena = arena, .programme = programme, .athlete = first->athlete};
    gather(&bounds);
    for (size_t i = 0; i < group->count; i++) {
        if (!sheet_begins_camp(group, i))
            continue;
        struct limit_table table;
        size_t before = bounds.count;
        bounds.table = &table;
        limit_table_build(arena, programme, group->occasions[i]->camp, &table);
        add_week(&bounds, group->occasions[i]->week);
        for (size_t k = before; k < bounds.count; k++)
            bounds.items[k].week = first->week;
        drop_alike(&bounds, before);
    }
    *count = bounds.count;
    return bounds.items;
}

const struct sheet_bound *sheet_bounds(const struct programme *programme, struct arena *arena,
                                       const struct camp *camp, const struct athlete *athlete, size_t *count)
{
    struct limit_table table;
    struct bounds bounds = {.arena = arena, .programme = programme, .table = &table, .athlete = athlete};
    limit_table_build(arena, programme, camp, &table);
    gather(&bounds);
    for (int week = 1; week <= camp->weeks; week++)
        add_week(&bounds, week);
    *count = bounds.count;
    return bounds.items;
}
