/* Left against right over a fortnight, on both sides of each border: what is found, what is left, and which lines lean. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "model/athlete.h"
#include "unit/plan_builder.c"

/* Work of one hand, whose hip stays out of it: a strike's goes with its hand and is not reported. */
static struct exercise *punch(struct bench *bench)
{
    struct exercise *exercise = plan_exercise(bench->plan, "punch", EXERCISE_SKILL, PATTERN_STRIKE);
    exercise->workers = WORKER_HAND;
    return exercise;
}

static struct exercise *press_of(struct bench *bench, enum exercise_kind kind)
{
    struct exercise *exercise = plan_exercise(bench->plan, "one-arm press", kind, PATTERN_PUSH);
    exercise->workers = WORKER_HAND;
    return exercise;
}

static void one_side(struct bench *bench, const struct exercise *exercise, int day, int amount, enum dose_side side)
{
    if (amount > 0)
        plan_part(bench_sets(bench, bench_place(bench, day), exercise, 1, amount, UNIT_REPS), 0)->side = side;
}

static void both_sides(struct bench *bench, const struct exercise *exercise, int day, int left, int right)
{
    one_side(bench, exercise, day, left, DOSE_LEFT);
    one_side(bench, exercise, day, right, DOSE_RIGHT);
}

static struct limit *band(struct bench *bench, const char *counted, milli low, milli high)
{
    struct limit *limit = plan_limit(bench->plan, bench->limits, LIMIT_WEEK, counted, LIMIT_WITHIN, low);
    limit->top = high;
    limit->force = FORCE_WARN;
    return limit;
}

static void what_a_fortnight_comes_to(void **state)
{
    (void)state;
    static const struct {
        int left, right;
        milli low, high; /* of the band; 0: the usual one */
        milli rest;
        const char *words; /* behind the name, NULL: nothing is found */
    } rows[] = {
        {50, 50, 35000, 65000, 15000, NULL},
        {35, 65, 35000, 65000, 0, NULL},
        {65, 35, 35000, 65000, 0, NULL},
        {40, 60, 35000, 65000, 5000, NULL},
        {60, 40, 35000, 65000, 5000, NULL},
        {35, 65, 0, 0, PLAN_NOTHING_LEFT, NULL},
        {65, 35, 0, 0, PLAN_NOTHING_LEFT, NULL},
        {34, 66, 0, 0, PLAN_NOTHING_LEFT, "66 % of the strikes of the hands is on the right"},
        {34, 66, 35000, 65000, -1000,
         "66 % of the strikes of the hands is on the right in the two weeks from 2027-03-01 (66 of 100), at most 65 %"},
        {66, 34, 35000, 65000, -1000,
         "66 % of the strikes of the hands is on the left in the two weeks from 2027-03-01 (66 of 100), at most 65 %"},
        {39, 61, 40000, 70000, -1000,
         "61 % of the strikes of the hands is on the right in the two weeks from 2027-03-01 (61 of 100), at most 60 %"},
        {71, 29, 40000, 70000, -1000,
         "71 % of the strikes of the hands is on the left in the two weeks from 2027-03-01 (71 of 100), at most 70 %"},
        {10, 0, 35000, 65000, -35000,
         "100 % of the strikes of the hands is on the left in the two weeks from 2027-03-01 (10 of 10), at most 65 %"},
        {70000, 130001, 35000, 65000, -1, "65 % of the strikes of the hands is on the right"},
        {130000, 69999, 35000, 65000, -1, "65 % of the strikes of the hands is on the left"},
        {0, 0, 35000, 65000, PLAN_NOTHING_LEFT, NULL},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct bench bench = bench_new();
        struct limit *limit = rows[i].high ? band(&bench, "strike balance", rows[i].low, rows[i].high) : NULL;
        struct exercise *jab = punch(&bench);
        one_side(&bench, jab, 0, rows[i].left, DOSE_LEFT);
        one_side(&bench, jab, 8, rows[i].right, DOSE_RIGHT);
        bench_place(&bench, 9);
        plan_check(bench.plan);
        const struct finding *finding = plan_finding(bench.plan, "strike-balance");
        assert_int_equal(finding != NULL, rows[i].words != NULL);
        if (finding)
            assert_non_null(strstr(finding->words, rows[i].words));
        if (limit)
            assert_int_equal(plan_left(bench.plan, limit, COUNTED_STRIKE_BALANCE), rows[i].rest);
        plan_free(bench.plan);
    }
}

/* The lines that lean to the heavier side, the most first; those of one amount as they are written, whatever their days. */
static void lines_that_lean(void **state)
{
    (void)state;
    static const int more[] = {10, 30, 20, 20, -15, 25};
    for (int mirrored = 0; mirrored < 2; mirrored++) {
        struct bench bench = bench_new();
        struct exercise *jab = punch(&bench);
        static const char *const refs[] = {"A.1", "B.1", "C.1", "D.1", "E.1", "F.1"};
        for (int k = 0; k < 6; k++) {
            bool left = (more[k] > 0) != (mirrored == 1);
            struct occasion *occasion = bench_place(&bench, mirrored ? 3 + 2 * k : 13 - 2 * k);
            struct item *item = plan_item(bench.plan, plan_block(bench.plan, occasion, BLOCK_STRAIGHT, 1), jab);
            int amount = more[k] < 0 ? -more[k] : more[k];
            plan_part(plan_sets(bench.plan, item, 1, amount, UNIT_REPS), 0)->side = left ? DOSE_LEFT : DOSE_RIGHT;
            item->ref = refs[k];
        }
        plan_check(bench.plan);
        static const char *const notes[] = {"30 more on that side from B.1 punch", "25 more on that side from F.1 punch",
                                            "20 more on that side from C.1 punch", "20 more on that side from D.1 punch",
                                            "10 more on that side from A.1 punch",
                                            "common practice, no source; a limit of your own can say otherwise"};
        const struct finding *finding = plan_finding(bench.plan, "strike-balance");
        assert_non_null(finding);
        assert_non_null(strstr(finding->words, mirrored ? "is on the right" : "is on the left"));
        assert_int_equal(finding->note_count, 6);
        for (size_t i = 0; i < 6; i++)
            assert_string_equal(finding->notes[i].words, notes[i]);
        assert_int_equal(finding->span.start, finding->notes[0].span.start);
        plan_free(bench.plan);
    }
}

/* One line on two days leans once, by both. */
static void a_line_of_two_weeks_leans_by_both(void **state)
{
    (void)state;
    struct bench bench = bench_new();
    struct exercise *jab = punch(&bench);
    one_side(&bench, jab, 0, 9, DOSE_LEFT);
    one_side(&bench, jab, 1, 10, DOSE_LEFT);
    one_side(&bench, jab, 7, 8, DOSE_LEFT);
    struct item *first = (struct item *)bench.plan->occasions[0]->blocks[0].items;
    ((struct item *)bench.plan->occasions[2]->blocks[0].items)->span = first->span;
    plan_check(bench.plan);
    const struct finding *finding = plan_finding(bench.plan, "strike-balance");
    assert_int_equal(finding->note_count, 3);
    assert_string_equal(finding->notes[0].words, "17 more on that side from A.1 punch");
    assert_int_equal(finding->span.start, first->span.start);
    plan_free(bench.plan);
}

/* Which work is strength work, and which are strikes. */
static void which_work_is_meant(void **state)
{
    (void)state;
    static const struct {
        enum exercise_kind kind;
        enum pattern pattern;
        const char *check; /* NULL: neither */
    } rows[] = {
        {EXERCISE_STRENGTH, PATTERN_PUSH, "strength-balance"}, {EXERCISE_POWER, PATTERN_THROW, "strength-balance"},
        {EXERCISE_SKILL, PATTERN_STRIKE, "strike-balance"},    {EXERCISE_STRENGTH, PATTERN_STRIKE, "strike-balance"},
        {EXERCISE_POWER, PATTERN_STRIKE, "strike-balance"},    {EXERCISE_MOBILITY, PATTERN_PUSH, NULL},
        {EXERCISE_PREHAB, PATTERN_SHOULDER_CARE, NULL},        {EXERCISE_CONDITIONING, PATTERN_PUSH, NULL},
    };
    static const char *const checks[] = {"strength-balance", "strike-balance"};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct bench bench = bench_new();
        struct exercise *exercise = plan_exercise(bench.plan, "work", rows[i].kind, rows[i].pattern);
        exercise->workers = WORKER_HAND;
        for (int day = 0; day < 14; day += 7)
            both_sides(&bench, exercise, day, 20, 5);
        plan_check(bench.plan);
        for (size_t k = 0; k < 2; k++)
            assert_int_equal(plan_found(bench.plan, checks[k]) > 0, rows[i].check && strcmp(checks[k], rows[i].check) == 0);
        plan_free(bench.plan);
    }
}

/* Both kinds are weighed each by itself, over three weeks: strikes lean in the first fortnight, strength in the second. */
static void each_kind_by_itself(void **state)
{
    (void)state;
    struct bench bench = bench_new();
    struct exercise *jab = punch(&bench), *press = press_of(&bench, EXERCISE_STRENGTH);
    static const int strikes[][2] = {{50, 10}, {20, 20}, {20, 20}}, lifts[][2] = {{10, 10}, {10, 10}, {10, 40}};
    for (int week = 0; week < 3; week++) {
        both_sides(&bench, jab, 7 * week, strikes[week][0], strikes[week][1]);
        both_sides(&bench, press, 7 * week + 1, lifts[week][0], lifts[week][1]);
    }
    plan_check(bench.plan);
    assert_int_equal(plan_found(bench.plan, "strike-balance"), 1);
    assert_non_null(strstr(plan_finding(bench.plan, "strike-balance")->words,
                           "70 % of the strikes of the hands is on the left in the two weeks from 2027-03-01 (70 of 100)"));
    assert_non_null(strstr(plan_finding(bench.plan, "strength-balance")->words,
                           "71.4 % of the strength work of the hands is on the right in the two weeks from 2027-03-08 (50 of 70)"));
    plan_free(bench.plan);
}

/* Weeks of left and right in turn, `-`: a week without anything. */
static void which_weeks_are_a_fortnight(void **state)
{
    (void)state;
    static const struct {
        int weeks[4][2];
        size_t found;
    } rows[] = {
        {{{50, 0}}, 0},                              /* one week alone is no fortnight */
        {{{50, 0}, {0, 0}, {20, 20}}, 0},            /* a week without anything stands between */
        {{{20, 20}, {0, 0}, {50, 0}}, 1},            /* and it is nothing itself */
        {{{50, 0}, {0, 50}, {50, 0}, {0, 50}}, 0},
        {{{50, 0}, {40, 0}}, 1},
        {{{10, 10}, {40, 0}, {0, 40}}, 1},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct bench bench = bench_new();
        struct exercise *jab = punch(&bench);
        for (int week = 0; week < 4; week++)
            both_sides(&bench, jab, 7 * week, rows[i].weeks[week][0], rows[i].weeks[week][1]);
        bench_expect(&bench, "strike-balance", rows[i].found);
    }
}

/* Weeks late in a camp are found as those at its beginning. */
static void weeks_of_a_long_camp(void **state)
{
    (void)state;
    struct bench bench = bench_new();
    bench.camp->weeks = 8;
    bench.camp->last = bench.camp->first + 55;
    struct exercise *jab = punch(&bench);
    for (int week = 0; week < 5; week++)
        both_sides(&bench, jab, 7 * week, 10, 10);
    both_sides(&bench, jab, 35, 40, 0);
    both_sides(&bench, jab, 42, 10, 20);
    plan_check(bench.plan);
    assert_int_equal(plan_found(bench.plan, "strike-balance"), 1);
    assert_non_null(strstr(plan_finding(bench.plan, "strike-balance")->words,
                           "83.3 % of the strikes of the hands is on the left in the two weeks from 2027-03-29 (50 of 60)"));
    plan_free(bench.plan);
}

/* The share of the heavier side is what a waiver's figure goes up to. */
static void a_share_that_is_waived(void **state)
{
    (void)state;
    static const struct {
        int right;
        milli percent;
    } rows[] = {{10, 75000}, {0, 100000}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        for (int less = 0; less < 2; less++) {
            struct bench bench = bench_new();
            struct exercise *jab = punch(&bench);
            both_sides(&bench, jab, 0, 10, 0);
            both_sides(&bench, jab, 7, 20, rows[i].right);
            struct waiver *waiver = bench_waive(&bench, "strike-balance");
            waiver->capped = true;
            waiver->cap = rows[i].percent - less;
            bench_expect(&bench, "strike-balance", (size_t)less);
        }
}

/* Legs and hips as hands, and of strikes no hips. */
static void each_pair_of_limbs(void **state)
{
    (void)state;
    static const struct {
        unsigned workers;
        bool strikes;
        const char *first;
        size_t found;
    } rows[] = {
        {WORKER_LEG, true, "of the strikes of the legs", 1}, {WORKER_HIP, true, NULL, 0},
        {WORKER_HAND, true, "of the strikes of the hands", 1}, {WORKER_HIP, false, "of the strength work of the hips", 1},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct bench bench = bench_new();
        struct exercise *exercise = rows[i].strikes ? punch(&bench) : press_of(&bench, EXERCISE_POWER);
        exercise->workers = rows[i].workers;
        for (int day = 0; day < 14; day += 7)
            both_sides(&bench, exercise, day, 5, 20);
        const char *check = rows[i].strikes ? "strike-balance" : "strength-balance";
        plan_check(bench.plan);
        assert_int_equal(plan_found(bench.plan, check), rows[i].found);
        if (rows[i].first)
            assert_non_null(strstr(plan_finding(bench.plan, check)->words, rows[i].first));
        plan_free(bench.plan);
    }
}

/* Somebody who leaves one side out is uneven of itself, on the days of it: days of the fortnight's second week. */
static void one_side_left_out(void **state)
{
    (void)state;
    enum { NEVER = -1 };
    static const struct {
        unsigned sides;
        int since, ended; /* days of the camp */
        size_t found;
    } rows[] = {
        {1, 0, NEVER, 0}, {0, 0, NEVER, 1}, {1, 13, NEVER, 0}, {1, 14, NEVER, 1}, {1, 0, 7, 1}, {1, 0, 8, 0}, {1, 20, 8, 1},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        for (int strikes = 0; strikes < 2; strikes++) {
            struct bench bench = bench_new();
            struct avoid avoid = {.sides = rows[i].sides, .since = bench.monday + rows[i].since};
            if (rows[i].ended != NEVER)
                avoid.ended = bench.monday + rows[i].ended;
            bench.athlete->avoids = &avoid;
            bench.athlete->avoid_count = 1;
            struct exercise *exercise = strikes ? punch(&bench) : press_of(&bench, EXERCISE_POWER);
            for (int day = 0; day < 14; day += 7)
                both_sides(&bench, exercise, day, 5, 20);
            plan_check(bench.plan);
            assert_int_equal(plan_found(bench.plan, strikes ? "strike-balance" : "strength-balance") > 0, rows[i].found);
            plan_free(bench.plan);
        }
}

static void what_is_waived_is_not_said(void **state)
{
    (void)state;
    for (int strikes = 0; strikes < 2; strikes++) {
        struct bench bench = bench_new();
        const char *check = strikes ? "strike-balance" : "strength-balance";
        bench_waive(&bench, check);
        struct exercise *exercise = strikes ? punch(&bench) : press_of(&bench, EXERCISE_POWER);
        for (int day = 0; day < 14; day += 7)
            both_sides(&bench, exercise, day, 5, 20);
        bench_expect(&bench, check, 0);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_a_fortnight_comes_to),
        cmocka_unit_test(lines_that_lean),
        cmocka_unit_test(a_line_of_two_weeks_leans_by_both),
        cmocka_unit_test(which_work_is_meant),
        cmocka_unit_test(each_kind_by_itself),
        cmocka_unit_test(which_weeks_are_a_fortnight),
        cmocka_unit_test(weeks_of_a_long_camp),
        cmocka_unit_test(a_share_that_is_waived),
        cmocka_unit_test(each_pair_of_limbs),
        cmocka_unit_test(one_side_left_out),
        cmocka_unit_test(what_is_waived_is_not_said),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
