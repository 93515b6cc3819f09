/* heading.h - what the heading of a group of limits was probably meant to be. */
#ifndef BELL_LIMITS_HEADING_H
#define BELL_LIMITS_HEADING_H

#include "model/quantity.h"

struct programme;

/* The heading that is nearest to FOLDED: a phase of a camp, an athlete, `every week` and its like, a
 * lifting age, an age or days near a bout with the number that stands in FOLDED. NULL where none is
 * near. */
const char *heading_nearest(struct arena *arena, const struct programme *programme,
                            const char *folded);

#endif
