/* How much of a change in a test is the test's own error, how a morning compares with others, how high a jump was. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "figures/morning.h"
#include "figures/reliability.h"
#include "near.h"

/* Formulas: Hopkins 2000, Sports Med 30:1-15, and Hopkins 2004, Sportscience 8:1-7; the figures are ours, worked by hand. */
static void the_error_of_two_trials(void **state)
{
    (void)state;
    static const double differences[] = {2, -1, 1, 4, -1}; /* mean 1, squares 1 + 4 + 0 + 9 + 4 = 18 over 4 */
    assert_near(reliability_mean(differences, 5), 1, 1e-12);
    assert_near(reliability_deviation(differences, 5), sqrt(4.5), 1e-12);
    assert_near(reliability_typical_error(differences, 5), 1.5, 1e-12);
    assert_near(reliability_mean(differences, 1), 2, 0);
    assert_near(reliability_deviation(differences, 2), sqrt(4.5), 1e-12);
    assert_near(reliability_deviation(differences, 1), 0, 0);
    assert_near(reliability_deviation(differences, 0), 0, 0);
    assert_near(reliability_mean(differences, 0), 0, 0);
}

static void changes_that_count(void **state)
{
    (void)state;
    assert_near(reliability_least_change(1), 2.7718585823, 5e-10);
    assert_near(reliability_least_change(2.5), 6.9296464556, 5e-10);
    assert_near(reliability_worthwhile(5), 1, 1e-12);
}

/* By the normal curve: with an error of 1 a measured change spreads by the square root of 2. Worked apart from the program. */
static void chances_of_a_true_change(void **state)
{
    (void)state;
    struct chances chances = reliability_chances(1.5, 1, 0.5);
    assert_near(chances.above, 0.7602499389, 5e-10);
    assert_near(chances.within, 0.1611004576, 5e-10);
    assert_near(chances.below, 0.0786496035, 5e-10);
    struct chances twice = reliability_chances(1.5, 2, 0.5); /* an error twice as large */
    assert_near(twice.above, 0.6381631951, 5e-10);
    assert_near(twice.below, 0.2397500611, 5e-10);
    struct chances none = reliability_chances(0, 1, 0.5);
    assert_near(none.above, none.below, 1e-12);
    struct chances half = reliability_chances(0.5, 3, 0.5);
    assert_near(half.above, 0.5, 1e-12);
}

/* Free fall, g t^2 / 8: half a second in the air is 30.7 cm. */
static void height_of_a_jump(void **state)
{
    (void)state;
    assert_near(jump_height(0.5), 0.3065625, 1e-12);
    assert_near(jump_height(0), 0, 0);
}

/* A sum against ten others, as in McLean et al. 2010, Int J Sports Physiol Perform 5:367-383. */
static void a_morning_among_others(void **state)
{
    (void)state;
    static const int before[] = {16, 24, 18, 22, 20, 20, 20, 20, 18, 22}; /* mean 20, squares 48 over 9 */
    struct morning_figure figure = morning_compare(14, before, 10);
    assert_true(figure.known);
    assert_near(figure.mean, 20, 1e-12);
    assert_near(figure.deviation, sqrt(48.0 / 9), 1e-12);
    assert_near(figure.z, -6 / sqrt(48.0 / 9), 1e-12);
    struct morning_figure few = morning_compare(14, before, 9);
    assert_false(few.known);
    assert_near(few.z, 0, 0);
}

/* A spread of less than a point counts as one. */
static void mornings_all_alike(void **state)
{
    (void)state;
    static const int alike[] = {20, 20, 20, 20, 20, 20, 20, 20, 20, 21};
    struct morning_figure figure = morning_compare(18, alike, 10);
    assert_near(figure.mean, 20.1, 1e-12);
    assert_near(figure.deviation, 1, 0);
    assert_near(figure.z, -2.1, 1e-12);
    static const int nearly[] = {18, 22, 18, 22, 20, 20, 20, 20, 20, 20};
    assert_near(morning_compare(18, nearly, 10).deviation, sqrt(16.0 / 9), 1e-12);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_error_of_two_trials), cmocka_unit_test(changes_that_count),
        cmocka_unit_test(chances_of_a_true_change), cmocka_unit_test(height_of_a_jump),
        cmocka_unit_test(a_morning_among_others), cmocka_unit_test(mornings_all_alike),
    };
    return cmocka_run_group_tests_name("reliability", tests, NULL, NULL);
}
