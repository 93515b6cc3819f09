/* test_substitutes.c - what the shelf puts instead of an exercise when kit is missing, and the ladder of easier and
 * harder forms: whoever gets a substitute gets nothing harder than what the coach chose, and no other kind of
 * stress. Which stress is which is common practice, no source. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include <string.h>

#include "cli/project.h"
#include "model/programme.h"

enum { LEAST_SUBSTITUTES = 150, LONGEST_CHAIN = 12, HALF = 500, SOME = 250 };

static struct project project;
static unsigned faults;

static int open_shelf(void **state)
{
    static const char *const paths[] = {"share"};
    (void)state;
    struct options options = {.format = "text", .path_count = 1, .paths = (const char **)paths};
    return project_open(&project, &options, PLAN_WELCOME) ? 0 : -1;
}

static int close_shelf(void **state)
{
    (void)state;
    project_close(&project);
    return 0;
}

static void refuse(const struct exercise *exercise, const char *what, const struct exercise *other)
{
    print_error("%s %s %s\n", exercise->name.shown, what, other->name.shown);
    faults++;
}

/* --- the ladder --- */

/* Does EXERCISE lie above START: by the `harder` of what is below it, or by its own `easier`? */
static bool is_above(const struct exercise *exercise, const struct exercise *start, int depth)
{
    if (depth > LONGEST_CHAIN)
        return false;
    if (start->harder && (start->harder == exercise || is_above(exercise, start->harder, depth + 1)))
        return true;
    const struct exercise *down = exercise->easier;
    for (int i = 0; down && i < LONGEST_CHAIN; i++, down = down->easier)
        if (down == start)
            return true;
    return false;
}

/* --- the kind of stress --- */

enum stress { MOVED, HELD, FAST, LANDED, STRUCK };

static bool has_pattern(const struct exercise *exercise, enum pattern pattern)
{
    return exercise->patterns >> pattern & 1u;
}

static enum stress stress_of(const struct exercise *exercise)
{
    if (exercise->pattern == PATTERN_STRIKE)
        return STRUCK;
    if (has_pattern(exercise, PATTERN_JUMP) || exercise->counts == UNIT_CONTACTS)
        return LANDED;
    if (exercise->ballistic)
        return FAST;
    return exercise->kind == EXERCISE_HOLD ? HELD : MOVED;
}

static bool at_position(const struct exercise *exercise, const char *position)
{
    for (size_t i = 0; i < exercise->position_count; i++)
        if (strcmp(exercise->positions[i], position) == 0)
            return true;
    return false;
}

static bool is_new_at(const struct exercise *exercise, const struct exercise *other, const char *position)
{
    return at_position(other, position) && !at_position(exercise, position);
}

static bool loads_anew(const struct exercise *exercise, const struct exercise *other, enum region region)
{
    return other->loads[region] >= HALF && exercise->loads[region] < SOME;
}

static const unsigned LEAD = WORKER_LEAD_HAND | WORKER_LEAD_LEG, REAR = WORKER_REAR_HAND | WORKER_REAR_LEG;

/* A limb in front never becomes one behind, or the ledger would count the work for the wrong side. */
static bool changes_limb(const struct exercise *exercise, const struct exercise *other)
{
    if (!(exercise->workers & (LEAD | REAR)))
        return false;
    return (!(exercise->workers & LEAD) && other->workers & LEAD) ||
           (!(exercise->workers & REAR) && other->workers & REAR);
}

static void check_substitute(const struct exercise *exercise, const struct exercise *other)
{
    static const enum region tender[] = {REGION_NECK, REGION_SHOULDER, REGION_LOW_BACK, REGION_GROIN, REGION_CALF};
    if (is_above(other, exercise, 0))
        refuse(exercise, "becomes what is harder:", other);
    if (other->level > exercise->level)
        refuse(exercise, "becomes what is meant for later:", other);
    if (stress_of(other) != stress_of(exercise))
        refuse(exercise, "becomes another kind of stress:", other);
    if (other->counts != exercise->counts || other->side != exercise->side || other->ways != exercise->ways)
        refuse(exercise, "has a dose that cannot be read for", other);
    if (changes_limb(exercise, other))
        refuse(exercise, "works another limb as", other);
    if (is_new_at(exercise, other, "overhead") || is_new_at(exercise, other, "hanging"))
        refuse(exercise, "is no work overhead, and becomes", other);
    if (is_new_at(exercise, other, "on the hands") && !(other->patterns & exercise->patterns))
        refuse(exercise, "is no work on the hands, and becomes", other);
    for (size_t i = 0; i < sizeof tender / sizeof *tender; i++)
        if (loads_anew(exercise, other, tender[i]))
            refuse(exercise, regions.names[tender[i]], other);
}

/* Each substitute, and the substitutes of substitutes, against what the coach wrote. */
static size_t check_from(const struct exercise *start, const struct exercise *at, int depth)
{
    size_t count = 0;
    for (size_t i = 0; i < at->without_count && depth < LONGEST_CHAIN; i++) {
        check_substitute(start, at->without[i].instead);
        count += 1 + check_from(start, at->without[i].instead, depth + 1);
    }
    return count;
}

static void test_substitutes_are_no_harder_and_no_other_stress(void **state)
{
    (void)state;
    faults = 0;
    size_t count = 0;
    for (size_t i = 0; i < project.programme->exercise_count; i++)
        count += check_from(project.programme->exercises[i], project.programme->exercises[i], 0);
    assert_true(count >= LEAST_SUBSTITUTES);
    assert_int_equal(faults, 0);
}

/* A step of the ladder keeps its direction: the easier form is for no later lifting age, is not thrown, jumped or struck
 * where the harder one is not, and is not the harder one by another road. */
static void test_the_ladder_only_goes_one_way(void **state)
{
    (void)state;
    faults = 0;
    for (size_t i = 0; i < project.programme->exercise_count; i++) {
        const struct exercise *exercise = project.programme->exercises[i];
        const struct exercise *down = exercise->easier, *up = exercise->harder;
        if (down && down->level > exercise->level)
            refuse(exercise, "has as its easier form what is meant for later:", down);
        if (down && stress_of(down) > HELD && stress_of(down) != stress_of(exercise))
            refuse(exercise, "has as its easier form another kind of stress:", down);
        if (down && is_above(down, exercise, 0))
            refuse(exercise, "has as its easier form what is harder:", down);
        if (up && up->level < exercise->level)
            refuse(exercise, "has as its harder form what is meant for earlier:", up);
        if (up && is_above(exercise, up, 0))
            refuse(exercise, "has as its harder form what is easier:", up);
    }
    assert_int_equal(faults, 0);
}

/* --- that these can say no --- */

static void test_a_bad_substitute_is_refused(void **state)
{
    (void)state;
    struct exercise hinge = {.name.shown = "hinge", .kind = EXERCISE_STRENGTH, .patterns = 1u << PATTERN_HINGE};
    struct exercise jump = {.name.shown = "jump", .kind = EXERCISE_POWER, .patterns = 1u << PATTERN_JUMP,
                            .ballistic = true, .counts = UNIT_CONTACTS};
    struct exercise heavy = hinge, late = hinge, back = hinge;
    heavy.easier = &hinge;
    late.level = LEVEL_ADVANCED;
    back.loads[REGION_LOW_BACK] = HALF;
    const struct exercise *const bad[] = {&heavy, &late, &back};
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        faults = 0;
        check_substitute(&hinge, bad[i]);
        assert_int_equal(faults, 1);
    }
    faults = 0;
    check_substitute(&hinge, &jump);
    assert_int_equal(faults, 2); /* another stress, and counted in something else */
    faults = 0;
    check_substitute(&heavy, &hinge);
    assert_int_equal(faults, 0);
}

/* --- the neck --- */

static bool says_count(const char *text)
{
    return text && (strstr(text, "second") || strstr(text, "count"));
}

/* Nothing at the neck is jerked: how long the effort takes to build up is said with each hold. */
static void test_neck_holds_say_how_long_they_build_up(void **state)
{
    (void)state;
    faults = 0;
    size_t count = 0;
    for (size_t i = 0; i < project.programme->exercise_count; i++) {
        const struct exercise *exercise = project.programme->exercises[i];
        if (exercise->kind != EXERCISE_HOLD || exercise->pattern != PATTERN_NECK)
            continue;
        bool said = false;
        for (size_t k = 0; k < exercise->cue_count; k++)
            said = said || says_count(exercise->cues[k]);
        for (size_t k = 0; k < exercise->fault_count; k++)
            said = said || says_count(exercise->faults[k].fix);
        count++;
        if (!said || exercise->counts != UNIT_SECONDS)
            refuse(exercise, "says no seconds:", exercise);
    }
    assert_true(count >= 10);
    assert_int_equal(faults, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_substitutes_are_no_harder_and_no_other_stress),
        cmocka_unit_test(test_the_ladder_only_goes_one_way),
        cmocka_unit_test(test_a_bad_substitute_is_refused),
        cmocka_unit_test(test_neck_holds_say_how_long_they_build_up),
    };
    return cmocka_run_group_tests(tests, open_shelf, close_shelf);
}
