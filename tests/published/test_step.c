/* The next load by how hard a set was, and by the repetitions of an all-out last set. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "figures/step.h"

/* Source: Helms et al. 2018, Front Physiol 9:247: 2 % for each half point outside of the band. */
static void two_per_cent_for_half_a_point(void **state)
{
    (void)state;
    assert_int_equal(progress_by_effort(7000, 7000, 8000), 0);
    assert_int_equal(progress_by_effort(8000, 7000, 8000), 0);
    assert_int_equal(progress_by_effort(8500, 7000, 8000), -2000);
    assert_int_equal(progress_by_effort(9000, 7000, 8000), -4000);
    assert_int_equal(progress_by_effort(6500, 7000, 8000), 2000);
    assert_int_equal(progress_by_effort(5000, 7000, 8000), 8000);
    assert_int_equal(progress_by_effort(8001, 7000, 8000), -4);
    assert_int_equal(progress_by_effort(6999, 7000, 8000), 4);
}

/* Source: Mann et al. 2010, J Strength Cond Res 24:1718-1723, as figures/step.h says of each table. */
static void pounds_by_the_last_set(void **state)
{
    (void)state;
    static const struct {
        int of, from, to, low, high; /* repetitions, and pounds */
    } rows[] = {
        {3, 0, 2, -10, -5}, {3, 3, 4, 0, 0},  {3, 5, 6, 5, 10},   {3, 7, 30, 10, 15},   {6, 0, 2, -10, -5},
        {6, 3, 4, -5, 0},   {6, 5, 7, 0, 0},  {6, 8, 12, 5, 10},  {6, 13, 30, 10, 15},  {10, 0, 6, -10, -5},
        {10, 7, 8, -5, 0},  {10, 9, 11, 0, 0}, {10, 12, 16, 5, 10}, {10, 17, 30, 10, 15},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        for (int reps = rows[i].from; reps <= rows[i].to; reps++) {
            struct progress_pounds change = {1, 1};
            assert_true(progress_by_last_set(rows[i].of, reps, &change));
            assert_int_equal(change.low, rows[i].low);
            assert_int_equal(change.high, rows[i].high);
        }
}

static void other_counts_have_no_table(void **state)
{
    (void)state;
    for (int of = 0; of <= 12; of++) {
        struct progress_pounds change = {1, 1};
        bool has_table = of == 3 || of == 6 || of == 10;
        assert_int_equal(progress_by_last_set(of, 5, &change), has_table);
        assert_true(has_table || (change.low == 1 && change.high == 1));
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(two_per_cent_for_half_a_point),
        cmocka_unit_test(pounds_by_the_last_set),
        cmocka_unit_test(other_counts_have_no_table),
    };
    return cmocka_run_group_tests_name("step", tests, NULL, NULL);
}
