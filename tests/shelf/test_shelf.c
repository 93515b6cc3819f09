/* test_shelf.c - a walk along the whole shelf: every entry is complete, every chain ends, every strike lands on the
 * limb that the trade says. Which limb throws a strike is common practice, no source. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "cli/project.h"
#include "measure/limbs.h"
#include "model/programme.h"
#include "source/screen.h"

enum { LEAST_EXERCISES = 450, LONGEST_CUE = 48, LONGEST_CHAIN = 12, HALF = 500 };

static struct project project;

static int open_shelf(void **state)
{
    static const char *const paths[] = {"share"};
    (void)state;
    struct options options = {.format = "text", .path_count = 1, .paths = (const char **)paths};
    if (!project_open(&project, &options, PLAN_WELCOME))
        return -1;
    diag_sort(project.diag);
    struct text out = {0};
    diag_print(project.diag, &(struct diag_style){0}, &out);
    print_message("%s", text_get(&out));
    text_free(&out);
    return 0;
}

static int close_shelf(void **state)
{
    (void)state;
    project_close(&project);
    return 0;
}

static const struct exercise *find(const char *name)
{
    for (size_t i = 0; i < project.programme->exercise_count; i++)
        if (strcmp(project.programme->exercises[i]->name.folded, name) == 0)
            return project.programme->exercises[i];
    fail_msg("the shelf has no `%s`", name);
    return NULL;
}

/* --- the whole shelf --- */

static void test_shelf_reads_without_a_finding(void **state)
{
    (void)state;
    assert_int_equal(project.diag->count, 0);
    assert_true(project.programme->exercise_count >= LEAST_EXERCISES);
}

static unsigned faults;

static void expect(bool holds, const struct exercise *exercise, const char *what)
{
    if (holds)
        return;
    print_error("%s: %s\n", exercise->name.shown, what);
    faults++;
}

/* Follows NEXT from EXERCISE; false when it does not end. */
static bool ends(const struct exercise *exercise, bool harder)
{
    for (int i = 0; i < LONGEST_CHAIN; i++) {
        exercise = harder ? exercise->harder : exercise->easier;
        if (!exercise)
            return true;
    }
    return false;
}

/* Every kit that is missing is replaced until nothing is needed. What a room always has counts as nothing. */
static bool comes_to_no_kit(const struct exercise *exercise, int depth)
{
    if (depth > LONGEST_CHAIN)
        return false;
    bool needs = false;
    for (size_t i = 0; i < exercise->need_count; i++)
        needs = needs || strcmp(exercise->needs[i].name.folded, "wall") != 0;
    if (!needs)
        return true;
    for (size_t i = 0; i < exercise->without_count; i++)
        if (comes_to_no_kit(exercise->without[i].instead, depth + 1))
            return true;
    return false;
}

static bool loads_anything(const struct exercise *exercise)
{
    for (int i = 0; i < REGION_COUNT; i++)
        if (exercise->loads[i])
            return true;
    return false;
}

static bool at_position(const struct exercise *exercise, const char *position)
{
    for (size_t i = 0; i < exercise->position_count; i++)
        if (strcmp(exercise->positions[i], position) == 0)
            return true;
    return false;
}

/* Loaded spine, neck and overhead work: where a set must be able to end. */
static bool can_hurt(const struct exercise *exercise)
{
    bool loaded_spine = exercise->loads[REGION_LOW_BACK] >= HALF && exercise->weigh != WEIGH_UNSAID;
    return loaded_spine || exercise->loads[REGION_NECK] >= HALF || at_position(exercise, "overhead");
}

static void test_every_entry_is_complete(void **state)
{
    (void)state;
    faults = 0;
    for (size_t i = 0; i < project.programme->exercise_count; i++) {
        const struct exercise *exercise = project.programme->exercises[i];
        bool loaded = exercise->kind == EXERCISE_STRENGTH || exercise->kind == EXERCISE_POWER ||
                      exercise->kind == EXERCISE_HOLD || exercise->kind == EXERCISE_PREHAB;
        expect(exercise->patterns != 0, exercise, "names no pattern");
        expect(exercise->cue_count >= 1, exercise, "has no cue");
        expect(exercise->fault_count >= 1 && exercise->faults[0].fix, exercise, "has no fault with its fix");
        expect(!loaded || loads_anything(exercise), exercise, "loads no region");
        expect(!can_hurt(exercise) || exercise->stop, exercise, "can hurt and has no stop rule");
        expect(ends(exercise, false), exercise, "`easier` never ends");
        expect(ends(exercise, true), exercise, "`harder` never ends");
        expect(comes_to_no_kit(exercise, 0), exercise, "`without` never comes to no kit");
        expect(exercise->base->base == exercise->base, exercise, "`percent of` has no base of its own");
        for (size_t c = 0; c < exercise->cue_count; c++)
            expect(text_width(exercise->cues[c], strlen(exercise->cues[c])) <= LONGEST_CUE, exercise,
                   "a cue is too long for its line on the card");
    }
    assert_int_equal(faults, 0);
}

static bool is_position(const char *word)
{
    static const char *const positions[] = {"overhead", "kneeling", "hanging", "on the hands"};
    for (size_t i = 0; i < sizeof positions / sizeof *positions; i++)
        if (strcmp(positions[i], word) == 0)
            return true;
    return false;
}

/* `avoid kneeling` is worth what the entries say of themselves. */
static void test_positions_are_told(void **state)
{
    static const struct {
        const char *in_name, *position;
    } told[] = {{"kneeling", "kneeling"}, {"overhead", "overhead"}, {"pull-up", "hanging"}, {"chin-up", "hanging"},
                {"hanging", "hanging"},   {"push-up", "on the hands"}, {"crawl", "on the hands"},
                {"all fours", "on the hands"}, {"inchworm", "on the hands"}, {"burpee", "on the hands"}};
    (void)state;
    faults = 0;
    for (size_t i = 0; i < project.programme->exercise_count; i++) {
        const struct exercise *exercise = project.programme->exercises[i];
        for (size_t k = 0; k < exercise->position_count; k++)
            expect(is_position(exercise->positions[k]), exercise, exercise->positions[k]);
        for (size_t k = 0; k < sizeof told / sizeof *told; k++)
            expect(!strstr(exercise->name.folded, told[k].in_name) || at_position(exercise, told[k].position),
                   exercise, told[k].position);
    }
    assert_int_equal(faults, 0);
}

/* `easier` of A being B, A must not be easier than B as well. */
static void test_easier_and_harder_do_not_circle(void **state)
{
    (void)state;
    faults = 0;
    for (size_t i = 0; i < project.programme->exercise_count; i++) {
        const struct exercise *start = project.programme->exercises[i], *at = start;
        for (int step = 0; step < LONGEST_CHAIN && at; step++) {
            at = at->easier;
            expect(at != start, start, "comes back to itself by going easier");
            expect(!at || at->easier != start || start->easier != at, start, "two are each the easier of the other");
        }
    }
    assert_int_equal(faults, 0);
}

/* Is the only difference a word of one letter, as in the Y and the T raise? Those are read as shapes. */
static bool differ_by_shape(const char *a, const char *b)
{
    size_t i = 0;
    while (a[i] && a[i] == b[i])
        i++;
    return i > 0 && a[i - 1] == ' ' && a[i] && b[i] && a[i + 1] == ' ' && strcmp(a + i + 1, b + i + 1) == 0;
}

static bool nearly_one(const char *a, const char *b)
{
    return text_distance(a, b, 1) <= 1 && !differ_by_shape(a, b);
}

/* Two names that a tired reader would take for one. */
static void test_no_two_names_are_nearly_one(void **state)
{
    (void)state;
    faults = 0;
    for (size_t i = 0; i < project.programme->exercise_count; i++)
        for (size_t k = i + 1; k < project.programme->exercise_count; k++)
            expect(!nearly_one(project.programme->exercises[i]->name.folded,
                               project.programme->exercises[k]->name.folded),
                   project.programme->exercises[i], project.programme->exercises[k]->name.shown);
    assert_int_equal(faults, 0);
}

/* What a coach of strikers looks for, family by family. */
static void test_families_are_there(void **state)
{
    static const char *const families[][6] = {
        {"split stance romanian deadlift", "front foot raised hinge", "rear foot raised hinge",
         "rear heel raised goblet squat", "bodyweight rear foot raised split squat", "split stance bridge"},
        {"standing body squeeze", "hard plank", "towel deadlift hold", "knee squeeze", "clinch squeeze on the bag",
         "press hold against the pins"},
        {"ring push-up", "ring support hold", "ring dip", "ring face pull", "ring leg curl", "ring fall-out"},
        {"side lying external rotation", "side lying internal rotation", "side lying arm raise", "side lying cross raise",
         "side lying ceiling reach", "side lying arm circle"},
        {"bent knee floor turn", "straight leg floor turn", "rolling with the arms", "rolling with the legs",
         "seated slow turn", "prone slow turn"},
        {"dumbbell squat jump", "barbell squat jump", "trap bar jump", "dumbbell split jump", "sandbag squat jump",
         "band resisted broad jump"},
        {"acceleration sprint", "stance start sprint", "falling start sprint", "flying sprint", "curved sprint",
         "build-up run"},
        {"jab with a hand weight", "cross with a hand weight", "jab cross with hand weights",
         "rear uppercut with a hand weight", "rear hand throwing motion with a hand weight",
         "two hand swing throw with a hand weight"},
    };
    (void)state;
    for (size_t i = 0; i < sizeof families / sizeof *families; i++)
        for (size_t k = 0; k < sizeof *families / sizeof **families; k++)
            assert_non_null(find(families[i][k]));
}

/* The words of an entry's teaching, which distinguish it from its neighbour. */
static bool teaches_the_same(const struct exercise *a, const struct exercise *b)
{
    if (strcmp(a->faults[0].fault, b->faults[0].fault) == 0 && strcmp(a->faults[0].fix, b->faults[0].fix) == 0)
        return true;
    size_t alike = 0;
    for (size_t i = 0; i < a->cue_count; i++)
        for (size_t k = 0; k < b->cue_count; k++)
            alike += strcmp(a->cues[i], b->cues[k]) == 0;
    return alike == a->cue_count;
}

static void test_no_entry_is_copied_from_its_neighbour(void **state)
{
    (void)state;
    faults = 0;
    for (size_t i = 0; i < project.programme->exercise_count; i++)
        for (size_t k = 0; k < project.programme->exercise_count; k++)
            expect(i == k || !teaches_the_same(project.programme->exercises[i], project.programme->exercises[k]),
                   project.programme->exercises[i], project.programme->exercises[k]->name.shown);
    assert_int_equal(faults, 0);
    const struct exercise *jab = find("jab");
    assert_true(teaches_the_same(jab, jab));
}

/* --- the limb of every strike --- */

struct strike {
    const char *name;
    bool leg;       /* a kick or a knee; else a hand or an elbow */
    bool rear;      /* the rear limb of the stance; else the lead one */
    bool rear_hip;  /* the hip that drives it */
};

static const struct strike strikes[] = {
    {"jab", false, false, false},           {"step jab", false, false, true},
    {"cross", false, true, true},           {"overhand", false, true, true},
    {"lead hook", false, false, false},     {"rear hook", false, true, true},
    {"lead uppercut", false, false, false}, {"rear uppercut", false, true, true},
    {"body jab", false, false, false},      {"body cross", false, true, true},
    {"lead body hook", false, false, false}, {"rear body hook", false, true, true},
    {"lead elbow", false, false, false},    {"rear elbow", false, true, true},
    {"lead upward elbow", false, false, false}, {"rear upward elbow", false, true, true},
    {"lead knee", true, false, false},      {"rear knee", true, true, true},
    {"lead low kick", true, false, false},  {"rear low kick", true, true, true},
    {"lead middle kick", true, false, false}, {"rear middle kick", true, true, true},
    {"lead high kick", true, false, false}, {"rear high kick", true, true, true},
    {"lead push kick", true, false, false}, {"rear push kick", true, true, true},
    {"side kick", true, false, false},
};

/* Orthodox leads with the left, southpaw with the right. */
static enum limb limb_of(enum stance stance, bool leg, bool rear)
{
    bool left = (stance == STANCE_ORTHODOX) != rear;
    return leg ? (left ? LIMB_LEFT_LEG : LIMB_RIGHT_LEG) : (left ? LIMB_LEFT_HAND : LIMB_RIGHT_HAND);
}

static enum limb hip_of(enum stance stance, bool rear)
{
    return (stance == STANCE_ORTHODOX) != rear ? LIMB_LEFT_HIP : LIMB_RIGHT_HIP;
}

static void check_strike(const struct strike *strike, enum stance stance)
{
    const struct exercise *exercise = find(strike->name);
    struct part part = {.amount = {10000, 10000}, .unit = UNIT_STRIKES,
                        .side = stance == STANCE_ORTHODOX ? DOSE_ORTHODOX : DOSE_SOUTHPAW};
    struct set_run run = {.count = 1, .parts = &part, .part_count = 1, .repeats = 1};
    struct item item = {.exercise = exercise, .ref = "A.1", .runs = &run, .run_count = 1, .sets = 1};
    struct ledger ledger = {.own = stance};
    ledger_add(&ledger, &item, &run, 1);
    enum limb limb = limb_of(stance, strike->leg, strike->rear), hip = hip_of(stance, strike->rear_hip);
    for (int i = 0; i < LIMB_COUNT; i++) {
        milli expected = i == (int)limb || i == (int)hip ? 10000 : 0;
        if (ledger_limb(&ledger, UNIT_STRIKES, (enum limb)i).high != expected)
            fail_msg("%s, %s: %s did %d strikes, not %d", strike->name,
                     stance == STANCE_ORTHODOX ? "orthodox" : "southpaw", limbs.names[i],
                     (int)(ledger_limb(&ledger, UNIT_STRIKES, (enum limb)i).high / 1000), (int)(expected / 1000));
    }
}

static void test_strikes_land_on_their_limb(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof strikes / sizeof *strikes; i++) {
        check_strike(&strikes[i], STANCE_ORTHODOX);
        check_strike(&strikes[i], STANCE_SOUTHPAW);
    }
}

/* --- the strikes of a combination --- */

struct combination {
    const char *name;
    int lead_hand, rear_hand, lead_leg, rear_leg; /* strikes in one repetition */
};

static const struct combination combinations[] = {
    {"double jab", 2, 0, 0, 0},
    {"jab cross", 1, 1, 0, 0},
    {"cross hook", 1, 1, 0, 0},
    {"jab cross hook", 2, 1, 0, 0},
    {"jab cross hook on the bag", 2, 1, 0, 0},
    {"jab cross hook on pads", 2, 1, 0, 0},
    {"jab cross low kick", 1, 1, 0, 1},
    {"jab cross low kick on pads", 1, 1, 0, 1},
    {"jab cross hook low kick", 2, 1, 0, 1},
    {"jab rear middle kick", 1, 0, 0, 1},
    {"hook rear low kick", 1, 0, 0, 1},
    {"jab cross knee", 1, 1, 0, 1},
    {"alternate knees", 0, 0, 1, 1},
};

static void check_combination(const struct combination *combination, enum stance stance)
{
    const bool orthodox = stance == STANCE_ORTHODOX;
    struct part part = {.amount = {10000, 10000}, .unit = UNIT_STRIKES,
                        .side = orthodox ? DOSE_ORTHODOX : DOSE_SOUTHPAW};
    struct set_run run = {.count = 1, .parts = &part, .part_count = 1, .repeats = 1};
    struct item item = {.exercise = find(combination->name), .ref = "A.1", .runs = &run, .run_count = 1, .sets = 1};
    struct ledger ledger = {.own = stance};
    ledger_add(&ledger, &item, &run, 1);
    int wanted[LIMB_COUNT] = {0};
    wanted[orthodox ? LIMB_LEFT_HAND : LIMB_RIGHT_HAND] = combination->lead_hand;
    wanted[orthodox ? LIMB_RIGHT_HAND : LIMB_LEFT_HAND] = combination->rear_hand;
    wanted[orthodox ? LIMB_LEFT_LEG : LIMB_RIGHT_LEG] = combination->lead_leg;
    wanted[orthodox ? LIMB_RIGHT_LEG : LIMB_LEFT_LEG] = combination->rear_leg;
    for (int i = 0; i < LIMB_LEFT_HIP; i++)
        if (ledger_limb(&ledger, UNIT_STRIKES, (enum limb)i).high != 10000 * wanted[i])
            fail_msg("%s, %s: %s did %d strikes in ten repetitions, not %d", combination->name,
                     orthodox ? "orthodox" : "southpaw", limbs.names[i],
                     (int)(ledger_limb(&ledger, UNIT_STRIKES, (enum limb)i).high / 1000), 10 * wanted[i]);
    assert_int_equal(ledger.done[UNIT_STRIKES][stance].high, 10000); /* a repetition is one, whatever is in it */
}

static void test_combinations_count_every_strike(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof combinations / sizeof *combinations; i++) {
        check_combination(&combinations[i], STANCE_ORTHODOX);
        check_combination(&combinations[i], STANCE_SOUTHPAW);
    }
}

/* Every strike, also those not in the table and those on the bag and on pads, knows its stance and its limb. A name
 * that says lead or rear keeps its word. */
static void test_every_strike_has_a_limb(void **state)
{
    const unsigned lead = WORKER_LEAD_HAND | WORKER_LEAD_LEG, rear = WORKER_REAR_HAND | WORKER_REAR_LEG;
    (void)state;
    faults = 0;
    size_t count = 0;
    for (size_t i = 0; i < project.programme->exercise_count; i++) {
        const struct exercise *exercise = project.programme->exercises[i];
        if (exercise->pattern != PATTERN_STRIKE || exercise->counts != UNIT_STRIKES)
            continue;
        count++;
        expect(exercise->side == SIDE_PER_STANCE, exercise, "is a strike and belongs to no stance");
        expect(exercise->workers & (lead | rear), exercise, "is a strike and names no limb");
        if (strncmp(exercise->name.folded, "lead ", 5) == 0)
            expect(!(exercise->workers & rear), exercise, "says lead and works the rear limb");
        if (strncmp(exercise->name.folded, "rear ", 5) == 0)
            expect(!(exercise->workers & lead), exercise, "says rear and works the lead limb");
    }
    assert_true(count >= 60);
    assert_int_equal(faults, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_shelf_reads_without_a_finding),
        cmocka_unit_test(test_every_entry_is_complete),
        cmocka_unit_test(test_positions_are_told),
        cmocka_unit_test(test_easier_and_harder_do_not_circle),
        cmocka_unit_test(test_no_two_names_are_nearly_one),
        cmocka_unit_test(test_families_are_there),
        cmocka_unit_test(test_no_entry_is_copied_from_its_neighbour),
        cmocka_unit_test(test_strikes_land_on_their_limb),
        cmocka_unit_test(test_combinations_count_every_strike),
        cmocka_unit_test(test_every_strike_has_a_limb),
    };
    return cmocka_run_group_tests(tests, open_shelf, close_shelf);
}
