/* Session load, monotony, strain, acute and chronic load against published formulas. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "figures/load.h"
#include "kg.h"
#include "near.h"

/* Source: Foster et al. 2001, J Strength Cond Res 15(1):109-115: RPE x minutes. */
static void session_load_is_rpe_times_minutes(void **state)
{
    (void)state;
    assert_int_equal(load_session(7000, 60 * 60), 420 * 1000);
    assert_int_equal(load_session(7500, 45 * 60), 337500); /* 337.5 */
    assert_int_equal(load_session(7000, 100), 11667);      /* 11.6667 */
    assert_int_equal(load_session(0, 45 * 60), 0);
    assert_int_equal(load_session(1, 30), 1); /* half a thousandth goes up, and a little less down */
    assert_int_equal(load_session(29, 1), 0);
}

/* Source: table of worked tonnages in BMJ Military Health, in kg. */
static void tonnage_of_the_published_sessions(void **state)
{
    (void)state;
    assert_int_equal(load_tonnage(3 * 8 * 1000, KG(65)), 1560 * 1000);
    assert_int_equal(load_tonnage(10000, KG(55)) + load_tonnage(8000, KG(65)) + load_tonnage(6000, KG(75)), 1520 * 1000);
    assert_int_equal(load_tonnage(24000, LB(135)), 1469639); /* 3240 lb are 1469.639 kg */
    assert_int_equal(load_tonnage(1000000000, KG(65)), INT64_C(65000000000));
    assert_int_equal(load_tonnage(INT64_MAX, INT64_MAX), INT64_C(1000000000000000));
}

/* Half a thousandth of a kilogram goes up, whether it is of whole grams or of parts of one. */
static void tonnage_to_the_nearest(void **state)
{
    (void)state;
    const int64_t gram = MASS_KG / 1000;
    assert_int_equal(load_tonnage(500, gram), 1);
    assert_int_equal(load_tonnage(499, gram), 0);
    assert_int_equal(load_tonnage(1, 499 * gram + gram / 2), 1);
    assert_int_equal(load_tonnage(1, 499 * gram + 1), 0);
}

/*
 * Sources: formulas Foster 1998, Med Sci Sports Exerc 30:1164-1168; daily loads PMC10230214, table
 * 2; the results are worked by us.
 */
static void week_of_the_published_table(void **state)
{
    (void)state;
    static const int64_t daily[LOAD_DAYS] = {600, 750, 200, 750, 800, 0, 0};
    struct load_week sample = load_week_of(daily, LOAD_SAMPLE);
    struct load_week population = load_week_of(daily, LOAD_POPULATION);

    assert_int_equal(sample.total, 3100);
    assert_false(sample.even);
    assert_near(sample.mean, 3100.0 / 7.0, 1e-9);
    assert_near(sample.monotony, 1.2188142516, 5e-11);
    assert_near(population.monotony, 1.3164698540, 5e-11);
    assert_near(sample.strain, 3778.324, 5e-4);
    assert_near(population.strain, 3100.0 * 1.3164698540, 1e-6);
}

/* The other weeks of that table, by the deviation over n. */
static void weeks_of_the_published_table_by_population(void **state)
{
    (void)state;
    static const struct {
        int64_t daily[LOAD_DAYS];
        double monotony, strain;
    } weeks[] = {{{800, 600, 300, 800, 500, 300, 0}, 1.7393, 5739.5},
                 {{800, 600, 300, 800, 500, 650, 0}, 1.9524, 7126.3},
                 {{650, 600, 0, 700, 600, 0, 0}, 1.1490, 2930.1}};
    for (size_t i = 0; i < sizeof weeks / sizeof *weeks; i++) {
        struct load_week week = load_week_of(weeks[i].daily, LOAD_POPULATION);
        assert_near(week.monotony, weeks[i].monotony, 5.1e-5);
        assert_near(week.strain, weeks[i].strain, 0.051);
    }
}

static void even_week_has_no_monotony(void **state)
{
    (void)state;
    /* In binary a tenth of this mean is not exact, so a real deviation need not come out as 0. */
    const int64_t weeks[][LOAD_DAYS] = {
        {0, 0, 0, 0, 0, 0, 0},
        {337501, 337501, 337501, 337501, 337501, 337501, 337501},
    };

    for (size_t i = 0; i < 2; i++) {
        struct load_week week = load_week_of(weeks[i], LOAD_SAMPLE);
        assert_true(week.even);
        assert_int_equal(week.total, weeks[i][0] * LOAD_DAYS);
        assert_near(week.monotony, 0.0, 0.0);
        assert_near(week.strain, 0.0, 0.0);
        assert_near(week.deviation, 0.0, 0.0);
    }
}

static void one_other_day_makes_a_week_uneven(void **state)
{
    (void)state;
    for (size_t day = 0; day < LOAD_DAYS; day++) {
        int64_t daily[LOAD_DAYS] = {100, 100, 100, 100, 100, 100, 100};
        daily[day] = 200;
        struct load_week week = load_week_of(daily, LOAD_POPULATION);
        assert_false(week.even);
        assert_near(week.deviation, 100 * sqrt(6.0) / 7, 1e-9);
    }
}

enum { FOUR_WEEKS = 28 };

/*
 * Sources: windows of 7 and 28 days and lambda = 2 / (N + 1), Williams et al. 2017, Br J Sports Med
 * 51:209-210; the series and its results are ours.
 */
static void week_at_double_after_three_at_100(void **state)
{
    (void)state;
    int64_t daily[FOUR_WEEKS];

    for (int i = 0; i < FOUR_WEEKS; i++)
        daily[i] = i < 21 ? 100 : 200;

    struct load_trend rolling =
        load_rolling(daily, FOUR_WEEKS, LOAD_ACUTE_DAYS, LOAD_CHRONIC_DAYS);
    assert_true(rolling.known);
    assert_near(rolling.acute, 200.0, 1e-9);
    assert_near(rolling.chronic, 125.0, 1e-9);
    assert_near(rolling.ratio, 1.6, 1e-12);

    struct load_trend uncoupled =
        load_uncoupled(daily, FOUR_WEEKS, LOAD_ACUTE_DAYS, LOAD_CHRONIC_DAYS);
    assert_true(uncoupled.known);
    assert_near(uncoupled.chronic, 100.0, 1e-9);
    assert_near(uncoupled.ratio, 2.0, 1e-12);

    struct load_trend weighted =
        load_weighted(daily, FOUR_WEEKS, LOAD_ACUTE_DAYS, LOAD_CHRONIC_DAYS);
    assert_true(weighted.known);
    assert_near(weighted.ratio, 1.3393501, 5e-8);
    /* In closed form the week at 200 closes all but (1 - lambda)^7 of the step from 100. */
    assert_near(weighted.acute, 200.0 - 100.0 * pow(0.75, 7), 1e-9);
    assert_near(weighted.chronic, 200.0 - 100.0 * pow(27.0 / 29.0, 7), 1e-9);
}

static void windows_end_at_the_last_day(void **state)
{
    (void)state;
    int64_t daily[FOUR_WEEKS + 10] = {0};

    for (int i = 10; i < FOUR_WEEKS + 10; i++)
        daily[i] = 100;
    daily[9] = 1000000; /* the day before the windows must not count */
    struct load_trend trend = load_rolling(daily, FOUR_WEEKS + 10, 7, 28);
    assert_near(trend.ratio, 1.0, 1e-12);
    trend = load_uncoupled(daily, FOUR_WEEKS + 10, 7, 28);
    assert_near(trend.ratio, 1.0, 1e-12);
}

static void unknown_rather_than_infinite(void **state)
{
    (void)state;
    int64_t daily[FOUR_WEEKS] = {0};

    assert_false(load_rolling(daily, FOUR_WEEKS, 7, 28).known);
    assert_false(load_weighted(daily, FOUR_WEEKS, 7, 28).known);
    for (int i = 21; i < FOUR_WEEKS; i++)
        daily[i] = 100;
    struct load_trend trend = load_uncoupled(daily, FOUR_WEEKS, 7, 28);
    assert_false(trend.known); /* three idle weeks: nothing to divide by */
    assert_near(trend.ratio, 0.0, 0.0);
    assert_true(load_rolling(daily, FOUR_WEEKS, 7, 28).known);

    assert_false(load_rolling(daily, FOUR_WEEKS - 1, 7, 28).known);
    assert_false(load_uncoupled(daily, FOUR_WEEKS - 1, 7, 28).known);
    assert_false(load_rolling(daily, FOUR_WEEKS, 28, 28).known);
    assert_false(load_rolling(daily, FOUR_WEEKS, 0, 28).known);
    assert_false(load_weighted(daily, 0, 7, 28).known);
    assert_false(load_weighted(daily, FOUR_WEEKS, 7, 7).known);
    assert_true(load_weighted(daily + 21, 1, 7, 28).known);
    assert_false(load_uncoupled(daily, FOUR_WEEKS, 0, 28).known);
    assert_false(load_weighted(daily + 21, 0, 7, 28).known);
    assert_false(load_weighted(daily + 21, 7, 0, 28).known);
}

/* A window of a day, and loads of less than one a day. */
static void the_shortest_windows(void **state)
{
    (void)state;
    static const int64_t daily[] = {0, 0, 3, 1};
    assert_near(load_rolling(daily, 4, 1, 2).ratio, 0.5, 1e-12);
    assert_near(load_uncoupled(daily, 4, 1, 2).ratio, 1.0 / 3, 1e-12);
    assert_near(load_rolling(daily, 3, 1, 3).ratio, 3, 1e-12);
    assert_near(load_weighted(daily + 1, 2, 1, 3).ratio, 3 / 1.5, 1e-12);
    static const int64_t hardly[] = {0, 1};
    assert_true(load_rolling(hardly, 2, 1, 2).known);
    assert_near(load_rolling(hardly, 2, 1, 2).chronic, 0.5, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(session_load_is_rpe_times_minutes),
        cmocka_unit_test(tonnage_of_the_published_sessions),
        cmocka_unit_test(tonnage_to_the_nearest),
        cmocka_unit_test(week_of_the_published_table),
        cmocka_unit_test(weeks_of_the_published_table_by_population),
        cmocka_unit_test(even_week_has_no_monotony),
        cmocka_unit_test(one_other_day_makes_a_week_uneven),
        cmocka_unit_test(week_at_double_after_three_at_100),
        cmocka_unit_test(windows_end_at_the_last_day),
        cmocka_unit_test(unknown_rather_than_infinite),
        cmocka_unit_test(the_shortest_windows),
    };
    return cmocka_run_group_tests_name("load", tests, NULL, NULL);
}
