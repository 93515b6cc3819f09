/* Kit, and what stands beside what: each check fires just past its boundary. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "kg.h"
#include "unit/plan_builder.c"

/* One block of KIND with FIRST and SECOND, three sets of five of each. */
struct pair {
    struct block *block;
    struct item *first, *second;
    struct set_run *first_sets, *second_sets;
};

static struct pair make_pair(struct bench *bench, enum block_kind kind,
                             const struct exercise *first, const struct exercise *second)
{
    struct pair pair;
    struct occasion *occasion = bench_place(bench, 0);
    pair.block = plan_block(bench->plan, occasion, kind, 3);
    pair.first = plan_item(bench->plan, pair.block, first);
    pair.first_sets = plan_sets(bench->plan, pair.first, 3, 5, UNIT_REPS);
    pair.second = plan_item(bench->plan, pair.block, second);
    pair.second_sets = plan_sets(bench->plan, pair.second, 3, 5, UNIT_REPS);
    pair.block->rest_low = pair.block->rest_high = 180;
    return pair;
}

/* --- kit --- */

static void what_the_gym_lacks_is_named(void **state)
{
    (void)state;
    static const struct {
        const char *need, *have; /* HAVE NULL: nothing */
        size_t found;
    } cases[] = {
        {"sled", NULL, 1},
        {"sled", "sled", 0},
        {"band", "medium band", 0},
        {"band", "bandage", 1},
        {"wall", NULL, 0},
        {"partner", NULL, 0},
        {"heavy bag", "heavy bag", 0},
        {"dumbbell", NULL, 1},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct bench bench = bench_new();
        struct gym *gym = plan_gym(bench.plan, "Slipway");
        bench.athlete->gym = gym;
        if (cases[i].have)
            plan_kit(bench.plan, gym, cases[i].have, 1);
        struct exercise *squat = bench_squat(&bench);
        plan_need(bench.plan, squat, cases[i].need);
        bench_sets(&bench, bench_place(&bench, 0), squat, 3, 5, UNIT_REPS);
        bench_expect(&bench, "kit-missing", cases[i].found);
    }
}

static void bars_discs_and_pairs_are_kit(void **state)
{
    (void)state;
    for (int pair = 0; pair < 2; pair++) {
        struct bench bench = bench_new();
        struct gym *gym = plan_gym(bench.plan, "Slipway");
        bench.athlete->gym = gym;
        plan_bar(bench.plan, gym, "barbell", KG(20), 1);
        gym->discs[gym->disc_count++] = (struct disc){KG(25), 2};
        gym->dumbbells[gym->dumbbell_count++] = (struct disc){KG(16), 1 + pair};
        struct exercise *squat = bench_squat(&bench);
        plan_need(bench.plan, squat, "barbell");
        plan_need(bench.plan, squat, "plates");
        plan_need(bench.plan, squat, "dumbbells");
        bench_sets(&bench, bench_place(&bench, 0), squat, 3, 5, UNIT_REPS);
        if (pair)
            bench_expect(&bench, "kit-missing", 0);
        else
            bench_expect_words(&bench, "kit-missing", SEVERITY_ERROR,
                               "A.1 back squat needs dumbbells, and Slipway has none");
    }
}

/* The same line in four weeks is one fault, with the substitute of the exercise as its fix. */
static void missing_kit_is_told_once_with_its_substitute(void **state)
{
    (void)state;
    struct bench bench = bench_new();
    bench.athlete->gym = plan_gym(bench.plan, "Slipway");
    struct exercise *squat = bench_squat(&bench);
    struct exercise *lunge =
        plan_exercise(bench.plan, "split squat", EXERCISE_STRENGTH, PATTERN_LUNGE);
    struct substitute without = {.instead = lunge};
    plan_need(bench.plan, squat, "rack");
    without.kit = squat->needs[0].name;
    squat->without = &without;
    squat->without_count = 1;
    struct occasion *first = bench_place(&bench, 0), *second = bench_place(&bench, 7);
    bench_sets(&bench, first, squat, 3, 5, UNIT_REPS);
    second->blocks = first->blocks;
    second->block_count = first->block_count;
    plan_check(bench.plan);
    assert_int_equal(plan_found(bench.plan, "kit-missing"), 1);
    assert_string_equal(plan_finding(bench.plan, "kit-missing")->help,
                        "below the line, write `without rack, split squat`");
    plan_free(bench.plan);
}

static void load_bar(struct set_run *run, const struct kit *bar, mass disc, int discs)
{
    run->load.plating.bar = bar;
    run->load.plating.disc_count = discs;
    for (int i = 0; i < discs; i++)
        run->load.plating.discs[i] = disc;
}

/* Two loads on one kind of bar: one bar is too few, two will do; equal loads share one. */
static void a_bar_is_not_loaded_twice(void **state)
{
    (void)state;
    static const struct {
        int bars, discs;
        size_t found;
    } cases[] = {{1, 2, 1}, {2, 2, 0}, {1, 1, 0}};
    for (size_t i = 0; i < 3; i++) {
        struct bench bench = bench_new();
        struct gym *gym = plan_gym(bench.plan, "Slipway");
        bench.athlete->gym = gym;
        plan_bar(bench.plan, gym, "barbell", KG(20), cases[i].bars);
        gym->discs[gym->disc_count++] = (struct disc){KG(20), 8};
        struct pair pair =
            make_pair(&bench, BLOCK_SUPERSET, bench_squat(&bench), bench_press(&bench));
        load_bar(pair.first_sets, &gym->bars[0], KG(20), 1);
        load_bar(pair.second_sets, &gym->bars[0], KG(20), cases[i].discs);
        if (cases[i].found)
            bench_expect_words(&bench, "kit-twice", SEVERITY_ERROR,
                               "A.1 back squat and A.2 bench press both need the 20 kg barbell with "
                               "different loads, and Slipway has 1");
        else
            bench_expect(&bench, "kit-twice", 0);
    }
}

/* One disc a side on one bar and two on the other are six discs of the four or six there are. */
static void two_bars_share_the_discs(void **state)
{
    (void)state;
    for (int more = 0; more < 2; more++) {
        struct bench bench = bench_new();
        struct gym *gym = plan_gym(bench.plan, "Slipway");
        bench.athlete->gym = gym;
        plan_bar(bench.plan, gym, "barbell", KG(20), 2);
        gym->discs[gym->disc_count++] = (struct disc){KG(20), more ? 6 : 5};
        struct pair pair =
            make_pair(&bench, BLOCK_SUPERSET, bench_squat(&bench), bench_press(&bench));
        load_bar(pair.first_sets, &gym->bars[0], KG(20), 1);
        load_bar(pair.second_sets, &gym->bars[0], KG(20), 2);
        bench_expect(&bench, "discs-short", more ? 0 : 1);
    }
}

/* --- pairing --- */

static void a_superset_rests_one_region(void **state)
{
    (void)state;
    static const struct {
        milli share;
        double rpe;
        size_t found;
    } cases[] = {{500, 7, 1}, {499, 7, 0}, {500, 6.5, 0}};
    for (size_t i = 0; i < 3; i++) {
        struct bench bench = bench_new();
        struct exercise *squat = bench_squat(&bench);
        squat->loads[REGION_SHOULDER] = cases[i].share;
        struct pair pair = make_pair(&bench, BLOCK_SUPERSET, squat, bench_press(&bench));
        plan_effort(pair.first_sets, EFFORT_RPE, 7);
        plan_effort(pair.second_sets, EFFORT_RPE, cases[i].rpe);
        bench_expect(&bench, "pair-same-region", cases[i].found);
    }
}

/* At 80 % eight repetitions can be done: five leave three, which is hard; four leave four. */
static void hard_is_known_from_the_load(void **state)
{
    (void)state;
    for (int reps = 4; reps < 6; reps++) {
        struct bench bench = bench_new();
        struct exercise *squat = bench_squat(&bench);
        squat->loads[REGION_SHOULDER] = 1000;
        struct pair pair = make_pair(&bench, BLOCK_SUPERSET, squat, bench_press(&bench));
        plan_percent(pair.first_sets, 80);
        plan_part(pair.first_sets, 0)->amount = (struct range){reps * 1000, reps * 1000};
        plan_effort(pair.second_sets, EFFORT_RESERVE, 3);
        bench_expect(&bench, "pair-same-region", reps == 5 ? 1 : 0);
    }
}

static void a_contrast_is_heavy_then_fast(void **state)
{
    (void)state;
    static const double percents[] = {74.9, 75};
    for (size_t i = 0; i < 2; i++) {
        struct bench bench = bench_new();
        struct pair pair =
            make_pair(&bench, BLOCK_CONTRAST, bench_squat(&bench), bench_throw(&bench));
        plan_percent(pair.first_sets, percents[i]);
        bench_expect(&bench, "contrast-not-heavy", i == 0 ? 1 : 0);
    }
    struct bench bench = bench_new();
    make_pair(&bench, BLOCK_CONTRAST, bench_squat(&bench), bench_throw(&bench));
    bench_expect(&bench, "contrast-not-heavy", 0); /* nothing is known of its load */

    bench = bench_new();
    make_pair(&bench, BLOCK_CONTRAST, bench_squat(&bench), bench_press(&bench));
    bench_expect_words(
        &bench, "contrast-not-explosive", SEVERITY_WARNING,
        "A.2 bench press is not explosive: the second part of a contrast is a throw, "
        "a jump, a strike or power work");
    bench = bench_new();
    struct exercise *jump = plan_exercise(bench.plan, "box jump", EXERCISE_POWER, PATTERN_JUMP);
    make_pair(&bench, BLOCK_CONTRAST, bench_press(&bench), jump);
    bench_expect_words(&bench, "contrast-not-explosive", SEVERITY_INFO,
                       "A.1 bench press does not prepare A.2 box jump: they drive with different "
                       "limbs");
}

static void a_contrast_rests_three_minutes_somewhere(void **state)
{
    (void)state;
    static const struct {
        int rest, after;
        size_t found;
    } cases[] = {{179, 20, 1}, {180, 20, 0}, {60, 180, 0}};
    for (size_t i = 0; i < 3; i++) {
        struct bench bench = bench_new();
        struct pair pair =
            make_pair(&bench, BLOCK_CONTRAST, bench_squat(&bench), bench_throw(&bench));
        pair.block->rest_low = cases[i].rest;
        pair.second->after = cases[i].after;
        bench_expect(&bench, "contrast-rest-short", cases[i].found);
    }
}

static void tired_hands_are_not_fast(void **state)
{
    (void)state;
    for (int seconds = 19; seconds < 21; seconds++) {
        struct bench bench = bench_new();
        struct exercise *hang = plan_exercise(bench.plan, "bar hang", EXERCISE_HOLD, PATTERN_PULL);
        hang->loads[REGION_ARM] = 500;
        struct pair pair = make_pair(&bench, BLOCK_SUPERSET, hang, bench_throw(&bench));
        *plan_part(pair.first_sets, 0) =
            (struct part){.amount = {seconds * 1000, seconds * 1000}, .unit = UNIT_SECONDS};
        pair.first_sets->hold = true;
        plan_effort(pair.first_sets, EFFORT_ALL_OUT, 0);
        bench_expect(&bench, "grip-before-hands", seconds == 20 ? 1 : 0);
    }
}

static void a_new_skill_is_learned_fresh(void **state)
{
    (void)state;
    for (int hard = 0; hard < 2; hard++) {
        struct bench bench = bench_new();
        struct exercise *feint =
            plan_exercise(bench.plan, "feint", EXERCISE_SKILL, PATTERN_FOOTWORK);
        struct pair pair = make_pair(&bench, BLOCK_CIRCUIT, bench_squat(&bench), feint);
        plan_effort(pair.first_sets, EFFORT_RPE, hard ? 9 : 8.5);
        bench_expect(&bench, "skill-after-work", (size_t)hard);
    }
}

static void fillers_fit_and_leave_the_round_alone(void **state)
{
    (void)state;
    for (int over = 0; over < 2; over++) {
        struct bench bench = bench_new();
        struct exercise *shadow =
            plan_exercise(bench.plan, "shadow", EXERCISE_SKILL, PATTERN_STRIKE);
        struct exercise *circles =
            plan_exercise(bench.plan, "arm circles", EXERCISE_PREHAB, PATTERN_SHOULDER_CARE);
        shadow->loads[REGION_SHOULDER] = 500;
        circles->loads[REGION_SHOULDER] = over ? 500 : 250;
        struct pair pair = make_pair(&bench, BLOCK_ROUNDS, shadow, circles);
        pair.second->filler = true;
        pair.second_sets->seconds = 40 + over;
        pair.block->rest_low = pair.block->rest_high = 40;
        plan_check(bench.plan);
        assert_int_equal(plan_found(bench.plan, "filler-loads-round"), over);
        assert_int_equal(plan_found(bench.plan, "filler-too-long"), over);
        plan_free(bench.plan);
    }
}

static void wraps_take_a_minute(void **state)
{
    (void)state;
    for (int after = 59; after < 61; after++) {
        struct bench bench = bench_new();
        struct exercise *cross =
            plan_exercise(bench.plan, "cross on the bag", EXERCISE_SKILL, PATTERN_STRIKE);
        plan_need(bench.plan, cross, "heavy bag");
        struct pair pair = make_pair(&bench, BLOCK_CONTRAST, bench_squat(&bench), cross);
        pair.second->after = after;
        bench_expect(&bench, "wraps-on", after == 59 ? 1 : 0);
    }
}

static void grip_work_tires_the_hand(void **state)
{
    (void)state;
    for (int grip = 0; grip < 2; grip++) {
        struct bench bench = bench_new();
        struct exercise *pinch = plan_exercise(bench.plan, "plate pinch", EXERCISE_STRENGTH,
                                               grip ? PATTERN_GRIP : PATTERN_PULL);
        make_pair(&bench, BLOCK_SUPERSET, pinch, bench_throw(&bench));
        bench_expect(&bench, "grip-before-hands", (size_t)grip);
    }
}

/* One disc on one sleeve and one on each of two are not the same load. */
static void a_landmine_is_not_shared(void **state)
{
    (void)state;
    for (int count = 1; count < 3; count++) {
        struct bench bench = bench_new();
        struct gym *gym = plan_gym(bench.plan, "Slipway");
        bench.athlete->gym = gym;
        plan_bar(bench.plan, gym, "barbell", KG(20), 4);
        plan_kit(bench.plan, gym, "landmine", count);
        gym->discs[gym->disc_count++] = (struct disc){KG(20), 8};
        struct exercise *press = bench_press(&bench), *row = bench_squat(&bench);
        plan_need(bench.plan, press, "landmine");
        plan_need(bench.plan, row, "landmine");
        struct pair pair = make_pair(&bench, BLOCK_SUPERSET, press, row);
        load_bar(pair.first_sets, NULL, KG(20), 1);
        load_bar(pair.second_sets, NULL, KG(20), 2);
        bench_expect(&bench, "kit-twice", count == 1 ? 1 : 0);
    }
}

/* Straight sets are done to their end before the bar is loaded anew. */
static void straight_sets_share_a_bar(void **state)
{
    (void)state;
    struct bench bench = bench_new();
    struct gym *gym = plan_gym(bench.plan, "Slipway");
    bench.athlete->gym = gym;
    plan_bar(bench.plan, gym, "barbell", KG(20), 1);
    gym->discs[gym->disc_count++] = (struct disc){KG(20), 2};
    struct pair pair = make_pair(&bench, BLOCK_STRAIGHT, bench_squat(&bench), bench_press(&bench));
    load_bar(pair.first_sets, &gym->bars[0], KG(20), 1);
    load_bar(pair.second_sets, &gym->bars[0], KG(10), 1);
    plan_check(bench.plan);
    assert_int_equal(plan_found(bench.plan, "kit-twice"), 0);
    assert_int_equal(plan_found(bench.plan, "discs-short"), 0);
    plan_free(bench.plan);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_the_gym_lacks_is_named),
        cmocka_unit_test(bars_discs_and_pairs_are_kit),
        cmocka_unit_test(missing_kit_is_told_once_with_its_substitute),
        cmocka_unit_test(a_bar_is_not_loaded_twice),
        cmocka_unit_test(two_bars_share_the_discs),
        cmocka_unit_test(a_superset_rests_one_region),
        cmocka_unit_test(hard_is_known_from_the_load),
        cmocka_unit_test(a_contrast_is_heavy_then_fast),
        cmocka_unit_test(a_contrast_rests_three_minutes_somewhere),
        cmocka_unit_test(tired_hands_are_not_fast),
        cmocka_unit_test(a_new_skill_is_learned_fresh),
        cmocka_unit_test(fillers_fit_and_leave_the_round_alone),
        cmocka_unit_test(wraps_take_a_minute),
        cmocka_unit_test(grip_work_tires_the_hand),
        cmocka_unit_test(a_landmine_is_not_shared),
        cmocka_unit_test(straight_sets_share_a_bar),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
