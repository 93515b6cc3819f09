/* The days of a camp's phases. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "figures/dates.h"
#include "model/programme.h"
#include "plan_reader.h"

/* Reads PHASES of a camp from 2027-03-01 with the lines BOUT and compares each "name first last", and what is left out. */
static void expect_camp(const char *bout, const char *phases, const char *wanted)
{
    struct plan_reader reader;
    plan_reader_open(&reader);
    plan_reader_shelf(&reader);
    const char *text = arena_printf(reader.arena,
                                    "athlete Wren Holloway\n    stance southpaw\ncamp C\n    for Wren Holloway\n"
                                    "    starts 2027-03-01\n%s    phases\n%s",
                                    bout, phases);
    plan_reader_text(&reader, "plan.bell", text, strlen(text));
    plan_reader_resolve(&reader);
    assert_int_equal(diag_count(reader.diag, SEVERITY_ERROR), 0);
    const struct camp *camp = reader.programme->camps[0];
    struct text got = {0};
    for (size_t i = 0; i < camp->phase_count; i++) {
        char first[DATE_TEXT_SIZE], last[DATE_TEXT_SIZE];
        date_format(camp->phases[i].first, first);
        date_format(camp->phases[i].last, last);
        text_addf(&got, "%s %s %s\n", camp->phases[i].name.shown, first + 5, last + 5);
    }
    for (size_t i = 0; i < camp->left_phase_count; i++)
        text_addf(&got, "no %s\n", camp->left_phases[i].shown);
    assert_string_equal(text_get(&got), wanted);
    text_free(&got);
    plan_reader_close(&reader);
}

/* The same with a bout on 2027-05-08 where BOUT. */
static void expect_phases(bool bout, const char *phases, const char *wanted)
{
    expect_camp(bout ? "    bout 2027-05-08\n" : "", phases, wanted);
}

static void a_day_ends_a_phase_before_a_bout(void **state)
{
    (void)state;
    expect_phases(true,
                  "        base : until 2027-03-22\n        strength : until taper\n        taper : 10 days\n",
                  "base 03-01 03-21\nstrength 03-22 04-28\ntaper 04-29 05-08\n");
}

static void several_days_end_several_phases(void **state)
{
    (void)state;
    expect_phases(true,
                  "        base : until 2027-03-15\n        build : 1 week\n        strength : until 2027-04-12\n"
                  "        power : until 2027-04-26\n        taper : until 2027-05-09\n        recovery : 1 week\n",
                  "base 03-01 03-14\nbuild 03-15 03-21\nstrength 03-22 04-11\npower 04-12 04-25\n"
                  "taper 04-26 05-08\nrecovery 05-09 05-15\n");
}

static void lengths_before_a_day_count_from_the_start(void **state)
{
    (void)state;
    expect_phases(false, "        base : 2 weeks\n        strength : until 2027-04-12\n        power : 1 week\n",
                  "base 03-01 03-14\nstrength 03-15 04-11\npower 04-12 04-18\n");
    expect_phases(true, "        base : 2 weeks\n        strength : until 2027-04-12\n        power : until taper\n"
                        "        taper : 1 week\n",
                  "base 03-01 03-14\nstrength 03-15 04-11\npower 04-12 05-01\ntaper 05-02 05-08\n");
}

static const char RANGES[] = "        base : until strength\n        strength : 2-5 weeks keep 3\n"
                             "        power : 1-3 weeks keep 2\n        taper : 7-10 days keep 1\n        recovery : 1-2 weeks\n";

static void ranges_shrink_as_the_bout_comes_nearer(void **state)
{
    (void)state;
    expect_camp("    bout 2027-05-29\n", RANGES,
                "base 03-01 03-24\nstrength 03-25 04-28\npower 04-29 05-19\ntaper 05-20 05-29\nrecovery 05-30 06-12\n");
    expect_camp("    bout 2027-04-20\n", RANGES,
                "strength 03-01 03-20\npower 03-21 04-10\ntaper 04-11 04-20\nrecovery 04-21 05-04\nno base\n");
    expect_camp("    bout 2027-03-09\n", RANGES,
                "taper 03-01 03-09\nrecovery 03-10 03-23\nno base\nno strength\nno power\n");
    expect_camp("    bout 2027-03-08, 2027-03-09 boxing\n", RANGES,
                "taper 03-01 03-09\nrecovery 03-10 03-23\nno base\nno strength\nno power\n");
    /* a cancelled bout leaves them counted to its day */
    expect_camp("    bout 2027-03-09\n        cancelled on 2027-03-04\n", RANGES,
                "taper 03-01 03-09\nrecovery 03-10 03-23\nno base\nno strength\nno power\n");
}

static void a_postponed_bout_leaves_what_is_over(void **state)
{
    (void)state;
    /* nearer: strength, of which a week is over, ends a day later, and there is no time for power */
    expect_camp("    bout 2027-05-29\n        postponed to 2027-04-11 on 2027-04-01\n", RANGES,
                "base 03-01 03-24\nstrength 03-25 04-01\ntaper 04-02 04-11\nrecovery 04-12 04-25\nno power\n");
    /* nearer still: nothing but a taper */
    expect_camp("    bout 2027-05-29\n        postponed to 2027-04-08 on 2027-04-01\n", RANGES,
                "base 03-01 03-24\nstrength 03-25 03-31\ntaper 04-01 04-08\nrecovery 04-09 04-22\nno power\n");
    /* later: there is time for the strength that was left out */
    expect_camp("    bout 2027-04-02\n        postponed to 2027-05-29 on 2027-03-02\n", RANGES,
                "base 03-01 03-24\nstrength 03-25 04-28\npower 04-29 05-19\ntaper 05-20 05-29\nrecovery 05-30 06-12\n");
}

static void ranges_end_on_a_day_too(void **state)
{
    (void)state;
    expect_phases(true, "        base : 1-3 weeks keep 2\n        strength : until 2027-03-20\n        power : 2-6 weeks keep 2\n"
                        "        taper : 7-10 days keep 1\n",
                  "base 03-01 03-19\npower 03-20 04-28\ntaper 04-29 05-08\nno strength\n");
    /* forward a range is as long as it may be */
    expect_phases(false, "        base : 1-3 weeks keep 2\n        strength : 10-12 days\n",
                  "base 03-01 03-21\nstrength 03-22 04-02\n");
}

/* The columns, from 1, that two sessions of six weeks take, each session's week by week, with BY behind the line. */
static void expect_columns(const char *by, const char *wanted)
{
    struct plan_reader reader;
    plan_reader_open(&reader);
    plan_reader_shelf(&reader);
    const char *text = arena_printf(reader.arena,
                                    "athlete Wren Holloway\n    stance southpaw\n"
                                    "session One\n    straight A 3 sets\n        push-up : 1/2/3/4/5/6\n"
                                    "session Two\n    straight A 3 sets\n        push-up : 1/2/3/4/5/6\n"
                                    "camp C\n    for Wren Holloway\n    starts 2027-03-01\n    weeks 1-6\n"
                                    "        monday in turn One, Two%s\n", by);
    plan_reader_text(&reader, "plan.bell", text, strlen(text));
    plan_reader_resolve(&reader);
    assert_int_equal(diag_count(reader.diag, SEVERITY_ERROR), 0);
    struct text got = {0};
    for (size_t i = 0; i < reader.programme->occasion_count; i++) {
        const struct occasion *occasion = &reader.programme->occasions[i];
        text_addf(&got, "%s %d, ", occasion->session->name.shown, occasion->column + 1);
        assert_int_equal(occasion->blocks[0].items[0].runs[0].parts[0].amount.high, 1000 * (occasion->column + 1));
    }
    assert_string_equal(text_get(&got), wanted);
    text_free(&got);
    plan_reader_close(&reader);
}

static void series_go_by_weeks_met_or_of_the_camp(void **state)
{
    (void)state;
    static const char met[] = "One 1, Two 1, One 2, Two 2, One 3, Two 3, ";
    expect_columns("", met);
    expect_columns(" by weeks met", met);
    expect_columns(" by weeks of the camp", "One 1, Two 2, One 3, Two 4, One 5, Two 6, ");
    expect_columns(" from column 3", "One 3, Two 3, One 4, Two 4, One 5, Two 5, ");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_day_ends_a_phase_before_a_bout),
        cmocka_unit_test(several_days_end_several_phases),
        cmocka_unit_test(lengths_before_a_day_count_from_the_start),
        cmocka_unit_test(ranges_shrink_as_the_bout_comes_nearer),
        cmocka_unit_test(a_postponed_bout_leaves_what_is_over),
        cmocka_unit_test(ranges_end_on_a_day_too),
        cmocka_unit_test(series_go_by_weeks_met_or_of_the_camp),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
