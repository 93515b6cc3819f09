/* test_charts.c - charts to scale and without collisions, with their limits as lines. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include <math.h>
#include <string.h>

#include "layout/chart.h"
#include "layout/frame.h"
#include "unit/fixture.c"

static struct type *type;

static int open_type(void **state)
{
    const char *wrong = NULL;
    (void)state;
    type = type_open(&wrong);
    return type ? 0 : -1;
}

static int close_type(void **state)
{
    (void)state;
    type_close(type);
    return 0;
}

static void assert_near(double value, double wanted, double error)
{
    if (!(fabs(value - wanted) <= error))
        fail_msg("%.9g is not %.9g", value, wanted);
}

static size_t texts_with(const struct scene *scene, const char *words)
{
    size_t count = 0;
    for (size_t p = 0; p < scene->page_count; p++)
        for (size_t i = 0; i < scene->pages[p]->count; i++) {
            const struct element *element = &scene->pages[p]->elements[i];
            count += element->kind == ELEMENT_TEXT && strstr(element->text, words) != NULL;
        }
    return count;
}

static void test_steps(void **state)
{
    (void)state;
    assert_near(chart_step(4, 4), 1, 0);
    assert_near(chart_step(5, 4), 2, 0);
    assert_near(chart_step(20, 4), 5, 0);
    assert_near(chart_step(21, 4), 10, 0);
    assert_near(chart_step(721, 4), 200, 0);
    assert_near(chart_step(0, 4), 1, 0);
}

/* Labels at any heights, as many as fit, end up apart, in order and inside. */
static void test_labels_never_collide(void **state)
{
    unsigned chance = 7;
    (void)state;
    for (int round = 0; round < 2000; round++) {
        double wanted[8], got[8], heights[8], top = 3, bottom = 103;
        size_t count = 1 + (size_t)round % 8;
        double at = -10;
        for (size_t i = 0; i < count; i++) {
            chance = chance * 1103515245u + 12345u;
            at += (double)(chance >> 16 & 31);
            wanted[i] = at;
            heights[i] = 5 + (double)(chance >> 20 & 7);
        }
        chart_spread(wanted, got, count, heights, top, bottom);
        assert_true(got[0] >= top + heights[0] / 2 - 1e-9);
        assert_true(got[count - 1] <= bottom - heights[count - 1] / 2 + 1e-9);
        for (size_t i = 1; i < count; i++)
            assert_true(got[i] - got[i - 1] >= (heights[i] + heights[i - 1]) / 2 - 1e-9);
    }
}

static const double edges[] = {0, 0.25, 0.5, 0.75, 1};

/* Two stacked bars a column: their heights are as their values, and the whole stands on the axis. */
static void test_bars_are_to_scale(void **state)
{
    static const double low[] = {10, 20, 0, NAN}, high[] = {5, 20, 40, NAN};
    struct arena *arena = arena_new();
    struct press press = {arena, type};
    struct chart chart = {.title = "Sets",
                          .unit = "",
                          .columns = 4,
                          .edges = edges,
                          .bars = {{"one", SHADE_FULL, low}, {"two", SHADE_OPEN, high}},
                          .bar_count = 2,
                          .nothing = "nothing"};
    struct chart_frame frame = {100, 300, 80, 90, 8, RANK_SECOND};
    struct box *box = box_flat(chart_box(&press, &chart, &frame));
    double heights[8], bottoms[8];
    size_t count = 0;
    (void)state;
    for (size_t i = 0; i < box->count; i++) {
        const struct element *rectangle = &box->elements[i];
        if (rectangle->kind != ELEMENT_RECTANGLE || rectangle->stroke != INK_BLACK || rectangle->x < 100)
            continue;
        heights[count] = rectangle->height;
        bottoms[count++] = rectangle->y + rectangle->height;
    }
    assert_int_equal(count, 5);
    double unit = heights[0] / 10;
    assert_near(heights[1], 5 * unit, 1e-6);
    assert_near(heights[2], 20 * unit, 1e-6);
    assert_near(heights[3], 20 * unit, 1e-6);
    assert_near(heights[4], 40 * unit, 1e-6);
    assert_near(bottoms[0], bottoms[2], 1e-6);
    assert_near(bottoms[3], bottoms[2] - heights[2], 1e-6);
    arena_free(arena);
}

/* The line of a limit lies as high as a bar of its value, over its own columns, and its words are there. */
static void test_limits_are_lines(void **state)
{
    static const double bars[] = {24, 10, 10, 10}, limit[] = {NAN, 24, 24, NAN};
    struct arena *arena = arena_new();
    struct press press = {arena, type};
    struct chart chart = {.title = "Sparring",
                          .unit = "rounds",
                          .columns = 4,
                          .edges = edges,
                          .bars = {{"", SHADE_PALE, bars}},
                          .bar_count = 1,
                          .limits = {{.words = "at most 24", .values = limit},
                                     {.words = "at most 24 elsewhere", .values = limit}},
                          .limit_count = 2,
                          .nothing = "nothing"};
    struct chart_frame frame = {100, 300, 80, 90, 8, RANK_SECOND};
    struct box *box = box_flat(chart_box(&press, &chart, &frame));
    double top = 0, y = 0, left = 1e9, right = 0;
    size_t words = 0;
    (void)state;
    for (size_t i = 0; i < box->count; i++) {
        const struct element *element = &box->elements[i];
        if (element->kind == ELEMENT_RECTANGLE && element->stroke == INK_BLACK && top == 0)
            top = element->y;
        if (element->kind == ELEMENT_TEXT && strncmp(element->text, "at most", 7) == 0)
            words++;
        if (element->kind == ELEMENT_LINE && element->stroke == INK_SPOT &&
            element->stroke_width > 1) {
            y = element->y;
            left = fmin(left, element->x);
            right = fmax(right, element->x + element->width);
        }
    }
    assert_int_equal(words, 2);
    assert_near(y, top, 1e-6);
    assert_near(left, 100 + 75, 1e-6);
    assert_near(right, 100 + 225, 1e-6);
    arena_free(arena);
}

/* A limit that holds within a phase is drawn over the phase's own days, also where these begin and end inside weeks. */
static void test_limits_of_a_phase(void **state)
{
    (void)state;
    struct fixture *fixture = fixture_new(1);
    struct camp *camp = (struct camp *)(void *)fixture->occasions[0].camp;
    int first = fixture->occasions[0].date;
    struct phase phases[] = {
        {.name = {.shown = "base"}, .first = first, .last = first + 9},
        {.name = {.shown = "strength"}, .first = first + 10, .last = first + 24}};
    struct sheet_bound bounds[] = {{.counted = COUNTED_SETS,
                                    .against = COUNTED_NONE,
                                    .most = {true, 9000, 9000},
                                    .week = 3,
                                    .only = "strength"}};
    camp->first = first;
    camp->last = first + 27;
    camp->weeks = 4;
    camp->phases = phases;
    camp->phase_count = 2;
    const struct occasion *members[] = {&fixture->occasions[0]};
    struct sheet_request request = {.arena = fixture->arena,
                                    .type = type,
                                    .programme = &fixture->programme,
                                    .occasions = members,
                                    .count = 1,
                                    .bounds = bounds,
                                    .bound_count = 1,
                                    .plan = "",
                                    .version = "",
                                    .date_words = "",
                                    .author = ""};
    struct scene *scene = sheet_make(sheet_find("camp"), &request);
    const struct box *page = scene->pages[0];
    double left = 1e9, right = 0, begins = 0, week = 0;
    for (size_t i = 0; i < page->count; i++) {
        const struct element *element = &page->elements[i];
        if (element->kind == ELEMENT_RECTANGLE && element->stroke_width == 0.7 && week == 0)
            week = element->width / 10 * 7; /* the band's box of the first phase, ten days wide */
        if (element->kind != ELEMENT_LINE)
            continue;
        if (element->stroke == INK_HAIR && element->width == 0 && element->stroke_width == 0.5)
            begins = element->x; /* the line through all charts where the second phase begins */
        if (element->stroke == INK_SPOT && element->height == 0 && element->stroke_width == 1.1) {
            left = fmin(left, element->x);
            right = fmax(right, element->x + element->width);
        }
    }
    assert_true(begins > 0);
    assert_near(left, begins, 0.01);
    assert_near(right - left, 15 * week / 7, 0.01);
    assert_true(texts_with(scene, "at most 9 in strength") == 1);
    fixture_free(fixture);
}

/* Without colour the shades of a stack still differ from one another. */
static void test_shades_differ_in_grey(void **state)
{
    static const double one[] = {1, 1, 1, 1};
    struct arena *arena = arena_new();
    struct press press = {arena, type};
    struct chart chart = {.title = "",
                          .unit = "",
                          .columns = 4,
                          .edges = edges,
                          .bars = {{"a", SHADE_FULL, one},
                                   {"b", SHADE_HALF, one},
                                   {"c", SHADE_PALE, one},
                                   {"d", SHADE_OPEN, one}},
                          .bar_count = 4,
                          .nothing = ""};
    struct chart_frame frame = {100, 300, 80, 120, 8, RANK_SECOND};
    struct box *box = box_flat(chart_box(&press, &chart, &frame));
    enum ink met[4];
    size_t count = 0;
    (void)state;
    for (size_t i = 0; i < box->count && count < 4; i++)
        if (box->elements[i].kind == ELEMENT_RECTANGLE && box->elements[i].x < 100)
            met[count++] = box->elements[i].fill;
    assert_int_equal(count, 4);
    for (size_t i = 0; i < 4; i++)
        for (size_t j = i + 1; j < 4; j++)
            assert_true(ink_contrast(met[i], met[j]) > 1.5);
    arena_free(arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_steps),
        cmocka_unit_test(test_labels_never_collide),
        cmocka_unit_test(test_bars_are_to_scale),
        cmocka_unit_test(test_limits_are_lines),
        cmocka_unit_test(test_limits_of_a_phase),
        cmocka_unit_test(test_shades_differ_in_grey),
    };
    return cmocka_run_group_tests(tests, open_type, close_type);
}
