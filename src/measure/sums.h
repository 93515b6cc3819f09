/* sums.h - how a tally grows: what a line, a block and an occasion each add. Read by the files of this room only. */
#ifndef BELL_MEASURE_SUMS_H
#define BELL_MEASURE_SUMS_H

#include "measure/tally.h"

struct block;
struct item;
struct occasion;

/* No plan comes near it, and neither sums nor products of it overflow. */
static const milli MOST = INT64_C(1000000000000000);
static const milli MOST_FACTOR = 1000000000;

static inline milli least(milli a, milli b)
{
    return a < b ? a : b;
}

static inline void add(struct range *sum, struct range amount)
{
    if (amount.low == 0 && amount.high == 0)
        return;
    sum->low = least(sum->low + least(amount.low, MOST), MOST);
    sum->high = least(sum->high + least(amount.high, MOST), MOST);
}

static inline void add_same(struct tally *tally, int counted, milli amount)
{
    add(&tally->sum[counted], (struct range){amount, amount});
}

/* Words of the vocabularies that a session has worked on, as bits. */
struct worked {
    unsigned patterns, regions, kinds;
};

/* How often BLOCK is done, at least once. */
int block_times(const struct block *block);

/* What ITEM of BLOCK adds, and what it works on. */
void add_item(struct tally *tally, const struct occasion *occasion, const struct block *block, const struct item *item,
              struct worked *worked);

/* What belongs to a block as a whole; to an occasion as a whole, of which WORKED was worked on; and its session load
 * alone. */
void add_block(struct tally *tally, const struct block *block);
void add_whole(struct tally *tally, const struct occasion *occasion, struct worked worked);
void add_load(struct tally *tally, const struct occasion *occasion);

#endif
