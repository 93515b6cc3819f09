#include "limits/limits.h"

#include <limits.h>
#include <stdlib.h>
#include <string.h>

#include "measure/member.h"
#include "measure/person.h"
#include "model/programme.h"

/* --- layers --- */

/* A set of a camp, nearest first in a list of them. */
struct layer {
    const struct limits *set;
    bool named;
    unsigned for_whom;
};

struct layers {
    struct layer *items;
    size_t count, capacity;
};

/* Puts SET below all of LAYERS; if it is already among them, it sinks to the bottom. */
static void put_below(struct arena *arena, struct layers *layers, const struct limits *set)
{
    size_t kept = 0;
    for (size_t i = 0; i < layers->count; i++)
        if (layers->items[i].set != set)
            layers->items[kept++] = layers->items[i];
    layers->count = kept;
    layers->items = arena_grow(arena, layers->items, layers->count, &layers->capacity, sizeof *layers->items);
    layers->items[layers->count++] = (struct layer){.set = set, .named = true};
}

unsigned limit_for_whom(const struct athlete *athlete, int day)
{
    if (!athlete)
        return 0;
    bool novice = athlete_level_known(athlete) && athlete_level_on(athlete, day) == LEVEL_NOVICE;
    return (athlete_under(athlete, day, GROWN) ? FOR_YOUNG : 0u) | (novice ? FOR_NOVICE : 0u);
}

/* SET applies by itself to WHOM, if there is such a set and somebody of these is in CAMP. */
static void add_for(struct arena *arena, struct layers *layers, const struct camp *camp, const struct limits *set,
                    unsigned whom)
{
    bool any = false;
    for (size_t i = 0; i < camp->athlete_count; i++)
        any = any || (limit_for_whom(camp->athletes[i], camp->first) & whom);
    if (!set || !any)
        return;
    for (size_t i = 0; i < layers->count; i++)
        if (layers->items[i].set == set) {
            layers->items[i].for_whom = whom;
            return;
        }
    layers->items = arena_grow(arena, layers->items, layers->count, &layers->capacity, sizeof *layers->items);
    layers->items[layers->count++] = (struct layer){.set = set, .for_whom = whom};
}

static const struct limits *set_named(const struct programme *programme, const char *folded)
{
    for (size_t i = 0; i < programme->limits_count; i++)
        if (strcmp(programme->limits[i]->name.folded, folded) == 0)
            return programme->limits[i];
    return NULL;
}

/* The sets of a camp, nearest first, and those that apply by themselves. */
static struct layers list_layers(struct arena *arena, const struct programme *programme, const struct camp *camp)
{
    struct layers layers = {0};
    for (size_t i = camp->limits_count; i-- > 0;)
        for (const struct limits *set = camp->limits[i]; set; set = set->base)
            put_below(arena, &layers, set);
    add_for(arena, &layers, camp, set_named(programme, "under 18"), FOR_YOUNG);
    add_for(arena, &layers, camp, set_named(programme, "novices"), FOR_YOUNG | FOR_NOVICE);
    return layers;
}

/* Whether two limits are about the same thing, so that only one of them can apply. */
static int compare_subject(const struct layered *a, const struct layered *b)
{
    if (a->limit->scope != b->limit->scope)
        return a->limit->scope < b->limit->scope ? -1 : 1;
    if (a->counted != b->counted)
        return a->counted < b->counted ? -1 : 1;
    if (a->limit->bound != b->limit->bound)
        return a->limit->bound < b->limit->bound ? -1 : 1;
    if (a->limit->a_side != b->limit->a_side)
        return a->limit->a_side < b->limit->a_side ? -1 : 1;
    if (a->against != b->against)
        return a->against < b->against ? -1 : 1;
    if (a->limit->below_peak != b->limit->below_peak)
        return a->limit->below_peak < b->limit->below_peak ? -1 : 1;
    return a->limit->first_weeks < b->limit->first_weeks   ? -1
           : a->limit->first_weeks > b->limit->first_weeks ? 1
                                                           : 0;
}

/* By subject; within it, what wins where equally specific comes first. */
static int compare(const void *left, const void *right)
{
    const struct layered *a = left, *b = right;
    int subject = compare_subject(a, b);
    if (subject)
        return subject;
    return a->layer != b->layer ? a->layer - b->layer : b->line - a->line;
}

void limit_table_build(struct arena *arena, const struct programme *programme, const struct camp *camp,
                       struct limit_table *table)
{
    struct layers layers = list_layers(arena, programme, camp);
    size_t capacity = 0;
    *table = (struct limit_table){.camp = camp};
    for (size_t l = 0; l < layers.count; l++)
        for (size_t i = 0; i < layers.items[l].set->count; i++) {
            const struct layer *layer = &layers.items[l];
            const struct limit *limit = &layer->set->items[i];
            enum counted counted = counted_find(limit->counted);
            enum counted against = limit->against ? counted_find(limit->against) : COUNTED_NONE;
            if (counted == COUNTED_NONE || (limit->against && against == COUNTED_NONE))
                continue;
            table->items =
                arena_grow(arena, table->items, table->count, &capacity, sizeof *table->items);
            table->items[table->count++] = (struct layered){.limit = limit,
                                                            .set = layer->set,
                                                            .counted = counted,
                                                            .against = against,
                                                            .kind = limit->below_peak
                                                                        ? GROUP_MEASURED
                                                                        : counted_group(counted),
                                                            .named = layer->named,
                                                            .for_whom = layer->for_whom,
                                                            .layer = (int)l,
                                                            .line = (int)i};
        }
    if (table->count == 0)
        return;
    qsort(table->items, table->count, sizeof *table->items, compare);
    for (size_t i = 0; i < table->count; i++) {
        if (i > 0 && compare_subject(&table->items[i - 1], &table->items[i]) != 0)
            table->group_count++;
        table->items[i].group = table->group_count;
    }
    table->group_count++;
    table->most = 3 * table->group_count;
    for (size_t i = table->count; i > 0; i--) {
        struct layered *item = &table->items[i - 1];
        item->next = table->about[item->counted];
        table->about[item->counted] = i;
    }
}

/* --- which of them hold --- */

/* The days before or after one of the camp's bouts, of those that HOLDER's days reach into; false where they reach into
 * none. */
static bool stretch_at_bouts(const struct limit *limit, const struct camp *camp, const struct holder *holder, int *first,
                             int *last)
{
    bool before = limit->stretch == STRETCH_BEFORE_BOUT, found = false;
    for (size_t i = 0; i < camp->bout_count; i++) {
        const struct bout *bout = camp->bouts[i];
        int from = before ? bout->day - limit->stretch_days : bout_end(bout) + 1, to = from + limit->stretch_days - 1;
        if (from > holder->last || to < holder->first)
            continue;
        *first = found ? *first : from;
        *last = to;
        found = true;
    }
    return found;
}

/* The days of LIMIT's stretch; false where HOLDER has none of them. */
static bool stretch_of(const struct limit *limit, const struct camp *camp, const struct holder *holder, int *first, int *last)
{
    *first = INT_MIN;
    *last = INT_MAX;
    switch (limit->stretch) {
    case STRETCH_ALL:
        return true;
    case STRETCH_FIRST:
        *first = camp->first;
        *last = camp->first + limit->stretch_days - 1;
        return *last >= holder->first;
    case STRETCH_BEFORE_BOUT: case STRETCH_AFTER_BOUT:
        break;
    }
    return stretch_at_bouts(limit, camp, holder, first, last);
}

enum severity limit_severity(const struct limit *limit, bool fails)
{
    if (limit->force == FORCE_INFO)
        return SEVERITY_INFO;
    return limit->force == FORCE_MUST && fails ? SEVERITY_ERROR : SEVERITY_WARNING;
}

static bool holds_for(const struct limit *limit, const struct camp *camp, const struct holder *holder)
{
    const struct athlete *athlete = holder->athlete;
    int first, last;
    if (limit->athlete && limit->athlete != athlete)
        return false;
    if (limit->under_age && (!athlete || !athlete_under(athlete, holder->first, limit->under_age)))
        return false;
    if (limit->level >= 0 &&
        (!athlete || (int)athlete_level_on(athlete, holder->first) != limit->level))
        return false;
    if (limit->phase &&
        (!holder->phase || strcmp(holder->phase->name.folded, limit->phase) != 0))
        return false;
    return stretch_of(limit, camp, holder, &first, &last) && first <= holder->last;
}

/* Does ITEM apply to HOLDER by itself? Few do to anybody, so that ages are seldom worked out. */
static bool is_for(const struct layered *item, const struct holder *holder)
{
    return item->for_whom && (item->for_whom & limit_for_whom(holder->athlete, holder->first));
}

bool limit_holds(const struct limit_table *table, const struct layered *item, const struct holder *holder)
{
    bool meant = item->named || is_for(item, holder);
    return meant && holds_for(item->limit, table->camp, holder);
}

/* Whether A is about fewer people or days than B: by athlete, age, lifting age, stretch of days, phase. */
static bool more_specific(const struct limit *a, const struct limit *b)
{
    if ((a->athlete != NULL) != (b->athlete != NULL))
        return a->athlete != NULL;
    if (a->under_age != b->under_age)
        return a->under_age && (!b->under_age || a->under_age < b->under_age);
    if ((a->level >= 0) != (b->level >= 0))
        return a->level >= 0;
    bool a_stretch = a->stretch != STRETCH_ALL, b_stretch = b->stretch != STRETCH_ALL;
    if (a_stretch != b_stretch)
        return a_stretch;
    if (a_stretch && a->stretch == b->stretch && a->stretch_days != b->stretch_days)
        return a->stretch_days < b->stretch_days;
    return a->phase && !b->phase;
}

bool limit_is_tighter(const struct limit *a, const struct limit *b)
{
    return a->bound == LIMIT_AT_MOST    ? a->value < b->value
           : a->bound == LIMIT_AT_LEAST ? a->value > b->value
                                        : a->value > b->value || a->top < b->top;
}

/* --- of the limits about one thing, those that hold --- */

/* What applies by the camp's own word, and the tightest of what applies by itself. */
struct holding {
    const struct layered *named, *itself;
};

static void take(const struct limit_table *table, const struct layered *item, const struct holder *holder,
                 struct holding *holding)
{
    if (!limit_holds(table, item, holder))
        return;
    if (item->named && (!holding->named || more_specific(item->limit, holding->named->limit)))
        holding->named = item;
    if (is_for(item, holder) &&
        (!holding->itself || limit_is_tighter(item->limit, holding->itself->limit)))
        holding->itself = item;
}

bool limit_is_said_of_them(const struct layered *named, const struct layered *itself)
{
    const struct limit *limit = named->limit;
    bool young = limit->under_age > 0 && limit->under_age <= GROWN;
    if (named->for_whom)
        return false;
    if (limit->athlete || young || (limit->level == LEVEL_NOVICE && itself->for_whom & FOR_NOVICE))
        return true;
    for (const struct limits *set = named->set; set; set = set->base)
        if (set == itself->set)
            return true;
    return false;
}

/* The one that counts, of two about the same thing, either of which may be NULL. */
static const struct layered *decide(const struct holding *holding)
{
    const struct layered *named = holding->named, *itself = holding->itself;
    if (!named || !itself)
        return named ? named : itself;
    if (named->limit->bound != itself->limit->bound || limit_is_said_of_them(named, itself))
        return named;
    return limit_is_tighter(itself->limit, named->limit) ? itself : named;
}

static struct in_force in_force_of(const struct limit_table *table, const struct layered *item,
                                   const struct holder *holder)
{
    struct in_force found = {.layered = item, .camp = table->camp, .phase = holder->phase};
    stretch_of(item->limit, table->camp, holder, &found.first, &found.last);
    if (item->limit->phase) {
        found.first = holder->phase->first > found.first ? holder->phase->first : found.first;
        found.last = holder->phase->last < found.last ? holder->phase->last : found.last;
    }
    return found;
}

/* A tighter limit that only warns leaves one that must hold in force beside it. */
static bool holds_beside(const struct layered *named, const struct layered *chosen)
{
    return named && named != chosen && named->limit->force < chosen->limit->force;
}

/* In the week of a bout the days before it and those behind it may each have a limit: of FROM to END - 1 the one of days that
 * CHOSEN leaves alone, or NULL. */
static const struct layered *of_other_days(const struct limit_table *table, size_t from, size_t end,
                                           const struct holder *holder, const struct layered *chosen)
{
    const struct layered *found = NULL;
    int first, last, own_first, own_last;
    if (chosen->limit->stretch == STRETCH_ALL)
        return NULL;
    stretch_of(chosen->limit, table->camp, holder, &own_first, &own_last);
    for (size_t i = from; i < end; i++) {
        const struct layered *item = &table->items[i];
        if (!item->named || item->limit->stretch == STRETCH_ALL || !limit_holds(table, item, holder))
            continue;
        stretch_of(item->limit, table->camp, holder, &first, &last);
        if ((last < own_first || first > own_last) && (!found || more_specific(item->limit, found->limit)))
            found = item;
    }
    return found;
}

size_t limit_table_pick(const struct limit_table *table, enum limit_scope scope,
                        const struct holder *holder, struct in_force *out)
{
    size_t count = 0;
    for (size_t i = 0; i < table->count;) {
        struct holding holding = {NULL, NULL};
        size_t group = table->items[i].group, from = i;
        for (; i < table->count && table->items[i].group == group; i++)
            if (table->items[i].limit->scope == scope)
                take(table, &table->items[i], holder, &holding);
        const struct layered *chosen = decide(&holding);
        if (chosen)
            out[count++] = in_force_of(table, chosen, holder);
        if (chosen && holds_beside(holding.named, chosen))
            out[count++] = in_force_of(table, holding.named, holder);
        const struct layered *beside = chosen ? of_other_days(table, from, i, holder, chosen) : NULL;
        if (beside && beside != holding.named)
            out[count++] = in_force_of(table, beside, holder);
    }
    return count;
}

static struct holding find(const struct limit_table *table, enum counted counted, bool peak,
                           const struct holder *holder)
{
    struct holding holding = {NULL, NULL};
    for (size_t next = table->about[counted]; next; next = table->items[next - 1].next)
        if (table->items[next - 1].limit->below_peak == peak)
            take(table, &table->items[next - 1], holder, &holding);
    return holding;
}

const struct layered *limit_table_find(const struct limit_table *table, enum counted counted,
                                       const struct holder *holder)
{
    struct holding holding = find(table, counted, false, holder);
    const struct layered *found = decide(&holding);
    /* Volume is always a share of a peak, whether its line says so or not. */
    return !found && counted == COUNTED_VOLUME ? limit_table_find_peak(table, counted, holder) : found;
}

const struct layered *limit_table_find_peak(const struct limit_table *table, enum counted counted,
                                            const struct holder *holder)
{
    struct holding holding = find(table, counted, true, holder);
    return decide(&holding);
}

const struct layered *limit_table_find_beside(const struct limit_table *table, enum counted counted,
                                              const struct holder *holder)
{
    struct holding holding = find(table, counted, false, holder);
    const struct layered *named = holding.named, *itself = holding.itself;
    bool beside = named && itself && named->limit->bound != itself->limit->bound;
    return beside && !limit_is_said_of_them(named, itself) ? itself : NULL;
}

const struct phase *camp_phase_between(const struct camp *camp, int first, int last)
{
    const struct phase *found = NULL;
    int most = 0;
    for (size_t i = 0; i < camp->phase_count; i++) {
        const struct phase *phase = &camp->phases[i];
        int from = phase->first > first ? phase->first : first;
        int to = phase->last < last ? phase->last : last;
        if (to - from + 1 > most) {
            most = to - from + 1;
            found = phase;
        }
    }
    return found;
}
