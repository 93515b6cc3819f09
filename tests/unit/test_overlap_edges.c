/* Two things of one athlete at one hour, on both sides of each border: which overlap, and until when the first goes on. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "unit/plan_builder.c"

enum { MINUTE = 60, HOUR = 3600, DAY = 86400 };

/* A session or roadwork on DAY at CLOCK. */
static struct occasion *at(struct bench *bench, bool session, int day, int clock, int seconds)
{
    struct occasion *occasion = session ? bench_place(bench, day)
                                        : plan_do(bench->plan, bench->camp, bench->athlete,
                                                  plan_activity(bench->plan, "roadwork"), bench->monday + day);
    occasion->clock = clock;
    occasion->seconds = seconds;
    return occasion;
}

static void which_hours_overlap(void **state)
{
    (void)state;
    static const struct {
        bool session; /* the earlier one, on the fifth day of the camp */
        int clock, seconds, day, later;
        const char *words;
    } rows[] = {
        {true, 18 * HOUR, 2100, 4, 18 * HOUR + 2000, NULL}, /* 5 % of a session's time is let pass */
        {true, 18 * HOUR, 2100, 4, 18 * HOUR + 1999, "weigh-in starts at 18:33 on 2027-03-05, and Hips before hands goes on until 18:35"},
        {false, 18 * HOUR, 2100, 4, 18 * HOUR + 2100, NULL},
        {false, 18 * HOUR, 2100, 4, 18 * HOUR + 2099, "weigh-in starts at 18:34 on 2027-03-05, and roadwork goes on until 18:35"},
        {true, 18 * HOUR, 2100, 4, 18 * HOUR, "Hips before hands and weigh-in both start at 18:00 on 2027-03-05"},
        {false, 18 * HOUR, HOUR - 1, 4, 18 * HOUR + 600, "weigh-in starts at 18:10 on 2027-03-05, and roadwork goes on until 18:59"},
        {false, 18 * HOUR, 0, 4, 18 * HOUR, "roadwork and weigh-in both start at 18:00 on 2027-03-05"},
        {false, 0, 0, 4, 0, "roadwork and weigh-in both start at 00:00 on 2027-03-05"},
        {false, 18 * HOUR, 0, 4, 18 * HOUR + 1, NULL},
        {false, -1, 2100, 4, 18 * HOUR, NULL},
        {false, 0, 20 * HOUR, 4, -1, NULL},
        {false, 22 * HOUR, 5 * HOUR, 4, 23 * HOUR, "weigh-in starts at 23:00 on 2027-03-05, and roadwork goes on until 03:00 of the next day"},
        {false, 23 * HOUR, 3 * HOUR, 5, 30 * MINUTE, "weigh-in starts at 00:30 on 2027-03-06, and roadwork goes on until 02:00"},
        {false, 10 * HOUR, 40 * HOUR, 4, 11 * HOUR, "weigh-in starts at 11:00 on 2027-03-05, and roadwork goes on until 02:00 on 2027-03-07"},
        {false, 10 * HOUR, 7 * DAY, 8, 10 * HOUR, "weigh-in starts at 10:00 on 2027-03-09, and roadwork goes on until 10:00 on 2027-03-12"},
        {false, 10 * HOUR, 7 * DAY, 9, 10 * HOUR, NULL}, /* nothing is that long */
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct bench bench = bench_new();
        at(&bench, rows[i].session, 4, rows[i].clock, rows[i].seconds);
        struct occasion *later = plan_do(bench.plan, bench.camp, bench.athlete, plan_activity(bench.plan, "weigh-in"),
                                         bench.monday + rows[i].day);
        later->clock = rows[i].later;
        plan_check(bench.plan);
        const struct finding *finding = plan_finding(bench.plan, "hours-overlap");
        assert_int_equal(plan_found(bench.plan, "hours-overlap"), rows[i].words ? 1 : 0);
        if (finding) {
            assert_string_equal(finding->words, arena_printf(bench.plan->arena, "Oriel Tamsin: %s", rows[i].words));
            assert_int_equal(finding->severity, SEVERITY_ERROR);
            assert_string_equal(finding->notes[0].words, rows[i].session ? "Hips before hands is placed here, in Harbour final"
                                                                         : "roadwork is placed here, in Harbour final");
            assert_string_equal(finding->help, "give one of them another hour, or clear it on that day with `off`");
        }
        plan_free(bench.plan);
    }
}

/* What was left out takes no hour; what may be left out is worth a warning. */
static void what_is_left_out_takes_no_hour(void **state)
{
    (void)state;
    for (int which = 0; which < 2; which++)
        for (int row = 0; row < 5; row++) {
            struct bench bench = bench_new();
            struct occasion *both[] = {at(&bench, true, 0, 18 * HOUR, HOUR), at(&bench, false, 0, 18 * HOUR + 600, HOUR)};
            struct occasion *one = both[which];
            one->optional = row == 1;
            one->outcome.timed = row == 2 || row == 3;
            one->outcome.seconds = row == 3 || row == 4 ? HOUR : 0;
            plan_check(bench.plan);
            const struct finding *finding = plan_finding(bench.plan, "hours-overlap");
            assert_int_equal(finding != NULL, row != 2);
            if (finding)
                assert_int_equal(finding->severity, row == 1 ? SEVERITY_WARNING : SEVERITY_ERROR);
            plan_free(bench.plan);
        }
}

/* Each that still goes on is reported, also behind one that does not. */
static void each_that_goes_on_is_told(void **state)
{
    (void)state;
    struct bench bench = bench_new();
    at(&bench, false, 0, 9 * HOUR, 4 * HOUR);
    at(&bench, false, 0, 10 * HOUR, 60);
    at(&bench, true, 0, 12 * HOUR, HOUR);
    bench_expect(&bench, "hours-overlap", 2); /* 10:00 and 12:00, both with what began at 9:00 */
}

/* Of the weeks of two lines the day on which most overlaps is reported; a waiver keeps it quiet. */
static void the_worst_day_is_told(void **state)
{
    (void)state;
    for (int waived = 0; waived < 2; waived++) {
        struct bench bench = bench_new();
        static const int starts[] = {1200, 600, 3000}, lengths[] = {3000, 3000, 4500};
        struct occasion *first[2];
        for (int week = 0; week < 3; week++) {
            struct occasion *both[] = {at(&bench, false, 7 * week, 18 * HOUR, lengths[week]),
                                       at(&bench, true, 7 * week, 18 * HOUR + starts[week], HOUR)};
            for (int k = 0; k < 2; k++) {
                first[k] = week ? first[k] : both[k];
                both[k]->span = first[k]->span;
            }
        }
        if (waived)
            bench_waive(&bench, "hours-overlap");
        plan_check(bench.plan);
        assert_int_equal(plan_found(bench.plan, "hours-overlap"), waived ? 0 : 1);
        if (!waived)
            assert_non_null(strstr(plan_finding(bench.plan, "hours-overlap")->words, "starts at 18:10 on 2027-03-08"));
        plan_free(bench.plan);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(which_hours_overlap),
        cmocka_unit_test(what_is_left_out_takes_no_hour),
        cmocka_unit_test(each_that_goes_on_is_told),
        cmocka_unit_test(the_worst_day_is_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
