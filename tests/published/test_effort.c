/* Repetitions at a percentage, in reserve at an RPE, and intensity zones. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "figures/effort.h"

static int64_t reps_at(int64_t percent)
{
    int64_t reps;

    assert_int_equal(effort_reps_at(percent, &reps), EFFORT_REPS_KNOWN);
    return reps;
}

/*
 * Source: Haff and Triplett (eds), Essentials of Strength Training and Conditioning, 4th ed. 2016,
 * chapter 17, quoted from memory.
 */
static void table_rows_come_out_as_printed(void **state)
{
    (void)state;
    static const int rows[][2] = {
        {1, 100}, {2, 95}, {3, 93}, {4, 90},  {5, 87},  {6, 85},  {7, 83},
        {8, 80},  {9, 77}, {10, 75}, {11, 70}, {12, 67}, {15, 65},
    };

    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        assert_int_equal(reps_at(rows[i][1] * 1000), rows[i][0] * 1000);
}

/* The straight line between two rows is ours; these values are worked by hand. */
static void between_rows_the_count_is_on_the_line_and_cut(void **state)
{
    (void)state;
    assert_int_equal(reps_at(97500), 1500);
    assert_int_equal(reps_at(82500), 7166); /* 7 and a sixth */
    assert_int_equal(reps_at(72500), 10500);
    assert_int_equal(reps_at(66000), 13500);
    assert_int_equal(reps_at(65001), 14998); /* 14.9985 */
    assert_int_equal(reps_at(99999), 1000);  /* 1.0002 */
}

static void lighter_never_allows_fewer(void **state)
{
    (void)state;
    int64_t before = 0;

    for (int64_t percent = 100000; percent >= 65000; percent -= 125) {
        assert_true(reps_at(percent) >= before);
        before = reps_at(percent);
    }
}

static void outside_the_table(void **state)
{
    (void)state;
    int64_t reps = 1;

    assert_int_equal(reps_at(100001), 0);
    assert_int_equal(effort_reps_at(64999, &reps), EFFORT_REPS_AT_LEAST);
    assert_int_equal(reps, 15000);
    assert_int_equal(effort_reps_at(0, &reps), EFFORT_REPS_REFUSED);
    assert_int_equal(reps, 0);
    assert_int_equal(effort_reps_at(-1, &reps), EFFORT_REPS_REFUSED);
    assert_int_equal(effort_reps_at(1, &reps), EFFORT_REPS_AT_LEAST);
}

/* The table turned round: its rows, the lines between them to the nearest, and nothing outside. */
static void percent_for_repetitions(void **state)
{
    (void)state;
    assert_int_equal(effort_percent_for(1000), 100000);
    assert_int_equal(effort_percent_for(2000), 95000);
    assert_int_equal(effort_percent_for(7000), 83000);
    assert_int_equal(effort_percent_for(8000), 80000);
    assert_int_equal(effort_percent_for(15000), 65000);
    assert_int_equal(effort_percent_for(1500), 97500);
    assert_int_equal(effort_percent_for(13000), 66333); /* a third of the way from 12 to 15 */
    assert_int_equal(effort_percent_for(14000), 65667);
    assert_int_equal(effort_percent_for(999), 0);
    assert_int_equal(effort_percent_for(15001), 0);
}

static void assert_reserve(int64_t rpe, int64_t least, int64_t most)
{
    int64_t got_least, got_most;

    assert_true(effort_reserve(rpe, &got_least, &got_most));
    assert_int_equal(got_least, least);
    assert_int_equal(got_most, most);
}

/* Source: Zourdos et al. 2016, J Strength Cond Res 30:267-275. */
static void reserve_by_the_published_scale(void **state)
{
    (void)state;
    int64_t least = 1, most = 1;

    assert_reserve(10000, 0, 0);
    assert_reserve(9500, 0, 0);
    assert_reserve(9000, 1000, 1000);
    assert_reserve(8500, 1000, 2000);
    assert_reserve(8000, 2000, 2000);
    assert_reserve(7500, 2000, 3000);
    assert_reserve(7000, 3000, 3000);
    assert_reserve(6000, 4000, 6000);
    assert_reserve(5000, 4000, 6000);
    assert_reserve(6999, 4000, 6000);
    assert_reserve(7001, 2000, 3000); /* between two steps the range of both */
    assert_reserve(7999, 2000, 3000);
    assert_reserve(8999, 1000, 2000);
    assert_reserve(9001, 0, 1000);
    assert_reserve(9499, 0, 1000);
    assert_reserve(9999, 0, 0);
    assert_false(effort_reserve(4999, &least, &most));
    assert_int_equal(least + most, 0);
    assert_false(effort_reserve(10001, &least, &most));
}

/* Source: borders of the table attributed to Prilepin, from secondary sources only. */
static void border_belongs_to_the_heavier_zone(void **state)
{
    (void)state;
    assert_int_equal(effort_zone_of(69999), EFFORT_BELOW_70);
    assert_int_equal(effort_zone_of(70000), EFFORT_70_TO_80);
    assert_int_equal(effort_zone_of(79999), EFFORT_70_TO_80);
    assert_int_equal(effort_zone_of(80000), EFFORT_80_TO_90);
    assert_int_equal(effort_zone_of(89999), EFFORT_80_TO_90);
    assert_int_equal(effort_zone_of(90000), EFFORT_FROM_90);
    assert_int_equal(effort_zone_of(105000), EFFORT_FROM_90);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(table_rows_come_out_as_printed),
        cmocka_unit_test(between_rows_the_count_is_on_the_line_and_cut),
        cmocka_unit_test(lighter_never_allows_fewer),
        cmocka_unit_test(outside_the_table),
        cmocka_unit_test(percent_for_repetitions),
        cmocka_unit_test(reserve_by_the_published_scale),
        cmocka_unit_test(border_belongs_to_the_heavier_zone),
    };
    return cmocka_run_group_tests_name("effort", tests, NULL, NULL);
}
