/* Maxima that are read from sets of training, and the ranges that they leave. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "figures/estimate.h"
#include "near.h"

/* --- from repetitions and how many were left --- */

static struct estimate of_reps(double load, int64_t reps, int64_t rpe)
{
    struct estimate estimate = {0};
    assert_true(estimate_from_reps(ONERM_EPLEY, load, reps, rpe, &estimate));
    return estimate;
}

/* Sources: Epley 1985, load x (1 + reps / 30); an error of one repetition, Zourdos et al. 2021, J Strength Cond Res 35
 * suppl S158. Worked by hand: 3 done and 2 left are 5, and the range is that of 4 and of 6. */
static void reps_done_and_left_make_the_maximum(void **state)
{
    (void)state;
    struct estimate five = of_reps(90, 3000, 8000);
    assert_near(five.maximum, 105, 1e-9);
    assert_near(five.low, 102, 1e-9);
    assert_near(five.high, 108, 1e-9);
    struct estimate half = of_reps(90, 3000, 8500); /* 4.5 */
    assert_near(half.maximum, 103.5, 1e-9);
    assert_near(half.low, 100.5, 1e-9);
    assert_near(half.high, 106.5, 1e-9);
}

/* No set is of fewer repetitions than one, and what is lifted once is the maximum itself. */
static void the_range_ends_at_one_repetition(void **state)
{
    (void)state;
    struct estimate one = of_reps(90, 1000, 10000);
    assert_near(one.maximum, 90, 0);
    assert_near(one.low, 90, 0);
    assert_near(one.high, 96, 1e-9);
    struct estimate two = of_reps(90, 2000, 10000);
    assert_near(two.low, 90, 0);
    struct estimate more = of_reps(90, 2500, 10000); /* one fewer are 1.5 */
    assert_near(more.low, 94.5, 1e-9);
    struct estimate hardly = of_reps(90, 2001, 10000);
    assert_near(hardly.low, 93.003, 1e-9);
    assert_near(of_reps(0.5, 5000, 10000).maximum, 0.5 * 35 / 30, 1e-12);
}

static void sets_that_say_too_little(void **state)
{
    (void)state;
    struct estimate estimate = {1, 1, 1};
    assert_false(estimate_from_reps(ONERM_EPLEY, 90, 999, 10000, &estimate));
    assert_false(estimate_from_reps(ONERM_EPLEY, 90, 3000, ESTIMATE_RPE_LEAST - 1, &estimate));
    assert_false(estimate_from_reps(ONERM_EPLEY, 90, 3000, 10001, &estimate));
    assert_false(estimate_from_reps(ONERM_EPLEY, 90, ESTIMATE_REPS_MOST + 1, 10000, &estimate));
    assert_false(estimate_from_reps(ONERM_EPLEY, 90, 7001, 7000, &estimate));
    assert_near(estimate.maximum, 1, 0); /* and nothing is worked out of them */
    assert_false(estimate_from_reps(ONERM_EPLEY, 0, 3000, 8000, &estimate));
    of_reps(90, 1000, 7000);
    assert_near(of_reps(90, ESTIMATE_REPS_MOST, 10000).maximum, 120, 1e-9);
    assert_near(of_reps(90, 7000, 7000).maximum, 120, 1e-9);
}

/* --- from how fast loads were lifted --- */

/* Loads of 200 kg - 100 kg for each metre a second. The error is 3.7 % (doi 10.3233/IES-202247), as nothing is off. */
static void loads_on_a_line(void **state)
{
    (void)state;
    static const struct speed_point points[] = {{100, 1000}, {120, 800}, {150, 500}};
    struct estimate estimate;
    assert_true(estimate_from_speed(points, 3, 300, &estimate));
    assert_near(estimate.maximum, 170, 1e-9);
    assert_near(estimate.low, 170 - 6.29, 1e-9);
    assert_near(estimate.high, 170 + 6.29, 1e-9);
}

/* Worked apart from the program: 193.898305 - 88.135593 x speed, off by 10.105377 with four points. */
static void loads_beside_a_line(void **state)
{
    (void)state;
    static const struct speed_point points[] = {{100, 1000}, {135, 800}, {135, 600}, {150, 500}};
    struct estimate estimate;
    assert_true(estimate_from_speed(points, 4, 300, &estimate));
    assert_near(estimate.maximum, 167.45762712, 1e-6);
    assert_near(estimate.high - estimate.maximum, 10.10537699, 1e-6);
    assert_near(estimate.maximum - estimate.low, 10.10537699, 1e-6);
}

static void lines_that_say_nothing(void **state)
{
    (void)state;
    static const struct speed_point line[] = {{100, 1000}, {120, 800}, {150, 500}, {120, 800}};
    static const struct speed_point two[] = {{100, 1000}, {120, 800}, {100, 990}, {120, 790}};
    static const struct speed_point faster[] = {{100, 500}, {120, 800}, {150, 1000}};
    static const struct speed_point same_speed[] = {{100, 500}, {120, 500}, {150, 500}};
    static const struct speed_point level[] = {{100, 500}, {120, 800}, {100.5, 1000}, {120, 499}};
    static const struct speed_point hardly_faster[] = {{100, 500}, {100.1, 800}, {100.2, 1000}};
    static const struct speed_point as_fast[] = {{100, 500}, {120, 500}, {110, 800}};
    struct estimate estimate;
    assert_true(estimate_from_speed(line, 4, 1, &estimate));
    assert_true(estimate_from_speed(line, 3, 1995, &estimate));
    assert_false(estimate_from_speed(hardly_faster, 3, 300, &estimate));
    assert_false(estimate_from_speed(as_fast, 3, 300, &estimate));
    assert_false(estimate_from_speed(line, 4, 0, &estimate));
    assert_false(estimate_from_speed(line, 2, 300, &estimate));
    assert_false(estimate_from_speed(two, 4, 300, &estimate));
    assert_false(estimate_from_speed(faster, 3, 300, &estimate));
    assert_false(estimate_from_speed(same_speed, 3, 300, &estimate));
    assert_true(estimate_from_speed(level, 4, 300, &estimate));
    assert_false(estimate_from_speed(line, 3, 2001, &estimate)); /* less than nothing */
}

/* Whatever is left over in the arithmetic of real numbers. */
static void one_speed_is_no_line(void **state)
{
    (void)state;
    for (int64_t speed = 1; speed <= 2000; speed++) {
        const struct speed_point falling[] = {{150, speed}, {120, speed}, {100, speed}, {90, speed}};
        struct estimate estimate;
        assert_false(estimate_from_speed(falling, 4, 300, &estimate));
        assert_false(estimate_from_speed(falling, 3, 300, &estimate));
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(reps_done_and_left_make_the_maximum),
        cmocka_unit_test(the_range_ends_at_one_repetition),
        cmocka_unit_test(sets_that_say_too_little),
        cmocka_unit_test(loads_on_a_line),
        cmocka_unit_test(loads_beside_a_line),
        cmocka_unit_test(lines_that_say_nothing),
        cmocka_unit_test(one_speed_is_no_line),
    };
    return cmocka_run_group_tests_name("estimate", tests, NULL, NULL);
}
