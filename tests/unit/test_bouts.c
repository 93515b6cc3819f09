/* Several bouts in one camp: to which of them each day counts, and what happens where one of them moves. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "figures/dates.h"
#include "limits/limits.h"
#include "measure/member.h"
#include "model/programme.h"
#include "plan_reader.h"

static const char CLUB[] = "gym Slipway\n"
                           "    stations  rack\n"
                           "athlete Nils Ferrow\n"
                           "    trains at  Slipway\n"
                           "limits Own\n"
                           "    10 days before a bout\n"
                           "        sparring rounds  none\n"
                           "            common practice\n"
                           "    every week\n"
                           "        sparring rounds  at most 9\n"
                           "            common practice\n";

static void open_plan(struct plan_reader *reader, const char *plan)
{
    plan_reader_open(reader);
    plan_reader_shelf(reader);
    plan_reader_text(reader, "club.bell", CLUB, strlen(CLUB));
    plan_reader_text(reader, "plan.bell", plan, strlen(plan));
    plan_reader_resolve(reader);
    if (diag_count(reader->diag, SEVERITY_ERROR))
        plan_reader_tell(reader);
    assert_int_equal(diag_count(reader->diag, SEVERITY_ERROR), 0);
}

static int day(int month, int of_month)
{
    return date_from_ymd(2027, month, of_month);
}

/* A camp of the bouts that FIRST and SECOND tell of, with what stands below them. */
static void open_camp(struct plan_reader *reader, const char *first, const char *second)
{
    char plan[1024];
    snprintf(plan, sizeof plan,
             "camp Spring\n"
             "    for     Nils Ferrow\n"
             "    starts  2027-03-01\n"
             "    limits  Own\n"
             "%s%s"
             "    phases\n"
             "        build    : until taper\n"
             "        taper    : 7 days\n"
             "        recovery : 4 days\n"
             "    in taper\n"
             "        monday  pads : 30 min RPE 5\n"
             "    week 1 out\n"
             "        friday  technique : 30 min\n"
             "    week 0 out\n"
             "        sunday  walk : 30 min\n"
             "    3 days out\n"
             "        that day  technique : 10 min\n",
             first, second);
    open_plan(reader, plan);
}

static const struct occasion *planned(const struct plan_reader *reader, int date)
{
    const struct programme *programme = reader->programme;
    for (size_t i = 0; i < programme->occasion_count; i++)
        if (programme->occasions[i].date == date)
            return &programme->occasions[i];
    return NULL;
}

/* "build 2027-03-01 to 2027-03-13, ...": the phases of the camp. */
static const char *phases_of(const struct plan_reader *reader)
{
    static char words[512];
    const struct camp *camp = reader->programme->camps[0];
    char first[DATE_TEXT_SIZE], last[DATE_TEXT_SIZE];
    size_t used = 0;
    words[0] = '\0';
    for (size_t i = 0; i < camp->phase_count; i++)
        used += (size_t)snprintf(words + used, sizeof words - used, "%s%s %s %s", i ? ", " : "", camp->phases[i].name.shown,
                                 date_format(camp->phases[i].first, first) + 5,
                                 camp->phases[i].open ? "on" : date_format(camp->phases[i].last, last) + 5);
    return words;
}

static const char FIRST[] = "    bout    2027-03-20 kickboxing\n";
static const char SECOND[] = "    bout    2027-05-01 boxing 3 x 3:00\n";

static void the_phases_lead_to_each(void **state)
{
    (void)state;
    struct plan_reader reader;
    open_camp(&reader, FIRST, SECOND);
    assert_string_equal(phases_of(&reader), "build 03-01 03-13, taper 03-14 03-20, recovery 03-21 03-24, "
                                            "build 03-25 04-24, taper 04-25 05-01, recovery 05-02 05-05");
    const struct camp *camp = reader.programme->camps[0];
    assert_ptr_equal(camp->phases[2].bout, camp->bouts[0]);
    assert_ptr_equal(camp->phases[3].bout, camp->bouts[1]);
    assert_int_equal(camp->last, day(5, 5));
    plan_reader_close(&reader);
}

static void phases_of_its_own_lead_to_one(void **state)
{
    (void)state;
    struct plan_reader reader;
    open_camp(&reader, FIRST,
              "    bout    2027-05-01 boxing\n"
              "        phases\n"
              "            strength : until sharpen\n"
              "            sharpen  : 10 days\n"
              "            recovery : until medical check\n");
    assert_string_equal(phases_of(&reader), "build 03-01 03-13, taper 03-14 03-20, recovery 03-21 03-24, "
                                            "strength 03-25 04-21, sharpen 04-22 05-01, recovery 05-02 on");
    plan_reader_close(&reader);
}

/* Lines that count back come once for each bout; the week of a bout is its own to the end. */
static void days_count_to_the_next(void **state)
{
    (void)state;
    struct plan_reader reader;
    open_camp(&reader, FIRST, SECOND);
    static const struct {
        int month, of_month, weeks_out;
    } planned_days[] = {{3, 12, 1}, {3, 15, 0}, {3, 17, 0}, {3, 20, 0}, {3, 21, -1}, {4, 23, 1}, {4, 26, 0}, {4, 28, 0},
                        {5, 1, 0},  {5, 2, -1}};
    size_t count = sizeof planned_days / sizeof planned_days[0];
    assert_int_equal(reader.programme->occasion_count, count);
    for (size_t i = 0; i < count; i++) {
        const struct occasion *occasion = planned(&reader, day(planned_days[i].month, planned_days[i].of_month));
        assert_non_null(occasion);
        assert_int_equal(occasion->weeks_out, planned_days[i].weeks_out);
    }
    assert_non_null(occasion_bout(planned(&reader, day(3, 20))));
    assert_int_equal(occasion_bout(planned(&reader, day(5, 1)))->rounds, 3);
    plan_reader_close(&reader);
}

/* Days before it was announced stay; the second bout's phases get the days that are left. */
static void the_first_is_postponed(void **state)
{
    (void)state;
    struct plan_reader reader;
    open_camp(&reader,
              "    bout    2027-03-20 kickboxing\n"
              "        postponed to 2027-04-10 on 2027-03-16\n",
              SECOND);
    assert_string_equal(phases_of(&reader), "build 03-01 03-13, taper 03-14 03-15, build 03-16 04-03, taper 04-04 04-10, "
                                            "recovery 04-11 04-14, build 04-15 04-24, taper 04-25 05-01, recovery 05-02 05-05");
    assert_int_equal(planned(&reader, day(3, 15))->weeks_out, 0);
    assert_int_equal(planned(&reader, day(4, 2))->weeks_out, 1);
    assert_null(planned(&reader, day(3, 20)));
    assert_non_null(occasion_bout(planned(&reader, day(4, 10))));
    plan_reader_close(&reader);
}

static void the_first_is_postponed_behind_the_second(void **state)
{
    (void)state;
    struct plan_reader reader;
    open_camp(&reader,
              "    bout    2027-03-20 kickboxing\n"
              "        postponed to 2027-06-05 on 2027-03-10\n",
              SECOND);
    const struct camp *camp = reader.programme->camps[0];
    assert_int_equal(camp->bouts[0]->day, day(5, 1));
    assert_int_equal(camp->bouts[1]->day, day(6, 5));
    assert_string_equal(phases_of(&reader), "build 03-01 03-09, build 03-10 04-24, taper 04-25 05-01, recovery 05-02 05-05, "
                                            "build 05-06 05-29, taper 05-30 06-05, recovery 06-06 06-09");
    plan_reader_close(&reader);
}

/* Each moves from the day on which that was announced. */
static void both_are_postponed(void **state)
{
    (void)state;
    struct plan_reader reader;
    open_camp(&reader,
              "    bout    2027-03-20 kickboxing\n"
              "        postponed to 2027-03-27 on 2027-03-16\n",
              "    bout    2027-05-01 boxing\n"
              "        postponed to 2027-05-15 on 2027-04-28\n");
    assert_string_equal(phases_of(&reader), "build 03-01 03-13, taper 03-14 03-15, build 03-16 03-20, taper 03-21 03-27, "
                                            "recovery 03-28 03-31, build 04-01 04-24, taper 04-25 04-27, "
                                            "build 04-28 05-08, taper 05-09 05-15, recovery 05-16 05-19");
    plan_reader_close(&reader);
}

/* Phases stay; from the day on which that was announced, nothing else counts towards it. */
static void the_first_is_cancelled(void **state)
{
    (void)state;
    struct plan_reader reader;
    open_camp(&reader,
              "    bout    2027-03-20 kickboxing\n"
              "        cancelled on 2027-03-10\n",
              SECOND);
    assert_string_equal(phases_of(&reader), "build 03-01 03-13, taper 03-14 03-20, recovery 03-21 03-24, "
                                            "build 03-25 04-24, taper 04-25 05-01, recovery 05-02 05-05");
    assert_null(planned(&reader, day(3, 20)));
    const struct camp *camp = reader.programme->camps[0];
    assert_ptr_equal(camp_next_bout(camp, day(3, 9)), camp->bouts[0]);
    assert_ptr_equal(camp_next_bout(camp, day(3, 10)), camp->bouts[1]);
    assert_null(camp_bout_on(camp, day(3, 20)));
    plan_reader_close(&reader);
}

/* How many sparring rounds the week from the Monday FIRST may have. */
static milli most_rounds(const struct plan_reader *reader, int first)
{
    const struct programme *programme = reader->programme;
    struct limit_table table;
    limit_table_build(programme->arena, programme, programme->camps[0], &table);
    const struct holder holder = {programme->athletes[0], NULL, first, first + 6};
    const struct layered *found = limit_table_find(&table, counted_find("sparring rounds"), &holder);
    assert_non_null(found);
    return found->limit->value;
}

static void days_before_a_bout_are_those_before_each(void **state)
{
    (void)state;
    struct plan_reader reader;
    open_camp(&reader, FIRST, SECOND);
    assert_int_equal(most_rounds(&reader, day(3, 1)), 9000);
    assert_int_equal(most_rounds(&reader, day(3, 8)), 0); /* ten days before the 20th */
    assert_int_equal(most_rounds(&reader, day(3, 22)), 9000);
    assert_int_equal(most_rounds(&reader, day(4, 12)), 9000);
    assert_int_equal(most_rounds(&reader, day(4, 19)), 0);
    plan_reader_close(&reader);
}

/* A waiver in a phase that comes twice holds in both, and not between them. */
static void a_waiver_is_for_each_taper(void **state)
{
    (void)state;
    struct plan_reader reader;
    open_camp(&reader, FIRST,
              "    bout    2027-05-01 boxing 3 x 3:00\n"
              "    waive load-rise in taper\n"
              "        because two bouts\n");
    const struct programme *programme = reader.programme;
    assert_int_equal(programme->waiver_count, 2);
    assert_int_equal(programme->waivers[0].first, day(3, 14));
    assert_int_equal(programme->waivers[0].last, day(3, 20));
    assert_int_equal(programme->waivers[1].first, day(4, 25));
    assert_int_equal(programme->waivers[1].last, day(5, 1));
    plan_reader_close(&reader);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_phases_lead_to_each),
        cmocka_unit_test(phases_of_its_own_lead_to_one),
        cmocka_unit_test(days_count_to_the_next),
        cmocka_unit_test(the_first_is_postponed),
        cmocka_unit_test(the_first_is_postponed_behind_the_second),
        cmocka_unit_test(both_are_postponed),
        cmocka_unit_test(the_first_is_cancelled),
        cmocka_unit_test(days_before_a_bout_are_those_before_each),
        cmocka_unit_test(a_waiver_is_for_each_taper),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
