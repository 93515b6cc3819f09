#include "measure/bars.h"

#include <string.h>

#include "measure/loads.h"
#include "model/block.h"

bool block_shares_time(const struct block *block)
{
    return block->item_count > 1 && block->kind != BLOCK_ROUNDS && block->kind != BLOCK_STRAIGHT &&
           block->kind != BLOCK_CLUSTER && block->kind != BLOCK_LADDER;
}

bool plating_same(const struct plating *a, const struct plating *b)
{
    return a->bar == b->bar && a->one_sleeve == b->one_sleeve && a->disc_count == b->disc_count &&
           memcmp(a->discs, b->discs, (size_t)a->disc_count * sizeof *a->discs) == 0;
}

static bool uses(const struct item *item, const struct kit *bar)
{
    for (size_t r = 0; r < item->run_count; r++)
        if (item->runs[r].load.plating.bar == bar)
            return true;
    return false;
}

/* Whether A and B want one bar to themselves, each loaded in its own way. */
static bool contend(const struct item *a, const struct item *b)
{
    for (size_t i = 0; i < a->run_count; i++)
        for (size_t k = 0; k < b->run_count; k++) {
            const struct plating *one = &a->runs[i].load.plating, *other = &b->runs[k].load.plating;
            if (one->bar && one->bar == other->bar && !plating_same(one, other))
                return true;
        }
    return false;
}

/* Items other than INDEX that are done on BAR. */
static int users(const struct item *items, size_t count, size_t index, const struct kit *bar)
{
    int sum = 0;
    for (size_t i = 0; i < count; i++)
        sum += i != index && uses(&items[i], bar);
    return sum;
}

/* ITEM with each load on BAR that is on FROM. The sets may be shared with other athletes, so they are copied. */
static bool move(struct arena *arena, const struct gym *gym, struct item *item, const struct kit *from,
                 const struct kit *bar)
{
    struct set_run *runs = arena_alloc(arena, item->run_count * sizeof *runs);
    memcpy(runs, item->runs, item->run_count * sizeof *runs);
    for (size_t r = 0; r < item->run_count; r++)
        if (runs[r].load.plating.bar == from && !load_move(gym, item->exercise, bar, &runs[r].load))
            return false;
    item->runs = runs;
    return true;
}

static bool move_to_any(struct arena *arena, const struct gym *gym, struct item *items, size_t count, size_t index,
                        const struct kit *from)
{
    for (size_t b = 0; b < gym->bar_count; b++) {
        const struct kit *bar = &gym->bars[b];
        if (bar != from && strcmp(bar->name.folded, from->name.folded) == 0 &&
            users(items, count, index, bar) < bar->count && move(arena, gym, &items[index], from, bar))
            return true;
    }
    return false;
}

/* The bar that A and B both need and of which there are too few, or NULL. */
static const struct kit *short_of(const struct item *items, size_t count, size_t a, size_t b)
{
    for (size_t r = 0; r < items[b].run_count && contend(&items[a], &items[b]); r++) {
        const struct kit *bar = items[b].runs[r].load.plating.bar;
        if (bar && uses(&items[a], bar) && users(items, count, b, bar) >= bar->count)
            return bar;
    }
    return NULL;
}

void bars_part(struct arena *arena, const struct gym *gym, struct item *items, size_t count)
{
    for (size_t b = 1; gym && b < count; b++)
        for (size_t a = 0; a < b; a++) {
            const struct kit *bar = short_of(items, count, a, b);
            if (bar && !move_to_any(arena, gym, items, count, b, bar))
                move_to_any(arena, gym, items, count, a, bar);
        }
}
