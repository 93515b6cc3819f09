/* What a restriction bars, by each of the things that it can name, and of which side. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "measure/avoid.h"
#include "model/activity.h"
#include "model/athlete.h"
#include "model/barred.h"
#include "model/block.h"
#include "model/exercise.h"
#include "model/recovery.h"
#include "model/set.h"

/* A restriction that names nothing yet. */
static struct avoid avoid_none(void)
{
    return (struct avoid){.pattern = -1, .region = -1, .kind = -1, .joint = -1, .demand = -1, .recovery_step = -1};
}

static struct avoid avoid_joint(int joint, int demand, unsigned sides)
{
    struct avoid avoid = avoid_none();
    avoid.joint = joint;
    avoid.demand = demand;
    avoid.sides = sides;
    return avoid;
}

static void it_stands_from_its_first_day_to_its_end(void **state)
{
    (void)state;
    struct avoid avoid = avoid_none();
    avoid.since = 100;
    assert_false(avoid_stands(&avoid, 99));
    assert_true(avoid_stands(&avoid, 100));
    assert_true(avoid_stands(&avoid, 100000)); /* it never lapses */
    avoid.ended = 110;
    assert_true(avoid_stands(&avoid, 109));
    assert_false(avoid_stands(&avoid, 110));
    struct athlete athlete = {.avoids = &avoid, .avoid_count = 1};
    assert_true(athlete_restricted(&athlete, 100));
    assert_false(athlete_restricted(&athlete, 99));
    assert_false(athlete_restricted(&athlete, 110));
    assert_false(athlete_restricted(&(struct athlete){0}, 100));
}

/* --- exercises --- */

static void patterns_and_kinds(void **state)
{
    (void)state;
    const struct exercise squat = {.patterns = 1u << PATTERN_SQUAT, .kind = EXERCISE_STRENGTH};
    const struct exercise first = {.patterns = 1u << 0, .kind = (enum exercise_kind)0};
    struct avoid avoid = avoid_none();
    assert_false(avoid_bars(&avoid, &squat));
    assert_false(avoid_bars(&avoid, &first));
    avoid.pattern = PATTERN_SQUAT;
    assert_true(avoid_bars(&avoid, &squat));
    avoid.pattern = PATTERN_HINGE;
    assert_false(avoid_bars(&avoid, &squat));
    avoid.pattern = 0; /* the first of the vocabulary is one, too */
    assert_true(avoid_bars(&avoid, &first));
    avoid = avoid_none();
    avoid.kind = EXERCISE_STRENGTH;
    assert_true(avoid_bars(&avoid, &squat));
    avoid.kind = EXERCISE_POWER;
    assert_false(avoid_bars(&avoid, &squat));
    avoid.kind = 0;
    assert_true(avoid_bars(&avoid, &first));
}

static void regions_from_half_a_set_on(void **state)
{
    (void)state;
    struct exercise exercise = {.loads = {[0] = 500, [REGION_CALF] = 499}};
    struct avoid avoid = avoid_none();
    avoid.region = 0;
    assert_true(avoid_bars(&avoid, &exercise));
    avoid.region = REGION_CALF;
    assert_false(avoid_bars(&avoid, &exercise));
    exercise.loads[REGION_CALF] = 500;
    assert_true(avoid_bars(&avoid, &exercise));
}

static void positions_by_name(void **state)
{
    (void)state;
    const char *positions[] = {"kneeling", "overhead"};
    const struct exercise exercise = {.positions = positions, .position_count = 2};
    struct avoid avoid = avoid_none();
    avoid.position = "overhead";
    assert_true(avoid_bars(&avoid, &exercise));
    avoid.position = "kneeling";
    assert_true(avoid_bars(&avoid, &exercise));
    avoid.position = "hanging";
    assert_false(avoid_bars(&avoid, &exercise));
}

static void what_is_asked_of_a_joint(void **state)
{
    (void)state;
    const struct strain strains[] = {{JOINT_SHOULDER, DEMAND_NONE, false}, {JOINT_KNEE, DEMAND_DEEP, false}};
    const struct exercise exercise = {.strains = {strains, 2, true}};
    struct avoid any = avoid_joint(JOINT_KNEE, -1, 0), deep = avoid_joint(-1, DEMAND_DEEP, 0);
    struct avoid both = avoid_joint(JOINT_KNEE, DEMAND_DEEP, 0), other = avoid_joint(JOINT_KNEE, DEMAND_FAST, 0);
    struct avoid elsewhere = avoid_joint(JOINT_SHOULDER, DEMAND_DEEP, 0), ankle = avoid_joint(JOINT_ANKLE, -1, 0);
    assert_true(avoid_bars(&any, &exercise));
    assert_true(avoid_bars(&deep, &exercise));
    assert_true(avoid_bars(&both, &exercise));
    assert_false(avoid_bars(&other, &exercise));
    assert_false(avoid_bars(&elsewhere, &exercise));
    assert_false(avoid_bars(&ankle, &exercise));
}

/* The first of each vocabulary is named as well as any other. */
static void the_first_joint_and_demand(void **state)
{
    (void)state;
    const struct strain strains[] = {{(enum joint)1, 1, false}};
    const struct exercise exercise = {.strains = {strains, 1, true}};
    struct avoid joint = avoid_joint(0, -1, 0), demand = avoid_joint(-1, 0, 0), neither = avoid_joint(1, 0, 0);
    assert_false(avoid_bars(&joint, &exercise));
    assert_false(avoid_bars(&demand, &exercise));
    assert_false(avoid_bars(&neither, &exercise));
    const struct strain first[] = {{(enum joint)0, 0, false}};
    const struct exercise of_first = {.strains = {first, 1, true}};
    assert_true(avoid_bars(&joint, &of_first));
    assert_true(avoid_bars(&demand, &of_first));
}

static void what_can_be_done_is_never_barred(void **state)
{
    (void)state;
    const struct exercise squat = {.patterns = 1u << PATTERN_SQUAT}, other = {.patterns = 1u << PATTERN_SQUAT};
    const struct exercise *can_do[] = {&other, &squat};
    struct avoid avoid = avoid_none();
    avoid.pattern = PATTERN_SQUAT;
    avoid.can_do = can_do;
    avoid.can_do_count = 1;
    assert_true(avoid_bars(&avoid, &squat));
    assert_false(avoid_bars(&avoid, &other));
    avoid.can_do_count = 2;
    assert_false(avoid_bars(&avoid, &squat));
    avoid.can_do_count = 0;
    avoid.can_do_patterns = 1u << PATTERN_HINGE;
    assert_true(avoid_bars(&avoid, &squat));
    avoid.can_do_patterns = 1u << PATTERN_SQUAT;
    assert_false(avoid_bars(&avoid, &squat));
}

/* Easier and harder forms go with what is barred, however far along, and a chain that comes round ends. */
static void forms_of_what_is_barred(void **state)
{
    (void)state;
    struct exercise chain[5], apart = {.kind = EXERCISE_STRENGTH};
    for (int i = 0; i < 5; i++)
        chain[i] = apart;
    for (int i = 0; i < 4; i++) {
        chain[i].harder = &chain[i + 1];
        chain[i + 1].easier = &chain[i];
    }
    struct avoid avoid = avoid_none();
    for (int barred = 0; barred < 5; barred++) {
        avoid.exercise = &chain[barred];
        for (int i = 0; i < 5; i++)
            assert_true(avoid_bars(&avoid, &chain[i]));
        assert_false(avoid_bars(&avoid, &apart));
    }
    avoid.instead = &chain[0]; /* whoever names what is done instead has seen what it is a form of */
    assert_false(avoid_bars(&avoid, &chain[0]));
    assert_true(avoid_bars(&avoid, &chain[1]));
    for (int back = 0; back < 5; back++) {
        chain[4].harder = &chain[back];
        assert_false(avoid_bars(&avoid, &apart));
        avoid.exercise = &chain[0];
        assert_false(avoid_bars(&avoid, &apart));
        avoid.exercise = &chain[4];
    }
}

/* --- one side --- */

static const struct strain deep_knee[] = {{JOINT_KNEE, DEMAND_DEEP, false}};
static const struct strain both_knees[] = {{JOINT_KNEE, DEMAND_DEEP, true}};
static const struct part whole = {.side = DOSE_WHOLE}, each_side = {.side = DOSE_EACH_SIDE}, left = {.side = DOSE_LEFT},
                         right = {.side = DOSE_RIGHT};

static void a_limb_of_one_side(void **state)
{
    (void)state;
    const struct exercise lunge = {.side = SIDE_EACH_SIDE, .workers = WORKER_LEG, .strains = {deep_knee, 1, true}};
    struct avoid avoid = avoid_joint(JOINT_KNEE, -1, BARRED_LEFT);
    assert_false(avoid_bars(&avoid, &lunge));
    assert_int_equal(avoid_bars_part(&avoid, &lunge, &whole, STANCE_UNKNOWN), BARRED_LEFT);
    assert_int_equal(avoid_bars_part(&avoid, &lunge, &each_side, STANCE_UNKNOWN), BARRED_LEFT);
    assert_int_equal(avoid_bars_part(&avoid, &lunge, &left, STANCE_UNKNOWN), BARRED_ALL);
    assert_int_equal(avoid_bars_part(&avoid, &lunge, &right, STANCE_UNKNOWN), 0);
    avoid.sides = BARRED_RIGHT;
    assert_int_equal(avoid_bars_part(&avoid, &lunge, &whole, STANCE_UNKNOWN), BARRED_RIGHT);
    assert_int_equal(avoid_bars_part(&avoid, &lunge, &left, STANCE_UNKNOWN), 0);
    avoid.sides = BARRED_ALL;
    assert_int_equal(avoid_bars_part(&avoid, &lunge, &each_side, STANCE_UNKNOWN), BARRED_ALL);
    avoid.joint = JOINT_ANKLE;
    assert_int_equal(avoid_bars_part(&avoid, &lunge, &whole, STANCE_UNKNOWN), 0);
}

static void what_works_on_both_sides_at_once(void **state)
{
    (void)state;
    const struct exercise squat = {.strains = {deep_knee, 1, true}};
    const struct exercise split = {.side = SIDE_EACH_SIDE, .workers = WORKER_LEG, .strains = {both_knees, 1, true}};
    const struct exercise row = {.side = SIDE_EACH_SIDE, .workers = WORKER_HAND, .strains = {deep_knee, 1, true}};
    struct avoid avoid = avoid_joint(JOINT_KNEE, -1, BARRED_LEFT);
    assert_true(avoid_bars(&avoid, &squat));
    assert_true(avoid_bars(&avoid, &split)); /* the other knee bends as deep */
    assert_true(avoid_bars(&avoid, &row));   /* arms take turns, and both knees work */
    assert_int_equal(avoid_bars_part(&avoid, &split, &right, STANCE_UNKNOWN), BARRED_ALL);
    struct avoid any_side = avoid_joint(JOINT_KNEE, -1, 0);
    assert_int_equal(avoid_bars_part(&any_side, &split, &right, STANCE_UNKNOWN), BARRED_ALL);
    struct avoid elsewhere = avoid_joint(JOINT_WRIST, -1, 0);
    assert_int_equal(avoid_bars_part(&elsewhere, &split, &right, STANCE_UNKNOWN), 0);
}

static void arms_and_stances(void **state)
{
    (void)state;
    const struct strain wrist[] = {{JOINT_WRIST, DEMAND_FAST, false}};
    const struct exercise throw = {.side = SIDE_PER_STANCE, .workers = WORKER_REAR_HAND, .strains = {wrist, 1, true}};
    const struct exercise press = {.side = SIDE_EACH_SIDE, .workers = WORKER_HAND, .loads = {[REGION_SHOULDER] = 1000}};
    struct avoid avoid = avoid_joint(JOINT_WRIST, -1, BARRED_RIGHT);
    assert_int_equal(avoid_bars_part(&avoid, &throw, &whole, STANCE_ORTHODOX), BARRED_ALL);
    assert_int_equal(avoid_bars_part(&avoid, &throw, &whole, STANCE_SOUTHPAW), 0);
    assert_int_equal(avoid_bars_part(&avoid, &throw, &whole, STANCE_UNKNOWN), BARRED_ALL); /* nobody can say */
    const struct part orthodox = {.side = DOSE_ORTHODOX}, lead = {.side = DOSE_ORTHODOX, .workers = WORKER_LEAD_HAND};
    assert_int_equal(avoid_bars_part(&avoid, &throw, &orthodox, STANCE_SOUTHPAW), BARRED_ALL);
    assert_int_equal(avoid_bars_part(&avoid, &throw, &lead, STANCE_SOUTHPAW), 0);
    struct avoid region = avoid_none();
    region.region = REGION_SHOULDER;
    region.sides = BARRED_LEFT;
    assert_int_equal(avoid_bars_part(&region, &press, &each_side, STANCE_UNKNOWN), BARRED_LEFT);
    region.region = REGION_CALF;
    assert_int_equal(avoid_bars_part(&region, &press, &each_side, STANCE_UNKNOWN), 0);
}

/* Where the hip is named for itself, the hand or leg of one side may work with the hip of the other. */
static void limbs_with_the_hip_of_the_other_side(void **state)
{
    (void)state;
    const struct strain knee[] = {{JOINT_KNEE, DEMAND_DEEP, false}}, wrist[] = {{JOINT_WRIST, DEMAND_FAST, false}};
    static const struct {
        unsigned workers;
        bool arm;          /* the wrist is meant; else the knee */
        bool left, right;  /* barred for an orthodox athlete, whose left side leads */
    } rows[] = {
        {WORKER_REAR_HAND | WORKER_LEAD_HIP, true, false, true},
        {WORKER_LEAD_HAND | WORKER_REAR_HIP, true, true, false},
        {WORKER_REAR_LEG | WORKER_LEAD_HIP, false, true, true}, /* the leg hangs on its hip */
        {WORKER_LEAD_LEG | WORKER_REAR_HIP, false, true, true},
        {WORKER_LEAD_HIP, false, true, false},
        {WORKER_REAR_HIP, false, false, true},
        {WORKER_LEAD_HAND | WORKER_REAR_LEG | WORKER_REAR_HIP, false, false, true},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const struct exercise exercise = {.side = SIDE_PER_STANCE, .workers = rows[i].workers, .strains = {rows[i].arm ? wrist : knee, 1, true}};
        struct avoid avoid = avoid_joint(rows[i].arm ? JOINT_WRIST : JOINT_KNEE, -1, BARRED_LEFT);
        assert_int_equal(avoid_bars_part(&avoid, &exercise, &whole, STANCE_ORTHODOX), rows[i].left ? BARRED_ALL : 0);
        avoid.sides = BARRED_RIGHT;
        assert_int_equal(avoid_bars_part(&avoid, &exercise, &whole, STANCE_ORTHODOX), rows[i].right ? BARRED_ALL : 0);
    }
    /* So with a region: of the arm the hand is asked for, and not the hip that goes with it. */
    const struct exercise throw = {.side = SIDE_PER_STANCE, .workers = WORKER_REAR_HAND | WORKER_LEAD_HIP, .loads = {[REGION_SHOULDER] = 1000}};
    struct avoid region = avoid_none();
    region.region = REGION_SHOULDER;
    region.sides = BARRED_LEFT;
    assert_int_equal(avoid_bars_part(&region, &throw, &whole, STANCE_ORTHODOX), 0);
    region.sides = BARRED_RIGHT;
    assert_int_equal(avoid_bars_part(&region, &throw, &whole, STANCE_ORTHODOX), BARRED_ALL);
}

static void limbs_that_take_no_turns(void **state)
{
    (void)state;
    const struct exercise squat = {.workers = WORKER_LEG, .strains = {deep_knee, 1, true}};
    const struct exercise lunge = {.side = SIDE_EACH_SIDE, .workers = WORKER_LEG, .strains = {deep_knee, 1, true}};
    const struct exercise kick = {.side = SIDE_PER_STANCE, .workers = WORKER_LEG, .strains = {deep_knee, 1, true}};
    const struct part by_hand = {.side = DOSE_WHOLE, .workers = WORKER_HAND};
    struct avoid avoid = avoid_joint(JOINT_KNEE, -1, BARRED_LEFT);
    assert_true(avoid_bars(&avoid, &squat)); /* both legs at once */
    assert_int_equal(avoid_bars_part(&avoid, &lunge, &by_hand, STANCE_UNKNOWN), BARRED_ALL); /* hands take turns, legs do not */
    assert_int_equal(avoid_bars_part(&avoid, &kick, &whole, STANCE_UNKNOWN), BARRED_ALL);    /* it is not said which leg */
    assert_int_equal(avoid_bars_part(&avoid, &kick, &each_side, STANCE_UNKNOWN), BARRED_LEFT);
}

static void which_have_sides(void **state)
{
    (void)state;
    assert_true(joint_has_sides(JOINT_KNEE));
    assert_true(joint_has_sides(JOINT_HAND));
    assert_false(joint_has_sides(JOINT_NECK));
    assert_true(region_has_sides(REGION_CHEST));
    assert_true(region_has_sides(REGION_FOOT));
    assert_false(region_has_sides(REGION_NECK));
}

/* --- efforts, items, activities --- */

static struct set_run run_of(enum effort_kind effort, milli low, milli high)
{
    return (struct set_run){.load = {.effort = effort, .effort_band = {low, high}}};
}

static void efforts_near_the_last(void **state)
{
    (void)state;
    static const struct {
        enum effort_kind effort;
        milli low, high;
        bool barred;
    } rows[] = {
        {EFFORT_ALL_OUT, 0, 0, true},           {EFFORT_REP_MAX, 5000, 5000, true},     {EFFORT_RPE, 8000, 8999, false},
        {EFFORT_RPE, 8000, 9000, true},         {EFFORT_RESERVE, 1000, 2000, true},     {EFFORT_RESERVE, 1001, 2000, false},
        {EFFORT_RESERVE, 3000, 10000, false},   {EFFORT_NONE, 500, 9500, false},
    };
    struct avoid avoid = avoid_none(), other = avoid_none();
    avoid.all_out = true;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct set_run run = run_of(rows[i].effort, rows[i].low, rows[i].high);
        assert_int_equal(avoid_bars_effort(&avoid, &run), rows[i].barred);
        assert_false(avoid_bars_effort(&other, &run));
    }
}

static void an_item_by_any_of_its_sets(void **state)
{
    (void)state;
    const struct exercise lunge = {.side = SIDE_EACH_SIDE, .workers = WORKER_LEG, .strains = {deep_knee, 1, true}};
    const struct part parts[] = {right, left};
    struct set_run runs[] = {run_of(EFFORT_RPE, 6000, 7000), run_of(EFFORT_RPE, 6000, 9500)};
    runs[0].parts = runs[1].parts = parts;
    runs[0].part_count = runs[1].part_count = 1;
    struct item item = {.exercise = &lunge, .runs = runs, .run_count = 1};
    struct avoid knee = avoid_joint(JOINT_KNEE, -1, BARRED_LEFT), all_out = avoid_none(), whole_knee = avoid_joint(JOINT_KNEE, -1, 0);
    all_out.all_out = true;
    assert_false(avoid_bars_item(&knee, &item, STANCE_UNKNOWN));
    assert_false(avoid_bars_item(&all_out, &item, STANCE_UNKNOWN));
    assert_true(avoid_bars_item(&whole_knee, &item, STANCE_UNKNOWN));
    runs[0].part_count = 2;
    assert_true(avoid_bars_item(&knee, &item, STANCE_UNKNOWN));
    item.run_count = 2;
    assert_true(avoid_bars_item(&all_out, &item, STANCE_UNKNOWN));
    item.run_count = 0;
    assert_false(avoid_bars_item(&knee, &item, STANCE_UNKNOWN));
    assert_true(avoid_bars_item(&whole_knee, &item, STANCE_UNKNOWN)); /* without a set it is barred all the same */
}

static void activities_by_joint_and_blows(void **state)
{
    (void)state;
    const struct strain strains[] = {{JOINT_KNEE, DEMAND_FAST, false}};
    const struct activity run = {.strains = {strains, 1, true}}, bag = {.strikes = true}, swim = {0};
    struct avoid knee = avoid_joint(JOINT_KNEE, -1, BARRED_LEFT), strike = avoid_none(), squat = avoid_none();
    strike.pattern = PATTERN_STRIKE;
    squat.pattern = PATTERN_SQUAT;
    assert_true(avoid_bars_activity(&knee, &run));
    assert_false(avoid_bars_activity(&knee, &bag));
    assert_true(avoid_bars_activity(&strike, &bag));
    assert_false(avoid_bars_activity(&strike, &swim));
    assert_false(avoid_bars_activity(&squat, &bag));
}

/* --- a way back, step by step --- */

static void a_step_names_what_is_allowed_again(void **state)
{
    (void)state;
    const struct exercise bridge = {.strains = {deep_knee, 1, true}}, squat = {.strains = {deep_knee, 1, true}};
    const struct activity walk = {.strains = {deep_knee, 1, true}}, run = {.strains = {deep_knee, 1, true}};
    const struct permit first[] = {{.exercise = &bridge, .pattern = -1, .kind = -1}};
    const struct permit second[] = {{.activity = &walk, .pattern = -1, .kind = -1},
                                    {.exercise = &squat, .pattern = -1, .kind = -1, .cap = 7000}};
    const struct permit third[] = {{.training = true, .pattern = -1, .kind = -1}};
    const struct recovery_step steps[] = {{.allows = {first, 1}}, {.allows = {second, 2}}, {.allows = {third, 1}}};
    const struct recovery recovery = {.steps = steps, .step_count = 3};
    struct avoid avoid = avoid_joint(JOINT_KNEE, -1, 0);
    avoid.recovery = &recovery;
    static const bool barred[][4] = { /* bridge, squat, walk, run: before the first step, and at each */
        {true, true, true, true}, {false, true, true, true}, {false, false, false, true}, {false, false, false, false}};
    for (int step = -1; step < 3; step++) {
        avoid.recovery_step = step;
        assert_int_equal(avoid_bars(&avoid, &bridge), barred[step + 1][0]);
        assert_int_equal(avoid_bars(&avoid, &squat), barred[step + 1][1]);
        assert_int_equal(avoid_bars_activity(&avoid, &walk), barred[step + 1][2]);
        assert_int_equal(avoid_bars_activity(&avoid, &run), barred[step + 1][3]);
    }
    const struct permit earliest[] = {{.activity = &run, .pattern = -1, .kind = -1}};
    const struct recovery_step only[] = {{.allows = {earliest, 1}}};
    const struct recovery short_way = {.steps = only, .step_count = 1};
    avoid.recovery = &short_way;
    avoid.recovery_step = 0; /* the first step may name an activity as well */
    assert_false(avoid_bars_activity(&avoid, &run));
    assert_true(avoid_bars_activity(&avoid, &walk));
    avoid.recovery = NULL; /* without a way back the step is nothing */
    assert_true(avoid_bars(&avoid, &bridge));
    assert_true(avoid_bars_activity(&avoid, &walk));
}

static void a_step_caps_the_effort(void **state)
{
    (void)state;
    const struct exercise squat = {.strains = {deep_knee, 1, true}}, bridge = {.strains = {deep_knee, 1, true}};
    const struct permit allows[] = {{.exercise = &squat, .pattern = -1, .kind = -1, .cap = 7000},
                                    {.exercise = &bridge, .pattern = -1, .kind = -1}};
    const struct recovery_step step = {.allows = {allows, 2}};
    const struct recovery recovery = {.steps = &step, .step_count = 1};
    struct avoid avoid = avoid_joint(JOINT_KNEE, -1, 0);
    avoid.recovery = &recovery;
    avoid.recovery_step = 0;
    const struct part parts[] = {whole, {.max = true}};
    struct set_run runs[] = {run_of(EFFORT_RPE, 6000, 7000)};
    runs[0].parts = parts;
    runs[0].part_count = 1;
    struct item item = {.exercise = &squat, .runs = runs, .run_count = 1};
    struct item free = {.exercise = &bridge, .runs = runs, .run_count = 1};
    assert_false(avoid_bars_item(&avoid, &item, STANCE_UNKNOWN));
    runs[0].part_count = 2; /* as many as possible has no cap */
    assert_true(avoid_bars_item(&avoid, &item, STANCE_UNKNOWN));
    runs[0].part_count = 1;
    runs[0].work_up = true;
    assert_true(avoid_bars_item(&avoid, &item, STANCE_UNKNOWN));
    runs[0].work_up = false;
    runs[0].parts = &parts[1]; /* a first part that has none is one, too */
    assert_true(avoid_bars_item(&avoid, &item, STANCE_UNKNOWN));
    runs[0].parts = parts;
    runs[0].load.effort_band.high = 7001;
    assert_true(avoid_bars_item(&avoid, &item, STANCE_UNKNOWN));
    assert_false(avoid_bars_item(&avoid, &free, STANCE_UNKNOWN));
    runs[0] = (struct set_run){.parts = parts, .part_count = 1}; /* a line that asks for no effort must give one */
    assert_true(avoid_bars_item(&avoid, &item, STANCE_UNKNOWN));
    avoid.joint = JOINT_ANKLE; /* which it does not load */
    assert_false(avoid_bars_item(&avoid, &item, STANCE_UNKNOWN));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(it_stands_from_its_first_day_to_its_end),
        cmocka_unit_test(patterns_and_kinds),
        cmocka_unit_test(regions_from_half_a_set_on),
        cmocka_unit_test(positions_by_name),
        cmocka_unit_test(what_is_asked_of_a_joint),
        cmocka_unit_test(the_first_joint_and_demand),
        cmocka_unit_test(what_can_be_done_is_never_barred),
        cmocka_unit_test(forms_of_what_is_barred),
        cmocka_unit_test(a_limb_of_one_side),
        cmocka_unit_test(what_works_on_both_sides_at_once),
        cmocka_unit_test(arms_and_stances),
        cmocka_unit_test(limbs_with_the_hip_of_the_other_side),
        cmocka_unit_test(limbs_that_take_no_turns),
        cmocka_unit_test(which_have_sides),
        cmocka_unit_test(efforts_near_the_last),
        cmocka_unit_test(an_item_by_any_of_its_sets),
        cmocka_unit_test(activities_by_joint_and_blows),
        cmocka_unit_test(a_step_names_what_is_allowed_again),
        cmocka_unit_test(a_step_caps_the_effort),
    };
    return cmocka_run_group_tests_name("avoid", tests, NULL, NULL);
}
