/* How long sets, blocks and sessions take. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "base/arena.h"
#include "kg.h"
#include "measure/loads.h"
#include "measure/time.h"
#include "model/programme.h"

#define COUNT(array) (sizeof(array) / sizeof(array)[0])

enum { MINUTE = 60, NEVER_SAID = -1 };

static const struct exercise lift = {.ways = 4, .name = {.shown = "lift", .folded = "lift"},
                                     .kind = EXERCISE_STRENGTH,
                                     .pattern = PATTERN_SQUAT};
static const struct exercise ball_throw = {.name = {.shown = "throw", .folded = "throw"},
                                           .kind = EXERCISE_POWER,
                                           .pattern = PATTERN_THROW,
                                           .ballistic = true};

static struct part amount(int64_t low, int64_t high, enum unit unit, enum dose_side side)
{
    return (struct part){.amount = {low * 1000, high * 1000}, .unit = unit, .side = side};
}

static struct part reps(int64_t count, enum dose_side side)
{
    return amount(count, count, UNIT_REPS, side);
}

/* SETS sets of one part, timed. */
static struct set_run timed(int sets, const struct part *part, const struct exercise *exercise)
{
    struct set_run run = {.count = sets, .parts = part, .part_count = 1, .repeats = 1};

    time_run(&run, exercise, &time_usual);
    return run;
}

static struct item item_of(const struct exercise *exercise, const struct set_run *run)
{
    return (struct item){
        .exercise = exercise, .after = NEVER_SAID, .runs = run, .run_count = 1, .sets = run->count};
}

/* --- sets --- */

static int tempo_set(int64_t count, int lower, int low_pause, int raise, int high_pause)
{
    struct part part = reps(count, DOSE_WHOLE);
    struct set_run run = {.count = 1, .parts = &part, .part_count = 1, .repeats = 1};

    run.tempo = (struct item_tempo){lower,
                                    low_pause,
                                    raise,
                                    high_pause,
                                    .given = true,
                                    .lower_fast = lower < 0,
                                    .low_pause_fast = low_pause < 0,
                                    .lift_fast = raise < 0,
                                    .high_pause_fast = high_pause < 0};
    time_run(&run, &lift, &time_usual);
    return run.seconds;
}

/* Source: PMC6006544, sets of ten at two tempos, time under tension 100 s and 40 s. */
static void a_set_lasts_as_long_as_its_tempo(void **state)
{
    (void)state;
    assert_int_equal(tempo_set(10, 6, 0, 4, 0), 100);
    assert_int_equal(tempo_set(10, 2, 0, 2, 0), 40);
    assert_int_equal(tempo_set(5, 3, 1, -1, 0), 25); /* 3-1-X-0: an X is a second */
    assert_int_equal(tempo_set(3, -1, -1, -1, -1), 12);
}

static void sides_stances_and_ways_are_added(void **state)
{
    static const struct {
        enum dose_side side;
        int seconds;
    } cases[] = {
        {DOSE_WHOLE, 18},    {DOSE_LEFT, 18},      {DOSE_RIGHT, 18},    {DOSE_ORTHODOX, 18},
        {DOSE_SOUTHPAW, 18}, {DOSE_EACH_SIDE, 36}, {DOSE_EACH_WAY, 72}, /* lift has four ways */
    };

    (void)state;
    for (size_t i = 0; i < COUNT(cases); i++) {
        struct part part = reps(6, cases[i].side); /* 6 x 3 s of 2-0-1-0 */
        assert_int_equal(timed(1, &part, &lift).seconds, cases[i].seconds);
    }

    struct part stances[] = {reps(4, DOSE_ORTHODOX), reps(2, DOSE_SOUTHPAW)};
    struct set_run run = {.count = 3, .parts = stances, .part_count = 2};
    assert_int_equal(time_run(&run, &lift, &time_usual), 18);
}

/* `alternating stances` without repetitions, which is an error: nobody looks for the first of its parts. */
static void what_has_no_amount_takes_no_time(void **state)
{
    (void)state;
    struct set_run run = {.count = 3, .alternating = true};
    assert_int_equal(time_run(&run, &lift, &time_usual), 0);
}

static void each_unit_has_its_clock(void **state)
{
    const struct {
        struct part part;
        const struct exercise *exercise;
        int seconds;
    } cases[] = {
        {amount(8, 11, UNIT_REPS, DOSE_WHOLE), &lift, 29}, /* 9.5 x 3 = 28.5, half up */
        {amount(25, 25, UNIT_SECONDS, DOSE_EACH_SIDE), &lift, 50},
        {amount(20, 30, UNIT_SECONDS, DOSE_WHOLE), &lift, 25},
        {amount(30, 30, UNIT_METRES, DOSE_WHOLE), &lift, 20}, /* 1.5 m/s */
        {amount(40, 40, UNIT_CONTACTS, DOSE_WHOLE), &lift, 40},
        {amount(12, 12, UNIT_STRIKES, DOSE_WHOLE), &lift, 12},
        {amount(5, 5, UNIT_REPS, DOSE_WHOLE), &ball_throw, 10},
        {{.max = true, .unit = UNIT_REPS}, &lift, 30},
        {{.max = true, .unit = UNIT_SECONDS}, &lift, 60},
        {amount(INT64_C(2000000000), INT64_C(2000000000), UNIT_REPS, DOSE_EACH_WAY), &lift,
         CLOCK_LIMIT},
    };

    (void)state;
    for (size_t i = 0; i < COUNT(cases); i++)
        assert_int_equal(timed(1, &cases[i].part, cases[i].exercise).seconds, cases[i].seconds);
}

static void repeats_and_clusters_rest_inside_the_set(void **state)
{
    struct part sprint = amount(40, 40, UNIT_METRES, DOSE_WHOLE);
    struct part row = amount(500, 500, UNIT_METRES, DOSE_WHOLE);
    struct part cluster[] = {reps(2, DOSE_WHOLE), reps(2, DOSE_WHOLE), reps(2, DOSE_WHOLE)};
    struct set_run run = {.count = 1, .parts = &sprint, .part_count = 1};

    (void)state;
    run.repeats = 6; /* `6 x 40 m rest 20 s`: 26.67 s a run */
    run.rest_low = run.rest_high = 20;
    assert_int_equal(time_run(&run, &lift, &time_usual), 6 * 27 + 5 * 20);

    run = (struct set_run){.count = 1, .parts = &row, .part_count = 1, .within = 2 * MINUTE};
    assert_int_equal(time_run(&run, &lift, &time_usual), 2 * MINUTE);

    run = (struct set_run){.count = 1, .parts = cluster, .part_count = 3, .rest_low = 15, .rest_high = 15};
    assert_int_equal(time_run(&run, &lift, &time_usual), 6 * 3 + 2 * 15);
}

/* --- blocks --- */

static int rounds_of(int sets, int work, int rest, int times, int times_rest)
{
    struct block block = {.kind = BLOCK_ROUNDS,
                          .sets = sets,
                          .work = work,
                          .rest_low = rest,
                          .rest_high = rest,
                          .times = times,
                          .times_rest = times_rest};
    int seconds = time_block(&block, &time_usual);

    assert_int_equal(block.seconds, seconds);
    return seconds;
}

/*
 * Sources: rules of professional boxing commissions (12 x 3:00, rest 1:00), the unified rules of
 * mixed martial arts (5 x 5:00, rest 1:00) and Muay Thai federations (5 x 3:00, rest 2:00).
 * Intervals in two blocks: Frontiers in Physiology 2021, 766153.
 */
static void rounds_go_by_the_clock(void **state)
{
    (void)state;
    assert_int_equal(rounds_of(12, 3 * MINUTE, 1 * MINUTE, 0, 0), 47 * MINUTE);
    assert_int_equal(rounds_of(5, 5 * MINUTE, 1 * MINUTE, 1, 0), 29 * MINUTE);
    assert_int_equal(rounds_of(5, 3 * MINUTE, 2 * MINUTE, 0, 0), 23 * MINUTE);
    assert_int_equal(rounds_of(3, 2 * MINUTE, 1 * MINUTE, 2, 5 * MINUTE), 21 * MINUTE);
    assert_int_equal(rounds_of(0, 2 * MINUTE, 1 * MINUTE, 0, 0), 0);
    assert_int_equal(rounds_of(2000000000, 2000000000, 1, 2000000000, 1), CLOCK_LIMIT);
}

static void pairs_change_over_and_rest(void **state)
{
    struct part five = reps(5, DOSE_WHOLE), plank = amount(25, 25, UNIT_SECONDS, DOSE_EACH_SIDE);
    struct set_run squat = timed(3, &five, &lift), hold = timed(3, &plank, &lift);
    struct item items[] = {item_of(&lift, &squat), item_of(&lift, &hold)};
    struct block block = {.kind = BLOCK_SUPERSET, .sets = 3, .items = items, .item_count = 2};

    (void)state;
    block.rest_low = block.rest_high = 90;
    /* three times 15 + 20 + 50, two rests */
    assert_int_equal(time_block(&block, &time_usual), 3 * 85 + 2 * 90);

    items[1].after = 40;
    assert_int_equal(time_block(&block, &time_usual), 3 * 105 + 2 * 90);

    items[1].after = NEVER_SAID;
    block.kind = BLOCK_COMPLEX; /* the implement stays in the hand */
    assert_int_equal(time_block(&block, &time_usual), 3 * 65 + 2 * 90);

    block.kind = BLOCK_SUPERSET;
    block.rest_high = 121; /* a range rests its middle, 105.5, half up */
    assert_int_equal(time_block(&block, &time_usual), 3 * 85 + 2 * 106);

    items[1].filler = true; /* lies in the rests */
    assert_int_equal(time_block(&block, &time_usual), 3 * 15 + 2 * 106);
    items[1].filler = false;

    /* The second has one set: one change-over, and the later sets are the first alone. */
    hold.count = items[1].sets = 1;
    block.rest_high = 90;
    assert_int_equal(time_block(&block, &time_usual), 3 * 15 + 20 + 50 + 2 * 90);
}

static void straight_sets_rest_after_each_but_the_last(void **state)
{
    struct part eight = reps(8, DOSE_WHOLE), ten = reps(10, DOSE_WHOLE);
    struct set_run runs[] = {timed(2, &eight, &lift), timed(1, &ten, &lift)};
    struct item items[] = {item_of(&lift, runs), item_of(&lift, &runs[1])};
    struct block block = {.kind = BLOCK_STRAIGHT, .sets = 3, .items = items, .item_count = 1};

    (void)state;
    items[0].run_count = 2; /* 8, 8, 10 */
    items[0].sets = 3;
    block.rest_low = block.rest_high = 60;
    assert_int_equal(time_block(&block, &time_usual), 24 + 24 + 30 + 2 * 60);

    block.item_count = 2; /* one exercise is done with before the next */
    assert_int_equal(time_block(&block, &time_usual), 24 + 24 + 30 + 30 + 3 * 60);
    items[1].after = 5 * MINUTE;
    assert_int_equal(time_block(&block, &time_usual), 24 + 24 + 30 + 30 + 2 * 60 + 5 * MINUTE);
}

static void a_clock_given_for_the_whole_is_the_whole(void **state)
{
    static const enum block_kind kinds[] = {BLOCK_EVERY, BLOCK_AS_MANY, BLOCK_FOR_TIME};
    struct part five = reps(5, DOSE_WHOLE);
    struct set_run run = timed(3, &five, &lift);
    struct item item = item_of(&lift, &run);

    (void)state;
    for (size_t i = 0; i < COUNT(kinds); i++) {
        struct block block = {
            .kind = kinds[i], .work = 10 * MINUTE, .items = &item, .item_count = 1};
        assert_int_equal(time_block(&block, &time_usual), 10 * MINUTE);
    }
    struct block open = {.kind = BLOCK_FOR_TIME, .sets = 3, .items = &item, .item_count = 1};
    assert_int_equal(time_block(&open, &time_usual), 3 * 15);
}

/* --- how often --- */

static void rounds_repeat_what_is_in_them(void **state)
{
    struct set_run run = {.count = 1};
    struct item item = item_of(&lift, &run);
    struct block block = {.kind = BLOCK_ROUNDS, .sets = 4, .items = &item, .item_count = 1};

    (void)state;
    assert_int_equal(time_run_count(&block, &item, &run), 4);
    item.round = 4;
    assert_int_equal(time_run_count(&block, &item, &run), 1);
    item.filler = true; /* there is no rest after the fourth */
    assert_int_equal(time_run_count(&block, &item, &run), 0);
    item.round = 0;
    assert_int_equal(time_run_count(&block, &item, &run), 3);
    block.times = 2;
    assert_int_equal(time_run_count(&block, &item, &run), 6);
    block = (struct block){.kind = BLOCK_STRAIGHT, .sets = 5};
    run.count = 5;
    item.filler = false;
    assert_int_equal(time_run_count(&block, &item, &run), 5);
}

/* --- a session --- */

static struct kit bars[] = {
    {.name = {.shown = "barbell", .folded = "barbell"}, .mass = KG(20), .count = 1}};
static struct disc discs[] = {{KG(25), 2}, {KG(20), 4}, {KG(10), 4}, {KG(5), 4}, {KG(2.5), 4}, {KG(1.25), 4}};
static struct need needs[] = {{.name = {.shown = "barbell", .folded = "barbell"}, .count = 1}};

static void a_session_adds_blocks_gaps_and_the_ramp(void **state)
{
    struct arena *arena = arena_new();
    struct gym gym = {.bars = bars, .bar_count = 1, .discs = discs, .disc_count = COUNT(discs)};
    struct athlete athlete = {.gym = &gym};
    struct exercise squat = lift;
    struct part five = reps(5, DOSE_WHOLE);
    struct set_run run = timed(3, &five, &lift);
    struct item item;
    struct block blocks[3] = {
        {.kind = BLOCK_ROUNDS, .sets = 4, .work = 120, .rest_low = 40, .rest_high = 40},
        {.kind = BLOCK_STRAIGHT,
         .sets = 3,
         .rest_low = 180,
         .rest_high = 180,
         .items = &item,
         .item_count = 1},
        {.kind = BLOCK_STRAIGHT,
         .sets = 3,
         .rest_low = 180,
         .rest_high = 180,
         .items = &item,
         .item_count = 1},
    };

    (void)state;
    assert_int_equal(gym_prepare(arena, &gym), PLATE_OK);
    squat.weigh = WEIGH_BAR_AND_PLATES;
    squat.needs = needs;
    squat.need_count = 1;
    run.load = (struct load){.kind = LOAD_PERCENT, .percent = {82000, 82000}, .pieces = 1};
    assert_int_equal(load_make(&gym, &squat, KG(100), 1, false, &run.load), MADE_EXACTLY);
    item = item_of(&squat, &run);

    /* Warming up with 40, 60, 75 and 85 kg: 5 + 3 + 2 + 1 repetitions of 3 s and four minutes. */
    const int rounds = 4 * 120 + 3 * 40, lifts = 3 * 15 + 2 * 180, ramp = 11 * 3 + 4 * 60;
    assert_int_equal(time_session(blocks, 3, &athlete, athlete.gym, 0, &time_usual),
                     rounds + 120 + ramp + lifts + 120 + lifts);
    assert_int_equal(blocks[0].starts, 0);
    assert_int_equal(blocks[0].seconds, rounds);
    assert_int_equal(blocks[1].starts, rounds + 120 + ramp);
    assert_int_equal(blocks[2].starts, rounds + 120 + ramp + lifts + 120); /* warm by now */

    run.load.percent = (struct range){60000, 60000}; /* not heavy: no ramp */
    assert_int_equal(time_session(blocks, 3, &athlete, athlete.gym, 0, &time_usual),
                     rounds + 120 + lifts + 120 + lifts);
    /* where no share of a best is known, the effort tells */
    run.load.kind = LOAD_MASS;
    run.load.percent = (struct range){0, 0};
    run.load.effort = EFFORT_RPE;
    run.load.effort_band = (struct range){8000, 8000};
    assert_int_equal(time_session(blocks, 3, &athlete, athlete.gym, 0, &time_usual),
                     rounds + 120 + ramp + lifts + 120 + lifts);
    /* no bar, but strength: still warmed up to; the same as power work: not */
    run.load.plating.bar = NULL;
    assert_int_equal(time_session(blocks, 3, &athlete, athlete.gym, 0, &time_usual),
                     rounds + 120 + ramp + lifts + 120 + lifts);
    squat.kind = EXERCISE_POWER;
    assert_int_equal(time_session(blocks, 3, &athlete, athlete.gym, 0, &time_usual),
                     rounds + 120 + lifts + 120 + lifts);
    squat.kind = EXERCISE_STRENGTH;
    assert_int_equal(time_session(blocks, 3, NULL, NULL, 0, &time_usual),
                     rounds + 120 + lifts + 120 + lifts);
    assert_int_equal(time_session(blocks, 0, &athlete, athlete.gym, 0, &time_usual), 0);
    arena_free(arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_set_lasts_as_long_as_its_tempo),
        cmocka_unit_test(sides_stances_and_ways_are_added),
        cmocka_unit_test(what_has_no_amount_takes_no_time),
        cmocka_unit_test(each_unit_has_its_clock),
        cmocka_unit_test(repeats_and_clusters_rest_inside_the_set),
        cmocka_unit_test(rounds_go_by_the_clock),
        cmocka_unit_test(pairs_change_over_and_rest),
        cmocka_unit_test(straight_sets_rest_after_each_but_the_last),
        cmocka_unit_test(a_clock_given_for_the_whole_is_the_whole),
        cmocka_unit_test(rounds_repeat_what_is_in_them),
        cmocka_unit_test(a_session_adds_blocks_gaps_and_the_ramp),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
