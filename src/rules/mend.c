#include "rules/mend.h"

#include <limits.h>
#include <string.h>

#include "figures/dates.h"
#include "model/time.h"

/* A whole camp is no place for one small edit. */
enum { MOST_FEWER = 3, MOST_OCCASIONS = 40 };

/* One line done less often, on one day. */
struct edit {
    const struct occasion *occasion;
    const struct block *block; /* NULL: rounds of an activity */
    const struct item *item;   /* NULL: rounds of the block */
    int fewer;
    milli left; /* what the account then comes to */
};

/* --- applying --- */

/* Takes FEWER sets off the end of ITEM, and keeps one at least. */
static bool drop_sets(struct run *run, struct item *item, int fewer)
{
    struct set_run *runs = arena_alloc(run->arena, item->run_count * sizeof *runs);
    memcpy(runs, item->runs, item->run_count * sizeof *runs);
    if (item->sets <= fewer)
        return false;
    item->sets -= fewer;
    for (size_t r = item->run_count; r-- > 0 && fewer > 0;) {
        int taken = runs[r].count < fewer ? runs[r].count : fewer;
        runs[r].count -= taken;
        fewer -= taken;
    }
    item->runs = runs;
    return fewer == 0;
}

/* EDIT's occasion as it would be; false where the edit cannot be made. */
static bool apply(struct run *run, const struct edit *edit, struct occasion *after)
{
    *after = *edit->occasion;
    if (!edit->block) {
        if (after->rounds <= edit->fewer)
            return false;
        int shorter = (int)((int64_t)after->seconds * edit->fewer / after->rounds);
        after->rounds -= edit->fewer;
        after->seconds -= shorter;
        return true;
    }
    struct block *blocks = arena_alloc(run->arena, after->block_count * sizeof *blocks);
    memcpy(blocks, after->blocks, after->block_count * sizeof *blocks);
    struct block *block = &blocks[edit->block - edit->occasion->blocks];
    after->blocks = blocks;
    if (!edit->item) {
        block->sets -= edit->fewer;
    } else {
        struct item *items = arena_alloc(run->arena, block->item_count * sizeof *items);
        memcpy(items, block->items, block->item_count * sizeof *items);
        block->items = items;
        if (!drop_sets(run, &items[edit->item - edit->block->items], edit->fewer))
            return false;
    }
    if (block->sets < 1)
        return false;
    after->seconds =
        time_session(blocks, after->block_count, after->athlete, after->date, &time_usual);
    return true;
}

/* --- trying --- */

static const struct range *account_of(const struct tally *tally, enum account account,
                                      enum side side)
{
    return side == SIDE_ALL ? &tally->sum[account] : &tally->side[account][side];
}

/* The sums of the days of AIM, with AFTER in place of BEFORE. */
static void sum_again(const struct window *window, int first, int last,
                      const struct occasion *before, const struct occasion *after,
                      struct tally *sum)
{
    *sum = (struct tally){0};
    for (size_t i = 0; i < window->count; i++) {
        const struct occasion *occasion = window->occasions[i];
        if (occasion->date >= first && occasion->date <= last)
            tally_occasion(sum, occasion == before ? after : occasion);
    }
}

/* Whether a floor of the window that held with BEFORE breaks with AFTER. */
static bool breaks_floor(const struct window *window, const struct tally *before,
                         const struct tally *after)
{
    for (size_t i = 0; i < window->limit_count; i++) {
        const struct layered *layered = window->limits[i].layered;
        const struct limit *limit = layered->limit;
        if (layered->kind == GROUP_MEASURED || limit->bound == LIMIT_AT_MOST)
            continue;
        milli was = before->sum[layered->account].low, is = after->sum[layered->account].low;
        if (is < was && (layered->against != ACCOUNT_NONE || is < limit->value))
            return true;
    }
    return false;
}

static void try_edit(struct run *run, const struct window *window, const struct mend_aim *aim,
                     struct edit *edit, struct edit *best)
{
    for (edit->fewer = 1; edit->fewer <= MOST_FEWER; edit->fewer++) {
        struct occasion after;
        struct tally sum, whole;
        if (best->fewer && edit->fewer > best->fewer)
            return;
        if (!apply(run, edit, &after))
            return;
        sum_again(window, aim->first, aim->last, edit->occasion, &after, &sum);
        edit->left = account_of(&sum, aim->account, aim->side)->high;
        if (edit->left > aim->most)
            continue;
        sum_again(window, INT_MIN, INT_MAX, edit->occasion, &after, &whole);
        if (breaks_floor(window, window->tally, &whole))
            return;
        if (!best->fewer || edit->fewer < best->fewer || edit->left > best->left)
            *best = *edit;
        return;
    }
}

static bool is_care(const struct exercise *exercise)
{
    const unsigned care = 1u << PATTERN_NECK | 1u << PATTERN_SHOULDER_CARE;
    return exercise->patterns & care || exercise->loads[REGION_NECK] > 0;
}

/* Taking rounds off a block shortens all that is done in it. */
static bool holds_care(const struct block *block)
{
    for (size_t i = 0; i < block->item_count; i++)
        if (is_care(block->items[i].exercise))
            return true;
    return false;
}

static void try_occasion(struct run *run, const struct window *window, const struct mend_aim *aim,
                         const struct occasion *occasion, struct edit *best)
{
    struct edit edit = {.occasion = occasion};
    if (occasion->activity && occasion->rounds > 1)
        try_edit(run, window, aim, &edit, best);
    for (size_t b = 0; b < occasion->block_count; b++) {
        edit.block = &occasion->blocks[b];
        edit.item = NULL;
        if (edit.block->kind == BLOCK_ROUNDS) {
            if (!holds_care(edit.block))
                try_edit(run, window, aim, &edit, best);
            continue;
        }
        for (size_t i = 0; i < edit.block->item_count; i++) {
            edit.item = &edit.block->items[i];
            if (!is_care(edit.item->exercise))
                try_edit(run, window, aim, &edit, best);
        }
    }
}

/* --- telling --- */

static const char *what_words(struct run *run, const struct edit *edit)
{
    if (!edit->block)
        return edit->occasion->activity->name.shown;
    if (edit->item)
        return item_words(run, edit->item);
    return edit->block->letter ? arena_printf(run->arena, "block %c", edit->block->letter)
                               : edit->block->items[0].exercise->name.shown;
}

const char *mend_over(struct run *run, const struct window *window, const struct mend_aim *aim)
{
    static const char *const counts[] = {"", "one", "two", "three"};
    static const char *const days[] = {"Monday", "Tuesday",  "Wednesday", "Thursday",
                                       "Friday", "Saturday", "Sunday"};
    struct edit best = {0};
    for (size_t i = 0; window->count <= MOST_OCCASIONS && i < window->count; i++) {
        int day = window->occasions[i]->date;
        if (day >= aim->first && day <= aim->last)
            try_occasion(run, window, aim, window->occasions[i], &best);
    }
    if (!best.fewer)
        return NULL;
    const char *unit = best.item ? "set" : "round";
    return arena_printf(run->arena, "%s %s fewer of %s on %s %s to %s", counts[best.fewer],
                        arena_printf(run->arena, "%s%s", unit, best.fewer == 1 ? "" : "s"),
                        what_words(run, &best),
                        days[best.occasion->date - date_monday(best.occasion->date)],
                        arena_printf(run->arena, "%s %s it", date_words(run, best.occasion->date),
                                     best.fewer == 1 ? "brings" : "bring"),
                        account_amount(run->arena, aim->account, best.left));
}
