/* Which limits hold: phases, levels and layers. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "measure/counts.h"
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

/* Slipway and under 18 both stand on the house defaults: what Slipway says of its own is above them,
 * and all that the later line brings along is above Slipway. */
static void the_later_set_is_laid_over_the_earlier(void **state)
{
    (void)state;
    static const struct {
        int rounds, lifts;
        size_t rounds_over, lifts_over;
    } cases[] = {{8, 0, 0, 0}, {9, 0, 1, 0}, {0, 20, 0, 0}, {0, 21, 0, 1}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct bench bench = bench_new();
        struct limits *house = plan_limits(bench.plan, NULL, "house defaults");
        struct limits *novices = plan_limits(bench.plan, NULL, "novices");
        struct limits *young = plan_limits(bench.plan, bench.camp, "under 18");
        bench.limits->base = novices->base = house;
        young->base = novices;
        plan_limit(bench.plan, house, LIMIT_WEEK, "lifts", LIMIT_AT_MOST, 10000);
        plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "lifts", LIMIT_AT_MOST, 20000);
        plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "sparring rounds", LIMIT_AT_MOST, 24000);
        plan_limit(bench.plan, novices, LIMIT_WEEK, "sparring rounds", LIMIT_AT_MOST, 8000);
        if (cases[i].rounds)
            bench_spar(&bench, cases[i].rounds, 1);
        if (cases[i].lifts)
            bench_sets(&bench, bench_place(&bench, 0), bench_squat(&bench), 1, cases[i].lifts,
                       UNIT_REPS);
        plan_check(bench.plan);
        assert_int_equal(plan_found(bench.plan, "sparring-over"), cases[i].rounds_over);
        assert_int_equal(plan_found(bench.plan, "lifts-over"), cases[i].lifts_over);
        plan_free(bench.plan);
    }
}

/* `under 18` holds until the day before the birthday, and the finding tells no age. */
static void an_age_is_asked_for(void **state)
{
    (void)state;
    for (int day = 0; day < 2; day++) {
        struct bench bench = bench_new();
        plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "sparring rounds", LIMIT_AT_MOST, 6000)
            ->under_age = 18;
        plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "sparring rounds", LIMIT_AT_MOST, 20000);
        bench.athlete->born = bench.monday - 6574 + (day ? 0 : 1); /* 18 years, 4 of them leap */
        bench_spar(&bench, 7, 1);
        if (day)
            bench_expect(&bench, "sparring-over", 0);
        else
            bench_expect_words(&bench, "sparring-over", SEVERITY_ERROR,
                               "Oriel Tamsin: 7 sparring rounds in week 1 of Harbour final (from "
                               "2027-03-01), at most 6");
    }
}

/* Without a day of birth no limit by age holds. */
static void no_age_is_guessed(void **state)
{
    (void)state;
    struct bench bench = bench_new();
    plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "sparring rounds", LIMIT_AT_MOST, 6000)
        ->under_age = 18;
    bench_spar(&bench, 7, 1);
    bench_expect(&bench, "sparring-over", 0);
}

/* The bout is on day 25: ten days before it begin on day 15, in the third week. */
static void days_before_a_bout_are_counted_alone(void **state)
{
    (void)state;
    for (int day = 14; day < 16; day++) {
        struct bench bench = bench_new();
        plan_bout(bench.plan, bench.camp, bench.monday + 25);
        struct limit *limit = plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "sparring rounds",
                                         LIMIT_AT_MOST, 0);
        limit->stretch = STRETCH_BEFORE_BOUT;
        limit->stretch_days = 10;
        bench_spar(&bench, 1, day);
        bench_expect(&bench, "sparring-over", day == 15);
    }
}

static void the_first_weeks_of_a_camp_end(void **state)
{
    (void)state;
    for (int day = 13; day < 15; day++) {
        struct bench bench = bench_new();
        struct limit *limit = plan_limit(bench.plan, bench.limits, LIMIT_SESSION, "sets",
                                         LIMIT_AT_MOST, 2000);
        limit->stretch = STRETCH_FIRST;
        limit->stretch_days = 14;
        bench_sets(&bench, bench_place(&bench, day), bench_squat(&bench), 3, 5, UNIT_REPS);
        bench_expect(&bench, "sets-over", day == 13);
    }
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
        struct limits *house = plan_limits(bench.plan, NULL, "house defaults");
        bench.limits->base = house;
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

/* One of two squats is barred, and of a floor of four sets two are left; a hold leaves none. */
static void a_floor_is_what_restrictions_leave_of_it(void **state)
{
    (void)state;
    for (int held = 0; held < 2; held++)
        for (int sets = 1; sets <= 2; sets++) {
            struct bench bench = bench_new();
            struct exercise *squat = bench_squat(&bench);
            struct exercise *deep = plan_exercise(bench.plan, "deep squat", EXERCISE_STRENGTH, PATTERN_SQUAT);
            struct avoid avoid = {.shown = "deep squat", .exercise = deep, .pattern = -1, .region = -1, .kind = -1, .joint = -1, .demand = -1};
            struct hold hold = {.since = bench.monday - 1};
            bench.athlete->avoids = &avoid;
            bench.athlete->avoid_count = 1;
            bench.athlete->holds = &hold;
            bench.athlete->hold_count = (size_t)held;
            plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "squat sets", LIMIT_AT_LEAST, 4000);
            for (int week = 0; week < 4; week++)
                bench_sets(&bench, bench_place(&bench, 7 * week), squat, sets, 5, UNIT_REPS);
            if (held || sets == 2)
                bench_expect(&bench, "sets-under", 0);
            else
                bench_expect_words(&bench, "sets-under", SEVERITY_WARNING,
                                   "Oriel Tamsin: 1 squat set in week 1 of Harbour final (from 2027-03-01), at least 2");
        }
}

/* Lists of the programme called `under 18` and `novices`, of 8 and 12 rounds, beside the camp's own of OWN. */
static struct limits *lists_for_the_young(struct bench *bench, milli own)
{
    struct limits *young = plan_limits(bench->plan, NULL, "under 18");
    struct limits *novices = plan_limits(bench->plan, NULL, "novices");
    plan_limit(bench->plan, young, LIMIT_WEEK, "sparring rounds", LIMIT_AT_MOST, 8000);
    plan_limit(bench->plan, novices, LIMIT_WEEK, "sparring rounds", LIMIT_AT_MOST, 12000);
    plan_limit(bench->plan, bench->limits, LIMIT_WEEK, "sparring rounds", LIMIT_AT_MOST, own);
    return young;
}

/* The tighter of the two, whichever stands nearer; nothing of it for adults, or for athletes whose age is not given. */
static void the_young_are_held_to_the_tighter(void **state)
{
    (void)state;
    static const struct {
        int under_age;
        bool novice;
        milli own;
        int most;
    } cases[] = {{18, false, 24000, 8}, {16, false, 24000, 8}, {21, false, 24000, 24}, {18, false, 6000, 6},
                 {0, true, 24000, 12},  {18, true, 10000, 8},  {0, false, 24000, 24}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
        for (int extra = 0; extra < 2; extra++) {
            struct bench bench = bench_new();
            bench.athlete->under_age = cases[i].under_age;
            bench.athlete->level = LEVEL_NOVICE;
            bench.athlete->level_given = cases[i].novice;
            lists_for_the_young(&bench, cases[i].own);
            bench_spar(&bench, cases[i].most + extra, 1);
            bench_expect(&bench, "sparring-over", (size_t)extra);
        }
}

/* What the coach says of the same people stands; a tighter limit that only warns leaves the other in force. */
static void the_coachs_own_word_about_the_young_stands(void **state)
{
    (void)state;
    for (int extra = 0; extra < 2; extra++) {
        struct bench bench = bench_new();
        bench.athlete->under_age = 18;
        lists_for_the_young(&bench, 24000);
        plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "sparring rounds", LIMIT_AT_MOST, 10000)->under_age = 18;
        bench_spar(&bench, 10 + extra, 1);
        bench_expect(&bench, "sparring-over", (size_t)extra);
    }
    struct bench bench = bench_new();
    bench.athlete->under_age = 18;
    lists_for_the_young(&bench, 24000)->items[0].force = FORCE_WARN;
    bench_spar(&bench, 25, 1);
    bench_expect(&bench, "sparring-over", 2);
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
        cmocka_unit_test(the_later_set_is_laid_over_the_earlier),
        cmocka_unit_test(an_age_is_asked_for),
        cmocka_unit_test(no_age_is_guessed),
        cmocka_unit_test(days_before_a_bout_are_counted_alone),
        cmocka_unit_test(the_first_weeks_of_a_camp_end),
        cmocka_unit_test(two_camps_count_together),
        cmocka_unit_test(only_equal_holders_are_compared),
        cmocka_unit_test(a_phase_ends_on_its_last_day),
        cmocka_unit_test(a_floor_is_what_restrictions_leave_of_it),
        cmocka_unit_test(the_young_are_held_to_the_tighter),
        cmocka_unit_test(the_coachs_own_word_about_the_young_stands),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
