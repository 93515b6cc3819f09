/* Counts against limits: each fires just past its boundary and keeps quiet on it. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "limits/waive.h"
#include "measure/counts.h"
#include "rules/checks.h"
#include "rules/run.h"
#include "unit/plan_builder.c"

/* --- ceilings --- */

static void a_ceiling_is_passed_by_one(void **state)
{
    (void)state;
    for (int extra = 0; extra < 2; extra++) {
        struct bench bench = bench_new();
        plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "sparring rounds", LIMIT_AT_MOST, 24000);
        bench_spar(&bench, 12, 1);
        bench_spar(&bench, 12 + extra, 3);
        bench_expect(&bench, "sparring-over", (size_t)extra);
    }
}

/* Sunday and Monday lie in two weeks. */
static void a_week_ends_on_sunday(void **state)
{
    (void)state;
    for (int monday = 0; monday < 2; monday++) {
        struct bench bench = bench_new();
        plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "sparring rounds", LIMIT_AT_MOST, 24000);
        bench_spar(&bench, 15, 5);
        bench_spar(&bench, 15, 6 + monday);
        bench_expect(&bench, "sparring-over", monday ? 0 : 1);
    }
}

static void a_finding_tells_what_adds_up(void **state)
{
    (void)state;
    struct bench bench = bench_new();
    plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "sparring rounds", LIMIT_AT_MOST, 24000);
    bench.session->placed = 1;
    bench_spar(&bench, 12, 8);
    bench_spar(&bench, 18, 10);
    plan_check(bench.plan);
    assert_string_equal(
        plan_shown(bench.plan),
        "plan.bell:9:13: error: Oriel Tamsin: 30 sparring rounds in week 2 of Harbour final (from "
        "2027-03-08), at most 24 [sparring-over]\n"
        "    9 |             sparring\n"
        "      |             ^^^^^^^^\n"
        "plan.bell:9:13: see: 18 from sparring on 2027-03-11\n"
        "    9 |             sparring\n"
        "      |             --------\n"
        "plan.bell:7:13: see: 12 from sparring on 2027-03-09\n"
        "    7 |             sparring\n"
        "      |             --------\n"
        "plan.bell:5:9: see: the limit is set here: common practice, no source\n"
        "    5 |         sparring rounds at most 24\n"
        "      |         --------------------------\n");
    plan_free(bench.plan);
}

/* Seven lines, the largest first. */
static void every_line_is_noted(void **state)
{
    (void)state;
    struct bench bench = bench_new();
    plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "sparring rounds", LIMIT_AT_MOST, 24000);
    for (int day = 0; day < 7; day++)
        bench_spar(&bench, day + 1, day);
    plan_check(bench.plan);
    const struct finding *finding = plan_finding(bench.plan, "sparring-over");
    assert_non_null(finding);
    assert_int_equal(finding->note_count, 8);
    assert_string_equal(finding->notes[0].words, "7 from sparring on 2027-03-07");
    assert_string_equal(finding->notes[4].words, "3 from sparring on 2027-03-03");
    assert_string_equal(finding->notes[6].words, "1 from sparring on 2027-03-01");
    assert_true(finding->notes[6].summand);
    assert_false(finding->notes[7].summand);
    plan_free(bench.plan);
}

static void a_limit_that_warns_warns(void **state)
{
    (void)state;
    struct bench bench = bench_new();
    struct limit *limit =
        plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "sparring rounds", LIMIT_AT_MOST, 24000);
    limit->force = FORCE_WARN;
    limit->source = "Sand 2020";
    bench_spar(&bench, 25, 1);
    plan_check(bench.plan);
    const struct finding *finding = plan_finding(bench.plan, "sparring-over");
    assert_non_null(finding);
    assert_int_equal(finding->severity, SEVERITY_WARNING);
    assert_string_equal(finding->notes[1].words, "the limit is set here: source Sand 2020");
    plan_free(bench.plan);
}

/* A ceiling and a floor that are only told do not count, and take none of a week's five warnings. */
static void a_limit_that_informs_counts_for_nothing(void **state)
{
    (void)state;
    static const enum limit_bound bounds[] = {LIMIT_AT_MOST, LIMIT_AT_LEAST};
    static const char *const names[] = {"sparring-over", "sparring-under"};
    for (int i = 0; i < 2; i++) {
        struct bench bench = bench_new();
        bench.camp->last = bench.monday + 6;
        plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "sparring rounds", bounds[i], i ? 26000 : 24000)
            ->force = FORCE_INFO;
        bench_spar(&bench, 25, 1);
        bench_place(&bench, 0);
        plan_check(bench.plan);
        assert_int_equal(plan_found(bench.plan, names[i]), 1);
        assert_int_equal(plan_finding(bench.plan, names[i])->severity, SEVERITY_INFO);
        assert_int_equal(diag_count(bench.plan->diag, SEVERITY_WARNING), 0);
        assert_int_equal(diag_count(bench.plan->diag, SEVERITY_ERROR), 0);
        plan_free(bench.plan);
    }
}

/* A range is held by its top against a ceiling and by its bottom against a floor. */
static void a_range_is_held_by_its_worse_end(void **state)
{
    (void)state;
    struct bench bench = bench_new();
    plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "lifts", LIMIT_AT_MOST, 29000);
    struct set_run *run =
        bench_sets(&bench, bench_place(&bench, 0), bench_squat(&bench), 3, 8, UNIT_REPS);
    plan_part(run, 0)->amount.high = 10000;
    bench_expect_words(&bench, "lifts-over", SEVERITY_ERROR,
                       "Oriel Tamsin: up to 30 lifts in week 1 of Harbour final (from 2027-03-01), "
                       "at most 29");

    bench = bench_new();
    plan_limit(bench.plan, bench.limits, LIMIT_SESSION, "lifts", LIMIT_AT_LEAST, 25000);
    run = bench_sets(&bench, bench_place(&bench, 0), bench_squat(&bench), 3, 8, UNIT_REPS);
    plan_part(run, 0)->amount.high = 10000;
    bench_expect_words(&bench, "lifts-under", SEVERITY_WARNING,
                       "Oriel Tamsin: as few as 24 lifts in Hips before hands on 2027-03-01, at "
                       "least 25");
}

/* --- a side --- */

static void all_out(struct bench *bench, int orthodox, int southpaw)
{
    struct exercise *cross =
        plan_exercise(bench->plan, "cross on the bag", EXERCISE_SKILL, PATTERN_STRIKE);
    cross->side = SIDE_PER_STANCE;
    cross->workers = WORKER_REAR_HAND;
    struct set_run *run =
        bench_sets(bench, bench_place(bench, 0), cross, 10, orthodox, UNIT_STRIKES);
    plan_part(run, 0)->side = DOSE_ORTHODOX;
    *plan_part(run, 1) = (struct part){
        .amount = {southpaw * 1000, southpaw * 1000}, .unit = UNIT_STRIKES, .side = DOSE_SOUTHPAW};
    plan_effort(run, EFFORT_ALL_OUT, 0);
}

/* Orthodox rear hand is the right, southpaw the left. */
static void each_side_is_held_by_itself(void **state)
{
    (void)state;
    for (int extra = 0; extra < 2; extra++) {
        struct bench bench = bench_new();
        plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "all-out strikes", LIMIT_AT_MOST, 240000)
            ->a_side = true;
        all_out(&bench, 24 + extra, 10);
        if (extra)
            bench_expect_words(
                &bench, "strikes-over", SEVERITY_ERROR,
                "Oriel Tamsin: 250 all-out strikes on the right in week 1 of Harbour "
                "final (from 2027-03-01), at most 240 a side");
        else
            bench_expect(&bench, "strikes-over", 0);
    }
}

/* With sparring in the week not every strike is counted: no failure, and the message says so. */
static void strikes_that_nobody_counts_soften_the_limit(void **state)
{
    (void)state;
    struct bench bench = bench_new();
    plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "all-out strikes", LIMIT_AT_MOST, 240000);
    all_out(&bench, 20, 10);
    bench_spar(&bench, 6, 2);
    plan_check(bench.plan);
    const struct finding *finding = plan_finding(bench.plan, "strikes-over");
    assert_non_null(finding);
    assert_int_equal(finding->severity, SEVERITY_WARNING);
    assert_string_equal(finding->notes[1].words, "and 18 min not counted");
    plan_free(bench.plan);
}

/* --- time --- */

/* 75 min with 5 % let pass: 78:45 is quiet, a second more is not. */
static void a_session_has_five_percent_of_grace(void **state)
{
    (void)state;
    for (int extra = 0; extra < 2; extra++) {
        struct bench bench = bench_new();
        plan_limit(bench.plan, bench.limits, LIMIT_SESSION, "time", LIMIT_AT_MOST, 75 * 60000);
        bench_place(&bench, 0)->seconds = 4725 + extra;
        bench_expect(&bench, "time-over", (size_t)extra);

        bench = bench_new();
        bench.session->under = 75 * 60;
        bench_place(&bench, 0)->seconds = 4725 + extra;
        bench_expect(&bench, "session-too-long", (size_t)extra);
    }
}

/* The same session is too long on four days: told once, at its longest. */
static void a_session_too_long_is_told_once(void **state)
{
    (void)state;
    struct bench bench = bench_new();
    bench.session->under = 60 * 60;
    static const int minutes[] = {70, 90, 80, 70};
    for (int week = 0; week < 4; week++)
        bench_place(&bench, 7 * week)->seconds = minutes[week] * 60;
    plan_check(bench.plan);
    assert_int_equal(plan_found(bench.plan, "session-too-long"), 1);
    const struct finding *finding = plan_finding(bench.plan, "session-too-long");
    assert_string_equal(
        finding->words,
        "Hips before hands takes 90 min on 2027-03-08, and should stay under 60 min");
    assert_string_equal(finding->notes[finding->note_count - 1].words,
                        "found 4 times in all, on 2027-03-01, 2027-03-08, 2027-03-15 and 1 more; "
                        "the worst is shown");
    plan_free(bench.plan);
}

/* --- floors --- */

static void hold_necks(struct bench *bench, int sessions)
{
    struct exercise *neck =
        plan_exercise(bench->plan, "four-way neck hold", EXERCISE_HOLD, PATTERN_NECK);
    neck->loads[REGION_NECK] = 1000;
    for (int week = 0; week < 4; week++)
        for (int i = 0; i < sessions; i++)
            bench_sets(bench, bench_place(bench, 7 * week + i), neck, 2, 10, UNIT_SECONDS)->hold =
                true;
}

static void a_floor_warns_and_never_fails(void **state)
{
    (void)state;
    struct bench bench = bench_new();
    plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "neck sessions", LIMIT_AT_LEAST, 2000);
    hold_necks(&bench, 1);
    bench_expect_words(&bench, "sessions-under", SEVERITY_WARNING,
                       "Oriel Tamsin: 1 neck session in week 1 of Harbour final (from 2027-03-01), "
                       "at least 2");
    bench = bench_new();
    plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "neck sessions", LIMIT_AT_LEAST, 2000);
    hold_necks(&bench, 2);
    bench_expect(&bench, "sessions-under", 0);
}

/* A camp that starts on Thursday has four days of its first week: 2 x 4 / 7 is one session. */
static void a_floor_is_pro_rated_in_a_cut_week(void **state)
{
    (void)state;
    for (int days = 3; days < 5; days++) {
        struct bench bench = bench_new();
        plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "neck sessions", LIMIT_AT_LEAST, 4000);
        hold_necks(&bench, 2);
        bench.camp->first = bench.monday + days;
        bench.camp->last = bench.monday + 6;
        plan_check(bench.plan);
        /* 4 x 4 / 7 = 2.28 is two; 4 x 2 / 7 is one. Two are done either way; the weeks after the
         * camp ask for nothing. */
        assert_int_equal(plan_found(bench.plan, "sessions-under"), 0);
        plan_free(bench.plan);
    }
    struct bench bench = bench_new();
    plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "neck sessions", LIMIT_AT_LEAST, 6000);
    hold_necks(&bench, 2);
    bench.camp->first = bench.monday + 3;
    bench.camp->last = bench.monday + 6;
    plan_check(bench.plan);
    const struct finding *finding = plan_finding(bench.plan, "sessions-under");
    assert_non_null(finding);
    assert_string_equal(finding->notes[2].words,
                        "4 of the week's 7 days count: 3 of the 6 for a whole week");
    plan_free(bench.plan);
}

static void no_floor_holds_after_the_bout_or_in_its_week(void **state)
{
    (void)state;
    struct bench bench = bench_new();
    plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "neck sessions", LIMIT_AT_LEAST, 2000);
    plan_bout(bench.plan, bench.camp, bench.monday + 5);
    plan_phase(bench.plan, bench.camp, "recovery", bench.monday + 6, bench.monday + 27)
        ->after_bout = true;
    bench_expect(&bench, "sessions-under", 0);
}

/* --- proportions and rises --- */

/* 6 pull sets to 5 push sets are 1.2 to 1. */
static void pull_is_held_against_push(void **state)
{
    (void)state;
    for (int fewer = 0; fewer < 2; fewer++) {
        struct bench bench = bench_new();
        struct limit *limit =
            plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "pull sets", LIMIT_AT_LEAST, 1200);
        limit->against = "push sets";
        struct exercise *row = plan_exercise(bench.plan, "row", EXERCISE_STRENGTH, PATTERN_PULL);
        struct exercise *press =
            plan_exercise(bench.plan, "press", EXERCISE_STRENGTH, PATTERN_PUSH);
        struct occasion *occasion = bench_place(&bench, 0);
        bench_sets(&bench, occasion, row, 6 - fewer, 8, UNIT_REPS);
        bench_sets(&bench, occasion, press, 5, 8, UNIT_REPS);
        if (fewer)
            bench_expect_words(
                &bench, "ratio-outside", SEVERITY_WARNING,
                "Oriel Tamsin: 5 pull sets to 5 push sets in week 1 of Harbour final "
                "(from 2027-03-01), at least 1.2 to 1");
        else
            bench_expect(&bench, "ratio-outside", 0);
    }
}

/* Loads of 400, 200 and 460 or 461: 460 is 15 % over 400, and not 130 % over the light week. */
static void a_rise_is_held_against_the_best_of_four_weeks(void **state)
{
    (void)state;
    for (int extra = 0; extra < 2; extra++) {
        struct bench bench = bench_new();
        plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "load rise", LIMIT_AT_MOST, 15000)->force =
            FORCE_WARN;
        const int loads[] = {400, 200, 460 + extra};
        for (int week = 0; week < 3; week++) {
            struct occasion *occasion = bench_place(&bench, 7 * week);
            occasion->rpe = (struct range){1000, 1000};
            occasion->seconds = loads[week] * 60;
        }
        if (extra)
            bench_expect_words(
                &bench, "load-rise", SEVERITY_WARNING,
                "Oriel Tamsin: a session load of 461 in week 3 of Harbour final (from "
                "2027-03-15), 15.2 % over the highest of the last four weeks; at most 15 %");
        else
            bench_expect(&bench, "load-rise", 0);
    }
}

/* 5 to 5 is let pass by `at most 1 to 1`, 6 to 5 is not. */
static void a_proportion_has_a_ceiling_too(void **state)
{
    (void)state;
    for (int extra = 0; extra < 2; extra++) {
        struct bench bench = bench_new();
        plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "push sets", LIMIT_AT_MOST, 1000)
            ->against = "pull sets";
        struct exercise *row = plan_exercise(bench.plan, "row", EXERCISE_STRENGTH, PATTERN_PULL);
        struct occasion *occasion = bench_place(&bench, 0);
        bench_sets(&bench, occasion, row, 5, 8, UNIT_REPS);
        bench_sets(&bench, occasion, bench_press(&bench), 5 + extra, 8, UNIT_REPS);
        bench_expect(&bench, "ratio-outside", (size_t)extra);
    }
}

/* Sets of as many as possible have no number: they count as none, and that is said. */
static void open_sets_are_named(void **state)
{
    (void)state;
    struct bench bench = bench_new();
    plan_limit(bench.plan, bench.limits, LIMIT_SESSION, "lifts", LIMIT_AT_LEAST, 20000);
    struct occasion *occasion = bench_place(&bench, 0);
    bench_sets(&bench, occasion, bench_squat(&bench), 3, 5, UNIT_REPS);
    *plan_part(bench_sets(&bench, occasion, bench_press(&bench), 2, 0, UNIT_REPS), 0) =
        (struct part){.unit = UNIT_REPS, .max = true};
    plan_check(bench.plan);
    const struct finding *finding = plan_finding(bench.plan, "lifts-under");
    assert_non_null(finding);
    assert_string_equal(finding->notes[1].words, "and 2 sets of as many as possible not counted");
    plan_free(bench.plan);
}

/* Against a week that is only counted in part every load would be a rise. */
static void a_rise_needs_weeks_that_are_counted(void **state)
{
    (void)state;
    for (int counted = 0; counted < 2; counted++) {
        struct bench bench = bench_new();
        plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "load rise", LIMIT_AT_MOST, 15000);
        for (int week = 0; week < 2; week++) {
            struct occasion *occasion = bench_place(&bench, 7 * week);
            occasion->seconds = 3600 + 3600 * week;
            occasion->rpe = (struct range){6000, 6000};
        }
        struct occasion *other = bench_place(&bench, 1);
        other->seconds = 600;
        other->rpe = counted ? (struct range){1000, 1000} : (struct range){0, 0};
        bench_expect(&bench, "load-rise", (size_t)counted);
    }
}

/* --- waivers --- */

/* A sheet and a check ask for the same waiver: the table of rules and that of limits name the same findings. */
static void a_limit_has_one_finding(void **state)
{
    (void)state;
    int tried = 0;
    for (size_t i = 0; i < rules_count; i++) {
        bool over = rules[i].check == check_over, ratio = rules[i].check == check_ratio;
        if (!over && !ratio && rules[i].check != check_under)
            continue;
        struct layered layered = {.kind = rules[i].group, .against = ratio ? COUNTED_SETS : COUNTED_NONE};
        assert_int_equal(limit_diagnostic(&layered, over), rules[i].diagnostic);
        tried++;
    }
    assert_int_equal(tried, 2 * GROUP_MEASURED + 1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_ceiling_is_passed_by_one),
        cmocka_unit_test(a_week_ends_on_sunday),
        cmocka_unit_test(a_finding_tells_what_adds_up),
        cmocka_unit_test(every_line_is_noted),
        cmocka_unit_test(a_limit_that_warns_warns),
        cmocka_unit_test(a_limit_that_informs_counts_for_nothing),
        cmocka_unit_test(a_range_is_held_by_its_worse_end),
        cmocka_unit_test(each_side_is_held_by_itself),
        cmocka_unit_test(strikes_that_nobody_counts_soften_the_limit),
        cmocka_unit_test(a_session_has_five_percent_of_grace),
        cmocka_unit_test(a_session_too_long_is_told_once),
        cmocka_unit_test(a_floor_warns_and_never_fails),
        cmocka_unit_test(a_floor_is_pro_rated_in_a_cut_week),
        cmocka_unit_test(no_floor_holds_after_the_bout_or_in_its_week),
        cmocka_unit_test(pull_is_held_against_push),
        cmocka_unit_test(a_rise_is_held_against_the_best_of_four_weeks),
        cmocka_unit_test(a_proportion_has_a_ceiling_too),
        cmocka_unit_test(open_sets_are_named),
        cmocka_unit_test(a_rise_needs_weeks_that_are_counted),
        cmocka_unit_test(a_limit_has_one_finding),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
