/* What was done of an occasion, in the form in which it was planned; and why a day is off, as its line says. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "done/as_done.h"
#include "measure/tally.h"
#include "model/programme.h"
#include "plan_reader.h"

static const char head[] = "athlete Wren Holloway\n"
                           "    stance southpaw\n"
                           "session S\n"
                           "    rpe 7\n"
                           "    straight A 3 sets rest 1:00\n"
                           "        on a poor day 1 set\n"
                           "        push-up : 5\n"
                           "    superset B 2 sets rest 1:00\n"
                           "        goblet squat : 8 @ 16 kg\n"
                           "        push-up      : 4\n"
                           "camp C\n"
                           "    for Wren Holloway\n"
                           "    starts 2027-01-04\n"
                           "    week 1\n"
                           "        monday S\n"
                           "        tuesday sparring : 6 x 2:00 RPE 7\n";

static void open_plan(struct plan_reader *reader, const char *more)
{
    plan_reader_open(reader);
    plan_reader_shelf(reader);
    const char *text = arena_printf(reader->arena, "%s%s", head, more);
    plan_reader_text(reader, "plan.bell", text, strlen(text));
    plan_reader_resolve(reader);
    if (diag_count(reader->diag, SEVERITY_ERROR))
        plan_reader_tell(reader);
    assert_int_equal(diag_count(reader->diag, SEVERITY_ERROR), 0);
}

/* Of the first day, logged as LINES say, the count COUNTED of what was done. */
static milli done_of(const char *lines, enum counted counted)
{
    struct plan_reader reader;
    char log[256];
    snprintf(log, sizeof log, "log 2027-01-04 Wren Holloway, S\n%s", lines);
    open_plan(&reader, log);
    const struct occasion *occasion = &reader.programme->occasions[0];
    assert_true(occasion_done(occasion));
    struct occasion done = occasion_as_done(reader.arena, occasion);
    struct tally tally = {0};
    tally_occasion(&tally, &done);
    milli sum = tally.sum[counted].high;
    plan_reader_close(&reader);
    return sum;
}

static void what_a_log_does_not_say_is_as_planned(void **state)
{
    (void)state;
    assert_int_equal(done_of("    as planned\n", COUNTED_SETS), 7000);
    assert_int_equal(done_of("    as planned\n", COUNTED_LIFTS), 15000 + 16000 + 8000);
}

static void skipped_lines_count_nothing(void **state)
{
    (void)state;
    assert_int_equal(done_of("    skipped A because the hall closed\n", COUNTED_SETS), 4000);
    assert_int_equal(done_of("    skipped B because the hall closed\n", COUNTED_LIFTS), 15000);
    assert_int_equal(done_of("    skipped B.1 because the hall closed\n", COUNTED_LIFTS), 15000 + 8000);
}

static void sets_of_a_log_stand_in_place_of_those_planned(void **state)
{
    (void)state;
    assert_int_equal(done_of("    B.1 : 8 @ 16 kg; 6 @ 16 kg; 5 @ 20 kg\n", COUNTED_LIFTS), 15000 + 19000 + 8000);
    assert_int_equal(done_of("    B.1 : 8 @ 16 kg; 6 @ 16 kg; 5 @ 20 kg\n", COUNTED_SETS), 8000);
    assert_int_equal(done_of("    B.1 : 1 @ 20 kg\n", COUNTED_TONNAGE), 20000);
    assert_int_equal(done_of("    B.1 : 8 @ 20 kg\n", COUNTED_TONNAGE), 160000);
}

static void a_poor_day_has_its_own_sets(void **state)
{
    (void)state;
    assert_int_equal(done_of("    on a poor day A\n", COUNTED_LIFTS), 5000 + 16000 + 8000);
}

/* The same of a session of rounds, of sets that differ, and of a block without sets of its own for a poor day. */
static milli mixed_of(const char *lines, enum counted counted)
{
    static const char more[] = "session M\n"
                               "    rounds A 3 x 1:00 rest 0:30\n"
                               "        shadow boxing : easy\n"
                               "    straight B rest 1:00\n"
                               "        on a poor day 2 sets\n"
                               "        goblet squat : 5, 4, 3 @ 12, 14, 16 kg\n"
                               "    straight C 2 sets rest 1:00\n"
                               "        push-up : 5\n"
                               "camp D\n"
                               "    for Wren Holloway\n"
                               "    starts 2026-12-28\n"
                               "    week 1\n"
                               "        monday M\n"
                               "log 2026-12-28 Wren Holloway, M\n";
    struct plan_reader reader;
    char text[1024];
    snprintf(text, sizeof text, "%s%s", more, lines);
    open_plan(&reader, text);
    const struct occasion *occasion = &reader.programme->occasions[0];
    assert_string_equal(occasion->session->name.shown, "M");
    assert_true(occasion_done(occasion));
    struct occasion done = occasion_as_done(reader.arena, occasion);
    struct tally tally = {0};
    tally_occasion(&tally, &done);
    plan_reader_close(&reader);
    return tally.sum[counted].high;
}

static void a_log_that_says_little_leaves_the_rest_as_planned(void **state)
{
    (void)state;
    assert_int_equal(mixed_of("    as planned\n", COUNTED_LIFTS), 12000 + 10000);
    assert_int_equal(mixed_of("    on a poor day B\n", COUNTED_LIFTS), 9000 + 10000);
    assert_int_equal(mixed_of("    on a poor day B\n", COUNTED_TONNAGE), 60000 + 56000);
    assert_int_equal(mixed_of("    on a poor day C\n", COUNTED_LIFTS), 12000 + 10000);
    assert_int_equal(mixed_of("    on a poor day A\n", COUNTED_SETS), 5000);
    assert_int_equal(mixed_of("    C.1 : 8; 6\n", COUNTED_LIFTS), 12000 + 14000);
    assert_int_equal(mixed_of("    B.1 : 8 RPE 7; 6 @ 16 kg\n", COUNTED_TONNAGE), 96000 + 96000);
    assert_int_equal(mixed_of("    B.1 : 8; 6; 5; 4 @ 16 kg\n", COUNTED_TONNAGE), 96000 + 84000 + 80000 + 64000);
    assert_int_equal(mixed_of("    took 12 min\n", COUNTED_LIFTS), 12000 + 10000);
}

static void time_and_effort_are_those_of_the_log(void **state)
{
    (void)state;
    assert_int_equal(done_of("    took 40 min RPE 8\n", COUNTED_SESSION_LOAD), 320000);
    assert_int_equal(done_of("    took 40 min RPE 8\n", COUNTED_TIME), 2400000);
}

static void what_was_missed_or_is_not_logged_was_not_done(void **state)
{
    (void)state;
    struct plan_reader reader;
    open_plan(&reader, "log 2027-01-04 Wren Holloway, S\n    missed because exam\n");
    assert_false(occasion_done(&reader.programme->occasions[0]));
    assert_false(occasion_done(&reader.programme->occasions[1]));
    plan_reader_close(&reader);
}

/* --- days off --- */

static void a_day_off_keeps_its_reason(void **state)
{
    (void)state;
    struct plan_reader reader;
    open_plan(&reader, "    weeks 1-2\n"
                       "        wednesday technique : 20 min RPE 3\n"
                       "    week 2\n"
                       "        wednesday off\n"
                       "            because exam\n"
                       "        friday off\n"
                       "        saturday off\n"
                       "            because a fever in the team\n");
    const struct camp *camp = reader.programme->camps[0];
    assert_int_equal(camp->day_off_count, 1);
    assert_int_equal(camp->days_off[0].day, camp->first + 9);
    assert_string_equal(camp->days_off[0].because, "exam");
    plan_reader_close(&reader);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_a_log_does_not_say_is_as_planned),
        cmocka_unit_test(skipped_lines_count_nothing),
        cmocka_unit_test(sets_of_a_log_stand_in_place_of_those_planned),
        cmocka_unit_test(a_poor_day_has_its_own_sets),
        cmocka_unit_test(a_log_that_says_little_leaves_the_rest_as_planned),
        cmocka_unit_test(time_and_effort_are_those_of_the_log),
        cmocka_unit_test(what_was_missed_or_is_not_logged_was_not_done),
        cmocka_unit_test(a_day_off_keeps_its_reason),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
