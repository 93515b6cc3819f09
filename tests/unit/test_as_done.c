/* What was done of an occasion, in the form in which it was planned; and why a day is off, as its line says. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "done/as_done.h"
#include "kg.h"
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

static void a_line_that_was_skipped_leaves_the_others(void **state)
{
    (void)state;
    struct plan_reader reader;
    open_plan(&reader, "log 2027-01-04 Wren Holloway, S\n    skipped B.1 because the hall closed\n");
    struct occasion done = occasion_as_done(reader.arena, &reader.programme->occasions[0]);
    assert_int_equal(done.block_count, 2);
    assert_int_equal(done.blocks[1].item_count, 1);
    assert_string_equal(done.blocks[1].items[0].ref, "B.2");
    plan_reader_close(&reader);
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

/* --- what stands in the lines --- */

/* Four kinds of lines: a load, an effort and stances in turn; work up to a best of the day; sets that differ; a band. */
static const char kinds[] = "gym Yard\n"
                            "    barbell 20 kg\n"
                            "    plates  4 x 20, 4 x 10, 4 x 5 kg\n"
                            "    dumbbells pairs 10, 12 kg\n"
                            "    stations rack, bench, pull-up bar\n"
                            "athlete Nils Ferrow\n"
                            "    stance orthodox\n"
                            "    trains at Yard\n"
                            "session K\n"
                            "    straight A 3 sets rest 1:00\n"
                            "        on a poor day 2 sets\n"
                            "        back squat : 5 @ 60 kg RPE 7\n"
                            "    straight B rest 1:00\n"
                            "        bench press : work up to a 3RM\n"
                            "    straight C 4 sets rest 1:00\n"
                            "        on a poor day 4 sets\n"
                            "        cross : 6 alternating stances\n"
                            "    straight D rest 1:00\n"
                            "        on a poor day 2 sets\n"
                            "        push-up : 5, 4, 3\n"
                            "    straight E 2 sets rest 1:00\n"
                            "        dumbbell bench press : 8 @ 2 x 10 kg\n"
                            "    straight F 2 sets rest 1:00\n"
                            "        chin-up : 5 @ bodyweight\n"
                            "    rounds G 6 x 1:00 rest 0:30\n"
                            "        on a poor day 2 rounds\n"
                            "        jab : 10 s all-out, 50 s easy\n"
                            "    straight H 2 sets rest 1:00\n"
                            "        on a poor day 3 sets\n"
                            "        push-up : 5\n"
                            "camp K\n"
                            "    for Nils Ferrow\n"
                            "    starts 2026-12-28\n"
                            "    week 1\n"
                            "        monday K\n"
                            "            optional\n"
                            "log 2026-12-28 Nils Ferrow, K\n";

struct as_done {
    struct plan_reader reader;
    struct occasion done;
};

static void do_kinds(struct as_done *as_done, const char *lines)
{
    struct plan_reader *reader = &as_done->reader;
    plan_reader_open(reader);
    plan_reader_shelf(reader);
    const char *text = arena_printf(reader->arena, "%s%s", kinds, lines);
    plan_reader_text(reader, "plan.bell", text, strlen(text));
    plan_reader_resolve(reader);
    if (diag_count(reader->diag, SEVERITY_ERROR))
        plan_reader_tell(reader);
    assert_int_equal(diag_count(reader->diag, SEVERITY_ERROR), 0);
    as_done->done = occasion_as_done(reader->arena, &reader->programme->occasions[0]);
}

/* The one line of the block LETTER. */
static const struct item *line_of(const struct as_done *as_done, char letter)
{
    for (size_t b = 0; b < as_done->done.block_count; b++)
        if (as_done->done.blocks[b].letter == letter) {
            assert_int_equal(as_done->done.blocks[b].item_count, 1);
            return &as_done->done.blocks[b].items[0];
        }
    return NULL;
}

static void expect_runs(const struct item *item, size_t runs, int sets)
{
    assert_non_null(item);
    assert_int_equal(item->run_count, runs);
    assert_int_equal(item->sets, sets);
}

static void each_set_that_was_done_stands_in_its_line(void **state)
{
    (void)state;
    struct as_done as_done;
    do_kinds(&as_done, "    A.1 : 5 @ 65 kg RPE 8; 2 x 4; 3 @ 70 kg 1 in reserve\n"
                       "    B.1 : 3 @ 80 kg\n"
                       "    C.1 : 2 x 5; 4 orthodox\n"
                       "    E.1 : 8 @ 12 kg\n"
                       "    F.1 : 5 @ bodyweight + 10 kg\n");
    const struct item *squat = line_of(&as_done, 'A'), *bench = line_of(&as_done, 'B');
    const struct item *cross = line_of(&as_done, 'C'), *push = line_of(&as_done, 'D'), *press = line_of(&as_done, 'E');
    expect_runs(squat, 3, 4);
    assert_int_equal(squat->runs[0].count, 1);
    assert_int_equal(squat->runs[0].load.made, KG(65));
    assert_int_equal(squat->runs[0].load.asked, KG(65));
    assert_int_equal(squat->runs[0].load.effort, EFFORT_RPE);
    assert_int_equal(squat->runs[0].load.effort_band.low, 8000);
    assert_int_equal(squat->runs[1].count, 2);
    assert_int_equal(squat->runs[1].parts[0].amount.low, 4000);
    assert_int_equal(squat->runs[1].load.made, KG(60)); /* not said: as planned */
    assert_int_equal(squat->runs[1].load.effort_band.low, 7000);
    assert_int_equal(squat->runs[2].load.made, KG(70));
    assert_int_equal(squat->runs[2].load.pieces, 1);
    assert_int_equal(squat->runs[2].load.effort, EFFORT_RESERVE);
    assert_int_equal(squat->runs[2].load.effort_band.high, 1000);
    assert_int_equal(as_done.done.blocks[0].sets, 3); /* it was no poor day */
    expect_runs(bench, 1, 1);
    assert_false(bench->runs[0].work_up);
    assert_int_equal(bench->runs[0].load.made, KG(80));
    expect_runs(cross, 2, 3);
    assert_false(cross->runs[0].alternating);
    assert_int_equal(cross->runs[0].part_count, 2); /* of each stance */
    assert_int_equal(cross->runs[1].part_count, 1);
    expect_runs(push, 3, 3);
    expect_runs(press, 1, 1);
    assert_int_equal(press->runs[0].load.made, KG(12));
    assert_int_equal(press->runs[0].load.pieces, 1); /* the log names one */
    const struct load *chin = &line_of(&as_done, 'F')->runs[0].load;
    assert_int_equal(chin->kind, LOAD_BODY);
    assert_int_equal(chin->added, KG(10));
    assert_int_equal(chin->pieces, 1);
    assert_false(as_done.done.optional);
    plan_reader_close(&as_done.reader);
}

static void a_poor_day_takes_the_first_sets(void **state)
{
    (void)state;
    struct as_done as_done;
    do_kinds(&as_done, "    on a poor day A, C, D, G, H\n");
    const struct item *squat = line_of(&as_done, 'A'), *cross = line_of(&as_done, 'C'), *push = line_of(&as_done, 'D');
    expect_runs(squat, 1, 2);
    assert_int_equal(squat->runs[0].count, 2);
    expect_runs(cross, 1, 4);
    assert_int_equal(cross->runs[0].count, 4);
    expect_runs(push, 2, 2);
    assert_int_equal(push->runs[0].parts[0].amount.low, 5000);
    assert_int_equal(push->runs[1].parts[0].amount.low, 4000);
    expect_runs(line_of(&as_done, 'H'), 1, 2); /* not more than planned */
    const struct item *jabs = line_of(&as_done, 'G'), *planned = &as_done.reader.programme->occasions[0].blocks[6].items[0];
    expect_runs(jabs, planned->run_count, planned->sets);
    static const int sets[] = {2, 1, 4, 2, 2, 2, 2, 2};
    assert_int_equal(as_done.done.block_count, 8);
    for (size_t b = 0; b < 8; b++)
        assert_int_equal(as_done.done.blocks[b].sets, sets[b]);
    plan_reader_close(&as_done.reader);
}

/* Of six rounds two were done, and the rounds of the day say so. */
static void a_poor_day_has_its_own_rounds(void **state)
{
    (void)state;
    static const struct {
        const char *lines;
        milli rounds;
    } cases[] = {{"    as planned\n", 6000}, {"    on a poor day G\n", 2000}, {"    on a poor day A\n", 6000},
                 {"    skipped G because the hall closed\n", 0}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        struct as_done as_done;
        do_kinds(&as_done, cases[i].lines);
        struct tally tally = {0};
        tally_occasion(&tally, &as_done.done);
        assert_int_equal(tally.sum[COUNTED_CLOCK_ROUNDS].high, cases[i].rounds);
        plan_reader_close(&as_done.reader);
    }
}

static void a_block_without_a_line_for_poor_days_is_as_planned(void **state)
{
    (void)state;
    struct as_done as_done;
    do_kinds(&as_done, "    on a poor day E\n");
    expect_runs(line_of(&as_done, 'E'), 1, 2);
    assert_int_equal(as_done.done.blocks[4].letter, 'E');
    assert_int_equal(as_done.done.blocks[4].sets, 2);
    plan_reader_close(&as_done.reader);
}

static void what_was_skipped_stands_nowhere(void **state)
{
    (void)state;
    struct as_done as_done;
    do_kinds(&as_done, "    skipped B because the rack was taken\n"
                       "    took 50 min\n");
    assert_null(line_of(&as_done, 'B'));
    assert_int_equal(as_done.done.block_count, 7);
    expect_runs(line_of(&as_done, 'A'), 1, 3);
    assert_int_equal(as_done.done.seconds, 3000);
    assert_int_equal(as_done.done.rpe.high, 0);
    plan_reader_close(&as_done.reader);
}

static void a_log_without_time_or_effort_leaves_those_of_the_plan(void **state)
{
    (void)state;
    struct as_done as_done;
    do_kinds(&as_done, "    took RPE 6-7\n");
    const struct occasion *planned = &as_done.reader.programme->occasions[0];
    assert_true(planned->seconds > 0);
    assert_int_equal(as_done.done.seconds, planned->seconds);
    assert_int_equal(as_done.done.rpe.low, 6000);
    assert_int_equal(as_done.done.rpe.high, 7000);
    plan_reader_close(&as_done.reader);
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
    assert_int_equal(done_of("    took 40 min\n", COUNTED_SESSION_LOAD), 280000);
}

static void what_was_missed_or_is_not_logged_was_not_done(void **state)
{
    (void)state;
    struct plan_reader reader;
    open_plan(&reader, "log 2027-01-04 Wren Holloway, S\n    missed because exam\n");
    assert_false(occasion_done(&reader.programme->occasions[0]));
    assert_false(occasion_done(&reader.programme->occasions[1]));
    plan_reader_close(&reader);
    open_plan(&reader, "log 2027-01-04 Wren Holloway, S\n    took 0 min\n"
                       "log 2027-01-05 Wren Holloway, sparring\n    took 10 min\n");
    assert_false(occasion_done(&reader.programme->occasions[0]));
    assert_true(occasion_done(&reader.programme->occasions[1]));
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
        cmocka_unit_test(a_line_that_was_skipped_leaves_the_others),
        cmocka_unit_test(sets_of_a_log_stand_in_place_of_those_planned),
        cmocka_unit_test(a_poor_day_has_its_own_sets),
        cmocka_unit_test(each_set_that_was_done_stands_in_its_line),
        cmocka_unit_test(a_poor_day_takes_the_first_sets),
        cmocka_unit_test(a_poor_day_has_its_own_rounds),
        cmocka_unit_test(a_block_without_a_line_for_poor_days_is_as_planned),
        cmocka_unit_test(what_was_skipped_stands_nowhere),
        cmocka_unit_test(a_log_without_time_or_effort_leaves_those_of_the_plan),
        cmocka_unit_test(a_log_that_says_little_leaves_the_rest_as_planned),
        cmocka_unit_test(time_and_effort_are_those_of_the_log),
        cmocka_unit_test(what_was_missed_or_is_not_logged_was_not_done),
        cmocka_unit_test(a_day_off_keeps_its_reason),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
