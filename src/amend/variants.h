/* variants.h - what can be done instead of a line of a session, as lines below a placed session. */
#ifndef BELL_AMEND_VARIANTS_H
#define BELL_AMEND_VARIANTS_H

#include "plan/plan.h"
#include "squad/squad.h"

struct variant_line {
    const char *lines; /* "drop B.1\nadd B goblet squat : 8 @ RPE 7" */
    const char *words; /* "goblet squat instead of back squat" */
};

/* What can be done instead of ITEM, the last of BLOCK as the first of SQUAD does it: first what the line itself
 * names for lack of a piece of kit, then what its exercise names. Returns how many are in *VARIANTS, which are
 * ARENA's. There are none if a line cannot say it: `add` puts its line last, and takes over nothing that is below
 * another line. */
size_t variants_of(struct arena *arena, const struct project *project, const struct squad *squad, const struct block *block,
                   const struct item *item, struct variant_line **variants);

#endif
