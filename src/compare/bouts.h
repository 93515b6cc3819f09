/* bouts.h - what moves with a bout: days that are counted back from it. For this room alone. */
#ifndef BELL_COMPARE_BOUTS_H
#define BELL_COMPARE_BOUTS_H

#include "compare/compare.h"

struct camp;

/* Pairs what stands in the old plan with what stands as many days later in the new one as the bout that it counts to moves,
 * where the days of its line as a whole fit that better than they fit staying where they were. */
void bouts_pair(struct comparison *comparison);

/* By how many days the bout at INDEX of the camp OLD moves in NOW; 0 where it does not, or where they have not as many bouts. */
int bout_shift(const struct camp *old, const struct camp *now, size_t index);

/* To which bout of CAMP DAY counts; behind the last to that. 0 where it has none. */
size_t bout_of_day(const struct camp *camp, int day);

#endif
