/* Volume below the peak week, on both sides of each border: what is found, and what is left. */
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

static bool is_noted(const struct finding *finding, const char *words)
{
    for (size_t i = 0; i < finding->note_count; i++)
        if (strcmp(finding->notes[i].words, words) == 0)
            return true;
    return false;
}

/* A peak week of 20 sets. */
static void what_is_left_of_a_cut(void **state)
{
    (void)state;
    static const struct {
        enum limit_bound bound;
        milli value, top;
        int sets;
        size_t found;
        milli left;
        const char *words;
    } rows[] = {
        {LIMIT_WITHIN, 40000, 60000, 12, 0, 0, NULL},
        {LIMIT_WITHIN, 40000, 60000, 8, 0, 0, NULL},
        {LIMIT_WITHIN, 40000, 60000, 9, 0, 5000, NULL},
        {LIMIT_WITHIN, 40000, 60000, 13, 1, -5000,
         "35 % below the peak week's 20; the limit asks for 40 % to 60 % below"},
        {LIMIT_WITHIN, 40000, 60000, 7, 1, -5000,
         "65 % below the peak week's 20; the limit asks for 40 % to 60 % below"},
        {LIMIT_WITHIN, 40000, 60000, 20, 1, -40000,
         "0 % below the peak week's 20; the limit asks for 40 % to 60 % below"},
        {LIMIT_WITHIN, 40000, 60000, 21, 1, -45000,
         "5 % above the peak week's 20; the limit asks for 40 % to 60 % below"},
        {LIMIT_AT_LEAST, 40000, 0, 8, 0, 20000, NULL},
        {LIMIT_AT_LEAST, 40000, 0, 13, 1, -5000,
         "35 % below the peak week's 20; the limit asks for at least 40 % below"},
        {LIMIT_AT_MOST, 60000, 0, 20, 0, 0, NULL},
        {LIMIT_AT_MOST, 60000, 0, 19, 0, 5000, NULL},
        {LIMIT_AT_MOST, 60000, 0, 7, 1, -5000, "65 % below the peak week's 20; the limit asks for at most 60 % below"},
        {LIMIT_AT_MOST, 1, 0, 10, 1, -49999, "50 % below the peak week's 20; the limit asks for at most 0 % below"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct bench bench = bench_taper(BEFORE, 27);
        struct limit *limit = bench_phase_limit(&bench, "volume", rows[i].bound, rows[i].value, rows[i].top);
        struct exercise *squat = bench_squat(&bench);
        bench_sets_on(&bench, squat, 7, 20);
        bench_sets_on(&bench, squat, 21, rows[i].sets);
        plan_check(bench.plan);
        assert_int_equal(plan_found(bench.plan, "taper-volume"), rows[i].found);
        assert_int_equal(plan_left(bench.plan, limit, COUNTED_SETS), rows[i].left);
        if (rows[i].words)
            assert_non_null(strstr(plan_finding(bench.plan, "taper-volume")->words, rows[i].words));
        plan_free(bench.plan);
    }
}

/* 599.999 kg after 1000 kg are cut by 40.0001 %, which is more than 40 % by less than can be said; 600.001 by less. */
static void a_cut_that_misses_by_a_hair(void **state)
{
    (void)state;
    static const struct {
        enum limit_bound bound;
        double kilograms, cap;
        size_t found, waived; /* findings of it, and of the same with `waive up to CAP` */
        milli left;
    } rows[] = {
        {LIMIT_AT_MOST, 599.999, 50, 1, 0, -1},  {LIMIT_AT_MOST, 600.001, 50, 0, 0, 0},
        {LIMIT_AT_LEAST, 600.001, 30, 1, 0, -1}, {LIMIT_AT_LEAST, 599.999, 30, 0, 0, 0},
        {LIMIT_AT_LEAST, 600.001, 50, 1, 1, -1},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        for (int waived = 0; waived < 2; waived++) {
            struct bench bench = bench_taper(BEFORE, 27);
            struct limit *limit = bench_phase_limit(&bench, "tonnage", rows[i].bound, 40000, 0);
            limit->below_peak = true;
            struct exercise *squat = bench_squat(&bench);
            plan_kilograms(bench_sets(&bench, bench_place(&bench, 7), squat, 1, 1, UNIT_REPS), 1000);
            plan_kilograms(bench_sets(&bench, bench_place(&bench, 21), squat, 1, 1, UNIT_REPS), rows[i].kilograms);
            if (waived) {
                struct waiver *waiver = bench_waive(&bench, "taper-volume");
                waiver->capped = true;
                waiver->cap = (milli)(rows[i].cap * 1000);
            }
            plan_check(bench.plan);
            assert_int_equal(plan_found(bench.plan, "taper-volume"), waived ? rows[i].waived : rows[i].found);
            if (!waived)
                assert_int_equal(plan_left(bench.plan, limit, COUNTED_TONNAGE), rows[i].left);
            plan_free(bench.plan);
        }
}

/* `waive ... up to` a cut: down to it where more was asked for, up to it where less was. */
static void a_waiver_up_to_a_cut(void **state)
{
    (void)state;
    static const struct {
        int sets, cap;
        size_t found;
    } rows[] = {{13, 35, 0}, {13, 36, 1}, {7, 65, 0}, {7, 64, 1}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct bench bench = bench_taper(BEFORE, 27);
        bench_phase_limit(&bench, "volume", LIMIT_WITHIN, 40000, 60000);
        struct exercise *squat = bench_squat(&bench);
        bench_sets_on(&bench, squat, 7, 20);
        bench_sets_on(&bench, squat, 21, rows[i].sets);
        struct waiver *waiver = bench_waive(&bench, "taper-volume");
        waiver->capped = true;
        waiver->cap = rows[i].cap * 1000;
        bench_expect(&bench, "taper-volume", rows[i].found);
    }
}

/* Which weeks can be the peak: those of the camp since the last bout that end before the taper. Each of the rows has 30
 * sets on DAY, 20 in the second week and 10 in the taper: 50 % below if DAY does not count (of eight days 56.25 %),
 * 66.667 % if it does. */
static void which_weeks_have_a_peak(void **state)
{
    (void)state;
    static const struct {
        int begins, bout, taper, day; /* days of the first camp's calendar; BOUT -1: none before the taper */
        milli left;
    } rows[] = {
        {0, -1, 21, 20, -6667}, {0, -1, 21, 0, -6667}, {6, -1, 21, 6, -6667},  {0, 6, 21, 6, 10000},
        {0, -1, 20, 14, 3750},  {0, 5, 21, 3, 10000},  {0, -1, 21, 28, 10000},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct bench bench = bench_taper(rows[i].taper, 27);
        struct limit *limit = bench_phase_limit(&bench, "volume", LIMIT_WITHIN, 40000, 60000);
        bench.camp->first = bench.monday + rows[i].begins;
        bench.camp->last += 7;
        bench.camp->weeks++;
        if (rows[i].bout >= 0) {
            plan_bout(bench.plan, bench.camp, bench.monday + rows[i].bout);
            plan_bout(bench.plan, bench.camp, bench.monday + 34);
        }
        struct exercise *squat = bench_squat(&bench);
        bench_sets_on(&bench, squat, rows[i].day, 30);
        bench_sets_on(&bench, squat, 8, 20);
        bench_sets_on(&bench, squat, 26, 10);
        plan_check(bench.plan);
        assert_int_equal(plan_left(bench.plan, limit, COUNTED_SETS), rows[i].left);
        assert_int_equal(plan_found(bench.plan, "taper-volume"), rows[i].left < 0);
        plan_free(bench.plan);
    }
}

/* Without work before it nothing can come down. */
static void a_taper_after_nothing(void **state)
{
    (void)state;
    struct bench bench = bench_taper(BEFORE, 27);
    struct limit *limit = bench_phase_limit(&bench, "volume", LIMIT_WITHIN, 40000, 60000);
    bench_sets_on(&bench, bench_squat(&bench), 21, 5);
    plan_check(bench.plan);
    assert_int_equal(plan_left(bench.plan, limit, COUNTED_SETS), NONE);
    assert_int_equal(plan_found(bench.plan, "taper-volume"), 0);
    plan_free(bench.plan);
}

/* The last seven days are told apart of a phase that is longer: 20 sets, then 2 on each of the days below. */
static void the_last_seven_days(void **state)
{
    (void)state;
    static const struct {
        int first, day; /* of the taper, and of its work beside that of the last day */
        const char *note;
    } rows[] = {{21, 21, NULL},
                {20, 20, "its last seven days alone are 90 % below the peak week"},
                {20, 21, "its last seven days alone are 80 % below the peak week"},
                {19, 20, "its last seven days alone are 90 % below the peak week"}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct bench bench = bench_taper(rows[i].first, 27);
        bench_phase_limit(&bench, "volume", LIMIT_WITHIN, 40000, 60000);
        struct exercise *squat = bench_squat(&bench);
        bench_sets_on(&bench, squat, 7, 20);
        bench_sets_on(&bench, squat, rows[i].day, 2);
        bench_sets_on(&bench, squat, 27, 2);
        plan_check(bench.plan);
        const struct finding *finding = plan_finding(bench.plan, "taper-volume");
        assert_non_null(finding);
        static const char *const notes[] = {"its last seven days alone are 90 % below the peak week",
                                            "its last seven days alone are 80 % below the peak week"};
        for (size_t n = 0; n < 2; n++)
            assert_int_equal(is_noted(finding, notes[n]), rows[i].note && strcmp(rows[i].note, notes[n]) == 0);
        plan_free(bench.plan);
    }
}

/* The load is compared only if every session of the phase and of the camp's weeks before it has an effort. */
static void load_without_an_effort(void **state)
{
    (void)state;
    static const struct {
        int begins, bout, taper, day; /* DAY has an hour without an effort; -1: no day */
        bool judged;
    } rows[] = {
        {0, -1, 21, -1, true},  {0, -1, 21, 0, false},  {0, -1, 21, 20, false}, {0, -1, 21, 21, false},
        {0, -1, 21, 27, false}, {0, -1, 21, 28, true},  {6, -1, 21, 6, false},  {0, 6, 21, 6, true},
        {0, -1, 20, 15, true},  {0, -1, 20, 20, false},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct bench bench = bench_taper(rows[i].taper, 27);
        struct limit *limit = bench_phase_limit(&bench, "volume", LIMIT_WITHIN, 40000, 60000);
        bench.camp->first = bench.monday + rows[i].begins;
        bench.camp->last += 7;
        bench.camp->weeks++;
        if (rows[i].bout >= 0) {
            plan_bout(bench.plan, bench.camp, bench.monday + rows[i].bout);
            plan_bout(bench.plan, bench.camp, bench.monday + 34);
        }
        struct activity *drill = plan_activity(bench.plan, "technique");
        static const int days[] = {8, 16, 26};
        for (size_t d = 0; d < 3; d++) {
            struct occasion *occasion = plan_do(bench.plan, bench.camp, bench.athlete, drill, bench.monday + days[d]);
            occasion->seconds = 3600;
            occasion->rpe = (struct range){5000, 5000};
        }
        if (rows[i].day >= 0)
            plan_do(bench.plan, bench.camp, bench.athlete, drill, bench.monday + rows[i].day)->seconds = 3600;
        plan_check(bench.plan);
        assert_int_equal(plan_left(bench.plan, limit, COUNTED_SESSION_LOAD) != NONE, rows[i].judged);
        assert_int_equal(plan_found(bench.plan, "taper-volume"), rows[i].judged);
        plan_free(bench.plan);
    }
}

/* What tells of the body is for the coach alone. */
static void the_body_stays_private(void **state)
{
    (void)state;
    for (int body = 0; body < 2; body++) {
        struct bench bench = bench_taper(BEFORE, 27);
        bench_phase_limit(&bench, body ? "tonnage with body mass" : "tonnage", LIMIT_AT_LEAST, 40000, 0)->below_peak = true;
        struct exercise *squat = bench_squat(&bench);
        plan_kilograms(bench_sets(&bench, bench_place(&bench, 7), squat, 1, 1, UNIT_REPS), 100);
        plan_kilograms(bench_sets(&bench, bench_place(&bench, 21), squat, 1, 1, UNIT_REPS), 90);
        plan_check(bench.plan);
        assert_int_equal(plan_found(bench.plan, "taper-volume"), 1);
        assert_int_equal(plan_finding(bench.plan, "taper-volume")->private, body);
        assert_int_equal(plan_finding(bench.plan, "taper-volume")->severity, SEVERITY_WARNING);
        plan_free(bench.plan);
    }
}

/* Each count can be named; a limit of every phase asks for no cut. */
static void named_counts_of_a_phase(void **state)
{
    (void)state;
    static const char *const counted[] = {"volume", "sets"};
    for (size_t i = 0; i < 2; i++)
        for (int named = 0; named < 2; named++) {
            struct bench bench = bench_taper(BEFORE, 27);
            struct limit *limit = bench_phase_limit(&bench, counted[i], LIMIT_AT_LEAST, 40000, 0);
            limit->below_peak = true;
            limit->phase = named ? "taper" : NULL;
            struct exercise *squat = bench_squat(&bench);
            bench_sets_on(&bench, squat, 7, 20);
            bench_sets_on(&bench, squat, 21, 20);
            bench_expect(&bench, "taper-volume", (size_t)named);
        }
}

/* A cut is given to tenths, and to as many places as distinguish it from the limit that it breaks. */
static void a_cut_in_words(void **state)
{
    (void)state;
    static const struct {
        double kilograms; /* after 1000 */
        const char *words;
    } rows[] = {{399.6, "60.04 % below"},  {343.22, "65.6 % below"}, {600.4, "39.9 % below"},
                {1400.4, "40.04 % above"}, {1600.4, "60 % above"},   {1045.67, "4.5 % above"}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct bench bench = bench_taper(BEFORE, 27);
        bench_phase_limit(&bench, "tonnage", LIMIT_WITHIN, 40000, 60000)->below_peak = true;
        struct exercise *squat = bench_squat(&bench);
        plan_kilograms(bench_sets(&bench, bench_place(&bench, 7), squat, 1, 1, UNIT_REPS), 1000);
        plan_kilograms(bench_sets(&bench, bench_place(&bench, 21), squat, 1, 1, UNIT_REPS), rows[i].kilograms);
        plan_check(bench.plan);
        assert_non_null(strstr(plan_finding(bench.plan, "taper-volume")->words, rows[i].words));
        plan_free(bench.plan);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_is_left_of_a_cut),    cmocka_unit_test(a_cut_that_misses_by_a_hair),
        cmocka_unit_test(a_waiver_up_to_a_cut),     cmocka_unit_test(which_weeks_have_a_peak),
        cmocka_unit_test(a_taper_after_nothing),    cmocka_unit_test(the_last_seven_days),
        cmocka_unit_test(load_without_an_effort),   cmocka_unit_test(the_body_stays_private),
        cmocka_unit_test(named_counts_of_a_phase),  cmocka_unit_test(a_cut_in_words),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
