/* attempt.h - a plan with something changed, which is compiled and checked again before anything of it is reported. */
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

/* REQUEST with AMENDED, of BEFORE, in place of the file's own bytes. */
struct project_request attempt_request(struct arena *arena, const struct project_request *request,
                                       const struct project *before, const struct amended *amended);

/* The first error of NOW, from its finding *FROM on, that BEFORE did not have, or NULL; *FROM is then the place behind it. */
const struct finding *attempt_new_error(const struct diag *before, const struct diag *now, size_t *from);

/* Compiles REQUEST with AMENDED in place of the file's own bytes, and checks nothing. */
bool attempt_load(struct arena *arena, const struct project_request *request, const struct project *before,
                  const struct amended *amended, struct attempt *attempt);

/* Checks it, and counts what BEFORE, which was checked too, did not have. */
void attempt_check(struct attempt *attempt, const struct project *before);

/* Compiles and checks REQUEST with AMENDED in place of the file's own bytes. BEFORE is REQUEST, compiled and
 * checked. False if a file could not be read. */
bool attempt_make(struct arena *arena, const struct project_request *request, const struct project *before,
                  const struct amended *amended, struct attempt *attempt);

/* Do both have the same athlete, camp and name? And: the occasion of PROGRAMME that is OCCASION in another reading
 * of the plan; NULL if there is none. */
bool occasion_same_name(const struct occasion *a, const struct occasion *b);
const struct occasion *occasion_again(const struct programme *programme, const struct occasion *occasion);

#endif
