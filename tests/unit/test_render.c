/* test_render.c - scenes made into bytes: the same each time, whole, and with all that the plan says. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include <cairo-svg.h>
#include <glib.h>
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/output.h"
#include "figures/mass.h"
#include "layout/paper.h"
#include "layout/sheet.h"
#include "layout/tile.h"
#include "wording/wording.h"
#include "render/cairo_painter.h"
#include "render/outlines.h"
#include "render/pdf_artifacts.h"
#include "render/render.h"
#include "unit/fixture.c"

/* Everything anew, as a second run of the program would: fixture, fonts, scene. */
struct stage {
    struct type *type;
    struct fixture *fixture;
    struct scene *scene;
    struct text out;
};

static struct stage open_stage_on(const char *date_words, const char *sheet, size_t athletes)
{
    const char *wrong = NULL;
    struct stage stage = {.type = type_open(&wrong), .fixture = fixture_new(athletes)};
    const struct occasion *members[FIXTURE_MOST];
    assert_non_null(stage.type);
    for (size_t i = 0; i < athletes; i++)
        members[i] = &stage.fixture->occasions[i];
    struct sheet_request request = {.arena = stage.fixture->arena,
                                    .type = stage.type,
                                    .programme = &stage.fixture->programme,
                                    .occasions = members,
                                    .count = athletes,
                                    .plan = "Harbour & final <1>",
                                    .version = "3f9c2a1",
                                    .date_words = date_words,
                                    .author = "Slipway"};
    stage.scene = sheet_make(sheet_find(sheet), &request);
    return stage;
}

static struct stage open_stage(const char *sheet, size_t athletes)
{
    return open_stage_on("Monday 1 March 2027", sheet, athletes);
}

static void close_stage(struct stage *stage)
{
    text_free(&stage->out);
    fixture_free(stage->fixture);
    type_close(stage->type);
}

/* The PDF of a run of its own, into OUT. */
static void make_pdf(int64_t created, struct text *out)
{
    struct stage stage = open_stage("wall", 5);
    const struct scene *scenes[] = {stage.scene, stage.scene};
    assert_null(render_pdf(scenes, 2, created, out));
    close_stage(&stage);
}

static bool holds(const struct text *text, const char *words)
{
    return g_strstr_len(text->data, (gssize)text->length, words) != NULL;
}

static void test_pdf_is_the_same_twice(void **state)
{
    (void)state;
    struct text one = {0}, two = {0}, dated = {0};
    make_pdf(0, &one);
    make_pdf(0, &two);
    make_pdf(1804000000, &dated);
    assert_int_equal(one.length, two.length);
    assert_memory_equal(one.data, two.data, one.length);
    assert_true(dated.length != one.length || memcmp(dated.data, one.data, one.length) != 0);
    assert_memory_equal(one.data, "%PDF-", 5);
    assert_true(one.length > 20000);
    text_free(&one);
    text_free(&two);
    text_free(&dated);
}

/* The catalogue is packed inside the file, so poppler is asked. */
static void test_pdf_is_tagged_and_named(void **state)
{
    char path[] = "/tmp/bellsheet-test-XXXXXX";
    char command[sizeof path + 16];
    struct text pdf = {0}, told = {0};
    int file = mkstemp(path);
    (void)state;
    make_pdf(0, &pdf);
    assert_true(file >= 0);
    close(file);
    assert_null(output_write(path, pdf.data, pdf.length));
    snprintf(command, sizeof command, "pdfinfo %s", path);
    FILE *info = popen(command, "r");
    assert_non_null(info);
    for (int c; (c = getc(info)) != EOF;)
        text_add_char(&told, (char)c);
    assert_int_equal(pclose(info), 0);
    unlink(path);
    assert_true(holds(&told, "Hips before hands, Monday 1 March 2027"));
    assert_true(holds(&told, "Author:          Slipway"));
    assert_true(g_regex_match_simple("Tagged: +yes", told.data, 0, 0));
    assert_true(g_regex_match_simple("Pages: +[24]", told.data, 0, 0));
    text_free(&pdf);
    text_free(&told);
}

/* What BYTES of a page become, or "refused". */
static const char *marked(struct arena *arena, const char *bytes)
{
    struct text out = {.arena = arena};
    return pdf_mark_artifacts(bytes, strlen(bytes), &out) ? text_keep(arena, &out) : "refused";
}

/* All that stands between marks is marked too, strings are no operators, and what is not as expected is left alone. */
static void test_artifacts_are_marked(void **state)
{
    (void)state;
    struct arena *arena = arena_new();
    assert_string_equal(marked(arena, "1 0 0 -1 0 9 cm\n0 g 2 2 4 4 re f\n/P << /MCID 0 >> BDC\nBT (a EMC \\) BI) Tj ET\nEMC\n1 g 3 3 m S\n"),
                        "/Artifact BMC\n1 0 0 -1 0 9 cm\n0 g 2 2 4 4 re f\nEMC\n/P << /MCID 0 >> BDC\nBT (a EMC \\) BI) Tj ET\nEMC\n"
                        "/Artifact BMC\n1 g 3 3 m S\n\nEMC\n");
    const char *whole = "/P << /MCID 0 >> BDC\n<BDC0> Tj\nEMC\n/H1 << /MCID 1 /X true >> BDC\nS\nEMC\n% EMC EMC\n";
    assert_string_equal(marked(arena, whole), whole);
    /* Strings within strings and cut short, white of all kinds, comments to the end, marks that are no operators. */
    static const struct {
        const char *bytes;
        size_t length;
        const char *wanted;
    } ends[] = {
        {"\t\r\f\0(a (b) c) Tj\n", 16, "\t\r\f"},
        {"(a", 2, "(a"},
        {"(a\\", 3, "(a\\"},
        {"<", 1, "<"},
        {"<ab", 3, "<ab"},
        {"S % to the end", 14, "/Artifact BMC\nS % to the end\nEMC\n"},
        {"% one\rS", 7, "% one\r/Artifact BMC\nS\nEMC\n"},
        {"^ 1 (a) ' (b) \" ~ S", 19, "/Artifact BMC\n^ 1 (a) ' (b) \" ~ S\nEMC\n"},
        {"ET S", 4, "/Artifact BMC\nET S\nEMC\n"},
    };
    for (size_t i = 0; i < sizeof ends / sizeof *ends; i++) {
        struct text out = {.arena = arena};
        assert_true(pdf_mark_artifacts(ends[i].bytes, ends[i].length, &out));
        assert_string_equal(text_keep(arena, &out), ends[i].wanted);
    }
    static const char *const odd[] = {"/P BMC /P BMC S EMC EMC", "EMC", "/P BMC S", "BT /P BMC ET EMC", "/P BMC BT EMC ET", "BT (a) Tj",
                                      "BI /W 1 ID x EI"};
    for (size_t i = 0; i < sizeof odd / sizeof *odd; i++)
        assert_string_equal(marked(arena, odd[i]), "refused");
    arena_free(arena);
}

static void note_element(GMarkupParseContext *context, const gchar *name, const gchar **names,
                         const gchar **values, gpointer data, GError **error)
{
    (void)context;
    (void)error;
    struct text *found = data;
    text_addf(found, "<%s", name);
    for (size_t i = 0; names[i]; i++)
        if (strcmp(name, "svg") == 0)
            text_addf(found, " %s=%s", names[i], values[i]);
}

static void note_text(GMarkupParseContext *context, const gchar *words, gsize length, gpointer data,
                      GError **error)
{
    (void)context;
    (void)error;
    text_add_bytes(data, words, length);
}

static void test_svg_says_what_it_draws(void **state)
{
    (void)state;
    struct stage stage = open_stage("card", 1);
    struct text found = {0};
    GMarkupParser parser = {.start_element = note_element, .text = note_text};
    assert_null(render_svg(stage.scene, 1, &stage.out));
    GMarkupParseContext *context = g_markup_parse_context_new(&parser, 0, &found, NULL);
    assert_true(g_markup_parse_context_parse(context, stage.out.data, (gssize)stage.out.length, NULL));
    assert_true(g_markup_parse_context_end_parse(context, NULL));
    assert_true(holds(&found, "role=img"));
    assert_true(holds(&found, "<titleHips before hands, Oriel Tamsin"));
    assert_true(holds(&found, "<desc"));
    assert_true(holds(&found, "4\302\240orthodox +\302\2404\302\240southpaw"));
    assert_true(holds(&found, "tempo 3-1-X-0"));
    g_markup_parse_context_free(context);
    text_free(&found);
    close_stage(&stage);
}

/* The picture in the file at PATH, or NULL. */
static cairo_surface_t *picture(const char *path)
{
    cairo_surface_t *surface = cairo_image_surface_create_from_png(path);
    assert_int_equal(cairo_surface_status(surface), CAIRO_STATUS_SUCCESS);
    return surface;
}

/* How dark the dot at (X, Y) is; beyond the picture 0, as paper is. What does not cover a dot lets paper through. */
static int darkness(cairo_surface_t *surface, int x, int y)
{
    if (x >= cairo_image_surface_get_width(surface) || y >= cairo_image_surface_get_height(surface))
        return 0;
    const unsigned char *dot = cairo_image_surface_get_data(surface) + y * cairo_image_surface_get_stride(surface) + 4 * x;
    int paper = cairo_image_surface_get_format(surface) == CAIRO_FORMAT_RGB24 ? 0 : 255 - dot[3];
    return 255 - paper - (dot[0] + dot[1] + dot[2]) / 3;
}

/* The same page by cairo's own SVG surface, a library that knows nothing of our writer. */
static void draw_by_cairo(const struct scene *scene, const char *path)
{
    cairo_surface_t *surface = cairo_svg_surface_create(path, scene->width, scene->height);
    cairo_t *cairo = cairo_create(surface);
    struct cairo_painter painter = cairo_painter_on(cairo);
    painter_page(&painter.painter, scene, 1);
    assert_null(cairo_painter_end(cairo, surface));
}

static void paint_svg(const char *svg, const char *png)
{
    char command[300];
    snprintf(command, sizeof command, "rsvg-convert -z 1.5 %s -o %s", svg, png);
    assert_int_equal(system(command), 0);
}

/* How many dots of ONE and OTHER differ by more than BY although all around each are as dark as it in OTHER: away from edges. */
static long inside(cairo_surface_t *one, cairo_surface_t *other, int by)
{
    long dots = 0;
    for (int y = 1; y + 1 < cairo_image_surface_get_height(other); y++)
        for (int x = 1; x + 1 < cairo_image_surface_get_width(other); x++) {
            int here = darkness(other, x, y);
            bool even = abs(here - darkness(one, x, y)) > by;
            for (int i = 0; i < 9 && even; i++)
                even = darkness(other, x - 1 + i % 3, y - 1 + i / 3) == here;
            dots += even;
        }
    return dots;
}

/* Painted alike, ours and cairo's differ in no dot by more than what a tenth of a shaped unit and smoothed edges explain: by no
 * more than a quarter anywhere, and by more than a sixteenth in one of 200 dots at most, all of them at edges. */
static void test_svg_looks_as_painted(void **state)
{
    enum { MUCH = 64, SOME = 16, ONE_IN = 200 };
    static const char *const sheets_tried[] = {"card", "floor", "week", "wall"};
    (void)state;
    for (size_t s = 0; s < sizeof sheets_tried / sizeof *sheets_tried; s++) {
        struct stage stage = open_stage(sheets_tried[s], 1);
        char folder[] = "/tmp/bell-svg-XXXXXX", files[4][64];
        static const char *const names[] = {"ours.svg", "cairos.svg", "ours.png", "cairos.png"};
        assert_non_null(mkdtemp(folder));
        for (int i = 0; i < 4; i++)
            snprintf(files[i], sizeof files[i], "%s/%s", folder, names[i]);
        assert_null(render_svg(stage.scene, 1, &stage.out));
        assert_null(output_write(files[0], text_get(&stage.out), stage.out.length));
        draw_by_cairo(stage.scene, files[1]);
        paint_svg(files[0], files[2]);
        paint_svg(files[1], files[3]);
        cairo_surface_t *one = picture(files[2]), *other = picture(files[3]);
        long dots = 0, much = 0, some = 0, inked = 0;
        for (int y = 0; y < cairo_image_surface_get_height(other); y++)
            for (int x = 0; x < cairo_image_surface_get_width(other); x++, dots++) {
                int a = darkness(one, x, y), b = darkness(other, x, y);
                much += abs(a - b) > MUCH;
                some += abs(a - b) > SOME;
                inked += b > MUCH;
            }
        assert_true(inked > dots / 200);
        assert_int_equal(much, 0);
        if (some * ONE_IN > dots)
            fail_msg("%s: %ld of %ld dots differ by more than %d", sheets_tried[s], some, dots, SOME);
        assert_int_equal(inside(one, other, SOME), 0);
        cairo_surface_destroy(one);
        cairo_surface_destroy(other);
        for (int i = 0; i < 4; i++)
            unlink(files[i]);
        rmdir(folder);
        close_stage(&stage);
    }
}

/* Each outline once, whatever the sizes it is set in, and all that is used is there. */
static void test_svg_has_each_outline_once(void **state)
{
    enum { MOST_BYTES = 80000 };
    struct stage stage = open_stage("card", 1);
    (void)state;
    assert_null(render_svg(stage.scene, 1, &stage.out));
    assert_true(stage.out.length <= MOST_BYTES);
    GHashTable *paths = g_hash_table_new_full(g_str_hash, g_str_equal, g_free, NULL);
    size_t used = 0;
    for (const char *at = text_get(&stage.out); (at = strstr(at, "<path id=\"g")); at++) {
        const char *data = strstr(at, " d=\"");
        assert_true(g_hash_table_add(paths, g_strndup(data, strcspn(data + 4, "\"") + 4)));
    }
    for (const char *at = text_get(&stage.out); (at = strstr(at, "<use href=\"#g")); at++, used++) {
        char id[40];
        snprintf(id, sizeof id, "<path id=\"g%d\"", atoi(at + strlen("<use href=\"#g")));
        assert_non_null(strstr(text_get(&stage.out), id));
    }
    assert_true(used > 200);
    assert_true(g_hash_table_size(paths) > 20);
    g_hash_table_destroy(paths);
    close_stage(&stage);
}

static void test_svg_escapes(void **state)
{
    (void)state;
    struct stage stage = open_stage("card", 1);
    stage.scene->title = "a < b & c";
    assert_null(render_svg(stage.scene, 1, &stage.out));
    assert_true(holds(&stage.out, "<title>a &lt; b &amp; c</title>"));
    close_stage(&stage);
}

/* A private character, which no face has, is drawn by Pango as a box with its number; all is drawn by cairo then. */
static void test_what_no_face_has_is_drawn(void **state)
{
    (void)state;
    struct stage stage = open_stage_on("Monday \363\260\200\200 < March", "card", 1), plain = open_stage("card", 1);
    assert_null(render_svg(stage.scene, 1, &stage.out));
    assert_memory_equal(stage.out.data, "<?xml", 5);
    assert_true(holds(&stage.out, " role=\"img\">\n<title>Hips before hands"));
    assert_true(holds(&stage.out, "&lt; March"));
    assert_true(g_str_has_suffix(text_get(&stage.out), "</svg>\n"));
    assert_null(render_svg(plain.scene, 1, &plain.out));
    assert_true(stage.out.length > 2 * plain.out.length); /* by cairo each letter is there again wherever it is used */
    text_clear(&stage.out);
    assert_null(render_png(stage.scene, 1, 72, &stage.out));
    assert_null(render_png(plain.scene, 1, 72, (text_clear(&plain.out), &plain.out)));
    assert_true(stage.out.length != plain.out.length || memcmp(stage.out.data, plain.out.data, plain.out.length) != 0);
    text_clear(&stage.out);
    const struct scene *scenes[] = {stage.scene};
    assert_null(render_pdf(scenes, 1, 0, &stage.out));
    assert_memory_equal(stage.out.data, "%PDF-", 5);
    close_stage(&plain);
    close_stage(&stage);
}

/* Parts on smaller paper show only what lies in their window. */
static void test_parts_have_a_window(void **state)
{
    (void)state;
    struct stage stage = open_stage("wall", 3);
    struct scene *tiles = tile_scene(stage.scene, stage.type, paper_find("A4"));
    assert_true(tiles->page_count > 1);
    assert_null(render_svg(tiles, 1, &stage.out));
    const char *svg = text_get(&stage.out), *opened = strstr(svg, "<clipPath id=\"window\"><rect");
    assert_non_null(opened);
    const char *used = strstr(opened, "<g clip-path=\"url(#window)\">"), *closed = used ? strstr(used, "</g>") : NULL;
    assert_non_null(closed);
    assert_non_null(strstr(closed, "<g")); /* the marks to cut along lie outside */
    close_stage(&stage);
}

static void test_png(void **state)
{
    (void)state;
    struct stage stage = open_stage("card", 1);
    assert_null(render_png(stage.scene, 1, 72, &stage.out));
    assert_memory_equal(stage.out.data, "\211PNG", 4);
    /* Width and height stand in the header, most significant byte first. */
    assert_int_equal((unsigned char)stage.out.data[18] << 8 | (unsigned char)stage.out.data[19], 298);
    assert_int_equal((unsigned char)stage.out.data[22] << 8 | (unsigned char)stage.out.data[23], 420);
    close_stage(&stage);
}

/* Every exercise, dose and load of one athlete's plan is on the page. */
static void check_content(const struct stage *stage)
{
    const struct occasion *occasion = &stage->fixture->occasions[0];
    struct arena *arena = stage->fixture->arena;
    for (size_t b = 0; b < occasion->block_count; b++) {
        const struct block *block = &occasion->blocks[b];
        assert_true(holds(&stage->out, block->item_count > 1 && block->letter ? wording_rest(arena, block) : wording_block(arena, block)));
        for (size_t i = 0; i < block->item_count; i++) {
            const struct item *item = &block->items[i];
            const struct set_run *run = &item->runs[0];
            char number[MASS_TEXT_SIZE];
            assert_true(holds(&stage->out, item->exercise->name.shown));
            for (size_t p = 0; p < run->part_count; p++)
                assert_true(holds(&stage->out, wording_range(arena, run->parts[p].amount)));
            if (*wording_load_mass(arena, &run->load, false))
                assert_true(holds(&stage->out, mass_format(run->load.made, MASS_IN_KG, number)));
            assert_true(holds(&stage->out, wording_effort(arena, &run->load)));
            if (item->stop)
                assert_true(holds(&stage->out, item->stop));
        }
    }
}

static void test_plain_holds_everything(void **state)
{
    static const char *const kinds[] = {"wall", "card"};
    (void)state;
    for (size_t i = 0; i < sizeof kinds / sizeof *kinds; i++) {
        struct stage stage = open_stage(kinds[i], 1);
        render_plain(stage.scene, &stage.out);
        check_content(&stage);
        close_stage(&stage);
    }
}

/* Numbers are as printf rounds them, without the zeros at their end. */
static void check_number(double number, int places)
{
    char expected[400];
    struct text out = {0};
    snprintf(expected, sizeof expected, "%.*f", places, number);
    if (strchr(expected, '.'))
        for (char *end = expected + strlen(expected); *--end == '0' || *end == '.'; *end = '\0')
            if (*end == '.') {
                *end = '\0';
                break;
            }
    outlines_number(&out, number, places);
    if (strcmp(text_get(&out), strcmp(expected, "-0") == 0 ? "0" : expected) != 0)
        fail_msg("%a in %d places is %s, not %s", number, places, text_get(&out), expected);
    text_free(&out);
}

static void test_numbers_of_svg(void **state)
{
    static const double odd[] = {0, -0.0, -0.0049999, 0.004, -0.004, 0.005, 0.125, 0.375, -0.125, 1.005, 2.675, 0.5, 1.5, 2.5, -2.5, 99.995,
                                 1e5 + 0.5, 1e12, 1e15 + 0.5, -1e300, 100, 1000, 0.1, 0.05, 10.10};
    static const int places[] = {0, 1, 2, 6};
    uint64_t seed = 7;
    (void)state;
    for (size_t p = 0; p < sizeof places / sizeof *places; p++) {
        for (size_t i = 0; i < sizeof odd / sizeof *odd; i++)
            check_number(odd[i], places[p]);
        for (int i = 0; i < 20000; i++) {
            seed = seed * UINT64_C(6364136223846793005) + 1442695040888963407u;
            double number = (double)(int64_t)seed / 9e15; /* within a thousand */
            check_number(i % 2 ? number : round(number * 1000) / 1000, places[p]);
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_pdf_is_the_same_twice),
        cmocka_unit_test(test_pdf_is_tagged_and_named),
        cmocka_unit_test(test_artifacts_are_marked),
        cmocka_unit_test(test_svg_says_what_it_draws),
        cmocka_unit_test(test_svg_looks_as_painted),
        cmocka_unit_test(test_svg_has_each_outline_once),
        cmocka_unit_test(test_svg_escapes),
        cmocka_unit_test(test_what_no_face_has_is_drawn),
        cmocka_unit_test(test_parts_have_a_window),
        cmocka_unit_test(test_numbers_of_svg),
        cmocka_unit_test(test_png),
        cmocka_unit_test(test_plain_holds_everything),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
