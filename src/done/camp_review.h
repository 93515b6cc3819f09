/* camp_review.h - the figures of a camp as it turned out: what was planned and done, the results of lifts and tests,
 * what was waived, and what was cut when there were too few days. The Markdown and the sheet both read these and
 * work out nothing themselves. */
#ifndef BELL_DONE_CAMP_REVIEW_H
#define BELL_DONE_CAMP_REVIEW_H

#include "base/arena.h"
#include "done/adherence.h"
#include "done/estimates.h"
#include "measure/tests.h"

struct athlete;
struct camp;
struct phase;
struct programme;
struct waiver;

enum { REVIEW_DAYS_AROUND = 14 }; /* tests this close to a camp belong to it: common practice, no source */

/* Some days of the camp: a phase, a week, or all of it. */
struct review_days {
    const char *name;      /* of the phase; or NULL */
    int first, last;
    size_t planned;        /* how much was placed, without what is not training */
    milli load;            /* planned, with what may be left out */
    struct adherence kept; /* of the past days */
};

/* A test on one side: its first and last day in the camp, which may be the same. */
struct review_test {
    const struct test *test;
    enum test_side side;
    struct test_value first, last;
    struct test_change change; /* from the first to the last, if they differ */
};

struct review_hold {
    int since, ended; /* 0: not ended */
};

struct review_athlete {
    const struct athlete *athlete;
    struct review_days all, *weeks; /* as many weeks as the camp has */
    struct lift_estimate *estimates;
    size_t estimate_count;
    struct review_test *tests;
    size_t test_count;
    struct review_hold *holds;      /* none unless private parts are asked for */
    size_t hold_count;
};

struct camp_review {
    const struct camp *camp;
    struct review_days *phases, *weeks, all;
    size_t phase_count, week_count;
    struct review_athlete *athletes; /* those who did something in it, as the camp names them */
    size_t athlete_count;
    const struct waiver **waivers;
    size_t waiver_count;
    const struct phase **shorter;    /* phases that lost days to more important ones */
    size_t shorter_count;
};

/* The review of CAMP; if PRIVATE, it includes test results and holds that only a private file has. */
struct camp_review review_of(struct arena *arena, const struct programme *programme, const struct camp *camp, bool private);

#endif
