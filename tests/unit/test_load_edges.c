/* The rise of a week's load, a session's own time, and limits that loosen, on both sides of each border. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "measure/time.h"
#include "unit/plan_builder.c"

static bool is_noted(const struct finding *finding, const char *words)
{
    for (size_t i = 0; i < finding->note_count; i++)
        if (strcmp(finding->notes[i].words, words) == 0)
            return true;
    return false;
}

/* Weeks of so much load, RPE 1 for as many minutes. */
static struct bench bench_of_loads(const int *loads, int weeks)
{
    struct bench bench = bench_new();
    bench.camp->weeks = weeks;
    bench.camp->last = bench.camp->first + 7 * weeks - 1;
    for (int week = 0; week < weeks; week++) {
        struct occasion *occasion = bench_place(&bench, 7 * week);
        occasion->rpe = (struct range){1000, 1000};
        occasion->seconds = loads[week] * 60;
    }
    return bench;
}

static void what_is_left_of_a_rise(void **state)
{
    (void)state;
    static const struct {
        int loads[8], weeks;
        milli left;
        const char *words; /* of what is found, or NULL */
    } rows[] = {
        {{100, 115}, 2, 0, NULL},
        {{100, 110}, 2, 5000, NULL},
        {{100, 116}, 2, -1000, "a session load of 116 in week 2 of Harbour final (from 2027-03-08), 16 % over the highest of the last four weeks; at most 15 %"},
        {{300, 344}, 2, 333, NULL},
        {{300, 346}, 2, -334, "15.3 % over the highest of the last four weeks; at most 15 %"},
        {{100, 100, 100, 100, 115}, 5, 0, NULL},
        {{200, 210, 220, 230, 260, 270}, 6, 1956, NULL},
        {{120, 100, 100, 100, 130}, 5, 6666, NULL},
        {{120, 100, 100, 100, 100, 120}, 6, -5000, "20 % over the highest of the last four weeks"},
        {{100, 120, 100, 100, 100, 120}, 6, -5000, "20 % over the highest of the last four weeks"},
        {{100, 100, 100, 100, 100, 100, 116, 100}, 8, -1000, "16 % over the highest of the last four weeks"},
        {{100, 250}, 2, -135000, "150 % over the highest of the last four weeks"},
        {{0, 100}, 2, PLAN_NOTHING_LEFT, NULL},
        {{100}, 1, PLAN_NOTHING_LEFT, NULL},
        {{100, 0}, 2, 115000, NULL},
        {{1, 1001}, 2, -99985000, "100000 % over the highest of the last four weeks"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct bench bench = bench_of_loads(rows[i].loads, rows[i].weeks);
        struct limit *limit = plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "load rise", LIMIT_AT_MOST, 15000);
        plan_check(bench.plan);
        const struct finding *finding = plan_finding(bench.plan, "load-rise");
        assert_int_equal(finding != NULL, rows[i].words != NULL);
        if (finding)
            assert_non_null(strstr(finding->words, rows[i].words));
        assert_int_equal(plan_left(bench.plan, limit, COUNTED_LOAD_RISE), rows[i].left);
        plan_free(bench.plan);
    }
}

/* The least that there is too much: a load of 133.337 after one of 100.003 is a ten-thousandth of a thousandth over. */
static void a_rise_by_a_hair(void **state)
{
    (void)state;
    for (int limited = 33333; limited <= 33334; limited++) {
        struct bench bench = bench_new();
        struct limit *limit = plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "load rise", LIMIT_AT_MOST, limited);
        static const int seconds[] = {100003, 133337};
        for (int week = 0; week < 2; week++) {
            struct occasion *occasion = bench_place(&bench, 7 * week);
            occasion->rpe = (struct range){60, 60};
            occasion->seconds = seconds[week];
        }
        plan_check(bench.plan);
        assert_int_equal(plan_left(bench.plan, limit, COUNTED_LOAD_RISE), limited == 33333 ? -1 : 0);
        bench_expect(&bench, "load-rise", limited == 33333 ? 1 : 0);
    }
}

/* What is said of a rise: from what, by which lines, and how long nobody gave an effort for, in minutes begun. */
static void what_is_said_of_a_rise(void **state)
{
    (void)state;
    static const struct {
        int seconds;
        const char *remark;
    } rows[] = {{0, NULL},
                {1, "and 1 min without an effort for the whole session"},
                {60, "and 1 min without an effort for the whole session"},
                {61, "and 2 min without an effort for the whole session"},
                {3600, "and 60 min without an effort for the whole session"}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        for (int waived = 0; waived < 2; waived++) {
            static const int loads[] = {100, 200};
            struct bench bench = bench_of_loads(loads, 2);
            plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "load rise", LIMIT_AT_MOST, 15000);
            plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "load rise", LIMIT_AT_LEAST, 5000);
            plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "sets", LIMIT_AT_MOST, 99000);
            if (rows[i].seconds)
                bench_place(&bench, 9)->seconds = rows[i].seconds;
            if (waived)
                bench_waive(&bench, "load-rise");
            plan_check(bench.plan);
            assert_int_equal(plan_found(bench.plan, "load-rise"), waived ? 0 : 1);
            if (!waived) {
                const struct finding *finding = plan_finding(bench.plan, "load-rise");
                assert_true(is_noted(finding, "the highest of the last four weeks is 100"));
                assert_true(is_noted(finding, "the limit is set here: common practice, no source"));
                assert_true(!rows[i].remark || is_noted(finding, rows[i].remark));
                bool any = false;
                for (size_t k = 0; k < finding->note_count; k++)
                    any |= strstr(finding->notes[k].words, "without an effort") != NULL;
                assert_int_equal(any, rows[i].remark != NULL);
            }
            plan_free(bench.plan);
        }
}

/* Five per cent are let pass; beyond, the longest day is reported. */
static void a_session_keeps_its_time(void **state)
{
    (void)state;
    static const struct {
        int under, seconds[2];
        const char *words;
    } rows[] = {
        {3600, {3780, 3780}, NULL},
        {3600, {3781, 3600}, "Hips before hands takes 63 min 1 s on 2027-03-01, and should stay under 60 min"},
        {3600, {3900, 4200}, "Hips before hands takes 70 min on 2027-03-08, and should stay under 60 min"},
        {3600, {4200, 3900}, "Hips before hands takes 70 min on 2027-03-01, and should stay under 60 min"},
        {0, {9000, 9000}, NULL},
        {1, {9000, 60}, "Hips before hands takes 150 min on 2027-03-01, and should stay under 1 s"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        for (int waived = 0; waived < 2; waived++) {
            struct bench bench = bench_new();
            bench.session->under = rows[i].under;
            for (int week = 0; week < 2; week++)
                bench_place(&bench, 7 * week)->seconds = rows[i].seconds[week];
            if (waived)
                bench_waive(&bench, "session-too-long");
            plan_check(bench.plan);
            const struct finding *finding = plan_finding(bench.plan, "session-too-long");
            assert_int_equal(finding != NULL, !waived && rows[i].words);
            if (finding) {
                assert_string_equal(finding->words, rows[i].words);
                assert_null(finding->help);
            }
            plan_free(bench.plan);
        }
}

/* What a waiver's figure goes up to: the rise in per cent, the session in minutes. */
static void figures_that_are_waived(void **state)
{
    (void)state;
    static const struct {
        int loads[2], seconds;
        const char *check;
        milli figure;
    } rows[] = {
        {{100, 250}, 60, "load-rise", 150000},
        {{300, 346}, 60, "load-rise", 15333},
        {{100, 100}, 3781, "session-too-long", 63016},
        {{100, 100}, 7200, "session-too-long", 120000},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        for (int less = 0; less < 2; less++) {
            struct bench bench = bench_of_loads(rows[i].loads, 2);
            plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "load rise", LIMIT_AT_MOST, 15000);
            struct session *own = plan_session(bench.plan, "own");
            own->under = 3600;
            plan_place(bench.plan, bench.camp, bench.athlete, own, bench.monday + 14)->seconds = rows[i].seconds;
            struct waiver *waiver = bench_waive(&bench, rows[i].check);
            waiver->capped = true;
            waiver->cap = rows[i].figure - less;
            bench_expect(&bench, rows[i].check, (size_t)less);
        }
}

/* What a log says is history: no edit is proposed. */
static void nothing_is_proposed_for_what_was_done(void **state)
{
    (void)state;
    for (int logged = 0; logged < 2; logged++) {
        struct bench bench = bench_new();
        plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "load rise", LIMIT_AT_MOST, 15000);
        for (int week = 0; week < 2; week++) {
            struct occasion *run = plan_do(bench.plan, bench.camp, bench.athlete, plan_activity(bench.plan, "roadwork"),
                                           bench.monday + 7 * week);
            run->seconds = (week ? 70 : 60) * 60;
            run->rpe = (struct range){5000, 5000};
            if (logged) {
                run->outcome.logged = run->outcome.timed = true;
                run->outcome.seconds = run->seconds;
                run->outcome.rpe = run->rpe;
            }
        }
        plan_check(bench.plan);
        const struct finding *finding = plan_finding(bench.plan, "load-rise");
        assert_non_null(finding);
        assert_int_equal(finding->help != NULL, !logged);
        plan_free(bench.plan);
    }
}

/* The edit that is proposed brings a session to its time, to the second: one set fewer if that is enough, else two. */
static void what_is_proposed_keeps_the_time(void **state)
{
    (void)state;
    for (int less = 0; less < 2; less++) {
        struct bench bench = bench_new();
        struct exercise *squat = bench_squat(&bench);
        int seconds[2];
        for (int fewer = 1; fewer >= 0; fewer--) {
            struct occasion *occasion = bench_place(&bench, 7 * fewer);
            struct block *block = plan_block(bench.plan, occasion, BLOCK_STRAIGHT, 8 - fewer);
            block->rest_low = block->rest_high = 300;
            plan_sets(bench.plan, plan_item(bench.plan, block, squat), 8 - fewer, 5, UNIT_REPS);
            seconds[fewer] = time_session((struct block *)occasion->blocks, 1, bench.athlete, NULL, occasion->date, &time_usual);
            occasion->seconds = seconds[fewer];
        }
        assert_true(seconds[1] > 1100 && (int64_t)seconds[0] * 20 > (int64_t)seconds[1] * 21);
        bench.session->under = seconds[1] - less;
        plan_check(bench.plan);
        const struct finding *finding = plan_finding(bench.plan, "session-too-long");
        assert_non_null(finding);
        assert_non_null(strstr(finding->help, less ? "two sets fewer of A.1 back squat" : "one set fewer of A.1 back squat"));
        plan_free(bench.plan);
    }
}

/* Five minutes less are proposed where just the limit is left, and ten where it is past by a second of effort. */
static void what_is_proposed_keeps_the_rise(void **state)
{
    (void)state;
    for (int past = 0; past < 2; past++) {
        struct bench bench = bench_new();
        struct activity *roadwork = plan_activity(bench.plan, "roadwork");
        plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "load rise", LIMIT_AT_MOST, 10000000);
        for (int week = 0; week < 2; week++) {
            struct occasion *run = plan_do(bench.plan, bench.camp, bench.athlete, roadwork, bench.monday + 7 * week);
            run->rpe = (struct range){5000, 5000};
            run->seconds = (week ? 6065 : 60) * 60;
        }
        struct occasion *second = bench_place(&bench, 8);
        second->rpe = (struct range){10000, 10000};
        second->seconds = past;
        plan_check(bench.plan);
        const struct finding *finding = plan_finding(bench.plan, "load-rise");
        assert_non_null(finding);
        assert_int_equal(strncmp(finding->help, past ? "10 min less" : "5 min less", 10), 0);
        plan_free(bench.plan);
    }
}

/* --- limits that loosen --- */

struct pair_of_limits {
    enum limit_bound bound;
    milli near[2], far[2]; /* value and top */
    enum force near_force, far_force;
    const char *words; /* behind the set's name; NULL: nothing is found */
};

static void which_limit_is_looser(void **state)
{
    (void)state;
    static const struct pair_of_limits rows[] = {
        {LIMIT_AT_MOST, {9000}, {9000}, FORCE_WARN, FORCE_WARN, NULL},
        {LIMIT_AT_MOST, {8000}, {9000}, FORCE_WARN, FORCE_WARN, NULL},
        {LIMIT_AT_MOST, {10000}, {9000}, FORCE_WARN, FORCE_WARN, "sets sets at 10; house defaults has 9"},
        {LIMIT_AT_LEAST, {9000}, {9000}, FORCE_WARN, FORCE_WARN, NULL},
        {LIMIT_AT_LEAST, {10000}, {9000}, FORCE_WARN, FORCE_WARN, NULL},
        {LIMIT_AT_LEAST, {8000}, {9000}, FORCE_WARN, FORCE_WARN, "sets sets at 8; house defaults has 9"},
        {LIMIT_WITHIN, {8000, 12000}, {8000, 12000}, FORCE_WARN, FORCE_WARN, NULL},
        {LIMIT_WITHIN, {9000, 11000}, {8000, 12000}, FORCE_WARN, FORCE_WARN, NULL},
        {LIMIT_WITHIN, {7000, 12000}, {8000, 12000}, FORCE_WARN, FORCE_WARN, "sets sets at 7; house defaults has 8"},
        {LIMIT_WITHIN, {8000, 13000}, {8000, 12000}, FORCE_WARN, FORCE_WARN, "sets sets at 8; house defaults has 8"},
        {LIMIT_AT_MOST, {9000}, {9000}, FORCE_INFO, FORCE_WARN, "sets sets at 9, info; house defaults has 9, warn"},
        {LIMIT_AT_MOST, {9000}, {9000}, FORCE_WARN, FORCE_INFO, NULL},
        {LIMIT_AT_MOST, {8000}, {9000}, FORCE_INFO, FORCE_WARN, "sets sets at 8, info; house defaults has 9, warn"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        for (int based = 0; based < 3; based++) { /* on nothing, on the other set, on one that is */
            struct bench bench = bench_new();
            struct limits *house = plan_limits(bench.plan, based ? NULL : bench.camp, "house defaults");
            struct limits *between = based == 2 ? plan_limits(bench.plan, NULL, "between") : house;
            if (based == 2)
                between->base = house;
            if (based)
                bench.limits->base = between;
            struct limit *far = plan_limit(bench.plan, house, LIMIT_WEEK, "sets", rows[i].bound, rows[i].far[0]);
            struct limit *near = plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "sets", rows[i].bound, rows[i].near[0]);
            far->top = rows[i].far[1];
            near->top = rows[i].near[1];
            far->force = rows[i].far_force;
            near->force = rows[i].near_force;
            plan_check(bench.plan);
            const struct finding *finding = plan_finding(bench.plan, "limit-loosened");
            assert_int_equal(finding != NULL, based && rows[i].words);
            if (finding) {
                assert_non_null(strstr(finding->words, rows[i].words));
                assert_int_equal(finding->span.start, near->span.start);
                assert_true(is_noted(finding, "the limit is set here: common practice, no source"));
            }
            plan_free(bench.plan);
        }
}

/* Limits for others, for another phase or for other days of the camp are not compared. */
static void only_limits_of_the_same_are_compared(void **state)
{
    (void)state;
    enum { SAME, LEVEL, ATHLETE, AGE, PHASE, ITS_PHASE, DAYS, FEWER_DAYS, BOUT, COUNT, BASE, ALL };
    for (int other = SAME; other < ALL; other++) {
        struct bench bench = bench_new();
        struct limits *house = plan_limits(bench.plan, other == BASE ? bench.camp : NULL, "house defaults");
        struct limits *nothing = plan_limits(bench.plan, NULL, "nothing");
        bench.limits->base = other == BASE ? nothing : house;
        struct limit *far = plan_limit(bench.plan, house, LIMIT_WEEK, "sets", LIMIT_AT_MOST, 9000);
        struct limit *near = plan_limit(bench.plan, bench.limits, LIMIT_WEEK, other == COUNT ? "pull sets" : "sets",
                                        LIMIT_AT_MOST, 10000);
        near->level = other == LEVEL ? LEVEL_NOVICE : -1;
        near->athlete = other == ATHLETE ? bench.athlete : NULL;
        near->under_age = other == AGE ? 18 : 0;
        near->phase = other == PHASE ? "taper" : NULL;
        far->phase = other == ITS_PHASE ? "taper" : NULL;
        if (other == DAYS || other == FEWER_DAYS || other == BOUT) {
            near->stretch = STRETCH_FIRST;
            near->stretch_days = far->stretch_days = 7;
        }
        if (other == FEWER_DAYS || other == BOUT) {
            far->stretch = other == BOUT ? STRETCH_BEFORE_BOUT : STRETCH_FIRST;
            far->stretch_days = other == BOUT ? 7 : 14;
        }
        plan_check(bench.plan);
        assert_int_equal(plan_found(bench.plan, "limit-loosened"), other == SAME ? 1 : 0);
        plan_free(bench.plan);
    }
}

/* --- limits that never hold --- */

/* Of headings that are no phase of any camp each is reported once; a phase that a camp left out is one. */
static void headings_that_are_no_phase(void **state)
{
    (void)state;
    static const struct {
        const char *first, *second; /* NULL: for all phases */
        bool one_heading, shelf;
        size_t found;
    } rows[] = {
        {"peak", NULL, false, false, 1},      {"peak", "peek", false, false, 2}, {"peak", "peak", true, false, 1},
        {"base", "taper", false, false, 0},   {"base", "peak", false, false, 1}, {"left", NULL, false, false, 0},
        {"also left", NULL, false, false, 0}, {NULL, NULL, false, false, 0},     {"peak", "peek", false, true, 0},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct bench bench = bench_taper(14, 27);
        struct name left[] = {{.shown = "Also left", .folded = "also left"}, {.shown = "Left", .folded = "left"}};
        bench.camp->left_phases = left;
        bench.camp->left_phase_count = 2;
        struct limit *first = plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "sets", LIMIT_AT_MOST, 9000);
        struct limit *second = plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "lifts", LIMIT_AT_MOST, 9000);
        first->phase = rows[i].first;
        first->heading = first->span;
        second->phase = rows[i].second;
        second->heading = rows[i].one_heading ? first->span : second->span;
        bench_place(&bench, 0);
        plan_check(bench.plan);
        if (rows[i].shelf) { /* the limits that come with the program name phases that a camp need not have */
            bench.plan->sources.items[0].shelf = true;
            bench.plan->diag = diag_new(bench.plan->arena, &bench.plan->sources);
            rules_run(&bench.plan->programme, bench.plan->diag);
        }
        assert_int_equal(plan_found(bench.plan, "limit-never-holds"), rows[i].found);
        plan_free(bench.plan);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_is_left_of_a_rise),
        cmocka_unit_test(a_rise_by_a_hair),
        cmocka_unit_test(what_is_said_of_a_rise),
        cmocka_unit_test(a_session_keeps_its_time),
        cmocka_unit_test(what_is_proposed_keeps_the_time),
        cmocka_unit_test(what_is_proposed_keeps_the_rise),
        cmocka_unit_test(which_limit_is_looser),
        cmocka_unit_test(figures_that_are_waived),
        cmocka_unit_test(nothing_is_proposed_for_what_was_done),
        cmocka_unit_test(only_limits_of_the_same_are_compared),
        cmocka_unit_test(headings_that_are_no_phase),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
