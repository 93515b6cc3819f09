/* rework.h - a week brought within its limits by the fewest changes.
 *
 * Changes are moves within the week of what is ours to move, and sets, rounds and blocks off by `keep`. What is run by
 * somebody else, what is no training, what is closed or logged, and days gone by stay as they are. Nothing is ever added,
 * waived, or done to a hold or a restriction. */
#ifndef BELL_AMEND_REWORK_H
#define BELL_AMEND_REWORK_H

#include "amend/attempt.h"
#include "amend/fewest.h"

struct rework_way {
    const char *words[FEWEST_TOGETHER]; /* "Long reach from thursday to friday" */
    size_t count;
    struct attempt attempt; /* the plan with it, checked */
};

/* An error, and the lines of the plan that cannot all hold, one below the other: "camp.bell:16: push-up : 10". */
struct rework_fault {
    const char *words, *lines;
};

struct rework {
    size_t errors;   /* of the week as planned, but for those about holds and restrictions */
    struct rework_way ways[FEWEST_WAYS];
    size_t way_count;
    size_t changes;  /* that there are to choose from */
    bool all_tried;  /* no fewer changes would do; where none was found, none of up to FEWEST_TOGETHER */
    struct rework_fault *in_the_way; /* where none was found: the fewest errors of which no try was free; none: they are many */
    size_t in_the_way_count;
};

/* WEEK of every camp of BEFORE, which is REQUEST, compiled and checked. */
struct rework rework_week(struct arena *arena, const struct project_request *request, const struct project *before,
                          int week);

#endif
