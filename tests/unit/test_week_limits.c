/* Limits on a week's monotony and strain: what is found and what is left, on both sides of each border. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "unit/plan_builder.c"

/* 300, 300, 300, 300, 150 and two days of rest: worked out by hand, both in thousandths. */
enum { MONOTONY = 1352, STRAIN = 1824782, NONE = PLAN_NOTHING_LEFT };

static void work_on(struct bench *bench, const struct activity *roadwork, int day, int minutes)
{
    struct occasion *occasion = plan_do(bench->plan, bench->camp, bench->athlete, roadwork, bench->monday + day);
    occasion->seconds = minutes * 60;
    occasion->rpe = (struct range){5000, 5000};
}

static struct bench bench_of_a_week(void)
{
    struct bench bench = bench_new();
    const struct activity *roadwork = plan_activity(bench.plan, "roadwork");
    for (int day = 0; day < 5; day++)
        work_on(&bench, roadwork, day, day < 4 ? 60 : 30);
    return bench;
}

/* A limit of BOUND on COUNTED is broken (FOUND) or not, and LEFT is what is left. */
static void expect(const char *counted, enum limit_bound bound, milli value, milli top, size_t found, milli left)
{
    bool strain = *counted == 's';
    struct bench bench = bench_of_a_week();
    struct limit *limit = plan_limit(bench.plan, bench.limits, LIMIT_WEEK, counted, bound, value);
    limit->top = top;
    plan_check(bench.plan);
    const char *check = strain ? "strain-outside" : "monotony-outside";
    if (plan_found(bench.plan, check) != found)
        print_error("%s %d %d: %zu expected:\n%s\n", counted, (int)value, (int)top, found, plan_shown(bench.plan));
    assert_int_equal(plan_found(bench.plan, check), found);
    assert_int_equal(plan_left(bench.plan, limit, strain ? COUNTED_STRAIN : COUNTED_MONOTONY), left);
    plan_free(bench.plan);
}

static void a_ceiling_a_floor_and_a_band(void **state)
{
    (void)state;
    static const struct {
        const char *counted;
        milli figure;
    } cases[] = {{"monotony", MONOTONY}, {"strain", STRAIN}};
    for (size_t i = 0; i < 2; i++) {
        const char *counted = cases[i].counted;
        milli figure = cases[i].figure;
        for (int more = -2; more <= 2; more++) {
            expect(counted, LIMIT_AT_MOST, figure + more, 0, more < 0, more);
            expect(counted, LIMIT_AT_LEAST, figure + more, 0, more > 0, -more);
        }
        expect(counted, LIMIT_WITHIN, figure - 2, figure + 3, 0, 2);
        expect(counted, LIMIT_WITHIN, figure - 3, figure + 2, 0, 2);
        expect(counted, LIMIT_WITHIN, figure - 2, figure, 0, 0);
        expect(counted, LIMIT_WITHIN, figure, figure + 2, 0, 0);
        expect(counted, LIMIT_WITHIN, figure - 2, figure - 1, 1, -1);
        expect(counted, LIMIT_WITHIN, figure + 1, figure + 2, 1, -1);
    }
}

/* Whatever limits stand before and behind it, each is compared with its own count. */
static void other_limits_do_not_matter(void **state)
{
    (void)state;
    struct bench bench = bench_of_a_week();
    plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "time", LIMIT_AT_MOST, 1000000000);
    const struct limit *limit = plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "monotony", LIMIT_AT_MOST, MONOTONY - 1);
    const struct limit *strain = plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "strain", LIMIT_AT_MOST, STRAIN + 9);
    plan_check(bench.plan);
    assert_int_equal(plan_found(bench.plan, "monotony-outside"), 1);
    assert_int_equal(plan_found(bench.plan, "strain-outside"), 0);
    assert_int_equal(plan_left(bench.plan, limit, COUNTED_MONOTONY), -1);
    assert_int_equal(plan_left(bench.plan, strain, COUNTED_STRAIN), 9);
    assert_int_equal(plan_left(bench.plan, strain, COUNTED_MONOTONY), NONE);
    plan_free(bench.plan);
}

/* Seven days alike have no monotony, and of a week with minutes without an effort none is known. */
static void weeks_without_a_figure(void **state)
{
    (void)state;
    for (int how = 0; how < 3; how++) {
        struct bench bench = bench_new();
        const struct limit *limit =
            plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "monotony", LIMIT_AT_LEAST, 99000);
        const struct activity *roadwork = plan_activity(bench.plan, "roadwork");
        for (int day = 0; day < 7; day++)
            work_on(&bench, roadwork, day, how == 0 || day < 3 ? 30 : 60);
        if (how == 1)
            bench.plan->occasions[2]->rpe = (struct range){0, 0};
        plan_check(bench.plan);
        assert_int_equal(plan_found(bench.plan, "monotony-outside"), how == 2);
        assert_int_equal(plan_left(bench.plan, limit, COUNTED_MONOTONY) == NONE, how < 2);
        plan_free(bench.plan);
    }
}

/* Of two athletes of a camp the one farther outside is reported, whoever comes first, over a ceiling and under a floor. */
static void the_worse_of_two_is_told(void **state)
{
    (void)state;
    for (int how = 0; how < 4; how++) {
        bool over = how & 1, second = how & 2;
        struct bench bench = bench_new();
        plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "monotony", over ? LIMIT_AT_MOST : LIMIT_AT_LEAST,
                   over ? 100 : 9000);
        const struct activity *roadwork = plan_activity(bench.plan, "roadwork");
        for (int athlete = 0; athlete < 2; athlete++) {
            if (athlete) {
                bench.athlete = plan_athlete(bench.plan, "Ada", STANCE_ORTHODOX);
                plan_join(bench.plan, bench.camp, bench.athlete);
            }
            /* the more days, the more even the week */
            for (int day = 0; day < (athlete == second ? 5 : 2); day++)
                work_on(&bench, roadwork, day, 60);
        }
        plan_check(bench.plan);
        assert_int_equal(plan_found(bench.plan, "monotony-outside"), 1);
        const char *who = (over == second) ? "Ada" : "Oriel Tamsin";
        assert_int_equal(strncmp(plan_finding(bench.plan, "monotony-outside")->words, who, strlen(who)), 0);
        assert_int_equal(plan_finding(bench.plan, "monotony-outside")->met, 2);
        plan_free(bench.plan);
    }
}

/* A waiver up to a figure, or down to it below a floor, covers just that. */
static void waivers_with_a_figure(void **state)
{
    (void)state;
    for (int how = 0; how < 4; how++) {
        bool over = how & 1, covers = how & 2;
        struct bench bench = bench_of_a_week();
        plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "monotony", over ? LIMIT_AT_MOST : LIMIT_AT_LEAST,
                   over ? MONOTONY - 100 : MONOTONY + 100);
        struct waiver *waiver = bench_waive(&bench, "monotony-outside");
        waiver->capped = true;
        waiver->cap = covers ? MONOTONY : over ? MONOTONY - 1 : MONOTONY + 1;
        bench_expect(&bench, "monotony-outside", !covers);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_ceiling_a_floor_and_a_band), cmocka_unit_test(other_limits_do_not_matter),
        cmocka_unit_test(weeks_without_a_figure),       cmocka_unit_test(the_worse_of_two_is_told),
        cmocka_unit_test(waivers_with_a_figure),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
