/* Which limits hold: phases, levels and layers. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "model/accounts.h"
#include "unit/plan_builder.c"

/* --- phases --- */

static struct limit *phase_limit(struct bench *bench, const char *phase, milli value)
{
    struct limit *limit =
        plan_limit(bench->plan, bench->limits, LIMIT_WEEK, "sparring rounds", LIMIT_AT_MOST, value);
    limit->phase = phase;
    return limit;
}

static void a_phase_comes_before_no_phase(void **state)
{
    (void)state;
    struct bench bench = bench_new();
    plan_phase(bench.plan, bench.camp, "base", bench.monday, bench.monday + 13);
    plan_phase(bench.plan, bench.camp, "strength", bench.monday + 14, bench.monday + 27);
    plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "sparring rounds", LIMIT_AT_MOST, 10000);
    phase_limit(&bench, "strength", 20000);
    bench_spar(&bench, 15, 1);
    bench_spar(&bench, 15, 15);
    bench_expect(&bench, "sparring-over", 1);
}

/* Strength begins on Wednesday: its limit holds in that week and counts its five days, 15 x 5 / 7 =
 * 10. */
static void a_phase_counts_only_its_own_days(void **state)
{
    (void)state;
    for (int extra = 0; extra < 2; extra++) {
        struct bench bench = bench_new();
        plan_phase(bench.plan, bench.camp, "base", bench.monday, bench.monday + 8);
        plan_phase(bench.plan, bench.camp, "strength", bench.monday + 9, bench.monday + 27);
        phase_limit(&bench, "strength", 15000);
        bench_spar(&bench, 9, 7);
        bench_spar(&bench, 10 + extra, 11);
        if (extra)
            bench_expect_words(&bench, "sparring-over", SEVERITY_WARNING,
                               "Oriel Tamsin: 11 sparring rounds in week 2 of Harbour final (from "
                               "2027-03-08), at most 10");
        else
            bench_expect(&bench, "sparring-over", 0);
    }
}

static void phases_and_camps_have_limits_of_their_own(void **state)
{
    (void)state;
    struct bench bench = bench_new();
    plan_phase(bench.plan, bench.camp, "base", bench.monday, bench.monday + 13);
    struct limit *limit =
        plan_limit(bench.plan, bench.limits, LIMIT_PHASE, "sparring rounds", LIMIT_AT_MOST, 20000);
    limit->phase = "base";
    plan_limit(bench.plan, bench.limits, LIMIT_CAMP, "sparring rounds", LIMIT_AT_MOST, 30000);
    bench_spar(&bench, 11, 1);
    bench_spar(&bench, 11, 8);
    bench_spar(&bench, 11, 15);
    plan_check(bench.plan);
    assert_int_equal(plan_found(bench.plan, "sparring-over"), 2);
    assert_string_equal(plan_finding(bench.plan, "sparring-over")->words,
                        "Oriel Tamsin: 22 sparring rounds in base of Harbour final, at most 20");
    plan_free(bench.plan);
}

/* --- layers --- */

static void the_nearer_layer_wins(void **state)
{
    (void)state;
    struct bench bench = bench_new();
    struct limits *house = plan_limits(bench.plan, NULL, "house defaults");
    bench.limits->base = house;
    plan_limit(bench.plan, house, LIMIT_WEEK, "sparring rounds", LIMIT_AT_MOST, 10000);
    plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "sparring rounds", LIMIT_AT_MOST, 12000);
    bench_spar(&bench, 12, 1);
    plan_check(bench.plan);
    assert_int_equal(plan_found(bench.plan, "sparring-over"), 0);
    const struct finding *finding = plan_finding(bench.plan, "limit-loosened");
    assert_non_null(finding);
    assert_int_equal(finding->severity, SEVERITY_INFO);
    assert_string_equal(finding->words, "Slipway house limits sets sparring rounds at 12; house "
                                        "defaults has 10");
    plan_free(bench.plan);
}

static void a_level_comes_before_a_nearer_layer(void **state)
{
    (void)state;
    for (int novice = 0; novice < 2; novice++) {
        struct bench bench = bench_new();
        struct limits *house = plan_limits(bench.plan, bench.camp, "house defaults");
        plan_limit(bench.plan, house, LIMIT_WEEK, "sparring rounds", LIMIT_AT_MOST, 10000)->level =
            LEVEL_NOVICE;
        plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "sparring rounds", LIMIT_AT_MOST, 12000);
        bench.athlete->level = novice ? LEVEL_NOVICE : LEVEL_ADVANCED;
        bench_spar(&bench, 11, 1);
        bench_expect(&bench, "sparring-over", (size_t)novice);
    }
}

static void the_later_line_wins(void **state)
{
    (void)state;
    struct bench bench = bench_new();
    plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "sparring rounds", LIMIT_AT_MOST, 20000);
    plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "sparring rounds", LIMIT_AT_MOST, 10000);
    bench_spar(&bench, 15, 1);
    bench_expect(&bench, "sparring-over", 1);
}

/* Two camps on the same house limits count together and tell it once. */
static void two_camps_count_together(void **state)
{
    (void)state;
    struct bench bench = bench_new();
    struct camp *squad = plan_camp(bench.plan, "Tuesday squad", bench.monday, 4);
    plan_join(bench.plan, squad, bench.athlete);
    squad->limits[squad->limits_count++] = bench.limits;
    plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "sparring rounds", LIMIT_AT_MOST, 20000);
    bench_spar(&bench, 15, 1);
    bench_spar(&bench, 15, 3)->camp = squad;
    bench_expect_words(&bench, "sparring-over", SEVERITY_ERROR,
                       "Oriel Tamsin: 30 sparring rounds in the week from 2027-03-01, at most 20");
}

/* A phase of the same name in another layer is the same holder, whoever wrote the word. */
static void only_equal_holders_are_compared(void **state)
{
    (void)state;
    static const char strength[] = "strength", same[] = "strength", base[] = "base";
    for (int equal = 0; equal < 2; equal++) {
        struct bench bench = bench_new();
        struct limits *house = plan_limits(bench.plan, bench.camp, "house defaults");
        plan_limit(bench.plan, house, LIMIT_WEEK, "sets", LIMIT_AT_MOST, 10000)->phase = strength;
        plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "sets", LIMIT_AT_MOST, 12000)->phase =
            equal ? same : base;
        bench_expect(&bench, "limit-loosened", (size_t)equal);
    }
}

/* The last day of a phase is counted in it, the day after is not. */
static void a_phase_ends_on_its_last_day(void **state)
{
    (void)state;
    for (int day = 4; day < 6; day++) {
        struct bench bench = bench_new();
        plan_phase(bench.plan, bench.camp, "strength", bench.monday, bench.monday + 4);
        phase_limit(&bench, "strength", 14000);
        bench_spar(&bench, 15, day);
        bench_expect(&bench, "sparring-over", day == 4 ? 1 : 0);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_phase_comes_before_no_phase),
        cmocka_unit_test(a_phase_counts_only_its_own_days),
        cmocka_unit_test(phases_and_camps_have_limits_of_their_own),
        cmocka_unit_test(the_nearer_layer_wins),
        cmocka_unit_test(a_level_comes_before_a_nearer_layer),
        cmocka_unit_test(the_later_line_wins),
        cmocka_unit_test(two_camps_count_together),
        cmocka_unit_test(only_equal_holders_are_compared),
        cmocka_unit_test(a_phase_ends_on_its_last_day),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
