/* How much was done of what was planned, and how hard it felt: sessions, sets and load of each day, the range that comes
 * from work that may be left out, and the last day that counts. The sums are worked out by hand. */
#include <limits.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "done/adherence.h"
#include "done/felt.h"
#include "model/programme.h"
#include "plan_reader.h"

/* In a week: seven sets, 20 easy minutes that may be left out, an exam, pads; and in the second, lighter one, few sets. */
static const char head[] = "athlete Wren Holloway\n"
                           "    stance southpaw\n"
                           "athlete Nils Ferrow\n"
                           "    stance southpaw\n"
                           "session S\n"
                           "    rpe 7\n"
                           "    straight A 3 sets rest 1:00\n"
                           "        on a poor day 1 set\n"
                           "        push-up : 5\n"
                           "    superset B 2 sets rest 1:00\n"
                           "        goblet squat : 8 @ 16 kg\n"
                           "        push-up      : 4\n"
                           "session Few\n"
                           "    straight A 4 sets rest 1:00\n"
                           "        on a poor day 3 sets\n"
                           "        push-up : 5\n"
                           "camp C\n"
                           "    for Wren Holloway\n"
                           "    starts 2027-01-04\n"
                           "    weeks 1-2\n"
                           "        monday S\n"
                           "        tuesday roadwork : 20 min RPE 4\n"
                           "            optional\n"
                           "        wednesday exam : 60 min\n"
                           "        thursday pads : 30 min RPE 6-7\n"
                           "    week 2\n"
                           "        friday Few\n"
                           "        deload 50% of the sets\n";

enum { MONDAY, TUESDAY, WEDNESDAY, THURSDAY };

static void open_plan(struct plan_reader *reader, const char *logs)
{
    plan_reader_open(reader);
    plan_reader_shelf(reader);
    const char *text = arena_printf(reader->arena, "%s%s", head, logs);
    plan_reader_text(reader, "plan.bell", text, strlen(text));
    plan_reader_resolve(reader);
    if (diag_count(reader->diag, SEVERITY_ERROR))
        plan_reader_tell(reader);
    assert_int_equal(diag_count(reader->diag, SEVERITY_ERROR), 0);
    assert_int_equal(reader->programme->occasion_count, 9);
}

static const struct occasion *day_of(const struct plan_reader *reader, int day)
{
    for (size_t i = 0; i < reader->programme->occasion_count; i++)
        if (reader->programme->occasions[i].date == reader->programme->camps[0]->first + day)
            return &reader->programme->occasions[i];
    fail_msg("nothing is planned on day %d", day);
    return NULL;
}

/* --- one day --- */

static struct adherence day_with(const char *logs, int day)
{
    struct plan_reader reader;
    open_plan(&reader, logs);
    const struct occasion *occasion = day_of(&reader, day);
    struct adherence adherence = adherence_of(&occasion, 1, INT_MAX);
    plan_reader_close(&reader);
    return adherence;
}

static void expect_share(const struct adherence *adherence, enum adherence_of of, milli done, milli low, milli high)
{
    assert_true(adherence->known);
    assert_int_equal(adherence->of[of].done, done);
    assert_int_equal(adherence->of[of].planned.low, low);
    assert_int_equal(adherence->of[of].planned.high, high);
}

static void expect_sets(const char *lines, int day, milli done, milli planned)
{
    char logs[256];
    snprintf(logs, sizeof logs, "log %s\n%s", day == MONDAY ? "2027-01-04 Wren Holloway, S" : "2027-01-15 Wren Holloway, Few", lines);
    struct adherence adherence = day_with(logs, day);
    expect_share(&adherence, ADHERENCE_SETS, done, planned, planned);
}

static void sets_that_were_done(void **state)
{
    (void)state;
    expect_sets("    as planned\n", MONDAY, 7000, 7000);
    expect_sets("    took 30 min\n", MONDAY, 7000, 7000);
    expect_sets("    took 0 min\n", MONDAY, 0, 7000);
    expect_sets("    missed because exam\n", MONDAY, 0, 7000);
    expect_sets("    skipped A because the hall closed\n", MONDAY, 4000, 7000);
    expect_sets("    skipped B.1 because the hall closed\n", MONDAY, 5000, 7000);
    expect_sets("    B.1 : 8 @ 16 kg; 2 x 6 @ 16 kg\n", MONDAY, 8000, 7000);
    expect_sets("    B.1 : 8 @ 16 kg\n", MONDAY, 6000, 7000);
    expect_sets("    on a poor day A\n", MONDAY, 5000, 7000);
    expect_sets("    on a poor day B\n", MONDAY, 7000, 7000);
}

/* A lighter week plans two of the four, and a poor day's three are more than that. */
static void a_poor_day_never_has_more_sets_than_were_planned(void **state)
{
    (void)state;
    expect_sets("    as planned\n", 11, 2000, 2000);
    expect_sets("    on a poor day A\n", 11, 2000, 2000);
}

static void load_that_was_done(void **state)
{
    (void)state;
    const struct {
        const char *lines;
        milli done;
    } cases[] = {
        {"    as planned\n", 195000},         {"    took 40 min RPE 8\n", 320000}, {"    took RPE 8\n", 240000},
        {"    took 20 min\n", 130000},        {"    took RPE 7-8\n", 225000},      {"    took 0 min\n", 0},
        {"    missed because exam\n", 0},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char logs[256];
        snprintf(logs, sizeof logs, "log 2027-01-07 Wren Holloway, pads\n%s", cases[i].lines);
        struct adherence adherence = day_with(logs, THURSDAY);
        expect_share(&adherence, ADHERENCE_LOAD, cases[i].done, 195000, 195000);
        expect_share(&adherence, ADHERENCE_SESSIONS, cases[i].done ? 1000 : 0, 1000, 1000);
    }
}

static void what_may_be_left_out_makes_a_range(void **state)
{
    (void)state;
    struct adherence left = day_with("", TUESDAY), done = day_with("log 2027-01-05 Wren Holloway, roadwork\n    as planned\n", TUESDAY);
    expect_share(&left, ADHERENCE_SESSIONS, 0, 0, 1000);
    expect_share(&left, ADHERENCE_LOAD, 0, 0, 80000);
    expect_share(&done, ADHERENCE_SESSIONS, 1000, 1000, 1000);
    expect_share(&done, ADHERENCE_LOAD, 80000, 80000, 80000);
}

static void what_is_no_training_counts_nowhere(void **state)
{
    (void)state;
    assert_false(day_with("", WEDNESDAY).known);
}

/* --- several days --- */

static void days_after_the_last_count_nowhere(void **state)
{
    (void)state;
    struct plan_reader reader;
    open_plan(&reader, "log 2027-01-04 Wren Holloway, S\n    as planned\n");
    const struct occasion *days[] = {day_of(&reader, MONDAY), day_of(&reader, TUESDAY), day_of(&reader, THURSDAY)};
    int first = reader.programme->camps[0]->first;
    assert_false(adherence_of(days, 3, 0).known);
    assert_false(adherence_of(days, 3, first - 1).known);
    struct adherence one = adherence_of(days, 3, first), all = adherence_of(days, 3, first + THURSDAY);
    expect_share(&one, ADHERENCE_SESSIONS, 1000, 1000, 1000);
    expect_share(&all, ADHERENCE_SESSIONS, 1000, 2000, 3000);
    plan_reader_close(&reader);
}

static void the_last_day_is_that_of_the_last_log_or_yesterday(void **state)
{
    (void)state;
    struct plan_reader reader;
    open_plan(&reader, "log 2027-01-05 Wren Holloway, roadwork\n    as planned\n"
                       "log 2027-01-04 Wren Holloway, S\n    as planned\n");
    struct programme *programme = reader.programme;
    const struct athlete *wren = programme->athletes[0], *nils = programme->athletes[1];
    assert_string_equal(wren->name.shown, "Wren Holloway");
    int tuesday = programme->camps[0]->first + TUESDAY;
    static const int after[] = {-30, 0, 1, 2, 3, 10}, last[] = {0, 0, 0, 1, 2, 9};
    for (size_t i = 0; i < sizeof after / sizeof *after; i++) {
        programme->today = tuesday + after[i];
        assert_int_equal(adherence_last(programme, wren), tuesday + last[i]);
        assert_int_equal(adherence_last(programme, nils), 0);
    }
    plan_reader_close(&reader);
}

static void shares_are_rounded_down(void **state)
{
    (void)state;
    struct range share;
    assert_false(kept_share(&(struct done_share){.done = 0, .planned = {0, 0}}, &share));
    assert_true(kept_share(&(struct done_share){.done = 2000, .planned = {3000, 4000}}, &share));
    assert_int_equal(share.low, 50000);
    assert_int_equal(share.high, 66666);
    /* Nothing had to be done: there is but one share. */
    assert_true(kept_share(&(struct done_share){.done = 1000, .planned = {0, 4000}}, &share));
    assert_int_equal(share.low, 25000);
    assert_int_equal(share.high, 25000);
    assert_true(kept_share(&(struct done_share){.done = 1, .planned = {1, 4}}, &share));
    assert_int_equal(share.low, 25000);
    assert_int_equal(share.high, 100000);
    assert_true(kept_share(&(struct done_share){.done = 0, .planned = {1, 1}}, &share));
    assert_int_equal(share.high, 0);
}

/* --- sums that would not fit --- */

/* A day of SETS sets, of which its log says DONE. */
struct many_sets {
    struct logged_set set;
    struct logged_line line;
    struct done log;
    struct item item;
    struct block block;
    struct occasion occasion;
};

static const struct occasion *many(struct many_sets *many, int sets, int done)
{
    many->set = (struct logged_set){.count = done};
    many->line = (struct logged_line){.ref = "A.1", .sets = &many->set, .set_count = 1};
    many->log = (struct done){.lines = &many->line, .line_count = 1};
    many->item = (struct item){.ref = "A.1", .sets = sets};
    many->block = (struct block){.letter = 'A', .items = &many->item, .item_count = 1};
    many->occasion = (struct occasion){.log = &many->log, .blocks = &many->block, .block_count = 1};
    return &many->occasion;
}

/* What comes once either sum is above 10^9 sets is left out of both. */
static void expect_sum(int sets, int done, bool full)
{
    struct many_sets first, second;
    const struct occasion *both[] = {many(&first, sets, done), many(&second, 2, 3)};
    struct adherence sum = adherence_of(both, 2, INT_MAX);
    milli more = full ? 0 : 1000;
    expect_share(&sum, ADHERENCE_SETS, (milli)done * 1000 + 3 * more, (milli)sets * 1000 + 2 * more, (milli)sets * 1000 + 2 * more);
}

static void a_sum_beyond_all_use_grows_no_more(void **state)
{
    (void)state;
    expect_sum(1000000000, 1, false);
    expect_sum(1000000001, 1, true);
    expect_sum(1, 1000000000, false);
    expect_sum(1, 1000000001, true);
}

/* --- how it felt --- */

static void how_it_was_meant_and_how_it_felt(void **state)
{
    (void)state;
    struct plan_reader reader;
    open_plan(&reader, "log 2027-01-04 Wren Holloway, S\n    took RPE 8\n"
                       "log 2027-01-05 Wren Holloway, roadwork\n    as planned\n"
                       "log 2027-01-07 Wren Holloway, pads\n    took RPE 6-7\n"
                       "log 2027-01-11 Wren Holloway, S\n    took RPE 8.5\n"
                       "log 2027-01-14 Wren Holloway, pads\n    took RPE 8\n"
                       "log 2027-01-15 Wren Holloway, Few\n    took RPE 8\n");
    const struct occasion *all[9];
    for (size_t i = 0; i < 9; i++)
        all[i] = &reader.programme->occasions[i];
    int first = reader.programme->camps[0]->first;
    struct felt *felt;
    /* S: 7 and 7, 8 and 8.5; pads: 6.5 twice, 6.5 and 8. Nothing is meant for the session Few, and roadwork was not rated. */
    assert_int_equal(felt_of(reader.arena, all, 9, first, first + 13, &felt), 2);
    assert_string_equal(felt[0].what, "S");
    assert_int_equal(felt[0].count, 2);
    assert_int_equal(felt[0].intended, 7000);
    assert_int_equal(felt[0].felt, 8250);
    assert_string_equal(felt[1].what, "pads");
    assert_int_equal(felt[1].count, 2);
    assert_int_equal(felt[1].intended, 6500);
    assert_int_equal(felt[1].felt, 7250);
    assert_int_equal(felt_of(reader.arena, all, 9, first, first + THURSDAY, &felt), 2);
    assert_int_equal(felt[1].felt, 6500);
    assert_int_equal(felt_of(reader.arena, all, 9, first + 1, first + THURSDAY, &felt), 1);
    assert_int_equal(felt_of(reader.arena, all, 9, first + 1, first + THURSDAY - 1, &felt), 0);
    plan_reader_close(&reader);
}

/* A session has the name of its first version, however the later ones are written. */
static void versions_of_a_session_are_one_kind(void **state)
{
    (void)state;
    struct plan_reader reader;
    open_plan(&reader, "session s from 2027-01-11\n    rpe 7\n    straight A 3 sets rest 1:00\n        push-up : 5\n"
                       "log 2027-01-04 Wren Holloway, S\n    took RPE 8\n"
                       "log 2027-01-11 Wren Holloway, S\n    took RPE 6\n");
    const struct occasion *both[] = {day_of(&reader, MONDAY), day_of(&reader, MONDAY + 7)};
    struct felt *felt;
    assert_int_equal(felt_of(reader.arena, both, 2, 1, INT_MAX, &felt), 1);
    assert_string_equal(felt->what, "S");
    assert_int_equal(felt->count, 2);
    assert_int_equal(felt->felt, 7000);
    plan_reader_close(&reader);
}

/* A mean is rounded to the nearest thousandth. */
static void a_mean_of_three_is_rounded(void **state)
{
    (void)state;
    const struct activity pads = {.name = {.shown = "pads"}};
    struct occasion days[3];
    const struct occasion *all[3];
    for (size_t i = 0; i < 3; i++) {
        days[i] = (struct occasion){.activity = &pads, .rpe = {1, 1}, .outcome = {.rpe = {7000, 7000 + 2 * (i == 0)}}};
        all[i] = &days[i];
    }
    days[0].rpe = (struct range){3, 3};
    struct arena *arena = arena_new();
    struct felt *felt;
    assert_int_equal(felt_of(arena, all, 3, 0, 0, &felt), 1);
    assert_int_equal(felt->count, 3);
    assert_int_equal(felt->intended, 2); /* 5/3 */
    assert_int_equal(felt->felt, 7000);  /* 21001/3 */
    days[0].rpe = (struct range){1, 1};
    days[1].outcome.rpe = (struct range){7002, 7002};
    assert_int_equal(felt_of(arena, all, 3, 0, 0, &felt), 1);
    assert_int_equal(felt->intended, 1);
    assert_int_equal(felt->felt, 7001); /* 21003/3 */
    const struct occasion *four[] = {all[0], all[0], all[2], all[2]};
    days[2].rpe = (struct range){2, 2};
    assert_int_equal(felt_of(arena, four, 4, 0, 0, &felt), 1);
    assert_int_equal(felt->intended, 2); /* 6/4 */
    assert_int_equal(felt->felt, 7001);  /* 28002/4 */
    assert_int_equal(felt_of(arena, all, 3, 0, 0, &felt), 1);
    assert_int_equal(felt->intended, 1); /* 4/3 */
    arena_free(arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(sets_that_were_done),
        cmocka_unit_test(a_poor_day_never_has_more_sets_than_were_planned),
        cmocka_unit_test(load_that_was_done),
        cmocka_unit_test(what_may_be_left_out_makes_a_range),
        cmocka_unit_test(what_is_no_training_counts_nowhere),
        cmocka_unit_test(days_after_the_last_count_nowhere),
        cmocka_unit_test(the_last_day_is_that_of_the_last_log_or_yesterday),
        cmocka_unit_test(shares_are_rounded_down),
        cmocka_unit_test(a_sum_beyond_all_use_grows_no_more),
        cmocka_unit_test(how_it_was_meant_and_how_it_felt),
        cmocka_unit_test(versions_of_a_session_are_one_kind),
        cmocka_unit_test(a_mean_of_three_is_rounded),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
