/* Clock rounds and tempo against published formats. */
#include <limits.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "figures/clock.h"

enum { MINUTE = 60 };

/* Sources: rules of the federations and commissions for each sport. */
static void bouts_last_what_their_rules_say(void **state)
{
    (void)state;
    /* professional boxing, twelve threes; mixed martial arts, five fives; Muay Thai, five threes */
    assert_int_equal(clock_rounds(12, 3 * MINUTE, 1 * MINUTE), 47 * MINUTE);
    assert_int_equal(clock_rounds(5, 5 * MINUTE, 1 * MINUTE), 29 * MINUTE);
    assert_int_equal(clock_rounds(5, 3 * MINUTE, 2 * MINUTE), 23 * MINUTE);
}

/*
 * Source: Frontiers in Physiology 2021, 766153: two blocks of three rounds of 2:00, 1:00 between
 * rounds and 5:00 between blocks, 21 minutes.
 */
static void blocks_are_rounds_of_rounds(void **state)
{
    (void)state;
    int block = clock_rounds(3, 2 * MINUTE, 1 * MINUTE);

    assert_int_equal(clock_rounds(2, block, 5 * MINUTE), 21 * MINUTE);
}

static void rounds_at_the_edges(void **state)
{
    (void)state;
    assert_int_equal(clock_rounds(1, 180, 60), 180); /* no rest after the last */
    assert_int_equal(clock_rounds(0, 180, 60), 0);
    assert_int_equal(clock_rounds(3, 60, 0), 180);
    assert_int_equal(clock_rounds(3, 0, 60), 120);
    assert_int_equal(clock_rounds(-1, 180, 60), -1);
    assert_int_equal(clock_rounds(1, -1, 60), -1);
    assert_int_equal(clock_rounds(1, 180, -1), -1);
    assert_int_equal(clock_rounds(2, -1, 60), -1); /* though the sum is above 0 */
    assert_int_equal(clock_rounds(1, CLOCK_LIMIT + 1, 0), -1);
    assert_int_equal(clock_rounds(1, CLOCK_LIMIT, 60), CLOCK_LIMIT);
    assert_int_equal(clock_rounds(2, CLOCK_LIMIT, 60), -1);
    assert_int_equal(clock_rounds(INT_MAX, INT_MAX, INT_MAX), -1);
}

/* Source: PMC6006544 (Journal of Human Kinetics 2018): ten repetitions at each tempo. */
static void tempo_of_the_published_sets(void **state)
{
    (void)state;
    const struct tempo slow = {.lower = 6, .lift = 4};
    const struct tempo regular = {.lower = 2, .lift = 2};

    assert_int_equal(10 * tempo_seconds(&slow), 100);
    assert_int_equal(10 * tempo_seconds(&regular), 40);
}

/* Common practice, no source: an X counts one second, whatever number stands beside the mark. */
static void as_fast_as_possible_counts_a_second(void **state)
{
    (void)state;
    const struct tempo lift = {.lower = 3, .pause_low = 1, .fast = TEMPO_LIFT};
    const struct tempo marked = {.lower = 3, .pause_low = 1, .lift = 9, .fast = TEMPO_LIFT};
    const struct tempo all = {
        .fast = TEMPO_LOWER | TEMPO_PAUSE_LOW | TEMPO_LIFT | TEMPO_PAUSE_HIGH};
    const struct tempo places[] = {
        {.lower = 10, .fast = TEMPO_LOWER},
        {.pause_low = 10, .fast = TEMPO_PAUSE_LOW},
        {.lift = 10, .fast = TEMPO_LIFT},
        {.pause_high = 10, .fast = TEMPO_PAUSE_HIGH},
    };

    assert_int_equal(tempo_seconds(&lift), 5);
    assert_int_equal(tempo_seconds(&marked), 5);
    assert_int_equal(tempo_seconds(&all), 4);
    for (int i = 0; i < 4; i++)
        assert_int_equal(tempo_seconds(&places[i]), 1);
}

static void tempo_out_of_range_is_refused(void **state)
{
    (void)state;
    const struct tempo negative = {.lower = -1, .lift = 3};
    const struct tempo long_one = {.lower = INT_MAX, .lift = INT_MAX};

    assert_int_equal(tempo_seconds(&negative), -1);
    assert_int_equal(tempo_seconds(&(struct tempo){.lift = 3, .pause_high = -1}), -1);
    assert_int_equal(tempo_seconds(&(struct tempo){0}), 0);
    assert_int_equal(tempo_seconds(&long_one), -1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(bouts_last_what_their_rules_say),
        cmocka_unit_test(blocks_are_rounds_of_rounds),
        cmocka_unit_test(rounds_at_the_edges),
        cmocka_unit_test(tempo_of_the_published_sets),
        cmocka_unit_test(as_fast_as_possible_counts_a_second),
        cmocka_unit_test(tempo_out_of_range_is_refused),
    };
    return cmocka_run_group_tests_name("clock", tests, NULL, NULL);
}
