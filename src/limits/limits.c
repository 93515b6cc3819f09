#include "limits/limits.h"

#include <limits.h>
#include <stdlib.h>
#include <string.h>

#include "measure/person.h"

/* --- layers --- */

/* Puts SET below all of LAYERS; where it stands among them already, it sinks to the bottom. */
static size_t put_below(const struct limits **layers, size_t count, const struct limits *set)
{
    size_t kept = 0;
    for (size_t i = 0; i < count; i++)
        if (layers[i] != set)
            layers[kept++] = layers[i];
    layers[kept++] = set;
    return kept;
}

/* The sets of a camp, nearest first. Returns how many, in *OUT. */
static size_t list_layers(struct arena *arena, const struct camp *camp, const struct limits ***out)
{
    const struct limits **layers = NULL;
    size_t count = 0, capacity = 0;
    for (size_t i = camp->limits_count; i-- > 0;)
        for (const struct limits *set = camp->limits[i]; set; set = set->base) {
            layers = arena_grow(arena, layers, count, &capacity, sizeof *layers);
            count = put_below(layers, count, set);
        }
    *out = layers;
    return count;
}

/* Whether two limits are about the same thing, so that only one of them can hold. */
static int compare_subject(const struct layered *a, const struct layered *b)
{
    if (a->limit->scope != b->limit->scope)
        return a->limit->scope < b->limit->scope ? -1 : 1;
    if (a->account != b->account)
        return a->account < b->account ? -1 : 1;
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
    if (a->layer != b->layer)
        return a->layer < b->layer ? -1 : 1;
    return a->line > b->line ? -1 : a->line < b->line;
}

void limit_table_build(struct arena *arena, const struct camp *camp, struct limit_table *table)
{
    const struct limits **layers;
    size_t layer_count = list_layers(arena, camp, &layers), capacity = 0;
    *table = (struct limit_table){.camp = camp};
    for (size_t l = 0; l < layer_count; l++)
        for (size_t i = 0; i < layers[l]->count; i++) {
            const struct limit *limit = &layers[l]->items[i];
            enum account account = account_find(limit->account);
            enum account against = limit->against ? account_find(limit->against) : ACCOUNT_NONE;
            if (account == ACCOUNT_NONE || (limit->against && against == ACCOUNT_NONE))
                continue;
            table->items =
                arena_grow(arena, table->items, table->count, &capacity, sizeof *table->items);
            table->items[table->count++] = (struct layered){.limit = limit,
                                                            .set = layers[l],
                                                            .account = account,
                                                            .against = against,
                                                            .kind = limit->below_peak
                                                                        ? GROUP_MEASURED
                                                                        : account_group(account),
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
    for (size_t i = table->count; i > 0; i--) {
        struct layered *item = &table->items[i - 1];
        item->next = table->about[item->account];
        table->about[item->account] = i;
    }
}

/* --- which of them hold --- */

/* The days of LIMIT's stretch; false where the camp has none. */
static bool stretch_of(const struct limit *limit, const struct camp *camp, int *first, int *last)
{
    *first = INT_MIN;
    *last = INT_MAX;
    switch (limit->stretch) {
    case STRETCH_ALL:
        return true;
    case STRETCH_FIRST:
        *first = camp->first;
        *last = camp->first + limit->stretch_days - 1;
        return true;
    case STRETCH_BEFORE_BOUT:
        *first = camp->bout - limit->stretch_days;
        *last = camp->bout - 1;
        return camp->bout > 0;
    case STRETCH_AFTER_BOUT:
        *first = camp->bout + 1;
        *last = camp->bout + limit->stretch_days;
        return camp->bout > 0;
    }
    return false;
}

enum severity limit_severity(const struct limit *limit, bool fails)
{
    if (limit->force == FORCE_INFO)
        return SEVERITY_INFO;
    return limit->force == FORCE_MUST && fails ? SEVERITY_ERROR : SEVERITY_WARNING;
}

bool limit_holds(const struct limit *limit, const struct camp *camp, const struct holder *holder)
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
    return stretch_of(limit, camp, &first, &last) && first <= holder->last && last >= holder->first;
}

/* Whether A is said of fewer than B: by athlete, age, lifting age, stretch of days, phase. */
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

static struct in_force in_force_of(const struct limit_table *table, const struct layered *item,
                                   const struct holder *holder)
{
    struct in_force found = {.layered = item, .camp = table->camp, .phase = holder->phase};
    stretch_of(item->limit, table->camp, &found.first, &found.last);
    if (item->limit->phase && holder->phase) {
        found.first = holder->phase->first > found.first ? holder->phase->first : found.first;
        found.last = holder->phase->last < found.last ? holder->phase->last : found.last;
    }
    return found;
}

size_t limit_table_pick(const struct limit_table *table, enum limit_scope scope,
                        const struct holder *holder, struct in_force *out)
{
    size_t count = 0;
    for (size_t i = 0; i < table->count; i++) {
        const struct layered *item = &table->items[i];
        if (item->limit->scope != scope || !limit_holds(item->limit, table->camp, holder))
            continue;
        bool again = count > 0 && out[count - 1].layered->group == item->group;
        if (again && !more_specific(item->limit, out[count - 1].layered->limit))
            continue;
        out[again ? count - 1 : count++] = in_force_of(table, item, holder);
    }
    return count;
}

static const struct layered *find(const struct limit_table *table, enum account account, bool peak,
                                  const struct holder *holder)
{
    const struct layered *best = NULL;
    for (size_t next = table->about[account]; next; next = table->items[next - 1].next) {
        const struct layered *item = &table->items[next - 1];
        if (item->limit->below_peak != peak || !limit_holds(item->limit, table->camp, holder))
            continue;
        if (!best || more_specific(item->limit, best->limit))
            best = item;
    }
    return best;
}

const struct layered *limit_table_find(const struct limit_table *table, enum account account,
                                       const struct holder *holder)
{
    const struct layered *found = find(table, account, false, holder);
    /* Volume is nothing but a share of a peak, whether its line says so or not. */
    return !found && account == ACCOUNT_VOLUME ? find(table, account, true, holder) : found;
}

const struct layered *limit_table_find_peak(const struct limit_table *table, enum account account,
                                            const struct holder *holder)
{
    return find(table, account, true, holder);
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
