/* The stance ledger, against counts worked out by hand. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "measure/limbs.h"
#include "model/programme.h"

#define COUNT(array) (sizeof(array) / sizeof(array)[0])

static const struct exercise cross = {.workers = WORKER_REAR_HAND, .counts = UNIT_STRIKES};
static const struct exercise jab_cross = {.workers = WORKER_LEAD_HAND | WORKER_REAR_HAND};
static const struct exercise rear_kick = {.workers = WORKER_REAR_LEG};
static const struct exercise lead_hook = {.workers = WORKER_LEAD_HAND | WORKER_REAR_HIP};
static const struct exercise both_hips = {.workers = WORKER_LEAD_HIP | WORKER_REAR_HIP};
static const struct exercise rear_hip = {.workers = WORKER_REAR_HIP};
static const struct exercise one_arm_row = {.workers = WORKER_HAND};
static const struct exercise split_squat = {.workers = WORKER_LEG};
static const struct exercise hip_switch = {.workers = WORKER_HIP};
static const struct exercise plank = {.ways = 4};

static struct part dose(int64_t low, int64_t high, enum unit unit, enum dose_side side)
{
    return (struct part){.amount = {low * 1000, high * 1000}, .unit = unit, .side = side};
}

static struct part reps(int64_t count, enum dose_side side)
{
    return dose(count, count, UNIT_REPS, side);
}

/* SETS sets of PARTS done by an athlete whose own stance is OWN. */
static struct ledger count_sets(enum stance own, const struct exercise *exercise,
                                const struct part *parts, size_t part_count, int sets)
{
    struct ledger ledger = {.own = own};
    struct set_run run = {.count = sets, .parts = parts, .part_count = part_count, .repeats = 1};
    struct item item = {.exercise = exercise, .runs = &run, .run_count = 1, .sets = sets};

    ledger_add(&ledger, &item, &run, sets);
    return ledger;
}

/* LEDGER's plain counts of UNIT in STANCE are EXPECTED, over the limbs in order. */
static void assert_limbs(const struct ledger *ledger, enum unit unit, enum stance stance,
                         const int expected[LIMB_COUNT])
{
    for (int limb = 0; limb < LIMB_COUNT; limb++) {
        assert_int_equal(ledger->limbs[unit][limb][stance].low, expected[limb] * 1000);
        assert_int_equal(ledger->limbs[unit][limb][stance].high, expected[limb] * 1000);
    }
}

/*
 * `3 orthodox + 2 southpaw` of a strike with the rear hand. Orthodox has the left foot in front, so
 * the rear hand is the right one and the right hip turns behind it; southpaw is the mirror.
 *
 *               left hand  right hand  left leg  right leg  left hip  right hip
 *   orthodox        0          3          0          0         0          3
 *   southpaw        2          0          0          0         2          0
 *   together        2          3          0          0         2          3
 *
 * The stances are named, so it does not matter who does it: an orthodox athlete turns the right hip
 * three times as the own stance, a southpaw as the other.
 */
static void a_rear_hand_in_two_stances_lands_on_both_hands(void **state)
{
    static const int orthodox[LIMB_COUNT] = {0, 3, 0, 0, 0, 3};
    static const int southpaw[LIMB_COUNT] = {2, 0, 0, 0, 2, 0};
    static const int together[LIMB_COUNT] = {2, 3, 0, 0, 2, 3};
    static const int none[LIMB_COUNT] = {0};
    static const enum stance athletes[] = {STANCE_ORTHODOX, STANCE_SOUTHPAW};
    const struct part parts[] = {dose(3, 3, UNIT_STRIKES, DOSE_ORTHODOX),
                                 dose(2, 2, UNIT_STRIKES, DOSE_SOUTHPAW)};

    (void)state;
    for (size_t i = 0; i < COUNT(athletes); i++) {
        struct ledger ledger = count_sets(athletes[i], &cross, parts, 2, 1);
        assert_limbs(&ledger, UNIT_STRIKES, STANCE_ORTHODOX, orthodox);
        assert_limbs(&ledger, UNIT_STRIKES, STANCE_SOUTHPAW, southpaw);
        assert_limbs(&ledger, UNIT_STRIKES, STANCE_UNKNOWN, none);
        assert_limbs(&ledger, UNIT_REPS, STANCE_ORTHODOX, none);
        for (int limb = 0; limb < LIMB_COUNT; limb++)
            assert_int_equal(ledger_limb(&ledger, UNIT_STRIKES, (enum limb)limb).high,
                             together[limb] * 1000);
        assert_int_equal(ledger.done[UNIT_STRIKES][STANCE_ORTHODOX].high, 3000);
        assert_int_equal(ledger.done[UNIT_STRIKES][STANCE_SOUTHPAW].high, 2000);
    }
}

/*
 * `4 own + 2 switched` of the same strike over three sets, as it is worked out for each athlete:
 *
 *                        dose                         left hand, hip   right hand, hip
 *   orthodox athlete     4 orthodox + 2 southpaw         3 x 2 = 6        3 x 4 = 12
 *   southpaw athlete     4 southpaw + 2 orthodox         3 x 4 = 12       3 x 2 = 6
 *
 * and `5` with no stance named, in the athlete's own: the right hand of the one, the left of the
 * other.
 */
static void own_and_switched_mirror_each_other(void **state)
{
    const struct part own_orthodox[] = {reps(4, DOSE_ORTHODOX), reps(2, DOSE_SOUTHPAW)};
    const struct part own_southpaw[] = {reps(4, DOSE_SOUTHPAW), reps(2, DOSE_ORTHODOX)};
    const struct part five = reps(5, DOSE_WHOLE);
    struct ledger ledger = count_sets(STANCE_ORTHODOX, &cross, own_orthodox, 2, 3);

    (void)state;
    assert_int_equal(ledger_limb(&ledger, UNIT_REPS, LIMB_LEFT_HAND).high, 6000);
    assert_int_equal(ledger_limb(&ledger, UNIT_REPS, LIMB_LEFT_HIP).high, 6000);
    assert_int_equal(ledger_limb(&ledger, UNIT_REPS, LIMB_RIGHT_HAND).high, 12000);
    assert_int_equal(ledger_limb(&ledger, UNIT_REPS, LIMB_RIGHT_HIP).high, 12000);

    ledger = count_sets(STANCE_SOUTHPAW, &cross, own_southpaw, 2, 3);
    assert_int_equal(ledger_limb(&ledger, UNIT_REPS, LIMB_LEFT_HAND).high, 12000);
    assert_int_equal(ledger_limb(&ledger, UNIT_REPS, LIMB_LEFT_HIP).high, 12000);
    assert_int_equal(ledger_limb(&ledger, UNIT_REPS, LIMB_RIGHT_HAND).high, 6000);
    assert_int_equal(ledger_limb(&ledger, UNIT_REPS, LIMB_RIGHT_HIP).high, 6000);

    ledger = count_sets(STANCE_ORTHODOX, &cross, &five, 1, 1);
    assert_limbs(&ledger, UNIT_REPS, STANCE_ORTHODOX, (const int[LIMB_COUNT]){0, 5, 0, 0, 0, 5});
    ledger = count_sets(STANCE_SOUTHPAW, &cross, &five, 1, 1);
    assert_limbs(&ledger, UNIT_REPS, STANCE_SOUTHPAW, (const int[LIMB_COUNT]){5, 0, 0, 0, 5, 0});
    ledger = count_sets(STANCE_UNKNOWN, &cross, &five, 1, 1);
    assert_int_equal(ledger_limb(&ledger, UNIT_REPS, LIMB_RIGHT_HAND).high, 0);
    assert_int_equal(ledger.unplaced[UNIT_REPS].high, 5000);
    assert_int_equal(ledger.done[UNIT_REPS][STANCE_UNKNOWN].high, 5000);
}

static void every_worker_lands_where_it_should(void **state)
{
    static const struct {
        const struct exercise *exercise;
        enum dose_side side;
        enum stance stance; /* under which it is counted */
        int done;
        int limbs[LIMB_COUNT]; /* left and right hand, leg, hip */
    } cases[] = {
        {&rear_kick, DOSE_ORTHODOX, STANCE_ORTHODOX, 4, {0, 0, 0, 4, 0, 4}},
        {&rear_kick, DOSE_SOUTHPAW, STANCE_SOUTHPAW, 4, {0, 0, 4, 0, 4, 0}},
        {&jab_cross, DOSE_ORTHODOX, STANCE_ORTHODOX, 4, {4, 4, 0, 0, 4, 4}},
        /* the hip named turns, not that of the hand */
        {&lead_hook, DOSE_ORTHODOX, STANCE_ORTHODOX, 4, {4, 0, 0, 0, 0, 4}},
        {&lead_hook, DOSE_SOUTHPAW, STANCE_SOUTHPAW, 4, {0, 4, 0, 0, 4, 0}},
        {&both_hips, DOSE_SOUTHPAW, STANCE_SOUTHPAW, 4, {0, 0, 0, 0, 4, 4}},
        /* by side, and so in no stance */
        {&one_arm_row, DOSE_EACH_SIDE, STANCE_UNKNOWN, 8, {4, 4, 0, 0, 4, 4}},
        {&split_squat, DOSE_LEFT, STANCE_UNKNOWN, 4, {0, 0, 4, 0, 4, 0}},
        {&split_squat, DOSE_RIGHT, STANCE_UNKNOWN, 4, {0, 0, 0, 4, 0, 4}},
        {&hip_switch, DOSE_EACH_SIDE, STANCE_UNKNOWN, 8, {0, 0, 0, 0, 4, 4}},
        {&cross, DOSE_LEFT, STANCE_UNKNOWN, 4, {4, 0, 0, 0, 4, 0}},
        {&lead_hook, DOSE_LEFT, STANCE_UNKNOWN, 4, {4, 0, 0, 0, 0, 4}},
        {&rear_hip, DOSE_LEFT, STANCE_UNKNOWN, 4, {0, 0, 0, 0, 4, 0}},
        {&jab_cross, DOSE_EACH_SIDE, STANCE_UNKNOWN, 8, {8, 8, 0, 0, 8, 8}},
        /* both limbs at once */
        {&split_squat, DOSE_WHOLE, STANCE_UNKNOWN, 4, {0, 0, 4, 4, 4, 4}},
        {&one_arm_row, DOSE_WHOLE, STANCE_UNKNOWN, 4, {4, 4, 0, 0, 4, 4}},
        /* no limb of its own */
        {&plank, DOSE_EACH_SIDE, STANCE_UNKNOWN, 8, {0}},
        {&plank, DOSE_EACH_WAY, STANCE_UNKNOWN, 16, {0}},
        {&plank, DOSE_ORTHODOX, STANCE_ORTHODOX, 4, {0}},
    };

    (void)state;
    for (size_t i = 0; i < COUNT(cases); i++) {
        struct part four = reps(4, cases[i].side);
        struct ledger ledger = count_sets(STANCE_ORTHODOX, cases[i].exercise, &four, 1, 1);
        int64_t total = 0;
        assert_limbs(&ledger, UNIT_REPS, cases[i].stance, cases[i].limbs);
        for (int stance = 0; stance < STANCE_COUNT; stance++)
            total += ledger.done[UNIT_REPS][stance].high;
        assert_int_equal(total, cases[i].done * 1000);
        assert_int_equal(ledger.done[UNIT_REPS][cases[i].stance].high, total);
    }
}

/* `5 rear hand + 3 lead hand` in one stance: the dose names the limb. */
static void a_dose_may_name_the_limb(void **state)
{
    struct part parts[] = {reps(5, DOSE_SOUTHPAW), reps(3, DOSE_SOUTHPAW)};

    (void)state;
    parts[0].workers = WORKER_REAR_HAND;
    parts[1].workers = WORKER_LEAD_HAND;
    struct ledger ledger = count_sets(STANCE_SOUTHPAW, &jab_cross, parts, 2, 2);
    assert_limbs(&ledger, UNIT_REPS, STANCE_SOUTHPAW, (const int[LIMB_COUNT]){10, 6, 0, 0, 10, 6});
}

static void ranges_keep_both_ends_and_units_stay_apart(void **state)
{
    const struct part parts[] = {
        dose(8, 10, UNIT_REPS, DOSE_EACH_SIDE), dose(20, 30, UNIT_SECONDS, DOSE_LEFT),
        dose(40, 40, UNIT_METRES, DOSE_RIGHT), dose(12, 12, UNIT_CONTACTS, DOSE_RIGHT)};
    struct ledger ledger = count_sets(STANCE_UNKNOWN, &split_squat, parts, 4, 3);

    (void)state;
    assert_int_equal(ledger_limb(&ledger, UNIT_REPS, LIMB_LEFT_LEG).low, 24000);
    assert_int_equal(ledger_limb(&ledger, UNIT_REPS, LIMB_LEFT_LEG).high, 30000);
    assert_int_equal(ledger_limb(&ledger, UNIT_SECONDS, LIMB_LEFT_LEG).low, 60000);
    assert_int_equal(ledger_limb(&ledger, UNIT_SECONDS, LIMB_LEFT_LEG).high, 90000);
    assert_int_equal(ledger_limb(&ledger, UNIT_METRES, LIMB_RIGHT_LEG).high, 120000);
    assert_int_equal(ledger_limb(&ledger, UNIT_CONTACTS, LIMB_RIGHT_LEG).high, 36000);
    assert_int_equal(ledger_limb(&ledger, UNIT_CONTACTS, LIMB_LEFT_LEG).high, 0);
    assert_false(ledger.open);
}

static void what_has_no_number_leaves_the_ledger_open(void **state)
{
    const struct part most = {.unit = UNIT_REPS, .side = DOSE_EACH_SIDE, .max = true};
    const struct part endless = reps(INT64_C(9000000000000000), DOSE_EACH_SIDE);
    struct ledger ledger = count_sets(STANCE_UNKNOWN, &split_squat, &most, 1, 3);

    (void)state;
    assert_true(ledger.open);
    assert_int_equal(ledger_limb(&ledger, UNIT_REPS, LIMB_LEFT_LEG).high, 0);

    ledger = count_sets(STANCE_UNKNOWN, &split_squat, &endless, 1, 1000000);
    assert_true(ledger_limb(&ledger, UNIT_REPS, LIMB_LEFT_LEG).high > 0);
    ledger = count_sets(STANCE_UNKNOWN, &split_squat, &endless, 1, 0);
    assert_int_equal(ledger_limb(&ledger, UNIT_REPS, LIMB_LEFT_LEG).high, 0);
}

/*
 * An occasion of four rounds and three straight sets by a southpaw:
 *
 *   bag: 10 strikes of the rear hand a round, every round     4 x 10, left hand
 *   the same, 6 more in round 2                               1 x 6, left hand
 *   filler: 6 hip switches each side in the rests             3 x 6, either hip
 *   split squat: 3 sets of `2 x 5 each side`                  3 x 2 x 5, either leg and hip
 */
static void an_occasion_counts_every_round_and_rest(void **state)
{
    const struct part ten = dose(10, 10, UNIT_STRIKES, DOSE_SOUTHPAW);
    const struct part six = dose(6, 6, UNIT_STRIKES, DOSE_SOUTHPAW);
    const struct part switches = reps(6, DOSE_EACH_SIDE), five = reps(5, DOSE_EACH_SIDE);
    const struct set_run runs[] = {
        {.count = 1, .parts = &ten, .part_count = 1},
        {.count = 1, .parts = &six, .part_count = 1},
        {.count = 1, .parts = &switches, .part_count = 1},
        {.count = 3, .parts = &five, .part_count = 1, .repeats = 2},
    };
    const struct item round_items[] = {
        {.exercise = &cross, .runs = &runs[0], .run_count = 1, .sets = 1},
        {.exercise = &cross, .runs = &runs[1], .run_count = 1, .sets = 1, .round = 2},
        {.exercise = &hip_switch, .runs = &runs[2], .run_count = 1, .sets = 1, .filler = true},
    };
    const struct item squat = {
        .exercise = &split_squat, .runs = &runs[3], .run_count = 1, .sets = 3};
    struct block blocks[] = {
        {.kind = BLOCK_ROUNDS, .sets = 4, .work = 120, .items = round_items, .item_count = 3},
        {.kind = BLOCK_STRAIGHT, .sets = 3, .items = &squat, .item_count = 1},
    };
    const struct athlete athlete = {.stance = STANCE_SOUTHPAW};
    const struct occasion occasion = {.athlete = &athlete, .blocks = blocks, .block_count = 2};
    struct ledger ledger = {0};

    (void)state;
    ledger_occasion(&ledger, &occasion);
    assert_limbs(&ledger, UNIT_STRIKES, STANCE_SOUTHPAW,
                 (const int[LIMB_COUNT]){46, 0, 0, 0, 46, 0});
    assert_limbs(&ledger, UNIT_REPS, STANCE_UNKNOWN, (const int[LIMB_COUNT]){0, 0, 30, 30, 48, 48});
    assert_int_equal(ledger.own, STANCE_SOUTHPAW);
    assert_false(ledger.open);

    blocks[1].kind = BLOCK_AS_MANY;
    ledger_occasion(&ledger, &occasion); /* adds to what is there */
    assert_int_equal(ledger_limb(&ledger, UNIT_STRIKES, LIMB_LEFT_HAND).high, 92000);
    assert_true(ledger.open);
}

/* No plan contains as much, but whoever tries gets the most that is counted, and nothing wraps. */
static void more_than_can_be_counted_is_cut(void **state)
{
    static const int64_t most = INT64_C(1000000000000000);
    static const struct {
        int64_t low, high; /* repetitions */
        int sets;
        int64_t counted_low, counted_high;
    } rows[] = {
        {1, 1000000, 1000000, 1000000000, most},
        {1, 1000001, 1, 1000, 1000001000},
        {1000001, 1000001, 3, 3000003000, 3000003000},
        {1, 2, 1000001, 1000001000, 2000002000},
        {1, 2000000, 2000000, 2000000000, most},
        {2000000, 2000000, 2000000, most, most},
    };
    (void)state;
    for (size_t i = 0; i < COUNT(rows); i++) {
        const struct part part = dose(rows[i].low, rows[i].high, UNIT_REPS, DOSE_ORTHODOX);
        struct ledger ledger = count_sets(STANCE_ORTHODOX, &rear_kick, &part, 1, rows[i].sets);
        struct range sum = ledger_limb(&ledger, UNIT_REPS, LIMB_RIGHT_LEG);
        assert_true(sum.low == rows[i].counted_low && sum.high == rows[i].counted_high);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_rear_hand_in_two_stances_lands_on_both_hands),
        cmocka_unit_test(own_and_switched_mirror_each_other),
        cmocka_unit_test(every_worker_lands_where_it_should),
        cmocka_unit_test(a_dose_may_name_the_limb),
        cmocka_unit_test(ranges_keep_both_ends_and_units_stay_apart),
        cmocka_unit_test(what_has_no_number_leaves_the_ledger_open),
        cmocka_unit_test(an_occasion_counts_every_round_and_rest),
        cmocka_unit_test(more_than_can_be_counted_is_cut),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
