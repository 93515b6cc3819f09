/* test_layout.c - sheets measured: nothing beyond the margin, nothing touching, letters as large as they claim. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include <math.h>
#include <string.h>

#include "figures/sight.h"
#include "kg.h"
#include "layout/group.h"
#include "layout/marks.h"
#include "layout/ribbon.h"
#include "layout/sheet.h"
#include "layout/strips.h"
#include "unit/fixture.c"

static struct type *type;

static int open_type(void **state)
{
    const char *wrong = NULL;
    (void)state;
    type = type_open(&wrong);
    if (!type)
        print_error("%s\n", wrong);
    return type ? 0 : -1;
}

static int close_type(void **state)
{
    (void)state;
    type_close(type);
    return 0;
}

/* cmocka compares floats; points and millimetres are doubles. */
static void assert_near(double value, double wanted, double error)
{
    if (!(fabs(value - wanted) <= error))
        fail_msg("%.9g is not %.9g", value, wanted);
}

static struct scene *make(struct fixture *fixture, const char *sheet, const char *paper,
                          bool landscape, double distance)
{
    const struct occasion *members[FIXTURE_MOST];
    for (size_t i = 0; i < fixture->count; i++)
        members[i] = &fixture->occasions[i];
    struct sheet_request request = {.arena = fixture->arena,
                                    .type = type,
                                    .programme = &fixture->programme,
                                    .occasions = members,
                                    .count = fixture->count,
                                    .paper = paper_find(paper),
                                    .landscape = landscape,
                                    .distance = distance,
                                    .plan = "Harbour final",
                                    .version = "3f9c2a1",
                                    .date_words = "Monday 1 March 2027",
                                    .author = "Slipway"};
    return sheet_make(sheet_find(sheet), &request);
}

/* --- sizes --- */

/* ISO 9241-303: h = 2 d tan(a / 2); 3 m and 16 minutes give 13.962659 mm. */
static void test_capital_fills_the_angle(void **state)
{
    (void)state;
    double size = sheet_size(type, 300, SIGHT_MINUTES_LEAST);
    struct text_run run = type_set(type, "H", (struct typesetting){.size = size});
    assert_near(sight_mm_from_points(run.capital), 13.962659, 1e-5);
    /* The claim against the glyph itself. */
    assert_near(run.ink_height, run.capital, 0.01 * run.capital);
    assert_near(sheet_reach(run.capital), 300, 1e-6);
}

static void test_papers(void **state)
{
    (void)state;
    double width, height;
    paper_points(paper_find("a3"), true, &width, &height);
    assert_near(width, 1190.551, 0.001);
    assert_near(height, 841.890, 0.001);
    assert_null(paper_find("A9"));
    assert_string_equal(paper_larger(paper_find("A4"))->name, "A3");
    assert_string_equal(paper_larger(paper_find("Letter"))->name, "Tabloid");
    assert_null(paper_larger(paper_find("A1")));
    assert_null(paper_larger(paper_find("Tabloid")));
}

/* --- what holds for every sheet --- */

struct rectangle {
    double left, top, right, bottom;
};

static struct rectangle glyphs(const struct element *element)
{
    const struct text_run *run = element->run;
    double x = element->x + run->ink_x, y = element->y + run->ink_y;
    return (struct rectangle){x, y, x + run->ink_width, y + run->ink_height};
}

static void assert_inside(const struct scene *scene, const struct element *element)
{
    struct rectangle area = glyphs(element);
    if (area.left < scene->margin - 1 || area.top < scene->margin - 1 ||
        area.right > scene->width - scene->margin + 1 ||
        area.bottom > scene->height - scene->margin + 1)
        fail_msg("\"%s\" lies outside the margin", element->text);
}

static void assert_apart(const struct element *one, const struct element *other)
{
    struct rectangle a = glyphs(one), b = glyphs(other);
    bool private = a.left >= b.right - 0.2 || b.left >= a.right - 0.2 || a.top >= b.bottom - 0.2 ||
                 b.top >= a.bottom - 0.2;
    if (!private)
        fail_msg("\"%s\" and \"%s\" overlap", one->text, other->text);
}

/* Discs and the like lie under their numbers; everything else stands on white. */
static double ground_contrast(const struct box *page, size_t index)
{
    const struct element *text = &page->elements[index];
    struct rectangle area = glyphs(text);
    enum ink ground = INK_PAPER;
    for (size_t i = 0; i < index; i++) {
        const struct element *under = &page->elements[i];
        if (under->kind == ELEMENT_RECTANGLE && under->fill != INK_NONE && under->x < area.right &&
            area.left < under->x + under->width && under->y < area.bottom &&
            area.top < under->y + under->height)
            ground = under->fill;
    }
    return ink_contrast(text->fill, ground);
}

static void check_scene(const struct scene *scene)
{
    size_t texts = 0;
    for (size_t p = 0; p < scene->page_count; p++) {
        const struct box *page = scene->pages[p];
        for (size_t i = 0; i < page->count; i++) {
            if (page->elements[i].kind != ELEMENT_TEXT)
                continue;
            texts++;
            assert_inside(scene, &page->elements[i]);
            assert_true(ground_contrast(page, i) >= 4.5);
            for (size_t j = i + 1; j < page->count; j++)
                if (page->elements[j].kind == ELEMENT_TEXT)
                    assert_apart(&page->elements[i], &page->elements[j]);
        }
    }
    assert_true(texts > 20);
    for (size_t i = 0; i < scene->problem_count; i++)
        assert_int_equal(scene->problems[i].kind, PROBLEM_TOO_SMALL);
}

static void test_walls_are_clean(void **state)
{
    static const char *const sizes[] = {"A1", "A2", "A3", "A4", "Letter", "Tabloid"};
    static const size_t squads[] = {1, 2, 5, 12};
    (void)state;
    for (size_t s = 0; s < sizeof squads / sizeof *squads; s++)
        for (size_t p = 0; p < sizeof sizes / sizeof *sizes; p++)
            for (int turned = 0; turned < 2; turned++) {
                struct fixture *fixture = fixture_new(squads[s]);
                check_scene(make(fixture, "wall", sizes[p], turned, 300));
                fixture_free(fixture);
            }
}

static void test_card_is_clean(void **state)
{
    (void)state;
    struct fixture *fixture = fixture_new(1);
    struct scene *scene = make(fixture, "card", "A6", false, 40);
    check_scene(scene);
    assert_int_equal(scene->page_count, 2); /* its boxes are as large as a blunt pencil needs */
    assert_int_equal(scene->problem_count, 0);
    assert_true(sheet_reach(scene_smallest(scene, RANK_FIRST, NULL)) >= 40);
    for (size_t p = 0; p < scene->page_count; p++)
        for (size_t i = 0; i < scene->pages[p]->count; i++) {
            const struct element *box = &scene->pages[p]->elements[i];
            bool blank = box->kind == ELEMENT_RECTANGLE && box->fill == INK_NONE && box->radius > 0;
            bool circle = blank && box->radius >= box->height / 2;
            if (blank && !circle && (box->width < sight_points_from_mm(14) - 1e-6 || box->height < sight_points_from_mm(9) - 1e-6))
                fail_msg("a box of %g by %g mm", sight_mm_from_points(box->width), sight_mm_from_points(box->height));
        }
    fixture_free(fixture);
}

/* --- legibility --- */

static void test_wall_tells_its_reach(void **state)
{
    (void)state;
    struct fixture *fixture = fixture_new(1);
    struct scene *far = make(fixture, "wall", "A4", false, 400);
    assert_int_equal(far->problem_count, 1);
    const struct layout_problem *problem = &far->problems[0];
    assert_int_equal(problem->kind, PROBLEM_TOO_SMALL);
    assert_near(problem->distance,
                       sheet_reach(scene_smallest(far, RANK_FIRST, NULL)), 1e-9);
    assert_true(problem->distance < 400);
    assert_non_null(problem->help);
    struct scene *near = make(fixture, "wall", "A2", false, 300);
    assert_int_equal(near->problem_count, 0);
    assert_true(sheet_reach(scene_smallest(near, RANK_FIRST, NULL)) >= 300 * 0.995);
    fixture_free(fixture);
}

static void test_larger_paper_larger_letters(void **state)
{
    static const char *const series[] = {"A4", "A3", "A2"};
    (void)state;
    struct fixture *fixture = fixture_new(1);
    double last = 0;
    for (size_t i = 0; i < sizeof series / sizeof *series; i++) {
        double capital =
            scene_smallest(make(fixture, "wall", series[i], false, 300), RANK_FIRST, NULL);
        assert_true(capital > last * 1.2);
        last = capital;
    }
    fixture_free(fixture);
}

/* --- content --- */

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

/* Under the exercise that they differ in, on no more pages than asked for, everybody by the first word of the name. */
static void test_squad_has_its_own_loads(void **state)
{
    (void)state;
    struct fixture *fixture = fixture_new(12);
    struct scene *scene = make(fixture, "wall", "A2", false, 300);
    assert_int_equal(scene->page_count, 1);
    for (size_t i = 0; i < fixture->count; i++) {
        const char *name = fixture->occasions[i].athlete->name.shown;
        assert_int_equal(
            pages_with(scene, arena_copy(fixture->arena, name, strcspn(name, " "))), 1);
    }
    assert_int_equal(pages_with(scene, "goblet squat"), 1);
    assert_int_equal(pages_with(scene, "page 1 of 1"), 1);
    assert_int_equal(pages_with(scene, "version\302\2403f9c2a1"), 1);
    fixture_free(fixture);
}

/* As the plan calls somebody, else by the whole name: no part of it is guessed. */
static void test_labels_say_who(void **state)
{
    static const char *const names[][2] = {{"Marlo Quist", "Marlo"},
                                           {"Petra Holt", NULL},
                                           {"Jun Lind", NULL},
                                           {"de Vries Anouk", "Anouk"},
                                           {"J. Oakes", NULL},
                                           {"船着 澪", "澪"}};
    enum { COUNT = sizeof names / sizeof *names };
    (void)state;
    struct fixture *fixture = fixture_new(COUNT);
    struct athlete athletes[COUNT];
    for (size_t i = 0; i < COUNT; i++) {
        athletes[i] = *fixture->occasions[i].athlete;
        athletes[i].name = (struct name){.shown = names[i][0], .folded = names[i][0]};
        athletes[i].called = names[i][1];
        fixture->occasions[i].athlete = &athletes[i];
    }
    struct scene *scene = make(fixture, "wall", "A3", false, 300);
    size_t met = 0;
    for (size_t i = 0; i < COUNT; i++)
        for (size_t e = 0; e < scene->pages[0]->count; e++)
            if (scene->pages[0]->elements[e].kind == ELEMENT_TEXT &&
                strcmp(scene->pages[0]->elements[e].text, names[i][1] ? names[i][1] : names[i][0]) == 0) {
                met++;
                break;
            }
    assert_int_equal(met, COUNT);
    fixture_free(fixture);
}

/* Body mass and date of birth stand in the programme and nowhere on the wall. */
static void test_wall_keeps_secrets(void **state)
{
    (void)state;
    struct fixture *fixture = fixture_new(3);
    struct scene *scene = make(fixture, "wall", "A3", false, 300);
    assert_int_equal(pages_with(scene, "58.4"), 0);
    assert_int_equal(pages_with(scene, "2003"), 0);
    assert_null(strstr(scene->description, "58.4"));
    fixture_free(fixture);
}

static void test_card_warms_up_to_the_heavy_lift(void **state)
{
    (void)state;
    struct fixture *fixture = fixture_new(2);
    struct scene *scene = make(fixture, "card", "A6", false, 40);
    assert_int_equal(pages_with(scene, "Warm up: "), 1);
    assert_int_equal(pages_with(scene, "pain"), 1);
    assert_int_equal(pages_with(scene, fixture->occasions[1].athlete->name.shown), 0);
    fixture_free(fixture);
}

static void test_groups(void **state)
{
    (void)state;
    struct fixture *fixture = fixture_new(4);
    const struct occasion *members[4];
    for (size_t i = 0; i < 4; i++)
        members[i] = &fixture->occasions[i];
    struct group group = group_make(fixture->arena, members, 4);
    assert_int_equal(group.lane_count, 7);
    assert_true(group.lanes[2].loads_differ);
    assert_false(group.lanes[2].varies);
    assert_true(group.lanes[4].varies);
    assert_true(lane_differs(&group.lanes[2]));
    assert_true(lane_differs(&group.lanes[4]));
    assert_false(lane_differs(&group.lanes[5]));
    struct group alone = group_make(fixture->arena, members, 1);
    for (size_t i = 0; i < alone.lane_count; i++)
        assert_false(lane_differs(&alone.lanes[i]));
    fixture_free(fixture);
}

/* --- parts --- */

/* A second is as long in one block as in the other. */
static void test_ribbon_is_to_scale(void **state)
{
    (void)state;
    struct fixture *fixture = fixture_new(1);
    const struct occasion *occasion = &fixture->occasions[0];
    struct press press = {fixture->arena, type};
    struct box *ribbon = ribbon_box(&press, occasion, 556, 10, RANK_SECOND);
    double point = 556.0 / occasion->seconds, work = 0;
    size_t areas = 0;
    for (size_t i = 0; i < ribbon->count; i++) {
        if (ribbon->elements[i].kind != ELEMENT_RECTANGLE)
            continue;
        if (areas == 0)
            assert_near(ribbon->elements[i].width, 120 * point, 1e-6);
        if (areas == 4) /* the first set of the second block */
            assert_near(ribbon->elements[i].x, 720 * point, 1e-6);
        areas++;
        work += ribbon->elements[i].width;
    }
    assert_int_equal(areas, 4 + 3 + 3 + 2);
    double rests = 3 * 40 + 2 * 210 + 2 * 105 + 60;
    double blocks = 600 + 780 + 900 + 140;
    assert_near(work, (blocks - rests) * point, 1e-6);
    fixture_free(fixture);
}

/* The stances are told apart without colour: by which foot is filled and in front. */
static void test_stances_are_mirrored(void **state)
{
    (void)state;
    struct arena *arena = arena_new();
    struct press press = {arena, type};
    /* Each is a figure, whose opening comes before the two feet. */
    const struct element *orthodox = box_flat(mark_stance(&press, DOSE_ORTHODOX, 20))->elements;
    const struct element *southpaw = box_flat(mark_stance(&press, DOSE_SOUTHPAW, 20))->elements;
    assert_string_equal(orthodox[0].text, "orthodox");
    assert_string_equal(southpaw[0].text, "southpaw");
    assert_true(orthodox[1].y < orthodox[2].y);
    assert_true(southpaw[1].y > southpaw[2].y);
    assert_int_equal(orthodox[2].fill, INK_PAPER);
    assert_int_equal(southpaw[1].fill, INK_PAPER);
    arena_free(arena);
}

static void test_inks(void **state)
{
    static const enum ink on_white[] = {INK_BLACK, INK_GREY, INK_SPOT};
    static const long long discs[] = {KG(25), KG(20), KG(15), KG(10), KG(5), KG(2.5), KG(1.25)};
    (void)state;
    for (size_t i = 0; i < sizeof on_white / sizeof *on_white; i++)
        assert_true(ink_contrast(on_white[i], INK_PAPER) >= 4.5);
    for (size_t i = 0; i < sizeof discs / sizeof *discs; i++) {
        enum ink disc = ink_of_disc(discs[i]);
        assert_true(ink_contrast(ink_on(disc), disc) >= 4.5);
    }
    assert_int_equal(ink_of_disc(KG(25)), INK_DISC_RED);
    assert_int_equal(ink_of_disc(KG(10)), INK_DISC_GREEN);
}

static void test_strips_repeat_their_heading(void **state)
{
    (void)state;
    struct arena *arena = arena_new();
    struct press press = {arena, type};
    struct strips strips = {0};
    struct box *heading = box_new(arena), *again = box_new(arena), *body = box_new(arena);
    heading->height = again->height = 10;
    body->height = 30;
    for (int i = 0; i < 3; i++)
        strips_add(&press, &strips,
                   (struct strip){.heading = heading, .again = again, .body = body,
                                  .before = 5, .first = i == 0});
    double used;
    assert_near(strips_height(&strips), 10 + 30 + 35 + 35, 1e-9);
    assert_int_equal(strips_fit(&strips, 0, 80, &used), 2);
    assert_near(used, 75, 1e-9);
    assert_int_equal(strips_fit(&strips, 2, 80, &used), 1);
    assert_near(used, 40, 1e-9);
    assert_int_equal(strips_pages(&strips, 80, 80, 1), 2);
    assert_int_equal(strips_pages(&strips, 40, 40, 1), 3);
    assert_int_equal(strips_pages(&strips, 40, 40, 2), 2);
    assert_true(strips_pages(&strips, 39, 39, 1) > 1000);
    arena_free(arena);
}

/* Strips HEIGHTS high, sections beginning at those that FIRST has a letter for: 's' a section, 'c' close to the one
 * before, '-' neither. */
static void assert_parted(const double *heights, const char *kinds, const double *columns,
                          size_t column_count, const size_t *wanted)
{
    struct arena *arena = arena_new();
    struct press press = {arena, type};
    struct strips strips = {0};
    struct box *none = box_new(arena);
    for (size_t i = 0; kinds[i]; i++) {
        struct box *body = box_new(arena);
        body->height = heights[i];
        strips_add(&press, &strips, (struct strip){.heading = none, .again = none, .body = body,
                                                   .first = kinds[i] == 's', .close = kinds[i] == 'c'});
    }
    size_t ends[4];
    assert_int_equal(strips_part(arena, &strips, columns, column_count, ends), wanted != NULL);
    for (size_t i = 0; wanted && i < column_count; i++)
        assert_int_equal(ends[i], wanted[i]);
    arena_free(arena);
}

static void test_columns_are_filled_alike(void **state)
{
    static const double alike[] = {20, 20, 20, 20, 20, 20}, pages[] = {100, 100}, low[] = {60, 60};
    static const double uneven[] = {45, 100}, tight[] = {50, 60};
    (void)state;
    /* By threes, though five would go on the first page. */
    assert_parted(alike, "s--s--", pages, 2, (const size_t[]){3, 6});
    /* The first page holds less. */
    assert_parted(alike, "s-----", uneven, 2, (const size_t[]){2, 6});
    /* Sections and what is close stay whole where there is room ... */
    assert_parted(alike, "s-s---", pages, 2, (const size_t[]){2, 6});
    assert_parted(alike, "s--c--", pages, 2, (const size_t[]){2, 6});
    /* ... and are parted where there is none. */
    assert_parted(alike, "s--c--", low, 2, (const size_t[]){3, 6});
    assert_parted(alike, "s-----", tight, 2, NULL);
}

/* --- the inspector sees what it looks for --- */

static bool has_problem(const struct scene *scene, enum problem_kind kind)
{
    for (size_t i = 0; i < scene->problem_count; i++)
        if (scene->problems[i].kind == kind)
            return true;
    return false;
}

static void put(struct scene *scene, double x, double y, const char *text, struct typesetting setting)
{
    struct text_run run = type_set(type, text, setting);
    box_text(scene->pages[0], x, y, text, &run, (struct style){INK_BLACK, RANK_FIRST, ROLE_PLAIN});
}

static void test_inspector(void **state)
{
    (void)state;
    struct arena *arena = arena_new();
    struct typesetting plain = {.size = 12};
    struct scene *scene = scene_new(arena, 200, 200, 20);
    scene_page(scene);
    put(scene, 40, 60, "quiet", plain);
    scene_inspect(scene);
    assert_int_equal(scene->problem_count, 0);
    put(scene, 42, 62, "touching", plain);
    put(scene, 5, 100, "outside", plain);
    put(scene, 40, 120, "far too long for so narrow a column",
        (struct typesetting){.size = 12, .width = 40, .lines = 1});
    put(scene, 40, 140, "\363\240\200\201x", plain);
    put(scene, 40, 160, "\364\217\277\275", plain); /* no font has it */
    scene_inspect(scene);
    assert_true(has_problem(scene, PROBLEM_OVERLAP));
    assert_true(has_problem(scene, PROBLEM_OUTSIDE));
    assert_true(has_problem(scene, PROBLEM_ELLIPSISED));
    assert_true(has_problem(scene, PROBLEM_UNKNOWN_GLYPH));
    arena_free(arena);
}

/* Names in other scripts bring in the one file that has them. */
static void test_scripts(void **state)
{
    static const char *const names[] = {
        "Nguy\341\273\205n Th\341\273\213", "\320\237\321\200\320\270\321\201\320\265\320\264",
        "\340\270\204\340\270\245\340\270\264\340\270\231\340\270\212\340\271\214",
        "\330\247\331\204\331\202\330\261\331\201\330\265\330\247\330\241",
        "\343\202\271\343\202\257\343\203\257\343\203\203\343\203\210",
        "\342\206\222 \342\230\205"};
    (void)state;
    for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
        struct text_run run = type_set(type, names[i], (struct typesetting){.size = 20});
        assert_int_equal(run.unknown, 0);
        assert_true(run.ink_width > 10);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_capital_fills_the_angle),
        cmocka_unit_test(test_papers),
        cmocka_unit_test(test_walls_are_clean),
        cmocka_unit_test(test_card_is_clean),
        cmocka_unit_test(test_wall_tells_its_reach),
        cmocka_unit_test(test_larger_paper_larger_letters),
        cmocka_unit_test(test_squad_has_its_own_loads),
        cmocka_unit_test(test_labels_say_who),
        cmocka_unit_test(test_wall_keeps_secrets),
        cmocka_unit_test(test_card_warms_up_to_the_heavy_lift),
        cmocka_unit_test(test_groups),
        cmocka_unit_test(test_ribbon_is_to_scale),
        cmocka_unit_test(test_stances_are_mirrored),
        cmocka_unit_test(test_inks),
        cmocka_unit_test(test_strips_repeat_their_heading),
        cmocka_unit_test(test_columns_are_filled_alike),
        cmocka_unit_test(test_inspector),
        cmocka_unit_test(test_scripts),
    };
    return cmocka_run_group_tests(tests, open_type, close_type);
}
