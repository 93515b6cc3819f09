/* Lines worked out from one shaping are the lines that Pango breaks. */
#include <stdarg.h>
#include <stddef.h>
#include <setjmp.h>
#include <stdint.h>
#include <math.h>
#include <stdlib.h>
#include <cmocka.h>

#include <pango/pangocairo.h>

#include "base/arena.h"
#include "layout/type.h"

static const char *const texts[] = {
    "turn the hip before the arm moves",
    "half kneeling landmine press from a stance with a catch at the top",
    "90-90 hip switch, then 2 x 8/10/12 each side (own + switched)",
    "Đặng Sương Lụa: ôn lại tư thế trước khi đấm, thở ra đều",
    "Plyometrický odraz stranou – dopad na jednu nohu, ticho",
};

enum { TEXTS = sizeof texts / sizeof *texts };

static struct type *open_type(void)
{
    const char *wrong;
    struct type *type = type_open(&wrong);
    if (!type)
        fail_msg("%s", wrong);
    return type;
}

/* A context of Pango's own, over the fonts that a typesetter has opened. */
static PangoContext *open_pango(void)
{
    PangoFontMap *map = pango_cairo_font_map_new_for_font_type(CAIRO_FONT_TYPE_FT);
    pango_cairo_font_map_set_resolution(PANGO_CAIRO_FONT_MAP(map), 72);
    PangoContext *context = pango_font_map_create_context(map);
    cairo_font_options_t *options = cairo_font_options_create();
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    pango_cairo_context_set_font_options(context, options);
    pango_context_set_round_glyph_positions(context, FALSE);
    cairo_font_options_destroy(options);
    g_object_unref(map);
    return context;
}

/* A thread of Pango's may hold on to the map a little longer, and cairo does not end while its fonts are held. */
static void close_pango(PangoContext *context)
{
    PangoFontMap *map = g_object_ref(pango_context_get_font_map(context));
    g_object_unref(context);
    for (int i = 0; i < 100000 && g_atomic_int_get((const gint *)&G_OBJECT(map)->ref_count) > 1; i++)
        g_usleep(100);
    g_object_unref(map);
}

static PangoLayout *pango_lines(PangoContext *context, const char *text, struct typesetting setting)
{
    PangoFontDescription *face = pango_font_description_from_string("Roboto Condensed");
    pango_font_description_set_absolute_size(face, setting.size * PANGO_SCALE);
    PangoLayout *layout = pango_layout_new(context);
    pango_layout_set_font_description(layout, face);
    pango_layout_set_width(layout, (int)(setting.width * PANGO_SCALE));
    if (setting.leading > 0)
        pango_layout_set_line_spacing(layout, (float)setting.leading);
    pango_layout_set_text(layout, text, -1);
    pango_font_description_free(face);
    return layout;
}

static double points(int units)
{
    return (double)units / PANGO_SCALE;
}

/* What is set in lines is what Pango sets, or one line more where a line fits by a hair. True where it is the same. */
static bool same_lines(struct type *type, PangoContext *pango, const char *text, struct typesetting setting)
{
    PangoLayout *layout = pango_lines(pango, text, setting);
    struct text_run run = type_set(type, text, setting);
    int lines = pango_layout_get_line_count(layout);
    bool same = run.lines == lines;
    PangoRectangle ink, logical;
    pango_layout_get_extents(layout, &ink, &logical);
    assert_in_range(run.lines - lines, 0, 1);
    if (same) {
        assert_true(fabs(run.width - points(logical.width)) < 1);
        assert_true(fabs(run.height - points(logical.height)) < 0.1);
        assert_true(fabs(run.baseline - points(pango_layout_get_baseline(layout))) < 0.1);
    }
    g_object_unref(layout);
    return same;
}

static void agrees_with_pango(void **state)
{
    (void)state;
    struct type *type = open_type();
    PangoContext *pango = open_pango();
    int compared = 0, one_more = 0;
    for (size_t i = 0; i < TEXTS; i++) {
        double whole = type_width(type, texts[i], 17, WEIGHT_REGULAR);
        for (double width = whole / 4; width < whole; width += 3) {
            struct typesetting setting = {.size = 17, .width = width, .whole_words = true, .leading = 0.9};
            one_more += !same_lines(type, pango, texts[i], setting);
            compared++;
        }
    }
    assert_true(compared > 300);
    assert_true(one_more * 50 < compared); /* by a hair, in one of fifty widths */
    close_pango(pango);
    type_close(type);
}

/* What is tried is as high as what is then set. */
static void trial_is_as_high(void **state)
{
    (void)state;
    struct arena *arena = arena_new();
    struct type *type = open_type();
    for (size_t i = 0; i < TEXTS; i++) {
        struct typesetting setting = {.size = 17, .whole_words = true, .leading = 0.9};
        double whole = type_width(type, texts[i], 17, WEIGHT_REGULAR);
        for (setting.width = whole / 4; setting.width < whole; setting.width += 11) {
            type_try(type, arena);
            struct text_run tried = type_set(type, texts[i], setting);
            type_try_end(type);
            struct text_run set = type_set(type, texts[i], setting);
            assert_int_equal(tried.lines, set.lines);
            assert_true(fabs(tried.height - set.height) < 0.001);
            assert_true(fabs(tried.baseline - set.baseline) < 0.001);
            assert_true(fabs(tried.last_baseline - set.last_baseline) < 0.001);
        }
    }
    arena_free(arena);
    type_close(type);
}

static int glyph_count(const struct text_run *run)
{
    int count = 0;
    for (size_t i = 0; i < run->count; i++)
        count += run->glyphs[i].count;
    return count;
}

/* Lines that are parted draw every glyph of the text once, and none beyond the width. */
static void parted_lines_are_whole(void **state)
{
    (void)state;
    struct type *type = open_type();
    for (size_t i = 0; i < TEXTS; i++) {
        struct text_run line = type_set(type, texts[i], (struct typesetting){.size = 64});
        for (double width = line.width / 4; width < line.width; width += 40) {
            struct text_run run = type_set(type, texts[i], (struct typesetting){.size = 64, .width = width, .whole_words = true});
            assert_int_equal(glyph_count(&run), glyph_count(&line));
            assert_true((int)run.count >= run.lines);
            for (size_t g = 0; g < run.count; g++)
                assert_in_range(run.glyphs[g].items[0].x + run.glyphs[g].x, 0, fmax(width, run.width));
        }
    }
    type_close(type);
}

static void other_scripts_are_left_to_pango(void **state)
{
    (void)state;
    struct type *type = open_type();
    static const char *const others[] = {"مرحبا بالعالم مرحبا بالعالم", "สวัสดีชาวโลกสวัสดีชาวโลก"};
    for (size_t i = 0; i < sizeof others / sizeof *others; i++) {
        double whole = type_width(type, others[i], 17, WEIGHT_REGULAR);
        PangoContext *pango = open_pango(); /* with the fonts there are now */
        for (double width = whole / 2; width < whole; width += 7) {
            struct typesetting setting = {.size = 17, .width = width};
            assert_true(same_lines(type, pango, others[i], setting));
            assert_true(type_set(type, others[i], setting).count > 0);
        }
        close_pango(pango);
    }
    assert_int_equal(type_set(type, "two\nparagraphs", (struct typesetting){.size = 17}).lines, 2);
    type_close(type);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(agrees_with_pango),
        cmocka_unit_test(trial_is_as_high),
        cmocka_unit_test(parted_lines_are_whole),
        cmocka_unit_test(other_scripts_are_left_to_pango),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
