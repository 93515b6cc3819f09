/* Why somebody does nothing on a day, as far as everybody may know it; and who is away for part of some days. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "measure/absence.h"
#include "measure/hold.h"
#include "model/programme.h"

enum { DAY = 740000 };

static void why_nothing_is_done(void **state)
{
    (void)state;
    static const struct {
        enum left_why why;
        enum absence absence;
    } rows[] = {{LEFT_OUT, ABSENCE_AWAY}, {LEFT_CLOSED, ABSENCE_CLOSED}, {LEFT_ABSENT, ABSENCE_ABSENT}, {LEFT_HELD, ABSENCE_NONE}};
    const struct athlete athlete = {.number = 1};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        /* The day before the gym was closed for all of it; of the day itself a line was left out first. */
        const struct left_out left_out[] = {
            {.occasion = {.athlete = &athlete, .date = DAY - 1}, .whole = true, .why = LEFT_CLOSED},
            {.occasion = {.athlete = &athlete, .date = DAY}, .whole = false, .why = LEFT_OUT},
            {.occasion = {.athlete = &athlete, .date = DAY}, .whole = true, .why = rows[i].why},
        };
        const struct programme programme = {.left_out = left_out, .left_out_count = 3};
        assert_int_equal(athlete_absence(&programme, &athlete, DAY), rows[i].absence);
        assert_int_equal(athlete_absence(&programme, &athlete, DAY - 1), ABSENCE_CLOSED);
        assert_int_equal(athlete_absence(&programme, &athlete, DAY + 1), ABSENCE_NONE);
    }
}

static void out_and_closed_days(void **state)
{
    (void)state;
    const struct closure closure = {.first = DAY - 1, .last = DAY + 1};
    const struct gym gym = {.closures = &closure, .closure_count = 1};
    const struct out out = {.first = DAY, .last = DAY};
    const struct athlete athlete = {.gym = &gym, .outs = &out, .out_count = 1, .number = 1};
    const struct left_out absent = {.occasion = {.athlete = &athlete, .date = DAY + 1}, .whole = true, .why = LEFT_ABSENT};
    const struct programme programme = {.left_out = &absent, .left_out_count = 1};
    assert_int_equal(athlete_absence(&programme, &athlete, DAY - 2), ABSENCE_NONE);
    assert_int_equal(athlete_absence(&programme, &athlete, DAY - 1), ABSENCE_CLOSED);
    assert_int_equal(athlete_absence(&programme, &athlete, DAY), ABSENCE_AWAY); /* out goes before a closed door */
    assert_int_equal(athlete_absence(&programme, &athlete, DAY + 1), ABSENCE_ABSENT);
    static const char *const names[] = {"", "away", "closed", "absent"};
    for (enum absence i = ABSENCE_NONE; i <= ABSENCE_ABSENT; i++)
        assert_string_equal(absence_name(i), names[i]);
}

/* Only days given by `away` are said to be that, whichever line it is. */
static void said_away(void **state)
{
    (void)state;
    const struct out outs[] = {{.first = DAY, .last = DAY + 1, .away = true}, {.first = DAY + 5, .last = DAY + 6},
                               {.first = DAY + 8, .last = DAY + 8, .away = true}};
    const struct athlete athlete = {.outs = outs, .out_count = 3};
    for (int day = -1; day <= 9; day++) {
        assert_int_equal(athlete_said_away(&athlete, DAY + day), day == 0 || day == 1 || day == 8);
        assert_int_equal(athlete_out(&athlete, DAY + day), day == 0 || day == 1 || day == 5 || day == 6 || day == 8);
    }
}

/* Who joins a camp in the middle of some days was not there for all of them. */
static void a_part_of_a_camp(void **state)
{
    (void)state;
    struct athlete athlete = {.number = 1};
    struct athlete *members[] = {&athlete};
    struct membership from = {.first = DAY, .last = DAY + 20};
    struct camp camps[] = {{.first = DAY - 14, .last = DAY + 20}, {.first = DAY - 14, .last = DAY + 20}};
    camps[0].athletes = (void *)members;
    camps[0].members = &from;
    camps[0].athlete_count = 1;
    struct camp *list[] = {&camps[0], &camps[1]};
    const struct programme programme = {.camps = list, .camp_count = 2};
    assert_false(athlete_away(&programme, &athlete, DAY, DAY + 6));
    assert_true(athlete_away(&programme, &athlete, DAY - 1, DAY + 6));
    assert_true(athlete_away(&programme, &athlete, DAY - 6, DAY));
    assert_false(athlete_away(&programme, &athlete, DAY - 14, DAY - 1));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(why_nothing_is_done),
        cmocka_unit_test(out_and_closed_days),
        cmocka_unit_test(said_away),
        cmocka_unit_test(a_part_of_a_camp),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
