/* How hard a session is as a whole, as planned and as it was done, and what that makes of its load.
 *
 * Session load is the session's RPE times its minutes, strength sessions among them: Foster et al. 2001, J Strength Cond
 * Res 15:109-115. The products here are worked out by hand. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "measure/tally.h"
#include "model/programme.h"
#include "plan_reader.h"

/* Six minutes each: 6 rounds of 1:00 without a rest. */
static const char head[] = "athlete Wren Holloway\n"
                           "    stance southpaw\n"
                           "session S\n"
                           "    rpe 7/8/...\n"
                           "    rounds A 6 x 1:00 rest 0:00\n"
                           "        shadow boxing : easy\n"
                           "session T based on S\n"
                           "    purpose the same on another day\n"
                           "session Quiet\n"
                           "    rounds A 6 x 1:00 rest 0:00\n"
                           "        shadow boxing : easy\n"
                           "camp C\n"
                           "    for Wren Holloway\n"
                           "    starts 2027-01-04\n";

static void open_weeks(struct plan_reader *reader, const char *weeks)
{
    plan_reader_open(reader);
    plan_reader_shelf(reader);
    const char *text = arena_printf(reader->arena, "%s%s", head, weeks);
    plan_reader_text(reader, "plan.bell", text, strlen(text));
    plan_reader_resolve(reader);
}

static struct tally week_of(const struct plan_reader *reader, int week)
{
    struct tally tally = {0};
    for (size_t i = 0; i < reader->programme->occasion_count; i++)
        if (reader->programme->occasions[i].week == week)
            tally_occasion(&tally, &reader->programme->occasions[i]);
    return tally;
}

/* PLANNED for the week, and how it turned out. */
static void expect_loads(const char *weeks, int week, milli planned, int uncounted, milli done)
{
    struct plan_reader reader;
    open_weeks(&reader, weeks);
    if (diag_count(reader.diag, SEVERITY_ERROR) || diag_count(reader.diag, SEVERITY_WARNING))
        plan_reader_tell(&reader);
    assert_int_equal(diag_count(reader.diag, SEVERITY_ERROR), 0);
    assert_int_equal(diag_count(reader.diag, SEVERITY_WARNING), 0);
    struct tally tally = week_of(&reader, week);
    assert_int_equal(tally.sum[COUNTED_SESSION_LOAD].low, planned);
    assert_int_equal(tally.sum[COUNTED_SESSION_LOAD].high, planned);
    assert_int_equal(tally.uncounted[UNCOUNTED_LOAD], uncounted);
    assert_int_equal(tally.done.low, done);
    assert_int_equal(tally.done.high, done);
    plan_reader_close(&reader);
}

static void expect_load(const char *weeks, int week, milli load, int uncounted)
{
    expect_loads(weeks, week, load, uncounted, load);
}

static void a_session_has_the_load_of_its_effort(void **state)
{
    (void)state;
    const char *weeks = "    weeks 1-3\n        monday S\n";
    expect_load(weeks, 1, 7000 * 6, 0);
    expect_load(weeks, 2, 8000 * 6, 0);
    expect_load(weeks, 3, 8000 * 6, 0);
    expect_load("    week 1\n        monday Quiet\n", 1, 0, 360);
}

static void a_session_takes_over_the_effort_of_its_base(void **state)
{
    (void)state;
    expect_load("    week 1\n        monday T\n        friday S\n", 1, 7000 * 12, 0);
}

static void the_line_that_places_it_goes_first(void **state)
{
    (void)state;
    expect_load("    week 1\n        monday S\n            rpe 5\n", 1, 5000 * 6, 0);
    expect_load("    week 1\n        monday Quiet\n            rpe 4.5\n", 1, 4500 * 6, 0);
    expect_load("    week 1\n        monday roadwork : 30 min RPE 4\n            rpe 3\n", 1, 3000 * 30, 0);
}

static void what_was_done_stands_beside_it(void **state)
{
    (void)state;
    const char *weeks = "    weeks 1-2\n        monday S\n        friday roadwork : 30 min RPE 4\n";
    struct {
        const char *log;
        milli load;
    } cases[] = {
        {"log 2027-01-04 Wren Holloway, S\n    took 64 min RPE 9\n", 9000 * 64 + 4000 * 30},
        {"log 2027-01-04 Wren Holloway, S\n    took RPE 9\n", 9000 * 6 + 4000 * 30},
        {"log 2027-01-04 Wren Holloway, S\n    took 1:04:00\n", 7000 * 64 + 4000 * 30},
        {"log 2027-01-08 Wren Holloway, roadwork\n    took 20 min RPE 6\n", 7000 * 6 + 6000 * 20},
        {"log 2027-01-04 Wren Holloway, S\n    took 0 min\n", 4000 * 30},
        /* Moved to another day of its week. */
        {"log 2027-01-06 Wren Holloway, S\n    took 10 min RPE 6\n", 6000 * 10 + 4000 * 30},
        {"log 2027-01-10 Wren Holloway, S\n    took 10 min RPE 6\n", 6000 * 10 + 4000 * 30},
        /* Next week's, and one of a camp that is no longer kept. */
        {"log 2027-01-11 Wren Holloway, S\n    took 10 min RPE 6\n", 7000 * 6 + 4000 * 30},
        {"log 2026-01-05 Wren Holloway, S\n    took 10 min RPE 6\n", 7000 * 6 + 4000 * 30},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        struct plan_reader reader;
        plan_reader_open(&reader);
        const char *all = arena_printf(reader.arena, "%s%s", weeks, cases[i].log);
        expect_loads(all, 1, 7000 * 6 + 4000 * 30, 0, cases[i].load);
        plan_reader_close(&reader);
    }
}

/* Two of a kind in a week: that of the day first, then the one that is left, whatever the order of the logs. */
static void two_of_a_kind_are_told_apart_by_their_day(void **state)
{
    (void)state;
    expect_loads("    week 1\n        monday S\n        friday S\n"
                 "log 2027-01-07 Wren Holloway, S\n    took 20 min RPE 5\n"
                "log 2027-01-04 Wren Holloway, S\n    took 10 min RPE 6\n",
                1, 7000 * 12, 0, 5000 * 20 + 6000 * 10);
}

/* A session goes by its name before an activity of the shelf does, in a log as where it is placed. */
static void a_session_of_an_activitys_name_is_the_session(void **state)
{
    (void)state;
    expect_loads("    week 1\n        monday technique\n"
                 "session technique based on S\n    purpose slow\n"
                 "log 2027-01-04 Wren Holloway, technique\n    took 20 min RPE 5\n",
                 1, 7000 * 6, 0, 5000 * 20);
}

static void a_log_of_what_was_not_planned_is_told(void **state)
{
    (void)state;
    struct plan_reader reader;
    open_weeks(&reader, "    week 1\n        monday S\n"
                        "log 2027-01-04 Wren Holloway, Quiet\n    took 10 min RPE 6\n");
    assert_int_equal(diag_count(reader.diag, SEVERITY_WARNING), 1);
    assert_string_equal(diagnostic_name(reader.diag->items[0]->diagnostic), "log-without-plan");
    plan_reader_close(&reader);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_session_has_the_load_of_its_effort),
        cmocka_unit_test(a_session_takes_over_the_effort_of_its_base),
        cmocka_unit_test(the_line_that_places_it_goes_first),
        cmocka_unit_test(what_was_done_stands_beside_it),
        cmocka_unit_test(two_of_a_kind_are_told_apart_by_their_day),
        cmocka_unit_test(a_session_of_an_activitys_name_is_the_session),
        cmocka_unit_test(a_log_of_what_was_not_planned_is_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
