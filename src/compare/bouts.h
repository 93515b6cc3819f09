/* bouts.h - what moves with a bout: days that are counted back from it. For this room alone. */
#ifndef BELL_COMPARE_BOUTS_H
#define BELL_COMPARE_BOUTS_H

#include "compare/compare.h"

struct camp;

/* A part counts towards a bout. Pairs it in the old plan with a part that is as many days later in the new one as
 * that bout moves, if this fits the days of its line as a whole better than staying where they were. */
void bouts_pair(struct comparison *comparison);

/* By how many days the bout at INDEX of the camp OLD moves in NOW; 0 if it does not, or if their numbers of bouts differ. */
int bout_shift(const struct camp *old, const struct camp *now, size_t index);

/* The bout of CAMP that DAY counts towards; after the last one, that one. 0 if CAMP has none. */
size_t bout_of_day(const struct camp *camp, int day);

#endif
