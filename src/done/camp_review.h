/* camp_review.h - the figures of a camp as it came to be: what was planned and done, what the lifts and tests came to, what was
 * waived, and what gave way when the days did not reach. The Markdown and the sheet both read these and work out nothing. */
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

enum { REVIEW_DAYS_AROUND = 14 }; /* tests so near a camp are its own: common practice, no source */

/* Some days of the camp: a phase, a week, or all of it. */
struct review_days {
    const char *name;      /* of the phase; or NULL */
    int first, last;
    size_t planned;        /* how much was placed; what is no training is not counted */
    milli load;            /* planned, with what may be left out */
    struct adherence kept; /* of the days gone by */
};

/* A test on one side: its first and last day of the camp, which may be one and the same. */
struct review_test {
    const struct test *test;
    enum test_side side;
    struct test_value first, last;
    struct test_change change; /* from the one to the other, where they are two */
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
    const struct phase **shorter;    /* phases that lost days to those that matter more */
    size_t shorter_count;
};

/* The review of CAMP; results of tests and holds that only a private file has are in it if PRIVATE. */
struct camp_review review_of(struct arena *arena, const struct programme *programme, const struct camp *camp, bool private);

#endif
