/* What somebody is called, how old somebody is and how long somebody has lifted, on the day before and on the day itself. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "figures/dates.h"
#include "measure/person.h"
#include "model/athlete.h"

static void years_are_complete_on_the_birthday(void **state)
{
    (void)state;
    static const struct {
        int year, month, day, age;
    } rows[] = {{2027, 6, 14, 17}, {2027, 6, 15, 18}, {2027, 6, 16, 18}, {2027, 5, 30, 17},
                {2027, 7, 1, 18},  {2009, 6, 15, 0},  {2010, 6, 14, 0},  {2010, 6, 15, 1}};
    const struct athlete athlete = {.born = date_from_ymd(2009, 6, 15)}, nobody = {0};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        int day = date_from_ymd(rows[i].year, rows[i].month, rows[i].day);
        assert_int_equal(athlete_age(&athlete, day), rows[i].age);
        assert_int_equal(athlete_age(&nobody, day), -1);
        assert_int_equal(athlete_is_young(&athlete, day), rows[i].age < 18);
        assert_false(athlete_is_young(&nobody, day));
        for (int age = 0; age <= 20; age++) {
            assert_int_equal(athlete_under(&athlete, day, age), rows[i].age < age);
            assert_false(athlete_under(&nobody, day, age));
            assert_int_equal(athlete_is_aged(&athlete, day, age, 0), rows[i].age >= age);
            assert_int_equal(athlete_is_aged(&athlete, day, 0, age), !age || rows[i].age < age);
            assert_int_equal(athlete_is_aged(&athlete, day, age, age + 1), rows[i].age == age);
        }
    }
    assert_int_equal(athlete_age(&athlete, 0), -1); /* no day */
}

/* An age group says that somebody is younger than its age, and nothing of younger ones. */
static void by_the_age_group(void **state)
{
    (void)state;
    const int day = date_from_ymd(2027, 3, 1);
    const struct athlete cadet = {.under_age = 16}, infant = {.under_age = 1}, nobody = {0};
    assert_true(athlete_under(&cadet, day, 16));
    assert_true(athlete_under(&cadet, day, 17));
    assert_false(athlete_under(&cadet, day, 15));
    assert_true(athlete_under(&infant, day, 1));
    assert_true(athlete_is_young(&cadet, day));
    assert_true(athlete_is_aged(&cadet, day, 0, 16));
    assert_false(athlete_is_aged(&cadet, day, 0, 15));
    assert_true(athlete_is_aged(&infant, day, 0, 1));
    assert_false(athlete_is_aged(&cadet, day, 1, 16)); /* it may be younger */
    assert_false(athlete_is_aged(&cadet, day, 0, 0));
    assert_false(athlete_is_aged(&nobody, day, 0, 16));
    const struct athlete grown = {.born = date_from_ymd(2000, 1, 1), .under_age = 18}; /* a day of birth goes before it */
    assert_false(athlete_under(&grown, day, 18));
}

/* Only steps of a hold and the floor look into the private file, and only where the plan says nothing. */
static void by_the_private_file(void **state)
{
    (void)state;
    const int day = date_from_ymd(2027, 3, 1), young = date_from_ymd(2012, 1, 1), grown = date_from_ymd(2000, 1, 1);
    const struct athlete child = {.born_private = young}, adult = {.born_private = grown};
    const struct athlete said = {.born = grown, .born_private = young}, group = {.under_age = 18, .born_private = grown};
    assert_true(athlete_is_young(&child, day));
    assert_false(athlete_is_young(&adult, day));
    assert_false(athlete_is_young(&said, day));
    assert_true(athlete_is_young(&group, day));
    assert_int_equal(athlete_age(&child, day), -1);
    assert_false(athlete_under(&child, day, 18));
    assert_false(athlete_is_aged(&child, day, 0, 18));
}

static void a_lifting_age_grows(void **state)
{
    (void)state;
    static const struct {
        int year, month;
        enum level level;
    } rows[] = {{2025, 4, LEVEL_NOVICE},       {2026, 3, LEVEL_NOVICE},       {2026, 4, LEVEL_INTERMEDIATE},
                {2028, 3, LEVEL_INTERMEDIATE}, {2028, 4, LEVEL_ADVANCED},     {2040, 1, LEVEL_ADVANCED},
                {2025, 12, LEVEL_NOVICE},      {2026, 12, LEVEL_INTERMEDIATE}};
    const int since = date_from_ymd(2025, 4, 1);
    const struct athlete by_date = {.lifting_since = since}, nobody = {.level = LEVEL_NOVICE};
    const struct athlete given = {.level = LEVEL_ADVANCED, .level_given = true, .lifting_since = since};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        int day = date_from_ymd(rows[i].year, rows[i].month, 1);
        assert_int_equal(athlete_level_on(&by_date, day), rows[i].level);
        assert_int_equal(athlete_level_on(&given, day), LEVEL_ADVANCED);
        assert_int_equal(athlete_level_on(&nobody, day), LEVEL_NOVICE);
    }
    const struct athlete only_given = {.level_given = true};
    assert_true(athlete_level_known(&by_date));
    assert_true(athlete_level_known(&only_given));
    assert_false(athlete_level_known(&nobody));
}

static void called_as_the_plan_says(void **state)
{
    (void)state;
    const struct athlete whole = {.name = {.shown = "Oriel Tam"}}, brief = {.name = {.shown = "Oriel Tam"}, .called = "Ori"};
    assert_string_equal(athlete_called(&whole), "Oriel Tam");
    assert_string_equal(athlete_called(&brief), "Ori");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(years_are_complete_on_the_birthday),
        cmocka_unit_test(by_the_age_group),
        cmocka_unit_test(by_the_private_file),
        cmocka_unit_test(a_lifting_age_grows),
        cmocka_unit_test(called_as_the_plan_says),
    };
    return cmocka_run_group_tests_name("ages", tests, NULL, NULL);
}
