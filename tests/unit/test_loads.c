/* What a gym's kit makes of the mass that is meant. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "base/arena.h"
#include "figures/mass.h"
#include "measure/bars.h"
#include "measure/loads.h"

enum { KG = 100 }; /* in tens of grams */

#define KIT(words, kilograms, pieces)                                                      \
    {                                                                                      \
        .name = {.shown = words, .folded = words}, .mass = (kilograms)*KG, .count = pieces \
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
    {25 * KG, 4}, {20 * KG, 8}, {15 * KG, 4}, {10 * KG, 8}, {5 * KG, 8}, {250, 8}, {125, 4},
};
static struct disc dumbbells[] = {
    {12 * KG, 2}, {14 * KG, 2}, {16 * KG, 2}, {18 * KG, 2}, {20 * KG, 2},
};
static struct disc kettlebells[] = {{12 * KG, 2}, {16 * KG, 2}, {20 * KG, 1}, {24 * KG, 1}};
static struct disc balls[] = {{3 * KG, 2}, {5 * KG, 1}};
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
    static const mass bare[] = {25 * KG, 15 * KG}, collared[] = {25 * KG, 10 * KG, 250};
    struct arena *arena = arena_new();
    struct gym without = slipway(arena, 0), with = slipway(arena, 250);
    struct load load;

    (void)state;
    assert_int_equal(load_make(&without, &squat, 100 * KG, 1, false, &load), MADE_EXACTLY);
    assert_int_equal(load.made, 100 * KG);
    assert_ptr_equal(load.plating.bar, &bars[0]);
    assert_false(load.plating.one_sleeve);
    assert_int_equal(load.plating.collar, 0);
    assert_discs(&load.plating, bare, 2);

    assert_int_equal(load_make(&with, &squat, 100 * KG, 1, false, &load), MADE_EXACTLY);
    assert_int_equal(load.made, 100 * KG);
    assert_int_equal(load.plating.collar, 250);
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
        {8100, false, MADE_NEAREST, 8000}, /* 80 is 1 kg off, 82.5 is 1.5 */
        {8150, false, MADE_NEAREST, 8250},
        {8125, false, MADE_NEAREST, 8000}, /* as near to both: the lighter */
        {8249, true, MADE_NEAREST, 8000},  /* always down */
        {8250, true, MADE_EXACTLY, 8250},
        {1000, false, MADE_LIGHTEST, 1500}, /* the lighter of the two barbells, empty */
        {1000, true, MADE_LIGHTEST, 1500},
        {1500, false, MADE_EXACTLY, 1500},
        {2000, false, MADE_EXACTLY, 2000},
        {1700, false, MADE_NEAREST, 1750}, /* nearer on the bar of 15 kg than on that of 20 */
        {1900, false, MADE_NEAREST, 2000},
        {1900, true, MADE_NEAREST, 1750},
        /* 2 x 25, 4 x 20, 2 x 15, 4 x 10 are twelve discs a side: 200 kg, and the bar */
        {42000, false, MADE_EXACTLY, 42000},
        {50000, false, MADE_HEAVIEST, 42000},
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
    struct gym gym = slipway(arena, 250);

    (void)state;
    for (mass asked = 10 * KG; asked <= 460 * KG; asked += 37) {
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
    assert_int_equal(load_make(&gym, &squat, 19 * KG, 1, false, &load), MADE_NEAREST);
    assert_ptr_equal(load.plating.bar, &bars[0]);
    assert_int_equal(load.plating.disc_count, 0);
    assert_int_equal(load_make(&gym, &trap_bar_lift, 60 * KG, 1, false, &load), MADE_EXACTLY);
    assert_ptr_equal(load.plating.bar, &bars[2]);
    assert_int_equal(load_make(&gym, &trap_bar_lift, 20 * KG, 1, false, &load), MADE_LIGHTEST);
    assert_int_equal(load.made, 25 * KG);

    gym.bar_count = 2; /* the barbells alone */
    assert_int_equal(load_make(&gym, &trap_bar_lift, 60 * KG, 1, false, &load), MADE_FROM_NOTHING);
    assert_int_equal(load.made, 60 * KG);
    assert_null(load.plating.bar);
    arena_free(arena);
}

/* One sleeve takes single discs: 1.25 kg steps where a pair would go by 2.5. */
static void a_landmine_takes_single_discs(void **state)
{
    static const mass on_it[] = {20 * KG, 125};
    struct arena *arena = arena_new();
    struct gym gym = slipway(arena, 0);
    struct load load;

    (void)state;
    assert_int_equal(load_make(&gym, &landmine_press, 2125, 1, false, &load), MADE_EXACTLY);
    assert_true(load.plating.one_sleeve);
    assert_ptr_equal(load.plating.bar, &bars[0]);
    assert_discs(&load.plating, on_it, 2);

    assert_int_equal(load_make(&gym, &landmine_whole, 4125, 1, false, &load), MADE_EXACTLY);
    assert_true(load.plating.one_sleeve);
    assert_discs(&load.plating, on_it, 2);
    arena_free(arena);
}

/* Two squats of a pair, where there is one bar of 20 kg and one of 15. */
static void one_of_two_goes_on_the_other_bar(void **state)
{
    static const mass heavy[] = {20 * KG}, light[] = {10 * KG, 250};
    struct kit two[] = {KIT("barbell", 20, 1), KIT("barbell", 15, 1)};
    struct arena *arena = arena_new();
    struct gym gym = slipway(arena, 0);
    struct set_run runs[2] = {{.count = 3}, {.count = 3}};
    struct item items[2] = {{.exercise = &squat, .runs = &runs[0], .run_count = 1},
                            {.exercise = &squat, .runs = &runs[1], .run_count = 1}};

    (void)state;
    gym.bars = two;
    gym.bar_count = COUNT(two);
    assert_int_equal(load_make(&gym, &squat, 60 * KG, 1, false, &runs[0].load), MADE_EXACTLY);
    assert_int_equal(load_make(&gym, &squat, 40 * KG, 1, false, &runs[1].load), MADE_EXACTLY);
    bars_part(arena, &gym, items, 2);
    assert_ptr_equal(items[0].runs[0].load.plating.bar, &two[0]);
    assert_discs(&items[0].runs[0].load.plating, heavy, 1);
    assert_ptr_equal(items[1].runs[0].load.plating.bar, &two[1]);
    assert_int_equal(items[1].runs[0].load.made, 40 * KG);
    assert_discs(&items[1].runs[0].load.plating, light, 2);
    assert_ptr_equal(runs[1].load.plating.bar, &two[0]); /* shared with others, and left as it was */

    /* The heavy bar cannot be 17.5 kg, and the light one is taken: nothing moves. */
    load_make(&gym, &squat, 1750, 1, false, &runs[0].load);
    load_make(&gym, &squat, 1500, 1, false, &runs[1].load);
    items[1].runs = &runs[1];
    bars_part(arena, &gym, items, 2);
    assert_ptr_equal(items[0].runs[0].load.plating.bar, &two[1]);
    assert_ptr_equal(items[1].runs[0].load.plating.bar, &two[1]);
    arena_free(arena);
}

/*
 * 45 lb is 20.41 kg, 35 lb 15.88 kg and 2.5 lb 1.13 kg to the nearest 10 g; rounding must cost no
 * load. One side takes 2 x 45, 25, 10, 5 and 2 x 2.5 lb, so every 2.5 lb up to 135 but for 22.5,
 * 67.5 and 112.5: of what goes on a bar, 45, 135 and 225 lb are missing.
 */
static void discs_in_pounds_add_up_in_pounds(void **state)
{
    static struct disc pound_discs[] = {{2041, 4}, {1134, 2}, {454, 2}, {227, 2}, {113, 4}};
    static struct kit pound_bars[] = {{.name = {.folded = "barbell"}, .mass = 2041, .count = 1},
                                      {.name = {.folded = "barbell"}, .mass = 1588, .count = 1}};
    static const int64_t marked[] = {45, 35};
    struct arena *arena = arena_new();

    (void)state;
    for (size_t i = 0; i < COUNT(pound_bars); i++) {
        struct gym gym = {.bars = &pound_bars[i],
                          .bar_count = 1,
                          .discs = pound_discs,
                          .disc_count = COUNT(pound_discs),
                          .discs_in_pounds = true};
        assert_int_equal(gym_prepare(arena, &gym), PLATE_OK);
        for (int64_t on_it = 0; on_it <= 270; on_it += 5) {
            bool missing = on_it == 45 || on_it == 135 || on_it == 225;
            mass asked = mass_from_lb((marked[i] + on_it) * 1000);
            int64_t expected = (marked[i] + on_it - (missing ? 5 : 0)) * 1000;
            struct load load;
            assert_int_equal(load_make(&gym, &squat, asked, 1, true, &load),
                             missing ? MADE_NEAREST : MADE_EXACTLY);
            assert_int_equal(mass_to_quarter_lb(load.made), expected);
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
        {&row, 16 * KG, 1, false, MADE_EXACTLY, 16 * KG},
        {&row, 15 * KG, 1, false, MADE_NEAREST, 14 * KG},
        {&row, 1590, 1, true, MADE_NEAREST, 14 * KG},
        {&row, 8 * KG, 1, false, MADE_LIGHTEST, 12 * KG},
        {&row, 40 * KG, 1, false, MADE_HEAVIEST, 20 * KG},
        {&bench, 18 * KG, 1, false, MADE_EXACTLY, 18 * KG},
        {&curl, 32 * KG, 1, false, MADE_EXACTLY, 32 * KG}, /* 16 in each hand */
        {&curl, 33 * KG, 1, false, MADE_NEAREST, 32 * KG},
        {&curl, 16 * KG, 2, false, MADE_EXACTLY, 16 * KG}, /* `2 x 16 kg` */
        {&carry, 16 * KG, 2, false, MADE_EXACTLY, 16 * KG},
        {&carry, 24 * KG, 2, false, MADE_HEAVIEST, 16 * KG}, /* there is one of 24, no pair */
        {&carry, 24 * KG, 1, false, MADE_HEAVIEST, 16 * KG},
        {&goblet, 24 * KG, 1, false, MADE_EXACTLY, 24 * KG},
        {&goblet, 24 * KG, 2, false, MADE_HEAVIEST, 16 * KG},
        {&goblet, 24 * KG, 3, false, MADE_TOO_FEW, 24 * KG},
        {&ball_throw, 3 * KG, 1, false, MADE_EXACTLY, 3 * KG},
        {&ball_throw, 4 * KG, 1, false, MADE_NEAREST, 3 * KG},
        {&pinch, 15 * KG, 1, false, MADE_EXACTLY, 15 * KG},
        {&pinch, 17 * KG, 1, false, MADE_NEAREST, 15 * KG},
        {&shouldering, 15 * KG, 1, false, MADE_EXACTLY, 15 * KG},
        {&cable_row, 37 * KG, 1, false, MADE_UNWEIGHED, 37 * KG},
        {&pull_up, 625, 1, false, MADE_EXACTLY, 625},         /* 5 and 1.25 from a belt */
        {&pull_up, 16 * KG, 1, false, MADE_EXACTLY, 16 * KG}, /* a dumbbell */
        {&unsaid_squat, 60 * KG, 1, false, MADE_EXACTLY, 60 * KG},
        {&unsaid_throw, 5 * KG, 1, false, MADE_EXACTLY, 5 * KG},
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
    assert_int_equal(load_make(&empty, &squat, 60 * KG, 1, false, &load), MADE_FROM_NOTHING);
    assert_int_equal(load_make(&empty, &landmine_press, 60 * KG, 1, false, &load),
                     MADE_FROM_NOTHING);
    assert_int_equal(load_make(&empty, &bench, 16 * KG, 1, false, &load), MADE_FROM_NOTHING);
    assert_int_equal(load_make(NULL, &squat, 60 * KG, 1, false, &load), MADE_FROM_NOTHING);
    assert_int_equal(load.made, 60 * KG);
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
    } to_100[] = {{40 * KG, 5}, {60 * KG, 3}, {75 * KG, 2}, {85 * KG, 1}};
    struct arena *arena = arena_new();
    struct gym gym = slipway(arena, 0);
    struct ramp_step steps[RAMP_STEPS];

    (void)state;
    assert_int_equal(ramp_to(&gym, &squat, 100 * KG, steps), 4);
    for (int i = 0; i < 4; i++) {
        assert_int_equal(steps[i].load.made, to_100[i].made);
        assert_int_equal(steps[i].reps, to_100[i].reps);
    }

    /* 20 kg: 8 and 12 are below the lightest bar, 15 kg; 15 is again 15; 17 is nearest to 17.5. */
    assert_int_equal(ramp_to(&gym, &squat, 20 * KG, steps), 2);
    assert_int_equal(steps[0].load.made, 15 * KG);
    assert_int_equal(steps[0].reps, 5);
    assert_int_equal(steps[1].load.made, 1750);
    assert_int_equal(steps[1].reps, 1);

    assert_int_equal(ramp_to(&gym, &squat, 15 * KG, steps), 0); /* nothing is lighter */
    assert_int_equal(ramp_to(&gym, &squat, 0, steps), 0);
    assert_int_equal(ramp_to(&gym, &pull_up, 20 * KG, steps), 0);
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
    assert_int_equal(ramp_to(&gym, &squat, 100 * KG, steps), 2);
    assert_int_equal(steps[0].load.made, 30 * KG);
    assert_int_equal(steps[0].reps, 8);
    assert_int_equal(steps[1].load.made, 70 * KG);
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
        cmocka_unit_test(discs_in_pounds_add_up_in_pounds),
        cmocka_unit_test(hands_hold_what_the_rack_has),
        cmocka_unit_test(nothing_is_made_from_nothing),
        cmocka_unit_test(the_ramp_climbs_to_the_working_load),
        cmocka_unit_test(the_ramp_is_the_gyms_own),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
