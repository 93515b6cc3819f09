/* variants.h - what can be done in place of a line of a session, as lines below a placed session. */
#ifndef BELL_AMEND_VARIANTS_H
#define BELL_AMEND_VARIANTS_H

#include "plan/plan.h"
#include "squad/squad.h"

struct variant_line {
    const char *lines; /* "drop B.1\nadd B goblet squat : 8 @ RPE 7" */
    const char *words; /* "goblet squat instead of back squat" */
};

/* What can be done in place of ITEM, the last of BLOCK as the first of SQUAD does it: what the line itself names for want of
 * a piece of kit, and then what its exercise does. Returns how many, in *VARIANTS, which are ARENA's. None where a line
 * cannot say it: `add` puts its line last, and brings nothing along of what stands below another. */
size_t variants_of(struct arena *arena, const struct project *project, const struct squad *squad, const struct block *block,
                   const struct item *item, struct variant_line **variants);

#endif
