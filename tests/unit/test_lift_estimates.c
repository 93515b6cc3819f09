/* Maxima that logs point to: which sets count, which of several is taken, and over which days. Epley, the equation of an
 * athlete who names none, is w (1 + r / 30), Epley 1985, quoted from memory; its products are worked out by hand. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "done/estimates.h"
#include "figures/dates.h"
#include "kg.h"
#include "model/programme.h"
#include "plan_reader.h"

/* --- one set --- */

static milli rpe_of(enum effort_kind effort, milli low, milli high)
{
    return logged_rpe(&(struct logged_set){.effort = effort, .effort_band = {low, high}});
}

static void an_effort_as_rpe(void **state)
{
    (void)state;
    assert_int_equal(rpe_of(EFFORT_RPE, 8000, 8000), 8000);
    assert_int_equal(rpe_of(EFFORT_RPE, 7000, 8000), 7500);
    assert_int_equal(rpe_of(EFFORT_RESERVE, 2000, 3000), 7500);
    assert_int_equal(rpe_of(EFFORT_RESERVE, 9999, 9999), 1);
    assert_int_equal(rpe_of(EFFORT_RESERVE, 10000, 10000), 0);
    assert_int_equal(rpe_of(EFFORT_RESERVE, 10001, 10001), 0);
    assert_int_equal(rpe_of(EFFORT_RESERVE, 12000, 12000), 0);
    assert_int_equal(rpe_of(EFFORT_ALL_OUT, 0, 0), 10000);
    assert_int_equal(rpe_of(EFFORT_NONE, 0, 0), 0);
    assert_int_equal(rpe_of(EFFORT_EASY, 0, 0), 0);
}

static milli reps_of(const struct part *parts, size_t count)
{
    return logged_reps(&(struct logged_set){.parts = parts, .part_count = count});
}

static void plain_repetitions(void **state)
{
    (void)state;
    struct part parts[] = {{.unit = UNIT_REPS, .amount = {5000, 6000}}, {.unit = UNIT_REPS, .amount = {5000, 5000}}};
    assert_int_equal(reps_of(parts, 0), 0);
    assert_int_equal(reps_of(parts, 1), 5000);
    assert_int_equal(reps_of(parts, 2), 5000); /* of each side */
    parts[1].amount.low = 4000;
    assert_int_equal(reps_of(parts, 2), 0);
    assert_int_equal(reps_of(parts, 1), 5000);
    parts[0].max = true;
    assert_int_equal(reps_of(parts, 1), 0);
    parts[0] = (struct part){.unit = UNIT_SECONDS, .amount = {5000, 5000}};
    assert_int_equal(reps_of(parts, 1), 0);
    parts[0] = (struct part){.unit = UNIT_REPS, .amount = {4000, 4000}};
    parts[1].unit = UNIT_SECONDS;
    assert_int_equal(reps_of(parts, 2), 0);
}

/* --- logs of ten weeks --- */

static const char plan[] = "gym Yard\n"
                           "    barbells  2 x 20 kg\n"
                           "    plates    8 x 20, 4 x 10, 4 x 5, 4 x 2.5, 4 x 1.25 kg\n"
                           "    dumbbells pairs 20 kg\n"
                           "    stations  rack, bench, pull-up bar\n"
                           "athlete Ann Cove\n"
                           "    trains at Yard\n"
                           "athlete Bea Elland\n"
                           "    trains at Yard\n"
                           "athlete Cal Drayton\n"
                           "    trains at Yard\n"
                           "session Lift\n"
                           "    straight A 3 sets rest 3:00\n"
                           "        back squat : 5 @ 60 kg\n"
                           "    straight B 3 sets rest 3:00\n"
                           "        back squat : 5 @ 60 kg\n"
                           "    straight C 3 sets rest 3:00\n"
                           "        bench press : 3 @ 40 kg\n"
                           "    straight D 3 sets rest 3:00\n"
                           "        chin-up : 5 @ bodyweight\n"
                           "    straight E 3 sets rest 3:00\n"
                           "        dumbbell bench press : 5 @ 2 x 20 kg\n"
                           "    straight F 3 sets rest 3:00\n"
                           "        hang power clean : 3 @ 40 kg\n"
                           "camp Spring\n"
                           "    for Ann Cove, Bea Elland, Cal Drayton\n"
                           "    starts 2027-03-01\n"
                           "    weeks 1-10\n"
                           "        monday Lift\n"
                           "        tuesday Lift\n";

struct lifted {
    struct plan_reader reader;
    struct lift_estimate *items;
    size_t count;
};

/* Those of the athlete NUMBER from FIRST to LAST. */
static void estimate_days(struct lifted *lifted, const char *logs, size_t number, int first, int last)
{
    struct plan_reader *reader = &lifted->reader;
    plan_reader_open(reader);
    plan_reader_shelf(reader);
    const char *text = arena_printf(reader->arena, "%s%s", plan, logs);
    plan_reader_text(reader, "plan.bell", text, strlen(text));
    plan_reader_resolve(reader);
    if (diag_count(reader->diag, SEVERITY_ERROR))
        plan_reader_tell(reader);
    assert_int_equal(diag_count(reader->diag, SEVERITY_ERROR), 0);
    lifted->count = estimates_between(reader->arena, reader->programme, reader->programme->athletes[number], first, last,
                                      &lifted->items);
}

static void estimate(struct lifted *lifted, const char *logs)
{
    estimate_days(lifted, logs, 0, 0, DATE_LAST);
}

static int day_of(int month, int day)
{
    return date_from_ymd(2027, month, day);
}

/* One estimate, MAXIMUM kilograms, by the line REF. */
static void expect_one(const char *logs, double maximum, const char *ref)
{
    struct lifted lifted;
    estimate(&lifted, logs);
    assert_int_equal(lifted.count, 1);
    assert_int_equal(lifted.items[0].maximum, KG(maximum));
    assert_string_equal(lifted.items[0].line->ref, ref);
    plan_reader_close(&lifted.reader);
}

static void expect_none(const char *logs)
{
    struct lifted lifted;
    estimate(&lifted, logs);
    assert_int_equal(lifted.count, 0);
    plan_reader_close(&lifted.reader);
}

#define MONDAY "log 2027-03-01 Ann Cove, Lift\n"

static void what_is_no_lift_gives_none(void **state)
{
    (void)state;
    expect_one(MONDAY "    A.1 : 5 @ 100 kg RPE 8\n", 123.333, "A.1");
    expect_none(MONDAY "    A.1 : 5 @ 100 kg\n");
    expect_none(MONDAY "    D.1 : 5 @ bodyweight + 10 kg RPE 8\n");
    expect_none(MONDAY "    E.1 : 5 @ 2 x 20 kg RPE 8\n");
    expect_none(MONDAY "    A.1 : 5 s @ 100 kg RPE 8\n");
    expect_none(MONDAY "    F.1 : 3 @ 60 kg RPE 8\n"); /* it ends where the bar is too slow, not where it stands still */
}

/* 5 left 2: 123.333; 3 left 1 with 105 kg: 119; the second of two alike is not taken. */
static void the_best_set_of_a_day(void **state)
{
    (void)state;
    expect_one(MONDAY "    A.1 : 3 @ 105 kg RPE 9; 5 @ 100 kg RPE 8\n", 123.333, "A.1");
    expect_one(MONDAY "    A.1 : 5 @ 100 kg; 3 @ 105 kg RPE 9\n", 119, "A.1");
    expect_one(MONDAY "    A.1 : 3 @ 105 kg RPE 9\n    B.1 : 5 @ 100 kg RPE 8\n", 123.333, "B.1");
    expect_one(MONDAY "    A.1 : 5 @ 100 kg RPE 8\n    B.1 : 3 @ 105 kg RPE 9\n", 123.333, "A.1");
    expect_one(MONDAY "    A.1 : 5 @ 100 kg RPE 8\n    B.1 : 5 @ 100 kg RPE 8\n", 123.333, "A.1");
    struct lifted lifted;
    estimate(&lifted, MONDAY "    A.1 : 3 @ 105 kg RPE 9; 5 @ 100 kg RPE 8; 5 @ 100 kg RPE 8; 3 @ 105 kg RPE 9\n");
    assert_ptr_equal(lifted.items[0].set, &lifted.items[0].line->sets[1]);
    assert_int_equal(lifted.items[0].low, KG(120));
    assert_int_equal(lifted.items[0].high, KG(126.667));
    assert_int_equal(lifted.items[0].share, 81081);
    plan_reader_close(&lifted.reader);
}

/* 225 lb for 5 that could have been seven: 277.5 lb, which is 278 whole ones; 226 lb make 278.73, which are 279. */
static void pounds_are_whole(void **state)
{
    (void)state;
    struct lifted lifted;
    estimate(&lifted, MONDAY "    A.1 : 5 @ 225 lb RPE 8\n");
    assert_int_equal(lifted.items[0].maximum, LB(278));
    assert_int_equal(lifted.items[0].low, LB(270));
    plan_reader_close(&lifted.reader);
    estimate(&lifted, MONDAY "    A.1 : 5 @ 226 lb RPE 8\n");
    assert_int_equal(lifted.items[0].maximum, LB(279));
    plan_reader_close(&lifted.reader);
    estimate(&lifted, MONDAY "    A.1 : 5 @ 224 lb RPE 8\n"); /* 276.27 */
    assert_int_equal(lifted.items[0].maximum, LB(276));
    plan_reader_close(&lifted.reader);
}

/* Two lines on the first day, one on each of the others: 119 and 123.333, 111, 98.667. */
static const char three_days[] = "log 2027-03-15 Ann Cove, Lift\n    A.1 : 5 @ 80 kg RPE 8\n"
                                 "log 2027-03-01 Ann Cove, Lift\n    A.1 : 3 @ 105 kg RPE 9\n    B.1 : 5 @ 100 kg RPE 8\n"
                                 "log 2027-03-08 Ann Cove, Lift\n    A.1 : 5 @ 90 kg RPE 8\n";

static void the_day_before_and_the_first(void **state)
{
    (void)state;
    struct lifted lifted;
    estimate(&lifted, three_days);
    const struct lift_estimate *last = &lifted.items[0];
    assert_int_equal(lifted.count, 1);
    assert_int_equal(last->way, ESTIMATE_BY_REPS);
    assert_int_equal(last->maximum, KG(98.667));
    assert_int_equal(last->line->log->date, day_of(3, 15));
    assert_int_equal(last->before, KG(111));
    assert_int_equal(last->before_day, day_of(3, 8));
    assert_int_equal(last->first, KG(123.333));
    assert_int_equal(last->first_day, day_of(3, 1));
    plan_reader_close(&lifted.reader);
}

static void the_last_day_may_have_two(void **state)
{
    (void)state;
    struct lifted lifted;
    estimate(&lifted, "log 2027-03-01 Ann Cove, Lift\n    A.1 : 5 @ 90 kg RPE 8\n"
                      "log 2027-03-08 Ann Cove, Lift\n    A.1 : 3 @ 105 kg RPE 9\n    B.1 : 5 @ 100 kg RPE 8\n");
    assert_int_equal(lifted.items[0].maximum, KG(123.333));
    assert_int_equal(lifted.items[0].before, KG(111));
    assert_int_equal(lifted.items[0].before_day, day_of(3, 1));
    assert_int_equal(lifted.items[0].first, KG(111));
    assert_int_equal(lifted.items[0].first_day, day_of(3, 1));
    plan_reader_close(&lifted.reader);
    estimate(&lifted, MONDAY "    A.1 : 5 @ 90 kg RPE 8\n");
    assert_int_equal(lifted.items[0].before, 0);
    assert_int_equal(lifted.items[0].before_day, 0);
    plan_reader_close(&lifted.reader);
}

static void days_asked_for_are_both_inside(void **state)
{
    (void)state;
    static const struct {
        int first, last;
        double maximum, begins;
    } cases[] = {{1, 15, 98.667, 123.333}, {2, 15, 98.667, 111}, {1, 14, 111, 123.333}, {8, 8, 111, 111}, {1, 7, 123.333, 123.333}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        struct lifted lifted;
        estimate_days(&lifted, three_days, 0, day_of(3, cases[i].first), day_of(3, cases[i].last));
        assert_int_equal(lifted.count, 1);
        assert_int_equal(lifted.items[0].maximum, KG(cases[i].maximum));
        assert_int_equal(lifted.items[0].first, KG(cases[i].begins));
        plan_reader_close(&lifted.reader);
    }
    struct lifted none;
    for (int late = 0; late < 2; late++) {
        estimate_days(&none, three_days, 0, day_of(3, late ? 16 : 2), day_of(3, late ? 30 : 7));
        assert_int_equal(none.count, 0);
        plan_reader_close(&none.reader);
    }
}

static void everybody_has_their_own(void **state)
{
    (void)state;
    static const char logs[] = "log 2027-03-01 Ann Cove, Lift\n    A.1 : 5 @ 60 kg RPE 8\n    C.1 : 5 @ 30 kg RPE 8\n"
                               "log 2027-03-01 Bea Elland, Lift\n    A.1 : 5 @ 90 kg RPE 8\n    C.1 : 5 @ 45 kg RPE 8\n"
                               "log 2027-03-02 Cal Drayton, Lift\n    C.1 : 5 @ 120 kg RPE 8\n";
    static const double maxima[3][2] = {{74, 37}, {111, 55.5}, {148, 148}};
    for (size_t number = 0; number < 3; number++) {
        struct lifted lifted;
        estimate_days(&lifted, logs, number, 0, DATE_LAST);
        assert_int_equal(lifted.count, number < 2 ? 2 : 1);
        for (size_t i = 0; i < lifted.count; i++) {
            bool squat = strcmp(lifted.items[i].exercise->name.shown, "back squat") == 0;
            assert_int_equal(lifted.items[i].maximum, KG(maxima[number][squat ? 0 : 1]));
            assert_int_equal(lifted.items[i].before, 0);
        }
        plan_reader_close(&lifted.reader);
    }
}

static void those_of_one_lift_are_told_apart(void **state)
{
    (void)state;
    static const char logs[] = "log 2027-03-01 Ann Cove, Lift\n    A.1 : 5 @ 60 kg RPE 8\n"
                               "log 2027-03-02 Bea Elland, Lift\n    A.1 : 5 @ 90 kg RPE 8\n"
                               "log 2027-03-08 Cal Drayton, Lift\n    A.1 : 5 @ 120 kg RPE 8\n";
    static const double maxima[] = {74, 111, 148};
    for (size_t number = 0; number < 3; number++) {
        struct lifted lifted;
        estimate_days(&lifted, logs, number, 0, DATE_LAST);
        assert_int_equal(lifted.count, 1);
        assert_int_equal(lifted.items[0].maximum, KG(maxima[number]));
        plan_reader_close(&lifted.reader);
    }
}

/* --- speed --- */

/* A line of the bench press: 0.43 m/s at 80 kg, and 0.01 m/s for each kilogram of 10 from there: it reaches 0.17 m/s, the
 * shelf's speed of a maximum, at 106 kg. */
static const char slow[] = "    C.1 : 3 @ 60 kg 0.63 m/s; 3 @ 70 kg 0.53 m/s; 3 @ 80 kg 0.43 m/s\n";

static void expect_points(const char *logs, size_t points, int last)
{
    struct lifted lifted;
    estimate(&lifted, logs);
    assert_int_equal(lifted.count, 1);
    assert_int_equal(lifted.items[0].way, ESTIMATE_BY_SPEED);
    assert_int_equal(lifted.items[0].maximum, KG(106));
    assert_int_equal(lifted.items[0].points, points);
    assert_int_equal(lifted.items[0].line->log->date, last);
    plan_reader_close(&lifted.reader);
}

static const char *two_logs(struct arena *arena, const char *first, const char *second, const char *more)
{
    return arena_printf(arena, "log %s Ann Cove, Lift\n%slog %s Ann Cove, Lift\n%s%s", first, slow, second, slow, more);
}

/* Six weeks to the day are too long ago: 2 March and 12 April are 41 days apart, 1 March and 12 April 42. */
static void speeds_of_six_weeks_make_one_line(void **state)
{
    (void)state;
    struct arena *arena = arena_new();
    expect_points(two_logs(arena, "2027-03-02", "2027-04-12", ""), 6, day_of(4, 12));
    expect_points(two_logs(arena, "2027-03-01", "2027-04-12", ""), 3, day_of(4, 12));
    /* A later day without a speed ends nothing, nor does a set without one. */
    expect_points(two_logs(arena, "2027-03-02", "2027-04-12", "log 2027-04-19 Ann Cove, Lift\n    C.1 : 3 @ 80 kg\n"), 6, day_of(4, 12));
    arena_free(arena);
    struct lifted lifted;
    estimate(&lifted, MONDAY "    C.1 : 3 @ 60 kg 0.63 m/s; 3 @ 70 kg 0.53 m/s; 3 @ 75 kg; 5 s @ 75 kg 0.90 m/s; 3 @ 80 kg 0.43 m/s\n");
    assert_int_equal(lifted.items[0].points, 3);
    assert_int_equal(lifted.items[0].maximum, KG(106));
    plan_reader_close(&lifted.reader);
    /* 0.1 m/s for 20 lb: 52 lb above the last of them. */
    estimate(&lifted, MONDAY "    C.1 : 3 @ 130 lb 0.63 m/s; 3 @ 150 lb 0.53 m/s; 3 @ 170 lb 0.43 m/s\n");
    assert_int_equal(lifted.items[0].maximum, LB(222));
    plan_reader_close(&lifted.reader);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(an_effort_as_rpe),
        cmocka_unit_test(plain_repetitions),
        cmocka_unit_test(what_is_no_lift_gives_none),
        cmocka_unit_test(the_best_set_of_a_day),
        cmocka_unit_test(pounds_are_whole),
        cmocka_unit_test(the_day_before_and_the_first),
        cmocka_unit_test(the_last_day_may_have_two),
        cmocka_unit_test(days_asked_for_are_both_inside),
        cmocka_unit_test(everybody_has_their_own),
        cmocka_unit_test(those_of_one_lift_are_told_apart),
        cmocka_unit_test(speeds_of_six_weeks_make_one_line),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
