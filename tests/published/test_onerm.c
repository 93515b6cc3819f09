/* Estimated one-rep maximum: seven equations, quoted from memory; the arithmetic is ours. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "figures/onerm.h"
#include "kg.h"
#include "near.h"

static double real_of(enum onerm_equation equation, double load, int reps)
{
    double maximum;

    assert_int_equal(onerm_real(equation, load, reps, &maximum), ONERM_OK);
    return maximum;
}

/* Sources as onerm_source names them, in the order of the enumeration; worked by hand. */
static void five_repetitions_with_100_kg(void **state)
{
    (void)state;
    static const double want[ONERM_EQUATIONS] = {
        116.6667, 112.5, 117.4619, 119.0107, 112.5, 116.5825, 113.7089,
    };

    for (int i = 0; i < ONERM_EQUATIONS; i++) {
        int64_t maximum;
        assert_near(real_of((enum onerm_equation)i, 100.0, 5), want[i], 0.00005);
        /* To the gram, which is three of the decimals; a maximum in pounds to a thousandth of a pound. */
        assert_int_equal(onerm_estimate((enum onerm_equation)i, KG(100), 5, &maximum), ONERM_OK);
        assert_int_equal(maximum, KG(want[i]));
        assert_int_equal(onerm_estimate((enum onerm_equation)i, LB(100), 5, &maximum), ONERM_OK);
        assert_int_equal(maximum, LB(want[i]));
    }
}

/* 1 + 10/30 and 36/27 are both four thirds: the two best known equations cross at ten. */
static void epley_equals_brzycki_at_ten(void **state)
{
    (void)state;
    assert_near(real_of(ONERM_EPLEY, 100.0, 10), 133.3333, 0.00005);
    assert_near(real_of(ONERM_EPLEY, 100.0, 10), real_of(ONERM_BRZYCKI, 100.0, 10), 1e-9);
    assert_true(real_of(ONERM_EPLEY, 100.0, 9) > real_of(ONERM_BRZYCKI, 100.0, 9) + 1.0);
}

static void single_is_its_own_maximum(void **state)
{
    (void)state;
    for (int i = 0; i < ONERM_EQUATIONS; i++) {
        int64_t maximum;
        assert_int_equal(onerm_estimate((enum onerm_equation)i, KG(123.45), 1, &maximum), ONERM_OK);
        assert_int_equal(maximum, KG(123.45));
    }
}

static void more_repetitions_mean_a_higher_maximum(void **state)
{
    (void)state;
    for (int i = 0; i < ONERM_EQUATIONS; i++) {
        double before = 100.0;
        for (int reps = 2; reps <= ONERM_REPS_MOST; reps++) {
            double now = real_of((enum onerm_equation)i, 100.0, reps);
            assert_true(now > before);
            before = now;
        }
    }
}

static void outside_its_range_it_is_flagged_or_refused(void **state)
{
    (void)state;
    int64_t maximum = 1;
    double real = 1.0;

    assert_int_equal(onerm_estimate(ONERM_EPLEY, KG(100), 10, &maximum), ONERM_OK);
    assert_int_equal(onerm_estimate(ONERM_EPLEY, KG(100), 11, &maximum), ONERM_OUTSIDE);
    assert_int_equal(maximum, KG(136.667));
    assert_int_equal(onerm_estimate(ONERM_BRZYCKI, KG(100), 36, &maximum), ONERM_OUTSIDE);
    assert_int_equal(maximum, KG(3600));

    const enum onerm_equation broken[] = {ONERM_BRZYCKI, ONERM_LANDER};
    for (int i = 0; i < 2; i++) {
        assert_int_equal(onerm_estimate(broken[i], KG(100), 37, &maximum), ONERM_REFUSED);
        assert_int_equal(maximum, 0);
        assert_int_equal(onerm_real(broken[i], 100.0, 38, &real), ONERM_REFUSED);
        assert_near(real, 0.0, 0.0);
    }
    assert_int_equal(onerm_estimate(ONERM_LOMBARDI, KG(100), 37, &maximum), ONERM_OUTSIDE);

    assert_int_equal(onerm_estimate(ONERM_EPLEY, KG(100), 0, &maximum), ONERM_REFUSED);
    assert_int_equal(onerm_estimate(ONERM_EPLEY, KG(100), -5, &maximum), ONERM_REFUSED);
    assert_int_equal(onerm_estimate(ONERM_EPLEY, KG(100), 1001, &maximum), ONERM_REFUSED);
    assert_int_equal(onerm_estimate(ONERM_EPLEY, 0, 5, &maximum), ONERM_REFUSED);
    assert_int_equal(onerm_estimate(ONERM_EPLEY, -1, 5, &maximum), ONERM_REFUSED);
    assert_int_equal(onerm_estimate(ONERM_EPLEY, INT64_MAX, 5, &maximum), ONERM_REFUSED);
    assert_int_equal(onerm_estimate(ONERM_EQUATIONS, KG(100), 5, &maximum), ONERM_REFUSED);
    assert_int_equal(onerm_real(ONERM_EPLEY, (double)NAN, 5, &real), ONERM_REFUSED);
}

static void each_has_a_name_and_a_source(void **state)
{
    (void)state;
    static const char *const names[ONERM_EQUATIONS] = {"epley",   "brzycki", "lombardi", "mayhew",
                                                       "oconner", "wathen",  "lander"};
    enum onerm_equation found = ONERM_LANDER;

    for (int i = 0; i < ONERM_EQUATIONS; i++) {
        assert_true(onerm_from_name(names[i], &found));
        assert_int_equal(found, i);
        assert_non_null(onerm_source((enum onerm_equation)i));
    }
    assert_string_equal(onerm_source(ONERM_BRZYCKI), "Brzycki 1993, JOPERD 64(1):88-90");
    assert_false(onerm_from_name("nobody", &found));
    assert_null(onerm_source(ONERM_EQUATIONS));
}

/* Repetitions done and left need not be whole. */
static void between_whole_repetitions(void **state)
{
    (void)state;
    assert_near(onerm_at(ONERM_EPLEY, 90.0, 4.5), 103.5, 1e-9);
    assert_near(onerm_at(ONERM_BRZYCKI, 90.0, 1.0), 90.0, 0);
    assert_near(onerm_at(ONERM_EPLEY, 90.0, 1.5), 94.5, 1e-9);
    assert_near(onerm_at(ONERM_EPLEY, 90.0, 0.5), 0.0, 0);
    assert_near(onerm_at(ONERM_EPLEY, 90.0, (double)NAN), 0.0, 0);
    assert_near(onerm_at(ONERM_EPLEY, 0.0, 5.0), 0.0, 0);
    assert_near(onerm_at(ONERM_EPLEY, -90.0, 5.0), 0.0, 0);
    assert_near(onerm_at(ONERM_EPLEY, 90.0, 1000.5), 0.0, 0);
    assert_near(onerm_at(ONERM_EPLEY, (double)ONERM_LOAD_LIMIT * 2, 5.0), 0.0, 0);
    assert_near(onerm_at(ONERM_BRZYCKI, 90.0, 36.5), 0.0, 0);
    assert_near(onerm_at(ONERM_BRZYCKI, 90.0, 36.0), 3240.0, 1e-9);
    assert_near(onerm_at(ONERM_EQUATIONS, 90.0, 5.0), 0.0, 0);
}

static void the_limits_are_within(void **state)
{
    (void)state;
    double real;
    assert_int_equal(onerm_real(ONERM_EPLEY, (double)ONERM_LOAD_LIMIT, 1, &real), ONERM_OK);
    assert_near(onerm_at(ONERM_EPLEY, (double)ONERM_LOAD_LIMIT, 1.0), (double)ONERM_LOAD_LIMIT, 0);
    assert_int_equal(onerm_real(ONERM_EPLEY, 0.5, 1, &real), ONERM_OK);
    assert_near(onerm_at(ONERM_EPLEY, 0.5, 1.0), 0.5, 0);
    assert_int_equal(onerm_real(ONERM_EPLEY, 100.0, ONERM_REPS_LIMIT, &real), ONERM_OUTSIDE);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(five_repetitions_with_100_kg),
        cmocka_unit_test(epley_equals_brzycki_at_ten),
        cmocka_unit_test(single_is_its_own_maximum),
        cmocka_unit_test(more_repetitions_mean_a_higher_maximum),
        cmocka_unit_test(outside_its_range_it_is_flagged_or_refused),
        cmocka_unit_test(each_has_a_name_and_a_source),
        cmocka_unit_test(between_whole_repetitions),
        cmocka_unit_test(the_limits_are_within),
    };
    return cmocka_run_group_tests_name("onerm", tests, NULL, NULL);
}
