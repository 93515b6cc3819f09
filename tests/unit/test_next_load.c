/* The next load of a line: whom its rule asks, what counts as done, and what the gym can make of it. That the rules are
 * those of the works they come from is in tests/cli/next.sh; the figures here are worked out by hand. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "done/next.h"
#include "kg.h"
#include "model/programme.h"
#include "plan_reader.h"

/* The yard makes every half kilogram, the shed 60, 62.5, 65 ..., the barn kettlebells alone. */
static const char gyms[] = "gym Yard\n"
                           "    barbell     20 kg\n"
                           "    plates      8 x 20, 4 x 10, 4 x 5, 4 x 2.5, 4 x 1.25, 4 x 0.5, 4 x 0.25 kg\n"
                           "    kettlebells pairs 16, 20, 24 kg\n"
                           "    stations    rack, bench\n"
                           "gym Shed\n"
                           "    barbell     20 kg\n"
                           "    plates      8 x 20, 4 x 10, 4 x 5, 4 x 2.5, 4 x 1.25 kg\n"
                           "    stations    rack\n"
                           "gym Barn\n"
                           "    kettlebells pairs 16, 20 kg\n"
                           "gym Loft\n"
                           "    kettlebells pairs 20, 22 kg\n"
                           "    dumbbells   2 x 20, 1 x 21, 2 x 22 kg\n"
                           "    stations    bench\n";

/* A line and its rule on the mondays of four weeks, and logs. */
struct next_case {
    const char *gym, *line, *rule, *logs;
};

static void open_text(struct plan_reader *reader, const char *text)
{
    plan_reader_text(reader, "plan.bell", text, strlen(text));
    plan_reader_resolve(reader);
    if (diag_count(reader->diag, SEVERITY_ERROR))
        plan_reader_tell(reader);
    assert_int_equal(diag_count(reader->diag, SEVERITY_ERROR), 0);
    reader->programme->today = reader->programme->camps[0]->first + 60;
}

static void open_case(struct plan_reader *reader, const struct next_case *asked, const char *athlete)
{
    plan_reader_open(reader);
    plan_reader_shelf(reader);
    open_text(reader, arena_printf(reader->arena,
                                   "%sathlete Wren Holloway\n    lifting since 2020-01\n    trains at %s\n%s"
                                   "session Legs\n    straight A 3 sets rest 3:00\n        %s\n            next time %s\n"
                                   "camp Spring\n    for Wren Holloway\n    starts 2027-03-01\n    weeks 1-4\n        monday Legs\n%s",
                                   gyms, asked->gym ? asked->gym : "Yard", athlete, asked->line, asked->rule, asked->logs));
}

/* What is proposed for WEEK: a load in kilograms and repetitions, 0 as they are; a load of 0 is no proposal. */
static void expect_of(const struct next_case *asked, const char *athlete, int week, double load, int reps)
{
    struct plan_reader reader;
    struct proposal *proposals;
    open_case(&reader, asked, athlete);
    size_t count = next_of(reader.arena, reader.programme, week, NULL, &proposals);
    assert_int_equal(count, load > 0);
    if (count) {
        assert_int_equal(proposals[0].load, KG(load));
        assert_int_equal(proposals[0].reps, reps);
    }
    plan_reader_close(&reader);
}

static void expect(const struct next_case *asked, double load, int reps)
{
    expect_of(asked, "", 2, load, reps);
}

#define FIRST(lines) "log 2027-03-01 Wren Holloway, Legs\n    " lines "\n"
#define SECOND(lines) "log 2027-03-08 Wren Holloway, Legs\n    " lines "\n"

/* --- steps --- */

static void a_step_that_the_gym_can_make(void **state)
{
    (void)state;
    const struct {
        struct next_case asked;
        double load;
        int reps;
    } cases[] = {
        {{NULL, "back squat : 8-10 @ 60 kg", "8-10, then 2.5 kg", FIRST("A1 : 3 x 10 @ 60 kg")}, 62.5, 0},
        /* A tenth is not too much, half a kilogram more is: then a repetition more. */
        {{NULL, "back squat : 8-10 @ 100 kg", "8-10, then 10 kg", FIRST("A1 : 3 x 10 @ 100 kg")}, 110, 0},
        {{NULL, "back squat : 8-10 @ 100 kg", "8-10, then 10.5 kg", FIRST("A1 : 3 x 10 @ 100 kg")}, 100, 11},
        {{NULL, "back squat : 8-10 @ 100 kg", "8-10, then 10.5 kg", FIRST("A1 : 3 x 12 @ 100 kg")}, 100, 13},
        /* Half a kilogram is none of the shed's; the next load that it has is taken. */
        {{"Shed", "back squat : 8-10 @ 60 kg", "8-10, then 0.5 kg", FIRST("A1 : 3 x 10 @ 60 kg")}, 62.5, 0},
        {{"Shed", "back squat : 8-10 @ 20 kg", "8-10, then 0.5 kg", FIRST("A1 : 3 x 10 @ 20 kg")}, 20, 11},
        /* Of two alike, 21 kg is not there. */
        {{"Loft", "dumbbell bench press : 8-10 @ 2 x 20 kg", "8-10, then 1 kg", FIRST("A1 : 3 x 10 @ 2 x 20 kg")}, 22, 0},
        {{"Loft", "dumbbell goblet squat : 8-10 @ 20 kg", "8-10, then 1 kg", FIRST("A1 : 3 x 10 @ 20 kg")}, 21, 0},
        /* A kettlebell heavier there is none. */
        {{"Barn", "goblet squat : 8-10 @ 20 kg", "8-10, then 2 kg", FIRST("A1 : 3 x 10 @ 20 kg")}, 20, 11},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
        expect(&cases[i].asked, cases[i].load, cases[i].reps);
}

/* For the young loads are rounded down, and nothing above the step is looked for. */
static void the_young_take_no_step_that_the_gym_cannot_make(void **state)
{
    (void)state;
    const struct next_case half = {"Shed", "back squat : 8-10 @ 60 kg", "8-10, then 1.5 kg", FIRST("A1 : 3 x 10 @ 60 kg")};
    expect(&half, 62.5, 0);
    expect_of(&half, "    age group under 18\n", 2, 60, 11);
    expect_of(&half, "    avoid overhead\n        since 2027-01-01\n", 2, 60, 11);
    const struct next_case whole = {"Shed", "back squat : 8-10 @ 60 kg", "8-10, then 2.5 kg", FIRST("A1 : 3 x 10 @ 60 kg")};
    expect_of(&whole, "    age group under 18\n", 2, 62.5, 0);
    const struct next_case down = {"Shed", "back squat : 5 @ 92.5 kg", "by effort 8", FIRST("A1 : 3 x 5 @ 92.5 kg RPE 9.5")};
    expect_of(&down, "    born 2009-03-09\n", 2, 85, 0);
    expect_of(&down, "    born 2009-03-08\n", 2, 87.5, 0);
}

/* --- what was done --- */

static void what_counts_as_done(void **state)
{
    (void)state;
    const char *line = "back squat : 8-10 @ 60 kg", *rule = "8-10, then 2.5 kg";
    const struct {
        const char *line, *logs;
        double load;
        int reps;
    } cases[] = {
        {line, FIRST("A1 : 10 @ 60 kg; 10 @ 60 kg; 10 @ 60 kg"), 62.5, 0},
        {line, FIRST("A1 : 10; 10; 10"), 62.5, 0},
        {line, FIRST("A1 : 10 @ 60 kg; 9 @ 60 kg; 10 @ 60 kg"), 0, 0},
        {line, FIRST("A1 : 9 @ 60 kg; 10 @ 60 kg; 10 @ 60 kg"), 0, 0},
        {line, FIRST("A1 : 2 x 10 @ 60 kg"), 0, 0},
        {line, FIRST("A1 : 4 x 10 @ 60 kg"), 62.5, 0},
        /* Not one load: the last one stands, and it differs from the plan's. */
        {line, FIRST("A1 : 2 x 10 @ 60 kg; 10 @ 65 kg"), 65, 0},
        {line, FIRST("A1 : 2 x 10 @ 65 kg; 10 @ 60 kg"), 0, 0},
        {line, FIRST("A1 : 3 x 10 @ 65 kg"), 67.5, 0},
        {line, FIRST("A1 : 2 x 10 @ 65 kg; 10"), 0, 0},
        {line, FIRST("as planned"), 0, 0},
        {"back squat : 10 @ 60 kg", FIRST("as planned"), 62.5, 0},
        {"back squat : 10 @ 60 kg", FIRST("took 40 min"), 62.5, 0},
        {"back squat : 10 @ 60 kg", FIRST("took 0 min"), 0, 0},
        {"back squat : 10 @ 60 kg", FIRST("missed because exam"), 0, 0},
        {"back squat : 10 @ 60 kg", FIRST("skipped A because exam"), 0, 0},
        {"back squat : 10 @ 60 kg", FIRST("skipped A.1 because exam"), 0, 0},
        /* A poor day has fewer sets. */
        {"back squat : 10 @ 60 kg", FIRST("on a poor day A"), 0, 0},
        {"back squat : 10 @ 60 kg", "", 0, 0},
        {"back squat : 10, 10, 9 @ 60 kg", FIRST("as planned"), 0, 0},
        {"back squat : 9, 10, 10 @ 60 kg", FIRST("as planned"), 0, 0},
        {"back squat : 10, 11, 12 @ 60 kg", FIRST("as planned"), 62.5, 0},
        {"back squat : 8-10 @ 60 kg", FIRST("A1 : 3 x 10 @ bodyweight"), 0, 0},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
        expect(&(struct next_case){NULL, cases[i].line, rule, cases[i].logs}, cases[i].load, cases[i].reps);
}

/* --- two for two --- */

static void expect_third_week(const char *line, const char *logs, double load, int reps)
{
    expect_of(&(struct next_case){NULL, line, "two for two, 2.5 kg", logs}, "", 3, load, reps);
}

static void two_more_in_the_last_set_twice(void **state)
{
    (void)state;
    const char *line = "back squat : 8 @ 60 kg";
    expect_third_week(line, FIRST("A1 : 2 x 8 @ 60 kg; 10 @ 60 kg") SECOND("A1 : 2 x 8 @ 60 kg; 10 @ 60 kg"), 62.5, 0);
    expect_third_week(line, FIRST("A1 : 2 x 8 @ 60 kg; 9 @ 60 kg") SECOND("A1 : 2 x 8 @ 60 kg; 10 @ 60 kg"), 0, 0);
    expect_third_week(line, FIRST("A1 : 2 x 8 @ 60 kg; 10 @ 60 kg") SECOND("A1 : 2 x 8 @ 60 kg; 9 @ 60 kg"), 0, 0);
    expect_third_week(line, FIRST("A1 : 10 @ 60 kg; 2 x 8 @ 60 kg") SECOND("A1 : 10 @ 60 kg; 2 x 8 @ 60 kg"), 0, 0);
    expect_third_week(line, FIRST("missed because exam") SECOND("A1 : 2 x 8 @ 60 kg; 10 @ 60 kg"), 0, 0);
    expect_third_week(line, SECOND("A1 : 2 x 8 @ 60 kg; 10 @ 60 kg"), 0, 0);
    expect_third_week(line, FIRST("A1 : 3 x 10 @ 62.5 kg") SECOND("A1 : 3 x 10 @ 60 kg"), 0, 0);
    /* The goal is the last set's, and the upper end of a range. */
    expect_third_week("back squat : 6, 7, 8 @ 60 kg", FIRST("A1 : 6; 7; 10") SECOND("A1 : 6; 7; 10"), 62.5, 0);
    expect_third_week("back squat : 10, 9, 8 @ 60 kg", FIRST("A1 : 10; 9; 10") SECOND("A1 : 10; 9; 10"), 62.5, 0);
    expect_third_week("back squat : 6-8 @ 60 kg", FIRST("A1 : 3 x 9") SECOND("A1 : 3 x 9"), 0, 0);
    expect_third_week("back squat : 6-8 @ 60 kg", FIRST("A1 : 3 x 10") SECOND("A1 : 3 x 10"), 62.5, 0);
    /* No step fits: one repetition more than each of the sets had. */
    expect_of(&(struct next_case){NULL, line, "two for two, 10 kg", FIRST("A1 : 8; 8; 10") SECOND("A1 : 9; 9; 11")}, "", 3, 60, 10);
}

static void a_rule_names_its_grounds(void **state)
{
    (void)state;
    struct plan_reader reader;
    struct proposal *proposals;
    const char *logs = FIRST("A1 : 3 x 10 @ 60 kg") SECOND("A1 : 3 x 10 @ 60 kg");
    open_case(&reader, &(struct next_case){NULL, "back squat : 8 @ 60 kg", "two for two, 2.5 kg", logs}, "");
    assert_int_equal(next_of(reader.arena, reader.programme, 3, NULL, &proposals), 1);
    assert_int_equal(proposals[0].ground_count, 2);
    assert_int_equal(proposals[0].grounds[0].log->date, reader.programme->camps[0]->first + 7);
    assert_int_equal(proposals[0].grounds[1].log->date, reader.programme->camps[0]->first);
    assert_string_equal(proposals[0].grounds[1].line->ref, "A.1");
    assert_ptr_equal(proposals[0].grounds[1].planned, &reader.programme->occasions[0].blocks[0].items[0]);
    assert_string_equal(proposals[0].why, "the last set was two over twice running");
    plan_reader_close(&reader);
    open_case(&reader, &(struct next_case){NULL, "back squat : 8-10 @ 60 kg", "8-10, then 2.5 kg", logs}, "");
    assert_int_equal(next_of(reader.arena, reader.programme, 3, NULL, &proposals), 1);
    assert_int_equal(proposals[0].ground_count, 1);
    assert_int_equal(proposals[0].grounds[0].log->date, reader.programme->camps[0]->first + 7);
    assert_string_equal(proposals[0].why, "every set reached 10");
    plan_reader_close(&reader);
    /* What stays as it was lifted says why, and so does what was done as planned, which no line of the log says. */
    open_case(&reader, &(struct next_case){NULL, "back squat : 8-10 @ 60 kg", "8-10, then 2.5 kg", FIRST("A1 : 3 x 9 @ 65 kg")}, "");
    assert_int_equal(next_of(reader.arena, reader.programme, 2, NULL, &proposals), 1);
    assert_string_equal(proposals[0].why, "not every set reached the top");
    plan_reader_close(&reader);
    open_case(&reader, &(struct next_case){NULL, "back squat : 10 @ 60 kg", "8-10, then 2.5 kg", FIRST("as planned")}, "");
    assert_int_equal(next_of(reader.arena, reader.programme, 2, NULL, &proposals), 1);
    assert_null(proposals[0].grounds[0].line);
    plan_reader_close(&reader);
}

/* --- by effort, by the last set --- */

static void by_effort_up_and_down(void **state)
{
    (void)state;
    const struct {
        struct next_case asked;
        double load;
    } cases[] = {
        {{NULL, "back squat : 5 @ 100 kg", "by effort 7-8", FIRST("A1 : 3 x 5 @ 100 kg RPE 9")}, 96},
        {{NULL, "back squat : 5 @ 100 kg", "by effort 7-8", FIRST("A1 : 3 x 5 @ 100 kg RPE 6.5")}, 102},
        {{NULL, "back squat : 5 @ 100 kg", "by effort 7-8", FIRST("A1 : 3 x 5 @ 100 kg RPE 7.5")}, 0},
        {{NULL, "back squat : 5 @ 100 kg", "by effort 7-8", FIRST("A1 : 3 x 5 @ 102 kg RPE 7.5")}, 102},
        {{NULL, "back squat : 5 @ 100 kg", "by effort 7-8", FIRST("A1 : 3 x 5 @ 100 kg")}, 0},
        /* The last set that was rated says. */
        {{NULL, "back squat : 5 @ 100 kg", "by effort 7-8", FIRST("A1 : 5 @ 100 kg RPE 7; 5 @ 100 kg RPE 9; 5 @ 100 kg")}, 96},
        {{NULL, "back squat : 5 @ 100 kg", "by effort 7-8", FIRST("A1 : 2 x 5 @ 100 kg RPE 9; 5 @ 100 kg RPE 8")}, 0},
        /* 18.4 kg are none of the barn's: 2 % less would be 20 kg there, which is more, and 2 % more 20 kg, a tenth at most. */
        {{"Barn", "goblet squat : 5 @ 16 kg", "by effort 7-8", FIRST("A1 : 3 x 5 @ 18.4 kg RPE 8.5")}, 18.4},
        {{"Barn", "goblet squat : 5 @ 16 kg", "by effort 7-8", FIRST("A1 : 3 x 5 @ 18.4 kg RPE 6.5")}, 20},
        {{"Barn", "goblet squat : 5 @ 16 kg", "by effort 7-8", FIRST("A1 : 3 x 5 @ 18 kg RPE 5")}, 18},
        /* 8 % more are 21.6 kg, made 22, which is a tenth. */
        {{"Loft", "goblet squat : 5 @ 20 kg", "by effort 7-8", FIRST("A1 : 3 x 5 @ 20 kg RPE 5")}, 22},
        /* 2 % less are 61.25 kg, as near to 60 as to 62.5: the lighter. */
        {{"Shed", "back squat : 5 @ 65 kg", "by effort 7-8", FIRST("A1 : 3 x 5 @ 62.5 kg RPE 8.5")}, 60},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
        expect(&cases[i].asked, cases[i].load, 0);
}

static void expect_why(const char *rule, const char *sets, const char *why)
{
    struct plan_reader reader;
    struct proposal *proposals;
    char log[120];
    snprintf(log, sizeof log, "log 2027-03-01 Wren Holloway, Legs\n    A1 : %s\n", sets);
    open_case(&reader, &(struct next_case){NULL, "back squat : 5 @ 100 kg", rule, log}, "");
    assert_int_equal(next_of(reader.arena, reader.programme, 2, NULL, &proposals), 1);
    assert_string_equal(proposals[0].why, why);
    plan_reader_close(&reader);
}

static void every_answer_says_why(void **state)
{
    (void)state;
    expect_why("by effort 7-8", "3 x 5 @ 102 kg", "no effort was logged");
    expect_why("by effort 7-8", "3 x 5 @ 102 kg RPE 7.5", "the effort was as it should be");
    expect_why("by effort 7-8", "3 x 5 @ 102 kg RPE 6.5", "the effort was below what it should be");
    expect_why("by effort 7-8", "3 x 5 @ 102 kg RPE 9", "the effort was above what it should be");
    expect_why("by the last set of 3", "3 x 7 @ 100 kg all-out", "the last set was 7");
    expect_why("by the last set of 3", "3 x 7 @ 102 kg RPE 8", "no all-out last set was logged");
    expect_why("5-8, then 2.5 kg", "3 x 7 @ 102 kg", "not every set reached the top");
    expect_why("5-7, then 2.5 kg", "3 x 7 @ 102 kg", "every set reached 7");
    expect_why("5-7, then 20 kg", "3 x 7 @ 102 kg", "every set reached 7, and no step of the gym fits: the next is above 10 %, or there is none");
}

static void the_last_set_has_to_be_all_out(void **state)
{
    (void)state;
    const char *rule = "by the last set of 3";
    expect(&(struct next_case){NULL, "back squat : 3 @ 100 kg all-out", rule, FIRST("A1 : 2 x 3 @ 100 kg; 2 @ 100 kg all-out")}, 97.5, 0);
    expect(&(struct next_case){NULL, "back squat : 3 @ 100 kg all-out", rule, FIRST("A1 : 3 x 2 @ 100 kg")}, 97.5, 0);
    expect(&(struct next_case){NULL, "back squat : 3 @ 100 kg all-out", rule, FIRST("A1 : 3 x 2 @ 100 kg RPE 9")}, 0, 0);
    expect(&(struct next_case){NULL, "back squat : 3 @ 100 kg all-out", rule, FIRST("A1 : 3 x 2 @ 100 kg RPE 10")}, 97.5, 0);
    expect(&(struct next_case){NULL, "back squat : 3 @ 100 kg all-out", rule, FIRST("A1 : 2 @ 100 kg all-out; 2 @ 100 kg RPE 8")}, 0, 0);
}

/* --- which lines and days --- */

static void lines_without_one_load_are_not_asked(void **state)
{
    (void)state;
    const char *all = FIRST("A1 : 3 x 10 @ 60 kg"), *rule = "8-10, then 2.5 kg";
    expect(&(struct next_case){NULL, "back squat : 10 @ 60 kg", rule, all}, 62.5, 0);
    static const char *const changes[] = {"10, 10, 8 @ 60, 60, 70 kg", "10 @ RPE 7", "5 s @ 60 kg", "2 x 5 @ 60 kg",
                                          "2+2+2 @ 60 kg"};
    for (size_t i = 0; i < sizeof changes / sizeof *changes; i++) {
        char logs[200];
        snprintf(logs, sizeof logs, "    week 2\n        monday Legs\n            change A.1 : %s\n%s", changes[i], all);
        expect(&(struct next_case){NULL, "back squat : 10 @ 60 kg", rule, logs}, 0, 0);
    }
    const char *own = "back squat : 10 @ 60 kg\n            for Wren Holloway, front squat : 10 @ 60 kg";
    expect(&(struct next_case){NULL, own, rule, all}, 0, 0);
    /* A bar's rule says nothing of the kettlebell that stands in for want of a rack. */
    const char *other = "back squat : 10 @ 20 kg\n            without rack, goblet squat : 10 @ 20 kg";
    expect(&(struct next_case){"Barn", other, rule, FIRST("A1 : 3 x 10 @ 20 kg")}, 0, 0);
}

/* What the plan of the week says already is not proposed. */
static void what_is_planned_is_not_proposed(void **state)
{
    (void)state;
#define CHANGED(dose) "    week 2\n        monday Legs\n            change A.1 : " dose "\n" FIRST("A1 : 3 x 10 @ 60 kg")
    const char *line = "back squat : 8-10 @ 60 kg", *rule = "8-10, then 2.5 kg", *wide = "8-10, then 10 kg";
    expect(&(struct next_case){NULL, line, rule, CHANGED("8-10 @ 62.5 kg")}, 0, 0);
    expect(&(struct next_case){NULL, line, rule, CHANGED("8-10 @ 65 kg")}, 62.5, 0);
    expect(&(struct next_case){NULL, line, rule, CHANGED("8-10 @ 55 kg")}, 62.5, 0);
    expect(&(struct next_case){NULL, line, wide, CHANGED("11 @ 60 kg")}, 0, 0);
    expect(&(struct next_case){NULL, line, wide, CHANGED("10-11 @ 60 kg")}, 60, 11);
    expect(&(struct next_case){NULL, line, wide, CHANGED("11-12 @ 60 kg")}, 60, 11);
    expect(&(struct next_case){NULL, line, wide, CHANGED("11, 11, 10 @ 60 kg")}, 60, 11);
#undef CHANGED
}

static const char two_lines[] = "athlete Wren Holloway\n    lifting since 2020-01\n    trains at Yard\n"
                                "athlete Nils Ferrow\n    lifting since 2020-01\n    trains at Yard\n"
                                "session Legs\n"
                                "    straight A 3 sets rest 3:00\n"
                                "        back squat : 10 @ 60 kg\n            next time 8-10, then 2.5 kg\n"
                                "    straight B 3 sets rest 3:00\n"
                                "        bench press : 10 @ 40 kg\n            next time 8-10, then 2.5 kg\n"
                                "        plank : 30 s\n"
                                "session More based on Legs\n    purpose the same again\n"
                                "camp Spring\n    for Wren Holloway, Nils Ferrow\n    starts 2027-03-01\n    weeks 1-3\n"
                                "        monday Legs\n        thursday Legs\n"
                                "        friday pads : 30 min RPE 5\n"
                                "log 2027-03-01 Wren Holloway, Legs\n    as planned\n";

static size_t proposed(struct plan_reader *reader, const char *more, int week, size_t athlete, struct proposal **proposals)
{
    plan_reader_open(reader);
    plan_reader_shelf(reader);
    open_text(reader, arena_printf(reader->arena, "%s%s%s", gyms, two_lines, more));
    const struct programme *programme = reader->programme;
    return next_of(reader->arena, programme, week, athlete < 2 ? programme->athletes[athlete] : NULL, proposals);
}

/* Without a week each line is asked for its first day after the last log; with one, for each day of the week. */
/* A line is judged by its own turns, not by those of the line before it, which had two. */
static void turns_are_those_of_the_same_line(void **state)
{
    (void)state;
    struct plan_reader reader;
    struct proposal *proposals;
    plan_reader_open(&reader);
    plan_reader_shelf(&reader);
    open_text(&reader, arena_printf(reader.arena, "%s%s", gyms,
                                    "athlete Wren Holloway\n    lifting since 2020-01\n    trains at Yard\n"
                                    "session Legs\n    straight A 3 sets rest 3:00\n        back squat : 8 @ 60 kg\n"
                                    "            next time two for two, 2.5 kg\n"
                                    "session Legs from 2027-03-08\n    straight A 3 sets rest 3:00\n        back squat : 8 @ 60 kg\n"
                                    "            next time two for two, 2.5 kg\n"
                                    "    straight B 3 sets rest 3:00\n        bench press : 8 @ 60 kg\n"
                                    "            next time two for two, 2.5 kg\n"
                                    "camp Spring\n    for Wren Holloway\n    starts 2027-03-01\n    weeks 1-3\n        monday Legs\n"
                                    FIRST("A1 : 3 x 10 @ 60 kg") SECOND("A1 : 3 x 10 @ 60 kg\n    B1 : 3 x 10 @ 60 kg")));
    assert_int_equal(next_of(reader.arena, reader.programme, 3, NULL, &proposals), 1);
    assert_int_equal(proposals[0].block->letter, 'A');
    plan_reader_close(&reader);
}

static void days_that_are_asked_for(void **state)
{
    (void)state;
    static const char nils[] = "log 2027-03-04 Nils Ferrow, Legs\n    as planned\n";
    const struct {
        const char *more;
        int week;
        size_t athlete, count;
        int first; /* day of the camp of the first proposal */
    } cases[] = {
        {"", 0, 2, 2, 3},
        {"", 0, 0, 2, 3},
        {"", 0, 1, 0, 0},
        {nils, 0, 2, 4, 3},
        {nils, 0, 1, 2, 7},
        {"", 1, 0, 2, 3},
        {"", 2, 0, 4, 7},
        {nils, 2, 2, 8, 7},
        {nils, 1, 1, 0, 0},
        {"", 3, 0, 4, 14},
        {"", 4, 0, 0, 0},
        /* What has a log is asked no more. */
        {"log 2027-03-08 Wren Holloway, Legs\n    as planned\n", 2, 0, 2, 10},
        /* What was left out on the day of the last log is over. */
        {"camp Beside\n    for Wren Holloway\n    starts 2027-03-01\n    week 1\n        thursday walk : 20 min RPE 2\n"
         "log 2027-03-04 Wren Holloway, walk\n    as planned\n", 0, 0, 2, 7},
        /* A day that was only pads counts as the last log. */
        {"log 2027-03-05 Wren Holloway, pads\n    as planned\n", 0, 0, 2, 7},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        struct plan_reader reader;
        struct proposal *proposals;
        size_t count = proposed(&reader, cases[i].more, cases[i].week, cases[i].athlete, &proposals);
        assert_int_equal(count, cases[i].count);
        if (count)
            assert_int_equal(proposals[0].occasion->date, reader.programme->camps[0]->first + cases[i].first);
        plan_reader_close(&reader);
    }
}

static void closed_days_stay_as_they_are(void **state)
{
    (void)state;
    struct plan_reader reader;
    struct proposal *proposals;
    assert_int_equal(proposed(&reader, "", 2, 0, &proposals), 4);
    struct programme *programme = reader.programme;
    struct occasion *occasions = arena_alloc(reader.arena, programme->occasion_count * sizeof *occasions);
    for (size_t i = 0; i < programme->occasion_count; i++) {
        occasions[i] = programme->occasions[i];
        occasions[i].held = occasions[i].date < programme->camps[0]->first + 10;
    }
    programme->occasions = occasions;
    assert_int_equal(next_of(reader.arena, programme, 2, programme->athletes[0], &proposals), 2);
    assert_int_equal(proposals[0].occasion->date, programme->camps[0]->first + 10);
    plan_reader_close(&reader);
}

/* A version of a session is the same session, and another that is based on it is not. */
static void turns_are_those_of_the_same_session(void **state)
{
    (void)state;
    struct plan_reader reader;
    struct proposal *proposals;
    static const char later[] = "session Legs from 2027-03-08\n"
                                "    straight A 3 sets rest 3:00\n"
                                "        back squat : 10 @ 60 kg\n            next time 8-10, then 2.5 kg\n"
                                "    straight B 3 sets rest 3:00\n"
                                "        floor press : 10 @ 40 kg\n            next time 8-10, then 2.5 kg\n";
    assert_int_equal(proposed(&reader, later, 2, 0, &proposals), 2); /* A.1 on both days; B.1 is another exercise now */
    assert_int_equal(proposals[0].block->letter, 'A');
    assert_int_equal(proposals[1].block->letter, 'A');
    plan_reader_close(&reader);
    static const char other[] = "camp Beside\n    for Wren Holloway\n    starts 2027-03-01\n    week 2\n        tuesday More\n";
    assert_int_equal(proposed(&reader, other, 2, 0, &proposals), 4);
    for (size_t i = 0; i < 4; i++)
        assert_string_equal(proposals[i].occasion->session->name.shown, "Legs");
    plan_reader_close(&reader);
}

/* Nothing goes up in a taper and on a hold; down it goes. */
static void what_stands_still(void **state)
{
    (void)state;
    static const char taper[] = "    bout 2027-03-14\n    phases\n        strength : 7 days\n        taper : 7 days\n";
#define STEP_4 "    hold head\n        since 2027-02-01\n        reached 2a by club physio on 2027-02-03\n" \
               "        reached 2b by club physio on 2027-02-05\n        reached 3 by club physio on 2027-02-07\n" \
               "        reached 4 by club physio on 2027-02-09\n"
#define STEP_5 STEP_4 "        agreed by doctor Ines Tarrant on 2027-02-11\n        reached 5 by doctor Ines Tarrant on 2027-02-12\n"
    const struct {
        const char *gym, *athlete, *camp, *rule, *log;
        double load;
    } cases[] = {
        {"Yard", "", "", "by effort 7-8", "A1 : 3 x 5 @ 100 kg RPE 6.5", 102},
        {"Yard", "", taper, "by effort 7-8", "A1 : 3 x 5 @ 100 kg RPE 6.5", 0},
        {"Yard", "", taper, "by effort 7-8", "A1 : 3 x 5 @ 100 kg RPE 9", 96},
        {"Yard", "", taper, "4-5, then 10.5 kg", "A1 : 3 x 5 @ 100 kg", 0},
        /* 98 kg are none of the shed's; in a taper loads are rounded down. */
        {"Shed", "", "", "by effort 7-8", "A1 : 3 x 5 @ 100 kg RPE 8.5", 97.5},
        {"Shed", "", "", "by effort 7-8", "A1 : 3 x 5 @ 101 kg RPE 8.5", 0},
        {"Shed", "", taper, "by effort 7-8", "A1 : 3 x 5 @ 101 kg RPE 8.5", 97.5},
        {"Yard", "    hold head\n        since 2027-03-05\n", "", "by effort 7-8", "A1 : 3 x 5 @ 100 kg RPE 6.5", 0},
        {"Yard", STEP_4, "", "by effort 7-8", "A1 : 3 x 5 @ 100 kg RPE 6.5", 0},
        {"Yard", STEP_4, "", "by effort 7-8", "A1 : 3 x 5 @ 100 kg RPE 9", 96},
        {"Yard", STEP_5, "", "by effort 7-8", "A1 : 3 x 5 @ 100 kg RPE 6.5", 102},
    };
#undef STEP_4
#undef STEP_5
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        struct plan_reader reader;
        struct proposal *proposals;
        plan_reader_open(&reader);
        plan_reader_shelf(&reader);
        open_text(&reader, arena_printf(reader.arena,
                                        "%sathlete Wren Holloway\n    lifting since 2020-01\n    trains at %s\n%s"
                                        "session Legs\n    straight A 3 sets rest 3:00\n        back squat : 5 @ 100 kg\n"
                                        "            next time %s\n"
                                        "camp Spring\n    for Wren Holloway\n    starts 2027-03-01\n%s    weeks 1-2\n"
                                        "        monday Legs\nlog 2027-03-01 Wren Holloway, Legs\n    %s\n",
                                        gyms, cases[i].gym, cases[i].athlete, cases[i].rule, cases[i].camp, cases[i].log));
        size_t count = next_of(reader.arena, reader.programme, 2, NULL, &proposals);
        assert_int_equal(count, cases[i].load > 0);
        if (count)
            assert_int_equal(proposals[0].load, KG(cases[i].load));
        plan_reader_close(&reader);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_step_that_the_gym_can_make),
        cmocka_unit_test(the_young_take_no_step_that_the_gym_cannot_make),
        cmocka_unit_test(what_counts_as_done),
        cmocka_unit_test(two_more_in_the_last_set_twice),
        cmocka_unit_test(a_rule_names_its_grounds),
        cmocka_unit_test(by_effort_up_and_down),
        cmocka_unit_test(every_answer_says_why),
        cmocka_unit_test(the_last_set_has_to_be_all_out),
        cmocka_unit_test(turns_are_those_of_the_same_line),
        cmocka_unit_test(lines_without_one_load_are_not_asked),
        cmocka_unit_test(what_is_planned_is_not_proposed),
        cmocka_unit_test(days_that_are_asked_for),
        cmocka_unit_test(closed_days_stay_as_they_are),
        cmocka_unit_test(turns_are_those_of_the_same_session),
        cmocka_unit_test(what_stands_still),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
