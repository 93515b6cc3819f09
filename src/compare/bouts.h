/* bouts.h - what moves with a bout: days that are counted back from it. For compare.c alone. */
#ifndef BELL_COMPARE_BOUTS_H
#define BELL_COMPARE_BOUTS_H

#include "compare/compare.h"

/* Pairs what stands in the old plan with what stands as many days later in the new one as the bout of its camp moves, where
 * the days of its line as a whole fit that better than they fit staying where they were. */
void bouts_pair(struct comparison *comparison);

#endif
