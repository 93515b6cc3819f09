/* attempt.h - a plan with something changed, compiled and checked again before anything of it is told. */
#ifndef BELL_AMEND_ATTEMPT_H
#define BELL_AMEND_ATTEMPT_H

#include "amend/placed.h"
#include "plan/plan.h"

struct attempt {
    struct project project;
    struct project_request request; /* what compiles to it */
    size_t errors;             /* that the plan did not have before */
    const struct finding *first; /* of these; NULL: none */
    size_t warnings;           /* likewise */
};

/* Compiles REQUEST with AMENDED in place of the file's own bytes, and checks nothing. */
bool attempt_load(struct arena *arena, const struct project_request *request, const struct project *before,
                  const struct amended *amended, struct attempt *attempt);

/* Checks it, and counts what BEFORE, which was checked too, did not have. */
void attempt_check(struct attempt *attempt, const struct project *before);

/* Compiles and checks REQUEST with AMENDED in place of the file's own bytes. BEFORE is REQUEST, compiled and checked.
 * False where a file could not be had. */
bool attempt_make(struct arena *arena, const struct project_request *request, const struct project *before,
                  const struct amended *amended, struct attempt *attempt);

#endif
