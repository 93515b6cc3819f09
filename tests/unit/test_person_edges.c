/* What is said of an activity that is barred, of illness, of what is not trained, and of the first weeks of an exercise: on
 * both sides of each border. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "model/athlete.h"
#include "unit/plan_builder.c"

static struct avoid avoid_of(const char *shown)
{
    return (struct avoid){.shown = shown, .pattern = -1, .region = -1, .kind = -1, .joint = -1, .demand = -1};
}

/* Of a bout, of one with others in the camp, and of other work; a line that is met twice says it once. */
static void what_helps_where_an_activity_is_barred(void **state)
{
    (void)state;
    static const struct {
        bool bout;
        int others;
        const char *help;
    } rows[] = {
        {false, 0, "below the line, write `absent Oriel Tamsin`, or place other work for this athlete"},
        {false, 1, "below the line, write `absent Oriel Tamsin`, or place other work for this athlete"},
        {true, 0, "end the restriction first, if whoever set it does, or write `cancelled` or `postponed` below the bout"},
        {true, 1, "end the restriction first, if whoever set it does, or let Oriel Tamsin leave before the bout, with `until` and a "
                  "date behind the name in the camp's `for`; the others keep theirs"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct bench bench = bench_new();
        struct avoid avoid = avoid_of("striking");
        avoid.pattern = PATTERN_STRIKE;
        bench.athlete->avoids = &avoid;
        bench.athlete->avoid_count = 1;
        for (int other = 0; other < rows[i].others; other++)
            plan_join(bench.plan, bench.camp, plan_athlete(bench.plan, "Nils Ferrow", STANCE_ORTHODOX));
        struct activity *activity = plan_activity(bench.plan, "striking night");
        activity->strikes = true;
        activity->bout = rows[i].bout;
        struct occasion *first = plan_do(bench.plan, bench.camp, bench.athlete, activity, bench.monday + 1);
        plan_do(bench.plan, bench.camp, bench.athlete, activity, bench.monday + 8)->span = first->span;
        plan_check(bench.plan);
        assert_int_equal(plan_found(bench.plan, "avoid-broken"), 1);
        assert_string_equal(plan_finding(bench.plan, "avoid-broken")->help, rows[i].help);
        plan_free(bench.plan);
    }
}

/* After the last day of a fever up to the 28th day behind it, unless a doctor has been seen or the work is rest. */
static void days_after_an_illness(void **state)
{
    (void)state;
    enum { LAST = 2 };
    static const struct {
        int day, seen; /* days from the Monday; seen -1: by nobody */
        bool rest;
        size_t found;
    } rows[] = {
        {LAST - 1, -1, false, 0}, {LAST, -1, false, 0},     {LAST + 1, -1, false, 1}, {LAST + 28, -1, false, 1},
        {LAST + 29, -1, false, 0}, {LAST + 1, -1, true, 0}, {LAST + 5, 7, false, 0},  {LAST + 5, 6, false, 0},
        {LAST + 5, 8, false, 1},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        for (int times = 1; times <= 2; times++) {
            struct bench bench = bench_new();
            bench.camp->weeks = 6;
            bench.camp->last = bench.camp->first + 41;
            struct illness illness = {.first = bench.monday, .last = bench.monday + LAST,
                                      .seen = rows[i].seen < 0 ? 0 : bench.monday + rows[i].seen, .span = bench.athlete->name.span};
            bench.athlete->illnesses = &illness;
            bench.athlete->illness_count = 1;
            struct activity *activity = plan_activity(bench.plan, "easy day");
            activity->rest = rows[i].rest;
            for (int time = 0; time < times; time++)
                plan_do(bench.plan, bench.camp, bench.athlete, activity, bench.monday + rows[i].day)->seconds = 60;
            plan_check(bench.plan);
            assert_int_equal(plan_found(bench.plan, "illness-unseen"), rows[i].found);
            const struct finding *finding = plan_finding(bench.plan, "illness-unseen");
            if (finding) {
                assert_non_null(strstr(finding->help, "`seen by doctor`"));
                assert_int_equal(finding->met, times == 2 ? 2 : 0);
            }
            plan_free(bench.plan);
        }
}

/* Effort is looked at in what trains, and where the plan gives one; once for an athlete, however many weeks. */
static void efforts_of_what_is_new(void **state)
{
    (void)state;
    static const struct {
        enum exercise_kind kind;
        bool trains;
    } kinds[] = {{EXERCISE_STRENGTH, true}, {EXERCISE_POWER, true},    {EXERCISE_HOLD, true},    {EXERCISE_CONDITIONING, true},
                 {EXERCISE_SKILL, false},   {EXERCISE_MOBILITY, false}, {EXERCISE_WARM_UP, false}};
    static const int efforts[] = {0, 6, 7, 8}; /* RPE, 0: none */
    for (size_t i = 0; i < sizeof kinds / sizeof *kinds; i++)
        for (size_t k = 0; k < sizeof efforts / sizeof *efforts; k++) {
            struct bench bench = bench_new();
            struct limit *limit = plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "effort", LIMIT_AT_MOST, 7000);
            limit->first_weeks = 2;
            struct exercise *work = plan_exercise(bench.plan, "work", kinds[i].kind, PATTERN_SQUAT);
            struct set_run *sets = bench_sets(&bench, bench_place(&bench, 0), work, 2, 5, UNIT_REPS);
            if (efforts[k])
                plan_effort(sets, EFFORT_RPE, efforts[k]);
            plan_check(bench.plan);
            bool over = kinds[i].trains && efforts[k] > 7;
            assert_int_equal(plan_found(bench.plan, "first-weeks-effort"), over ? 1 : 0);
            assert_int_equal(plan_left(bench.plan, limit, COUNTED_EFFORT),
                             kinds[i].trains && efforts[k] ? 7000 - efforts[k] * 1000 : PLAN_NOTHING_LEFT);
            plan_free(bench.plan);
        }
}

/* A review that is due is asked for once a day is known, from its day on, while the restriction stands. */
static void when_a_review_is_due(void **state)
{
    (void)state;
    static const struct {
        int today, review, ended; /* days from the Monday, -1: not known, none, not ended */
        size_t found;
    } rows[] = {{5, 5, -1, 1}, {5, 6, -1, 0}, {6, 5, -1, 1}, {-1, 5, -1, 0}, {5, -1, -1, 0}, {6, 5, 6, 0}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        for (int twice = 0; twice < 2; twice++) {
            struct bench bench = bench_new();
            struct avoid avoids[] = {avoid_of("bench press"), avoid_of("bench press")};
            for (int a = 0; a < 2; a++) {
                avoids[a].exercise = bench_press(&bench);
                avoids[a].review = rows[i].review < 0 ? 0 : bench.monday + rows[i].review;
                avoids[a].ended = rows[i].ended < 0 ? 0 : bench.monday + rows[i].ended;
                avoids[a].span = bench.athlete->name.span;
            }
            bench.athlete->avoids = avoids;
            bench.athlete->avoid_count = twice ? 2 : 1;
            bench.plan->programme.today = rows[i].today < 0 ? 0 : bench.monday + rows[i].today;
            bench_place(&bench, 0);
            bench_expect(&bench, "review-due", rows[i].found);
        }
}

/* What may stand in: what the restriction names, or up to three that are like it, or nothing. */
static void what_may_stand_in(void **state)
{
    (void)state;
    static const char *const names[] = {"press one", "press two", "press three", "press four"};
    static const struct {
        int others;
        bool instead;
        const char *help;
    } rows[] = {{0, false, "below the line, write `for Oriel Tamsin, ` and what takes its place"},
                {1, false, "below the line, write `for Oriel Tamsin, press one`"},
                {2, false, "below the line, write `for Oriel Tamsin, press one`, or with press two"},
                {3, false, "below the line, write `for Oriel Tamsin, press one`, or with press two or press three"},
                {4, false, "below the line, write `for Oriel Tamsin, press one`, or with press two or press three"},
                {3, true, "below the line, write `for Oriel Tamsin, press three`"}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct bench bench = bench_new();
        struct exercise *press = bench_press(&bench), *other = NULL;
        for (int k = 0; k < rows[i].others; k++) {
            other = plan_exercise(bench.plan, names[k], press->kind, press->pattern);
            struct name name = other->name;
            size_t number = other->number;
            *other = *press;
            other->name = name;
            other->number = number;
        }
        struct avoid avoid = avoid_of("bench press");
        avoid.exercise = press;
        avoid.instead = rows[i].instead ? other : NULL;
        bench.athlete->avoids = &avoid;
        bench.athlete->avoid_count = 1;
        struct span span = {0};
        for (int week = 0; week < 2; week++) { /* of one line */
            struct occasion *occasion = bench_place(&bench, 7 * week);
            bench_sets(&bench, occasion, press, 3, 5, UNIT_REPS);
            struct item *item = (struct item *)&occasion->blocks[0].items[0];
            span = week ? span : item->span;
            item->span = span;
        }
        plan_check(bench.plan);
        assert_int_equal(plan_found(bench.plan, "avoid-broken"), 1);
        assert_string_equal(plan_finding(bench.plan, "avoid-broken")->help, rows[i].help);
        plan_free(bench.plan);
    }
}

/* Of weeks in which something is planned, those from the first day of a restriction on, for the coach alone. */
static void regions_that_nothing_trains(void **state)
{
    (void)state;
    static const struct {
        int since; /* days from the Monday, or -1: always */
        int met;
    } rows[] = {{-1, 2}, {14, 1}, {15, 0}, {28, 0}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        for (int region = 0; region < REGION_COUNT; region++) {
            struct bench bench = bench_new();
            struct exercise *barred = plan_exercise(bench.plan, "barred", EXERCISE_STRENGTH, PATTERN_HINGE);
            barred->loads[region] = 1000;
            struct exercise *free = plan_exercise(bench.plan, "free", EXERCISE_STRENGTH, PATTERN_HINGE);
            struct avoid avoid = avoid_of("barred");
            avoid.exercise = barred;
            avoid.since = rows[i].since < 0 ? 0 : bench.monday + rows[i].since;
            avoid.span = bench.athlete->name.span;
            bench.athlete->avoids = &avoid;
            bench.athlete->avoid_count = 1;
            for (int week = 0; week < 4; week += 2)
                bench_sets(&bench, bench_place(&bench, 7 * week), free, 3, 5, UNIT_REPS);
            plan_check(bench.plan);
            assert_int_equal(plan_found(bench.plan, "region-left-out"), rows[i].met ? 1 : 0);
            const struct finding *finding = plan_finding(bench.plan, "region-left-out");
            if (finding) {
                assert_true(finding->private);
                assert_int_equal(finding->met, rows[i].met > 1 ? rows[i].met : 0);
                assert_non_null(strstr(finding->words, arena_printf(bench.plan->arena, "nothing for the %s in the week from %s",
                                                                    regions.names[region], rows[i].since < 0 ? "2027-03-01" : "2027-03-15")));
            }
            plan_free(bench.plan);
        }
}

/* A restriction that is expected to be over by then is a warning, but not where a sheet of the day is to be printed. */
static void what_is_expected_to_be_over(void **state)
{
    (void)state;
    struct bench bench = bench_new();
    struct exercise *press = bench_press(&bench);
    struct avoid avoid = avoid_of("bench press");
    avoid.exercise = press;
    avoid.expected = bench.monday;
    bench.athlete->avoids = &avoid;
    bench.athlete->avoid_count = 1;
    bench.plan->programme.today = bench.monday;
    bench_sets(&bench, bench_place(&bench, 2), press, 3, 5, UNIT_REPS);
    plan_check(bench.plan);
    assert_int_equal(plan_finding(bench.plan, "avoid-broken")->severity, SEVERITY_WARNING);
    bool wanted[] = {true}, barred[] = {false};
    bench.plan->diag = diag_new(bench.plan->arena, &bench.plan->sources);
    rules_run_wanted(&bench.plan->programme, &(struct wanted){.occasions = wanted, .left_out = wanted}, SEVERITY_ERROR, barred, bench.plan->diag);
    assert_int_equal(plan_finding(bench.plan, "avoid-broken")->severity, SEVERITY_ERROR);
    assert_true(barred[0]);
    plan_free(bench.plan);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_helps_where_an_activity_is_barred),
        cmocka_unit_test(days_after_an_illness),
        cmocka_unit_test(efforts_of_what_is_new),
        cmocka_unit_test(when_a_review_is_due),
        cmocka_unit_test(what_may_stand_in),
        cmocka_unit_test(regions_that_nothing_trains),
        cmocka_unit_test(what_is_expected_to_be_over),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
