/* Restrictions, holds and first weeks: each check fires just past its boundary. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "kg.h"
#include "unit/plan_builder.c"

static void a_restriction_holds_until_it_is_ended(void **state)
{
    (void)state;
    for (int ended = 0; ended < 2; ended++) {
        struct bench bench = bench_new();
        struct exercise *press = bench_press(&bench);
        struct avoid avoid = {
            .shown = "bench press", .exercise = press, .pattern = -1, .region = -1, .kind = -1, .joint = -1, .demand = -1};
        avoid.review = bench.monday - 30; /* it does not lapse on its review */
        avoid.ended = ended ? bench.monday : bench.monday + 1;
        bench.athlete->avoids = &avoid;
        bench.athlete->avoid_count = 1;
        bench_sets(&bench, bench_place(&bench, 0), press, 3, 5, UNIT_REPS);
        if (ended)
            bench_expect(&bench, "avoid-broken", 0);
        else
            bench_expect_words(&bench, "avoid-broken", SEVERITY_ERROR,
                               "Oriel Tamsin has to avoid bench press, but A.1 bench press asks for "
                               "it on 2027-03-01");
    }
}

static void a_restriction_reaches_its_relatives(void **state)
{
    (void)state;
    struct bench bench = bench_new();
    struct exercise *press = bench_press(&bench);
    struct exercise *push_up =
        plan_exercise(bench.plan, "push-up", EXERCISE_STRENGTH, PATTERN_PUSH);
    struct exercise *row = plan_exercise(bench.plan, "row", EXERCISE_STRENGTH, PATTERN_PULL);
    press->easier = push_up;
    push_up->loads[REGION_SHOULDER] = 500;
    row->loads[REGION_SHOULDER] = 499;
    struct avoid avoids[] = {
        {.shown = "bench press", .exercise = press, .pattern = -1, .region = -1, .kind = -1, .joint = -1, .demand = -1},
        {.shown = "shoulder", .pattern = -1, .region = REGION_SHOULDER, .kind = -1, .joint = -1, .demand = -1},
        {.shown = "pull",
         .pattern = PATTERN_PULL,
         .region = -1,
         .kind = -1, .joint = -1, .demand = -1,
         .can_do_patterns = 1u << PATTERN_PULL},
    };
    bench.athlete->avoids = avoids;
    bench.athlete->avoid_count = 3;
    bench_sets(&bench, bench_place(&bench, 0), push_up, 3, 5, UNIT_REPS);
    bench_sets(&bench, bench_place(&bench, 1), row, 3, 5, UNIT_REPS);
    bench_expect(&bench, "avoid-broken", 2); /* the push-up by both, the row by none */
}

static void what_is_done_instead_may_be_a_form_of_it(void **state)
{
    (void)state;
    for (int named = 0; named < 2; named++) {
        struct bench bench = bench_new();
        struct exercise *press = bench_press(&bench);
        struct exercise *push_up =
            plan_exercise(bench.plan, "push-up", EXERCISE_STRENGTH, PATTERN_PUSH);
        press->easier = push_up;
        struct avoid avoid = {
            .shown = "bench press", .exercise = press, .pattern = -1, .region = -1, .kind = -1, .joint = -1, .demand = -1};
        avoid.instead = named ? push_up : NULL;
        bench.athlete->avoids = &avoid;
        bench.athlete->avoid_count = 1;
        bench_sets(&bench, bench_place(&bench, 0), push_up, 3, 5, UNIT_REPS);
        bench_expect(&bench, "avoid-broken", named ? 0 : 1);
    }
}

static void a_review_comes_due(void **state)
{
    (void)state;
    for (int due = 0; due < 2; due++) {
        struct bench bench = bench_new();
        struct avoid avoid = {.shown = "overhead press", .pattern = -1, .region = -1, .kind = -1, .joint = -1, .demand = -1};
        avoid.review = bench.monday;
        bench.athlete->avoids = &avoid;
        bench.athlete->avoid_count = 1;
        bench.plan->programme.today = bench.monday - 1 + due;
        bench_expect(&bench, "review-due", (size_t)due);
    }
}

/* Without a protocol, and so without a step, all training is held, in any line, and no waiver changes it. */
static void a_hold_bars_all_training(void **state)
{
    (void)state;
    for (int before = 0; before < 2; before++) {
        struct bench bench = bench_new();
        struct hold hold = {.since = bench.monday + 2 * before, .clock = -1};
        bench.athlete->holds = &hold;
        bench.athlete->hold_count = 1;
        struct exercise *shrug = plan_exercise(bench.plan, "shrug", EXERCISE_STRENGTH, PATTERN_PULL);
        bench_sets(&bench, bench_place(&bench, 0), shrug, 3, 5, UNIT_REPS);
        plan_do(bench.plan, bench.camp, bench.athlete, plan_activity(bench.plan, "technique"), bench.monday + 1);
        struct activity *travel = plan_activity(bench.plan, "travel");
        travel->rest = true;
        plan_do(bench.plan, bench.camp, bench.athlete, travel, bench.monday + 1);
        struct waiver waiver = {.check = "hold-broken",
                                .because = "no",
                                .first = bench.monday,
                                .last = bench.monday + 27,
                                .span = {0, 20, 30}};
        bench.plan->programme.waivers = &waiver; /* which changes nothing, and is reported */
        bench.plan->programme.waiver_count = 1;
        plan_check(bench.plan);
        assert_int_equal(plan_found(bench.plan, "hold-broken"), before ? 0 : 2);
        assert_int_equal(plan_found(bench.plan, "waiver-unknown"), 1);
        plan_free(bench.plan);
    }
}

/* What a log tells of is history on the day of a hold without an hour; planned work is not. */
static void the_day_of_a_hold(void **state)
{
    (void)state;
    static const struct {
        int since, at; /* hours of the day; -1 not given */
        bool logged;
        size_t found;
    } cases[] = {{-1, -1, false, 1}, {-1, -1, true, 0}, {-1, 17, false, 1}, {-1, 17, true, 0},
                 {18, 17, false, 0}, {18, 18, false, 1}, {18, -1, false, 1}, {18, -1, true, 0}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        struct bench bench = bench_new();
        struct hold hold = {.since = bench.monday, .clock = cases[i].since < 0 ? -1 : cases[i].since * 3600};
        bench.athlete->holds = &hold;
        bench.athlete->hold_count = 1;
        struct occasion *occasion = plan_do(bench.plan, bench.camp, bench.athlete,
                                            plan_activity(bench.plan, "technique"), bench.monday);
        occasion->clock = cases[i].at < 0 ? -1 : cases[i].at * 3600;
        occasion->logged = cases[i].logged;
        bench_expect(&bench, "hold-broken", cases[i].found);
    }
}

/* RPE 7 is let pass; 7.5 is not in the first two weeks, and is on day 14. */
static void a_novice_begins_gently(void **state)
{
    (void)state;
    static const struct {
        double rpe;
        int day;
        bool best;
        size_t found;
    } cases[] = {{7, 0, false, 0},
                 {7.5, 0, false, 1},
                 {7.5, 13, false, 1},
                 {7.5, 14, false, 0},
                 {7.5, 0, true, 0}};
    for (size_t i = 0; i < 5; i++) {
        struct bench bench = bench_new();
        bench.athlete->level = LEVEL_NOVICE;
        struct exercise *squat = bench_squat(&bench);
        if (cases[i].best)
            plan_best(bench.plan, bench.athlete, squat, KG(60), bench.monday - 1);
        bench_sets(&bench, bench_place(&bench, 0), squat, 3, 8, UNIT_REPS);
        plan_effort(bench_sets(&bench, bench_place(&bench, cases[i].day), squat, 3, 8, UNIT_REPS),
                    EFFORT_RPE, cases[i].rpe);
        bench_expect(&bench, "first-weeks-effort", cases[i].found);
    }
}

/* Each way of naming what is avoided, with an exercise that breaks it and one that does not. */
static void a_restriction_may_name_many_things(void **state)
{
    (void)state;
    static const char *const overhead[] = {"overhead"};
    static const struct {
        struct avoid avoid;
        size_t press, row;
    } cases[] = {
        {{.shown = "push", .pattern = PATTERN_PUSH, .region = -1, .kind = -1, .joint = -1, .demand = -1}, 1, 0},
        {{.shown = "chest", .pattern = -1, .region = REGION_CHEST, .kind = -1, .joint = -1, .demand = -1}, 1, 0},
        {{.shown = "strength", .pattern = -1, .region = -1, .kind = EXERCISE_STRENGTH}, 1, 1},
        {{.shown = "overhead", .pattern = -1, .region = -1, .kind = -1, .joint = -1, .demand = -1, .position = "overhead"},
         1,
         0},
        {{.shown = "all-out", .pattern = -1, .region = -1, .kind = -1, .joint = -1, .demand = -1, .all_out = true}, 0, 1},
        {{.shown = "kneeling", .pattern = -1, .region = -1, .kind = -1, .joint = -1, .demand = -1, .position = "kneeling"},
         0,
         0},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct bench bench = bench_new();
        struct exercise *press = bench_press(&bench);
        struct exercise *row = plan_exercise(bench.plan, "row", EXERCISE_STRENGTH, PATTERN_PULL);
        press->positions = (const char **)overhead;
        press->position_count = 1;
        bench.athlete->avoids = &cases[i].avoid;
        bench.athlete->avoid_count = 1;
        struct occasion *occasion = bench_place(&bench, 0);
        plan_effort(bench_sets(&bench, occasion, press, 3, 5, UNIT_REPS), EFFORT_RPE, 8.5);
        plan_effort(bench_sets(&bench, occasion, row, 3, 5, UNIT_REPS), EFFORT_RPE, 9);
        bench_expect(&bench, "avoid-broken", cases[i].press + cases[i].row);
    }
}

static void what_can_be_done_stays_allowed(void **state)
{
    (void)state;
    for (int allowed = 0; allowed < 2; allowed++) {
        struct bench bench = bench_new();
        struct exercise *press = bench_press(&bench);
        const struct exercise *can_do[] = {allowed ? press : bench_squat(&bench)};
        struct avoid avoid = {.shown = "chest",
                              .pattern = -1,
                              .region = REGION_CHEST,
                              .kind = -1, .joint = -1, .demand = -1,
                              .can_do = can_do,
                              .can_do_count = 1};
        bench.athlete->avoids = &avoid;
        bench.athlete->avoid_count = 1;
        bench_sets(&bench, bench_place(&bench, 0), press, 3, 5, UNIT_REPS);
        bench_expect(&bench, "avoid-broken", allowed ? 0 : 1);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_restriction_holds_until_it_is_ended),
        cmocka_unit_test(a_restriction_reaches_its_relatives),
        cmocka_unit_test(what_is_done_instead_may_be_a_form_of_it),
        cmocka_unit_test(a_review_comes_due),
        cmocka_unit_test(a_hold_bars_all_training),
        cmocka_unit_test(the_day_of_a_hold),
        cmocka_unit_test(a_novice_begins_gently),
        cmocka_unit_test(a_restriction_may_name_many_things),
        cmocka_unit_test(what_can_be_done_stays_allowed),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
