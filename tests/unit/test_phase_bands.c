/* A phase's band of intensity and of repetitions, on both sides of each border: what is found, and what is left. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "kg.h"
#include "model/athlete.h"
#include "unit/plan_builder.c"

enum { NONE = PLAN_NOTHING_LEFT };

/* A taper over the whole camp. */
static struct bench band_bench(void)
{
    struct bench bench = bench_new();
    plan_phase(bench.plan, bench.camp, "taper", bench.monday, bench.monday + 27);
    return bench;
}

static void who_is_held_to_a_band(void **state)
{
    (void)state;
    static const struct {
        enum exercise_kind kind;
        enum limit_bound bound;
        int reps;
        size_t found;
        milli left;
    } rows[] = {
        {EXERCISE_STRENGTH, LIMIT_AT_MOST, 6, 1, -1000},  {EXERCISE_STRENGTH, LIMIT_AT_MOST, 5, 0, 0},
        {EXERCISE_STRENGTH, LIMIT_AT_LEAST, 4, 1, -1000}, {EXERCISE_STRENGTH, LIMIT_AT_LEAST, 5, 0, 0},
        {EXERCISE_STRENGTH, LIMIT_WITHIN, 9, 1, -1000},   {EXERCISE_STRENGTH, LIMIT_WITHIN, 7, 0, 1000},
        {EXERCISE_POWER, LIMIT_AT_MOST, 6, 1, -1000},     {EXERCISE_POWER, LIMIT_AT_LEAST, 4, 0, NONE},
        {EXERCISE_POWER, LIMIT_WITHIN, 9, 0, NONE},       {EXERCISE_MOBILITY, LIMIT_AT_MOST, 6, 0, NONE},
        {EXERCISE_MOBILITY, LIMIT_WITHIN, 9, 0, NONE},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct bench bench = band_bench();
        struct limit *limit =
            bench_phase_limit(&bench, "reps", rows[i].bound, 5000, rows[i].bound == LIMIT_WITHIN ? 8000 : 0);
        struct exercise *drill = plan_exercise(bench.plan, "drill", rows[i].kind, PATTERN_SQUAT);
        bench_sets(&bench, bench_place(&bench, 0), drill, 3, rows[i].reps, UNIT_REPS);
        plan_check(bench.plan);
        assert_int_equal(plan_found(bench.plan, "reps-outside"), rows[i].found);
        assert_int_equal(plan_left(bench.plan, limit, COUNTED_REPS), rows[i].left);
        plan_free(bench.plan);
    }
}

/* The least figures there are still bound. */
static void the_least_band_is_one(void **state)
{
    (void)state;
    static const struct {
        enum limit_bound bound;
        const char *words;
    } rows[] = {{LIMIT_AT_MOST, "A.1 back squat is done for 5 reps on 2027-03-01, in taper, at most 0.001"},
                {LIMIT_WITHIN, "A.1 back squat is done for 5 reps on 2027-03-01, in taper, 0.001 to 0.001"}};
    for (size_t i = 0; i < 2; i++) {
        struct bench bench = band_bench();
        struct limit *limit = bench_phase_limit(&bench, "reps", rows[i].bound, 1, rows[i].bound == LIMIT_WITHIN);
        bench_sets(&bench, bench_place(&bench, 0), bench_squat(&bench), 3, 5, UNIT_REPS);
        plan_check(bench.plan);
        assert_int_equal(plan_left(bench.plan, limit, COUNTED_REPS), -4999);
        plan_free(bench.plan);
        bench = band_bench();
        bench_phase_limit(&bench, "reps", rows[i].bound, 1, rows[i].bound == LIMIT_WITHIN);
        bench_sets(&bench, bench_place(&bench, 0), bench_squat(&bench), 3, 5, UNIT_REPS);
        bench_expect_words(&bench, "reps-outside", SEVERITY_ERROR, rows[i].words);
    }
}

/* One line on two days is one fault, reported as the worse of them is. */
static void the_worst_day_is_reported(void **state)
{
    (void)state;
    static const struct {
        int first, second, told; /* repetitions, of 5 to 8 */
    } rows[] = {{9, 12, 12}, {12, 9, 12}, {4, 2, 2}, {2, 4, 2}, {9, 2, 2}, {2, 9, 2}, {4, 12, 12}, {12, 4, 12}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct bench bench = band_bench();
        bench_phase_limit(&bench, "reps", LIMIT_WITHIN, 5000, 8000)->force = FORCE_WARN;
        struct exercise *squat = bench_squat(&bench);
        struct occasion *first = bench_place(&bench, 0), *second = bench_place(&bench, 3);
        bench_sets(&bench, first, squat, 3, rows[i].first, UNIT_REPS);
        bench_sets(&bench, second, squat, 3, rows[i].second, UNIT_REPS);
        ((struct item *)second->blocks[0].items)->span = first->blocks[0].items[0].span;
        bench_expect_words(&bench, "reps-outside", SEVERITY_WARNING,
                           arena_printf(bench.plan->arena, "A.1 back squat is done for %d reps on %s, in taper, 5 to 8",
                                        rows[i].told, rows[i].told == rows[i].first ? "2027-03-01" : "2027-03-04"));
    }
}

/* A ceiling is also compared with what an effort comes to, a band and a floor are not. */
static void efforts_meet_a_ceiling_alone(void **state)
{
    (void)state;
    static const struct {
        enum limit_bound bound;
        milli value, top;
        size_t found;
    } rows[] = {{LIMIT_AT_MOST, 80000, 0, 1}, {LIMIT_AT_LEAST, 99000, 0, 0}, {LIMIT_WITHIN, 60000, 80000, 0}};
    for (size_t i = 0; i < 3; i++) {
        struct bench bench = band_bench();
        bench_phase_limit(&bench, "intensity", rows[i].bound, rows[i].value, rows[i].top);
        struct set_run *run = bench_sets(&bench, bench_place(&bench, 0), bench_squat(&bench), 3, 1, UNIT_REPS);
        run->load.kind = LOAD_MASS;
        plan_effort(run, EFFORT_RPE, 10);
        bench_expect(&bench, "intensity-outside", rows[i].found);
    }
}

/* The sets of a line: its hardest counts, and of two as hard the first says whether a best is known. */
static void the_hardest_set_counts(void **state)
{
    (void)state;
    static const struct {
        double first, second; /* per cent; 0: one repetition at RPE 10, which comes to 100 % */
        const char *words;
    } rows[] = {
        {95, 70, "A.1 back squat is done at 95 % on 2027-03-01, in taper, at most 90 %"},
        {70, 95, "A.1 back squat is done at 95 % on 2027-03-01, in taper, at most 90 %"},
        {0, 95, "A.1 back squat is, by its effort, at about 100 % on 2027-03-01, in taper, at most 90 %"},
        {95, 0, "A.1 back squat is, by its effort, at about 100 % on 2027-03-01, in taper, at most 90 %"},
        {100, 0, "A.1 back squat is done at 100 % on 2027-03-01, in taper, at most 90 %"},
        {0, 100, "A.1 back squat is, by its effort, at about 100 % on 2027-03-01, in taper, at most 90 %"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct bench bench = band_bench();
        bench_phase_limit(&bench, "intensity", LIMIT_AT_MOST, 90000, 0);
        struct block *block = plan_block(bench.plan, bench_place(&bench, 0), BLOCK_STRAIGHT, 2);
        struct item *item = plan_item(bench.plan, block, bench_squat(&bench));
        for (int set = 0; set < 2; set++) {
            double percent = set ? rows[i].second : rows[i].first;
            struct set_run *run = plan_sets(bench.plan, item, 1, 1, UNIT_REPS);
            if (percent > 0) {
                plan_percent(run, percent);
            } else {
                run->load.kind = LOAD_MASS;
                plan_effort(run, EFFORT_RPE, 10);
            }
        }
        bench_expect_words(&bench, "intensity-outside", SEVERITY_ERROR, rows[i].words);
    }
}

/* A camp's floor and the ceiling of those under 18 are both in force; the ceiling is compared with efforts too. */
static void a_limit_beside_another(void **state)
{
    (void)state;
    for (int reps = 0; reps < 2; reps++) {
        const char *counted = reps ? "reps" : "intensity", *check = reps ? "reps-outside" : "intensity-outside";
        for (int hard = 0; hard < 2; hard++) {
            struct bench bench = band_bench();
            bench_phase_limit(&bench, counted, LIMIT_AT_LEAST, reps ? 2000 : 50000, 0);
            struct limits *of_young = plan_limits(bench.plan, NULL, "under 18"); /* which applies by itself */
            bench.athlete->born = bench.monday - 365 * 14;
            struct limit *young =
                plan_limit(bench.plan, of_young, LIMIT_PHASE, counted, LIMIT_AT_MOST, reps ? 5000 : 80000);
            young->phase = "taper";
            struct set_run *run =
                bench_sets(&bench, bench_place(&bench, 0), bench_squat(&bench), 3, reps ? 5 + hard : 1, UNIT_REPS);
            if (reps || !hard) {
                plan_percent(run, reps ? 60 : 80);
            } else {
                run->load.kind = LOAD_MASS;
                plan_effort(run, EFFORT_RPE, 10);
            }
            bench_expect(&bench, check, (size_t)hard);
        }
    }
}

/* The least percentage there is counts as one. */
static void the_least_percentage(void **state)
{
    (void)state;
    struct bench bench = band_bench();
    bench_phase_limit(&bench, "intensity", LIMIT_AT_LEAST, 50000, 0);
    plan_percent(bench_sets(&bench, bench_place(&bench, 0), bench_squat(&bench), 3, 1, UNIT_REPS), 0.001);
    bench_expect(&bench, "intensity-outside", 1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(who_is_held_to_a_band),     cmocka_unit_test(the_least_band_is_one),
        cmocka_unit_test(the_worst_day_is_reported), cmocka_unit_test(efforts_meet_a_ceiling_alone),
        cmocka_unit_test(the_hardest_set_counts),    cmocka_unit_test(a_limit_beside_another),
        cmocka_unit_test(the_least_percentage),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
