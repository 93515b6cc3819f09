/* Phases that are too short, and what is new or lowered slowly in one: on both sides of each border. */
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

enum { BEFORE = 21 }; /* days of the base */

static void a_phase_is_too_short(void **state)
{
    (void)state;
    static const struct {
        enum limit_bound bound;
        int days;
        bool open, after;
        size_t found;
        milli left;
    } rows[] = {
        {LIMIT_AT_LEAST, 6, false, false, 1, -1000}, {LIMIT_AT_LEAST, 7, false, false, 0, 0},
        {LIMIT_AT_MOST, 6, false, false, 0, NONE},   {LIMIT_AT_LEAST, 6, true, false, 0, NONE},
        {LIMIT_AT_LEAST, 6, false, true, 0, NONE},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct bench bench = bench_new();
        struct limit *limit = bench_phase_limit(&bench, "days of a phase", rows[i].bound, 7000, 0);
        struct phase *phase =
            plan_phase(bench.plan, bench.camp, "taper", bench.monday, bench.monday + rows[i].days - 1);
        phase->open = rows[i].open;
        phase->after_bout = rows[i].after;
        plan_join(bench.plan, bench.camp,
                  plan_athlete(bench.plan, "Nils Ferrow", STANCE_ORTHODOX)); /* told once of both */
        plan_check(bench.plan);
        assert_int_equal(plan_found(bench.plan, "phase-too-short"), rows[i].found);
        assert_int_equal(plan_left(bench.plan, limit, COUNTED_PHASE_DAYS), rows[i].left);
        plan_free(bench.plan);
    }
}

/* One exercise that is new and lowered slowly in the taper. */
static void what_is_new_and_what_is_slow(void **state)
{
    (void)state;
    static const struct {
        enum exercise_kind kind;
        bool tempo;
        size_t fresh, slow;
    } rows[] = {
        {EXERCISE_STRENGTH, true, 1, 1}, {EXERCISE_STRENGTH, false, 1, 0}, {EXERCISE_POWER, true, 1, 0},
        {EXERCISE_POWER, false, 1, 0},   {EXERCISE_WARM_UP, true, 0, 0},   {EXERCISE_MOBILITY, true, 0, 0},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct bench bench = bench_taper(BEFORE, 27);
        struct limit *fresh = bench_phase_limit(&bench, "new exercises", LIMIT_AT_MOST, 0, 0),
                     *slow = bench_phase_limit(&bench, "lowering work", LIMIT_AT_MOST, 0, 0);
        struct exercise *drill = plan_exercise(bench.plan, "drill", rows[i].kind, PATTERN_SQUAT);
        for (int day = 21; day < 24; day++)
            bench_sets(&bench, bench_place(&bench, day), drill, 3, 5, UNIT_REPS)->tempo =
                (struct item_tempo){.lower = 4, .lift = 1, .given = rows[i].tempo};
        plan_check(bench.plan);
        assert_int_equal(plan_found(bench.plan, "new-exercise-late"), rows[i].fresh);
        assert_int_equal(plan_found(bench.plan, "lowering-late"), rows[i].slow);
        assert_int_equal(plan_left(bench.plan, fresh, COUNTED_NEW_EXERCISES), -1000 * (milli)rows[i].fresh);
        assert_int_equal(plan_left(bench.plan, slow, COUNTED_LOWERING_WORK), -1000 * (milli)rows[i].slow);
        plan_free(bench.plan);
    }
}

/* Known from a best, or from the week before the taper, is not new in it. */
static void what_is_known_is_not_new(void **state)
{
    (void)state;
    static const struct {
        int day, best; /* on which it is done before, and on which a best is from; 0 none */
        size_t found;
    } rows[] = {{0, 0, 1}, {20, 0, 0}, {14, 0, 0}, {13, 0, 0}, {0, 21, 0}, {0, 22, 1}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct bench bench = bench_taper(BEFORE, 27);
        struct limit *limit = bench_phase_limit(&bench, "new exercises", LIMIT_AT_MOST, 0, 0);
        struct exercise *squat = bench_squat(&bench);
        if (rows[i].day)
            bench_sets_on(&bench, squat, rows[i].day, 3);
        if (rows[i].best)
            plan_best(bench.plan, bench.athlete, squat, KG(100), bench.monday + rows[i].best);
        bench_sets_on(&bench, squat, 21, 3);
        plan_check(bench.plan);
        assert_int_equal(plan_found(bench.plan, "new-exercise-late"), rows[i].found);
        assert_int_equal(plan_left(bench.plan, limit, COUNTED_NEW_EXERCISES), rows[i].found ? -1000 : 0);
        plan_free(bench.plan);
    }
}

static void how_many_may_be_new(void **state)
{
    (void)state;
    static const struct {
        enum limit_bound bound;
        milli value;
        bool phase;
        size_t found;
        milli left;
    } rows[] = {
        {LIMIT_AT_MOST, 1000, true, 1, -1000}, {LIMIT_AT_MOST, 2000, true, 0, 0},
        {LIMIT_AT_MOST, 1999, true, 1, -1},    {LIMIT_AT_MOST, 2001, true, 0, 1},
        {LIMIT_AT_MOST, 1000, false, 0, NONE}, {LIMIT_AT_LEAST, 1000, true, 0, NONE},
        {LIMIT_AT_LEAST, 3000, true, 0, NONE}, {LIMIT_WITHIN, 1000, true, 0, NONE},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct bench bench = bench_taper(BEFORE, 27);
        struct limit *limit = bench_phase_limit(&bench, "new exercises", rows[i].bound, rows[i].value, 0);
        limit->phase = rows[i].phase ? "taper" : NULL;
        limit->top = rows[i].bound == LIMIT_WITHIN ? 1000 : 0;
        bench_sets_on(&bench, bench_squat(&bench), 21, 3);
        bench_sets_on(&bench, bench_press(&bench), 22, 3);
        plan_check(bench.plan);
        assert_int_equal(plan_found(bench.plan, "new-exercise-late"), rows[i].found);
        assert_int_equal(plan_left(bench.plan, limit, COUNTED_NEW_EXERCISES), rows[i].left);
        plan_free(bench.plan);
    }
}

/* Whoever is away in a phase is asked for nothing there, and whatever is waived is not reported. */
static void away_or_waived(void **state)
{
    (void)state;
    static const char *const checks[] = {"taper-volume", "new-exercise-late", "lowering-late", "phase-too-short"};
    for (size_t i = 0; i < sizeof checks / sizeof *checks; i++)
        for (int why = 0; why < 3; why++) { /* neither, away, waived */
            struct bench bench = bench_taper(BEFORE, 27);
            bench_phase_limit(&bench, "volume", LIMIT_WITHIN, 40000, 60000);
            bench_phase_limit(&bench, "new exercises", LIMIT_AT_MOST, 0, 0);
            bench_phase_limit(&bench, "lowering work", LIMIT_AT_MOST, 0, 0);
            bench_phase_limit(&bench, "days of a phase", LIMIT_AT_LEAST, 8000, 0);
            bench_sets_on(&bench, bench_press(&bench), 7, 20);
            bench_sets(&bench, bench_place(&bench, 21), bench_squat(&bench), 20, 5, UNIT_REPS)->tempo =
                (struct item_tempo){.lower = 4, .lift = 1, .given = true};
            struct out out = {.first = bench.monday + 27, .last = bench.monday + 27, .away = true};
            bench.athlete->outs = &out;
            bench.athlete->out_count = why == 1;
            if (why == 2)
                bench_waive(&bench, checks[i]);
            bench_expect(&bench, checks[i], why == 0 || (why == 1 && i == 3));
        }
}

static void how_short_in_words(void **state)
{
    (void)state;
    for (int days = 1; days < 3; days++) {
        struct bench bench = bench_new();
        bench_phase_limit(&bench, "days of a phase", LIMIT_AT_LEAST, 3000, 0);
        plan_phase(bench.plan, bench.camp, "taper", bench.monday, bench.monday + days - 1);
        bench_expect_words(&bench, "phase-too-short", SEVERITY_WARNING,
                           days == 1 ? "taper of Harbour final has 1 day, too few to be a phase; at least 3"
                                     : "taper of Harbour final has 2 days, too few to be a phase; at least 3");
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_phase_is_too_short),     cmocka_unit_test(what_is_new_and_what_is_slow),
        cmocka_unit_test(what_is_known_is_not_new), cmocka_unit_test(how_many_may_be_new),
        cmocka_unit_test(away_or_waived),           cmocka_unit_test(how_short_in_words),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
