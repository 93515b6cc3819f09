/* rows.h - things each of which may lead to one other (a share of a lift, limits based on limits): how long such a row
 * is, and whether it comes back to where it was. */
#ifndef BELL_RESOLVE_ROWS_H
#define BELL_RESOLVE_ROWS_H

#include <stdbool.h>
#include <stddef.h>

#include "base/arena.h"

enum {
    ROW_CIRCLE = -1,   /* it comes back to itself */
    ROW_TO_CIRCLE = -2 /* it leads to one that does */
};

/* NEXT[i], for each of COUNT things, is the number of the one that it leads to; COUNT: to none. Returns for each the
 * steps to the last of its row, or one of the above. Takes time and memory in proportion to COUNT. */
int *rows_measure(struct arena *arena, const size_t *next, size_t count);

/* Is thing NUMBER the first of a circle that nobody has asked about? Marks the circle as asked about: ROWS, which
 * rows_measure returned for NEXT, says ROW_TO_CIRCLE of it afterwards. */
bool rows_take_circle(int *rows, const size_t *next, size_t number);

#endif
