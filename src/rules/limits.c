#include "rules/limits.h"

#include <stdlib.h>
#include <string.h>

static bool layered_before(const struct limits *const *seen, size_t count, const struct limits *set)
{
    for (size_t i = 0; i < count; i++)
        if (seen[i] == set)
            return true;
    return false;
}

/* The sets of a camp, nearest first. Returns how many, in *OUT. */
static size_t list_layers(struct arena *arena, const struct camp *camp, const struct limits ***out)
{
    const struct limits **layers = NULL;
    size_t count = 0, capacity = 0;
    for (size_t i = 0; i < camp->limits_count; i++)
        /* A set that comes again ends the chain: what it is based on is there already. */
        for (const struct limits *set = camp->limits[i]; set && !layered_before(layers, count, set);
             set = set->base) {
            layers = arena_grow(arena, layers, count, &capacity, sizeof *layers);
            layers[count++] = set;
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
    return 0;
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
                                                            .kind = account_group(account),
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
}

static bool holds(const struct limit *limit, const struct athlete *athlete,
                  const struct phase *phase)
{
    if (limit->athlete && limit->athlete != athlete)
        return false;
    if (limit->level >= 0 && (!athlete || (int)athlete->level != limit->level))
        return false;
    return !limit->phase || (phase && strcmp(phase->name.folded, limit->phase) == 0);
}

static int specific(const struct limit *limit)
{
    return (limit->athlete ? 4 : 0) + (limit->level >= 0 ? 2 : 0) + (limit->phase ? 1 : 0);
}

size_t limit_table_pick(const struct limit_table *table, enum limit_scope scope,
                        const struct athlete *athlete, const struct phase *phase,
                        struct in_force *out)
{
    size_t count = 0;
    for (size_t i = 0; i < table->count; i++) {
        const struct layered *item = &table->items[i];
        if (item->limit->scope != scope || !holds(item->limit, athlete, phase))
            continue;
        if (count > 0 && out[count - 1].layered->group == item->group) {
            if (specific(item->limit) > specific(out[count - 1].layered->limit))
                out[count - 1].layered = item;
            continue;
        }
        out[count++] = (struct in_force){.layered = item, .camp = table->camp, .phase = phase};
    }
    return count;
}

const struct layered *limit_table_find(const struct limit_table *table, enum account account,
                                       const struct athlete *athlete, const struct phase *phase)
{
    const struct layered *best = NULL;
    for (size_t i = 0; i < table->count; i++) {
        const struct layered *item = &table->items[i];
        if (item->account != account || !holds(item->limit, athlete, phase))
            continue;
        if (!best || specific(item->limit) > specific(best->limit))
            best = item;
    }
    return best;
}
