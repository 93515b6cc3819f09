/* test_wording_edges.c - doses, loads, days and what somebody avoids, in the words that few plans come to. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "kg.h"
#include "model/barred.h"
#include "model/programme.h"
#include "wording/wording.h"
#include "unit/one_arena.h"

#define GAP "\302\240"
#define TIMES GAP "\303\227" GAP
#define TO "\342\200\223"
#define DOT " \302\267 "

/* --- limbs --- */

static void a_limb_is_named_alone_and_after_a_stance(void **state)
{
    (void)state;
    static const struct {
        unsigned worker;
        const char *words;
    } cases[] = {{WORKER_LEAD_HAND, "lead" GAP "hand"}, {WORKER_REAR_HAND, "rear" GAP "hand"},
                 {WORKER_LEAD_LEG, "lead" GAP "leg"},   {WORKER_REAR_LEG, "rear" GAP "leg"},
                 {WORKER_LEAD_HIP, "lead" GAP "hip"},   {WORKER_REAR_HIP, "rear" GAP "hip"}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        struct part part = {.amount = {5000, 5000}, .unit = UNIT_STRIKES, .workers = cases[i].worker};
        struct set_run run = {.count = 1, .parts = &part, .part_count = 1, .repeats = 1};
        assert_string_equal(wording_side(arena, &part), cases[i].words);
        assert_string_equal(wording_set(arena, &run), arena_printf(arena, "5" GAP "strikes" GAP "%s", cases[i].words));
        part.side = DOSE_ORTHODOX;
        assert_string_equal(wording_set(arena, &run), arena_printf(arena, "5" GAP "strikes" GAP "orthodox %s", cases[i].words));
    }
    const struct part none = {.amount = {5000, 5000}};
    assert_string_equal(wording_side(arena, &none), "");
}

static void a_maximum_has_no_unit(void **state)
{
    (void)state;
    const struct part max = {.unit = UNIT_METRES, .max = true};
    assert_string_equal(wording_unit(arena, &max), "");
    assert_string_equal(wording_amount(arena, &max), "max");
    const struct part combination = {.amount = {2000, 2000}, .unit = UNIT_STRIKES, .several = true};
    assert_string_equal(wording_unit(arena, &combination), GAP "times");
    const struct part by_hand = {.amount = {2000, 2000}, .unit = UNIT_STRIKES, .several = true, .workers = WORKER_LEAD_HAND};
    assert_string_equal(wording_unit(arena, &by_hand), GAP "strikes");
}

/* --- rests and what is worked up to --- */

static void a_rest_inside_a_set_is_said_where_there_is_one(void **state)
{
    (void)state;
    const struct part parts[] = {{.amount = {2000, 2000}}, {.amount = {2000, 2000}}};
    struct set_run run = {.count = 1, .parts = parts, .part_count = 1, .repeats = 1, .rest_low = 15, .rest_high = 15};
    assert_string_equal(wording_rest_inside(arena, &run), "");
    run.part_count = 2;
    assert_string_equal(wording_rest_inside(arena, &run), "rest" GAP "15" GAP "s");
    run.rest_high = 20;
    assert_string_equal(wording_rest_inside(arena, &run), "rest" GAP "15" TO "20" GAP "s");
    run.rest_low = 90;
    run.rest_high = 120;
    assert_string_equal(wording_rest_inside(arena, &run), "rest" GAP "1:30" TO "2:00");
    run.rest_high = 0;
    assert_string_equal(wording_rest_inside(arena, &run), "");
}

static void what_is_worked_up_to_has_its_side(void **state)
{
    (void)state;
    const struct part parts[] = {{.amount = {3000, 3000}, .side = DOSE_EACH_SIDE}, {.amount = {3000, 3000}}};
    struct set_run run = {.count = 1, .parts = parts, .part_count = 1, .repeats = 1, .work_up = true};
    assert_string_equal(wording_set(arena, &run), "work up each" GAP "side to");
    run.part_count = 2;
    assert_string_equal(wording_set(arena, &run), "work up each" GAP "stance to");
    run.parts = parts + 1;
    run.part_count = 1;
    assert_string_equal(wording_set(arena, &run), "work up to");
}

static void sides_that_are_left_out_are_named(void **state)
{
    (void)state;
    static const char *const words[] = {"", "left side left out", "right side left out", "a side left out"};
    for (unsigned sides = 0; sides <= BARRED_ALL; sides++) {
        const struct item item = {.sides_out = sides};
        assert_string_equal(wording_sides_out(arena, &item), words[sides]);
    }
}

static void a_block_done_several_times_says_so(void **state)
{
    (void)state;
    struct block block = {.kind = BLOCK_FOR_TIME, .sets = 3, .times = 2};
    assert_string_equal(wording_block(arena, &block), "2" GAP "times (for time" DOT "3" GAP "rounds)");
    block.work = 300;
    block.times_rest = 90;
    assert_string_equal(wording_block(arena, &block),
                        "2" GAP "times (for time" DOT "3" GAP "rounds in" GAP "5:00)" DOT "rest between" GAP "1:30");
    block = (struct block){.kind = BLOCK_ROUNDS, .poor_sets = 1};
    assert_string_equal(wording_poor_day(arena, &block), "on a poor day: 1" GAP "round");
    block.poor_rpe = (struct range){6000, 7000};
    assert_string_equal(wording_poor_day(arena, &block), "on a poor day: 1" GAP "round, RPE" GAP "6" TO "7");
    block.poor_sets = 0;
    assert_string_equal(wording_poor_day(arena, &block), "");
}

/* --- loads --- */

static void a_range_of_kilograms_has_both_ends(void **state)
{
    (void)state;
    struct load load = {.kind = LOAD_MASS, .asked = KG(60), .asked_high = KG(70), .made = KG(60), .pieces = 1};
    assert_string_equal(wording_load_mass(arena, &load, false), "60" TO "70" GAP "kg");
    load.pieces = 2;
    assert_string_equal(wording_load_mass(arena, &load, false), "2" TIMES "60" TO "70" GAP "kg");
}

/* What a thing weighs is its own figure; a share that nothing makes, and discs in pounds on a bar in kilograms, have none. */
static void a_load_that_is_there_is_not_rounded(void **state)
{
    (void)state;
    const struct {
        struct load load;
        const char *words;
    } cases[] = {
        {{.kind = LOAD_MASS, .asked = KG(10.125), .made = KG(10.125), .unit = MASS_IN_KG}, "10.125" GAP "kg"},
        {{.kind = LOAD_MASS, .asked = KG(62.5), .made = KG(62.5), .unit = MASS_IN_KG}, "62.5" GAP "kg"},
        {{.kind = LOAD_PERCENT, .asked = KG(10), .made = KG(10.125), .unit = MASS_IN_KG}, "10.125" GAP "kg"},
        {{.kind = LOAD_PERCENT, .asked = KG(49.875), .made = KG(49.875), .unit = MASS_IN_KG}, "49.88" GAP "kg"},
        {{.kind = LOAD_MASS, .asked = KG(30), .made = KG(20) + 2 * LB(10), .unit = MASS_IN_KG}, "29.07" GAP "kg"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
        assert_string_equal(wording_load_mass(arena, &cases[i].load, false), cases[i].words);
    assert_string_equal(wording_load_mass(arena, &cases[0].load, true), "10.125" GAP "kg (22.25" GAP "lb)");
}

static void what_a_figure_weighs_goes_by_the_exercise(void **state)
{
    (void)state;
    static const struct {
        enum weigh weigh;
        int pieces;
        const char *words;
    } cases[] = {{WEIGH_BAR_AND_PLATES, 1, "with" GAP "bar"}, {WEIGH_PLATES, 1, "plates"},
                 {WEIGH_ONE_HAND, 1, "one" GAP "hand"},       {WEIGH_ONE_HAND, 2, "each" GAP "hand"},
                 {WEIGH_UNSAID, 2, "each" GAP "hand"},        {WEIGH_BOTH_HANDS, 1, "both" GAP "hands"},
                 {WEIGH_BOTH_HANDS, 2, "both" GAP "hands"},   {WEIGH_ADDED, 1, "added"},
                 {WEIGH_UNSAID, 1, ""}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        const struct exercise exercise = {.weigh = cases[i].weigh};
        const struct load load = {.kind = LOAD_MASS, .asked = KG(16), .made = KG(16), .pieces = cases[i].pieces};
        assert_string_equal(wording_meaning(arena, &exercise, &load), cases[i].words);
    }
    const struct exercise exercise = {.weigh = WEIGH_ADDED};
    const struct load nothing = {.kind = LOAD_NONE};
    assert_string_equal(wording_meaning(arena, &exercise, &nothing), "");
}

static void each_effort_has_its_words(void **state)
{
    (void)state;
    static const char *const words[] = {
        [EFFORT_NONE] = "",           [EFFORT_RPE] = "RPE" GAP "7" TO "8", [EFFORT_RESERVE] = "7" TO "8" GAP "in" GAP "reserve",
        [EFFORT_ALL_OUT] = "all-out", [EFFORT_EASY] = "easy",              [EFFORT_REP_MAX] = "7" TO "8RM",
        [EFFORT_PULSE] = "pulse" GAP "7" TO "8"};
    for (size_t effort = 0; effort < sizeof words / sizeof *words; effort++) {
        const struct load load = {.effort = (enum effort_kind)effort, .effort_band = {7000, 8000}};
        assert_string_equal(wording_effort(arena, &load), words[effort]);
    }
}

/* --- logs --- */

static void a_logged_set_has_its_load(void **state)
{
    (void)state;
    const struct part parts[] = {{.amount = {4000, 4000}}, {.amount = {5000, 5000}}};
    struct logged_set set = {.count = 1, .parts = parts, .part_count = 1, .kind = LOAD_MASS, .pieces = 1, .load = KG(60)};
    assert_string_equal(wording_logged_set(arena, &set), "4 @" GAP "60" GAP "kg");
    set.pieces = 2;
    assert_string_equal(wording_logged_set(arena, &set), "4 @" GAP "2" TIMES "60" GAP "kg");
    set.kind = LOAD_BODY;
    assert_string_equal(wording_logged_set(arena, &set), "4 + 60" GAP "kg");
    set.load = 0;
    assert_string_equal(wording_logged_set(arena, &set), "4");
    set = (struct logged_set){.count = 2, .parts = parts, .part_count = 2, .kind = LOAD_BAND, .thing = "light band",
                              .effort = EFFORT_RPE, .effort_band = {9000, 9000}};
    assert_string_equal(wording_logged_set(arena, &set), "2" TIMES "(4 + 5), light band RPE" GAP "9");
    set.part_count = 1;
    assert_string_equal(wording_logged_set(arena, &set), "2" TIMES "4, light band RPE" GAP "9");
}

/* --- what somebody avoids --- */

static struct avoid avoid_nothing(const char *shown)
{
    return (struct avoid){.shown = shown, .pattern = -1, .region = -1, .kind = -1, .joint = -1, .demand = -1};
}

static void what_is_avoided_has_its_name_and_side(void **state)
{
    (void)state;
    static const struct exercise press = {.name = {"bench press", "bench press", {0}}};
    struct avoid avoid = avoid_nothing("overhead");
    assert_string_equal(wording_avoid(arena, &avoid), "overhead");
    avoid.exercise = &press;
    assert_string_equal(wording_avoid(arena, &avoid), "bench press");
    avoid = avoid_nothing("calves");
    avoid.region = 0;
    assert_string_equal(wording_avoid(arena, &avoid), regions.names[0]);
    avoid.sides = BARRED_LEFT;
    assert_string_equal(wording_avoid(arena, &avoid), arena_printf(arena, "left %s", regions.names[0]));
    avoid.sides = BARRED_RIGHT;
    assert_string_equal(wording_avoid(arena, &avoid), arena_printf(arena, "right %s", regions.names[0]));
    avoid = avoid_nothing("jumps");
    avoid.pattern = 0;
    assert_string_equal(wording_avoid(arena, &avoid), patterns.names[0]);
    avoid = avoid_nothing("strength work");
    avoid.kind = 0;
    assert_string_equal(wording_avoid(arena, &avoid), exercise_kinds.names[0]);
    avoid = avoid_nothing("left knee deep");
    avoid.joint = 0;
    avoid.demand = 0;
    avoid.sides = BARRED_LEFT;
    assert_string_equal(wording_avoid(arena, &avoid), arena_printf(arena, "left %s %s", joints.names[0], demands.names[0]));
    avoid.demand = -1;
    assert_string_equal(wording_avoid(arena, &avoid), arena_printf(arena, "left %s", joints.names[0]));
}

/* --- days --- */

static void a_bout_that_is_off_says_so(void **state)
{
    (void)state;
    struct bout bout = {0};
    assert_string_equal(wording_bout(arena, &bout), "");
    bout.cancelled = 1000;
    assert_string_equal(wording_bout(arena, &bout), "cancelled");
    bout.plain = "kickboxing";
    assert_string_equal(wording_bout(arena, &bout), "kickboxing, cancelled");
    bout.cancelled = 0;
    assert_string_equal(wording_bout(arena, &bout), "kickboxing");
}

static void a_tournament_that_ended_early_has_no_more_days(void **state)
{
    (void)state;
    const int days[] = {1000, 1001, 1002};
    struct bout bout = {.days = days, .day_count = 3};
    struct bout *bouts[] = {&bout};
    const struct camp camp = {.bouts = bouts, .bout_count = 1};
    assert_int_equal(wording_days_to_bout(&camp, 1001), 0);
    assert_int_equal(wording_days_to_bout(&camp, 998), 2);
    bout.out = 1001; /* lost on the second day */
    assert_int_equal(wording_days_to_bout(&camp, 1001), 0);
    assert_int_equal(wording_days_to_bout(&camp, 1002), -1);
    bout.cancelled = 999;
    assert_int_equal(wording_days_to_bout(&camp, 998), 2);
    assert_int_equal(wording_days_to_bout(&camp, 999), -1);
}

static void a_lighter_day_and_a_journey_are_said(void **state)
{
    (void)state;
    struct occasion travel = {.seconds = 3600, .deload = 60000};
    assert_string_equal(wording_occasion(arena, &travel), "60" GAP "min" DOT "deload");
    travel = (struct occasion){.seconds = 3600, .zones = 7000};
    assert_string_equal(wording_occasion(arena, &travel),
                        arena_printf(arena, "60" GAP "min" DOT "%s", wording_zones(arena, 7000)));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_limb_is_named_alone_and_after_a_stance),
        cmocka_unit_test(a_maximum_has_no_unit),
        cmocka_unit_test(a_rest_inside_a_set_is_said_where_there_is_one),
        cmocka_unit_test(what_is_worked_up_to_has_its_side),
        cmocka_unit_test(sides_that_are_left_out_are_named),
        cmocka_unit_test(a_block_done_several_times_says_so),
        cmocka_unit_test(a_range_of_kilograms_has_both_ends),
        cmocka_unit_test(a_load_that_is_there_is_not_rounded),
        cmocka_unit_test(what_a_figure_weighs_goes_by_the_exercise),
        cmocka_unit_test(each_effort_has_its_words),
        cmocka_unit_test(a_logged_set_has_its_load),
        cmocka_unit_test(what_is_avoided_has_its_name_and_side),
        cmocka_unit_test(a_bout_that_is_off_says_so),
        cmocka_unit_test(a_tournament_that_ended_early_has_no_more_days),
        cmocka_unit_test(a_lighter_day_and_a_journey_are_said),
    };
    return cmocka_run_group_tests(tests, open_arena, close_arena);
}
