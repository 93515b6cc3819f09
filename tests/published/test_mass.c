/* Pounds, shares and the text of a mass. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "figures/mass.h"

/* Source: international yard and pound agreement, 1959: 1 lb = 0.45359237 kg exactly. */
static void pound_is_exact_to_the_nearest_ten_grams(void **state)
{
    (void)state;
    assert_int_equal(mass_from_lb(1000), 45);      /* 453.59 g */
    assert_int_equal(mass_from_lb(45000), 2041);   /* 20.4117 kg */
    assert_int_equal(mass_from_lb(135000), 6123);  /* 61.2350 kg: 6123.497 */
    assert_int_equal(mass_from_lb(225000), 10206); /* 102.0583 kg */
    /* A hundred million pounds have all the digits of the definition. */
    assert_int_equal(mass_from_lb(INT64_C(2000000000)), 90718474);
    assert_int_equal(mass_to_lb(45359237), INT64_C(1000000000));
    assert_int_equal(mass_to_lb(10000), 220462); /* 100 kg = 220.4623 lb */
    assert_int_equal(mass_from_lb(0), 0);
    assert_int_equal(mass_to_lb(0), 0);
}

static void quarter_pounds_come_back(void **state)
{
    (void)state;
    for (int64_t milli_lb = 0; milli_lb <= 1500000; milli_lb += 250)
        assert_int_equal(mass_to_quarter_lb(mass_from_lb(milli_lb)), milli_lb);
}

static void nearest_both_ways(void **state)
{
    (void)state;
    /* No mass is farther from its pounds than half a thousandth of a pound, in exact terms. */
    for (int64_t mass = 0; mass <= 60000; mass++) {
        int64_t error = mass_to_lb(mass) * 45359237 - mass * 1000000000;
        assert_true(2 * error <= 45359237 && 2 * error >= -45359237);
        assert_int_equal(mass_from_lb(mass_to_lb(mass)), mass);
    }
}

static void beyond_reason_is_refused(void **state)
{
    (void)state;
    assert_int_equal(mass_from_lb(-1), -1);
    assert_int_equal(mass_from_lb(INT64_MAX), -1);
    assert_int_equal(mass_from_lb(INT64_MIN), -1);
    assert_int_equal(mass_to_lb(-1), -1);
    assert_int_equal(mass_to_lb(MASS_LIMIT + 1), -1);
    assert_int_equal(mass_to_quarter_lb(-1), -1);
    assert_int_equal(mass_to_quarter_lb(INT64_MAX), -1);
    assert_true(mass_to_lb(MASS_LIMIT) > 0);
    assert_int_equal(mass_share(-1, 80000), -1);
    assert_int_equal(mass_share(10000, -1), -1);
    assert_int_equal(mass_share(MASS_LIMIT + 1, 80000), -1);
    assert_int_equal(mass_share(10000, 1000001), -1);
}

static void shares_in_whole_numbers(void **state)
{
    (void)state;
    assert_int_equal(mass_share(10000, 82500), 8250);
    assert_int_equal(mass_share(14000, 80000), 11200);
    assert_int_equal(mass_share(13750, 67500), 9281); /* 92.8125 kg */
    assert_int_equal(mass_share(1, 50000), 1);        /* half up */
    assert_int_equal(mass_share(1, 49999), 0);
    assert_int_equal(mass_share(10000, 105000), 10500);
    assert_int_equal(mass_share(MASS_LIMIT, 1000000), INT64_C(10) * MASS_LIMIT);
}

static void text_without_trailing_zeros(void **state)
{
    (void)state;
    char text[MASS_TEXT_SIZE];

    assert_string_equal(mass_format_kg(10000, text), "100");
    assert_string_equal(mass_format_kg(9750, text), "97.5");
    assert_string_equal(mass_format_kg(2268, text), "22.68");
    assert_string_equal(mass_format_kg(125, text), "1.25");
    assert_string_equal(mass_format_kg(5, text), "0.05");
    assert_string_equal(mass_format_kg(1001, text), "10.01");
    assert_string_equal(mass_format_kg(0, text), "0");
    assert_string_equal(mass_format_kg(-250, text), "-2.5");
    assert_string_equal(mass_format_kg(INT64_MIN, text), "-92233720368547758.08");

    assert_string_equal(mass_format_lb(2041, text), "45");
    assert_string_equal(mass_format_lb(57, text), "1.25");
    assert_string_equal(mass_format_lb(10000, text), "220.5");
    assert_string_equal(mass_format_lb(0, text), "0");
    assert_string_equal(mass_format_lb(-113, text), "-2.5");
    assert_string_equal(mass_format_lb(INT64_MIN, text), "");
    assert_string_equal(mass_format_lb(MASS_LIMIT + 1, text), "");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(pound_is_exact_to_the_nearest_ten_grams),
        cmocka_unit_test(quarter_pounds_come_back),
        cmocka_unit_test(nearest_both_ways),
        cmocka_unit_test(beyond_reason_is_refused),
        cmocka_unit_test(shares_in_whole_numbers),
        cmocka_unit_test(text_without_trailing_zeros),
    };
    return cmocka_run_group_tests_name("mass", tests, NULL, NULL);
}
