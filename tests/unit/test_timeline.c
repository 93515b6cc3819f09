/* The sums of a timeline against adding up one occasion after another, over every window of a camp with gaps, double days and
 * weeks of which a window takes a part. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "figures/dates.h"
#include "measure/tally.h"
#include "rules/run.h"
#include "unit/plan_builder.c"

enum { WEEKS = 6, DAYS = 7 * WEEKS };

/* Days on which something is done: none in the third week and before the second day, one alone in the fourth, and the last is the
 * last of the camp. */
static const int trained[] = {1, 1, 3, 6, 7, 9, 13, 23, 28, 29, 30, 31, 32, 33, 34, 34, 35, 41};
enum { TRAINED = sizeof trained / sizeof *trained };

struct sums {
    struct bench bench;
    struct run run;
    struct timeline *timeline;
};

static void sums_new(struct sums *sums)
{
    *sums = (struct sums){.bench = bench_new()};
    struct plan *plan = sums->bench.plan;
    sums->bench.camp->last = sums->bench.monday + DAYS - 1;
    struct exercise *squat = bench_squat(&sums->bench), *press = bench_press(&sums->bench);
    struct occasion *occasions = arena_alloc(plan->arena, TRAINED * sizeof *occasions);
    for (int i = 0; i < TRAINED; i++) {
        struct occasion *occasion = bench_place(&sums->bench, trained[i]);
        bench_sets(&sums->bench, occasion, i % 3 ? squat : press, 1 + i, 5, UNIT_REPS);
        occasions[i] = *occasion;
    }
    plan->programme.occasions = occasions;
    plan->programme.occasion_count = TRAINED;
    sums->run = (struct run){.programme = &plan->programme, .arena = plan->arena};
    sums->timeline = timelines_of(&sums->run);
    timeline_gather(&sums->run, sums->timeline, arena_alloc(plan->arena, (TRAINED + 1) * sizeof(struct tally)));
}

/* Of the days FIRST to LAST of the camp, one after another. */
static void expect_sum(const struct sums *sums, const struct window *window, int first, int last)
{
    struct tally all;
    size_t count = 0;
    memset(&all, 0, sizeof all);
    for (int i = 0; i < TRAINED; i++)
        if (trained[i] >= first && trained[i] <= last) {
            struct tally one;
            memset(&one, 0, sizeof one);
            tally_occasion(&one, &sums->bench.plan->programme.occasions[i]);
            tally_add(&all, &one);
            count++;
        }
    const struct tally *sum = window_tally(window);
    assert_int_equal(window->count, count);
    for (int i = 0; i < COUNTED_COUNT; i++) {
        assert_int_equal(sum->sum[i].low, all.sum[i].low);
        assert_int_equal(sum->sum[i].high, all.sum[i].high);
    }
}

/* Asked for before its weeks were, and after, and twice. */
static void each_window_has_the_sum_of_its_days(void **state)
{
    (void)state;
    for (int weeks_before = 0; weeks_before < 2; weeks_before++) {
        struct sums sums;
        sums_new(&sums);
        for (size_t w = 0; weeks_before && w < sums.timeline->week_count; w++)
            expect_sum(&sums, &sums.timeline->weeks[w], 7 * (int)w, 7 * (int)w + 6);
        for (int first = 0; first < DAYS; first++)
            for (int last = first; last < DAYS; last++) {
                struct window window = timeline_window(sums.timeline, SCOPE_CAMP, sums.bench.monday + first, sums.bench.monday + last);
                expect_sum(&sums, &window, first, last);
                expect_sum(&sums, &window, first, last);
            }
        plan_free(sums.bench.plan);
    }
}

/* Days before the camp and behind it have weeks too, and what has no weeks has its days all the same. */
static void weeks_reach_from_the_first_to_the_last(void **state)
{
    (void)state;
    static const struct {
        int camp_first, camp_last, weeks;
    } rows[] = {{0, 41, 6}, {2, 41, 6}, {7, 13, 6}, {0, 42, 7}, {-1, 41, 7}, {-8, 48, 9}, {-8, 49, 10}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct sums sums;
        sums_new(&sums);
        sums.bench.camp->first = sums.bench.monday + rows[i].camp_first;
        sums.bench.camp->last = sums.bench.monday + rows[i].camp_last;
        sums.timeline = timelines_of(&sums.run);
        timeline_gather(&sums.run, sums.timeline, arena_alloc(sums.run.arena, (TRAINED + 1) * sizeof(struct tally)));
        int begin = date_monday(sums.bench.monday + (rows[i].camp_first < 0 ? rows[i].camp_first : 0)) - sums.bench.monday;
        assert_int_equal(sums.timeline->week_count, rows[i].weeks);
        for (int w = 0; w < rows[i].weeks; w++) {
            const struct window *week = &sums.timeline->weeks[w];
            assert_int_equal(week->first, sums.bench.monday + begin + 7 * w);
            assert_int_equal(week->last, week->first + 6);
            expect_sum(&sums, week, begin + 7 * w, begin + 7 * w + 6);
        }
        plan_free(sums.bench.plan);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_window_has_the_sum_of_its_days),
        cmocka_unit_test(weeks_reach_from_the_first_to_the_last),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
