/* Which of the limits of a camp are about one thing, and which of those holds for whom: each part of a limit by itself. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "limits/limits.h"
#include "measure/counts.h"
#include "unit/plan_builder.c"

enum { MOST_HOLD = 8 };

static struct limit plain(void)
{
    return (struct limit){.scope = LIMIT_WEEK, .level = -1, .counted = "sparring rounds", .bound = LIMIT_AT_MOST, .value = 9000};
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

/* The limits that hold on DAYS from the camp's first, for the athlete of BENCH: how many, and what the first says. */
static size_t held(struct bench *bench, const struct athlete *athlete, const struct phase *phase, int days, milli *value)
{
    struct limit_table table = table_of(bench);
    struct holder holder = {athlete, phase, bench->monday, bench->monday + days - 1};
    struct in_force found[MOST_HOLD];
    assert_true(table.most <= MOST_HOLD);
    size_t count = limit_table_pick(&table, LIMIT_WEEK, &holder, found);
    *value = count ? found[0].layered->limit->value : -1;
    return count;
}

/* Limits that differ in one part are about two things, in whichever order they stand. */
static void each_part_tells_limits_apart(void **state)
{
    (void)state;
    struct limit other[8];
    for (int i = 0; i < 8; i++)
        other[i] = plain();
    other[0].value = 8000; /* the only one that is about the same */
    other[1].scope = LIMIT_CAMP;
    other[2].counted = "time";
    other[3].bound = LIMIT_AT_LEAST;
    other[4].a_side = true;
    other[5].against = "time";
    other[6].below_peak = true;
    other[7].first_weeks = 2;
    for (int i = 0; i < 8; i++)
        for (int order = 0; order < 2; order++) {
            struct bench bench = bench_new();
            struct limit one = plain();
            put(&bench, bench.limits, order ? &other[i] : &one);
            put(&bench, bench.limits, order ? &one : &other[i]);
            struct limit_table table = table_of(&bench);
            assert_int_equal(table.count, 2);
            assert_int_equal(table.group_count, i ? 2 : 1);
            plan_free(bench.plan);
        }
}

/* What is counted nowhere has been reported where it was read. */
static void an_unknown_count_is_left_out(void **state)
{
    (void)state;
    struct bench bench = bench_new();
    struct limit one = plain(), two = plain();
    one.counted = "kicks of luck";
    two.against = "kicks of luck";
    put(&bench, bench.limits, &one);
    put(&bench, bench.limits, &two);
    assert_int_equal(table_of(&bench).count, 0);
    plan_free(bench.plan);
}

/* Of two about one thing, WINS is said of fewer people or days. */
struct contest {
    struct limit wins, loses;
};

static void add_contests(struct bench *bench, const struct phase *phase, struct contest *out)
{
    for (int i = 0; i < 8; i++) {
        out[i] = (struct contest){plain(), plain()};
        out[i].wins.value = 1000;
    }
    out[0].wins.athlete = bench->athlete;
    out[0].loses.under_age = 18;
    out[1].wins.under_age = 16;
    out[1].loses.under_age = 18;
    out[2].wins.under_age = 18;
    out[3].wins.level = LEVEL_NOVICE;
    out[3].loses.stretch = STRETCH_FIRST;
    out[3].loses.stretch_days = 14;
    out[4].wins.stretch = STRETCH_FIRST;
    out[4].wins.stretch_days = 14;
    out[4].loses.phase = phase->name.folded;
    out[5].wins.stretch = out[5].loses.stretch = STRETCH_FIRST;
    out[5].wins.stretch_days = 7;
    out[5].loses.stretch_days = 14;
    out[6].wins.phase = phase->name.folded;
    out[7].wins.stretch = STRETCH_AFTER_BOUT;
    out[7].wins.stretch_days = 7;
}

static void the_one_about_fewer_wins(void **state)
{
    (void)state;
    for (int i = 0; i < 8; i++)
        for (int order = 0; order < 2; order++) {
            struct bench bench = bench_new();
            struct contest contests[8];
            milli value;
            bench.athlete->level = LEVEL_NOVICE;
            bench.athlete->under_age = 16;
            plan_bout(bench.plan, bench.camp, bench.monday);
            plan_bout(bench.plan, bench.camp, bench.monday + 4);
            const struct phase *phase = plan_phase(bench.plan, bench.camp, "base", bench.monday, bench.monday + 13);
            add_contests(&bench, phase, contests);
            put(&bench, bench.limits, order ? &contests[i].loses : &contests[i].wins);
            put(&bench, bench.limits, order ? &contests[i].wins : &contests[i].loses);
            assert_int_equal(held(&bench, bench.athlete, phase, 7, &value), 1);
            assert_int_equal(value, 1000);
            plan_free(bench.plan);
        }
}

/* What is said of an age or of a lifting age holds for nobody in particular. */
static void nobody_has_no_age(void **state)
{
    (void)state;
    for (int level = 0; level < 2; level++) {
        struct bench bench = bench_new();
        struct limit narrow = plain(), wide = plain();
        milli value;
        narrow.level = level ? LEVEL_NOVICE : -1;
        narrow.under_age = level ? 0 : 18;
        narrow.value = 1000;
        put(&bench, bench.limits, &narrow);
        put(&bench, bench.limits, &wide);
        assert_int_equal(held(&bench, NULL, NULL, 7, &value), 1);
        assert_int_equal(value, 9000);
        plan_free(bench.plan);
    }
}

/* Days after each of two bouts are counted from the first to the last; a stretch that is over holds no longer. */
static void stretches_are_joined_and_end(void **state)
{
    (void)state;
    struct bench bench = bench_new();
    struct limit limit = plain();
    limit.stretch = STRETCH_AFTER_BOUT;
    limit.stretch_days = 2;
    put(&bench, bench.limits, &limit);
    plan_bout(bench.plan, bench.camp, bench.monday);
    plan_bout(bench.plan, bench.camp, bench.monday + 4);
    struct limit_table table = table_of(&bench);
    struct holder holder = {bench.athlete, NULL, bench.monday, bench.monday + 6};
    struct in_force found[MOST_HOLD];
    assert_int_equal(limit_table_pick(&table, LIMIT_WEEK, &holder, found), 1);
    assert_int_equal(found[0].first, bench.monday + 1);
    assert_int_equal(found[0].last, bench.monday + 6);
    holder.first += 7;
    holder.last += 7;
    assert_int_equal(limit_table_pick(&table, LIMIT_WEEK, &holder, found), 0);
    plan_free(bench.plan);
}

static void the_tighter_leaves_less_room(void **state)
{
    (void)state;
    static const struct {
        enum limit_bound bound;
        milli a, a_top, b, b_top;
        bool tighter;
    } cases[] = {
        {LIMIT_AT_MOST, 8, 0, 9, 0, true},   {LIMIT_AT_MOST, 9, 0, 9, 0, false},   {LIMIT_AT_MOST, 10, 0, 9, 0, false},
        {LIMIT_AT_LEAST, 9, 0, 8, 0, true},  {LIMIT_AT_LEAST, 8, 0, 8, 0, false},  {LIMIT_AT_LEAST, 7, 0, 8, 0, false},
        {LIMIT_WITHIN, 5, 9, 4, 9, true},    {LIMIT_WITHIN, 4, 8, 4, 9, true},     {LIMIT_WITHIN, 4, 9, 4, 9, false},
        {LIMIT_WITHIN, 3, 10, 4, 9, false},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        struct limit a = plain(), b = plain();
        a.bound = b.bound = cases[i].bound;
        a.value = cases[i].a;
        a.top = cases[i].a_top;
        b.value = cases[i].b;
        b.top = cases[i].b_top;
        assert_int_equal(limit_is_tighter(&a, &b), cases[i].tighter);
    }
}

/* The list for the young is in force by itself also where the camp names it, alone or as what its own list is based on; then
 * what is laid over it is said of the young. */
static void a_list_for_the_young_may_be_named(void **state)
{
    (void)state;
    for (int based = 0; based < 2; based++) {
        struct bench bench = bench_new();
        struct limit one = plain(), own = plain();
        milli value;
        bench.athlete->under_age = 18;
        struct limits *young = plan_limits(bench.plan, based ? NULL : bench.camp, "under 18");
        own.value = 20000;
        put(&bench, young, &one);
        if (based) {
            bench.limits->base = young;
            put(&bench, bench.limits, &own);
        }
        assert_int_equal(held(&bench, bench.athlete, NULL, 7, &value), 1);
        assert_int_equal(value, based ? 20000 : 9000);
        struct limit_table table = table_of(&bench);
        for (size_t i = 0; i < table.count; i++)
            assert_int_equal(table.items[i].for_whom, table.items[i].set == young ? FOR_YOUNG : 0);
        plan_free(bench.plan);
    }
}

/* A bound of another kind that applies by itself stands beside the camp's own, unless that is said of the very same people. */
static void bounds_of_two_kinds_stand_beside_each_other(void **state)
{
    (void)state;
    for (int said = 0; said < 2; said++) {
        struct bench bench = bench_new();
        struct limit one = plain(), own = plain();
        bench.athlete->under_age = 18;
        struct limits *young = plan_limits(bench.plan, NULL, "under 18");
        own.bound = LIMIT_AT_LEAST;
        own.value = 2000;
        own.athlete = said ? bench.athlete : NULL;
        put(&bench, young, &one);
        put(&bench, bench.limits, &own);
        struct limit_table table = table_of(&bench);
        struct holder holder = {bench.athlete, NULL, bench.monday, bench.monday + 6};
        const struct layered *found = limit_table_find(&table, COUNTED_SPARRING_ROUNDS, &holder);
        const struct layered *beside = limit_table_find_beside(&table, COUNTED_SPARRING_ROUNDS, &holder);
        assert_non_null(found);
        assert_int_equal(found->limit->bound, LIMIT_AT_LEAST);
        if (said)
            assert_null(beside);
        else
            assert_int_equal(beside->limit->value, 9000);
        plan_free(bench.plan);
    }
}

/* Of one kind the one that counts has nothing beside it. */
static void of_one_kind_nothing_stands_beside(void **state)
{
    (void)state;
    for (int own_value = 8000; own_value <= 10000; own_value += 2000) {
        struct bench bench = bench_new();
        struct limit one = plain(), own = plain();
        bench.athlete->under_age = 18;
        own.value = own_value;
        put(&bench, plan_limits(bench.plan, NULL, "under 18"), &one);
        put(&bench, bench.limits, &own);
        struct limit_table table = table_of(&bench);
        struct holder holder = {bench.athlete, NULL, bench.monday, bench.monday + 6};
        const struct layered *found = limit_table_find(&table, COUNTED_SPARRING_ROUNDS, &holder);
        assert_int_equal(found->limit->value, own_value < 9000 ? own_value : 9000);
        assert_null(limit_table_find_beside(&table, COUNTED_SPARRING_ROUNDS, &holder));
        plan_free(bench.plan);
    }
}

/* A camp's limit for those under an age is its word about the young up to the age of the grown; beyond it is about others too. */
static void an_age_beyond_the_grown_is_not_the_young(void **state)
{
    (void)state;
    for (int age = 17; age <= 20; age++) {
        struct bench bench = bench_new();
        struct limit one = plain(), own = plain();
        milli value;
        bench.athlete->under_age = 17;
        own.value = 20000;
        own.under_age = age;
        put(&bench, plan_limits(bench.plan, NULL, "under 18"), &one);
        put(&bench, bench.limits, &own);
        assert_int_equal(held(&bench, bench.athlete, NULL, 7, &value), 1);
        assert_int_equal(value, age <= GROWN ? 20000 : 9000);
        plan_free(bench.plan);
    }
}

/* A list for the young is not laid over a camp of the grown. */
static void a_list_for_nobody_is_left_out(void **state)
{
    (void)state;
    for (int young = 0; young < 2; young++) {
        struct bench bench = bench_new();
        struct limit one = plain();
        bench.athlete->under_age = young ? 18 : 0;
        put(&bench, plan_limits(bench.plan, NULL, "under 18"), &one);
        assert_int_equal(table_of(&bench).count, young);
        plan_free(bench.plan);
    }
}

/* The first days of a camp from the day on that days reach into them, and as long as they do. */
static void a_stretch_holds_from_its_first_day_to_its_last(void **state)
{
    (void)state;
    struct bench bench = bench_new();
    struct limit one = plain();
    one.stretch = STRETCH_FIRST;
    one.stretch_days = 3;
    put(&bench, bench.limits, &one);
    struct limit_table table = table_of(&bench);
    for (int day = -3; day < 6; day++)
        for (int days = 1; days <= 3; days++) {
            struct holder holder = {bench.athlete, NULL, bench.camp->first + day, bench.camp->first + day + days - 1};
            assert_int_equal(limit_holds(&table, &table.items[0], &holder), day + days > 0 && day < 3);
        }
    plan_free(bench.plan);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_part_tells_limits_apart),
        cmocka_unit_test(an_unknown_count_is_left_out),
        cmocka_unit_test(the_one_about_fewer_wins),
        cmocka_unit_test(nobody_has_no_age),
        cmocka_unit_test(stretches_are_joined_and_end),
        cmocka_unit_test(the_tighter_leaves_less_room),
        cmocka_unit_test(a_list_for_the_young_may_be_named),
        cmocka_unit_test(bounds_of_two_kinds_stand_beside_each_other),
        cmocka_unit_test(of_one_kind_nothing_stands_beside),
        cmocka_unit_test(an_age_beyond_the_grown_is_not_the_young),
        cmocka_unit_test(a_list_for_nobody_is_left_out),
        cmocka_unit_test(a_stretch_holds_from_its_first_day_to_its_last),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
