/* rework.h - a week brought within its limits by the fewest changes.
 *
 * * Changes are moves within the week of what the coach may move, and sets, rounds and blocks taken off by their
 * `keep`. Work that somebody else runs, what is not training, what is closed or logged, and past days stay as they
 * are. Nothing is ever added or waived, and holds and restrictions are never touched. */
#ifndef BELL_AMEND_REWORK_H
#define BELL_AMEND_REWORK_H

#include "amend/attempt.h"
#include "amend/fewest.h"

struct rework_way {
    const char *words[FEWEST_TOGETHER]; /* "Long reach from thursday to friday" */
    size_t count;
    struct attempt attempt; /* the plan with it, checked */
};

/* An error, and the lines of the plan that cannot all be met, one below the other: "camp.bell:16: push-up : 10". */
struct rework_fault {
    const char *words, *lines;
};

struct rework {
    size_t errors;   /* of the week as planned, except those about holds and restrictions */
    struct rework_way ways[FEWEST_WAYS];
    size_t way_count;
    size_t changes;  /* how many there are to choose from */
    bool all_tried;  /* no fewer changes would do; if none was found, no set of up to FEWEST_TOGETHER would */
    struct rework_fault *in_the_way; /* if none was found: the fewest errors that no try was free of; empty if they are many */
    size_t in_the_way_count;
};

/* WEEK of every camp of BEFORE, which is REQUEST, compiled and checked. */
struct rework rework_week(struct arena *arena, const struct project_request *request, const struct project *before,
                          int week);

#endif
