/* Pounds, shares and the text of a mass. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "figures/mass.h"
#include "kg.h"

/* Source: international yard and pound agreement, 1959: 1 lb = 0.45359237 kg exactly. */
static void a_pound_is_exact(void **state)
{
    (void)state;
    assert_int_equal(100000000 * mass_from(1000, MASS_IN_LB), INT64_C(45359237) * mass_from(1000, MASS_IN_KG));
    assert_int_equal(mass_to(mass_from(135000, MASS_IN_LB), MASS_IN_KG), 61235); /* 61.23496995 kg */
    assert_int_equal(mass_to(KG(100), MASS_IN_LB), 220462);                      /* 220.4623 lb */
    assert_int_equal(mass_from(0, MASS_IN_LB), 0);
    assert_int_equal(mass_to(0, MASS_IN_LB), 0);
}

/* Every figure with three decimals comes back as it was written, and sums are those of the figures. */
static void no_figure_is_rounded(void **state)
{
    (void)state;
    for (int unit = MASS_IN_KG; unit <= MASS_IN_LB; unit++)
        for (int64_t milli = 0; milli <= 1500000; milli += 7) {
            int64_t mass = mass_from(milli, (enum mass_unit)unit);
            assert_int_equal(mass_to(mass, (enum mass_unit)unit), milli);
            assert_int_equal(3 * mass, mass_from(3 * milli, (enum mass_unit)unit));
        }
}

static void a_mass_knows_its_unit(void **state)
{
    (void)state;
    for (int64_t milli = 1; milli <= 1500000; milli += 7) {
        assert_int_equal(mass_written_in(mass_from(milli, MASS_IN_KG)), MASS_IN_KG);
        assert_int_equal(mass_written_in(mass_from(milli, MASS_IN_LB)), MASS_IN_LB);
    }
    assert_int_equal(mass_written_in(0), MASS_IN_KG);
    assert_int_equal(mass_written_in(KG(20) + LB(90)), MASS_IN_KG);
}

static void beyond_reason_is_refused(void **state)
{
    (void)state;
    for (int unit = MASS_IN_KG; unit <= MASS_IN_LB; unit++) {
        assert_int_equal(mass_from(-1, (enum mass_unit)unit), -1);
        assert_int_equal(mass_from(INT64_MAX, (enum mass_unit)unit), -1);
        assert_int_equal(mass_from(INT64_MIN, (enum mass_unit)unit), -1);
        assert_int_equal(mass_to(-1, (enum mass_unit)unit), -1);
        assert_int_equal(mass_to(MASS_LIMIT + 1, (enum mass_unit)unit), -1);
        assert_true(mass_to(MASS_LIMIT, (enum mass_unit)unit) > 0);
    }
    assert_int_equal(mass_share(-1, 80000), -1);
    assert_int_equal(mass_share(KG(100), -1), -1);
    assert_int_equal(mass_share(MASS_LIMIT + 1, 80000), -1);
    assert_int_equal(mass_share(KG(100), 1000001), -1);
    assert_int_equal(mass_ratio(-1, KG(1)), 0);
    assert_int_equal(mass_ratio(KG(1), 0), 0);
    assert_int_equal(mass_ratio(KG(1), -1), 0);
    assert_int_equal(mass_ratio(MASS_LIMIT, 1), 0);
    assert_int_equal(mass_ratio(MASS_LIMIT + 1, MASS_LIMIT), 0);
}

static void the_borders_are_within_reason(void **state)
{
    (void)state;
    assert_int_equal(mass_from(MASS_LIMIT / KG(0.001), MASS_IN_KG), MASS_LIMIT);
    assert_int_equal(mass_from(MASS_LIMIT / KG(0.001) + 1, MASS_IN_KG), -1);
    assert_int_equal(mass_share(0, 80000), 0);
    assert_int_equal(mass_share(KG(100), 0), 0);
    assert_int_equal(mass_share(KG(100), 1000000), KG(1000));
    assert_int_equal(mass_ratio(KG(10000), KG(1)), INT64_C(1000000000)); /* ten thousand times */
    assert_int_equal(mass_ratio(KG(10001), KG(1)), 0);
    assert_int_equal(mass_ratio(KG(1), MASS_LIMIT + 1), 0);
    assert_int_equal(mass_ratio(KG(1), KG(200000)), 1); /* half a thousandth goes up */
    assert_int_equal(mass_ratio(KG(1), KG(200001)), 0);
    assert_int_equal(mass_ratio(KG(-1), KG(1)), 0);
    assert_int_equal(mass_ratio(1, 1), 100000);
    assert_int_equal(mass_ratio(MASS_LIMIT, MASS_LIMIT + 1), 0);
}

/* Half a thousandth goes away from 0. */
static void to_the_nearest_thousandth(void **state)
{
    (void)state;
    const int64_t half = KG(0.001) / 2;
    assert_int_equal(mass_to(half, MASS_IN_KG), 1);
    assert_int_equal(mass_to(half - 1, MASS_IN_KG), 0);
    assert_int_equal(mass_round_in(-half, MASS_IN_KG), -KG(0.001));
    assert_int_equal(mass_round_in(1 - half, MASS_IN_KG), 0);
    assert_int_equal(mass_round_in(-3 * half, MASS_IN_KG), -2 * KG(0.001));
}

static void shares_in_whole_numbers(void **state)
{
    (void)state;
    assert_int_equal(mass_share(KG(100), 82500), KG(82.5));
    assert_int_equal(mass_share(KG(140), 80000), KG(112));
    assert_int_equal(mass_share(KG(137.5), 67500), KG(92.813)); /* 92.8125 kg, half up */
    assert_int_equal(mass_share(KG(100), 105000), KG(105));
    assert_int_equal(mass_share(LB(225), 82500), LB(185.625));
    assert_int_equal(mass_share(LB(262.5), 80000), LB(210));
    assert_int_equal(mass_share(KG(0.001), 49999), 0);
    assert_int_equal(mass_share(MASS_LIMIT, 1000000), INT64_C(10) * MASS_LIMIT);
    /* A best that is a third of a kilogram short of whole leads to the whole load that is meant. */
    assert_int_equal(mass_share(KG(116.667), 90000), KG(105));
    assert_int_equal(mass_share(KG(133.333), 75000), KG(100));
}

/* A week's sum, far over what one thing may weigh, and a margin below 0. */
static void sums_in_the_other_unit(void **state)
{
    (void)state;
    assert_int_equal(mass_sum_to_lb(45359237), INT64_C(100000000)); /* 100,000 lb */
    assert_int_equal(mass_sum_from_lb(INT64_C(100000000)), 45359237);
    assert_int_equal(mass_sum_to_lb(-45359237), -INT64_C(100000000));
    assert_int_equal(mass_sum_from_lb(24000000), 10886217); /* 10886.21688 kg */
    assert_int_equal(mass_sum_to_lb(INT64_C(1000000000000000)), INT64_C(2204622621848776));
}

static void what_share_one_is_of_another(void **state)
{
    (void)state;
    assert_int_equal(mass_ratio(KG(80), KG(100)), 80000);
    assert_int_equal(mass_ratio(LB(80), LB(100)), 80000);
    assert_int_equal(mass_ratio(KG(1), KG(3)), 33333);
    assert_int_equal(mass_ratio(KG(2), KG(3)), 66667);
    assert_int_equal(mass_ratio(KG(250), KG(100)), 250000);
    assert_int_equal(mass_ratio(LB(1), KG(1)), 45359);
    assert_int_equal(mass_ratio(MASS_LIMIT, MASS_LIMIT), 100000);
    assert_int_equal(mass_ratio(0, KG(100)), 0);
}

static void text_without_trailing_zeros(void **state)
{
    (void)state;
    char text[MASS_TEXT_SIZE];

    assert_string_equal(mass_format(KG(100), MASS_IN_KG, text), "100");
    assert_string_equal(mass_format(KG(97.5), MASS_IN_KG, text), "97.5");
    assert_string_equal(mass_format(LB(50), MASS_IN_KG, text), "22.68");
    assert_string_equal(mass_format(KG(1.25), MASS_IN_KG, text), "1.25");
    assert_string_equal(mass_format(KG(1.9), MASS_IN_KG, text), "1.9");
    assert_string_equal(mass_format(KG(0.05), MASS_IN_KG, text), "0.05");
    assert_string_equal(mass_format(KG(10.005), MASS_IN_KG, text), "10.01");
    assert_string_equal(mass_format(KG(10.004), MASS_IN_KG, text), "10");
    assert_string_equal(mass_format(0, MASS_IN_KG, text), "0");
    assert_string_equal(mass_format_exact(KG(10.125), MASS_IN_KG, text), "10.125");
    assert_string_equal(mass_format_exact(KG(0.005), MASS_IN_KG, text), "0.005");
    assert_string_equal(mass_format_exact(KG(10.05), MASS_IN_KG, text), "10.05");
    assert_string_equal(mass_format_exact(KG(10.5), MASS_IN_KG, text), "10.5");
    assert_string_equal(mass_format_exact(KG(10), MASS_IN_KG, text), "10");
    assert_string_equal(mass_format_exact(-KG(0.125), MASS_IN_KG, text), "-0.125");
    assert_string_equal(mass_format_exact(LB(2.505), MASS_IN_LB, text), "2.505");
    assert_string_equal(mass_format_exact(LB(1), MASS_IN_KG, text), "0.454");
    assert_string_equal(mass_format(-KG(2.5), MASS_IN_KG, text), "-2.5");
    assert_string_equal(mass_format(-KG(0.005), MASS_IN_KG, text), "-0.01");
    assert_string_equal(mass_format(INT64_MIN, MASS_IN_KG, text), "-92233720.37");

    assert_string_equal(mass_format(LB(135), MASS_IN_LB, text), "135");
    assert_string_equal(mass_format(LB(1.25), MASS_IN_LB, text), "1.25");
    assert_string_equal(mass_format(KG(100), MASS_IN_LB, text), "220.46");
    assert_string_equal(mass_format(-LB(2.5), MASS_IN_LB, text), "-2.5");
    assert_string_equal(mass_format_quarters(LB(45), text), "45");
    assert_string_equal(mass_format_quarters(KG(100), text), "220.5");
    assert_string_equal(mass_format_quarters(LB(1.25), text), "1.25");
    assert_string_equal(mass_unit_name(MASS_IN_KG), "kg");
    assert_string_equal(mass_unit_name(MASS_IN_LB), "lb");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_pound_is_exact),
        cmocka_unit_test(no_figure_is_rounded),
        cmocka_unit_test(a_mass_knows_its_unit),
        cmocka_unit_test(beyond_reason_is_refused),
        cmocka_unit_test(the_borders_are_within_reason),
        cmocka_unit_test(to_the_nearest_thousandth),
        cmocka_unit_test(shares_in_whole_numbers),
        cmocka_unit_test(sums_in_the_other_unit),
        cmocka_unit_test(what_share_one_is_of_another),
        cmocka_unit_test(text_without_trailing_zeros),
    };
    return cmocka_run_group_tests_name("mass", tests, NULL, NULL);
}
