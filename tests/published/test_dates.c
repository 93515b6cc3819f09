/* Days and ISO 8601 weeks against published examples. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <glib.h>

#include "figures/dates.h"

static void assert_week(int day, int year, int week, int weekday)
{
    int got_year, got_week;

    assert_true(date_iso_week(day, &got_year, &got_week));
    assert_int_equal(got_year, year);
    assert_int_equal(got_week, week);
    assert_int_equal(date_weekday(day), weekday);
}

/* Source: the examples commonly given with ISO 8601 for the days around a new year. */
static void week_belongs_to_the_year_of_its_thursday(void **state)
{
    (void)state;
    assert_week(date_from_ymd(2005, 1, 1), 2004, 53, 6);
    assert_week(date_from_ymd(2008, 12, 29), 2009, 1, 1);
    assert_week(date_from_ymd(2027, 1, 3), 2026, 53, 7);
    assert_week(date_from_ymd(2006, 12, 31), 2006, 52, 7);
    assert_week(date_from_ymd(2019, 12, 30), 2020, 1, 1);
}

/*
 * Source: a full cycle of the Gregorian calendar is 400 years of 146097 days, which is 20871 weeks
 * with nothing left over, and 71 of its years have 53 weeks.
 */
static void calendar_comes_round_in_400_years(void **state)
{
    (void)state;
    int long_years = 0;

    assert_int_equal(date_from_ymd(2401, 1, 1) - date_from_ymd(2001, 1, 1), 146097);
    for (int year = 2001; year <= 2400; year++) {
        int week_year, week;
        /* 28 December always lies in its year's last week. */
        assert_true(date_iso_week(date_from_ymd(year, 12, 28), &week_year, &week));
        assert_int_equal(week_year, year);
        assert_true(week == 52 || week == 53);
        long_years += week == 53;
    }
    assert_int_equal(long_years, 71);
}

static void every_day_has_the_next_weekday_and_its_own_monday(void **state)
{
    (void)state;
    int year_before = 0, week_before = 0;

    for (int day = 1; day <= DATE_LAST; day++) {
        int year, month, day_of_month, week_year, week;
        assert_true(date_to_ymd(day, &year, &month, &day_of_month));
        assert_int_equal(date_from_ymd(year, month, day_of_month), day);
        assert_int_equal(date_weekday(day), (day + 6) % 7 + 1);
        assert_int_equal(date_weekday(date_monday(day)), 1);
        assert_in_range(day - date_monday(day), 0, 6);

        assert_true(date_iso_week(day, &week_year, &week));
        if (date_weekday(day) != 1) {
            assert_int_equal(week_year, year_before);
            assert_int_equal(week, week_before);
        } else if (week != 1) {
            assert_int_equal(week_year, year_before);
            assert_int_equal(week, week_before + 1);
        } else {
            assert_int_equal(week_year, year_before + 1);
            assert_true(day == 1 || week_before >= 52);
        }
        year_before = week_year;
        week_before = week;
    }
}

static void days_that_do_not_exist_are_refused(void **state)
{
    (void)state;
    g_log_set_always_fatal(G_LOG_LEVEL_CRITICAL); /* GLib is not even asked for a day that is none: it would complain */
    assert_int_equal(date_from_ymd(2027, 2, 29), DATE_NONE);
    assert_int_equal(date_from_ymd(1900, 2, 29), DATE_NONE);
    assert_int_not_equal(date_from_ymd(2000, 2, 29), DATE_NONE);
    assert_int_equal(date_from_ymd(2027, 4, 31), DATE_NONE);
    assert_int_equal(date_from_ymd(2027, 13, 1), DATE_NONE);
    assert_int_equal(date_from_ymd(2027, 0, 1), DATE_NONE);
    assert_int_equal(date_from_ymd(2027, 1, 0), DATE_NONE);
    assert_int_equal(date_from_ymd(0, 1, 1), DATE_NONE);
    assert_int_equal(date_from_ymd(10000, 1, 1), DATE_NONE);
    /* These would be good dates if they were cut to GDate's narrower types. */
    assert_int_equal(date_from_ymd(65536 + 2027, 1, 1), DATE_NONE);
    assert_int_equal(date_from_ymd(2027, 1, 256 + 1), DATE_NONE);
    assert_int_equal(date_from_ymd(2027, -1, -1), DATE_NONE);
    assert_int_equal(date_from_ymd(2027 - 65536, 1, 1), DATE_NONE);
    assert_int_equal(date_from_ymd(2027, 1, 1 - 256), DATE_NONE);
}

static void no_date_gives_nothing(void **state)
{
    (void)state;
    const int none[] = {DATE_NONE, -1, DATE_LAST + 1};
    char text[DATE_TEXT_SIZE] = "x";
    int year = 1, week = 1, month = 1, day = 1;

    for (size_t i = 0; i < sizeof none / sizeof none[0]; i++) {
        assert_false(date_is_valid(none[i]));
        assert_false(date_to_ymd(none[i], &year, &month, &day));
        assert_int_equal(year + month + day, 0);
        assert_false(date_iso_week(none[i], &year, &week));
        assert_int_equal(year + week, 0);
        assert_int_equal(date_weekday(none[i]), 0);
        assert_int_equal(date_monday(none[i]), DATE_NONE);
        assert_string_equal(date_format(none[i], text), "");
    }
}

static void text_is_iso_8601(void **state)
{
    (void)state;
    char text[DATE_TEXT_SIZE] = "xxxxxxxxxxx"; /* what was there before has no part in it */

    assert_string_equal(date_format(date_from_ymd(2027, 1, 3), text), "2027-01-03");
    assert_string_equal(date_format(1, text), "0001-01-01");
    assert_string_equal(date_format(DATE_LAST, text), "9999-12-31");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(week_belongs_to_the_year_of_its_thursday),
        cmocka_unit_test(calendar_comes_round_in_400_years),
        cmocka_unit_test(every_day_has_the_next_weekday_and_its_own_monday),
        cmocka_unit_test(days_that_do_not_exist_are_refused),
        cmocka_unit_test(no_date_gives_nothing),
        cmocka_unit_test(text_is_iso_8601),
    };
    return cmocka_run_group_tests_name("dates", tests, NULL, NULL);
}
