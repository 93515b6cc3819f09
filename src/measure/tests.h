/* tests.h - what results of tests come to: the day's value, its error, and whether it has changed by more than that. */
#ifndef BELL_MEASURE_TESTS_H
#define BELL_MEASURE_TESTS_H

#include "base/arena.h"
#include "figures/reliability.h"
#include "model/test.h"

struct athlete;
struct programme;

/* What a test came to on a day, in its unit. */
struct test_value {
    int date;
    double value;
    size_t trials;
    bool private;     /* it rests on a line of a private file */
    struct span span; /* of the line, or of one of the two */
};

struct test_values {
    const struct test_value *items; /* the earliest first */
    size_t count;
};

/* The values of TEST for ATHLETE on SIDE. Two tests of a ratio may be a week apart (common practice, no source). */
struct test_values test_values(struct arena *arena, const struct athlete *athlete, const struct test *test,
                               enum test_side side);

/* The same without those of a private file, unless PRIVATE. */
struct test_values test_values_seen(struct arena *arena, const struct athlete *athlete, const struct test *test,
                                    enum test_side side, bool private);

/* The latest of them on DAY or before; for a test of each side, the lesser side's. NULL: none. */
const struct test_value *test_latest(struct arena *arena, const struct athlete *athlete, const struct test *test, int day);

enum error_from {
    ERROR_UNKNOWN,
    ERROR_FROM_CLUB,   /* the club's own pairs, MOST_NEEDED or more */
    ERROR_FROM_SOURCE, /* the test's line */
    ERROR_FROM_PARTS   /* of what it is worked out of */
};

enum { PAIRS_NEEDED = 10 }; /* common practice; Hopkins 2000 asks for more */

/* How well a club measures with TEST. A pair is the first two trials of an athlete on a day. Private lines are left out. */
struct test_error {
    const struct test *test;
    enum error_from from;
    size_t pairs, athletes;
    double club;           /* the typical error of the pairs, in the unit; where there are two or more */
    double mean;           /* of the pairs */
    double deviation;      /* between athletes, of their latest days; where there are two or more */
    double share;          /* of a value, of 1, where a share is all that is known */
    double figure;         /* or else in the unit */
};

struct test_error test_error(struct arena *arena, const struct programme *programme, const struct test *test);

/* Of each test of PROGRAMME, by its number. */
const struct test_error *test_errors(struct arena *arena, const struct programme *programme);

/* The typical error of VALUE, in the unit; 0 where nobody knows. */
double test_error_at(const struct test_error *error, double value);

enum test_verdict { TEST_TOO_FEW, TEST_WITHIN_ERROR, TEST_BEYOND_ERROR };

/* From one value to a later one. */
struct test_change {
    enum test_verdict verdict;
    double change;     /* in the unit, above 0 where the value rose */
    double error;      /* typical, of the mean of both; 0: not known */
    double least;      /* the least detectable change */
    double worthwhile; /* the smallest worthwhile change; 0: not known */
    bool better;
    struct chances chances; /* of better, the same, worse; where error and worthwhile are known */
};

struct test_change test_change(const struct test_error *error, double from, double to);

/* "more than the error", "within the error", "too few to tell" */
const char *test_verdict_words(enum test_verdict verdict);

/* How the sides of a test stand to each other on the latest day that has both; a day may lack one that is a week older. Of
 * a private file only if PRIVATE. */
struct test_symmetry {
    bool known;
    int date;
    double left, right;
    double share;              /* the lesser of the two, of the greater */
    enum test_side lesser;
    enum test_verdict verdict; /* of the difference */
};

struct test_symmetry test_symmetry(struct arena *arena, const struct athlete *athlete, const struct test_error *error,
                                   bool private);

enum { TEST_DAYS_SHOWN = 366, TEST_DAYS_AFTER = 14 }; /* of results before a camp's end and after it: common practice */

/* Has ATHLETE results that a sheet of a camp that ends on DAY shows? */
bool tests_shown(struct arena *arena, const struct programme *programme, const struct athlete *athlete, int day, bool private);

/* VALUES from FIRST to LAST. */
struct test_values test_values_between(struct test_values values, int first, int last);

/* The day by which TEST is to be done again after LAST; 0: nobody says. */
int test_due(const struct test *test, int last);

/* "left", "right"; "" of a test of the whole. */
const char *test_side_words(enum test_side side);

/* VALUE in the unit of TEST: "38.9 cm", "0.7", "2100 N"; figures that its unit is measured to. And without the unit. Both in
 * the language of ARENA. */
const char *test_words(struct arena *arena, const struct test *test, double value);
const char *test_figure(struct arena *arena, const struct test *test, double value);

#endif
