/* What a gym's kit makes of the mass that is meant. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "base/arena.h"
#include "figures/mass.h"
#include "kg.h"
#include "measure/bars.h"
#include "measure/loads.h"
#include "model/programme.h"

#define KIT(words, kilograms, pieces)                                                      \
    {                                                                                      \
        .name = {.shown = words, .folded = words}, .mass = KG(kilograms), .count = pieces \
    }
#define NEED(words)                                           \
    {                                                         \
        .name = {.shown = words, .folded = words}, .count = 1 \
    }
#define COUNT(array) (sizeof(array) / sizeof(array)[0])

/* --- a gym of our own invention --- */

static struct kit bars[] = {
    KIT("barbell", 20, 3),
    KIT("barbell", 15, 1),
    KIT("trap bar", 25, 1),
    KIT("safety bar", 30, 1),
};
static struct disc discs[] = {
    {KG(25), 4}, {KG(20), 8}, {KG(15), 4}, {KG(10), 8}, {KG(5), 8}, {KG(2.5), 8}, {KG(1.25), 4},
};
static struct disc dumbbells[] = {
    {KG(12), 2}, {KG(14), 2}, {KG(16), 2}, {KG(18), 2}, {KG(20), 2},
};
static struct disc kettlebells[] = {{KG(12), 2}, {KG(16), 2}, {KG(20), 1}, {KG(24), 1}};
static struct disc balls[] = {{KG(3), 2}, {KG(5), 1}};
static struct kit others[] = {KIT("landmine", 0, 2), KIT("cable", 0, 1), KIT("sandbag", 15, 1),
                              KIT("bench", 0, 2)};

static struct gym slipway(struct arena *arena, mass collar)
{
    struct gym gym = {
        .bars = bars,
        .bar_count = COUNT(bars),
        .discs = discs,
        .disc_count = COUNT(discs),
        .collar = collar,
        .dumbbells = dumbbells,
        .dumbbell_count = COUNT(dumbbells),
        .kettlebells = kettlebells,
        .kettlebell_count = COUNT(kettlebells),
        .balls = balls,
        .ball_count = COUNT(balls),
        .others = others,
        .other_count = COUNT(others),
    };

    assert_int_equal(gym_prepare(arena, &gym), PLATE_OK);
    return gym;
}

/* --- what is loaded --- */

static struct need barbell_needs[] = {NEED("barbell"), NEED("plates"), NEED("rack")};
static struct need trap_bar_needs[] = {NEED("trap bar"), NEED("plates")};
static struct need landmine_needs[] = {NEED("landmine"), NEED("barbell"), NEED("plates")};
static struct need dumbbell_needs[] = {NEED("dumbbell"), NEED("bench")};
static struct need dumbbells_needs[] = {NEED("dumbbells"), NEED("bench")};
static struct need kettlebell_needs[] = {NEED("kettlebell")};
static struct need kettlebells_needs[] = {NEED("kettlebells")};
static struct need ball_needs[] = {NEED("throwing ball"), NEED("wall")};
static struct need disc_needs[] = {NEED("weight plate")};
static struct need cable_needs[] = {NEED("cable")};
static struct need sandbag_needs[] = {NEED("sandbag")};
static struct need hanging_needs[] = {NEED("pull-up bar")};

#define EXERCISE(words, how, what)                                              \
    {                                                                           \
        .name = {.shown = words, .folded = words}, .weigh = how, .needs = what, \
        .need_count = COUNT(what)                                               \
    }

static const struct exercise squat = EXERCISE("squat", WEIGH_BAR_AND_PLATES, barbell_needs);
static const struct exercise trap_bar_lift =
    EXERCISE("trap bar lift", WEIGH_BAR_AND_PLATES, trap_bar_needs);
static const struct exercise landmine_press =
    EXERCISE("landmine press", WEIGH_PLATES, landmine_needs);
static const struct exercise landmine_whole =
    EXERCISE("landmine squat", WEIGH_BAR_AND_PLATES, landmine_needs);
static const struct exercise row = EXERCISE("row", WEIGH_ONE_HAND, dumbbell_needs);
static const struct exercise bench = EXERCISE("bench", WEIGH_ONE_HAND, dumbbells_needs);
static const struct exercise curl = EXERCISE("curl", WEIGH_BOTH_HANDS, dumbbells_needs);
static const struct exercise carry = EXERCISE("carry", WEIGH_ONE_HAND, kettlebells_needs);
static const struct exercise goblet = EXERCISE("goblet", WEIGH_IMPLEMENT, kettlebell_needs);
static const struct exercise ball_throw = EXERCISE("throw", WEIGH_IMPLEMENT, ball_needs);
static const struct exercise pinch = EXERCISE("pinch", WEIGH_ONE_HAND, disc_needs);
static const struct exercise cable_row = EXERCISE("cable row", WEIGH_IMPLEMENT, cable_needs);
static const struct exercise shouldering = EXERCISE("bag", WEIGH_IMPLEMENT, sandbag_needs);
static const struct exercise pull_up = EXERCISE("pull-up", WEIGH_ADDED, hanging_needs);
static const struct exercise unsaid_squat = EXERCISE("any squat", WEIGH_UNSAID, barbell_needs);
static const struct exercise unsaid_throw = EXERCISE("any throw", WEIGH_UNSAID, ball_needs);

static void assert_discs(const struct plating *plating, const mass *expected, int count)
{
    assert_int_equal(plating->disc_count, count);
    for (int i = 0; i < count; i++)
        assert_int_equal(plating->discs[i], expected[i]);
}

/* --- bars --- */

/* Source: International Weightlifting Federation, technical and competition rules: a bar of 20 kg,
 * collars of 2.5 kg each, the largest disc innermost. */
static void a_hundred_kilograms_is_what_the_rules_say(void **state)
{
    static const mass bare[] = {KG(25), KG(15)}, collared[] = {KG(25), KG(10), KG(2.5)};
    struct arena *arena = arena_new();
    struct gym without = slipway(arena, 0), with = slipway(arena, KG(2.5));
    struct load load;

    (void)state;
    assert_int_equal(load_make(&without, &squat, KG(100), 1, false, &load), MADE_EXACTLY);
    assert_int_equal(load.made, KG(100));
    assert_ptr_equal(load.plating.bar, &bars[0]);
    assert_false(load.plating.one_sleeve);
    assert_int_equal(load.plating.collar, 0);
    assert_discs(&load.plating, bare, 2);

    assert_int_equal(load_make(&with, &squat, KG(100), 1, false, &load), MADE_EXACTLY);
    assert_int_equal(load.made, KG(100));
    assert_int_equal(load.plating.collar, KG(2.5));
    assert_discs(&load.plating, collared, 3);
    arena_free(arena);
}

static void what_cannot_be_made_gives_the_nearest(void **state)
{
    static const struct {
        mass asked;
        bool down;
        enum load_made status;
        mass made;
    } cases[] = {
        {KG(81), false, MADE_NEAREST, KG(80)}, /* 80 is 1 kg off, 82.5 is 1.5 */
        {KG(81.5), false, MADE_NEAREST, KG(82.5)},
        {KG(81.25), false, MADE_NEAREST, KG(80)}, /* as near to both: the lighter */
        {KG(82.49), true, MADE_NEAREST, KG(80)},  /* always down */
        {KG(82.5), true, MADE_EXACTLY, KG(82.5)},
        {KG(10), false, MADE_LIGHTEST, KG(15)}, /* the lighter of the two barbells, empty */
        {KG(10), true, MADE_LIGHTEST, KG(15)},
        {KG(15), false, MADE_EXACTLY, KG(15)},
        {KG(20), false, MADE_EXACTLY, KG(20)},
        {KG(17), false, MADE_NEAREST, KG(17.5)}, /* nearer on the bar of 15 kg than on that of 20 */
        {KG(19), false, MADE_NEAREST, KG(20)},
        {KG(19), true, MADE_NEAREST, KG(17.5)},
        /* 2 x 25, 4 x 20, 2 x 15, 4 x 10 are twelve discs a side: 200 kg, and the bar */
        {KG(420), false, MADE_EXACTLY, KG(420)},
        {KG(500), false, MADE_HEAVIEST, KG(420)},
    };
    struct arena *arena = arena_new();
    struct gym gym = slipway(arena, 0);

    (void)state;
    for (size_t i = 0; i < COUNT(cases); i++) {
        struct load load = {.rounded_down = true};
        assert_int_equal(load_make(&gym, &squat, cases[i].asked, 1, cases[i].down, &load),
                         cases[i].status);
        assert_int_equal(load.asked, cases[i].asked);
        assert_int_equal(load.made, cases[i].made);
        assert_int_equal(load.rounded_down, cases[i].down && cases[i].made < cases[i].asked);
    }
    arena_free(arena);
}

/* Every load of every kilogram adds up to what it says, with discs that the gym has. */
static void what_hangs_on_the_bar_adds_up(void **state)
{
    struct arena *arena = arena_new();
    struct gym gym = slipway(arena, KG(2.5));

    (void)state;
    for (mass asked = KG(10); asked <= KG(460); asked += KG(0.37)) {
        struct load load;
        load_make(&gym, &squat, asked, 1, false, &load);
        mass total = load.plating.bar->mass + 2 * load.plating.collar;
        for (int i = 0; i < load.plating.disc_count; i++) {
            int used = 0, have = 0;
            total += 2 * load.plating.discs[i];
            for (int j = 0; j < load.plating.disc_count; j++)
                used += load.plating.discs[j] == load.plating.discs[i] ? 2 : 0;
            for (size_t j = 0; j < COUNT(discs); j++)
                have += discs[j].mass == load.plating.discs[i] ? discs[j].count : 0;
            assert_true(used <= have);
            assert_true(i == 0 || load.plating.discs[i] <= load.plating.discs[i - 1]);
        }
        assert_int_equal(total, load.made);
    }
    arena_free(arena);
}

static void the_exercise_names_its_bar(void **state)
{
    struct arena *arena = arena_new();
    struct gym gym = slipway(arena, 0);
    struct load load;

    (void)state;
    /* 20 kg: the heavier barbell as it is, not the lighter one with discs */
    assert_int_equal(load_make(&gym, &squat, KG(19), 1, false, &load), MADE_NEAREST);
    assert_ptr_equal(load.plating.bar, &bars[0]);
    assert_int_equal(load.plating.disc_count, 0);
    assert_int_equal(load_make(&gym, &trap_bar_lift, KG(60), 1, false, &load), MADE_EXACTLY);
    assert_ptr_equal(load.plating.bar, &bars[2]);
    assert_int_equal(load_make(&gym, &trap_bar_lift, KG(20), 1, false, &load), MADE_LIGHTEST);
    assert_int_equal(load.made, KG(25));

    gym.bar_count = 2; /* the barbells alone */
    assert_int_equal(load_make(&gym, &trap_bar_lift, KG(60), 1, false, &load), MADE_FROM_NOTHING);
    assert_int_equal(load.made, KG(60));
    assert_null(load.plating.bar);
    arena_free(arena);
}

/* One sleeve takes single discs: 1.25 kg steps where a pair would go by 2.5. */
static void a_landmine_takes_single_discs(void **state)
{
    static const mass on_it[] = {KG(20), KG(1.25)};
    struct arena *arena = arena_new();
    struct gym gym = slipway(arena, 0);
    struct load load;

    (void)state;
    assert_int_equal(load_make(&gym, &landmine_press, KG(21.25), 1, false, &load), MADE_EXACTLY);
    assert_true(load.plating.one_sleeve);
    assert_ptr_equal(load.plating.bar, &bars[0]);
    assert_discs(&load.plating, on_it, 2);

    assert_int_equal(load_make(&gym, &landmine_whole, KG(41.25), 1, false, &load), MADE_EXACTLY);
    assert_true(load.plating.one_sleeve);
    assert_discs(&load.plating, on_it, 2);
    arena_free(arena);
}

/* Two squats of a pair, where there is one bar of 20 kg and one of 15. */
static void one_of_two_goes_on_the_other_bar(void **state)
{
    static const mass heavy[] = {KG(20)}, light[] = {KG(10), KG(2.5)};
    struct kit two[] = {KIT("barbell", 20, 1), KIT("barbell", 15, 1)};
    struct arena *arena = arena_new();
    struct gym gym = slipway(arena, 0);
    struct set_run runs[2] = {{.count = 3}, {.count = 3}};
    struct item items[2] = {{.exercise = &squat, .runs = &runs[0], .run_count = 1},
                            {.exercise = &squat, .runs = &runs[1], .run_count = 1}};

    (void)state;
    gym.bars = two;
    gym.bar_count = COUNT(two);
    assert_int_equal(load_make(&gym, &squat, KG(60), 1, false, &runs[0].load), MADE_EXACTLY);
    assert_int_equal(load_make(&gym, &squat, KG(40), 1, false, &runs[1].load), MADE_EXACTLY);
    bars_part(arena, &gym, items, 2);
    assert_ptr_equal(items[0].runs[0].load.plating.bar, &two[0]);
    assert_discs(&items[0].runs[0].load.plating, heavy, 1);
    assert_ptr_equal(items[1].runs[0].load.plating.bar, &two[1]);
    assert_int_equal(items[1].runs[0].load.made, KG(40));
    assert_discs(&items[1].runs[0].load.plating, light, 2);
    assert_ptr_equal(runs[1].load.plating.bar, &two[0]); /* shared with others, and left as it was */

    /* The heavy bar cannot be 17.5 kg, and the light one is taken: nothing moves. */
    load_make(&gym, &squat, KG(17.5), 1, false, &runs[0].load);
    load_make(&gym, &squat, KG(15), 1, false, &runs[1].load);
    items[1].runs = &runs[1];
    bars_part(arena, &gym, items, 2);
    assert_ptr_equal(items[0].runs[0].load.plating.bar, &two[1]);
    assert_ptr_equal(items[1].runs[0].load.plating.bar, &two[1]);
    arena_free(arena);
}

/*
 * No load is rounded, and none is lost. One side takes 2 x 45, 25, 10, 5 and 2 x 2.5 lb, so every 2.5 lb up to 135 but
 * for 22.5, 67.5 and 112.5: of what goes on a bar, 45, 135 and 225 lb are missing.
 */
static void discs_in_pounds_add_up(void **state)
{
    static struct disc pound_discs[] = {{LB(45), 4}, {LB(25), 2}, {LB(10), 2}, {LB(5), 2}, {LB(2.5), 4}};
    static struct kit pound_bars[] = {{.name = {.folded = "barbell"}, .mass = LB(45), .count = 1},
                                      {.name = {.folded = "barbell"}, .mass = LB(35), .count = 1}};
    static const int64_t marked[] = {45, 35};
    struct arena *arena = arena_new();

    (void)state;
    for (size_t i = 0; i < COUNT(pound_bars); i++) {
        struct gym gym = {.bars = &pound_bars[i],
                          .bar_count = 1,
                          .discs = pound_discs,
                          .disc_count = COUNT(pound_discs)};
        assert_int_equal(gym_prepare(arena, &gym), PLATE_OK);
        for (int64_t on_it = 0; on_it <= 270; on_it += 5) {
            bool missing = on_it == 45 || on_it == 135 || on_it == 225;
            struct load load;
            assert_int_equal(load_make(&gym, &squat, (marked[i] + on_it) * MASS_LB, 1, true, &load),
                             missing ? MADE_NEAREST : MADE_EXACTLY);
            assert_int_equal(load.made, (marked[i] + on_it - (missing ? 5 : 0)) * MASS_LB);
        }
    }
    arena_free(arena);
}

/* --- hands --- */

static void hands_hold_what_the_rack_has(void **state)
{
    static const struct {
        const struct exercise *exercise;
        mass asked;
        int pieces;
        bool down;
        enum load_made status;
        mass made;
    } cases[] = {
        {&row, KG(16), 1, false, MADE_EXACTLY, KG(16)},
        {&row, KG(15), 1, false, MADE_NEAREST, KG(14)},
        {&row, KG(15.9), 1, true, MADE_NEAREST, KG(14)},
        {&row, KG(8), 1, false, MADE_LIGHTEST, KG(12)},
        {&row, KG(40), 1, false, MADE_HEAVIEST, KG(20)},
        {&bench, KG(18), 1, false, MADE_EXACTLY, KG(18)},
        {&curl, KG(32), 1, false, MADE_EXACTLY, KG(32)}, /* 16 in each hand */
        {&curl, KG(33), 1, false, MADE_NEAREST, KG(32)},
        {&curl, KG(16), 2, false, MADE_EXACTLY, KG(16)}, /* `2 x 16 kg` */
        {&carry, KG(16), 2, false, MADE_EXACTLY, KG(16)},
        {&carry, KG(24), 2, false, MADE_HEAVIEST, KG(16)}, /* there is one of 24, no pair */
        {&carry, KG(24), 1, false, MADE_HEAVIEST, KG(16)},
        {&goblet, KG(24), 1, false, MADE_EXACTLY, KG(24)},
        {&goblet, KG(24), 2, false, MADE_HEAVIEST, KG(16)},
        {&goblet, KG(24), 3, false, MADE_TOO_FEW, KG(24)},
        {&ball_throw, KG(3), 1, false, MADE_EXACTLY, KG(3)},
        {&ball_throw, KG(4), 1, false, MADE_NEAREST, KG(3)},
        {&pinch, KG(15), 1, false, MADE_EXACTLY, KG(15)},
        {&pinch, KG(17), 1, false, MADE_NEAREST, KG(15)},
        {&shouldering, KG(15), 1, false, MADE_EXACTLY, KG(15)},
        {&cable_row, KG(37), 1, false, MADE_UNWEIGHED, KG(37)},
        {&pull_up, KG(6.25), 1, false, MADE_EXACTLY, KG(6.25)},         /* 5 and 1.25 from a belt */
        {&pull_up, KG(16), 1, false, MADE_EXACTLY, KG(16)}, /* a dumbbell */
        {&unsaid_squat, KG(60), 1, false, MADE_EXACTLY, KG(60)},
        {&unsaid_throw, KG(5), 1, false, MADE_EXACTLY, KG(5)},
    };
    struct arena *arena = arena_new();
    struct gym gym = slipway(arena, 0);

    (void)state;
    for (size_t i = 0; i < COUNT(cases); i++) {
        struct load load;
        assert_int_equal(load_make(&gym, cases[i].exercise, cases[i].asked, cases[i].pieces,
                                   cases[i].down, &load),
                         cases[i].status);
        assert_int_equal(load.made, cases[i].made);
        assert_int_equal(load.pieces, cases[i].pieces);
    }
    arena_free(arena);
}

static void nothing_is_made_from_nothing(void **state)
{
    struct arena *arena = arena_new();
    struct gym empty = {.others = others, .other_count = COUNT(others)};
    struct load load;

    (void)state;
    assert_int_equal(gym_prepare(arena, &empty), PLATE_OK);
    assert_int_equal(load_make(&empty, &squat, KG(60), 1, false, &load), MADE_FROM_NOTHING);
    assert_int_equal(load_make(&empty, &landmine_press, KG(60), 1, false, &load),
                     MADE_FROM_NOTHING);
    assert_int_equal(load_make(&empty, &bench, KG(16), 1, false, &load), MADE_FROM_NOTHING);
    assert_int_equal(load_make(NULL, &squat, KG(60), 1, false, &load), MADE_FROM_NOTHING);
    assert_int_equal(load.made, KG(60));
    arena_free(arena);
}

/* --- the ramp --- */

static int ramp_to(const struct gym *gym, const struct exercise *exercise, mass working,
                   struct ramp_step steps[RAMP_STEPS])
{
    struct load load = {.kind = LOAD_MASS, .asked = working, .made = working, .pieces = 1};

    return load_ramp(gym, exercise, &load, steps);
}

static void the_ramp_climbs_to_the_working_load(void **state)
{
    static const struct {
        mass made;
        int reps;
    } to_100[] = {{KG(40), 5}, {KG(60), 3}, {KG(75), 2}, {KG(85), 1}};
    struct arena *arena = arena_new();
    struct gym gym = slipway(arena, 0);
    struct ramp_step steps[RAMP_STEPS];

    (void)state;
    assert_int_equal(ramp_to(&gym, &squat, KG(100), steps), 4);
    for (int i = 0; i < 4; i++) {
        assert_int_equal(steps[i].load.made, to_100[i].made);
        assert_int_equal(steps[i].reps, to_100[i].reps);
    }

    /* 20 kg: 8 and 12 are below the lightest bar, 15 kg; 15 is again 15; 17 is nearest to 17.5. */
    assert_int_equal(ramp_to(&gym, &squat, KG(20), steps), 2);
    assert_int_equal(steps[0].load.made, KG(15));
    assert_int_equal(steps[0].reps, 5);
    assert_int_equal(steps[1].load.made, KG(17.5));
    assert_int_equal(steps[1].reps, 1);

    assert_int_equal(ramp_to(&gym, &squat, KG(15), steps), 0); /* nothing is lighter */
    assert_int_equal(ramp_to(&gym, &squat, 0, steps), 0);
    assert_int_equal(ramp_to(&gym, &pull_up, KG(20), steps), 0);
    arena_free(arena);
}

/* In a landmine half of the 20 kg bar is lifted with the plates: 30 kg of them are 40 kg in the hand, and 40, 60, 75 and
 * 85 % of that are 6, 14, 20 and 24 kg of plates. A load that names the whole bar comes to the same plates. */
static void half_of_a_landmines_bar_is_lifted(void **state)
{
    static const mass plates[] = {KG(6.25), KG(13.75), KG(20), KG(23.75)};
    struct arena *arena = arena_new();
    struct gym gym = slipway(arena, 0);
    struct ramp_step steps[RAMP_STEPS];
    struct load load = {.kind = LOAD_MASS};

    (void)state;
    assert_int_equal(load_make(&gym, &landmine_press, KG(30), 1, false, &load), MADE_EXACTLY);
    assert_int_equal(load.plating.bar->mass, KG(20));
    assert_int_equal(load_ramp(&gym, &landmine_press, &load, steps), 4);
    for (int i = 0; i < 4; i++)
        assert_int_equal(steps[i].load.made, plates[i]);
    assert_int_equal(load_make(&gym, &landmine_whole, KG(50), 1, false, &load), MADE_EXACTLY);
    assert_int_equal(load_ramp(&gym, &landmine_whole, &load, steps), 4);
    for (int i = 0; i < 4; i++)
        assert_int_equal(steps[i].load.made, KG(20) + plates[i]);
    arena_free(arena);
}

/* A gym that names its steps gets those and no others. */
static void the_ramp_is_the_gyms_own(void **state)
{
    struct arena *arena = arena_new();
    struct gym gym = slipway(arena, 0);
    struct ramp_step steps[RAMP_STEPS];

    (void)state;
    gym.ramp[0] = (struct ramp_wish){30000, 8};
    gym.ramp[1] = (struct ramp_wish){70000, 4};
    gym.ramp_count = 2;
    assert_int_equal(ramp_to(&gym, &squat, KG(100), steps), 2);
    assert_int_equal(steps[0].load.made, KG(30));
    assert_int_equal(steps[0].reps, 8);
    assert_int_equal(steps[1].load.made, KG(70));
    assert_int_equal(steps[1].reps, 4);
    arena_free(arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_hundred_kilograms_is_what_the_rules_say),
        cmocka_unit_test(what_cannot_be_made_gives_the_nearest),
        cmocka_unit_test(what_hangs_on_the_bar_adds_up),
        cmocka_unit_test(the_exercise_names_its_bar),
        cmocka_unit_test(a_landmine_takes_single_discs),
        cmocka_unit_test(one_of_two_goes_on_the_other_bar),
        cmocka_unit_test(discs_in_pounds_add_up),
        cmocka_unit_test(hands_hold_what_the_rack_has),
        cmocka_unit_test(nothing_is_made_from_nothing),
        cmocka_unit_test(the_ramp_climbs_to_the_working_load),
        cmocka_unit_test(half_of_a_landmines_bar_is_lifted),
        cmocka_unit_test(the_ramp_is_the_gyms_own),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
