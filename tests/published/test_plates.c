/* Loads built from discs: the federation's own example, and every load of small kits by trial. */
#include <limits.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "figures/plates.h"
#include "kg.h"

static struct plate_rack rack_of(const struct plate_kit *kit, struct plate_sum **room)
{
    struct plate_rack rack;
    size_t n = plate_rack_room(kit);

    assert_true(n > 0);
    *room = malloc(n * sizeof **room);
    assert_non_null(*room);
    memset(*room, 0xff, n * sizeof **room); /* what a room held before has no part in its rack */
    assert_int_equal(plate_rack_build(&rack, kit, *room, n), PLATE_OK);
    assert_in_range(rack.n, 1, n / 2);
    return rack;
}

/* The load found, its mass and its discs on a sleeve up to the 0 that ends `want`. */
static void assert_load(const struct plate_rack *rack, int64_t target,
                        enum plate_rounding rounding, int64_t mass, const int64_t *want)
{
    struct plate_load load;
    int64_t discs[PLATE_DISCS_MAX];

    assert_int_equal(plate_rack_find(rack, target, rounding, &load), PLATE_FITS);
    assert_int_equal(load.mass, mass);
    int n = plate_load_discs(rack, &load, discs);
    assert_int_equal(n, load.sum->discs);
    for (int i = 0; i < n; i++)
        assert_int_equal(discs[i], want[i]);
    assert_int_equal(want[n], 0);
}

static const struct plate_stock gym[] = {
    {2500, 4}, {2000, 8}, {1500, 4}, {1000, 8}, {500, 8}, {250, 8}, {125, 4},
};

static struct plate_kit gym_kit(void)
{
    return (struct plate_kit){
        .bar = 2000, .sleeves = 2, .discs_most = 16, .stock = gym, .n_stock = 7};
}

/*
 * Source: International Weightlifting Federation, technical and competition rules: a bar of 20 kg,
 * collars of 2.5 kg each, discs of 25 to 0.5 kg, the heaviest innermost.
 */
static void hundred_kilograms_by_the_rules(void **state)
{
    (void)state;
    struct plate_sum *room;
    struct plate_kit kit = gym_kit();
    struct plate_rack rack = rack_of(&kit, &room);

    assert_load(&rack, 10000, PLATE_NEAREST, 10000, (int64_t[]){2500, 1500, 0});
    assert_load(&rack, 2000, PLATE_NEAREST, 2000, (int64_t[]){0});
    free(room);

    kit.collars = 500;
    rack = rack_of(&kit, &room);
    assert_load(&rack, 10000, PLATE_NEAREST, 10000, (int64_t[]){2500, 1000, 250, 0});
    free(room);
}

static void nearest_is_the_lighter_of_two_as_near(void **state)
{
    (void)state;
    struct plate_sum *room;
    struct plate_kit kit = gym_kit();
    struct plate_rack rack = rack_of(&kit, &room);

    /* Loads of this kit lie 2.5 kg apart: 61.25 is half way between 60 and 62.5. */
    assert_load(&rack, 6125, PLATE_NEAREST, 6000, (int64_t[]){2000, 0});
    assert_load(&rack, 6126, PLATE_NEAREST, 6250, (int64_t[]){2000, 125, 0});
    assert_load(&rack, 6249, PLATE_DOWN, 6000, (int64_t[]){2000, 0});
    assert_load(&rack, 6250, PLATE_DOWN, 6250, (int64_t[]){2000, 125, 0});
    free(room);
}

static void below_the_bar_and_above_the_stock(void **state)
{
    (void)state;
    struct plate_sum *room;
    struct plate_load load;
    struct plate_kit kit = gym_kit();
    struct plate_rack rack = rack_of(&kit, &room);
    /* pairs: 2 x 25, 4 x 20, 2 x 15, 4 x 10 make 200 a side with 12 discs, then four fives */
    const int64_t most = 2000 + 2 * (5000 + 8000 + 3000 + 4000 + 2000);

    for (enum plate_rounding rounding = PLATE_NEAREST; rounding <= PLATE_DOWN; rounding++) {
        assert_int_equal(plate_rack_find(&rack, 1999, rounding, &load), PLATE_BELOW);
        assert_int_equal(load.mass, 2000);
        assert_int_equal(plate_rack_find(&rack, INT64_MIN, rounding, &load), PLATE_BELOW);
        assert_int_equal(plate_rack_find(&rack, most, rounding, &load), PLATE_FITS);
        assert_int_equal(load.mass, most);
        assert_int_equal(plate_rack_find(&rack, most + 1, rounding, &load), PLATE_ABOVE);
        assert_int_equal(load.mass, most);
        assert_int_equal(load.sum->discs, 16);
        assert_int_equal(plate_rack_find(&rack, INT64_MAX, rounding, &load), PLATE_ABOVE);
    }
    free(room);
}

/* 60 a side from one 50 and three 20: with the largest first, 50 leaves 10 that nothing makes. */
static void largest_first_would_miss_it(void **state)
{
    (void)state;
    static const struct plate_stock stock[] = {{5000, 2}, {2000, 6}};
    const struct plate_kit kit = {
        .bar = 2000, .sleeves = 2, .discs_most = 16, .stock = stock, .n_stock = 2};
    struct plate_sum *room;
    struct plate_rack rack = rack_of(&kit, &room);

    assert_load(&rack, 14000, PLATE_NEAREST, 14000, (int64_t[]){2000, 2000, 2000, 0});
    free(room);
}

static void fewest_discs_then_the_heavier(void **state)
{
    (void)state;
    static const struct plate_stock stock[] = {
        {2500, 2}, {2000, 4}, {1500, 2}, {1000, 4}, {500, 4}};
    const struct plate_kit kit = {
        .bar = 2000, .sleeves = 2, .discs_most = 16, .stock = stock, .n_stock = 5};
    struct plate_sum *room;
    struct plate_rack rack = rack_of(&kit, &room);

    /* 40 a side: 25 + 15 before 20 + 20; 45: 25 + 20; 30: 25 + 5 before 20 + 10 */
    assert_load(&rack, 10000, PLATE_NEAREST, 10000, (int64_t[]){2500, 1500, 0});
    assert_load(&rack, 11000, PLATE_NEAREST, 11000, (int64_t[]){2500, 2000, 0});
    assert_load(&rack, 8000, PLATE_NEAREST, 8000, (int64_t[]){2500, 500, 0});
    free(room);
}

static void odd_disc_has_no_twin(void **state)
{
    (void)state;
    static const struct plate_stock stock[] = {{1000, 3}, {500, 1}, {500, 1}, {250, 1}};
    struct plate_kit kit = {
        .bar = 2000, .sleeves = 2, .discs_most = 16, .stock = stock, .n_stock = 4};
    struct plate_sum *room;
    struct plate_rack rack = rack_of(&kit, &room);

    /* One pair of 10, and a pair of 5 that is listed on two lines; never the single 2.5. */
    assert_int_equal(rack.n, 4);
    assert_load(&rack, 5000, PLATE_NEAREST, 5000, (int64_t[]){1000, 500, 0});
    free(room);

    /* On one sleeve each disc counts for itself, and plates alone have no bar. */
    kit.bar = 0;
    kit.sleeves = 1;
    rack = rack_of(&kit, &room);
    assert_load(&rack, 4250, PLATE_NEAREST, 4250, (int64_t[]){1000, 1000, 1000, 500, 500, 250, 0});
    assert_load(&rack, 0, PLATE_NEAREST, 0, (int64_t[]){0});
    free(room);
}

/* Discs marked in pounds: every load that they make is had, and to the last digit. */
static void pounds_add_up(void **state)
{
    (void)state;
    static const struct plate_stock stock[] = {
        {LB(45), 8}, {LB(35), 2}, {LB(25), 2}, {LB(10), 4}, {LB(5), 2}, {LB(2.5), 4}};
    struct plate_kit kit = {
        .bar = LB(45), .sleeves = 2, .discs_most = 16, .stock = stock, .n_stock = 6};
    struct plate_sum *room;

    for (int bar = 45; bar >= 35; bar -= 10) {
        kit.bar = LB(bar);
        struct plate_rack rack = rack_of(&kit, &room);
        for (int pounds = bar; pounds <= bar + 540; pounds += 5) {
            struct plate_load nearest, down;
            assert_int_equal(plate_rack_find(&rack, LB(pounds), PLATE_NEAREST, &nearest), PLATE_FITS);
            assert_int_equal(plate_rack_find(&rack, LB(pounds), PLATE_DOWN, &down), PLATE_FITS);
            assert_ptr_equal(nearest.sum, down.sum);
            assert_int_equal(nearest.mass, LB(pounds));
        }
        free(room);
    }
    kit.bar = LB(45);
    struct plate_rack rack = rack_of(&kit, &room);
    /* 55 lb is a five a side, not two of 2.5. */
    assert_load(&rack, LB(55), PLATE_NEAREST, LB(55), (int64_t[]){LB(5), 0});
    /* Half way between 110 and 115 lb: the lighter. */
    assert_load(&rack, LB(112.5), PLATE_NEAREST, LB(110), (int64_t[]){LB(25), LB(5), LB(2.5), 0});
    assert_load(&rack, LB(112.5) + 1, PLATE_NEAREST, LB(115), (int64_t[]){LB(35), 0});
    free(room);
}

/* A bar in kilograms with discs in both units: each keeps its own mass. */
static void kilograms_and_pounds_together(void **state)
{
    (void)state;
    const struct plate_stock stock[] = {{LB(45), 2}, {KG(1.5), 2}};
    const struct plate_kit kit = {
        .bar = KG(20), .sleeves = 2, .discs_most = 16, .stock = stock, .n_stock = 2};
    struct plate_sum *room;
    struct plate_rack rack = rack_of(&kit, &room);

    assert_load(&rack, KG(23), PLATE_NEAREST, KG(23), (int64_t[]){KG(1.5), 0});
    assert_load(&rack, KG(63.8), PLATE_NEAREST, KG(23) + LB(90), (int64_t[]){LB(45), KG(1.5), 0});
    free(room);
}

/* ---- against trial of every choice of discs ---- */

static uint32_t next_number(uint32_t *seed, uint32_t below)
{
    *seed = *seed * 1664525u + 1013904223u; /* so that a failure comes again */
    return (*seed >> 8) % below;
}

enum { TRIAL_KINDS = 4, TRIAL_SIDE_MOST = 400 };

/* The fewest discs for each side, and how they are spread, found by going through all choices. */
struct trial {
    int discs[TRIAL_SIDE_MOST + 1]; /* -1 where the sum cannot be made */
    int count[TRIAL_SIDE_MOST + 1][TRIAL_KINDS];
};

static void trial_note(struct trial *trial, int sum, int discs, const int *count)
{
    if (trial->discs[sum] >= 0 && trial->discs[sum] < discs)
        return;
    if (trial->discs[sum] == discs) {
        int i = 0;
        while (i < TRIAL_KINDS - 1 && trial->count[sum][i] == count[i])
            i++;
        if (trial->count[sum][i] >= count[i])
            return;
    }
    trial->discs[sum] = discs;
    for (int i = 0; i < TRIAL_KINDS; i++)
        trial->count[sum][i] = count[i];
}

static void trial_all(struct trial *trial, const int *mass, const int *most, int cap)
{
    for (int i = 0; i <= TRIAL_SIDE_MOST; i++)
        trial->discs[i] = -1;
    for (int a = 0; a <= most[0]; a++) {
        for (int b = 0; b <= most[1]; b++) {
            for (int c = 0; c <= most[2]; c++) {
                for (int d = 0; d <= most[3]; d++) {
                    int sum = a * mass[0] + b * mass[1] + c * mass[2] + d * mass[3];
                    if (a + b + c + d <= cap)
                        trial_note(trial, sum, a + b + c + d, (const int[]){a, b, c, d});
                }
            }
        }
    }
}

/* The total that a target should give: the lightest where all are above it. */
static int64_t trial_find(const struct trial *trial, int64_t bar, int sleeves, int64_t target,
                          enum plate_rounding rounding)
{
    int64_t best = -1;

    for (int sum = 0; sum <= TRIAL_SIDE_MOST; sum++) {
        int64_t total = bar + (int64_t)sleeves * sum;
        if (trial->discs[sum] < 0 || (rounding == PLATE_DOWN && total > target && best >= 0))
            continue;
        if (best < 0 || llabs(target - total) < llabs(target - best))
            best = total;
    }
    return best;
}

static void assert_rack_is_trial(const struct plate_rack *rack, const struct trial *trial,
                                 int sleeves, const int *mass)
{
    size_t at = 0;

    for (int sum = 0; sum <= TRIAL_SIDE_MOST; sum++) {
        if (trial->discs[sum] < 0)
            continue;
        assert_true(at < rack->n);
        assert_int_equal(rack->sums[at].mass, (int64_t)sleeves * sum);
        assert_int_equal(rack->sums[at].discs, trial->discs[sum]);
        for (int i = 0; i < TRIAL_KINDS; i++) {
            assert_int_equal(rack->kind[i], mass[i]);
            assert_int_equal(rack->sums[at].count[i], trial->count[sum][i]);
        }
        at++;
    }
    assert_int_equal(at, rack->n);
}

static void every_load_of_small_kits(void **state)
{
    (void)state;
    static struct trial trial;
    uint32_t seed = 20270104;

    for (int round = 0; round < 300; round++) {
        int mass[TRIAL_KINDS], most[TRIAL_KINDS], at_least = 1;
        int sleeves = 1 + (int)next_number(&seed, 2), cap = (int)next_number(&seed, 13);
        struct plate_stock stock[TRIAL_KINDS];
        for (int i = TRIAL_KINDS - 1; i >= 0; i--) { /* heaviest first, all different */
            mass[i] = at_least + (int)next_number(&seed, 6);
            at_least = mass[i] + 1;
            int count = (int)next_number(&seed, 9);
            most[i] = count / sleeves;
            stock[i] = (struct plate_stock){mass[i], count};
        }
        const struct plate_kit kit = {.bar = 7, .collars = 2, .sleeves = sleeves,
                                      .discs_most = cap, .stock = stock, .n_stock = TRIAL_KINDS};
        struct plate_sum *room;
        struct plate_rack rack = rack_of(&kit, &room);
        trial_all(&trial, mass, most, cap);
        assert_rack_is_trial(&rack, &trial, sleeves, mass);
        for (int64_t target = 0; target < 400; target++) {
            for (int down = 0; down < 2; down++) {
                enum plate_rounding rounding = down ? PLATE_DOWN : PLATE_NEAREST;
                struct plate_load load;
                plate_rack_find(&rack, target, rounding, &load);
                assert_int_equal(load.mass, trial_find(&trial, 9, sleeves, target, rounding));
            }
        }
        free(room);
    }
}

/* More discs than fit are as good as endless, listed once or twice. */
static void endless_discs_fill_the_sleeves(void **state)
{
    (void)state;
    struct plate_stock many[64];
    for (size_t i = 0; i < 64; i++)
        many[i] = (struct plate_stock){100, INT_MAX}; /* added up they would be more than a number holds */
    const struct plate_stock once[] = {{100, INT_MAX}}, twice[] = {{100, INT_MAX}, {100, INT_MAX}}, parts[] = {{100, 3}, {100, 2}};
    const struct plate_stock *const stocks[] = {once, twice, parts, many};
    static const size_t kinds[] = {1, 2, 2, 64}, loads[] = {PLATE_DISCS_MAX + 1, PLATE_DISCS_MAX + 1, 3, PLATE_DISCS_MAX + 1};
    for (size_t i = 0; i < 4; i++) {
        const struct plate_kit kit = {
            .bar = 2000, .sleeves = 2, .discs_most = PLATE_DISCS_MAX, .stock = stocks[i], .n_stock = kinds[i]};
        struct plate_sum *room;
        struct plate_rack rack = rack_of(&kit, &room);
        assert_int_equal(rack.n, loads[i]);
        assert_int_equal(rack.n_kinds, 1);
        assert_int_equal(rack.sums[rack.n - 1].mass, 200 * (int64_t)(loads[i] - 1));
        free(room);
    }
}

/* Of one kind a sleeve takes its share of what there is, up to as many as go on it. */
static void a_sleeve_takes_its_share(void **state)
{
    (void)state;
    for (int sleeves = 1; sleeves <= 2; sleeves++)
        for (int most = 0; most <= PLATE_DISCS_MAX; most++)
            for (int count = 0; count <= 3 * PLATE_DISCS_MAX; count++) {
                const struct plate_stock stock = {100, count};
                const struct plate_kit kit = {.sleeves = sleeves, .discs_most = most, .stock = &stock, .n_stock = 1};
                int taken = count / sleeves < most ? count / sleeves : most;
                struct plate_sum *room;
                struct plate_rack rack = rack_of(&kit, &room);
                assert_int_equal(rack.n, taken + 1);
                assert_int_equal(rack.sums[taken].mass, 100 * taken * sleeves);
                assert_int_equal(rack.sums[taken].discs, taken);
                free(room);
            }
}

/* Twice as many sums as there can be, by the ways to choose or by the steps of what all weigh: no more memory than that. */
static void room_for_the_sums(void **state)
{
    (void)state;
    static const struct {
        struct plate_stock stock[3];
        size_t kinds;
        int discs_most;
        size_t room;
    } rows[] = {
        {{{100, 4}}, 1, 16, 6},                       /* 0, 1 or 2 */
        {{{100, 4}, {50, 4}}, 2, 16, 14},             /* 0 to 300 by 50; there are 9 ways */
        {{{100, 4}, {50, 4}}, 2, 3, 12},              /* three discs come to 250 */
        {{{100, 2}, {1, 2}}, 2, 16, 8},               /* 4 ways, far apart */
        {{{50, 1}, {100, 4}, {200, 4}}, 3, 16, 14},   /* one disc alone goes on no sleeve, and makes no steps */
        {{{2, 8}, {1, 8}}, 2, 16, 26},                /* 0 to 12, one by one */
        {{{100, 32}, {1, 32}}, 2, 1, 8},              /* one disc on a sleeve: of each kind none or one */
        {{{100, 0}}, 1, 16, 2},                       /* the bar alone */
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const struct plate_kit kit = {
            .bar = 2000, .sleeves = 2, .discs_most = rows[i].discs_most, .stock = rows[i].stock, .n_stock = rows[i].kinds};
        assert_int_equal(plate_rack_room(&kit), rows[i].room);
    }
}

/* One below the most sums there may be, by the steps of what all weigh: sixteen discs that come to 65,534, all different. */
static void the_most_room_has_a_border(void **state)
{
    (void)state;
    struct plate_stock stock[PLATE_KINDS_MAX];
    const struct plate_kit kit = {.sleeves = 1, .discs_most = PLATE_DISCS_MAX, .stock = stock, .n_stock = PLATE_KINDS_MAX};
    int rest = PLATE_SUMS_MAX - 2;
    for (int i = 1; i < PLATE_KINDS_MAX; rest -= i++)
        stock[i] = (struct plate_stock){i, 1};
    for (int more = 0; more < 3; more++) {
        stock[0] = (struct plate_stock){rest + more, 1};
        assert_int_equal(plate_rack_room(&kit), 2 * (PLATE_SUMS_MAX - (more == 0)));
    }
}

static void assert_rack_is_empty(const struct plate_rack *rack)
{
    assert_int_equal(rack->n, 0);
    assert_int_equal(rack->n_kinds, 0);
    assert_int_equal(rack->base, 0);
    assert_null(rack->sums);
}

static void kits_out_of_range_are_refused(void **state)
{
    (void)state;
    struct plate_rack rack;
    struct plate_sum room[16];
    static const struct plate_stock wrong[] = {{0, 2}, {-1, 2}, {100, -1}, {PLATE_MASS_MAX + 1, 2}};
    struct plate_kit kits[] = {gym_kit(), gym_kit(), gym_kit(), gym_kit(), gym_kit(), gym_kit()};

    kits[0].bar = -1;
    kits[1].collars = INT64_MAX;
    kits[2].sleeves = 3;
    kits[3].sleeves = 0;
    kits[4].discs_most = 17;
    kits[5].discs_most = -1;
    for (int i = 0; i < 6; i++) {
        memset(&rack, 0xff, sizeof rack);
        assert_int_equal(plate_rack_room(&kits[i]), 0);
        assert_int_equal(plate_rack_build(&rack, &kits[i], room, 16), PLATE_BAD_KIT);
        assert_rack_is_empty(&rack);
    }
    for (int i = 0; i < 4; i++) {
        struct plate_kit kit = gym_kit();
        kit.stock = &wrong[i];
        kit.n_stock = 1;
        assert_int_equal(plate_rack_build(&rack, &kit, room, 16), PLATE_BAD_KIT);
    }
}

static void too_many_is_said_and_not_cut(void **state)
{
    (void)state;
    struct plate_rack rack;
    struct plate_stock stock[PLATE_KINDS_MAX + 1];
    struct plate_kit kit = gym_kit();
    size_t n = plate_rack_room(&kit);
    struct plate_sum *room = calloc((size_t)2 * PLATE_SUMS_MAX, sizeof *room);

    assert_non_null(room);
    memset(&rack, 0xff, sizeof rack);
    assert_int_equal(plate_rack_build(&rack, &kit, room, 16), PLATE_TOO_MANY);
    assert_rack_is_empty(&rack);
    assert_int_equal(plate_rack_build(&rack, &kit, room, 0), PLATE_TOO_MANY);
    assert_int_equal(plate_rack_build(&rack, &kit, room, n), PLATE_OK);

    /* Sixteen kinds, of which hardly two choices weigh the same. */
    for (int i = 0; i <= PLATE_KINDS_MAX; i++)
        stock[i] = (struct plate_stock){PLATE_MASS_MAX / 2 + ((int64_t)1 << i), 32};
    kit.stock = stock;
    kit.n_stock = PLATE_KINDS_MAX;
    assert_int_equal(plate_rack_room(&kit), 2 * PLATE_SUMS_MAX);
    assert_int_equal(plate_rack_build(&rack, &kit, room, (size_t)2 * PLATE_SUMS_MAX),
                     PLATE_TOO_MANY);
    kit.n_stock = PLATE_KINDS_MAX + 1;
    assert_int_equal(plate_rack_room(&kit), 0);
    assert_int_equal(plate_rack_build(&rack, &kit, room, (size_t)2 * PLATE_SUMS_MAX),
                     PLATE_TOO_MANY);
    free(room);
}

/* One kind more than there is a place for, the lightest of them, whatever the others' number: 5 weighs as much as they count. */
static void a_kind_too_many_is_none_of_the_others(void **state)
{
    (void)state;
    struct plate_stock stock[PLATE_KINDS_MAX + 1];
    struct plate_kit kit = gym_kit();
    kit.stock = stock;
    for (int i = 0; i < PLATE_KINDS_MAX; i++)
        stock[i] = (struct plate_stock){1000 - i, i == 0 ? 5 : 0};
    stock[PLATE_KINDS_MAX] = (struct plate_stock){5, 0};
    kit.n_stock = PLATE_KINDS_MAX;
    assert_int_equal(plate_rack_room(&kit), 6);
    kit.n_stock++;
    assert_int_equal(plate_rack_room(&kit), 0);
}

/* Even the bar alone wants a place to work in beside its own. */
static void one_place_is_no_room(void **state)
{
    (void)state;
    struct plate_kit kit = gym_kit();
    struct plate_sum room[2];
    kit.n_stock = 0;
    for (size_t places = 0; places <= 2; places++) {
        struct plate_rack rack;
        assert_int_equal(plate_rack_build(&rack, &kit, room, places), places < 2 ? PLATE_TOO_MANY : PLATE_OK);
        assert_int_equal(rack.n, places / 2);
    }
}

/* A room that holds what looks like the load, without its disc. */
static void what_a_room_held_is_no_load(void **state)
{
    (void)state;
    static const struct plate_stock stock = {100, 2};
    const struct plate_kit kit = {.sleeves = 1, .discs_most = 2, .stock = &stock, .n_stock = 1};
    struct plate_sum room[6];
    struct plate_rack rack;
    for (size_t i = 0; i < 6; i++)
        room[i] = (struct plate_sum){.mass = 100};
    assert_int_equal(plate_rack_build(&rack, &kit, room, 6), PLATE_OK);
    assert_int_equal(rack.n, 3);
    for (int i = 0; i < 3; i++) {
        assert_int_equal(rack.sums[i].mass, 100 * i);
        assert_int_equal(rack.sums[i].discs, i);
        assert_int_equal(rack.sums[i].count[0], i);
    }
}

static void empty_bar_is_a_load(void **state)
{
    (void)state;
    struct plate_kit kit = gym_kit();
    struct plate_sum *room;

    kit.n_stock = 0;
    kit.bar = PLATE_MASS_MAX;
    struct plate_rack rack = rack_of(&kit, &room);
    assert_int_equal(rack.n, 1);
    assert_load(&rack, PLATE_MASS_MAX, PLATE_DOWN, PLATE_MASS_MAX, (int64_t[]){0});
    free(room);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(hundred_kilograms_by_the_rules),
        cmocka_unit_test(nearest_is_the_lighter_of_two_as_near),
        cmocka_unit_test(below_the_bar_and_above_the_stock),
        cmocka_unit_test(largest_first_would_miss_it),
        cmocka_unit_test(fewest_discs_then_the_heavier),
        cmocka_unit_test(odd_disc_has_no_twin),
        cmocka_unit_test(pounds_add_up),
        cmocka_unit_test(kilograms_and_pounds_together),
        cmocka_unit_test(every_load_of_small_kits),
        cmocka_unit_test(endless_discs_fill_the_sleeves),
        cmocka_unit_test(a_sleeve_takes_its_share),
        cmocka_unit_test(room_for_the_sums),
        cmocka_unit_test(the_most_room_has_a_border),
        cmocka_unit_test(kits_out_of_range_are_refused),
        cmocka_unit_test(too_many_is_said_and_not_cut),
        cmocka_unit_test(a_kind_too_many_is_none_of_the_others),
        cmocka_unit_test(one_place_is_no_room),
        cmocka_unit_test(what_a_room_held_is_no_load),
        cmocka_unit_test(empty_bar_is_a_load),
    };
    return cmocka_run_group_tests_name("plates", tests, NULL, NULL);
}
