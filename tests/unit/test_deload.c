/* How many sets a lighter week leaves, and how many a week had before it. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "measure/deload.h"

static void the_nearest_number_and_of_two_the_smaller(void **state)
{
    (void)state;
    static const struct {
        int sets;
        milli share; /* thousandths of a per cent */
        int left;
    } rows[] = {
        {0, 60000, 0}, {1, 60000, 1},  {1, 10000, 1},  {2, 10000, 1},  {2, 50000, 1},  {2, 75000, 1},
        {2, 75001, 2}, {3, 50000, 1},  {3, 50001, 2},  {4, 60000, 2},  {5, 50000, 2},  {5, 60000, 3},
        {7, 50000, 3}, {10, 65000, 6}, {10, 65001, 7}, {10, 99000, 10}, {20, 10000, 2}, {9, 100000, 9},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        assert_int_equal(deload_leaves(rows[i].sets, rows[i].share), rows[i].left);
}

static void every_number_can_be_left(void **state)
{
    (void)state;
    assert_int_equal(deload_before(1, 50000), 1);
    assert_int_equal(deload_before(2, 50000), 4);
    assert_int_equal(deload_before(3, 60000), 5);
    assert_int_equal(deload_before(6, 65000), 9);
    assert_int_equal(deload_before(2, 10000), 16);
    for (milli share = 10000; share <= 99000; share += 1000)
        for (int wanted = 1; wanted <= 30; wanted++) {
            int before = deload_before(wanted, share);
            assert_int_equal(deload_leaves(before, share), wanted);
            assert_true(before == 1 || deload_leaves(before - 1, share) < wanted);
        }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_nearest_number_and_of_two_the_smaller),
        cmocka_unit_test(every_number_can_be_left),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
