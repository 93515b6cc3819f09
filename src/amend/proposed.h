/* proposed.h - the next loads of a week, by the rules of its lines, as changes to the plan. */
#ifndef BELL_AMEND_PROPOSED_H
#define BELL_AMEND_PROPOSED_H

#include "amend/attempt.h"
#include "done/next.h"

struct proposed {
    struct proposal *items;  /* by athlete, then day */
    size_t count;
    const char **refused;    /* for each, the error that the plan would have with it; NULL: it is proposed */
    size_t standing;         /* how many are proposed */
    struct attempt attempt;  /* once they are written: the plan with them, checked; its request has the changed text
                              * as overlays */
    const char *wrong;       /* why the plan cannot say it; else NULL */
    bool unread;             /* it is a file that could not be read again */
};

/* Those of WEEK of all camps of BEFORE, compiled; only ATHLETE's, if ATHLETE is not NULL. */
struct proposed proposed_week(struct arena *arena, const struct project *before, int week, const struct athlete *athlete);

/* The same for COUNT proposals for BEFORE, in their order. */
struct proposed proposed_of(struct arena *arena, const struct project *before, struct proposal *items, size_t count);

/* Makes the plan that has them; BEFORE is REQUEST, compiled and checked. */
void proposed_write(struct arena *arena, const struct project_request *request, const struct project *before,
                    struct proposed *proposed);

/* The value of a line `change` that makes PROPOSAL's line so: "@ 62.5 kg RPE 8". */
const char *proposed_dose(struct arena *arena, const struct proposal *proposal);

#endif
