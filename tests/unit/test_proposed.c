/* A proposed load as a line `change` says it, and which proposals are refused because the plan would have an error. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "amend/proposed.h"
#include "done/next.h"
#include "kg.h"
#include "model/programme.h"
#include "plan/plan.h"
#include "rules/rules.h"

/* --- one line --- */

struct dose_case {
    mass load;
    int reps, sets, pieces;
    enum dose_side side;
    enum effort_kind effort;
    milli low, high;
    const char *dose;
};

static void a_dose_as_a_line_says_it(void **state)
{
    (void)state;
    const struct dose_case cases[] = {
        {KG(62.5), 0, 3, 1, DOSE_WHOLE, EFFORT_NONE, 0, 0, "@ 62.5 kg"},
        {KG(62.5), 0, 3, 1, DOSE_EACH_SIDE, EFFORT_RPE, 8000, 8000, "@ 62.5 kg RPE 8"},
        {KG(62.125), 0, 3, 1, DOSE_WHOLE, EFFORT_RPE, 7500, 8000, "@ 62.125 kg RPE 7.5-8"},
        {LB(140), 0, 3, 1, DOSE_WHOLE, EFFORT_ALL_OUT, 0, 0, "@ 140 lb all-out"},
        {LB(142.5), 0, 3, 1, DOSE_WHOLE, EFFORT_RESERVE, 1000, 2000, "@ 142.5 lb 1-2 in reserve"},
        {KG(20), 0, 3, 2, DOSE_WHOLE, EFFORT_EASY, 0, 0, "@ 2 x 20 kg easy"},
        {KG(20), 0, 3, 1, DOSE_WHOLE, EFFORT_PULSE, 120000, 140000, "@ 20 kg pulse 120-140"},
        {KG(20), 11, 3, 1, DOSE_WHOLE, EFFORT_NONE, 0, 0, "11, 11, 11 @ 20 kg"},
        {KG(20), 9, 1, 1, DOSE_WHOLE, EFFORT_RPE, 7000, 7000, "9 @ 20 kg RPE 7"},
        {KG(20), 6, 2, 1, DOSE_EACH_SIDE, EFFORT_NONE, 0, 0, "6, 6 each side @ 20 kg"},
        {KG(20), 6, 2, 2, DOSE_EACH_WAY, EFFORT_NONE, 0, 0, "6, 6 each way @ 2 x 20 kg"},
    };
    struct arena *arena = arena_new();
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        const struct dose_case *one = &cases[i];
        const struct part part = {.side = one->side};
        const struct set_run run = {.parts = &part, .part_count = 1,
                                    .load = {.pieces = one->pieces, .effort = one->effort, .effort_band = {one->low, one->high}}};
        const struct item item = {.runs = &run, .run_count = 1, .sets = one->sets};
        const struct proposal proposal = {.item = &item, .load = one->load, .reps = one->reps};
        assert_string_equal(proposed_dose(arena, &proposal), one->dose);
    }
    arena_free(arena);
}

/* --- a week --- */

static const char PATH[] = "/nowhere/proposed.bell";

/* Two athletes on one line, and Wren alone on another day; the squats come to 1,800 kg for Wren on each of two days, and to
 * 2,400 kg for Nils. */
static const char plan[] = "gym Yard\n"
                           "    barbell   20 kg\n"
                           "    plates    8 x 20, 4 x 10, 4 x 5, 4 x 2.5, 4 x 1.25 kg\n"
                           "    stations  rack\n"
                           "athlete Wren Holloway\n    lifting since 2020-01\n    trains at Yard\n"
                           "athlete Nils Ferrow\n    lifting since 2020-01\n    trains at Yard\n"
                           "session Legs\n"
                           "    straight A 3 sets rest 3:00\n"
                           "        back squat : 10 @ 60 kg\n"
                           "            next time 8-10, then 2.5 kg\n"
                           "            for Nils Ferrow : 10 @ 80 kg\n"
                           "session Alone\n"
                           "    straight A 3 sets rest 3:00\n"
                           "        back squat : 10 @ 60 kg\n"
                           "            next time 8-10, then 2.5 kg\n"
                           "limits Ours\n"
                           "    every week\n"
                           "        tonnage at most %d kg\n"
                           "            common practice\n"
                           "%s"
                           "camp Spring\n    for Wren Holloway, Nils Ferrow\n    starts 2027-03-01\n    limits Ours\n"
                           "    weeks 1-2\n"
                           "        monday Legs\n"
                           "        thursday Alone\n"
                           "            absent Nils Ferrow\n"
                           "log 2027-03-01 Wren Holloway, Legs\n    as planned\n"
                           "log 2027-03-01 Nils Ferrow, Legs\n    as planned\n"
                           "log 2027-03-04 Wren Holloway, Alone\n    as planned\n";

struct proposing {
    struct arena *arena;
    struct overlay overlay;
    const char *paths[1];
    struct project_request request;
    struct project project;
    struct proposed proposed;
};

static void propose(struct proposing *proposing, int most, const char *limits)
{
    proposing->arena = arena_new();
    proposing->paths[0] = PATH;
    const char *text = arena_printf(proposing->arena, plan, most, limits);
    proposing->overlay = (struct overlay){.path = PATH, .text = text, .length = strlen(text)};
    proposing->request = (struct project_request){.share = "share", .paths = proposing->paths, .path_count = 1,
                                                  .overlays = &proposing->overlay, .overlay_count = 1, .shelf = SHELF_NAMED};
    assert_true(project_load(&proposing->project, proposing->arena, &proposing->request));
    assert_false(proposing->project.programme->incomplete);
    rules_run(proposing->project.programme, proposing->project.diag);
    proposing->proposed = proposed_week(proposing->arena, &proposing->project, 2, NULL);
}

/* How many stand where at most MOST kilograms may be lifted in a week, and whose first is refused, or NULL. */
static void expect_standing(int most, const char *limits, size_t standing, const char *refused)
{
    struct proposing proposing;
    propose(&proposing, most, limits);
    const struct proposed *proposed = &proposing.proposed;
    assert_int_equal(proposed->count, 3);
    assert_int_equal(proposed->standing, standing);
    const char *first = NULL;
    for (size_t i = proposed->count; i-- > 0;)
        if (proposed->refused[i])
            first = proposed->items[i].occasion->athlete->name.shown;
    assert_string_equal(first ? first : "", refused ? refused : "");
    arena_free(proposing.arena);
}

/* Raised, Wren lifts 3,750 kg in the week, Nils 2,475 kg. */
static void what_is_past_a_limit_is_refused(void **state)
{
    (void)state;
    expect_standing(3750, "", 3, NULL);
    expect_standing(3749, "", 1, "Wren Holloway");
    expect_standing(2474, "", 0, "Wren Holloway");
    /* An error that the plan has without them refuses none. */
    expect_standing(3750, "        front thigh sets at most 1\n            common practice\n", 3, NULL);
}

/* --- errors told apart --- */

/* The errors of a plan in which Wren is to press overhead, which is to be avoided, in WEEKS. */
static struct diag *errors_in(struct arena *arena, const char *weeks, struct project *project)
{
    static const char *const paths[] = {PATH};
    const char *text = arena_printf(arena, "gym Yard\n    barbell 20 kg\n    plates 4 x 20 kg\n    stations rack\n"
                                           "athlete Wren Holloway\n    trains at Yard\n    avoid overhead\n        since 2027-01-01\n"
                                           "session Arms\n    straight A 3 sets rest 3:00\n        overhead press : 5 @ 60 kg\n"
                                           "camp Spring\n    for Wren Holloway\n    starts 2027-03-01\n    weeks %s\n        monday Arms\n",
                                    weeks);
    struct overlay *overlay = arena_alloc(arena, sizeof *overlay);
    *overlay = (struct overlay){.path = PATH, .text = text, .length = strlen(text)};
    const struct project_request request = {.share = "share", .paths = paths, .path_count = 1, .overlays = overlay,
                                            .overlay_count = 1, .shelf = SHELF_NAMED};
    assert_true(project_load(project, arena, &request));
    rules_run(project->programme, project->diag);
    assert_true(diag_count(project->diag, SEVERITY_ERROR) > 0);
    return project->diag;
}

/* One that holds on fewer days than before is not new, though it names another day; one on as many others is. */
static void an_error_of_fewer_days_is_not_new(void **state)
{
    (void)state;
    struct arena *arena = arena_new();
    struct project first, fewer, moved, same;
    const struct diag *before = errors_in(arena, "1-3", &first);
    size_t from[3] = {0};
    assert_null(attempt_new_error(before, errors_in(arena, "1-3", &same), &from[0]));
    assert_null(attempt_new_error(before, errors_in(arena, "2-3", &fewer), &from[1]));
    assert_non_null(attempt_new_error(before, errors_in(arena, "2-4", &moved), &from[2]));
    assert_null(attempt_new_error(before, moved.diag, &from[2]));
    arena_free(arena);
}

/* Does the week as written propose the text TEXT below its line of DAY? */
static void expect_written(const struct proposing *proposing, const char *text)
{
    const struct overlay *after = &proposing->proposed.attempt.request.overlays[proposing->proposed.attempt.request.overlay_count - 1];
    if (!strstr(after->text, text))
        fail_msg("not written: %s\nin\n%s", text, after->text);
}

static void each_stands_below_its_line(void **state)
{
    (void)state;
    struct proposing proposing;
    propose(&proposing, 9999, "");
    proposed_write(proposing.arena, &proposing.request, &proposing.project, &proposing.proposed);
    assert_null(proposing.proposed.wrong);
    assert_false(proposing.proposed.unread);
    assert_int_equal(proposing.proposed.attempt.errors, 0);
    expect_written(&proposing, "    week 2\n"
                               "        monday Legs\n"
                               "            for Wren Holloway\n"
                               "                change A.1 : @ 62.5 kg\n"
                               "            for Nils Ferrow\n"
                               "                change A.1 : @ 82.5 kg\n"
                               "        thursday Alone\n"
                               "            absent Nils Ferrow\n"
                               "            change A.1 : @ 62.5 kg\n");
    arena_free(proposing.arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_dose_as_a_line_says_it),
        cmocka_unit_test(what_is_past_a_limit_is_refused),
        cmocka_unit_test(each_stands_below_its_line),
        cmocka_unit_test(an_error_of_fewer_days_is_not_new),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
