/* Which edit is proposed where a plan is over its limit, on both sides of each border: of two the one that takes from what
 * matters least, then the smaller, then the one that leaves more; and what is never touched. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "measure/time.h"
#include "rules/margin.h"
#include "rules/rules.h"
#include "unit/plan_builder.c"

/* Checks, expects that the help of NAME begins with WORDS (NULL: there is none), and ends the bench. */
static void expect_help(struct bench *bench, const char *name, const char *words)
{
    plan_check(bench->plan);
    const struct finding *finding = plan_finding(bench->plan, name);
    assert_non_null(finding);
    if (!words)
        assert_null(finding->help);
    else if (!finding->help || strncmp(finding->help, words, strlen(words)) != 0)
        assert_string_equal(finding->help ? finding->help : "none", words);
    plan_free(bench->plan);
}

static struct limit *limit_sets(struct bench *bench, enum limit_scope scope, const char *counted, enum limit_bound bound, int sets)
{
    return plan_limit(bench->plan, bench->limits, scope, counted, bound, sets * 1000);
}

/* --- which of two --- */

static void what_matters_least_goes_first(void **state)
{
    (void)state;
    enum { UNSAID = 0 };
    static const struct {
        int squat, press; /* `keep`, of a squat of 8 and a press of 5 */
        const char *words;
    } rows[] = {
        {UNSAID, UNSAID, "one set fewer of B.1 bench press"}, {2, UNSAID, "one set fewer of B.1 bench press"},
        {UNSAID, 1, "one set fewer of A.1 back squat"},       {1, UNSAID, "one set fewer of B.1 bench press"},
        {3, UNSAID, "one set fewer of A.1 back squat"},       {UNSAID, 3, "one set fewer of B.1 bench press"},
        {UNSAID, 2, "one set fewer of B.1 bench press"},      {3, 3, "one set fewer of B.1 bench press"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct bench bench = bench_new();
        limit_sets(&bench, LIMIT_SESSION, "lifts", LIMIT_AT_MOST, 22);
        struct occasion *occasion = bench_place(&bench, 0);
        plan_percent(bench_sets(&bench, occasion, bench_squat(&bench), 2, 8, UNIT_REPS), 75);
        plan_percent(bench_sets(&bench, occasion, bench_press(&bench), 2, 5, UNIT_REPS), 75);
        ((struct block *)occasion->blocks)[0].keep = rows[i].squat;
        ((struct block *)occasion->blocks)[1].keep = rows[i].press;
        expect_help(&bench, "lifts-over", rows[i].words);
    }
}

/* Of a press of 2 first and a squat of 8, and the other way round: fewer sets go before more, whichever comes first; and of
 * two that take one set each the one that leaves more. */
static void the_smaller_edit_goes_first(void **state)
{
    (void)state;
    static const struct {
        int squat, press, most;
        const char *words;
    } rows[] = {{8, 3, 47, "one set fewer of %s back squat"}, {8, 5, 60, "one set fewer of %s bench press"}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        for (int order = 0; order < 2; order++) {
            struct bench bench = bench_new();
            limit_sets(&bench, LIMIT_SESSION, "lifts", LIMIT_AT_MOST, rows[i].most);
            struct exercise *squat = bench_squat(&bench), *press = bench_press(&bench);
            struct occasion *occasion = bench_place(&bench, 0);
            for (int k = 0; k < 2; k++)
                plan_percent(bench_sets(&bench, occasion, k == order ? squat : press, 5, k == order ? rows[i].squat : rows[i].press,
                                        UNIT_REPS), 75);
            const char *ref = (i == 0) == (order == 0) ? "A.1" : "B.1";
            expect_help(&bench, "lifts-over", arena_printf(bench.plan->arena, rows[i].words, ref));
        }
}

/* Sets go from the end of a line, so that of 5, 4 and 3 repetitions the 5 stay. */
static void the_last_sets_go(void **state)
{
    (void)state;
    static const struct {
        int most;
        const char *words;
    } rows[] = {{11, "one set fewer of A.1 back squat on Monday 2027-03-01 brings it to 9"},
                {8, "two sets fewer of A.1 back squat on Monday 2027-03-01 bring it to 5"},
                {4, NULL}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct bench bench = bench_new();
        limit_sets(&bench, LIMIT_SESSION, "lifts", LIMIT_AT_MOST, rows[i].most);
        struct item *item = plan_item(bench.plan, plan_block(bench.plan, bench_place(&bench, 0), BLOCK_STRAIGHT, 3), bench_squat(&bench));
        for (int reps = 5; reps >= 3; reps--)
            plan_percent(plan_sets(bench.plan, item, 1, reps, UNIT_REPS), 75);
        expect_help(&bench, "lifts-over", rows[i].words);
    }
}

/* --- what is not touched --- */

/* An edit breaks no floor that was met, nor makes one worse that was not; a proportion is not made worse either. What it does
 * not change is no reason against it. */
static void floors_stay_as_they_are(void **state)
{
    (void)state;
    enum { NONE, UNMET_ELSEWHERE, UNMET_HERE, RATIO, MEASURED, ALL };
    static const char *const words[] = {"one set fewer of A.1 back squat", "one set fewer of A.1 bench press",
                                        "one set fewer of A.1 bench press", NULL, "one set fewer of A.1 back squat"};
    for (int floor = NONE; floor < ALL; floor++) {
        struct bench bench = bench_new();
        limit_sets(&bench, LIMIT_WEEK, "sets", LIMIT_AT_MOST, 16);
        bench_sets(&bench, bench_place(&bench, 0), bench_squat(&bench), 12, 5, UNIT_REPS);
        bench_sets(&bench, bench_place(&bench, 3), bench_press(&bench), 5, 5, UNIT_REPS);
        if (floor == UNMET_ELSEWHERE)
            limit_sets(&bench, LIMIT_WEEK, "squat sets", LIMIT_AT_LEAST, 12);
        if (floor == UNMET_HERE)
            limit_sets(&bench, LIMIT_WEEK, "squat sets", LIMIT_AT_LEAST, 99);
        if (floor == RATIO) {
            limit_sets(&bench, LIMIT_WEEK, "squat sets", LIMIT_AT_LEAST, 12);
            plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "push sets", LIMIT_AT_LEAST, 100)->against = "squat sets";
        }
        if (floor == MEASURED)
            limit_sets(&bench, LIMIT_WEEK, "monotony", LIMIT_AT_LEAST, 99);
        expect_help(&bench, "sets-over", words[floor]);
    }
}

/* What is measured is no sum: nothing of a tally is compared with it. */
static void what_is_measured_is_no_floor(void **state)
{
    (void)state;
    struct bench bench = bench_new();
    limit_sets(&bench, LIMIT_WEEK, "strikes", LIMIT_AT_MOST, 50);
    limit_sets(&bench, LIMIT_WEEK, "load rise", LIMIT_AT_LEAST, 99);
    limit_sets(&bench, LIMIT_WEEK, "intensity", LIMIT_AT_LEAST, 99);
    struct exercise *jab = plan_exercise(bench.plan, "jab", EXERCISE_SKILL, PATTERN_STRIKE);
    jab->workers = WORKER_HAND;
    struct occasion *occasion = bench_place(&bench, 0);
    plan_part(bench_sets(&bench, occasion, jab, 3, 10, UNIT_STRIKES), 0)->side = DOSE_LEFT;
    plan_part(bench_sets(&bench, occasion, jab, 3, 10, UNIT_STRIKES), 0)->side = DOSE_RIGHT;
    expect_help(&bench, "strikes-over", "one set fewer of A.1 jab");
}

/* The floor of the week in which the session lies, and not of the next. */
static void the_week_of_a_session(void **state)
{
    (void)state;
    for (int least = 4; least <= 5; least++) {
        struct bench bench = bench_new();
        limit_sets(&bench, LIMIT_SESSION, "sets", LIMIT_AT_MOST, 4);
        limit_sets(&bench, LIMIT_WEEK, "sets", LIMIT_AT_LEAST, least);
        for (int week = 0; week < 4; week++)
            if (week != 1)
                bench_sets(&bench, bench_place(&bench, 7 * week), bench_squat(&bench), 4, 5, UNIT_REPS);
        bench_sets(&bench, bench_place(&bench, 12), bench_press(&bench), 5, 5, UNIT_REPS);
        expect_help(&bench, "sets-over", least == 4 ? "one set fewer of A.1 bench press" : NULL);
    }
}

/* A limit on each side is kept by what is left on that side. */
static void a_side_is_enough(void **state)
{
    (void)state;
    struct bench bench = bench_new();
    limit_sets(&bench, LIMIT_WEEK, "strikes", LIMIT_AT_MOST, 10)->a_side = true;
    struct exercise *jab = plan_exercise(bench.plan, "jab", EXERCISE_SKILL, PATTERN_STRIKE);
    jab->workers = WORKER_HAND;
    struct occasion *occasion = bench_place(&bench, 0);
    plan_part(bench_sets(&bench, occasion, jab, 2, 6, UNIT_STRIKES), 0)->side = DOSE_LEFT;
    plan_part(bench_sets(&bench, occasion, jab, 1, 9, UNIT_STRIKES), 0)->side = DOSE_RIGHT;
    expect_help(&bench, "strikes-over", "one set fewer of A.1 jab on Monday 2027-03-01 brings it to 6");
}

/* Rounds in which a neck works are not shortened, wherever in them; nor a line that loads a neck ever so little. */
static void rounds_with_care_stay(void **state)
{
    (void)state;
    for (int care = -1; care < 3; care++) {
        struct bench bench = bench_new();
        limit_sets(&bench, LIMIT_SESSION, "clock rounds", LIMIT_AT_MOST, 3);
        struct block *block = plan_block(bench.plan, bench_place(&bench, 0), BLOCK_ROUNDS, 4);
        struct exercise *swing = plan_exercise(bench.plan, "swing", EXERCISE_STRENGTH, PATTERN_HINGE);
        struct exercise *neck = plan_exercise(bench.plan, "nod", EXERCISE_STRENGTH, PATTERN_NECK);
        for (int i = 0; i < 3; i++)
            plan_sets(bench.plan, plan_item(bench.plan, block, i == care ? neck : swing), 4, 5, UNIT_REPS);
        expect_help(&bench, "rounds-over", care < 0 ? "one round fewer of block A" : NULL);
    }
    for (int load = 0; load < 2; load++) {
        struct bench bench = bench_new();
        limit_sets(&bench, LIMIT_SESSION, "sets", LIMIT_AT_MOST, 4);
        struct exercise *row = plan_exercise(bench.plan, "row", EXERCISE_STRENGTH, PATTERN_PULL);
        row->loads[REGION_NECK] = load;
        bench_sets(&bench, bench_place(&bench, 0), row, 5, 5, UNIT_REPS);
        expect_help(&bench, "sets-over", load ? NULL : "one set fewer of A.1 row");
    }
}

/* Rounds before or behind a line, be it one that is not touched, are shortened as a whole, and not the lines in them. */
static void lines_and_rounds(void **state)
{
    (void)state;
    for (int what = 0; what < 8; what++) {
        bool order = what & 1, of_sets = what & 2, care = what & 4;
        struct bench bench = bench_new();
        limit_sets(&bench, LIMIT_SESSION, of_sets ? "hinge sets" : "clock rounds", LIMIT_AT_MOST, 3);
        struct exercise *squat = care ? plan_exercise(bench.plan, "nod", EXERCISE_STRENGTH, PATTERN_NECK) : bench_squat(&bench);
        struct exercise *swing = plan_exercise(bench.plan, "swing", EXERCISE_STRENGTH, PATTERN_HINGE);
        struct occasion *occasion = bench_place(&bench, 0);
        for (int k = 0; k < 2; k++) {
            bool rounds = k != order;
            struct block *block = plan_block(bench.plan, occasion, rounds ? BLOCK_ROUNDS : BLOCK_STRAIGHT, rounds ? 4 : 3);
            plan_sets(bench.plan, plan_item(bench.plan, block, rounds ? swing : squat), rounds ? 4 : 3, 5, UNIT_REPS);
        }
        expect_help(&bench, of_sets ? "sets-over" : "rounds-over",
                    of_sets ? NULL : order ? "one round fewer of block A on" : "one round fewer of block B on");
    }
}

/* One round stays; and what rounds without a letter are called. */
static void the_last_round_stays(void **state)
{
    (void)state;
    static const struct {
        int rounds, most;
        bool letter, item;
        const char *words;
    } rows[] = {{2, 1, true, true, "one round fewer of block A on"},
                {1, 0, true, true, NULL},
                {2, 1, false, true, "one round fewer of swing on"},
                {2, 1, false, false, "one round fewer of the rounds on"}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct bench bench = bench_new();
        limit_sets(&bench, LIMIT_SESSION, "clock rounds", LIMIT_AT_MOST, rows[i].most);
        struct exercise *swing = plan_exercise(bench.plan, "swing", EXERCISE_STRENGTH, PATTERN_HINGE);
        struct block *block = plan_block(bench.plan, bench_place(&bench, 0), BLOCK_ROUNDS, rows[i].rounds);
        if (rows[i].item)
            plan_sets(bench.plan, plan_item(bench.plan, block, swing), rows[i].rounds, 5, UNIT_REPS);
        block->letter = rows[i].letter ? 'A' : 0;
        expect_help(&bench, "rounds-over", rows[i].words);
    }
}

/* --- activities --- */

/* Rounds take their share of the time with them, and one stays; minutes go by fives, and half of them stay. */
static void rounds_and_minutes(void **state)
{
    (void)state;
    static const struct {
        int rounds, seconds;
        const char *counted;
        milli most;
        const char *words;
    } rows[] = {
        {10, 1800, "time", 1620000, "one round fewer of sparring on Monday 2027-03-01 brings it to 27 min"},
        {10, 1800, "time", 1619000, "two rounds fewer of sparring on Monday 2027-03-01 bring it to 24 min"},
        {1, 1200, "time", 900000, NULL},
        {1, 180, "sparring rounds", 0, NULL},
        {2, 360, "sparring rounds", 1000, "one round fewer of sparring on Monday 2027-03-01 brings it to 1"},
        {0, 600, "time", 300000, "5 min less of sparring on Monday 2027-03-01 brings it to 5 min"},
        {0, 599, "time", 300000, NULL},
        {0, 1800, "time", 900000, "15 min less of sparring on Monday 2027-03-01 brings it to 15 min"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct bench bench = bench_new();
        plan_limit(bench.plan, bench.limits, LIMIT_WEEK, rows[i].counted, LIMIT_AT_MOST, rows[i].most);
        struct occasion *sparring = bench_spar(&bench, rows[i].rounds, 0);
        sparring->seconds = rows[i].seconds;
        expect_help(&bench, strcmp(rows[i].counted, "time") == 0 ? "time-over" : "sparring-over", rows[i].words);
    }
}

/* --- a block that may go --- */

/* Of three blocks the one that matters least is left out where time is short, and what stays is the others, whichever it is;
 * none where all matter, nor care, nor to save sets. */
static void a_block_is_left_out(void **state)
{
    (void)state;
    enum { TIME, SETS, CARE, ALL };
    for (int least = -1; least < 3; least++)
        for (int what = TIME; what < ALL; what++) {
            struct bench bench = bench_new();
            struct occasion *occasion = bench_place(&bench, 0);
            struct exercise *squat = bench_squat(&bench), *neck = plan_exercise(bench.plan, "nod", EXERCISE_STRENGTH, PATTERN_NECK);
            struct block left[3];
            int without = 0;
            for (int b = 0; b < 3; b++) {
                struct block *block = plan_block(bench.plan, occasion, BLOCK_STRAIGHT, 1);
                block->keep = b == least ? 3 : 1;
                plan_sets(bench.plan, plan_item(bench.plan, block, what == CARE ? neck : squat), 1, 20 * (b + 1), UNIT_REPS);
                if (b != (least < 0 ? 0 : least))
                    left[without++] = *block;
            }
            int time = time_session(left, 2, bench.athlete, NULL, occasion->date, &time_usual);
            occasion->seconds = time_session((struct block *)occasion->blocks, 3, bench.athlete, NULL, occasion->date, &time_usual);
            plan_limit(bench.plan, bench.limits, LIMIT_SESSION, what == SETS ? "sets" : "time", LIMIT_AT_MOST,
                       what == SETS ? 2000 : (milli)time * 1000);
            const char *words = arena_printf(bench.plan->arena, "leaving out block %c (`keep 3`) on Monday 2027-03-01 brings it to %s",
                                             'A' + least, counted_amount(bench.plan->arena, COUNTED_TIME, (milli)time * 1000));
            expect_help(&bench, what == SETS ? "sets-over" : "time-over", what == TIME && least >= 0 ? words : NULL);
        }
}

/* --- long stretches --- */

/* Of a stretch with more than 14 occasions the five largest lines are tried, of a shorter one all. */
static void how_many_are_tried(void **state)
{
    (void)state;
    static const struct {
        int occasions, larger; /* how many are larger than the only one that may be touched */
        bool found;
    } rows[] = {{14, 13, true}, {15, 14, false}, {15, 4, true}, {15, 5, false}, {20, 4, true}, {20, 5, false}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct bench bench = bench_new();
        struct exercise *neck = plan_exercise(bench.plan, "nod", EXERCISE_STRENGTH, PATTERN_NECK), *squat = bench_squat(&bench);
        int sets = 3;
        for (int k = 0; k < rows[i].occasions - 1; k++) {
            int count = k < rows[i].larger ? 4 : 1;
            bench_sets(&bench, bench_place(&bench, k), neck, count, 5, UNIT_REPS);
            sets += count;
        }
        bench_sets(&bench, bench_place(&bench, rows[i].occasions - 1), squat, 3, 5, UNIT_REPS);
        limit_sets(&bench, LIMIT_CAMP, "sets", LIMIT_AT_MOST, sets - 1);
        expect_help(&bench, "sets-over", rows[i].found ? "one set fewer of A.1 back squat" : NULL);
    }
}

/* --- what is left --- */

/* What is left is that of a week, a session, a phase or a whole camp; and only of what somebody limits. */
static void whose_margin_it_is(void **state)
{
    (void)state;
    static const enum limit_scope scopes[] = {LIMIT_WEEK, LIMIT_SESSION, LIMIT_PHASE, LIMIT_CAMP};
    for (size_t i = 0; i < sizeof scopes / sizeof *scopes; i++) {
        struct bench bench = bench_taper(14, 27);
        struct limit *limit = limit_sets(&bench, scopes[i], "sets", LIMIT_AT_MOST, 99);
        for (int week = 0; week < 4; week++)
            plan_percent(bench_sets(&bench, bench_place(&bench, 7 * week), bench_squat(&bench), 3, 5, UNIT_REPS), 85);
        plan_check(bench.plan);
        struct margins margins = {0};
        rules_measure(&bench.plan->programme, &margins);
        size_t count = scopes[i] == LIMIT_CAMP ? 1 : scopes[i] == LIMIT_PHASE ? 2 : 4;
        assert_int_equal(margins.count, count);
        for (size_t k = 0; k < margins.count; k++) {
            assert_ptr_equal(margins.items[k].limit, limit);
            assert_ptr_equal(margins.items[k].phase, scopes[i] == LIMIT_PHASE ? &bench.camp->phases[k] : NULL);
            assert_int_equal(margins.items[k].whole, scopes[i] == LIMIT_PHASE || scopes[i] == LIMIT_CAMP);
        }
        plan_free(bench.plan);
    }
}

/* --- checks by name --- */

static void checks_by_name(void **state)
{
    (void)state;
    size_t count = rule_count();
    assert_non_null(rule_at(count - 1));
    assert_null(rule_at(count));
    for (size_t i = 0; i < count; i++) {
        const char *name = diagnostic_name(rule_diagnostic(rule_at(i)));
        assert_string_equal(rule_nearest(name), name);
    }
    assert_string_equal(rule_nearest("sets-oxyz"), "sets-over"); /* three letters away */
    assert_null(rule_nearest("sets-wxyz"));
    assert_string_equal(rule_nearest("sess-over"), "sets-over"); /* and of two as near the first */
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_matters_least_goes_first),
        cmocka_unit_test(the_smaller_edit_goes_first),
        cmocka_unit_test(the_last_sets_go),
        cmocka_unit_test(floors_stay_as_they_are),
        cmocka_unit_test(what_is_measured_is_no_floor),
        cmocka_unit_test(the_week_of_a_session),
        cmocka_unit_test(a_side_is_enough),
        cmocka_unit_test(rounds_with_care_stay),
        cmocka_unit_test(lines_and_rounds),
        cmocka_unit_test(the_last_round_stays),
        cmocka_unit_test(rounds_and_minutes),
        cmocka_unit_test(a_block_is_left_out),
        cmocka_unit_test(how_many_are_tried),
        cmocka_unit_test(whose_margin_it_is),
        cmocka_unit_test(checks_by_name),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
