/* Load, monotony and strain of a week in which some work may be left out. Monotony is the mean of the days by their deviation,
 * strain the load times that (Foster 1998, Med Sci Sports Exerc 30:1164-1168), the deviation that of a sample; here each week
 * that the plan leaves open is worked out as it stands there. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "done/week_load.h"
#include "figures/dates.h"
#include "model/programme.h"
#include "plan_reader.h"

enum { DAYS = 7, MOST = 9 };

/* One day's activity: minutes at RPE 10; what may be left out; what a log says of it, or NULL. */
struct placed {
    int day, minutes;
    bool optional;
    const char *log;
};

struct week {
    struct plan_reader reader;
    const struct occasion *occasions[2 * MOST];
    size_t count;
    int monday;
};

/* The same in two weeks, of which the second has the logs. */
static void open_week(struct week *week, const struct placed *placed)
{
    static const char *const names[] = {"monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"};
    struct plan_reader *reader = &week->reader;
    struct text plan = {0};
    char day[DATE_TEXT_SIZE];
    int first = date_from_ymd(2027, 3, 1);
    plan_reader_open(reader);
    plan_reader_shelf(reader);
    text_add(&plan, "athlete Wren Holloway\n    stance orthodox\nactivity field\n    contact none\n"
                    "camp Spring\n    for Wren Holloway\n    starts 2027-03-01\n    weeks 1-2\n");
    for (const struct placed *one = placed; one->minutes; one++)
        text_addf(&plan, "        %s %02d:00 field : %d min RPE 10\n%s", names[one->day], (int)(one - placed) + 8, one->minutes,
                  one->optional ? "            optional\n" : "");
    for (const struct placed *one = placed; one->minutes; one++)
        if (one->log)
            text_addf(&plan, "log %s %02d:00 Wren Holloway, field\n    %s\n", date_format(first + 7 + one->day, day),
                      (int)(one - placed) + 8, one->log);
    plan_reader_text(reader, "plan.bell", text_get(&plan), strlen(text_get(&plan)));
    plan_reader_resolve(reader);
    if (diag_count(reader->diag, SEVERITY_ERROR))
        plan_reader_tell(reader);
    assert_int_equal(diag_count(reader->diag, SEVERITY_ERROR), 0);
    week->count = reader->programme->occasion_count;
    assert_true(week->count <= 2 * MOST);
    for (size_t i = 0; i < week->count; i++)
        week->occasions[i] = &reader->programme->occasions[i];
    week->monday = first + 7;
    text_free(&plan);
}

static milli thousandths(double value)
{
    return (milli)floor(value * 1000 + 0.5);
}

/* Widens *MONOTONY and *STRAIN by the week of LOADS; false where all days are alike. */
static bool widen(const double loads[DAYS], double monotony[2], double strain[2])
{
    double sum = 0, squares = 0;
    for (int i = 0; i < DAYS; i++)
        sum += loads[i];
    for (int i = 0; i < DAYS; i++)
        squares += (loads[i] - sum / DAYS) * (loads[i] - sum / DAYS);
    double deviation = sqrt(squares / (DAYS - 1));
    if (deviation == 0)
        return false;
    double one = sum / DAYS / deviation;
    monotony[0] = fmin(monotony[0], one);
    monotony[1] = fmax(monotony[1], one);
    strain[0] = fmin(strain[0], sum * one);
    strain[1] = fmax(strain[1], sum * one);
    return true;
}

/* The week as planned, by every choice of what is left out. */
static void expect_planned(const struct placed *placed)
{
    size_t count = 0;
    double monotony[2] = {INFINITY, 0}, strain[2] = {INFINITY, 0}, total[2] = {0, 0};
    bool even = false;
    for (; placed[count].minutes; count++) {
        total[0] += placed[count].optional ? 0 : placed[count].minutes * 10;
        total[1] += placed[count].minutes * 10;
    }
    for (unsigned out = 0; out < 1u << count; out++) {
        double loads[DAYS] = {0};
        bool can = true;
        for (size_t i = 0; i < count; i++) {
            can = can && (placed[i].optional || !(out >> i & 1u));
            loads[placed[i].day] += out >> i & 1u ? 0 : placed[i].minutes * 10;
        }
        if (can && !widen(loads, monotony, strain))
            even = true;
    }
    struct week week;
    open_week(&week, placed);
    struct week_load found = week_load_from(week.occasions, week.count, week.monday, LOAD_AS_PLANNED);
    assert_true(found.counted);
    assert_int_equal(found.even, even);
    assert_int_equal(found.total.low, thousandths(total[0]));
    assert_int_equal(found.total.high, thousandths(total[1]));
    assert_int_equal(found.monotony.low, isfinite(monotony[0]) ? thousandths(monotony[0]) : 0);
    assert_int_equal(found.monotony.high, thousandths(monotony[1]));
    assert_int_equal(found.strain.low, isfinite(strain[0]) ? thousandths(strain[0]) : 0);
    assert_int_equal(found.strain.high, thousandths(strain[1]));
    plan_reader_close(&week.reader);
}

static void every_choice_of_a_week(void **state)
{
    (void)state;
    expect_planned((struct placed[]){{0, 60, 0, 0}, {1, 75, 0, 0}, {2, 20, 0, 0}, {3, 75, 0, 0}, {4, 80, 0, 0}, {0}});
    expect_planned((struct placed[]){{0, 60, 0, 0}, {2, 40, 1, 0}, {4, 80, 1, 0}, {6, 10, 0, 0}, {0}});
    expect_planned((struct placed[]){{0, 60, 1, 0}, {1, 70, 1, 0}, {0}});
    expect_planned((struct placed[]){{6, 60, 1, 0}, {5, 5, 0, 0}, {0, 30, 1, 0}, {0}});
    /* What may be left out makes the week less even on a heavy day, and every day may be left out. */
    expect_planned((struct placed[]){
        {0, 50, 0, 0}, {1, 50, 0, 0}, {2, 50, 0, 0}, {3, 50, 0, 0}, {4, 50, 0, 0}, {5, 50, 0, 0}, {0, 100, 1, 0}, {0}});
    expect_planned((struct placed[]){
        {0, 50, 1, 0}, {1, 40, 1, 0}, {2, 60, 1, 0}, {3, 55, 1, 0}, {4, 45, 1, 0}, {5, 52, 1, 0}, {6, 48, 1, 0}, {0}});
    /* Alike every day if nothing is left out, or if Sunday's is. */
    expect_planned((struct placed[]){
        {0, 50, 0, 0}, {1, 50, 0, 0}, {2, 50, 0, 0}, {3, 50, 0, 0}, {4, 50, 0, 0}, {5, 50, 0, 0}, {6, 50, 1, 0}, {0}});
    expect_planned((struct placed[]){
        {0, 50, 0, 0}, {1, 50, 0, 0}, {2, 50, 0, 0}, {3, 50, 0, 0}, {4, 50, 0, 0}, {5, 50, 0, 0}, {6, 50, 0, 0}, {0}});
}

static void what_was_done_takes_its_place(void **state)
{
    (void)state;
    struct week week;
    open_week(&week, (struct placed[]){{0, 60, false, "took 30 min"}, {2, 40, true, NULL}, {4, 80, false, "missed because exam"},
                                       {5, 20, false, NULL}, {6, 10, true, "as planned"}, {0}});
    struct week_load planned = week_load_from(week.occasions, week.count, week.monday, LOAD_AS_PLANNED);
    struct week_load done = week_load_from(week.occasions, week.count, week.monday, LOAD_AS_DONE);
    assert_true(planned.logged);
    assert_int_equal(planned.total.low, 1600 * 1000);
    assert_int_equal(planned.total.high, 2100 * 1000);
    assert_true(done.logged);
    assert_int_equal(done.total.low, (300 + 200 + 100) * 1000);
    assert_int_equal(done.total.high, (300 + 400 + 200 + 100) * 1000);
    struct week_load before = week_load_from(week.occasions, week.count, week.monday - 7, LOAD_AS_DONE);
    assert_false(before.logged);
    assert_int_equal(before.total.low, planned.total.low);
    assert_int_equal(before.total.high, planned.total.high);
    plan_reader_close(&week.reader);
}

/* Seven days from the Monday on, and no others. */
static void days_outside_count_nowhere(void **state)
{
    (void)state;
    struct week week;
    open_week(&week, (struct placed[]){{0, 60, 0, 0}, {6, 30, 0, 0}, {0}});
    static const struct {
        int shift;
        milli load;
    } cases[] = {{0, 900}, {1, 300}, {-1, 600 + 300}, {-7, 900}, {-13, 600}, {-14, 0}, {6, 300}, {7, 0}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        struct week_load found = week_load_from(week.occasions, week.count, week.monday + cases[i].shift, LOAD_AS_PLANNED);
        assert_int_equal(found.total.high, cases[i].load * 1000);
        assert_int_equal(found.counted, cases[i].load > 0);
        assert_false(found.even);
    }
    plan_reader_close(&week.reader);
}

/* Work without an effort has no load that anybody knows. */
static void load_that_nobody_knows(void **state)
{
    (void)state;
    struct plan_reader reader;
    plan_reader_open(&reader);
    plan_reader_shelf(&reader);
    static const char plan[] = "athlete Wren Holloway\n    stance orthodox\nactivity field\n    contact none\n"
                               "camp Spring\n    for Wren Holloway\n    starts 2027-03-01\n    week 1\n"
                               "        monday field : 50 min RPE 8\n        friday field : 50 min\n"
                               "log 2027-03-05 Wren Holloway, field\n    took RPE 7\n";
    plan_reader_text(&reader, "plan.bell", plan, strlen(plan));
    plan_reader_resolve(&reader);
    assert_int_equal(reader.programme->occasion_count, 2);
    const struct occasion *both[] = {&reader.programme->occasions[0], &reader.programme->occasions[1]};
    int monday = date_from_ymd(2027, 3, 1);
    assert_false(week_load_from(both, 2, monday, LOAD_AS_PLANNED).counted);
    assert_true(week_load_from(both, 1, monday, LOAD_AS_PLANNED).counted);
    struct week_load done = week_load_from(both, 2, monday, LOAD_AS_DONE);
    assert_true(done.counted);
    assert_int_equal(done.total.high, (400 + 350) * 1000);
    plan_reader_close(&reader);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_choice_of_a_week),
        cmocka_unit_test(what_was_done_takes_its_place),
        cmocka_unit_test(days_outside_count_nowhere),
        cmocka_unit_test(load_that_nobody_knows),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
