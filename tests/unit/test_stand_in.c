/* What can stand in for an exercise: how near another is, whom it is for, which are shown, and how it is worded. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "base/arena.h"
#include "measure/stand_in.h"
#include "model/programme.h"

enum { DAY = 100000, MOST = 12 };

/* What is to be replaced comes first. */
struct shelf {
    struct programme programme;
    struct exercise rows[MOST];
    struct exercise *list[MOST];
    struct stand_in_for asked;
    struct stand_in before, found[STAND_INS_MOST]; /* nothing is put in front of the first */
};

static struct exercise squat(void)
{
    struct exercise exercise = {.kind = EXERCISE_STRENGTH, .pattern = PATTERN_SQUAT, .patterns = 1u << PATTERN_SQUAT,
                                .counts = UNIT_REPS, .weigh = WEIGH_BAR_AND_PLATES, .workers = WORKER_LEG};
    exercise.loads[REGION_FRONT_THIGH] = 1000;
    exercise.loads[REGION_HIPS] = 500;
    return exercise;
}

static void fill(struct shelf *shelf, size_t count)
{
    *shelf = (struct shelf){.programme = {.exercises = shelf->list, .exercise_count = count},
                            .asked = {.programme = &shelf->programme, .exercise = &shelf->rows[0], .day = DAY}};
    for (size_t i = 0; i < count; i++) {
        shelf->rows[i] = squat();
        shelf->list[i] = &shelf->rows[i];
    }
}

/* What the second of two has in common with the first; -1: it is not found. */
static int kept(struct shelf *shelf)
{
    size_t count = stand_ins_find(&shelf->asked, shelf->found);
    assert_true(count <= 1);
    if (count)
        assert_ptr_equal(shelf->found[0].exercise, &shelf->rows[1]);
    return count ? shelf->found[0].kept : -1;
}

static void how_near_it_is(void **state)
{
    (void)state;
    struct shelf shelf;
    fill(&shelf, 2);
    struct exercise *other = &shelf.rows[1];
    assert_int_equal(kept(&shelf), 1000);

    other->pattern = PATTERN_LUNGE; /* the first that is named, and the squat as well */
    other->patterns |= 1u << PATTERN_LUNGE;
    assert_int_equal(kept(&shelf), 800);
    other->patterns = 1u << PATTERN_LUNGE;
    assert_int_equal(kept(&shelf), 600);

    *other = squat(); /* a third of the regions */
    other->loads[REGION_FRONT_THIGH] = 500;
    other->loads[REGION_HIPS] = 0;
    assert_int_equal(kept(&shelf), 650 + 350 / 3);
    other->loads[REGION_FRONT_THIGH] = 2000; /* the lesser of the two is in common */
    other->loads[REGION_HIPS] = 500;
    assert_int_equal(kept(&shelf), 650 + 350 * 1500 / 2500);

    other->loads[REGION_FRONT_THIGH] = 1000; /* from the neck to the foot */
    other->loads[REGION_NECK] = 1500;
    assert_int_equal(kept(&shelf), 650 + 350 / 2);
    other->loads[REGION_NECK] = 0;
    other->loads[REGION_FOOT] = 1500;
    assert_int_equal(kept(&shelf), 650 + 350 / 2);

    *other = squat();
    other->kind = EXERCISE_PREHAB;
    assert_int_equal(kept(&shelf), 880);
    *other = squat();
    other->weigh = WEIGH_IMPLEMENT;
    assert_int_equal(kept(&shelf), 950);
    *other = squat();
    other->side = SIDE_EACH_SIDE;
    assert_int_equal(kept(&shelf), 920);
    *other = squat();
    other->workers = WORKER_HAND;
    assert_int_equal(kept(&shelf), 920);

    *other = squat(); /* neither says which regions */
    for (int i = 0; i < 2; i++)
        shelf.rows[i].loads[REGION_FRONT_THIGH] = shelf.rows[i].loads[REGION_HIPS] = 0;
    assert_int_equal(kept(&shelf), 1000);
}

/* Of another movement: what has less than three tenths in common is other work. */
static void other_work(void **state)
{
    (void)state;
    struct shelf shelf;
    fill(&shelf, 2);
    struct exercise *other = &shelf.rows[1];
    other->pattern = PATTERN_PUSH;
    other->patterns = 1u << PATTERN_PUSH;
    other->loads[REGION_FRONT_THIGH] = 0;
    other->loads[REGION_HIPS] = 250;
    other->loads[REGION_CHEST] = 250;
    assert_int_equal(kept(&shelf), 300);
    other->loads[REGION_CHEST] = 251;
    assert_int_equal(kept(&shelf), -1);
}

static void what_never_stands_in(void **state)
{
    (void)state;
    static struct need rack = {.name = {.shown = "rack", .folded = "rack"}, .count = 1};
    const struct gym gym = {.name = {.shown = "Quay", .folded = "quay"}};
    struct shelf shelf;
    fill(&shelf, 2);
    struct exercise *other = &shelf.rows[1];
    other->replaced = true;
    assert_int_equal(kept(&shelf), -1);
    *other = squat();
    other->lost = true;
    assert_int_equal(kept(&shelf), -1);
    *other = squat();
    other->needs = &rack;
    other->need_count = 1;
    assert_int_equal(kept(&shelf), 1000); /* nobody said where */
    shelf.asked.gym = &gym;
    assert_int_equal(kept(&shelf), -1);
    other->need_count = 0;
    assert_int_equal(kept(&shelf), 1000);
    shelf.asked.gym = NULL;

    /* What is lifted becomes neither a throw nor a jump, but a throw may become one, or a lift. */
    for (int row = 0; row < 2; row++) {
        shelf.rows[0] = *other = squat();
        shelf.rows[row].ballistic = true;
        assert_int_equal(kept(&shelf), row ? -1 : 1000);
        shelf.rows[1 - row].ballistic = true;
        assert_int_equal(kept(&shelf), 1000);
        shelf.rows[0] = *other = squat();
        shelf.rows[row].counts = UNIT_CONTACTS;
        assert_int_equal(kept(&shelf), row ? -1 : 1000);
        shelf.rows[1 - row].counts = UNIT_CONTACTS;
        assert_int_equal(kept(&shelf), 1000);
    }
}

static void for_whom_it_is(void **state)
{
    (void)state;
    struct shelf shelf;
    fill(&shelf, 2);
    struct exercise *other = &shelf.rows[1];
    struct avoid avoid = {.exercise = other, .pattern = -1, .region = -1, .kind = -1, .joint = -1, .demand = -1};
    const struct hold hold = {.since = DAY, .clock = -1};
    struct athlete athlete = {.level_given = true, .level = LEVEL_NOVICE, .avoids = &avoid};
    other->level = LEVEL_INTERMEDIATE;
    assert_int_equal(kept(&shelf), 1000);
    shelf.asked.athlete = &athlete;
    assert_int_equal(kept(&shelf), -1);
    athlete.level = LEVEL_INTERMEDIATE;
    assert_int_equal(kept(&shelf), 1000);

    athlete.avoid_count = 1;
    assert_int_equal(kept(&shelf), -1);
    shelf.asked.freely = true;
    assert_int_equal(kept(&shelf), 1000);
    shelf.asked.freely = false;
    avoid.ended = DAY;
    assert_int_equal(kept(&shelf), 1000);
    avoid.ended = 0;
    avoid.since = DAY + 1;
    assert_int_equal(kept(&shelf), 1000);
    avoid.since = 0;
    avoid.exercise = &shelf.rows[0];
    assert_int_equal(kept(&shelf), 1000);

    /* One side that is barred bars what works both. */
    avoid = (struct avoid){.pattern = -1, .region = REGION_HIPS, .kind = -1, .joint = -1, .demand = -1, .sides = BARRED_LEFT};
    other->side = SIDE_EACH_SIDE;
    assert_int_equal(kept(&shelf), -1);
    other->side = SIDE_BOTH;

    avoid.region = REGION_CHEST;
    athlete.holds = &hold;
    athlete.hold_count = 1;
    assert_int_equal(kept(&shelf), -1);
    shelf.asked.day = DAY - 1;
    assert_int_equal(kept(&shelf), 1000);
}

static void a_dose_is_read_the_same(void **state)
{
    (void)state;
    struct shelf shelf;
    fill(&shelf, 2);
    struct exercise *other = &shelf.rows[1];
    for (int same = 0; same < 2; same++) {
        shelf.asked.same_dose = same;
        *other = squat();
        assert_int_equal(kept(&shelf), 1000);
        other->counts = UNIT_SECONDS;
        assert_int_equal(kept(&shelf), same ? -1 : 1000);
        *other = squat();
        other->side = SIDE_EACH_SIDE;
        assert_int_equal(kept(&shelf), same ? -1 : 920);
        *other = squat();
        other->ways = 2;
        assert_int_equal(kept(&shelf), same ? -1 : 1000);
        *other = squat();
        other->kind = EXERCISE_HOLD;
        assert_int_equal(kept(&shelf), same ? -1 : 880);
        shelf.rows[0].kind = EXERCISE_HOLD;
        assert_int_equal(kept(&shelf), 1000);
        shelf.rows[0] = squat();
    }
}

/* The nearest first, of equals as the shelf has them; what is left when the list is full is the farthest. */
static void which_are_shown(void **state)
{
    (void)state;
    struct shelf shelf;
    fill(&shelf, 11);
    for (size_t i = 1; i <= 4; i++)
        shelf.rows[i].weigh = WEIGH_IMPLEMENT;
    shelf.rows[10].kind = EXERCISE_PREHAB;
    static const size_t order[STAND_INS_MOST] = {5, 6, 7, 8, 9, 1, 2, 3};
    assert_int_equal(stand_ins_find(&shelf.asked, shelf.found), STAND_INS_MOST);
    for (size_t i = 0; i < STAND_INS_MOST; i++) {
        assert_ptr_equal(shelf.found[i].exercise, &shelf.rows[order[i]]);
        assert_int_equal(shelf.found[i].kept, i < 5 ? 1000 : 950);
    }
    shelf.asked.exercise = &shelf.rows[10]; /* the first of the shelf stands in as well as any */
    assert_int_equal(stand_ins_find(&shelf.asked, shelf.found), STAND_INS_MOST);
    assert_ptr_equal(shelf.found[0].exercise, &shelf.rows[0]);
}

/* However little nearer it is. */
static void the_nearer_of_two(void **state)
{
    (void)state;
    struct shelf shelf;
    fill(&shelf, 3);
    shelf.rows[1].loads[REGION_HIPS] = 499;
    assert_int_equal(stand_ins_find(&shelf.asked, shelf.found), 2);
    assert_int_equal(shelf.found[0].kept, 1000);
    assert_ptr_equal(shelf.found[0].exercise, &shelf.rows[2]);
    assert_int_equal(shelf.found[1].kept, 999);
}

static void in_words(void **state)
{
    (void)state;
    struct arena *arena = arena_new();
    struct exercise from = squat(), to = squat();
    assert_string_equal(stand_in_words(arena, &from, &to), "keeps squat, hips, front thigh");
    to.loads[REGION_HIPS] = 499;
    assert_string_equal(stand_in_words(arena, &from, &to), "keeps squat, front thigh; loses hips");
    from.loads[REGION_HIPS] = 499; /* less than half a set is not named */
    assert_string_equal(stand_in_words(arena, &from, &to), "keeps squat, front thigh");
    from.loads[REGION_COUNT - 1] = 1000;
    to.kind = EXERCISE_HOLD;
    to.weigh = WEIGH_IMPLEMENT;
    const char *last = arena_printf(arena, "keeps squat, front thigh; loses %s, strength; another load",
                                    regions.names[REGION_COUNT - 1]);
    assert_string_equal(stand_in_words(arena, &from, &to), last);
    from = to = squat();
    from.loads[REGION_NECK] = 500;
    assert_string_equal(stand_in_words(arena, &from, &to), "keeps squat, hips, front thigh; loses neck");
    from = to = squat();
    from.weigh = WEIGH_UNSAID;
    to.pattern = PATTERN_LUNGE;
    to.patterns = 1u << PATTERN_LUNGE;
    assert_string_equal(stand_in_words(arena, &from, &to), "keeps hips, front thigh; loses squat");
    from.patterns = 0;
    to.loads[REGION_FRONT_THIGH] = to.loads[REGION_HIPS] = 0;
    assert_string_equal(stand_in_words(arena, &from, &to), "loses hips, front thigh");
    arena_free(arena);
}

static void what_is_left_of_a_region(void **state)
{
    (void)state;
    struct shelf shelf;
    fill(&shelf, 2);
    shelf.rows[0].loads[REGION_FRONT_THIGH] = 999; /* not a whole set */
    assert_int_equal(region_left(&shelf.asked, REGION_FRONT_THIGH), LEFT_WORK);
    assert_int_equal(region_left(&shelf.asked, REGION_HIPS), LEFT_NOTHING);
    static const struct {
        enum exercise_kind kind;
        enum left_of left;
    } kinds[] = {{EXERCISE_HOLD, LEFT_HOLDS}, {EXERCISE_MOBILITY, LEFT_NOTHING}, {EXERCISE_WARM_UP, LEFT_NOTHING},
                 {EXERCISE_PREHAB, LEFT_WORK}};
    for (size_t i = 0; i < sizeof kinds / sizeof *kinds; i++) {
        shelf.rows[1].kind = kinds[i].kind;
        assert_int_equal(region_left(&shelf.asked, REGION_FRONT_THIGH), kinds[i].left);
    }
    shelf.rows[1].lost = true;
    assert_int_equal(region_left(&shelf.asked, REGION_FRONT_THIGH), LEFT_NOTHING);
    shelf.rows[0].loads[REGION_FRONT_THIGH] = 1000; /* what is asked about counts as well */
    assert_int_equal(region_left(&shelf.asked, REGION_FRONT_THIGH), LEFT_WORK);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(how_near_it_is),
        cmocka_unit_test(other_work),
        cmocka_unit_test(what_never_stands_in),
        cmocka_unit_test(for_whom_it_is),
        cmocka_unit_test(a_dose_is_read_the_same),
        cmocka_unit_test(which_are_shown),
        cmocka_unit_test(the_nearer_of_two),
        cmocka_unit_test(in_words),
        cmocka_unit_test(what_is_left_of_a_region),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
