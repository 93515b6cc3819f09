/* Limits in the order in which they count: of many about several things, of stretches, of levels, of phases. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "limits/limits.h"
#include "measure/counts.h"
#include "unit/plan_builder.c"

static struct limit plain(milli value)
{
    return (struct limit){.scope = LIMIT_WEEK, .level = -1, .counted = "sparring rounds", .bound = LIMIT_AT_MOST, .value = value};
}

static void put(struct bench *bench, struct limits *set, const struct limit *limit)
{
    *plan_limit(bench->plan, set, limit->scope, limit->counted, limit->bound, limit->value) = *limit;
}

static struct limit_table table_of(struct bench *bench)
{
    struct limit_table table;
    limit_table_build(bench->plan->arena, &bench->plan->programme, bench->camp, &table);
    return table;
}

/* What counts of sparring in the camp's first week; -1: nothing. */
static milli counts(struct bench *bench)
{
    struct limit_table table = table_of(bench);
    struct holder holder = {bench->athlete, NULL, bench->monday, bench->monday + 6};
    const struct layered *found = limit_table_find(&table, COUNTED_SPARRING_ROUNDS, &holder);
    return found ? found->limit->value : -1;
}

/* Three of one thing and three of another, in two lists, however they are mixed: the nearer list first, in it the later line. */
static void lines_about_one_thing_come_together(void **state)
{
    (void)state;
    struct limit other[7];
    for (int i = 0; i < 7; i++)
        other[i] = plain(0);
    other[0].scope = LIMIT_CAMP;
    other[1].counted = "time";
    other[2].bound = LIMIT_AT_LEAST;
    other[3].a_side = true;
    other[4].against = "time";
    other[5].below_peak = true;
    other[6].first_weeks = 2;
    for (int i = 0; i < 7; i++)
        for (int mix = 0; mix < 64; mix++) { /* of each line, which of the two it is about */
            struct bench bench = bench_new();
            struct limits *far = plan_limits(bench.plan, NULL, "far");
            size_t others = 0;
            bench.limits->base = far;
            for (int line = 0; line < 6; line++) {
                struct limit limit = mix >> line & 1 ? other[i] : plain(0);
                limit.value = line;
                others += mix >> line & 1;
                put(&bench, line < 3 ? bench.limits : far, &limit);
            }
            struct limit_table table = table_of(&bench);
            assert_int_equal(table.count, 6);
            assert_int_equal(table.group_count, 1 + (others > 0 && others < 6));
            for (size_t k = 1; k < table.count; k++) {
                const struct layered *before = &table.items[k - 1], *item = &table.items[k];
                bool nearer = before->layer < item->layer || (before->layer == item->layer && before->line > item->line);
                assert_true(nearer || before->group < item->group);
            }
            plan_free(bench.plan);
        }
}

/* Days after a bout and the first of a camp are no fewer than each other, however many: the later line counts. */
static void two_kinds_of_stretch_are_not_compared(void **state)
{
    (void)state;
    for (int days = 3; days <= 9; days += 3) {
        struct bench bench = bench_new();
        struct limit first = plain(1000), after = plain(2000);
        first.stretch = STRETCH_FIRST;
        first.stretch_days = 6;
        after.stretch = STRETCH_AFTER_BOUT;
        after.stretch_days = days;
        plan_bout(bench.plan, bench.camp, bench.monday);
        put(&bench, bench.limits, &after);
        put(&bench, bench.limits, &first);
        assert_int_equal(counts(&bench), 1000);
        plan_free(bench.plan);
    }
}

/* Days before a bout on the Saturday of the second week, and days that begin or end on one of them. */
static void days_before_a_bout_begin_and_end(void **state)
{
    (void)state;
    struct bench bench = bench_new();
    struct limit one = plain(1000);
    int bout = bench.monday + 12;
    one.stretch = STRETCH_BEFORE_BOUT;
    one.stretch_days = 4;
    plan_bout(bench.plan, bench.camp, bout);
    put(&bench, bench.limits, &one);
    struct limit_table table = table_of(&bench);
    for (int first = bout - 8; first <= bout + 1; first++)
        for (int last = first; last < first + 4; last++) {
            struct holder holder = {bench.athlete, NULL, first, last};
            assert_int_equal(limit_holds(&table, &table.items[0], &holder), first <= bout - 1 && last >= bout - 4);
        }
    plan_free(bench.plan);
}

/* In a week with a bout the days before it and those after it have a limit each, whichever line is the later. */
static void both_sides_of_a_bout_are_held(void **state)
{
    (void)state;
    for (int order = 0; order < 2; order++) {
        struct bench bench = bench_new();
        struct limit before = plain(1000), after = plain(2000);
        before.stretch = STRETCH_BEFORE_BOUT;
        after.stretch = STRETCH_AFTER_BOUT;
        before.stretch_days = after.stretch_days = 3;
        plan_bout(bench.plan, bench.camp, bench.monday + 3);
        put(&bench, bench.limits, order ? &before : &after);
        put(&bench, bench.limits, order ? &after : &before);
        struct limit_table table = table_of(&bench);
        struct holder holder = {bench.athlete, NULL, bench.monday, bench.monday + 6};
        struct in_force found[8];
        assert_int_equal(limit_table_pick(&table, LIMIT_WEEK, &holder, found), 2);
        assert_int_equal(found[0].layered->limit->value, order ? 2000 : 1000);
        assert_int_equal(found[1].layered->limit->value, order ? 1000 : 2000);
        plan_free(bench.plan);
    }
}

/* The camp's word about novices is no word about the young. */
static void novices_are_not_the_young(void **state)
{
    (void)state;
    for (int novices = 0; novices < 2; novices++) {
        struct bench bench = bench_new();
        struct limit one = plain(9000), own = plain(20000);
        bench.athlete->under_age = novices ? 0 : 18;
        bench.athlete->level = LEVEL_NOVICE;
        own.level = LEVEL_NOVICE;
        put(&bench, plan_limits(bench.plan, NULL, novices ? "novices" : "under 18"), &one);
        put(&bench, bench.limits, &own);
        assert_int_equal(counts(&bench), novices ? 20000 : 9000);
        plan_free(bench.plan);
    }
}

/* A session of nobody in particular is none of the young's. */
static void nobody_is_young(void **state)
{
    (void)state;
    struct bench bench = bench_new();
    struct limit one = plain(9000);
    bench.athlete->under_age = 18;
    put(&bench, plan_limits(bench.plan, NULL, "under 18"), &one);
    struct limit_table table = table_of(&bench);
    struct holder young = {bench.athlete, NULL, bench.monday, bench.monday}, nobody = {NULL, NULL, bench.monday, bench.monday};
    assert_int_equal(table.count, 1);
    assert_true(limit_holds(&table, &table.items[0], &young));
    assert_false(limit_holds(&table, &table.items[0], &nobody));
    plan_free(bench.plan);
}

/* A share of a peak is no number: only volume may be asked for either way. */
static void a_share_of_a_peak_is_no_number(void **state)
{
    (void)state;
    static const struct {
        const char *counted;
        enum counted number;
        bool either;
    } cases[] = {{"sparring rounds", COUNTED_SPARRING_ROUNDS, false}, {"volume", COUNTED_VOLUME, true}};
    for (size_t i = 0; i < 2; i++) {
        struct bench bench = bench_new();
        struct limit one = plain(60000);
        struct holder holder = {bench.athlete, NULL, bench.monday, bench.monday + 6};
        one.counted = cases[i].counted;
        one.below_peak = true;
        put(&bench, bench.limits, &one);
        struct limit_table table = table_of(&bench);
        assert_non_null(limit_table_find_peak(&table, cases[i].number, &holder));
        assert_int_equal(limit_table_find(&table, cases[i].number, &holder) != NULL, cases[i].either);
        plan_free(bench.plan);
    }
}

/* The phase of a week is the one that has most of its days, and of two that have as many the earlier. */
static void a_week_is_of_the_phase_that_has_most_of_it(void **state)
{
    (void)state;
    for (int days = 0; days <= 7; days++) {
        struct bench bench = bench_new();
        plan_phase(bench.plan, bench.camp, "base", bench.monday - 7, bench.monday + days - 1);
        plan_phase(bench.plan, bench.camp, "taper", bench.monday + days, bench.monday + 13);
        const struct phase *found = camp_phase_between(bench.camp, bench.monday, bench.monday + 6);
        const struct phase *even = camp_phase_between(bench.camp, bench.monday, bench.monday + 5);
        assert_ptr_equal(found, &bench.camp->phases[days < 4]);
        assert_ptr_equal(even, &bench.camp->phases[days < 3]);
        assert_null(camp_phase_between(bench.camp, bench.monday + 14, bench.monday + 20));
        plan_free(bench.plan);
    }
}

/* A limit of a phase counts the days that its stretch and the phase have in common; one of no phase those of its stretch. */
static void days_of_a_phase_and_a_stretch(void **state)
{
    (void)state;
    for (int begins = 0; begins <= 10; begins += 5)
        for (int of_phase = 0; of_phase < 2; of_phase++)
            for (int days = 7; days <= 21; days += 7) {
                struct bench bench = bench_new();
                struct phase *phase = plan_phase(bench.plan, bench.camp, "base", bench.monday + begins, bench.monday + 13);
                struct limit one = plain(1000);
                one.stretch = STRETCH_FIRST;
                one.stretch_days = days;
                one.phase = of_phase ? phase->name.folded : NULL;
                put(&bench, bench.limits, &one);
                struct limit_table table = table_of(&bench);
                struct holder holder = {bench.athlete, phase, bench.camp->first, bench.camp->first + 6};
                struct in_force found[8];
                int end = bench.camp->first + days - 1;
                assert_int_equal(limit_table_pick(&table, LIMIT_WEEK, &holder, found), 1);
                assert_int_equal(found[0].first, of_phase ? phase->first : bench.camp->first);
                assert_int_equal(found[0].last, of_phase && phase->last < end ? phase->last : end);
                plan_free(bench.plan);
            }
}

/* The camp's own limit that must hold stays in force beside a tighter one of the list for the young that only warns. */
static void what_must_hold_stands_beside_what_warns(void **state)
{
    (void)state;
    for (int own_force = 0; own_force < FORCE_COUNT; own_force++)
        for (int force = 0; force < FORCE_COUNT; force++)
            for (int tighter = 0; tighter < 2; tighter++) {
                struct bench bench = bench_new();
                struct limit one = plain(9000), own = plain(tighter ? 8000 : 20000);
                bench.athlete->under_age = 18;
                own.force = (enum force)own_force;
                one.force = (enum force)force;
                put(&bench, plan_limits(bench.plan, NULL, "under 18"), &one);
                put(&bench, bench.limits, &own);
                struct limit_table table = table_of(&bench);
                struct holder holder = {bench.athlete, NULL, bench.monday, bench.monday + 6};
                struct in_force found[8];
                size_t wanted = !tighter && own_force < force ? 2 : 1;
                assert_int_equal(limit_table_pick(&table, LIMIT_WEEK, &holder, found), wanted);
                assert_int_equal(found[0].layered->limit->value, tighter ? 8000 : 9000);
                if (wanted == 2)
                    assert_int_equal(found[1].layered->limit->value, 20000);
                plan_free(bench.plan);
            }
}

/* Two stretches that share a day have one limit between them; a day apart each has its own. */
static void stretches_that_meet_are_not_held_twice(void **state)
{
    (void)state;
    for (int order = 0; order < 2; order++)
        for (int bout = 4; bout <= 6; bout++) {
            struct bench bench = bench_new();
            struct limit first = plain(1000), before = plain(2000);
            first.stretch = STRETCH_FIRST;
            before.stretch = STRETCH_BEFORE_BOUT;
            first.stretch_days = before.stretch_days = 3;
            plan_bout(bench.plan, bench.camp, bench.camp->first + bout);
            put(&bench, bench.limits, order ? &first : &before);
            put(&bench, bench.limits, order ? &before : &first);
            struct limit_table table = table_of(&bench);
            struct holder holder = {bench.athlete, NULL, bench.camp->first, bench.camp->first + 6};
            struct in_force found[8];
            assert_int_equal(limit_table_pick(&table, LIMIT_WEEK, &holder, found), bout < 6 ? 1 : 2);
            plan_free(bench.plan);
        }
}

/* Beside a limit of days before a bout stands none of another scope, another athlete, of all days or of a list of its own. */
static void others_do_not_stand_beside(void **state)
{
    (void)state;
    for (int which = 0; which < 5; which++) {
        struct bench bench = bench_new();
        struct limit before = plain(1000), other = plain(2000);
        before.stretch = STRETCH_BEFORE_BOUT;
        other.stretch = STRETCH_AFTER_BOUT;
        before.stretch_days = other.stretch_days = 3;
        plan_bout(bench.plan, bench.camp, bench.monday + 3);
        bench.athlete->under_age = 18;
        if (which == 1)
            other.scope = LIMIT_CAMP;
        if (which == 2)
            other.athlete = plan_athlete(bench.plan, "Another", STANCE_ORTHODOX);
        if (which == 3)
            other.stretch = STRETCH_ALL;
        struct limits *young = which == 4 ? plan_limits(bench.plan, NULL, "under 18") : bench.limits;
        put(&bench, young, &other);
        put(&bench, bench.limits, &before);
        struct limit_table table = table_of(&bench);
        struct holder holder = {bench.athlete, NULL, bench.monday, bench.monday + 6};
        struct in_force found[8];
        assert_int_equal(limit_table_pick(&table, LIMIT_WEEK, &holder, found), which == 0 ? 2 : 1);
        assert_int_equal(found[0].layered->limit->value, 1000);
        plan_free(bench.plan);
    }
}

/* Of as many days the one of a phase is about fewer, whichever line is the later. */
static void a_phase_of_a_stretch_is_fewer_days(void **state)
{
    (void)state;
    for (int order = 0; order < 2; order++) {
        struct bench bench = bench_new();
        struct phase *phase = plan_phase(bench.plan, bench.camp, "base", bench.monday, bench.monday + 13);
        struct limit wide = plain(1000), fewer = plain(2000);
        wide.stretch = fewer.stretch = STRETCH_FIRST;
        wide.stretch_days = fewer.stretch_days = 7;
        fewer.phase = phase->name.folded;
        put(&bench, bench.limits, order ? &wide : &fewer);
        put(&bench, bench.limits, order ? &fewer : &wide);
        struct limit_table table = table_of(&bench);
        struct holder holder = {bench.athlete, phase, bench.monday, bench.monday + 6};
        assert_int_equal(limit_table_find(&table, COUNTED_SPARRING_ROUNDS, &holder)->limit->value, 2000);
        plan_free(bench.plan);
    }
}

static void force_and_failure_make_severity(void **state)
{
    (void)state;
    static const enum severity wanted[FORCE_COUNT][2] = {[FORCE_MUST] = {SEVERITY_WARNING, SEVERITY_ERROR},
                                                         [FORCE_WARN] = {SEVERITY_WARNING, SEVERITY_WARNING},
                                                         [FORCE_INFO] = {SEVERITY_INFO, SEVERITY_INFO}};
    for (int force = 0; force < FORCE_COUNT; force++)
        for (int fails = 0; fails < 2; fails++) {
            struct limit one = plain(0);
            one.force = (enum force)force;
            assert_int_equal(limit_severity(&one, fails), wanted[force][fails]);
        }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(lines_about_one_thing_come_together),
        cmocka_unit_test(two_kinds_of_stretch_are_not_compared),
        cmocka_unit_test(days_before_a_bout_begin_and_end),
        cmocka_unit_test(both_sides_of_a_bout_are_held),
        cmocka_unit_test(novices_are_not_the_young),
        cmocka_unit_test(nobody_is_young),
        cmocka_unit_test(a_share_of_a_peak_is_no_number),
        cmocka_unit_test(a_week_is_of_the_phase_that_has_most_of_it),
        cmocka_unit_test(days_of_a_phase_and_a_stretch),
        cmocka_unit_test(what_must_hold_stands_beside_what_warns),
        cmocka_unit_test(stretches_that_meet_are_not_held_twice),
        cmocka_unit_test(others_do_not_stand_beside),
        cmocka_unit_test(a_phase_of_a_stretch_is_fewer_days),
        cmocka_unit_test(force_and_failure_make_severity),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
