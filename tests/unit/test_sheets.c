/* test_sheets.c - posters that come together again from their parts; cards that keep the printer's margin; inks in grey. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include <cairo.h>
#include <glib.h>
#include <math.h>
#include <string.h>

#include "layout/frame.h"
#include "layout/tile.h"
#include "render/render.h"
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

static struct scene *make(struct fixture *fixture, const char *sheet, const char *paper,
                          bool landscape)
{
    const struct occasion **members = arena_alloc(fixture->arena, fixture->count * sizeof *members);
    for (size_t i = 0; i < fixture->count; i++)
        members[i] = &fixture->occasions[i];
    struct sheet_request request = {.arena = fixture->arena,
                                    .type = type,
                                    .programme = &fixture->programme,
                                    .occasions = members,
                                    .count = fixture->count,
                                    .paper = paper ? paper_find(paper) : NULL,
                                    .landscape = landscape,
                                    .plan = "Harbour final",
                                    .version = "3f9c2a1",
                                    .date_words = "Monday 1 March 2027",
                                    .author = "Slipway"};
    return sheet_make(sheet_find(sheet), &request);
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

/* --- tiles --- */

struct bytes {
    const struct text *text;
    size_t at;
};

static cairo_status_t take(void *closure, unsigned char *out, unsigned length)
{
    struct bytes *bytes = closure;
    if (bytes->at + length > bytes->text->length)
        return CAIRO_STATUS_READ_ERROR;
    memcpy(out, bytes->text->data + bytes->at, length);
    bytes->at += length;
    return CAIRO_STATUS_SUCCESS;
}

static cairo_surface_t *picture_of(const struct scene *scene, int page)
{
    struct text png = {0};
    assert_null(render_png(scene, page, 72, &png));
    struct bytes bytes = {&png, 0};
    cairo_surface_t *picture = cairo_image_surface_create_from_png_stream(take, &bytes);
    assert_int_equal(cairo_surface_status(picture), CAIRO_STATUS_SUCCESS);
    text_free(&png);
    return picture;
}

/* Lays the windows of all parts of page PAGE over one another at their places. */
static cairo_surface_t *assemble(const struct scene *tiles, const struct tiling *tiling, int page,
                                 int width, int height)
{
    cairo_surface_t *whole = cairo_image_surface_create(CAIRO_FORMAT_RGB24, width, height);
    cairo_t *cairo = cairo_create(whole);
    int parts = tiling->rows * tiling->columns;
    for (int i = 0; i < parts; i++) {
        cairo_surface_t *part = picture_of(tiles, (page - 1) * parts + i + 1);
        double x = i % tiling->columns * tiling->step_x, y = i / tiling->columns * tiling->step_y;
        cairo_set_source_surface(cairo, part, x - tiles->window.x, y - tiles->window.y);
        cairo_pattern_set_filter(cairo_get_source(cairo), CAIRO_FILTER_NEAREST);
        cairo_rectangle(cairo, x, y, tiles->window.width, tiles->window.height);
        cairo_fill(cairo);
        cairo_surface_destroy(part);
    }
    cairo_destroy(cairo);
    cairo_surface_flush(whole);
    return whole;
}

/* Pixels of which a colour differs by more than a rounding. */
static size_t difference(cairo_surface_t *one, cairo_surface_t *other)
{
    int width = cairo_image_surface_get_width(one), height = cairo_image_surface_get_height(one);
    size_t differing = 0;
    assert_int_equal(width, cairo_image_surface_get_width(other));
    assert_int_equal(height, cairo_image_surface_get_height(other));
    for (int y = 0; y < height; y++) {
        const unsigned char *a =
            cairo_image_surface_get_data(one) + y * cairo_image_surface_get_stride(one);
        const unsigned char *b =
            cairo_image_surface_get_data(other) + y * cairo_image_surface_get_stride(other);
        for (int x = 0; x < width; x++)
            for (int c = 0; c < 3; c++)
                if (abs(a[4 * x + c] - b[4 * x + c]) > 8) {
                    differing++;
                    break;
                }
    }
    return differing;
}

static void check_tiles(const char *poster, bool landscape, const char *small, size_t athletes)
{
    struct fixture *fixture = fixture_new(athletes);
    struct scene *scene = make(fixture, "wall", poster, landscape);
    struct scene *tiles = tile_scene(scene, type, paper_find(small));
    struct tiling tiling = tiling_of(scene->width, scene->height, paper_find(small));
    size_t parts = (size_t)(tiling.rows * tiling.columns);
    assert_int_equal(tiles->page_count, scene->page_count * parts);
    assert_true(parts > 1);
    for (int page = 1; page <= (int)scene->page_count; page++) {
        cairo_surface_t *whole = picture_of(scene, page);
        cairo_surface_t *joined =
            assemble(tiles, &tiling, page, cairo_image_surface_get_width(whole),
                     cairo_image_surface_get_height(whole));
        /* An edge may round to the other pixel where a part is moved. */
        assert_in_range(difference(whole, joined), 0, 20);
        cairo_surface_destroy(whole);
        cairo_surface_destroy(joined);
    }
    fixture_free(fixture);
}

static void test_parts_make_the_poster(void **state)
{
    (void)state;
    check_tiles("A2", false, "A4", 1);
    check_tiles("A1", true, "A3", 3);
    check_tiles("A3", false, "Letter", 12);
    check_tiles("Tabloid", true, "Letter", 2);
}

/* The comparison sees what it looks for: a part left out. */
static void test_a_missing_part_is_seen(void **state)
{
    (void)state;
    struct fixture *fixture = fixture_new(1);
    struct scene *scene = make(fixture, "wall", "A2", false);
    struct scene *tiles = tile_scene(scene, type, paper_find("A4"));
    struct tiling tiling = tiling_of(scene->width, scene->height, paper_find("A4"));
    tiles->pages[0]->windowed = tiles->pages[0]->count = 0;
    cairo_surface_t *whole = picture_of(scene, 1);
    cairo_surface_t *joined = assemble(tiles, &tiling, 1, cairo_image_surface_get_width(whole),
                                       cairo_image_surface_get_height(whole));
    assert_true(difference(whole, joined) > 1000);
    cairo_surface_destroy(whole);
    cairo_surface_destroy(joined);
    fixture_free(fixture);
}

/* Marks and words lie outside the window and inside the paper. */
static void test_marks_of_parts(void **state)
{
    (void)state;
    struct fixture *fixture = fixture_new(1);
    struct scene *scene = make(fixture, "wall", "A2", false);
    struct scene *tiles = tile_scene(scene, type, paper_find("A4"));
    double bottom = tiles->window.y + tiles->window.height;
    for (size_t p = 0; p < tiles->page_count; p++) {
        const struct box *page = tiles->pages[p];
        size_t marks = 0;
        for (size_t i = page->windowed; i < page->count; i++) {
            const struct element *element = &page->elements[i];
            assert_true(element->x >= tiles->margin - 0.1 && element->y >= tiles->margin - 0.1);
            assert_true(element->y + element->height <= tiles->height - tiles->margin + 2);
            if (element->kind == ELEMENT_TEXT)
                assert_true(element->y + element->run->ink_y > bottom);
            marks += element->kind == ELEMENT_LINE;
        }
        assert_true(marks >= 4);
    }
    assert_int_equal(texts_with(tiles, "row 1 of"),
                     (size_t)tiling_of(scene->width, scene->height, paper_find("A4")).columns);
    fixture_free(fixture);
}

/* --- cards, floor --- */

static void test_cards_keep_the_printers_margin(void **state)
{
    (void)state;
    struct fixture *fixture = fixture_new(5);
    struct scene *scene = make(fixture, "card-page", NULL, false);
    double edge = 8 * 72 / 25.4;
    assert_near(scene->width, 595.276, 0.01);
    assert_near(scene->margin, edge, 1e-9);
    assert_int_equal(scene->problem_count, 0);
    for (size_t i = 0; i < fixture->count; i++)
        assert_true(texts_with(scene, fixture->occasions[i].athlete->name.shown) >= 1);
    size_t cuts = 0;
    for (size_t i = 0; i < scene->pages[0]->count; i++) {
        const struct element *element = &scene->pages[0]->elements[i];
        if (element->kind == ELEMENT_LINE && (fabs(element->x - scene->width / 2) < 1e-6 ||
                                              fabs(element->y - scene->height / 2) < 1e-6))
            cuts++;
    }
    assert_int_equal(cuts, 8);
    fixture_free(fixture);
}

/* All texts on a card of athlete NUMBER, one a line. */
static char *card_of(struct fixture *fixture, size_t number)
{
    const struct occasion *members[] = {&fixture->occasions[number]};
    struct sheet_request request = {.arena = fixture->arena,
                                    .type = type,
                                    .programme = &fixture->programme,
                                    .occasions = members,
                                    .count = 1,
                                    .plan = "Harbour final",
                                    .version = "1",
                                    .date_words = "",
                                    .author = ""};
    struct scene *scene = sheet_make(sheet_find("card"), &request);
    GString *all = g_string_new(NULL);
    assert_int_equal(scene->problem_count, 0);
    for (size_t p = 0; p < scene->page_count; p++)
        for (size_t i = 0; i < scene->pages[p]->count; i++)
            if (scene->pages[p]->elements[i].kind == ELEMENT_TEXT)
                g_string_append_printf(all, "%s\n", scene->pages[p]->elements[i].text);
    g_string_append(all, scene->description);
    return g_string_free(all, FALSE);
}

static const char restricted_line[] =
    "Do what is written here and nothing else. What is left out for now comes back when your coach "
    "and whoever treats you agree, not before.";

/* What a card gains with a second side: its number, headings said again, and how the marks are read. */
static bool comes_with_a_side(const char *line)
{
    return g_str_has_prefix(line, "page ") || strstr(line, "continued") || strstr(line, "goes on") ||
           g_str_has_prefix(line, "orthodox:") || g_str_has_prefix(line, "southpaw:") ||
           g_str_has_prefix(line, "seconds down");
}

/* Without the line, CARD is BARE, which has none: nothing else on a card tells that something is the matter. */
static void assert_only_the_line(const char *card, const char *bare)
{
    assert_non_null(strstr(card, restricted_line));
    assert_null(strstr(bare, restricted_line));
    gchar **parts = g_strsplit(card, restricted_line, -1);
    gchar *rest = g_strjoinv("", parts), **lines = g_strsplit(rest, "\n", -1),
          **others = g_strsplit(bare, "\n", -1);
    for (size_t i = 0; lines[i]; i++)
        if (*lines[i] && !comes_with_a_side(lines[i]))
            if (!g_strv_contains((const gchar *const *)others, lines[i]))
                fail_msg("%s", lines[i]);
    g_strfreev(parts);
    g_strfreev(lines);
    g_strfreev(others);
    g_free(rest);
}

/* A restriction and a hold give one and the same line while they stand, and no word of what or why; then it is gone. */
static void test_the_line_of_the_restricted(void **state)
{
    (void)state;
    struct fixture *fixture = fixture_new(1);
    int day = fixture->occasions[0].date;
    struct athlete *athlete = (struct athlete *)(void *)fixture->programme.athletes[0];
    struct avoid avoid = {
        .shown = "overhead", .position = "overhead", .pattern = -1, .region = -1, .kind = -1, .joint = -1, .demand = -1};
    struct hold hold = {.since = day - 9, .clock = -1};
    static const struct protocol_step steps[] = {{.name = "1", .back = -1, .days = 1},
                                                 {.name = "2", .back = -1, .days = 1},
                                                 {.name = "3", .back = -1, .end = true}};
    const struct protocol protocol = {.steps = steps, .step_count = 3};
    struct hold_entry entries[] = {{.kind = ENTRY_REACHED, .step = 1, .day = day - 6, .by = "club physio"},
                                   {.kind = ENTRY_ENDED, .day = day - 2, .by = "doctor Ines Tarrant", .doctor = true}};
    hold.protocol = &protocol;
    hold.entries = entries;
    char *bare = card_of(fixture, 0), *other;
    athlete->avoids = &avoid;
    athlete->avoid_count = 1;
    assert_only_the_line(other = card_of(fixture, 0), bare);
    g_free(other);
    avoid.ended = day;
    assert_string_equal(other = card_of(fixture, 0), bare);
    g_free(other);
    athlete->avoid_count = 0;
    athlete->holds = &hold;
    athlete->hold_count = 1;
    assert_only_the_line(other = card_of(fixture, 0), bare);
    g_free(other);
    hold.entry_count = 1; /* the end is still missing */
    assert_only_the_line(other = card_of(fixture, 0), bare);
    g_free(other);
    hold.entry_count = 2;
    assert_string_equal(other = card_of(fixture, 0), bare);
    g_free(other);
    fixture->programme.today = day - 4; /* and an entry of the future ends nothing */
    assert_only_the_line(other = card_of(fixture, 0), bare);
    g_free(other);
    g_free(bare);
    fixture_free(fixture);
}

/* Under 18 a coach stands beside, and no age is given. */
static void test_the_line_of_the_young(void **state)
{
    (void)state;
    struct fixture *fixture = fixture_new(1);
    struct athlete *athlete = (struct athlete *)(void *)fixture->programme.athletes[0];
    athlete->born = date_from_ymd(2009, 3, 2); /* 18 tomorrow */
    char *young = card_of(fixture, 0);
    athlete->born = date_from_ymd(2009, 3, 1);
    char *grown = card_of(fixture, 0);
    assert_non_null(strstr(young, "Lift only with a coach beside you."));
    assert_null(strstr(grown, "Lift only with a coach beside you."));
    assert_null(strstr(young, "2009"));
    assert_null(strstr(young, "18"));
    g_free(young);
    g_free(grown);
    fixture_free(fixture);
}

/* The coach's copy alone tells who does what else; neither tells a body mass or a year of birth. */
static void test_floor_and_its_coachs_copy(void **state)
{
    (void)state;
    struct fixture *fixture = fixture_new(4);
    const struct occasion *members[4];
    for (size_t i = 0; i < 4; i++)
        members[i] = &fixture->occasions[i];
    struct sheet_request request = {.arena = fixture->arena,
                                    .type = type,
                                    .programme = &fixture->programme,
                                    .occasions = members,
                                    .count = 4,
                                    .plan = "Harbour final",
                                    .version = "1",
                                    .date_words = "",
                                    .author = ""};
    struct scene *plain = sheet_make(sheet_find("floor"), &request);
    request.coach = true;
    struct scene *coach = sheet_make(sheet_find("floor"), &request);
    const char *name = fixture->occasions[1].athlete->name.shown;
    assert_int_equal(texts_with(plain, name), 0);
    assert_true(texts_with(coach, name) > 0);
    assert_true(texts_with(coach, "goblet squat") > 0);
    for (size_t i = 0; i < 2; i++) {
        struct scene *scene = i ? coach : plain;
        assert_int_equal(scene->problem_count, 0);
        assert_int_equal(texts_with(scene, "58.4"), 0);
        assert_int_equal(texts_with(scene, "2003"), 0);
        assert_true(texts_with(scene, "Stop if: any pain or tingling") > 0);
        assert_true(texts_with(scene, "turn the hip before the arm moves") > 0);
    }
    fixture_free(fixture);
}

/* --- what a plan leaves open --- */

/* What nobody has said: the day's words, the hour, how long it takes, a tempo, a dose, a load, a stance, a cue. */
static struct fixture *vague_fixture(void)
{
    struct fixture *fixture = fixture_new(3);
    for (size_t o = 0; o < fixture->count; o++) {
        struct occasion *occasion = &fixture->occasions[o];
        occasion->clock = -1;
        occasion->seconds = 0;
        fixture->programme.athletes[o]->stance = STANCE_UNKNOWN;
        for (size_t b = 0; b < occasion->block_count; b++)
            for (size_t i = 0; i < occasion->blocks[b].item_count; i++) {
                struct item *item = (struct item *)&occasion->blocks[b].items[i];
                item->runs = NULL;
                item->run_count = 0;
            }
    }
    return fixture;
}

/* A line without a dose still stands on every sheet by its name, and no sheet makes a figure up. */
static void test_what_is_left_open(void **state)
{
    static const char *const kinds[] = {"wall", "board", "card", "card-page", "floor", "week"};
    (void)state;
    for (size_t s = 0; s < sizeof kinds / sizeof *kinds; s++) {
        struct fixture *fixture = vague_fixture();
        const struct occasion *members[] = {&fixture->occasions[0], &fixture->occasions[1], &fixture->occasions[2]};
        struct sheet_request request = {.arena = fixture->arena,
                                        .type = type,
                                        .programme = &fixture->programme,
                                        .occasions = members,
                                        .count = 3,
                                        .coach = true,
                                        .pages = 2,
                                        .plan = "Harbour final",
                                        .version = "",
                                        .date_words = "",
                                        .author = ""};
        struct scene *scene = sheet_make(sheet_find(kinds[s]), &request);
        if (strcmp(kinds[s], "board") == 0)
            assert_int_equal(texts_with(scene, "No line of this session has a load."), 1);
        else
            assert_true(texts_with(scene, "side plank") > 0);
        assert_int_equal(texts_with(scene, " kg"), 0);
        assert_int_equal(texts_with(scene, "RPE 5"), 0);
        assert_int_equal(texts_with(scene, "version"), 0);
        for (size_t p = 0; p < scene->problem_count; p++)
            if (scene->problems[p].kind != PROBLEM_TOO_SMALL) /* nothing lies over another or is cut off */
                fail_msg("%s: %s", kinds[s], scene->problems[p].words);
        fixture_free(fixture);
    }
}

/* --- every sheet in grey --- */

static const enum ink grey_pairs[][2] = {{INK_BLACK, INK_PAPER},
                                         {INK_GREY, INK_PAPER},
                                         {INK_SPOT, INK_PAPER},
                                         {INK_BLACK, INK_DISC_STEEL},
                                         {INK_BLACK, INK_HAIR}};

/* Luminance is what a grey printer keeps, and what contrast is worked out from: each pair that text is printed in
 * stays apart. */
static void test_text_is_read_in_grey(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof grey_pairs / sizeof *grey_pairs; i++)
        assert_true(ink_contrast(grey_pairs[i][0], grey_pairs[i][1]) >= 4.5);
    /* The stances' feet: which is filled tells them apart, so the outline must be seen. */
    assert_true(ink_contrast(INK_SPOT, INK_PAPER) >= 3);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_parts_make_the_poster),
        cmocka_unit_test(test_a_missing_part_is_seen),
        cmocka_unit_test(test_marks_of_parts),
        cmocka_unit_test(test_cards_keep_the_printers_margin),
        cmocka_unit_test(test_the_line_of_the_restricted),
        cmocka_unit_test(test_the_line_of_the_young),
        cmocka_unit_test(test_floor_and_its_coachs_copy),
        cmocka_unit_test(test_what_is_left_open),
        cmocka_unit_test(test_text_is_read_in_grey),
    };
    return cmocka_run_group_tests(tests, open_type, close_type);
}
