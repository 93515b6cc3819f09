/* bars.h - which bar of a gym each exercise of a block is done on, if several are loaded at once. */
#ifndef BELL_MEASURE_BARS_H
#define BELL_MEASURE_BARS_H

#include "model/quantity.h"

struct block;
struct gym;
struct item;
struct plating;

/* Whether the items of BLOCK are done one right after the other, so that what one has loaded the next cannot. */
bool block_shares_time(const struct block *block);

/* Whether two loads are built alike, so that one bar does for both. */
bool plating_same(const struct plating *a, const struct plating *b);

/* If two of the ITEMS of a block that shares its time need one bar with different discs, and GYM has too few, one of
 * them moves to another bar of that name that can make the very same load. What that cannot solve is left as it is, for
 * check_kit_twice. */
void bars_part(struct arena *arena, const struct gym *gym, struct item *items, size_t count);

#endif
