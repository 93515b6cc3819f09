/* What a week's limit asks of less than a whole week or of less than all athletes, what is proposed for it, and which end
 * of a range counts. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "model/athlete.h"
#include "unit/plan_builder.c"

static bool is_noted(const struct finding *finding, const char *words)
{
    for (size_t i = 0; i < finding->note_count; i++)
        if (strstr(finding->notes[i].words, words))
            return true;
    return false;
}

/* A bar on one of the two squats of a plan. */
static struct avoid goblet_squat(struct bench *bench)
{
    struct exercise *squat = plan_exercise(bench->plan, "goblet squat", EXERCISE_STRENGTH, PATTERN_SQUAT);
    return (struct avoid){.shown = "goblet squat", .exercise = squat, .pattern = -1, .region = -1, .kind = -1, .joint = -1, .demand = -1};
}

/* What a week's floor comes down by is said of the floor alone: days that do not count, a phase, what is restricted. */
static void why_less_is_asked(void **state)
{
    (void)state;
    static const char *const of_days = "6 of the week's 7 days count: 7 of the 9 for a whole week",
                             *const of_phase = "volume comes down in taper, and this limit with it: 7 of the usual 9",
                             *const of_person = "less is asked of this athlete: 4 of the usual 9";
    static const char *const begins[] = {"days count", "volume comes down", "less is asked"};
    static const struct {
        int cut_days; /* by which the camp begins after the Monday */
        bool taper, restricted;
        int sets;
        const char *note; /* the only one of the three, or NULL */
    } rows[] = {
        {0, false, false, 3, NULL},
        {1, false, false, 3, of_days},
        {0, true, false, 3, of_phase},
        {0, false, true, 3, of_person},
        {0, true, false, 11, NULL},
        {0, false, true, 11, NULL},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct bench bench = rows[i].taper ? bench_taper(7, 27) : bench_new();
        const char *const notes[] = {of_days, of_phase, of_person};
        struct exercise *squat = bench_squat(&bench);
        struct avoid avoid = goblet_squat(&bench);
        bool over = rows[i].sets > 9;
        bench.camp->first += rows[i].cut_days;
        struct limit *limit = plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "squat sets", LIMIT_WITHIN, 9000);
        limit->top = 10000;
        if (rows[i].taper)
            bench_phase_limit(&bench, "volume", LIMIT_WITHIN, 20000, 20000);
        bench.athlete->avoids = &avoid;
        bench.athlete->avoid_count = rows[i].restricted ? 1 : 0;
        for (int week = 0; week < 4; week++)
            bench_sets_on(&bench, squat, 7 * week + 3, week == (rows[i].taper ? 1 : 0) ? rows[i].sets : 9);
        plan_check(bench.plan);
        const struct finding *finding = plan_finding(bench.plan, over ? "sets-over" : "sets-under");
        assert_non_null(finding);
        for (size_t n = 0; n < sizeof notes / sizeof *notes; n++)
            assert_int_equal(is_noted(finding, begins[n]), rows[i].note == notes[n]);
        assert_true(!rows[i].note || is_noted(finding, rows[i].note));
        assert_int_equal(finding->neutral != NULL, rows[i].restricted && !over);
        plan_free(bench.plan);
    }
}

/* What is left up to a limit on a week, for a tally: of the end that it has, and of a floor that is the athlete's own only
 * where it tells nobody what is restricted. */
static void what_is_left_of_a_week(void **state)
{
    (void)state;
    static const struct {
        enum limit_bound bound;
        milli value, top;
        bool out, restricted;
        milli left;
    } rows[] = {
        {LIMIT_AT_MOST, 10000, 0, false, false, 2000},
        {LIMIT_AT_LEAST, 5000, 0, false, false, 3000},
        {LIMIT_AT_LEAST, 9000, 0, false, false, -1000},
        {LIMIT_WITHIN, 5000, 9000, false, false, 1000},
        {LIMIT_WITHIN, 7000, 12000, false, false, 1000},
        {LIMIT_AT_LEAST, 5000, 0, false, true, PLAN_NOTHING_LEFT},
        {LIMIT_AT_LEAST, 5000, 0, true, false, PLAN_NOTHING_LEFT},
        {LIMIT_AT_MOST, 10000, 0, true, true, 2000},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct bench bench = bench_new();
        struct limit *limit = plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "squat sets", rows[i].bound, rows[i].value);
        limit->top = rows[i].top;
        struct avoid avoid = goblet_squat(&bench);
        struct out out = {.first = bench.monday, .last = bench.monday + 27};
        bench.athlete->avoids = &avoid;
        bench.athlete->avoid_count = rows[i].restricted ? 1 : 0;
        bench.athlete->outs = &out;
        bench.athlete->out_count = rows[i].out ? 1 : 0;
        struct exercise *squat = bench_squat(&bench);
        for (int week = 0; week < 4; week++)
            bench_sets_on(&bench, squat, 7 * week, 8);
        plan_check(bench.plan);
        assert_int_equal(plan_left(bench.plan, limit, COUNTED_PATTERN_SETS + (int)PATTERN_SQUAT), rows[i].left);
        plan_free(bench.plan);
    }
}

/* Of a proportion between two ranges the words give the two ends that break it. */
static void a_proportion_of_ranges(void **state)
{
    (void)state;
    static const struct {
        enum limit_bound bound;
        milli value;
        const char *words;
    } rows[] = {{LIMIT_AT_LEAST, 2000, "4 lifts to 3 throws in week 1"}, {LIMIT_AT_MOST, 2000, "6 lifts to 2 throws in week 1"}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct bench bench = bench_new();
        plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "lifts", rows[i].bound, rows[i].value)->against = "throws";
        struct occasion *occasion = bench_place(&bench, 0);
        struct set_run *lifts = bench_sets(&bench, occasion, bench_squat(&bench), 1, 5, UNIT_REPS);
        plan_percent(lifts, 75);
        plan_part(lifts, 0)->amount = (struct range){4000, 6000};
        plan_part(bench_sets(&bench, occasion, bench_throw(&bench), 1, 2, UNIT_REPS), 0)->amount = (struct range){2000, 3000};
        plan_check(bench.plan);
        assert_non_null(plan_finding(bench.plan, "ratio-outside"));
        assert_non_null(strstr(plan_finding(bench.plan, "ratio-outside")->words, rows[i].words));
        plan_free(bench.plan);
    }
}

/* Each side of each week is reported by itself. */
static void sides_of_weeks_stay_apart(void **state)
{
    (void)state;
    for (int week = 0; week < 3; week++) {
        struct bench bench = bench_new();
        plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "strikes", LIMIT_AT_MOST, 10000)->a_side = true;
        struct exercise *jab = plan_exercise(bench.plan, "jab", EXERCISE_SKILL, PATTERN_STRIKE);
        jab->workers = WORKER_HAND;
        for (int next = 0; next < 2; next++)
            plan_part(bench_sets(&bench, bench_place(&bench, 7 * (week + next)), jab, 1, 11, UNIT_STRIKES), 0)->side =
                next ? DOSE_LEFT : DOSE_RIGHT;
        bench_expect(&bench, "strikes-over", 2);
    }
}

/* A limit on days of a camp is kept by an edit on these days, whatever the rest of the week has. */
static void what_is_proposed_for_some_days(void **state)
{
    (void)state;
    for (int before = 0; before < 2; before++) { /* a bout, or the first days */
        struct bench bench = bench_new();
        struct limit *limit = plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "sets", LIMIT_AT_MOST, 7000);
        limit->stretch = before ? STRETCH_BEFORE_BOUT : STRETCH_FIRST;
        limit->stretch_days = 5;
        if (before)
            plan_bout(bench.plan, bench.camp, bench.monday + 6);
        struct exercise *squat = bench_squat(&bench);
        bench_sets_on(&bench, squat, before ? 0 : 5, 9);
        bench_sets_on(&bench, squat, 2, 6);
        plan_check(bench.plan);
        const struct finding *finding = plan_finding(bench.plan, "sets-over");
        assert_non_null(finding);
        assert_non_null(finding->help);
        assert_string_equal(finding->help, "one set fewer of A.1 back squat on Wednesday 2027-03-03 brings it to 5");
        plan_free(bench.plan);
    }
}

/* Of a week that was logged the load is history; its sets are still those of the plan. */
static void what_is_proposed_for_a_logged_week(void **state)
{
    (void)state;
    for (int logged = 0; logged < 2; logged++) {
        struct bench bench = bench_new();
        plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "session load", LIMIT_AT_MOST, 300000);
        plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "sets", LIMIT_AT_MOST, 5000);
        bench_sets_on(&bench, bench_squat(&bench), 1, 6);
        struct occasion *run = plan_do(bench.plan, bench.camp, bench.athlete, plan_activity(bench.plan, "roadwork"), bench.monday);
        run->seconds = 65 * 60;
        run->rpe = (struct range){5000, 5000};
        if (logged) {
            run->outcome.logged = run->outcome.timed = true;
            run->outcome.seconds = run->seconds;
            run->outcome.rpe = run->rpe;
        }
        plan_check(bench.plan);
        assert_int_equal(plan_finding(bench.plan, "load-over")->help != NULL, !logged);
        assert_non_null(plan_finding(bench.plan, "sets-over")->help);
        plan_free(bench.plan);
    }
}

/* Where a plan says from 4 to 6, a ceiling is compared with 6 and a floor with 4; so is the figure of a waiver. */
static void the_end_of_a_range_that_counts(void **state)
{
    (void)state;
    static const struct {
        enum limit_bound bound;
        const char *check;
        milli cap[2]; /* one that covers it, and one that does not */
    } rows[] = {{LIMIT_AT_MOST, "lifts-over", {6000, 5000}}, {LIMIT_AT_LEAST, "lifts-under", {4000, 5000}}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        for (int less = 0; less < 2; less++) {
            struct bench bench = bench_new();
            plan_limit(bench.plan, bench.limits, LIMIT_SESSION, "lifts", rows[i].bound, rows[i].bound == LIMIT_AT_MOST ? 3000 : 7000);
            struct set_run *sets = bench_sets(&bench, bench_place(&bench, 0), bench_squat(&bench), 1, 5, UNIT_REPS);
            plan_percent(sets, 75);
            plan_part(sets, 0)->amount = (struct range){4000, 6000};
            struct waiver *waiver = bench_waive(&bench, rows[i].check);
            waiver->capped = true;
            waiver->cap = rows[i].cap[less];
            bench_expect(&bench, rows[i].check, (size_t)less);
        }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(why_less_is_asked),
        cmocka_unit_test(what_is_left_of_a_week),
        cmocka_unit_test(a_proportion_of_ranges),
        cmocka_unit_test(sides_of_weeks_stay_apart),
        cmocka_unit_test(what_is_proposed_for_some_days),
        cmocka_unit_test(what_is_proposed_for_a_logged_week),
        cmocka_unit_test(the_end_of_a_range_that_counts),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
