/* criteria.h - whether a figure that a step of a way back waits for is there. Whether somebody goes on is for a person to
 * say. */
#ifndef BELL_MEASURE_CRITERIA_H
#define BELL_MEASURE_CRITERIA_H

#include <stdbool.h>

#include "base/arena.h"

struct athlete;
struct criterion;
struct recovery;

struct criterion_state {
    bool figure;       /* it is about a test, or about pain that was entered; else it is words for a person alone */
    bool known;        /* both sides have a result */
    bool met;
    int date;          /* of the later of the two results */
    const char *words; /* "152 of 168 cm is 90.5 %", or "" */
};

/* CRITERION of RECOVERY as ATHLETE's results up to DAY have it: the side of the way back against the other. */
struct criterion_state criterion_on(struct arena *arena, const struct athlete *athlete, const struct recovery *recovery,
                                    const struct criterion *criterion, int day);

#endif
