/* bounds.c - a camp's limits as the sheets want them: flat, week by week. */
#include "sheets/request.h"

#include "figures/dates.h"
#include "limits/limits.h"
#include "limits/share.h"
#include "measure/kit.h"
#include "model/athlete.h"
#include "model/season.h"

struct bounds {
    struct arena *arena;
    const struct programme *programme;
    const struct limit_table *table;
    const struct athlete *athlete;
    struct sheet_bound *items;
    size_t count, capacity;
};

/* What a limit asks for at least in the week from MONDAY: of a week's floor what the check asks. 0 where less is asked of
 * the athlete than of others, for a sheet does not tell that something is restricted. */
static milli least_of(const struct bounds *bounds, const struct in_force *in_force, int monday)
{
    const struct limit *limit = in_force->layered->limit;
    if (limit->bound == LIMIT_AT_MOST || limit->scope != LIMIT_WEEK || in_force->layered->against != COUNTED_NONE ||
        in_force->layered->kind == GROUP_MEASURED)
        return limit->value;
    struct floor floor =
        limit_floor(bounds->programme, bounds->table, in_force, bounds->athlete, monday, monday + 6);
    return floor.restricted ? 0 : floor.value;
}

static void add_bound(struct bounds *bounds, const struct in_force *in_force, int week, int monday)
{
    const struct layered *layered = in_force->layered;
    const struct limit *limit = layered->limit;
    milli least = least_of(bounds, in_force, monday);
    if (counted_tells_body(layered->counted) || (limit->bound == LIMIT_AT_LEAST && least == 0))
        return;
    bounds->items = arena_grow(bounds->arena, bounds->items, bounds->count, &bounds->capacity,
                               sizeof *bounds->items);
    bounds->items[bounds->count++] = (struct sheet_bound){
        .counted = layered->counted,
        .against = layered->against,
        .bound = limit->bound,
        .value = least,
        .top = limit->top,
        .unit = gym_unit(bounds->athlete->gym),
        .a_side = limit->a_side,
        .session = limit->scope == LIMIT_SESSION,
        .week = week,
        .only = limit->phase && in_force->phase ? in_force->phase->name.shown : NULL};
}

/* A limit of the phase is held against its weeks too. */
static void add_week(struct bounds *bounds, int week)
{
    static const enum limit_scope scopes[] = {LIMIT_WEEK, LIMIT_PHASE, LIMIT_SESSION};
    const struct limit_table *table = bounds->table;
    int monday = date_monday(table->camp->first) + 7 * (week - 1);
    struct holder holder = {.athlete = bounds->athlete,
                            .phase = camp_phase_between(table->camp, monday, monday + 6),
                            .first = monday,
                            .last = monday + 6};
    struct in_force *found = arena_alloc(bounds->arena, (table->most + 1) * sizeof *found);
    for (size_t s = 0; s < sizeof scopes / sizeof *scopes; s++) {
        size_t count = limit_table_pick(table, scopes[s], &holder, found);
        for (size_t i = 0; i < count; i++)
            add_bound(bounds, &found[i], week, monday);
    }
}

const struct sheet_bound *sheet_bounds(const struct programme *programme, struct arena *arena,
                                       const struct camp *camp, const struct athlete *athlete, size_t *count)
{
    struct limit_table table;
    struct bounds bounds = {.arena = arena, .programme = programme, .table = &table, .athlete = athlete};
    limit_table_build(arena, programme, camp, &table);
    for (int week = 1; week <= camp->weeks; week++)
        add_week(&bounds, week);
    *count = bounds.count;
    return bounds.items;
}
