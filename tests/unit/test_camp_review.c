/* The review of a camp: which days, phases, results, holds and waivers belong to it, worked out by hand from the plan below. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "done/camp_review.h"
#include "figures/dates.h"
#include "kg.h"
#include "model/programme.h"
#include "plan_reader.h"

/* The camp begins on Wednesday, 3 March, and its last week ends on Sunday, 28 March. Its base is the 3rd to the 9th, strength
 * the 10th to the 19th, a day less than it could have, the taper the 20th to the 27th, which is the bout's. */
static const char plan[] = "gym Slipway\n"
                           "    barbell  20 kg\n"
                           "    plates   4 x 20, 4 x 10, 4 x 5, 4 x 2.5 kg\n"
                           "    stations rack\n"
                           "test step over a wall\n"
                           "    unit cm\n"
                           "    typical error 1 cm\n"
                           "    common practice\n"
                           "test reach to a side\n"
                           "    unit cm\n"
                           "    side each side\n"
                           "    typical error 1 cm\n"
                           "    common practice\n"
                           "athlete Ann Cove\n"
                           "    trains at Slipway\n"
                           "    tests\n"
                           "        step over a wall : 38 cm on 2027-02-16\n"
                           "        step over a wall : 40 cm on 2027-02-17\n"
                           "        step over a wall : 43 cm on 2027-04-11\n"
                           "        step over a wall : 44 cm on 2027-04-12\n"
                           "        reach to a side  : 90 cm left on 2027-03-10\n"
                           "        reach to a side  : 91 cm right on 2027-03-10\n"
                           "athlete Bea Elland\n"
                           "    trains at Slipway\n"
                           "athlete Cal Drayton\n"
                           "    trains at Slipway\n"
                           "session Lift\n"
                           "    rpe 6\n"
                           "    straight A 2 sets rest 3:00\n"
                           "        back squat : 5 @ 60 kg\n"
                           "camp Before\n"
                           "    for Ann Cove\n"
                           "    starts 2027-02-22\n"
                           "    week 1\n"
                           "        monday Lift\n"
                           "            waive sparring-over in week 1\n"
                           "                because nobody else came\n"
                           "camp Spring\n"
                           "    for Ann Cove, Cal Drayton until 2027-03-04, Bea Elland\n"
                           "    starts 2027-03-03\n"
                           "    bout 2027-03-27 kickboxing 3 x 2:00 rest 1:00\n"
                           "    phases\n"
                           "        base     : 7 days\n"
                           "        strength : 7-11 days keep 1\n"
                           "        taper    : 8 days\n"
                           "        recovery : until medical check\n"
                           "    weeks 1-4\n"
                           "        wednesday pads : 60 min RPE 6\n"
                           "            absent Bea Elland, Cal Drayton\n"
                           "    weeks 1-3\n"
                           "        saturday roadwork : 30 min RPE 4\n"
                           "            optional\n"
                           "    week 2\n"
                           "        tuesday walk : 10 min RPE 2\n"
                           "            absent Bea Elland\n"
                           "    week 3\n"
                           "        friday Lift\n"
                           "            absent Bea Elland\n"
                           "            waive sparring-over in week 3\n"
                           "                because visitors came\n"
                           "camp Beside\n"
                           "    for Bea Elland\n"
                           "    starts 2027-03-08\n"
                           "    week 1\n"
                           "        tuesday pads : 10 min RPE 5\n"
                           "log 2027-02-22 Ann Cove, Lift\n"
                           "    A.1 : 5 @ 90 kg RPE 8\n"
                           "log 2027-03-03 Ann Cove, pads\n"
                           "    as planned\n"
                           "log 2027-03-09 Ann Cove, walk\n"
                           "    took 20 min\n"
                           "log 2027-03-10 Ann Cove, pads\n"
                           "    missed because exam\n"
                           "log 2027-03-13 Ann Cove, roadwork\n"
                           "    as planned\n";

struct reviewed {
    struct plan_reader reader;
    struct camp_review review;
    const struct programme *programme;
};

static void review(struct reviewed *reviewed, const char *more, int day, bool private)
{
    struct plan_reader *reader = &reviewed->reader;
    plan_reader_open(reader);
    plan_reader_shelf(reader);
    const char *text = arena_printf(reader->arena, "%s%s", plan, more);
    plan_reader_text(reader, "plan.bell", text, strlen(text));
    plan_reader_resolve(reader);
    if (diag_count(reader->diag, SEVERITY_ERROR))
        plan_reader_tell(reader);
    assert_int_equal(diag_count(reader->diag, SEVERITY_ERROR), 0);
    reader->programme->today = date_from_ymd(2027, 3, day);
    const struct camp *spring = NULL;
    for (size_t i = 0; i < reader->programme->camp_count; i++)
        if (strcmp(reader->programme->camps[i]->name.shown, "Spring") == 0)
            spring = reader->programme->camps[i];
    assert_non_null(spring);
    reviewed->programme = reader->programme;
    reviewed->review = review_of(reader->arena, reader->programme, spring, private);
}

/* --- days --- */

static int march(int day)
{
    return date_from_ymd(2027, 3, day);
}

static void expect_days(const struct review_days *days, int first, int last, size_t planned, milli load)
{
    assert_int_equal(days->first, march(first));
    assert_int_equal(days->last, march(last));
    assert_int_equal(days->planned, planned);
    assert_int_equal(days->load, load * 1000);
}

static void expect_kept(const struct review_days *days, enum adherence_of of, milli done, milli low, milli high)
{
    assert_true(days->kept.known);
    assert_int_equal(days->kept.of[of].done, done * 1000);
    assert_int_equal(days->kept.of[of].planned.low, low * 1000);
    assert_int_equal(days->kept.of[of].planned.high, high * 1000);
}

/* Of the session in the third week, whose minutes nothing above says. */
static milli lift_load(const struct programme *programme)
{
    for (size_t i = 0; i < programme->occasion_count; i++)
        if (programme->occasions[i].date == march(19))
            return 6 * programme->occasions[i].seconds / 60;
    return 0;
}

/* Ann has four pads of 360, three roads of 120, a walk of 20, the lift and the bout; Bea the roads and the bout. */
static void days_belong_to_their_week_and_phase(void **state)
{
    (void)state;
    struct reviewed all;
    review(&all, "", 15, false);
    const struct camp_review *found = &all.review;
    const milli lift = lift_load(all.programme), bout = 76; /* RPE 9.5 for eight minutes */
    assert_true(lift > 0);
    expect_days(&found->all, 3, 28, 14, 4 * 360 + 6 * 120 + 20 + lift + 2 * bout);
    assert_int_equal(found->week_count, 4);
    expect_days(&found->weeks[0], 1, 7, 3, 360 + 240);
    expect_days(&found->weeks[1], 8, 14, 4, 20 + 360 + 240);
    expect_days(&found->weeks[2], 15, 21, 4, 360 + lift + 240);
    expect_days(&found->weeks[3], 22, 28, 3, 360 + 2 * bout);
    assert_int_equal(found->phase_count, 3);
    expect_days(&found->phases[0], 3, 9, 4, 360 + 240 + 20);
    expect_days(&found->phases[1], 10, 19, 5, 2 * 360 + 240 + lift);
    expect_days(&found->phases[2], 20, 27, 5, 360 + 240 + 2 * bout);
    assert_string_equal(found->phases[0].name, "base");
    assert_string_equal(found->phases[2].name, "taper");
    assert_int_equal(found->shorter_count, 1);
    assert_string_equal(found->shorter[0]->name.shown, "strength");
    plan_reader_close(&all.reader);
}

/* A phase may be a day, and one that ends before it begins, which is an error elsewhere, is none. */
static void phases_of_a_day_and_of_none(void **state)
{
    (void)state;
    static const char odd[] = "athlete Ann Cove\n    stance southpaw\n"
                              "camp Spring\n    for Ann Cove\n    starts 2027-03-08\n"
                              "    phases\n        base : until 2027-03-01\n        peak : 1 days\n        rest : 2 days\n"
                              "    weeks 1-2\n        monday, tuesday pads : 60 min RPE 6\n";
    struct plan_reader reader;
    plan_reader_open(&reader);
    plan_reader_shelf(&reader);
    plan_reader_text(&reader, "plan.bell", odd, strlen(odd));
    plan_reader_resolve(&reader);
    assert_int_equal(diag_count(reader.diag, SEVERITY_ERROR), 1);
    const struct camp *camp = reader.programme->camps[0];
    assert_int_equal(camp->phase_count, 3);
    struct camp_review found = review_of(reader.arena, reader.programme, camp, false);
    assert_int_equal(found.phase_count, 2);
    for (size_t i = 0; i < 2; i++) {
        assert_string_equal(found.phases[i].name, i ? "rest" : "peak");
        assert_int_equal(found.phases[i].last - found.phases[i].first, i);
    }
    plan_reader_close(&reader);
}

static void what_was_done_is_of_days_gone_by(void **state)
{
    (void)state;
    struct reviewed all;
    review(&all, "", 15, false);
    const struct camp_review *found = &all.review;
    expect_kept(&found->all, ADHERENCE_SESSIONS, 3, 4, 5);
    expect_kept(&found->all, ADHERENCE_LOAD, 360 + 40 + 120, 2 * 360 + 20 + 120, 2 * 360 + 20 + 240);
    expect_kept(&found->weeks[0], ADHERENCE_SESSIONS, 1, 1, 2);
    expect_kept(&found->weeks[1], ADHERENCE_SESSIONS, 2, 3, 3);
    assert_false(found->weeks[2].kept.known);
    expect_kept(&found->phases[0], ADHERENCE_LOAD, 360 + 40, 360 + 20, 360 + 120 + 20);
    expect_kept(&found->phases[1], ADHERENCE_SESSIONS, 1, 2, 2);
    assert_false(found->phases[2].kept.known);
    plan_reader_close(&all.reader);
}

static void those_who_have_work_have_their_own(void **state)
{
    (void)state;
    struct reviewed all;
    review(&all, "", 15, false);
    assert_int_equal(all.review.athlete_count, 2);
    const struct review_athlete *ann = &all.review.athletes[0], *bea = &all.review.athletes[1];
    assert_string_equal(ann->athlete->name.shown, "Ann Cove");
    assert_string_equal(bea->athlete->name.shown, "Bea Elland");
    static const size_t anns[] = {2, 3, 3, 2};
    for (size_t i = 0; i < 4; i++) {
        assert_int_equal(ann->weeks[i].planned, anns[i]);
        assert_int_equal(ann->weeks[i].first, all.review.weeks[i].first);
        assert_int_equal(bea->weeks[i].planned, 1);
    }
    assert_int_equal(ann->all.planned, 10);
    assert_int_equal(bea->all.planned, 4);
    expect_kept(&ann->all, ADHERENCE_SESSIONS, 3, 4, 5);
    assert_false(bea->all.kept.known);
    assert_int_equal(all.review.waiver_count, 1);
    assert_string_equal(all.review.waivers[0]->because, "visitors came");
    plan_reader_close(&all.reader);
}

/* Epley: 80 kg for five that could have been seven is 80 (1 + 7/30) = 98.667 kg. The log before the camp counts nowhere. */
static void what_was_lifted_in_the_camp_is_estimated(void **state)
{
    (void)state;
    struct reviewed all;
    review(&all, "log 2027-03-19 Ann Cove, Lift\n    A.1 : 2 x 5 @ 80 kg RPE 8\n", 22, false);
    const struct review_athlete *ann = &all.review.athletes[0];
    assert_int_equal(ann->estimate_count, 1);
    assert_int_equal(ann->estimates[0].maximum, KG(98.667));
    assert_int_equal(ann->estimates[0].before, 0);
    assert_int_equal(ann->estimates[0].first_day, march(19));
    assert_int_equal(all.review.athletes[1].estimate_count, 0);
    plan_reader_close(&all.reader);
}

/* --- results and holds --- */

/* Two weeks before the camp are 17 February, two after it 11 April. */
static void results_from_two_weeks_around_the_camp(void **state)
{
    (void)state;
    struct reviewed all;
    review(&all, "", 15, false);
    const struct review_athlete *ann = &all.review.athletes[0];
    assert_int_equal(ann->test_count, 3);
    for (size_t i = 0; i < 3; i++) {
        const struct review_test *test = &ann->tests[i];
        if (test->side == TEST_WHOLE) {
            assert_string_equal(test->test->name.shown, "step over a wall");
            assert_int_equal(test->first.date, date_from_ymd(2027, 2, 17));
            assert_int_equal(test->last.date, date_from_ymd(2027, 4, 11));
            assert_int_equal(test->change.verdict, TEST_BEYOND_ERROR);
        } else {
            assert_string_equal(test->test->name.shown, "reach to a side");
            assert_int_equal((int)test->first.value, test->side == TEST_LEFT ? 90 : 91);
            assert_int_equal(test->last.date, test->first.date);
            assert_true(test->change.change == 0);
            assert_int_equal(test->change.verdict, TEST_TOO_FEW); /* nothing to compare it with */
            assert_true(test->change.least == 0);
        }
    }
    assert_int_equal(all.review.athletes[1].test_count, 0);
    plan_reader_close(&all.reader);
}

/* A hold since the day SINCE, all of whose steps were reached in the fourteen days up to its end, or with none. */
static struct reviewed hold_since(int since, bool ended, bool private)
{
    static const struct {
        const char *line;
        int after;
    } entries[] = {{"reached 2a", 2}, {"reached 2b", 4}, {"reached 3", 6}, {"reached 4", 8}, {"agreed", 10}, {"reached 5", 11}, {"ended", 14}};
    char day[DATE_TEXT_SIZE], more[1000];
    int length = snprintf(more, sizeof more, "private Ann Cove\n    hold head\n        since %s\n", date_format(since, day));
    for (size_t i = 0; ended && i < sizeof entries / sizeof *entries; i++)
        length += snprintf(more + length, sizeof more - (size_t)length, "        %s by doctor Ines Tarrant on %s\n", entries[i].line,
                           date_format(since + entries[i].after, day));
    struct reviewed all;
    review(&all, more, 30, private);
    return all;
}

static void expect_holds(int since, bool ended, bool private, size_t count)
{
    struct reviewed all = hold_since(since, ended, private);
    const struct review_athlete *ann = &all.review.athletes[0];
    assert_int_equal(ann->hold_count, count);
    if (count) {
        assert_int_equal(ann->holds[0].since, since);
        assert_int_equal(ann->holds[0].ended, ended ? since + 14 : 0);
    }
    plan_reader_close(&all.reader);
}

static void holds_of_its_days_for_the_coach_alone(void **state)
{
    (void)state;
    expect_holds(march(28), false, true, 1);
    expect_holds(march(29), false, true, 0);
    expect_holds(march(3) - 14, true, true, 1);
    expect_holds(march(2) - 14, true, true, 0);
    expect_holds(march(2) - 14, false, true, 1);
    expect_holds(march(10), true, true, 1);
    expect_holds(march(10), true, false, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(days_belong_to_their_week_and_phase),
        cmocka_unit_test(phases_of_a_day_and_of_none),
        cmocka_unit_test(what_was_done_is_of_days_gone_by),
        cmocka_unit_test(those_who_have_work_have_their_own),
        cmocka_unit_test(what_was_lifted_in_the_camp_is_estimated),
        cmocka_unit_test(results_from_two_weeks_around_the_camp),
        cmocka_unit_test(holds_of_its_days_for_the_coach_alone),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
