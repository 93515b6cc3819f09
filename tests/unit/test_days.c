/* Who is there on which day, and where: away, absent, closed, at another gym. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "figures/dates.h"
#include "measure/hold.h"
#include "measure/kit.h"
#include "measure/member.h"
#include "model/programme.h"
#include "plan_reader.h"

static const char CLUB[] = "gym Slipway\n"
                           "    barbells  20 kg\n"
                           "    plates    4 x 10, 4 x 5, 4 x 2.5, 4 x 1.25 kg\n"
                           "    stations  rack\n"
                           "    closed    2027-03-08 to 2027-03-09\n"
                           "gym Annexe\n"
                           "    barbells  15 kg\n"
                           "    plates    4 x 10, 4 x 5 kg\n"
                           "    stations  rack\n"
                           "athlete Nils Ferrow\n"
                           "    trains at  Slipway\n"
                           "    bests\n"
                           "        back squat : 1 @ 100 kg on 2027-02-01\n"
                           "athlete Tevita Sorrel\n"
                           "    trains at  Slipway\n"
                           "session Legs\n"
                           "    straight A  3 sets rest 2:00\n"
                           "        back squat : 5/4/3/2 @ RPE 6\n"
                           "session Shares\n"
                           "    straight A  3 sets rest 2:00\n"
                           "        back squat : 5 @ 53%\n";

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

/* What is planned for the athlete of NUMBER on a day, or NULL. */
static const struct occasion *planned(const struct plan_reader *reader, size_t number, int date)
{
    const struct programme *programme = reader->programme;
    for (size_t i = 0; i < programme->occasion_count; i++)
        if (programme->occasions[i].date == date && programme->occasions[i].athlete->number == number)
            return &programme->occasions[i];
    return NULL;
}

static const struct left_out *left_out_on(const struct plan_reader *reader, size_t number, int date)
{
    size_t count;
    const struct left_out *all =
        athlete_left_out(reader->programme, reader->programme->athletes[number], &count);
    for (size_t i = 0; i < count; i++)
        if (all[i].occasion.date == date)
            return &all[i];
    return NULL;
}

static void test_absent(void **state)
{
    (void)state;
    struct plan_reader reader;
    open_plan(&reader, "camp Spring\n"
                       "    for     Nils Ferrow, Tevita Sorrel\n"
                       "    starts  2027-03-01\n"
                       "    weeks 1-4\n"
                       "        wednesday  Legs\n"
                       "            absent  Nils Ferrow on 2027-03-17 because exam\n");
    assert_null(planned(&reader, 0, day(3, 17)));
    assert_int_equal(left_out_on(&reader, 0, day(3, 17))->why, LEFT_ABSENT);
    assert_non_null(planned(&reader, 1, day(3, 17)));
    /* who was not there goes on where it was left */
    assert_int_equal(planned(&reader, 0, day(3, 24))->column, 2);
    assert_int_equal(planned(&reader, 1, day(3, 24))->column, 3);
    /* and nobody asks that such a week meets its floors */
    assert_true(athlete_away(reader.programme, reader.programme->athletes[0], day(3, 15), day(3, 21)));
    assert_false(athlete_away(reader.programme, reader.programme->athletes[0], day(3, 22), day(3, 28)));
    assert_false(athlete_away(reader.programme, reader.programme->athletes[1], day(3, 15), day(3, 21)));
    plan_reader_close(&reader);
}

static void test_absent_from_all(void **state)
{
    (void)state;
    struct plan_reader reader;
    open_plan(&reader, "camp Spring\n"
                       "    for     Nils Ferrow, Tevita Sorrel\n"
                       "    starts  2027-03-01\n"
                       "    weeks 1-2\n"
                       "        friday  pads : 30 min RPE 5\n"
                       "            absent  Nils Ferrow\n");
    assert_null(planned(&reader, 0, day(3, 5)));
    assert_null(planned(&reader, 0, day(3, 12)));
    assert_non_null(planned(&reader, 1, day(3, 12)));
    plan_reader_close(&reader);
}

static void test_away(void **state)
{
    (void)state;
    struct plan_reader reader;
    open_plan(&reader, "athlete Ilse Varholm\n"
                       "    away  2027-03-03 to 2027-03-05 because exam\n"
                       "camp Spring\n"
                       "    for     Ilse Varholm\n"
                       "    starts  2027-03-01\n"
                       "    week 1\n"
                       "        tuesday, wednesday, friday, saturday  pads : 30 min RPE 5\n"
                       "camp Other\n"
                       "    for     Ilse Varholm\n"
                       "    starts  2027-03-01\n"
                       "    week 1\n"
                       "        thursday  sparring : 3 x 2:00\n");
    assert_non_null(planned(&reader, 2, day(3, 2)));
    for (int date = day(3, 3); date <= day(3, 5); date++)
        assert_null(planned(&reader, 2, date));
    assert_non_null(planned(&reader, 2, day(3, 6)));
    assert_true(athlete_away(reader.programme, reader.programme->athletes[2], day(3, 1), day(3, 7)));
    assert_false(athlete_away(reader.programme, reader.programme->athletes[2], day(3, 6), day(3, 7)));
    plan_reader_close(&reader);
}

/* A hold that is read takes the place of `out since`, and not that of `away`. */
static void test_away_on_hold(void **state)
{
    (void)state;
    static const char *const said[] = {"    away       2027-03-03\n",
                                       "    out since  2027-03-03\n        until 2027-03-03\n"};
    for (size_t i = 0; i < 2; i++) {
        struct plan_reader reader;
        char plan[512];
        snprintf(plan, sizeof plan,
                 "athlete Ilse Varholm\n%s"
                 "    hold head\n"
                 "        since    2027-02-20\n"
                 "        reached  2a by club physio on 2027-02-22\n"
                 "camp Spring\n"
                 "    for     Ilse Varholm\n"
                 "    starts  2027-03-01\n"
                 "    week 1\n"
                 "        wednesday  walk : 30 min RPE 2\n",
                 said[i]);
        open_plan(&reader, plan);
        assert_int_equal(planned(&reader, 2, day(3, 3)) != NULL, i == 1);
        plan_reader_close(&reader);
    }
}

static void test_closed(void **state)
{
    (void)state;
    struct plan_reader reader;
    open_plan(&reader, "camp Spring\n"
                       "    for     Nils Ferrow, Tevita Sorrel\n"
                       "    starts  2027-03-01\n"
                       "    weeks 1-2\n"
                       "        monday   Legs\n"
                       "            at  Annexe for Tevita Sorrel\n"
                       "        tuesday  roadwork : 30 min RPE 4\n"
                       "        wednesday  Legs\n");
    assert_int_equal(left_out_on(&reader, 0, day(3, 8))->why, LEFT_CLOSED);
    assert_null(planned(&reader, 0, day(3, 8)));
    assert_non_null(planned(&reader, 1, day(3, 8)));
    assert_non_null(planned(&reader, 0, day(3, 9))); /* on the road no door is closed */
    assert_non_null(planned(&reader, 0, day(3, 10)));
    plan_reader_close(&reader);
}

static void test_at(void **state)
{
    (void)state;
    struct plan_reader reader;
    open_plan(&reader, "camp Spring\n"
                       "    for     Nils Ferrow\n"
                       "    starts  2027-03-01\n"
                       "    at      Annexe from 2027-03-03 to 2027-03-04\n"
                       "    week 1\n"
                       "        tuesday    Shares\n"
                       "        wednesday  Shares\n"
                       "        thursday   Shares\n"
                       "            at  Slipway\n"
                       "        friday     Shares\n");
    static const char *const gyms[] = {"Slipway", "Annexe", "Slipway", "Slipway"};
    static const int kilograms[] = {53, 55, 53, 53}; /* 52.5 at Slipway: the nearest each can make of 53 kg */
    for (int i = 0; i < 4; i++) {
        const struct occasion *occasion = planned(&reader, 0, day(3, 2 + i));
        assert_string_equal(occasion_gym(occasion)->name.shown, gyms[i]);
        mass made = occasion->blocks[0].items[0].runs[0].load.made;
        assert_int_equal((made / (MASS_KG / 10) + 5) / 10, kilograms[i]);
    }
    plan_reader_close(&reader);
}

static const struct phase *phase_on(const struct camp *camp, int date)
{
    for (size_t i = 0; i < camp->phase_count; i++)
        if (date >= camp->phases[i].first && date <= camp->phases[i].last)
            return &camp->phases[i];
    return NULL;
}

/* What came before the day it was heard of stays counted to the old day, the rest to the new one. */
static void test_postponed(void **state)
{
    (void)state;
    struct plan_reader reader;
    open_plan(&reader, "camp Spring\n"
                       "    for     Nils Ferrow\n"
                       "    starts  2027-03-01\n"
                       "    bout    2027-03-20 kickboxing\n"
                       "        postponed to 2027-04-03 on 2027-03-16\n"
                       "    phases\n"
                       "        build : until taper\n"
                       "        taper : 7 days\n"
                       "    in taper\n"
                       "        monday, wednesday  pads : 30 min RPE 5\n"
                       "    week 1 out\n"
                       "        friday  technique : 30 min\n");
    const struct camp *camp = reader.programme->camps[0];
    assert_int_equal(camp->bouts[0]->day, day(4, 3));
    assert_string_equal(phase_on(camp, day(3, 13))->name.shown, "build");
    assert_string_equal(phase_on(camp, day(3, 15))->name.shown, "taper");
    assert_string_equal(phase_on(camp, day(3, 16))->name.shown, "build");
    assert_string_equal(phase_on(camp, day(3, 28))->name.shown, "taper");
    assert_non_null(planned(&reader, 0, day(3, 15)));
    assert_null(planned(&reader, 0, day(3, 17)));
    assert_non_null(planned(&reader, 0, day(3, 29)));
    assert_non_null(planned(&reader, 0, day(3, 12))); /* a week out of the old day */
    assert_non_null(planned(&reader, 0, day(3, 26))); /* and of the new one */
    assert_int_equal(planned(&reader, 0, day(3, 15))->weeks_out, 0);
    assert_int_equal(planned(&reader, 0, day(3, 26))->weeks_out, 1);
    plan_reader_close(&reader);
}

static void test_tournament(void **state)
{
    (void)state;
    struct plan_reader reader;
    open_plan(&reader, "camp Spring\n"
                       "    for     Nils Ferrow\n"
                       "    starts  2027-03-01\n"
                       "    bout    2027-03-19, 2027-03-20, 2027-03-21 boxing 3 x 3:00\n"
                       "        result  won by decision on 2027-03-19\n"
                       "        result  lost by stoppage on 2027-03-20\n"
                       "    phases\n"
                       "        build    : until taper\n"
                       "        taper    : 7 days\n"
                       "        recovery : 7 days\n"
                       "    week 1\n"
                       "        monday  pads : 30 min RPE 5\n");
    const struct camp *camp = reader.programme->camps[0];
    assert_int_equal(phase_on(camp, day(3, 13))->first, day(3, 13)); /* seven days before the first */
    assert_int_equal(phase_on(camp, day(3, 13))->last, day(3, 21));
    assert_int_equal(phase_on(camp, day(3, 22))->last, day(3, 28));
    assert_true(camp->bouts[0]->result_known);
    assert_true(camp->bouts[0]->stopped);
    assert_int_equal(camp->bouts[0]->stopped_on, day(3, 20));
    assert_int_equal(reader.diag->count, 1);
    assert_string_equal(diagnostic_name(reader.diag->items[0]->diagnostic), "day-not-reached");
    plan_reader_close(&reader);
}

static void test_members(void **state)
{
    (void)state;
    struct plan_reader reader;
    open_plan(&reader, "camp Spring\n"
                       "    for     Nils Ferrow until 2027-03-15, Tevita Sorrel from 2027-03-16\n"
                       "    starts  2027-03-01\n"
                       "    weeks 1-3\n"
                       "        monday, tuesday  pads : 30 min RPE 5\n");
    assert_non_null(planned(&reader, 0, day(3, 15)));
    assert_null(planned(&reader, 0, day(3, 16)));
    assert_null(planned(&reader, 1, day(3, 15)));
    assert_non_null(planned(&reader, 1, day(3, 16)));
    assert_true(athlete_away(reader.programme, reader.programme->athletes[0], day(3, 15), day(3, 21)));
    assert_false(athlete_away(reader.programme, reader.programme->athletes[0], day(3, 1), day(3, 7)));
    plan_reader_close(&reader);
}

static int bouts(const struct plan_reader *reader, size_t number)
{
    int count = 0;
    for (size_t i = 0; i < reader->programme->occasion_count; i++)
        count += reader->programme->occasions[i].athlete->number == number &&
                 occasion_bout(&reader->programme->occasions[i]) != NULL;
    return count;
}

static void test_bout_planned(void **state)
{
    (void)state;
    struct plan_reader reader;
    open_plan(&reader, "camp Spring\n"
                       "    for     Nils Ferrow, Tevita Sorrel until 2027-03-12\n"
                       "    starts  2027-03-01\n"
                       "    bout    2027-03-12, 2027-03-13 19:30 kickboxing 3 x 2:00 rest 0:45\n"
                       "log 2027-03-12 Nils Ferrow, bout\n"
                       "    took    7 min RPE 9\n");
    const struct occasion *bout = planned(&reader, 0, day(3, 12));
    assert_int_equal(bouts(&reader, 0), 2);
    assert_int_equal(bouts(&reader, 1), 1);
    assert_int_equal(bout->clock, (19 * 60 + 30) * 60);
    assert_int_equal(bout->rounds, 3);
    assert_int_equal(bout->round_seconds, 120);
    assert_int_equal(bout->seconds, 3 * 120 + 2 * 45);
    assert_int_equal(bout->rpe.low, 9000);
    assert_true(bout->logged);
    assert_int_equal(bout->outcome.seconds, 7 * 60);
    assert_string_equal(bout->camp->bouts[0]->words, "kickboxing 3 x 2:00 rest 0:45");
    plan_reader_close(&reader);
}

/* What BOUT, a line and those below it, plans in March. */
static int bouts_of(const char *bout)
{
    char plan[400];
    struct plan_reader reader;
    snprintf(plan, sizeof plan, "camp Spring\n    for     Nils Ferrow\n    starts  2027-03-01\n    bout    %s\n", bout);
    open_plan(&reader, plan);
    int count = bouts(&reader, 0);
    plan_reader_close(&reader);
    return count;
}

static void test_bout_not_planned(void **state)
{
    (void)state;
    assert_int_equal(bouts_of("2027-03-12 boxing"), 1);
    assert_int_equal(bouts_of("2027-03-12 boxing\n        cancelled on 2027-03-08"), 0);
    assert_int_equal(bouts_of("2027-03-12 boxing\n        postponed to 2027-03-19 on 2027-03-08"), 1);
    assert_int_equal(bouts_of("2027-03-12, 2027-03-13, 2027-03-14 boxing"), 3);
    assert_int_equal(bouts_of("2027-03-12, 2027-03-13, 2027-03-14 boxing\n"
                              "        result  lost by decision on 2027-03-13"), 2);
    assert_int_equal(bouts_of("2027-03-12 boxing\n    week 2\n        friday  bout amateur boxing"), 0);
}

static void test_bout_by_rules(void **state)
{
    (void)state;
    struct plan_reader reader;
    open_plan(&reader, "camp Spring\n"
                       "    for     Nils Ferrow\n"
                       "    starts  2027-03-01\n"
                       "    bout    2027-03-12 amateur boxing\n");
    const struct occasion *bout = planned(&reader, 0, day(3, 12));
    assert_int_equal(bout->clock, -1);
    assert_int_equal(bout->rounds, 3);
    assert_int_equal(bout->seconds, 3 * 180 + 2 * 60);
    plan_reader_close(&reader);
}

/* A weigh-in takes an hour and has no load; it moves with its bout. */
static void test_weigh_in(void **state)
{
    (void)state;
    struct plan_reader reader;
    open_plan(&reader, "camp Spring\n"
                       "    for     Nils Ferrow\n"
                       "    starts  2027-03-01\n"
                       "    bout    2027-03-12 boxing\n"
                       "        weigh-in  2027-03-11 17:00\n"
                       "        postponed to 2027-03-19 on 2027-03-08\n");
    assert_null(planned(&reader, 0, day(3, 11)));
    const struct occasion *weigh_in = planned(&reader, 0, day(3, 18));
    assert_int_equal(weigh_in->clock, 17 * 3600);
    assert_int_equal(weigh_in->seconds, 0);
    assert_true(weigh_in->activity->rest);
    plan_reader_close(&reader);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_absent),       cmocka_unit_test(test_absent_from_all),
        cmocka_unit_test(test_away),         cmocka_unit_test(test_away_on_hold),
        cmocka_unit_test(test_closed),       cmocka_unit_test(test_at),
        cmocka_unit_test(test_postponed),    cmocka_unit_test(test_tournament),
        cmocka_unit_test(test_members),      cmocka_unit_test(test_bout_planned),
        cmocka_unit_test(test_bout_by_rules), cmocka_unit_test(test_weigh_in), cmocka_unit_test(test_bout_not_planned),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
