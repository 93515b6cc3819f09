/* test_wall.c - what a wall sheet says and where it may end: names beside loads, the order of a block, the load board, parts
 * that stay together. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include <string.h>

#include "kg.h"
#include "layout/group.h"
#include "layout/wall.h"
#include "unit/fixture.c"
#include "wording/wording.h"

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

/* cmocka compares floats; points are doubles. */
static void assert_near(double is, double should, double within)
{
    if (!(is >= should - within && is <= should + within))
        fail_msg("%g is not %g", is, should);
}

static size_t pages_with(const struct scene *scene, const char *words)
{
    size_t pages = 0;
    for (size_t p = 0; p < scene->page_count; p++)
        for (size_t i = 0; i < scene->pages[p]->count; i++) {
            const struct element *element = &scene->pages[p]->elements[i];
            if (element->kind == ELEMENT_TEXT && strstr(element->text, words)) {
                pages++;
                break;
            }
        }
    return pages;
}

/* With pages enough what each of many lifts stands on a board behind the session, everybody's row on it. */
static void test_many_have_a_board(void **state)
{
    (void)state;
    struct fixture *fixture = fixture_new(12);
    const struct occasion **members = arena_alloc(fixture->arena, fixture->count * sizeof *members);
    for (size_t i = 0; i < fixture->count; i++)
        members[i] = &fixture->occasions[i];
    struct sheet_request request = {.arena = fixture->arena, .type = type, .occasions = members, .count = fixture->count,
                                    .paper = paper_find("A3"), .distance = 300, .pages = 2, .plan = "", .version = "",
                                    .date_words = "", .author = ""};
    struct scene *scene = sheet_make(sheet_find("wall"), &request);
    assert_true(scene->page_count >= 2);
    assert_true(pages_with(scene, "see the board") >= 1);
    assert_true(pages_with(scene, "Load board") >= 1);
    request.count = 4;
    scene = sheet_make(sheet_find("wall"), &request);
    assert_int_equal(pages_with(scene, "Load board"), 0);
    fixture_free(fixture);
}

/* What nobody but one lifts never stands beside the exercise without a name: 3 x 5 does, and 80 kg stands in the row. */
static void test_loads_have_names(void **state)
{
    (void)state;
    struct fixture *fixture = fixture_new(3);
    struct group group = group_make(fixture->arena, (const struct occasion *[]){&fixture->occasions[0], &fixture->occasions[1], &fixture->occasions[2]}, 3);
    struct press press = {fixture->arena, type};
    const struct wall_line *lines = wall_words(&press, &group, NULL, false);
    size_t personal = 0;
    for (size_t i = 0; i < group.lane_count; i++) {
        size_t named = 0;
        for (size_t o = 0; o < lines[i].own_count; o++)
            named += lines[i].own[o].count;
        personal += group.lanes[i].loads_personal;
        for (size_t b = 0; b < lines[i].dose.count && group.lanes[i].loads_personal; b++)
            assert_true(lines[i].dose.bits[b].kind != BIT_BAR);
        if (group.lanes[i].loads_personal)
            assert_int_equal(named, group.count);
    }
    assert_true(personal > 0);
    fixture_free(fixture);
}

/* "A1 → 20 s → A2 → rest 3:00", and so many times. */
static void test_order_is_told(void **state)
{
    (void)state;
    struct fixture *fixture = fixture_new(1);
    struct group group = group_make(fixture->arena, (const struct occasion *[]){&fixture->occasions[0]}, 1);
    size_t rounds = 0;
    for (size_t i = 0; i < group.lane_count; i++) {
        const struct block *block = group.lanes[i].block;
        const char *order = wall_order(fixture->arena, &group, i);
        if (block->kind != BLOCK_CONTRAST)
            continue;
        rounds++;
        char start[32];
        snprintf(start, sizeof start, "%d\302\240\303\227\302\240(%c1 \342\206\222 ", block->sets, block->letter);
        assert_memory_equal(order, start, strlen(start));
        assert_non_null(strstr(order, wording_rest(fixture->arena, block)));
        assert_non_null(strstr(order, wording_time(fixture->arena, block->items[1].after)));
    }
    assert_true(rounds > 0);
    fixture_free(fixture);
}

/* Parts that belong together, and the parts of a section that is to stay whole, go on one page if one can hold them. */
static void test_strips_keep_together(void **state)
{
    (void)state;
    struct arena *arena = arena_new();
    struct press press = {arena, type};
    struct box *body = box_new(arena);
    struct strips strips = {0};
    double used;
    body->height = 10;
    for (int i = 0; i < 6; i++) /* 0 | 1 2 | 3 4 5, and 5 belongs to 4 */
        strips_add(&press, &strips, (struct strip){.body = body, .first = i == 0 || i == 1 || i == 3, .close = i == 5});
    assert_int_equal(strips_fit(&strips, 0, 50, &used), 4); /* not 5: that would part 4 and 5 */
    strips.whole = true;
    assert_int_equal(strips_fit(&strips, 0, 50, &used), 3);
    assert_near(used, 30, 1e-9);
    assert_int_equal(strips_fit(&strips, 0, 20, &used), 1);
    assert_int_equal(strips_fit(&strips, 3, 25, &used), 1); /* higher than the page: broken between its parts */
    assert_int_equal(strips_fit(&strips, 4, 15, &used), 1); /* and at last between those too */
    assert_int_equal(strips_pages(&strips, 30, 30, 1), 2);
    arena_free(arena);
}

/* What strips START up to END draw of an arrow: the lines and the heads, and how far the last head reaches. */
struct arrows {
    size_t lines, heads;
    double low;
};

static struct arrows draw_part(const struct strips *strips, struct arena *arena, size_t start, size_t end)
{
    struct arrows arrows = {0};
    struct scene *scene = scene_new(arena, 100, 400, 0);
    struct box *page = scene_page(scene);
    strips_draw(scene, page, strips, start, end, 0, 0, 0);
    for (size_t i = 0; i < page->count; i++) {
        const struct element *element = &page->elements[i];
        arrows.lines += element->kind == ELEMENT_RECTANGLE;
        arrows.heads += element->kind == ELEMENT_SHAPE;
        arrows.low = element->kind == ELEMENT_SHAPE ? element->y + element->height : arrows.low;
    }
    return arrows;
}

/* An arrow leads from the mark of one part to that of the next, past what belongs to the one; overleaf it goes on. */
static void test_turns_are_drawn(void **state)
{
    (void)state;
    struct arena *arena = arena_new();
    struct press press = {arena, type};
    struct box *body = box_new(arena);
    struct strips strips = {.mark = 5, .top = 2, .bottom = 12};
    body->height = 40;
    for (int i = 0; i < 4; i++) /* two parts in turn, a row of the first between them, and another section */
        strips_add(&press, &strips, (struct strip){.body = body, .first = i == 0 || i == 3, .turn = i < 3, .row = i == 1});
    struct arrows whole = draw_part(&strips, arena, 0, 4), above = draw_part(&strips, arena, 0, 2), below = draw_part(&strips, arena, 1, 4);
    assert_int_equal(whole.lines, 1);
    assert_int_equal(whole.heads, 1);
    assert_true(whole.low < 82 && whole.low > 78); /* just over the second mark */
    assert_int_equal(above.lines, 1);
    assert_int_equal(above.heads, 0);
    assert_int_equal(below.heads, 1);
    assert_true(below.low < 42 && below.low > 38);
    assert_int_equal(draw_part(&strips, arena, 2, 4).lines, 0);
    body->height = 12; /* no room between marks */
    strips.items[1].turn = strips.items[1].row = false;
    assert_int_equal(draw_part(&strips, arena, 0, 2).lines, 0);
    for (size_t i = 0; i < 4; i++)
        strips.items[i].turn = false;
    body->height = 40;
    assert_int_equal(draw_part(&strips, arena, 0, 4).lines, 0);
    arena_free(arena);
}

/* Lines done one after another are in turn, those of one line or of rounds are not. */
static void test_what_is_in_turn(void **state)
{
    (void)state;
    struct fixture *fixture = fixture_new(1);
    struct group group = group_make(fixture->arena, (const struct occasion *[]){&fixture->occasions[0]}, 1);
    size_t in_turn = 0, alone = 0;
    for (size_t i = 0; i < group.lane_count; i++) {
        const struct block *block = group.lanes[i].block;
        bool several = block->letter && block->item_count > 1 && block->kind != BLOCK_ROUNDS;
        assert_int_equal(wall_in_turn(&group, i), several);
        in_turn += several;
        alone += !several;
    }
    assert_true(in_turn > 0 && alone > 0);
    fixture_free(fixture);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_many_have_a_board),
        cmocka_unit_test(test_loads_have_names),
        cmocka_unit_test(test_order_is_told),
        cmocka_unit_test(test_strips_keep_together),
        cmocka_unit_test(test_turns_are_drawn),
        cmocka_unit_test(test_what_is_in_turn),
    };
    return cmocka_run_group_tests(tests, open_type, close_type);
}
