/* Whether a figure that a step of a way back waits for is there: one side's result against the other's, or the last pain. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "base/arena.h"
#include "measure/criteria.h"
#include "model/athlete.h"
#include "model/recovery.h"
#include "model/test.h"

enum { DAY = 740006 /* 2027-01-25 */, KNEE_MOST = 4 };

static const struct test hop = {.name = {.shown = "single leg hop", .folded = "single leg hop"}, .unit = TEST_IN_CM,
                                .each_side = true};

struct measured {
    int day;
    enum test_side side;
    milli figure; /* thousandths of a centimetre */
};

/* CRITERION on DAY for one who comes back from a knee on SIDES. */
static struct criterion_state state_of(struct arena *arena, const struct measured *measured, size_t count, unsigned sides,
                                       const struct criterion *criterion)
{
    struct test_result results[KNEE_MOST];
    for (size_t i = 0; i < count; i++)
        results[i] = (struct test_result){.test = &hop, .side = measured[i].side, .trials = &measured[i].figure,
                                          .trial_count = 1, .date = DAY + measured[i].day};
    const struct athlete athlete = {.results = results, .result_count = count};
    const struct recovery recovery = {.joint = JOINT_KNEE, .region = -1, .demand = -1, .sides = sides};
    return criterion_on(arena, &athlete, &recovery, criterion, DAY);
}

static void one_side_against_the_other(void **state)
{
    (void)state;
    static const struct {
        struct measured of[KNEE_MOST];
        size_t count;
        unsigned sides;
        bool strict, known, met;
        int day;
        const char *words;
    } rows[] = {
        {{{-2, TEST_LEFT, 153000}, {-1, TEST_RIGHT, 170000}}, 2, BARRED_LEFT, false, true, true, -1, "153 of 170 cm is 90.0 %"},
        {{{-2, TEST_LEFT, 153000}, {-1, TEST_RIGHT, 170000}}, 2, BARRED_LEFT, true, true, false, -1, "153 of 170 cm is 90.0 %"},
        {{{-2, TEST_LEFT, 153001}, {-1, TEST_RIGHT, 170000}}, 2, BARRED_LEFT, true, true, true, -1, NULL},
        {{{-2, TEST_LEFT, 152999}, {-1, TEST_RIGHT, 170000}}, 2, BARRED_LEFT, false, true, false, -1, NULL},
        {{{-2, TEST_RIGHT, 153000}, {-1, TEST_LEFT, 170000}}, 2, BARRED_RIGHT, false, true, true, -1, "153 of 170 cm is 90.0 %"},
        /* the last of each side up to the day, that day too */
        {{{-9, TEST_LEFT, 100000}, {-3, TEST_RIGHT, 160000}, {0, TEST_LEFT, 160000}}, 3, BARRED_LEFT, false, true, true, 0,
         "160 of 160 cm is 100.0 %"},
        {{{-9, TEST_LEFT, 100000}, {-3, TEST_RIGHT, 160000}, {1, TEST_LEFT, 160000}}, 3, BARRED_LEFT, false, true, false, -3,
         "100 of 160 cm is 62.5 %"},
        {{{-1, TEST_LEFT, 160000}}, 1, BARRED_LEFT, false, false, false, 0, NULL},
        {{{-1, TEST_RIGHT, 160000}}, 1, BARRED_LEFT, false, false, false, 0, NULL},
        {{{-1, TEST_LEFT, 1000}, {-1, TEST_RIGHT, 0}}, 2, BARRED_LEFT, false, false, false, 0, NULL},
        {{{-1, TEST_LEFT, 450}, {-1, TEST_RIGHT, 500}}, 2, BARRED_LEFT, false, true, true, -1, NULL}, /* to the last digit */
        {{{-1, TEST_LEFT, 1350}, {-1, TEST_RIGHT, 1500}}, 2, BARRED_LEFT, false, true, true, -1, NULL},
        {{{-1, TEST_LEFT, 1}, {-1, TEST_RIGHT, 1}}, 2, BARRED_LEFT, false, true, true, -1, NULL},
    };
    struct arena *arena = arena_new();
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const struct criterion criterion = {.test = &hop, .share = 90000, .strict = rows[i].strict};
        struct criterion_state is = state_of(arena, rows[i].of, rows[i].count, rows[i].sides, &criterion);
        assert_true(is.figure);
        assert_int_equal(is.known, rows[i].known);
        assert_int_equal(is.met, rows[i].met);
        assert_int_equal(is.date, rows[i].known ? DAY + rows[i].day : 0);
        if (rows[i].words)
            assert_string_equal(is.words, rows[i].words);
        if (!rows[i].known)
            assert_string_equal(is.words, "");
    }
    arena_free(arena);
}

/* What is neither is for a person alone to say. */
static void words_are_no_figure(void **state)
{
    (void)state;
    struct arena *arena = arena_new();
    const struct measured measured[] = {{-1, TEST_LEFT, 160000}, {-1, TEST_RIGHT, 160000}};
    const struct criterion criterion = {.words = "no swelling"};
    struct criterion_state is = state_of(arena, measured, 2, BARRED_LEFT, &criterion);
    assert_false(is.figure || is.known || is.met);
    assert_string_equal(is.words, "");
    arena_free(arena);
}

static void the_last_pain(void **state)
{
    (void)state;
    struct pain pains[] = {
        {.day = DAY - 4, .joint = JOINT_KNEE, .region = -1, .sides = BARRED_LEFT, .score = 1},
        {.day = DAY - 3, .joint = JOINT_KNEE, .region = -1, .score = 2},                       /* no side is said */
        {.day = DAY - 2, .joint = JOINT_HIP, .region = -1, .sides = BARRED_LEFT, .score = 7},
        {.day = DAY - 2, .joint = -1, .region = REGION_NECK, .score = 3},
        {.day = DAY - 1, .joint = JOINT_KNEE, .region = -1, .sides = BARRED_RIGHT, .score = 8},
        {.day = DAY + 1, .joint = JOINT_KNEE, .region = -1, .sides = BARRED_LEFT, .score = 9},
        {.day = DAY + 1, .joint = JOINT_KNEE, .region = -1, .score = 1}, /* of somebody else */
    };
    static const struct {
        int joint, region;
        unsigned sides;
        int day, most; /* up to which day; asked for at most */
        bool known, met;
        const char *words;
    } rows[] = {
        {JOINT_KNEE, -1, BARRED_LEFT, 0, 2, true, true, "it was 2 of 10 on 2027-01-22"},
        {JOINT_KNEE, -1, BARRED_LEFT, 0, 1, true, false, "it was 2 of 10 on 2027-01-22"},
        {JOINT_KNEE, -1, BARRED_LEFT, -4, 1, true, true, NULL},
        {JOINT_KNEE, -1, BARRED_LEFT, -5, 1, false, false, ""},
        {JOINT_KNEE, -1, BARRED_LEFT, 1, 8, true, false, NULL},
        {JOINT_KNEE, -1, BARRED_RIGHT, 0, 7, true, false, NULL},
        {JOINT_KNEE, -1, BARRED_RIGHT, -4, 7, false, false, ""},
        {JOINT_KNEE, -1, 0, 0, 8, true, true, "it was 8 of 10 on 2027-01-24"},
        {JOINT_FACE, -1, 0, 0, 9, false, false, ""},
        {-1, REGION_NECK, 0, 0, 3, true, true, NULL},
        {-1, REGION_HIPS, 0, 0, 9, false, false, ""},
    };
    struct arena *arena = arena_new();
    const struct athlete athlete = {.pains = pains, .pain_count = sizeof pains / sizeof *pains - 1};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const struct recovery recovery = {.joint = rows[i].joint, .region = rows[i].region, .demand = -1, .sides = rows[i].sides};
        const struct criterion criterion = {.pain = true, .most = rows[i].most};
        struct criterion_state is = criterion_on(arena, &athlete, &recovery, &criterion, DAY + rows[i].day);
        assert_int_equal(is.figure, rows[i].known);
        assert_int_equal(is.known, rows[i].known);
        assert_int_equal(is.met, rows[i].met);
        if (rows[i].words)
            assert_string_equal(is.words, rows[i].words);
    }
    arena_free(arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(one_side_against_the_other),
        cmocka_unit_test(words_are_no_figure),
        cmocka_unit_test(the_last_pain),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
