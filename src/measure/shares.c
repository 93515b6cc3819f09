/* shares.c - which lines of a plan add up to a sum. */
#include <stdlib.h>
#include <string.h>

#include "measure/member.h"
#include "measure/sums.h"
#include "model/occasion.h"
#include "source/span_order.h"

struct shares {
    struct arena *arena;
    struct share *items;
    size_t count, capacity;
    enum counted counted;
    enum side side;
    bool done; /* the session load as it turned out */
};

static void add_share(struct shares *shares, const struct tally *tally,
                      const struct occasion *occasion, const struct block *block,
                      const struct item *item)
{
    struct span span = item ? item->span : block ? block->span : occasion->span;
    struct range amount = shares->done               ? tally->done
                          : shares->side == SIDE_ALL ? tally->sum[shares->counted]
                                                     : tally->side[shares->counted][shares->side];
    if (amount.high == 0)
        return;
    if (occasion->optional && !(shares->done && tally->logged))
        amount.low = 0;
    for (size_t i = 0; i < shares->count; i++) {
        struct share *share = &shares->items[i];
        if (memcmp(&share->span, &span, sizeof span) != 0)
            continue;
        add(&share->amount, amount);
        share->times++;
        return;
    }
    shares->items = arena_grow(shares->arena, shares->items, shares->count, &shares->capacity,
                               sizeof *shares->items);
    shares->items[shares->count++] = (struct share){.span = span,
                                                    .amount = amount,
                                                    .occasion = occasion,
                                                    .block = block,
                                                    .item = item,
                                                    .times = 1};
}

/* Time is the blocks' if one session is asked about, otherwise the occasions'. */
static void share_time(struct shares *shares, const struct occasion *occasion, bool alone)
{
    if (occasion_is_rest(occasion))
        return;
    if (!alone || !occasion->block_count) {
        struct tally tally = {0};
        add_same(&tally, COUNTED_TIME, (milli)occasion->seconds * 1000);
        add_share(shares, &tally, occasion, NULL, NULL);
        return;
    }
    for (size_t b = 0; b < occasion->block_count; b++) {
        struct tally tally = {0};
        add_same(&tally, COUNTED_TIME, (milli)occasion->blocks[b].seconds * 1000);
        add_share(shares, &tally, occasion, &occasion->blocks[b], NULL);
    }
}

static void share_lines(struct shares *shares, const struct occasion *occasion)
{
    struct worked worked = {0};
    for (size_t b = 0; b < occasion->block_count; b++) {
        const struct block *block = &occasion->blocks[b];
        struct tally heading = {0};
        add_block(&heading, block);
        add_share(shares, &heading, occasion, block, NULL);
        for (size_t i = 0; i < block->item_count; i++) {
            struct tally line = {0};
            add_item(&line, occasion, block, &block->items[i], &worked);
            add_share(shares, &line, occasion, block, &block->items[i]);
        }
    }
    struct tally whole = {0};
    add_whole(&whole, occasion, worked);
    add_share(shares, &whole, occasion, NULL, NULL);
}

static int compare_shares(const void *left, const void *right)
{
    const struct share *a = left, *b = right;
    if (a->amount.high != b->amount.high)
        return a->amount.high > b->amount.high ? -1 : 1;
    return span_order(a->span, b->span);
}

static size_t sort_shares(struct shares *found, struct share **shares)
{
    if (found->count > 1)
        qsort(found->items, found->count, sizeof *found->items, compare_shares);
    *shares = found->items;
    return found->count;
}

size_t tally_shares(struct arena *arena, const struct occasion *const *occasions, size_t count,
                    enum counted counted, enum side side, struct share **shares)
{
    struct shares found = {.arena = arena, .counted = counted, .side = side};
    for (size_t i = 0; i < count; i++) {
        if (counted == COUNTED_TIME)
            share_time(&found, occasions[i], count == 1);
        else
            share_lines(&found, occasions[i]);
    }
    return sort_shares(&found, shares);
}

size_t tally_shares_done(struct arena *arena, const struct occasion *const *occasions, size_t count,
                         struct share **shares)
{
    struct shares found = {.arena = arena, .counted = COUNTED_SESSION_LOAD, .side = SIDE_ALL, .done = true};
    for (size_t i = 0; i < count; i++) {
        struct tally whole = {0};
        add_load(&whole, occasions[i]);
        add_share(&found, &whole, occasions[i], NULL, NULL);
    }
    return sort_shares(&found, shares);
}
