/* test.h - what a club measures beside its lifts, and what came of it. */
#ifndef BELL_MODEL_TEST_H
#define BELL_MODEL_TEST_H

#include <stdbool.h>
#include <stddef.h>

#include "model/kinds.h"
#include "model/quantity.h"

struct exercise;

/* The typical error of one result: a share of it in thousandths of a per cent, or a figure in the test's unit in thousandths.
 * Both 0: nobody says. */
struct typical_error {
    milli share, figure;
};

struct test {
    struct name name;
    struct name *aliases;
    size_t alias_count;
    const struct exercise *exercise; /* of the same name, which it measures; or NULL */
    enum test_unit unit;
    bool lower;                      /* lower is better */
    bool mean;                       /* of the trials of a day it takes their mean, not the best */
    bool each_side;
    struct typical_error error;      /* as its source or the coach gives it */
    int retest;                      /* days; 0 not given */
    const struct test *ratio[2];     /* worked out: the first by the second, in metres, seconds, newtons, kilograms */
    const struct test *flight;       /* worked out: the height of a jump from this time in the air */
    const char *source;              /* or NULL */
    bool common_practice;
    bool shelf;                      /* from the shelf, though the club may say more of it */
    const struct span *changed;      /* where the club does; or NULL */
    size_t number;                   /* place in programme.tests */
};

enum test_side { TEST_WHOLE, TEST_LEFT, TEST_RIGHT };

/* The trials of one day, in thousandths of the test's unit. */
struct test_result {
    const struct test *test;
    enum test_side side;
    const milli *trials;
    size_t trial_count;
    int date;
    bool best;    /* it is a best: one repetition of the lift that the test measures */
    bool private; /* from a private file */
    struct span span;
};

#endif
