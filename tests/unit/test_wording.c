/* test_wording.c - doses and loads in a coach's words. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include <string.h>

#include "kg.h"
#include "model/programme.h"
#include "wording/wording.h"
#include "unit/one_arena.h"

#define GAP "\302\240"
#define TIMES GAP "\303\227" GAP
#define TO "\342\200\223"

static struct part part(milli low, milli high, enum unit unit, enum dose_side side)
{
    return (struct part){.amount = {low, high}, .unit = unit, .side = side};
}

/* An item of one run of COUNT sets. */
struct sample {
    struct part parts[2];
    struct set_run run;
    struct item item;
};

static const struct exercise plain_exercise;
static const struct block straight = {.kind = BLOCK_STRAIGHT, .letter = 'A', .sets = 3};

static const struct item *sample_item(struct sample *sample, int count, size_t parts)
{
    sample->run.count = count;
    sample->run.parts = sample->parts;
    sample->run.part_count = parts;
    if (sample->run.repeats == 0)
        sample->run.repeats = 1;
    sample->item = (struct item){.exercise = &plain_exercise,
                                 .runs = &sample->run,
                                 .run_count = 1,
                                 .sets = count};
    return &sample->item;
}

static void test_doses(void **state)
{
    (void)state;
    struct sample s = {.parts = {part(5000, 5000, UNIT_REPS, DOSE_WHOLE)}};
    assert_string_equal(wording_dose(arena, &straight, sample_item(&s, 3, 1)), "3" TIMES "5");
    s.parts[0] = part(8000, 10000, UNIT_REPS, DOSE_WHOLE);
    assert_string_equal(wording_dose(arena, &straight, sample_item(&s, 1, 1)), "8" TO "10");
    s.parts[0] = part(4000, 4000, UNIT_REPS, DOSE_EACH_SIDE);
    assert_string_equal(wording_dose(arena, &straight, sample_item(&s, 1, 1)),
                        "4" GAP "each" GAP "side");
    s.parts[0] = part(4000, 4000, UNIT_REPS, DOSE_ORTHODOX);
    s.parts[1] = part(2000, 2000, UNIT_REPS, DOSE_SOUTHPAW);
    assert_string_equal(wording_dose(arena, &straight, sample_item(&s, 1, 2)),
                        "4" GAP "orthodox +" GAP "2" GAP "southpaw");
    s = (struct sample){.parts = {part(25000, 25000, UNIT_SECONDS, DOSE_EACH_SIDE)},
                        .run.hold = true};
    assert_string_equal(wording_dose(arena, &straight, sample_item(&s, 1, 1)),
                        "hold" GAP "25" GAP "s" GAP "each" GAP "side");
    s = (struct sample){.parts = {part(40000, 40000, UNIT_METRES, DOSE_WHOLE)}, .run.repeats = 6};
    assert_string_equal(wording_dose(arena, &straight, sample_item(&s, 1, 1)),
                        "6" TIMES "40" GAP "m");
    s = (struct sample){.parts = {{.max = true}}};
    assert_string_equal(wording_dose(arena, &straight, sample_item(&s, 2, 1)), "2" TIMES "max");
}

/* In a block of rounds the heading counts, not the line. */
static void test_dose_in_rounds(void **state)
{
    (void)state;
    struct block rounds = {.kind = BLOCK_ROUNDS, .sets = 4, .work = 120, .rest_low = 40,
                           .rest_high = 40};
    struct sample s = {.parts = {part(6000, 6000, UNIT_REPS, DOSE_EACH_SIDE)}};
    assert_string_equal(wording_dose(arena, &rounds, sample_item(&s, 4, 1)),
                        "6" GAP "each" GAP "side");
    assert_non_null(strstr(wording_block(arena, &rounds), "4" TIMES "2:00"));
    assert_non_null(strstr(wording_block(arena, &rounds), "rest" GAP "0:40"));
}

/* Series 8, 8, 10, 12 at 60, 60, 55, 50 kg: the unit stands once, behind the last. */
static void test_sets_that_differ(void **state)
{
    (void)state;
    static const int reps[] = {8, 8, 10, 12}, kilograms[] = {60, 60, 55, 50};
    static const struct exercise row = {.weigh = WEIGH_BAR_AND_PLATES};
    struct part parts[4];
    struct set_run runs[4] = {0};
    for (int i = 0; i < 4; i++) {
        parts[i] = part(reps[i] * 1000, reps[i] * 1000, UNIT_REPS, DOSE_WHOLE);
        runs[i] = (struct set_run){.count = 1, .parts = &parts[i], .part_count = 1, .repeats = 1};
        runs[i].load = (struct load){.kind = LOAD_MASS, .pieces = 1};
        runs[i].load.asked = runs[i].load.made = KG(kilograms[i]);
    }
    struct item item = {.exercise = &row, .runs = runs, .run_count = 4, .sets = 4};
    assert_string_equal(wording_dose(arena, &straight, &item), "8, 8, 10, 12");
    assert_string_equal(wording_loads(arena, &straight, &item, false),
                        "60, 60, 55, 50" GAP "kg" GAP "with" GAP "bar");
}

static void test_loads(void **state)
{
    (void)state;
    static const struct exercise squat = {.weigh = WEIGH_BAR_AND_PLATES},
                                 press = {.weigh = WEIGH_PLATES},
                                 carry = {.weigh = WEIGH_ONE_HAND};
    struct load share = {.kind = LOAD_PERCENT, .percent = {80000, 80000}, .asked = KG(60),
                         .made = KG(60), .pieces = 1};
    assert_string_equal(wording_load(arena, &squat, &share, false),
                        "80" GAP "% \302\267 60" GAP "kg" GAP "with" GAP "bar");
    share.estimated = true;
    assert_non_null(strstr(wording_load(arena, &squat, &share, false), "est."));
    assert_non_null(strstr(wording_load(arena, &press, &share, false), "kg" GAP "plates"));
    assert_non_null(strstr(wording_load(arena, &squat, &share, true), "132.25" GAP "lb"));
    share.made = LB(135);
    share.unit = MASS_IN_LB;
    assert_string_equal(wording_load_mass(arena, &share, true), "135" GAP "lb"); /* pounds lead: nothing to add */
    struct load pair = {.kind = LOAD_MASS, .asked = KG(16), .made = KG(16), .pieces = 2};
    assert_string_equal(wording_load(arena, &carry, &pair, false),
                        "2" TIMES "16" GAP "kg" GAP "each" GAP "hand");
    pair.pieces = 1;
    assert_string_equal(wording_load(arena, &carry, &pair, false),
                        "16" GAP "kg" GAP "one" GAP "hand");
    struct load effort = {.effort = EFFORT_RPE, .effort_band = {7000, 9000}};
    assert_string_equal(wording_load(arena, &squat, &effort, false), "RPE" GAP "7" TO "9");
    struct load band = {.kind = LOAD_BAND, .thing = "medium band"};
    assert_string_equal(wording_load(arena, &squat, &band, false), "medium band");
}

/* Kilograms made from a share of body mass would tell what the athlete weighs. */
static void test_body_mass_is_not_told(void **state)
{
    (void)state;
    struct load body = {.kind = LOAD_BODY, .percent = {20000, 20000}, .made = KG(11.68), .pieces = 1};
    assert_string_equal(wording_load(arena, &plain_exercise, &body, false),
                        "20" GAP "% of body" GAP "mass");
    assert_string_equal(wording_load_mass(arena, &body, false), "");
}

static void test_times_and_tempo(void **state)
{
    (void)state;
    struct block block = {.kind = BLOCK_SUPERSET, .sets = 3, .rest_low = 180, .rest_high = 240};
    struct item_tempo tempo = {.lower = 3, .low_pause = 1, .lift_fast = true, .given = true};
    assert_string_equal(wording_rest(arena, &block), "3:00" TO "4:00");
    assert_string_equal(wording_tempo(arena, &tempo), "3-1-X-0");
    assert_string_equal(wording_tempo(arena, &(struct item_tempo){0}), "");
    assert_string_equal(wording_time(arena, 45), "45" GAP "s");
    assert_string_equal(wording_time(arena, 120), "2" GAP "min");
    assert_string_equal(wording_clock(arena, 3725), "1:02:05");
    assert_string_equal(wording_weeks_out(arena, 1), "1" GAP "week out");
    assert_string_equal(wording_weeks_out(arena, 0), "bout week");
    assert_string_equal(wording_weeks_out(arena, -1), "");
}

static void test_days_before_the_bout(void **state)
{
    (void)state;
    int days[] = {1008};
    struct bout bout = {.day = 1008, .days = days, .day_count = 1, .last = 1008}, *bouts[] = {&bout};
    struct camp camp = {.bouts = bouts, .bout_count = 1};
    struct occasion occasion = {.camp = &camp, .date = 1006, .weeks_out = 0};
    assert_string_equal(wording_before_bout(arena, &occasion), "2 days before the bout");
    assert_string_equal(wording_out(arena, &occasion), "2 days before the bout");
    occasion.date = 1007;
    assert_string_equal(wording_out(arena, &occasion), "the day before the bout");
    occasion.date = 1008;
    assert_string_equal(wording_out(arena, &occasion), "the day of the bout");
    occasion.date = 1000;
    occasion.weeks_out = 1;
    assert_string_equal(wording_before_bout(arena, &occasion), "");
    assert_string_equal(wording_out(arena, &occasion), "1" GAP "week out");
    occasion.date = 1009;
    occasion.weeks_out = -1;
    assert_string_equal(wording_out(arena, &occasion), "");
    camp.bout_count = 0;
    assert_string_equal(wording_before_bout(arena, &occasion), "");
}

static void test_occasions(void **state)
{
    (void)state;
    struct occasion run = {.seconds = 2700, .metres = {5000000, 6000000}, .pulse = {130000, 145000},
                           .optional = true};
    assert_string_equal(wording_occasion(arena, &run),
                        "45" GAP "min \302\267 5000" TO "6000" GAP "m \302\267 pulse" GAP "130" TO
                        "145 \302\267 may be left out");
    struct occasion pads = {.rounds = 6, .round_seconds = 120, .seconds = 900, .rpe = {7000, 7000}};
    assert_string_equal(wording_occasion(arena, &pads), "6" TIMES "2:00 \302\267 RPE" GAP "7");
    pads.round_seconds = 0;
    pads.rounds = 1;
    assert_string_equal(wording_occasion(arena, &pads), "1" GAP "round \302\267 RPE" GAP "7");
    assert_string_equal(wording_optional(arena, &pads), "");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_doses),
        cmocka_unit_test(test_dose_in_rounds),
        cmocka_unit_test(test_sets_that_differ),
        cmocka_unit_test(test_loads),
        cmocka_unit_test(test_body_mass_is_not_told),
        cmocka_unit_test(test_times_and_tempo),
        cmocka_unit_test(test_days_before_the_bout),
        cmocka_unit_test(test_occasions),
    };
    return cmocka_run_group_tests(tests, open_arena, close_arena);
}
