/* The cut of a taper against its peak week. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "figures/taper.h"

/*
 * Source of the borders: Bosquet et al. 2007, Med Sci Sports Exerc 39:1358-1365, a cut of 41 to
 * 60 % of volume. The figures of these tapers are ours, worked by hand.
 */
static void published_borders_are_met_exactly(void **state)
{
    (void)state;
    const struct taper at_41 = {.peak = 700, .total = 413, .weeks = 1};
    const struct taper at_60 = {.peak = 3, .total = 12, .weeks = 10}; /* 12/30 left */
    const struct taper short_of_41 = {.peak = 1000000000, .total = 590000001, .weeks = 1};

    assert_int_equal(taper_compare(&at_41, 41000), 0);
    assert_int_equal(taper_compare(&at_60, 60000), 0);
    assert_int_equal(taper_cut(&at_60), 60000);
    /* Prints as 41 %, and is judged to be less all the same. */
    assert_int_equal(taper_cut(&short_of_41), 41000);
    assert_int_equal(taper_compare(&short_of_41, 41000), -1);
}

static void mean_of_the_weeks_and_last_week_differ(void **state)
{
    (void)state;
    const struct taper mean = {.peak = 60, .total = 45 + 30 + 18, .weeks = 3};
    const struct taper last = {.peak = 60, .total = 18, .weeks = 1};

    assert_int_equal(taper_cut(&mean), 48333);
    assert_int_equal(taper_compare(&mean, 41000), 1);
    assert_int_equal(taper_compare(&mean, 60000), -1);
    assert_int_equal(taper_cut(&last), 70000);
    assert_int_equal(taper_compare(&last, 60000), 1);
}

static void more_than_the_peak_is_a_negative_cut(void **state)
{
    (void)state;
    const struct taper more = {.peak = 3, .total = 5, .weeks = 1};
    const struct taper none = {.peak = 3, .total = 0, .weeks = 2};

    assert_int_equal(taper_cut(&more), -66667);
    assert_int_equal(taper_compare(&more, 0), -1);
    assert_int_equal(taper_cut(&none), 100000);
    assert_int_equal(taper_compare(&none, 100000), 0);
}

/* To the nearest thousandth of a per cent, half away from 0. */
static void cuts_are_rounded(void **state)
{
    (void)state;
    static const struct {
        struct taper taper;
        int64_t cut;
    } rows[] = {
        {{.peak = 64, .total = 63, .weeks = 1}, 1563}, {{.peak = 64, .total = 65, .weeks = 1}, -1563},
        {{.peak = 3, .total = 2, .weeks = 1}, 33333},  {{.peak = 3, .total = 4, .weeks = 1}, -33333},
        {{.peak = 1, .total = 0, .weeks = 1}, 100000}, {{.peak = 100000000000, .total = 100000000000, .weeks = 1}, 0},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        assert_true(taper_is_valid(&rows[i].taper));
        assert_int_equal(taper_cut(&rows[i].taper), rows[i].cut);
    }
}

static void nonsense_is_not_valid(void **state)
{
    (void)state;
    const struct taper wrong[] = {
        {.peak = 0, .total = 5, .weeks = 1},
        {.peak = -1, .total = 5, .weeks = 1},
        {.peak = 5, .total = -1, .weeks = 1},
        {.peak = 5, .total = 5, .weeks = 0},
        {.peak = 5, .total = 5, .weeks = 53},
        {.peak = INT64_MAX, .total = 5, .weeks = 1},
        {.peak = 5, .total = INT64_MAX, .weeks = 1},
    };
    const struct taper largest = {.peak = 100000000000, .total = 0, .weeks = 52};

    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++) {
        assert_false(taper_is_valid(&wrong[i]));
        assert_int_equal(taper_cut(&wrong[i]), 0);
    }
    assert_true(taper_is_valid(&largest));
    assert_int_equal(taper_cut(&largest), 100000);
    assert_int_equal(taper_compare(&largest, -1000000), 1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(published_borders_are_met_exactly),
        cmocka_unit_test(mean_of_the_weeks_and_last_week_differ),
        cmocka_unit_test(more_than_the_peak_is_a_negative_cut),
        cmocka_unit_test(cuts_are_rounded),
        cmocka_unit_test(nonsense_is_not_valid),
    };
    return cmocka_run_group_tests_name("taper", tests, NULL, NULL);
}
