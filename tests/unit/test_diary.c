/* What was done of one line of a session, time after time: its sets, loads and efforts as a log has them, or as planned. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "done/turn.h"
#include "kg.h"
#include "model/programme.h"
#include "plan_reader.h"

static const char plan[] = "gym Yard\n"
                           "    barbell     20 kg\n"
                           "    plates      8 x 20, 4 x 10, 4 x 5, 4 x 2.5 kg\n"
                           "    dumbbells   pairs 20, 22 kg\n"
                           "    stations    rack, bench\n"
                           "athlete Wren Holloway\n"
                           "    lifting since 2020-01\n"
                           "    trains at Yard\n"
                           "session Legs\n"
                           "    straight A %s rest 3:00\n"
                           "        on a poor day %s\n"
                           "        %s\n"
                           "camp Spring\n"
                           "    for Wren Holloway\n"
                           "    starts 2027-03-01\n"
                           "    weeks 1-4\n"
                           "        monday Legs\n"
                           "%s";

struct turned {
    struct plan_reader reader;
    struct turn turns[2], beyond;
    size_t count;
};

/* The turns before the last day of DOSE, of which LOGS tell. */
static void open_turns(struct turned *turned, const char *sets, const char *poor, const char *dose, const char *logs)
{
    struct plan_reader *reader = &turned->reader;
    *turned = (struct turned){.count = 0};
    plan_reader_open(reader);
    plan_reader_shelf(reader);
    const char *text = arena_printf(reader->arena, plan, sets, poor, dose, logs);
    plan_reader_text(reader, "plan.bell", text, strlen(text));
    plan_reader_resolve(reader);
    if (diag_count(reader->diag, SEVERITY_ERROR))
        plan_reader_tell(reader);
    assert_int_equal(diag_count(reader->diag, SEVERITY_ERROR), 0);
    const struct programme *programme = reader->programme;
    const struct diary_of diary = diary_of_athlete(reader->arena, programme, programme->athletes[0]);
    assert_int_equal(diary.count, 4);
    turned->count = turns_before(&diary, 3, &diary.items[3]->blocks[0].items[0], turned->turns);
}

struct expected {
    const char *sets, *dose, *log;
    int count;            /* of sets; -1: it was not done */
    double load;          /* of the last */
    bool one_load;
    int least, last;      /* repetitions */
    double rpe;
    bool all_out, line;   /* the log has a line for it */
};

static void expect_turn(const struct expected *wanted)
{
    struct turned turned;
    char log[200] = "";
    snprintf(log, sizeof log, "log 2027-03-08 Wren Holloway, Legs\n    %s\n", wanted->log);
    open_turns(&turned, wanted->sets, "2 sets", wanted->dose, log);
    assert_int_equal(turned.count, 1);
    const struct turn *turn = &turned.turns[0];
    assert_int_equal(turn->done, wanted->count >= 0);
    assert_int_equal(turn->line != NULL, wanted->line);
    if (wanted->count >= 0) {
        assert_int_equal(turn->sets, wanted->count);
        assert_int_equal(turn->load, KG(wanted->load));
        assert_int_equal(turn->one_load, wanted->one_load);
        assert_int_equal(turn->least_reps, wanted->least * 1000);
        assert_int_equal(turn->last_reps, wanted->last * 1000);
        assert_int_equal(turn->rpe, (milli)(wanted->rpe * 1000));
        assert_int_equal(turn->all_out, wanted->all_out);
    } else {
        assert_int_equal(turn->sets, 0);
        assert_int_equal(turn->load, 0);
    }
    plan_reader_close(&turned.reader);
}

static void as_the_log_has_it(void **state)
{
    (void)state;
    const char *squat = "back squat : 8-10 @ 60 kg", *three = "3 sets";
    const struct expected cases[] = {
        {three, squat, "A1 : 10 @ 60 kg; 8 @ 60 kg; 9 @ 60 kg", 3, 60, true, 8, 9, 0, false, true},
        {three, squat, "A1 : 2 x 10 @ 60 kg; 9 @ 60 kg RPE 8", 3, 60, true, 9, 9, 8, false, true},
        {three, squat, "A1 : 10 @ 60 kg RPE 9; 10 @ 60 kg", 2, 60, true, 10, 10, 9, false, true},
        {three, squat, "A1 : 9; 10", 2, 60, true, 9, 10, 0, false, true},
        {three, squat, "A1 : 10 @ 60 kg; 10 @ 65 kg; 10 @ 65 kg", 3, 65, false, 10, 10, 0, false, true},
        {three, squat, "A1 : 10 @ 65 kg; 10 @ 65 kg; 10 @ 60 kg", 3, 60, false, 10, 10, 0, false, true},
        {three, squat, "A1 : 10 @ 65 kg; 10; 10", 3, 60, false, 10, 10, 0, false, true},
        {three, squat, "A1 : 10 @ body mass; 10 @ body mass", 2, 0, false, 10, 10, 0, false, true},
        {three, squat, "A1 : 10 @ body mass; 10 @ 60 kg", 2, 60, false, 10, 10, 0, false, true},
        {three, squat, "A1 : 10 @ body mass + 60 kg", 1, 0, false, 10, 10, 0, false, true},
        {three, squat, "A1 : 10 @ 2 x 60 kg; 10 @ 2 x 60 kg", 2, 0, false, 10, 10, 0, false, true},
        {three, squat, "A1 : 10 @ 60 kg all-out", 1, 60, true, 10, 10, 10, true, true},
        {three, squat, "A1 : 10 @ 60 kg all-out; 10 @ 60 kg RPE 9.5", 2, 60, true, 10, 10, 9.5, false, true},
        {three, squat, "A1 : 10 @ 60 kg all-out; 10 @ 60 kg", 2, 60, true, 10, 10, 10, false, true},
        {three, squat, "A1 : 10 @ 60 kg RPE 10", 1, 60, true, 10, 10, 10, true, true},
        {three, "back squat : 8 @ 60 kg all-out", "A1 : 10 @ 60 kg", 1, 60, true, 10, 10, 0, true, true},
        {three, "back squat : 8 @ 60 kg all-out", "A1 : 10 @ 60 kg RPE 9", 1, 60, true, 10, 10, 9, false, true},
        {three, "dumbbell bench press : 8 @ 2 x 20 kg", "A1 : 10 @ 2 x 22 kg", 1, 22, true, 10, 10, 0, false, true},
        {three, "dumbbell bench press : 8 @ 2 x 20 kg", "A1 : 10 @ 22 kg", 1, 22, true, 10, 10, 0, false, true},
        {three, "dumbbell goblet squat : 8 @ 20 kg", "A1 : 10 @ 2 x 22 kg", 1, 0, false, 10, 10, 0, false, true},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
        expect_turn(&cases[i]);
}

static void as_planned_where_the_log_says_nothing(void **state)
{
    (void)state;
    const char *squat = "back squat : 8-10 @ 60 kg", *three = "3 sets", *own = "";
    const struct expected cases[] = {
        {three, squat, "as planned", 3, 60, true, 8, 8, 0, false, false},
        {three, squat, "took 50 min", 3, 60, true, 8, 8, 0, false, false},
        {own, "back squat : 10, 8, 9 @ 60 kg", "as planned", 3, 60, true, 8, 9, 0, false, false},
        {own, "back squat : 10, 9, 8 @ 60 kg", "as planned", 3, 60, true, 8, 8, 0, false, false},
        {own, "back squat : 8, 9, 9 @ 60, 65, 65 kg", "as planned", 3, 65, false, 8, 9, 0, false, false},
        {own, "back squat : 8, 9, 9 @ 65, 65, 60 kg", "as planned", 3, 60, false, 8, 9, 0, false, false},
        {own, "back squat : 8, 9, 9 @ 65, 60, 65 kg", "as planned", 3, 65, false, 8, 9, 0, false, false},
        {three, squat, "missed because exam", -1, 0, false, 0, 0, 0, false, false},
        {three, squat, "took 0 min", -1, 0, false, 0, 0, 0, false, false},
        {three, squat, "skipped A because exam", -1, 0, false, 0, 0, 0, false, true},
        {three, squat, "skipped A.1 because exam", -1, 0, false, 0, 0, 0, false, true},
        /* A poor day has fewer sets than planned, however many. */
        {three, squat, "on a poor day A", 2, 60, true, 8, 8, 0, false, true},
        {"1 sets", squat, "on a poor day A", 0, 60, true, 8, 8, 0, false, true},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
        expect_turn(&cases[i]);
}

static void the_last_two_times_at_most(void **state)
{
    (void)state;
    struct turned turned;
    open_turns(&turned, "3 sets", "2 sets", "back squat : 8 @ 60 kg",
               "log 2027-03-15 Wren Holloway, Legs\n    as planned\n"
               "log 2027-03-01 Wren Holloway, Legs\n    A1 : 9; 9; 9\n"
               "log 2027-03-08 Wren Holloway, Legs\n    missed because exam\n");
    assert_int_equal(turned.count, 2);
    assert_true(turned.turns[0].done);
    assert_false(turned.turns[1].done);
    assert_null(turned.beyond.log);
    plan_reader_close(&turned.reader);
    open_turns(&turned, "3 sets", "2 sets", "back squat : 8 @ 60 kg", "log 2027-03-01 Wren Holloway, Legs\n    A1 : 9; 9; 9\n");
    assert_int_equal(turned.count, 1);
    assert_int_equal(turned.turns[0].least_reps, 9000);
    plan_reader_close(&turned.reader);
    open_turns(&turned, "3 sets", "2 sets", "back squat : 8 @ 60 kg", "");
    assert_int_equal(turned.count, 0);
    plan_reader_close(&turned.reader);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(as_the_log_has_it),
        cmocka_unit_test(as_planned_where_the_log_says_nothing),
        cmocka_unit_test(the_last_two_times_at_most),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
