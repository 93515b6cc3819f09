/* A placed session changed on one day alone: what becomes of its line, of the lines below it and of its other days. The texts
 * that are expected here were written by hand, as a coach would. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "amend/placed.h"
#include "model/programme.h"
#include "plan/plan.h"

static const char PATH[] = "/nowhere/placed.bell";

static const char head[] = "athlete Wren Holloway\n"
                           "    stance        southpaw\n"
                           "\n"
                           "session Floor\n"
                           "    straight A  3 sets rest 1:00\n"
                           "        push-up : 5\n"
                           "    straight B  2 sets rest 1:00\n"
                           "        dead bug : 5\n"
                           "\n"
                           "camp Spring\n"
                           "    for       Wren Holloway\n"
                           "    starts    2027-03-01\n";

struct placing {
    struct arena *arena;
    struct project project;
    struct overlay overlay;
    const char *paths[1];
};

/* WEEKS are the lines of the camp that place its days. */
static void open_placing(struct placing *placing, const char *weeks)
{
    placing->arena = arena_new();
    placing->paths[0] = PATH;
    const char *text = arena_printf(placing->arena, "%s%s", head, weeks);
    placing->overlay = (struct overlay){.path = PATH, .text = text, .length = strlen(text)};
    const struct project_request request = {.share = "share", .paths = placing->paths, .path_count = 1,
                                            .overlays = &placing->overlay, .overlay_count = 1, .shelf = SHELF_NAMED};
    assert_true(project_load(&placing->project, placing->arena, &request));
    if (placing->project.programme->incomplete)
        fail_msg("the plan does not compile:\n%s", text);
}

/* The occasion on the day DAY of the camp, from 0, at HOUR; HOUR 0 is any. */
static const struct occasion *occasion_on(const struct placing *placing, int day, int hour)
{
    const struct programme *programme = placing->project.programme;
    for (size_t i = 0; i < programme->occasion_count; i++) {
        const struct occasion *occasion = &programme->occasions[i];
        if (occasion->date == programme->camps[0]->first + day && (!hour || occasion->clock == hour * 3600))
            return occasion;
    }
    fail_msg("nothing is placed on day %d", day);
    return NULL;
}

static void expect_text(struct placing *placing, const char *wrong, const struct amended *amended, const char *expected)
{
    assert_null(wrong);
    assert_memory_equal(text_get(&amended->bytes), head, sizeof head - 1);
    assert_string_equal(text_get(&amended->bytes) + sizeof head - 1, expected);
    arena_free(placing->arena);
}

static void expect_added(const char *weeks, int day, const char *lines, const char *expected)
{
    struct placing placing;
    struct amended amended;
    open_placing(&placing, weeks);
    const char *wrong = placed_add(placing.arena, &placing.project, occasion_on(&placing, day, 0), lines, &amended);
    expect_text(&placing, wrong, &amended, expected);
}

/* From DAY to the day TO, at CLOCK seconds; -1: the hour that it has. */
static void expect_moved(const char *weeks, int day, int to, int clock, bool off, const char *expected)
{
    struct placing placing;
    struct amended amended;
    open_placing(&placing, weeks);
    const struct occasion *occasion = occasion_on(&placing, day, 0);
    int date = placing.project.programme->camps[0]->first + to;
    const char *wrong = placed_move(placing.arena, &placing.project, occasion, date, clock < 0 ? occasion->clock : clock, off, &amended);
    expect_text(&placing, wrong, &amended, expected);
}

/* --- lines added --- */

static void a_line_of_one_day_gets_them_below(void **state)
{
    (void)state;
    expect_added("    week 1\n        monday    17:30  Floor\n        friday    17:30  Floor\n", 0, "drop A\nchange B.1 : 4",
                 "    week 1\n        monday    17:30  Floor\n            drop    A\n            change  B.1 : 4\n"
                 "        friday    17:30  Floor\n");
    expect_added("    week 1\n        monday    17:30  Floor\n            rpe     6\n", 0, "drop A",
                 "    week 1\n        monday    17:30  Floor\n            rpe     6\n            drop    A\n");
    /* What is in no canonical layout stays as it is written, with the indent that the lines below it have. */
    expect_added("    week 1\n       monday Floor\n         rpe   6\n       friday Floor\n", 0, "drop A",
                 "    week 1\n       monday Floor\n         rpe   6\n         drop A\n       friday Floor\n");
    expect_added("    week 1\n       monday Floor", 0, "drop A", "    week 1\n       monday Floor\n           drop A\n");
    expect_added("    week 1\n       monday Floor\n", 0, "", "    week 1\n       monday Floor\n");
}

static void a_line_of_several_days_gives_the_day_its_own(void **state)
{
    (void)state;
    expect_added("    week 1\n        monday, wednesday, sunday 17:30  Floor\n            rpe     6\n", 2, "drop A",
                 "    week 1\n        monday, sunday 17:30  Floor\n            rpe     6\n        wednesday 17:30  Floor\n"
                 "            rpe     6\n            drop    A\n");
    expect_added("    week 1\n       monday, sunday Floor # as ever\n", 6, "drop A",
                 "    week 1\n       monday Floor # as ever\n       sunday Floor # as ever\n           drop A\n");
    expect_added("    week 1\n       monday, sunday Floor\n", 0, "drop A",
                 "    week 1\n       sunday Floor\n       monday Floor\n           drop A\n");
}

static void a_line_of_several_weeks_gives_the_week_its_own(void **state)
{
    (void)state;
    expect_added("    weeks 1-3\n        monday    17:30  Floor\n            rpe     6\n        friday    17:30  Floor\n", 7, "drop A",
                 "    weeks 1-3\n        monday    17:30  Floor\n            rpe     6\n        friday    17:30  Floor\n"
                 "    week 2\n        monday    17:30  Floor\n            rpe     6\n            drop    A\n");
    /* A week that stands there already gets it among its days. */
    expect_added("    weeks 1-3\n       wednesday Floor\n    week 2\n       monday Floor\n       thursday Floor\n", 9, "drop A",
                 "    weeks 1-3\n       wednesday Floor\n    week 2\n       monday Floor\n       wednesday Floor\n           drop A\n"
                 "       thursday Floor\n");
    expect_added("    weeks 1-3\n       friday Floor\n    week 2\n       monday Floor\n       thursday Floor\n", 11, "drop A",
                 "    weeks 1-3\n       friday Floor\n    week 2\n       monday Floor\n       thursday Floor\n       friday Floor\n"
                 "           drop A\n");
    expect_added("    weeks 1-3\n       monday Floor\n    week 2\n       tuesday Floor\n", 7, "drop A",
                 "    weeks 1-3\n       monday Floor\n    week 2\n       monday Floor\n           drop A\n       tuesday Floor\n");
    /* Neither a week with another number nor one of several, nor one that counts to the bout, is that week. */
    expect_added("    weeks 1-3\n       monday Floor\n    week 3\n       tuesday Floor\n    weeks 2-3\n       friday Floor\n", 7, "drop A",
                 "    weeks 1-3\n       monday Floor\n    week 2\n       monday Floor\n           drop A\n"
                 "    week 3\n       tuesday Floor\n    weeks 2-3\n       friday Floor\n");
    expect_added("    bout    2027-03-20\n    weeks 1-3\n       monday Floor\n    week 2 out\n       tuesday Floor\n", 7, "drop A",
                 "    bout    2027-03-20\n    weeks 1-3\n       monday Floor\n    week 2\n       monday Floor\n           drop A\n"
                 "    week 2 out\n       tuesday Floor\n");
    /* A line of two days stands where its first would. */
    expect_added("    weeks 1-3\n       wednesday Floor\n    week 2\n       monday, thursday Floor\n       friday Floor\n", 9, "drop A",
                 "    weeks 1-3\n       wednesday Floor\n    week 2\n       monday, thursday Floor\n       wednesday Floor\n           drop A\n"
                 "       friday Floor\n");
}

/* What stands below for other weeks or days alone stays there alone. */
static void lines_for_other_days_stay_with_them(void **state)
{
    (void)state;
    static const char rest[] = "    week 2\n       monday Floor\n";
    static const struct {
        const char *line;
        bool taken;
    } lines[] = {
        {"rpe 6", true},
        {"waive chest-sets-over in week 2\n             because it rains", true},
        {"waive chest-sets-over in week 1\n             because it rains", false},
        {"waive chest-sets-over in week 3\n             because it rains", false},
        {"waive chest-sets-over in weeks 1-2\n             because it rains", true},
        {"waive chest-sets-over in weeks 2-3\n             because it rains", true},
        {"waive chest-sets-over in weeks 3-4\n             because it rains", false},
        {"absent Wren Holloway on 2027-03-15 because exam", false},
        {"out by 19:30", true},
    };
    for (size_t i = 0; i < sizeof lines / sizeof *lines; i++) {
        char weeks[300], kept[200] = "", expected[600];
        if (lines[i].taken)
            snprintf(kept, sizeof kept, "         %s\n", lines[i].line);
        snprintf(weeks, sizeof weeks, "    weeks 1-4\n       monday Floor\n         %s\n", lines[i].line);
        snprintf(expected, sizeof expected, "%s%s%s         drop A\n", weeks, rest, kept);
        expect_added(weeks, 7, "drop A", expected);
    }
}

/* --- moves --- */

enum { HOUR = 3600 };

static void a_line_of_one_day_moves_itself(void **state)
{
    (void)state;
    expect_moved("    week 1\n        monday    17:30  Floor\n            rpe     6\n        friday    17:30  Floor\n", 0, 2, -1, false,
                 "    week 1\n        wednesday 17:30  Floor\n            rpe     6\n        friday    17:30  Floor\n");
    expect_moved("    week 1\n       monday 17:30 Floor\n         rpe 6\n", 0, 0, 19 * HOUR + 5 * 60, false,
                 "    week 1\n       monday 19:05 Floor\n         rpe 6\n");
    expect_moved("    week 1\n       monday 17:30 Floor\n         out by 19:30\n       friday 08:00 Floor\n", 0, 1, 8 * HOUR, true,
                 "    week 1\n       tuesday 08:00 Floor\n         out by 19:30\n       monday 17:30 off\n       friday 08:00 Floor\n");
    expect_moved("    week 1\n       monday Floor\n", 0, 6, -1, false, "    week 1\n       sunday Floor\n");
}

static void a_day_of_several_moves_alone(void **state)
{
    (void)state;
    expect_moved("    week 1\n       monday, wednesday 17:30 Floor\n         rpe 6\n", 0, 1, 9 * HOUR, false,
                 "    week 1\n       wednesday 17:30 Floor\n         rpe 6\n       tuesday 09:00 Floor\n         rpe 6\n");
    expect_moved("    week 1\n       monday, wednesday, friday 17:30 Floor\n", 4, 5, -1, true,
                 "    week 1\n       monday, wednesday 17:30 Floor\n       friday 17:30 off\n       saturday 17:30 Floor\n");
}

static void a_week_of_several_moves_alone(void **state)
{
    (void)state;
    expect_moved("    weeks 1-3\n       monday 17:30 Floor\n         rpe 6\n", 7, 9, -1, true,
                 "    weeks 1-3\n       monday 17:30 Floor\n         rpe 6\n    week 2\n       monday 17:30 off\n       wednesday 17:30 Floor\n"
                 "         rpe 6\n");
    expect_moved("    weeks 1-3\n       monday 17:30 Floor\n    week 2\n       tuesday 12:00 Floor\n       friday 12:00 Floor\n", 7, 10, 7 * HOUR, false,
                 "    weeks 1-3\n       monday 17:30 Floor\n    week 2\n       tuesday 12:00 Floor\n       thursday 07:00 Floor\n"
                 "       friday 12:00 Floor\n");
}

/* --- two that change places --- */

static void expect_exchanged(const char *weeks, int day, int first, int second, const char *expected)
{
    struct placing placing;
    struct amended amended;
    open_placing(&placing, weeks);
    const char *wrong = placed_exchange(placing.arena, &placing.project, occasion_on(&placing, day, first),
                                        occasion_on(&placing, day, second), &amended);
    expect_text(&placing, wrong, &amended, expected);
}

static void two_take_each_others_hours(void **state)
{
    (void)state;
    expect_exchanged("    week 1\n       monday 17:00 Floor\n         rpe 6\n       monday 19:00 pads : 30 min RPE 6\n", 0, 17, 19,
                     "    week 1\n       monday 19:00 Floor\n         rpe 6\n       monday 17:00 pads : 30 min RPE 6\n");
    expect_exchanged("    week 1\n       monday 19:00 pads : 30 min RPE 6\n       monday 17:00 Floor\n         rpe 6\n", 0, 17, 19,
                     "    week 1\n       monday 17:00 pads : 30 min RPE 6\n       monday 19:00 Floor\n         rpe 6\n");
    expect_exchanged("    weeks 1-2\n       monday 17:00 Floor\n         rpe 6\n       monday 19:00 pads : 30 min RPE 6\n", 7, 17, 19,
                     "    weeks 1-2\n       monday 17:00 Floor\n         rpe 6\n       monday 19:00 pads : 30 min RPE 6\n"
                     "    week 2\n       monday 19:00 Floor\n         rpe 6\n       monday 17:00 pads : 30 min RPE 6\n");
    expect_exchanged("    week 1\n       monday, friday 17:00 Floor\n       monday 19:00 pads : 30 min RPE 6\n", 0, 17, 19,
                     "    week 1\n       friday 17:00 Floor\n       monday 19:00 Floor\n       monday 17:00 pads : 30 min RPE 6\n");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_line_of_one_day_gets_them_below),
        cmocka_unit_test(a_line_of_several_days_gives_the_day_its_own),
        cmocka_unit_test(a_line_of_several_weeks_gives_the_week_its_own),
        cmocka_unit_test(lines_for_other_days_stay_with_them),
        cmocka_unit_test(a_line_of_one_day_moves_itself),
        cmocka_unit_test(a_day_of_several_moves_alone),
        cmocka_unit_test(a_week_of_several_moves_alone),
        cmocka_unit_test(two_take_each_others_hours),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
