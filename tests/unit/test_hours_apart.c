/* Heavy days, sparring and bouts: how many hours lie between, on both sides of each border, and what is left. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "kg.h"
#include "unit/plan_builder.c"

enum { HOUR = 3600, MINUTE = 60, NONE = PLAN_NOTHING_LEFT };

static const char HEAVY[] = "hours between heavy days", LEGS[] = "hours from heavy legs to sparring",
                  NECK[] = "hours from neck work to sparring";

static struct limit *hours(struct bench *bench, const char *counted, int least)
{
    return plan_limit(bench->plan, bench->limits, LIMIT_WEEK, counted, LIMIT_AT_LEAST, (milli)least * 1000);
}

static enum counted counted_of(const char *check)
{
    return *check == 'h'   ? COUNTED_DAYS_BETWEEN_HEAVY
           : *check == 'l' ? COUNTED_LEGS_BEFORE_SPARRING
                           : COUNTED_NECK_BEFORE_SPARRING;
}

/* What is found of CHECK and what is left up to LIMIT; ends the bench. */
static void expect(struct bench *bench, const char *check, size_t found, const struct limit *limit, milli left)
{
    plan_check(bench->plan);
    if (plan_found(bench->plan, check) != found)
        print_error("%zu of %s expected:\n%s\n", found, check, plan_shown(bench->plan));
    assert_int_equal(plan_found(bench->plan, check), found);
    assert_int_equal(plan_left(bench->plan, limit, counted_of(check)), left);
    plan_free(bench->plan);
}

/* Three sets on DAY, at RPE 9 or at RPE 5; an hour's work. */
static struct occasion *lift(struct bench *bench, const struct exercise *exercise, int day, bool heavy)
{
    struct occasion *occasion = bench_place(bench, day);
    occasion->seconds = HOUR;
    struct set_run *run = bench_sets(bench, occasion, exercise, 3, 5, UNIT_REPS);
    plan_kilograms(run, 60);
    plan_effort(run, EFFORT_RPE, heavy ? 9 : 5);
    return occasion;
}

/* --- heavy days --- */

static void what_makes_two_heavy_days(void **state)
{
    (void)state;
    static const struct {
        enum exercise_kind first, second;
        enum pattern pattern;
        bool first_heavy, second_heavy;
        size_t found;
    } rows[] = {
        {EXERCISE_STRENGTH, EXERCISE_STRENGTH, PATTERN_HINGE, true, true, 1},
        {EXERCISE_STRENGTH, EXERCISE_STRENGTH, (enum pattern)(PATTERN_COUNT - 1), true, true, 1},
        {EXERCISE_STRENGTH, EXERCISE_STRENGTH, (enum pattern)0, true, true, 1},
        {EXERCISE_POWER, EXERCISE_STRENGTH, PATTERN_HINGE, true, true, 0},
        {EXERCISE_STRENGTH, EXERCISE_POWER, PATTERN_HINGE, true, true, 0},
        {EXERCISE_STRENGTH, EXERCISE_STRENGTH, PATTERN_HINGE, false, true, 0},
        {EXERCISE_STRENGTH, EXERCISE_STRENGTH, PATTERN_HINGE, true, false, 0},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct bench bench = bench_new();
        struct limit *limit = hours(&bench, HEAVY, 46);
        lift(&bench, plan_exercise(bench.plan, "first", rows[i].first, rows[i].pattern), 0, rows[i].first_heavy);
        lift(&bench, plan_exercise(bench.plan, "second", rows[i].second, rows[i].pattern), 1, rows[i].second_heavy);
        expect(&bench, "heavy-days-close", rows[i].found, limit, rows[i].found ? -22000 : NONE);
    }
}

/* However many hours a limit asks for, four days are looked back. */
static void four_days_are_looked_back(void **state)
{
    (void)state;
    for (int days = 3; days < 7; days++) {
        bool seen = days <= 4;
        milli left = seen ? days * 24000 - 200000 : NONE;
        struct bench bench = bench_new();
        struct limit *limit = hours(&bench, HEAVY, 200);
        struct exercise *squat = bench_squat(&bench);
        lift(&bench, squat, 0, true);
        lift(&bench, squat, days, true);
        expect(&bench, "heavy-days-close", seen, limit, left);

        bench = bench_new();
        limit = hours(&bench, LEGS, 200);
        lift(&bench, bench_squat(&bench), 0, true);
        bench_spar(&bench, 6, days);
        expect(&bench, "legs-before-sparring", seen, limit, left);

        bench = bench_new();
        limit = hours(&bench, LEGS, 200);
        plan_bout(bench.plan, bench.camp, bench.monday + days);
        lift(&bench, bench_squat(&bench), 0, true);
        expect(&bench, "legs-before-sparring", seen, limit, left);
    }
}

/* The same lines on more days: the shortest gap is reported, whether it comes first or last. */
static void the_shortest_gap_is_reported(void **state)
{
    (void)state;
    for (int shorter_first = 0; shorter_first < 2; shorter_first++) {
        struct bench bench = bench_new();
        hours(&bench, HEAVY, 60);
        struct exercise *squat = bench_squat(&bench);
        struct occasion *days[4] = {lift(&bench, squat, 0, true), lift(&bench, squat, shorter_first ? 1 : 2, true),
                                    lift(&bench, squat, 10, true), lift(&bench, squat, shorter_first ? 12 : 11, true)};
        for (int i = 1; i < 4; i++)
            ((struct item *)days[i]->blocks[0].items)->span = days[0]->blocks[0].items[0].span;
        bench_expect_words(
            &bench, "heavy-days-close", SEVERITY_WARNING,
            shorter_first ? "A.1 back squat is heavy on 2027-03-02, a day after the last heavy squat; at least 60 h"
                          : "A.1 back squat is heavy on 2027-03-12, a day after the last heavy squat; at least 60 h");

        bench = bench_new();
        hours(&bench, LEGS, 60);
        squat = bench_squat(&bench);
        struct occasion *first = lift(&bench, squat, 0, true), *second = lift(&bench, squat, 10, true);
        struct occasion *sparring = bench_spar(&bench, 6, shorter_first ? 1 : 2),
                        *again = bench_spar(&bench, 6, shorter_first ? 12 : 11);
        again->activity = sparring->activity;
        ((struct item *)second->blocks[0].items)->span = first->blocks[0].items[0].span;
        plan_check(bench.plan);
        assert_int_equal(plan_found(bench.plan, "legs-before-sparring"), 1);
        assert_non_null(strstr(plan_finding(bench.plan, "legs-before-sparring")->words,
                               "A.1 back squat is hard on the legs, a day before"));
        plan_free(bench.plan);
    }
}

/* --- before sparring --- */

static void what_tires_the_legs(void **state)
{
    (void)state;
    static const struct {
        enum exercise_kind kind;
        enum pattern pattern;
        bool heavy, slow, given, known;
        size_t found;
    } rows[] = {
        {EXERCISE_STRENGTH, PATTERN_SQUAT, true, false, false, false, 1},
        {EXERCISE_STRENGTH, PATTERN_HINGE, true, false, false, false, 1},
        {EXERCISE_STRENGTH, PATTERN_LUNGE, true, false, false, false, 1},
        {EXERCISE_STRENGTH, PATTERN_PUSH, true, true, true, false, 0},
        {EXERCISE_POWER, PATTERN_SQUAT, true, true, true, false, 0},
        {EXERCISE_STRENGTH, PATTERN_SQUAT, false, true, true, false, 1},
        {EXERCISE_STRENGTH, PATTERN_SQUAT, false, true, false, false, 0},
        {EXERCISE_STRENGTH, PATTERN_SQUAT, false, false, true, false, 0},
        {EXERCISE_STRENGTH, PATTERN_SQUAT, false, true, true, true, 0},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        for (int bout = 0; bout < 2; bout++) {
            struct bench bench = bench_new();
            struct limit *limit = hours(&bench, LEGS, 36);
            struct exercise *exercise = plan_exercise(bench.plan, "drill", rows[i].kind, rows[i].pattern);
            if (rows[i].known)
                lift(&bench, exercise, 0, false);
            struct item *item = (struct item *)lift(&bench, exercise, 12, rows[i].heavy)->blocks[0].items;
            ((struct set_run *)item->runs)->tempo =
                (struct item_tempo){.lower = rows[i].slow ? 4 : 3, .lift = 1, .given = rows[i].given};
            if (bout)
                plan_bout(bench.plan, bench.camp, bench.monday + 13);
            else
                bench_spar(&bench, 6, 13);
            expect(&bench, "legs-before-sparring", rows[i].found, limit, rows[i].found ? -12000 : NONE);
        }
}

static void what_is_hard_sparring(void **state)
{
    (void)state;
    for (milli rpe = 6999; rpe <= 7000; rpe++) {
        struct bench bench = bench_new();
        struct limit *limit = hours(&bench, LEGS, 36);
        lift(&bench, bench_squat(&bench), 0, true);
        bench_spar(&bench, 6, 1)->rpe = (struct range){rpe, rpe};
        expect(&bench, "legs-before-sparring", rpe == 7000, limit, rpe == 7000 ? -12000 : NONE);
    }
}

/* Hours left, with and without clock times; what ends 36 hours before is far enough. */
static void hours_left_before_sparring(void **state)
{
    (void)state;
    static const struct {
        int days, ends, begins; /* from the lift's day to the sparring's; seconds from midnight, -1: not given */
        size_t found;
        milli left;
        const char *words;
    } rows[] = {
        {1, 19 * HOUR, 7 * HOUR, 1, -24000, "hard on the legs, 12 h before"},
        {2, 19 * HOUR, 7 * HOUR, 0, 0, NULL},
        {2, 19 * HOUR, 7 * HOUR - MINUTE, 1, -17, "hard on the legs, 35.9 h before"},
        {2, 19 * HOUR, 8 * HOUR, 0, 1000, NULL},
        {0, 10 * HOUR, 10 * HOUR, 1, -36000, "hard on the legs, the same day before"},
        {0, 10 * HOUR, 10 * HOUR + 4, 1, -35999, "hard on the legs, 0 h before"},
        {0, 10 * HOUR, 13 * HOUR, 1, -33000, "hard on the legs, 3 h before"},
        {1, 24 * HOUR + 30 * MINUTE, 15 * MINUTE, 1, -36250, "hard on the legs, 0 h before"},
        {1, -1, -1, 1, -12000, "hard on the legs, a day before"},
        {0, -1, -1, 1, -36000, "hard on the legs, the same day as"},
        {2, -1, -1, 0, 12000, NULL},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct bench bench = bench_new();
        struct limit *limit = hours(&bench, LEGS, 36);
        lift(&bench, bench_squat(&bench), 0, true)->clock = rows[i].ends < 0 ? -1 : rows[i].ends - HOUR;
        bench_spar(&bench, 6, rows[i].days)->clock = rows[i].begins;
        plan_check(bench.plan);
        if (rows[i].words)
            assert_non_null(strstr(plan_finding(bench.plan, "legs-before-sparring")->words, rows[i].words));
        assert_int_equal(plan_found(bench.plan, "legs-before-sparring"), rows[i].found);
        assert_int_equal(plan_left(bench.plan, limit, COUNTED_LEGS_BEFORE_SPARRING), rows[i].left);
        plan_free(bench.plan);
    }
}

/* Sparring at midnight is before all else on its day; without an hour it may be behind it. */
static void sparring_without_an_hour(void **state)
{
    (void)state;
    static const struct {
        int sparring, lift;
        size_t found;
    } rows[] = {{0, 10 * HOUR, 0}, {-1, 10 * HOUR, 1}, {-1, -1, 1}, {10 * HOUR, -1, 1}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct bench bench = bench_new();
        struct limit *limit = hours(&bench, LEGS, 36);
        bench_spar(&bench, 6, 2)->clock = rows[i].sparring;
        lift(&bench, bench_squat(&bench), 2, true)->clock = rows[i].lift;
        expect(&bench, "legs-before-sparring", rows[i].found, limit, rows[i].found ? -36000 : NONE);
    }
}

static void what_is_neck_work(void **state)
{
    (void)state;
    static const struct {
        enum exercise_kind kind;
        enum pattern pattern;
        int clock; /* of the sparring; the work ends at 11:00 */
        size_t found;
        milli left;
    } rows[] = {
        {EXERCISE_HOLD, PATTERN_NECK, 12 * HOUR, 1, -1000},   {EXERCISE_STRENGTH, PATTERN_NECK, 12 * HOUR, 1, -1000},
        {EXERCISE_WARM_UP, PATTERN_NECK, 12 * HOUR, 0, NONE}, {EXERCISE_MOBILITY, PATTERN_NECK, 12 * HOUR, 0, NONE},
        {EXERCISE_HOLD, PATTERN_PUSH, 12 * HOUR, 0, NONE},    {EXERCISE_HOLD, PATTERN_NECK, 13 * HOUR, 0, 0},
        {EXERCISE_HOLD, PATTERN_NECK, 14 * HOUR, 0, 1000},    {EXERCISE_HOLD, PATTERN_NECK, -1, 0, NONE},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct bench bench = bench_new();
        struct limit *limit = hours(&bench, NECK, 2);
        struct exercise *neck = plan_exercise(bench.plan, "neck drill", rows[i].kind, rows[i].pattern);
        struct occasion *work = bench_place(&bench, 5), *sparring = bench_spar(&bench, 6, 5);
        work->clock = 10 * HOUR;
        work->seconds = HOUR;
        sparring->clock = rows[i].clock;
        bench_sets(&bench, work, neck, 2, 10, UNIT_SECONDS)->hold = true;
        expect(&bench, "neck-before-sparring", rows[i].found, limit, rows[i].left);
    }
}

/* --- before a bout, and waived --- */

static void hours_left_before_a_bout(void **state)
{
    (void)state;
    static const struct {
        int hours, day;
        bool cancelled;
        size_t found;
        milli left;
    } rows[] = {{48, 3, false, 0, 0},   {48, 4, false, 0, 24000},  {48, 2, false, 1, -24000}, {49, 3, false, 1, -1000},
                {48, 2, true, 0, NONE}, {48, 1, false, 1, -48000}, {48, 0, false, 0, NONE}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct bench bench = bench_new();
        struct limit *limit = hours(&bench, LEGS, rows[i].hours);
        struct bout *bout = plan_bout(bench.plan, bench.camp, bench.monday + rows[i].day);
        bout->cancelled = rows[i].cancelled ? bench.monday : 0;
        lift(&bench, bench_squat(&bench), 1, true);
        expect(&bench, "legs-before-sparring", rows[i].found, limit, rows[i].left);
    }
}

static void a_waived_gap_is_silent(void **state)
{
    (void)state;
    static const char *const checks[] = {"heavy-days-close", "legs-before-sparring", "legs-before-sparring"};
    for (int i = 0; i < 3; i++)
        for (int waived = 0; waived < 2; waived++) {
            struct bench bench = bench_new();
            struct exercise *squat = bench_squat(&bench);
            lift(&bench, squat, 0, true);
            if (i == 0)
                lift(&bench, squat, 1, true);
            else if (i == 1)
                bench_spar(&bench, 6, 1);
            else
                plan_bout(bench.plan, bench.camp, bench.monday + 1);
            if (waived)
                bench_waive(&bench, checks[i]);
            bench_expect(&bench, checks[i], !waived);
        }
}

/* Each pattern is compared with itself. */
static void patterns_are_kept_apart(void **state)
{
    (void)state;
    for (int both = 0; both < 2; both++) {
        struct bench bench = bench_new();
        hours(&bench, HEAVY, 60);
        struct exercise *squat = bench_squat(&bench), *press = bench_press(&bench);
        lift(&bench, both ? squat : press, 0, true);
        struct occasion *second = lift(&bench, both ? press : squat, 2, true);
        if (both) {
            struct set_run *run = bench_sets(&bench, second, squat, 3, 5, UNIT_REPS);
            plan_kilograms(run, 60);
            plan_effort(run, EFFORT_RPE, 9);
            bench_expect_words(
                &bench, "heavy-days-close", SEVERITY_WARNING,
                "B.1 back squat is heavy on 2027-03-03, 2 days after the last heavy squat; at least 60 h");
        } else {
            bench_expect(&bench, "heavy-days-close", 0);
        }
    }
}

static void neck_work_before_other_work(void **state)
{
    (void)state;
    struct bench bench = bench_new();
    struct limit *limit = hours(&bench, NECK, 2);
    struct occasion *work = bench_place(&bench, 5);
    bench_sets(&bench, work, plan_exercise(bench.plan, "neck drill", EXERCISE_HOLD, PATTERN_NECK), 2, 10, UNIT_SECONDS)
        ->hold = true;
    work->clock = 10 * HOUR;
    plan_do(bench.plan, bench.camp, bench.athlete, plan_activity(bench.plan, "technique"), bench.monday + 5)->clock =
        11 * HOUR;
    expect(&bench, "neck-before-sparring", 0, limit, NONE);
}

/* Of one line on two days the one nearer to the bout is reported. */
static void a_bout_in_words(void **state)
{
    (void)state;
    static const char *const words[] = {
        "A.1 back squat is hard on the legs, the same day as the bout of Harbour final on 2027-03-02; at least 60 h",
        "A.1 back squat is hard on the legs, a day before the bout of Harbour final on 2027-03-03; at least 60 h"};
    for (int i = 0; i < 2; i++) {
        struct bench bench = bench_new();
        hours(&bench, LEGS, 60);
        struct exercise *squat = bench_squat(&bench);
        struct occasion *first = lift(&bench, squat, 0, true), *second = lift(&bench, squat, 1, true);
        ((struct item *)second->blocks[0].items)->span = first->blocks[0].items[0].span;
        plan_bout(bench.plan, bench.camp, bench.monday + 1 + i);
        bench_expect_words(&bench, "legs-before-sparring", SEVERITY_WARNING, words[i]);
    }
}

/* A bout concerns those who are in its camp on its day. */
static void a_bout_after_leaving(void **state)
{
    (void)state;
    for (int last = 1; last < 3; last++) {
        struct bench bench = bench_new();
        struct limit *limit = hours(&bench, LEGS, 60);
        const struct membership member = {.first = 0, .last = bench.monday + last};
        bench.camp->members = &member;
        plan_bout(bench.plan, bench.camp, bench.monday + 2);
        lift(&bench, bench_squat(&bench), 1, true);
        expect(&bench, "legs-before-sparring", last == 2, limit, last == 2 ? -36000 : NONE);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_makes_two_heavy_days),
        cmocka_unit_test(four_days_are_looked_back),
        cmocka_unit_test(the_shortest_gap_is_reported),
        cmocka_unit_test(what_tires_the_legs),
        cmocka_unit_test(what_is_hard_sparring),
        cmocka_unit_test(hours_left_before_sparring),
        cmocka_unit_test(sparring_without_an_hour),
        cmocka_unit_test(what_is_neck_work),
        cmocka_unit_test(hours_left_before_a_bout),
        cmocka_unit_test(a_waived_gap_is_silent),
        cmocka_unit_test(patterns_are_kept_apart),
        cmocka_unit_test(neck_work_before_other_work),
        cmocka_unit_test(a_bout_in_words),
        cmocka_unit_test(a_bout_after_leaving),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
