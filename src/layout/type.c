#include "layout/type.h"

#include <glib.h>
#include <harfbuzz/hb-ot.h>
#include <pango/pangocairo.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/bidi.h"
#include "base/text.h"
#include "layout/breaks.h"
#include "layout/fonts.h"
#include "layout/text_line.h"

#define FAMILY "Roboto Condensed"


/* The size in points in which every text is shaped and from which others are worked out: without hinting everything
 * scales evenly. So a face needs one font of Pango's and cairo's, and a text is shaped once. */
static const double SHAPED = 64;

/* Runs and what they were measured for. */
struct store {
    struct arena *arena;
    GHashTable *runs;   /* a set of struct kept_run */
    GPtrArray *layouts; /* those that runs still need */
};

struct type {
    struct fonts files;
    PangoAttrList *attributes; /* of every text */
    GPtrArray *maps;      /* of PangoFontMap; the last is in use */
    PangoContext *context;
    PangoFontDescription *faces[2]; /* by weight */
    GPtrArray *fonts;     /* of cairo_scaled_font_t */
    double capital;
    struct store kept;
    struct store trial;   /* what is only being tried */
    bool trying;
};

/* A run in SHAPED and what it was measured for, lengths in SHAPED too. */
struct kept_run {
    const char *text;
    struct typesetting setting;
    struct text_run run;
    const struct breaks *breaks; /* of a run on one line that needed no layout, else NULL */
};

/* Lengths differ if they differ by a thousandth of a point. */
static guint thousandths(double value)
{
    return (guint)(value * 1000 + 0.5);
}

static guint kept_hash(gconstpointer data)
{
    const struct kept_run *kept = data;
    const struct typesetting *setting = &kept->setting;
    guint hash = (guint)text_hash(0, kept->text, strlen(kept->text));
    hash = hash * 31 + thousandths(setting->width);
    return hash * 31 + (guint)setting->weight * 2 + setting->whole_words;
}

static gboolean kept_equal(gconstpointer one, gconstpointer other)
{
    const struct typesetting *a = &((const struct kept_run *)one)->setting;
    const struct typesetting *b = &((const struct kept_run *)other)->setting;
    return thousandths(a->width) == thousandths(b->width) &&
           thousandths(a->leading) == thousandths(b->leading) && a->weight == b->weight &&
           a->lines == b->lines && a->whole_words == b->whole_words &&
           strcmp(((const struct kept_run *)one)->text, ((const struct kept_run *)other)->text) == 0;
}

static struct store store_new(void)
{
    return (struct store){arena_new(), g_hash_table_new(kept_hash, kept_equal),
                          g_ptr_array_new_with_free_func(g_object_unref)};
}

static void store_free(struct store *store)
{
    g_hash_table_destroy(store->runs);
    g_ptr_array_free(store->layouts, TRUE);
    arena_free(store->arena);
}

/* A fresh font map and context over the configuration as it is now: a map does not notice files added
 * behind its back. Layouts made before keep the map they were made with. */
static void make_context(struct type *type)
{
    PangoFontMap *map = pango_cairo_font_map_new_for_font_type(CAIRO_FONT_TYPE_FT);
    g_clear_object(&type->context);
    g_ptr_array_add(type->maps, map);
    pango_cairo_font_map_set_resolution(PANGO_CAIRO_FONT_MAP(map), 72);
    type->context = pango_font_map_create_context(map);
    cairo_font_options_t *options = cairo_font_options_create();
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    pango_cairo_context_set_font_options(type->context, options);
    cairo_font_options_destroy(options);
    pango_context_set_round_glyph_positions(type->context, FALSE);
    pango_context_set_language(type->context, pango_language_from_string("en"));
    pango_context_set_base_dir(type->context, PANGO_DIRECTION_LTR);
}

static PangoFontDescription *face_new(PangoWeight weight)
{
    PangoFontDescription *face = pango_font_description_from_string(FAMILY);
    pango_font_description_set_absolute_size(face, SHAPED * PANGO_SCALE);
    pango_font_description_set_weight(face, weight);
    return face;
}

/* Capital height over size from the regular face's OS/2 table. */
static double measure_capital(struct type *type)
{
    PangoFont *font = pango_context_load_font(type->context, type->faces[WEIGHT_REGULAR]);
    hb_font_t *shaped = pango_font_get_hb_font(font);
    hb_face_t *face = hb_font_get_face(shaped);
    hb_font_t *plain = hb_font_create(face); /* scaled to the em, not to Pango's units */
    hb_position_t height = 0;
    double share = 0.7;
    if (hb_ot_metrics_get_position(plain, HB_OT_METRICS_TAG_CAP_HEIGHT, &height) && height > 0)
        share = (double)height / hb_face_get_upem(face);
    hb_font_destroy(plain);
    g_object_unref(font);
    return share;
}

/* No ligatures: what reads a PDF aloud by its tags stops at one, and searches miss it. */
static PangoAttrList *attributes_new(void)
{
    PangoAttrList *attributes = pango_attr_list_new();
    pango_attr_list_insert(attributes, pango_attr_font_features_new("liga=0"));
    return attributes;
}

struct type *type_open(const char **wrong)
{
    struct type *type = memory_get(sizeof *type);
    *type = (struct type){0};
    *wrong = fonts_open(&type->files);
    if (*wrong) {
        free(type);
        return NULL;
    }
    type->attributes = attributes_new();
    type->kept = store_new();
    type->trial = store_new();
    type->maps = g_ptr_array_new_with_free_func(g_object_unref);
    type->fonts = g_ptr_array_new_with_free_func((GDestroyNotify)cairo_scaled_font_destroy);
    type->faces[WEIGHT_REGULAR] = face_new(PANGO_WEIGHT_NORMAL);
    type->faces[WEIGHT_BOLD] = face_new(PANGO_WEIGHT_BOLD);
    make_context(type);
    type->capital = measure_capital(type);
    return type;
}

void type_close(struct type *type)
{
    if (!type)
        return;
    store_free(&type->kept);
    store_free(&type->trial);
    g_ptr_array_free(type->fonts, TRUE);
    for (size_t i = 0; i < sizeof type->faces / sizeof *type->faces; i++)
        pango_font_description_free(type->faces[i]);
    pango_attr_list_unref(type->attributes);
    g_object_unref(type->context);
    g_ptr_array_free(type->maps, TRUE);
    fonts_close(&type->files);
    free(type);
}

double type_capital(const struct type *type)
{
    return type->capital;
}

/* STYLE's lengths are in SHAPED. */
static PangoLayout *lay_out(struct type *type, const char *text, const struct typesetting *setting)
{
    PangoLayout *layout = pango_layout_new(type->context);
    pango_layout_set_font_description(layout, type->faces[setting->weight]);
    pango_layout_set_attributes(layout, type->attributes);
    if (setting->leading > 0)
        pango_layout_set_line_spacing(layout, (float)setting->leading);
    pango_layout_set_text(layout, text, -1);
    if (bidi_is_isolated(text)) /* Pango goes by the first letter, isolated or not */
        pango_layout_set_auto_dir(layout, FALSE);
    if (setting->width <= 0)
        return layout;
    pango_layout_set_width(layout, (int)(setting->width * PANGO_SCALE));
    pango_layout_set_wrap(layout, setting->whole_words ? PANGO_WRAP_WORD : PANGO_WRAP_WORD_CHAR);
    if (setting->lines > 0) {
        pango_layout_set_height(layout, -setting->lines);
        pango_layout_set_ellipsize(layout, PANGO_ELLIPSIZE_END);
    }
    /* Pango turns alignment round for right-to-left text; a name in a column starts where the others do. */
    if (pango_layout_get_direction(layout, 0) == PANGO_DIRECTION_RTL)
        pango_layout_set_alignment(layout, PANGO_ALIGN_RIGHT);
    return layout;
}

static double points(int units)
{
    return (double)units / PANGO_SCALE;
}

static int last_baseline(PangoLayout *layout)
{
    PangoLayoutIter *iter = pango_layout_get_iter(layout);
    while (pango_layout_iter_next_line(iter))
        continue;
    int baseline = pango_layout_iter_get_baseline(iter);
    pango_layout_iter_free(iter);
    return baseline;
}

static struct text_run measure(struct type *type, PangoLayout *layout)
{
    PangoRectangle ink, logical;
    pango_layout_get_extents(layout, &ink, &logical);
    int lines = pango_layout_get_line_count(layout), baseline = pango_layout_get_baseline(layout);
    return (struct text_run){
        .width = points(logical.width),
        .height = points(logical.height),
        .baseline = points(baseline),
        .last_baseline = points(lines > 1 ? last_baseline(layout) : baseline),
        .capital = type->capital * SHAPED,
        .ink_x = points(ink.x),
        .ink_y = points(ink.y),
        .ink_width = points(ink.width),
        .ink_height = points(ink.height),
        .lines = lines,
        .ellipsised = pango_layout_is_ellipsized(layout),
        .unknown = pango_layout_get_unknown_glyphs_count(layout),
        .scale = 1,
    };
}

static struct kept_run *keep(struct store *store, const struct kept_run *wanted)
{
    struct kept_run *kept = arena_alloc(store->arena, sizeof *kept);
    *kept = *wanted;
    kept->text = arena_copy(store->arena, wanted->text, strlen(wanted->text));
    g_hash_table_add(store->runs, kept);
    return kept;
}

/* Most texts are this: one line of letters that need no layout. */
static bool shape_line(struct type *type, struct store *into, struct kept_run *kept)
{
    struct text_line line;
    pango_context_set_font_description(type->context, type->faces[kept->setting.weight]);
    if (!line_shape(into->arena, type->context, type->attributes, kept->text, type->fonts, &line))
        return false;
    kept->breaks = line.breaks;
    kept->run = (struct text_run){
        .width = points(line.logical.width),
        .height = points(line.logical.height),
        .baseline = points(line.baseline),
        .last_baseline = points(line.baseline),
        .capital = type->capital * SHAPED,
        .ink_x = points(line.ink.x),
        .ink_y = points(line.ink.y),
        .ink_width = points(line.ink.width),
        .ink_height = points(line.ink.height),
        .lines = 1,
        .glyphs = line.glyphs.items,
        .count = line.glyphs.count,
        .scale = 1,
    };
    return true;
}

static struct kept_run *shape(struct type *type, struct store *into, const struct kept_run *wanted)
{
    if (fonts_cover(&type->files, wanted->text))
        make_context(type);
    struct kept_run *kept = keep(into, wanted);
    if (kept->setting.width <= 0 && shape_line(type, into, kept))
        return kept;
    PangoLayout *layout = lay_out(type, kept->text, &kept->setting);
    kept->run = measure(type, layout);
    kept->run.glyphs = glyphs_of(into->arena, layout, kept->text, type->fonts, &kept->run.count);
    if (kept->run.unknown) {
        g_ptr_array_add(into->layouts, layout);
        kept->run.layout = layout;
    } else {
        g_object_unref(layout);
    }
    return kept;
}

/* TEXT on one line, or with its own ends of lines. */
static const struct kept_run *whole(struct type *type, const char *text, enum weight weight, double leading)
{
    struct kept_run wanted = {.text = text, .setting = {.weight = weight, .leading = leading}};
    const struct kept_run *kept = g_hash_table_lookup(type->kept.runs, &wanted);
    return kept ? kept : shape(type, &type->kept, &wanted);
}

/* Where lines of STYLE follow one another. */
struct pitch {
    double baseline, step; /* of the first line, and from one to the next */
    double height;         /* of two lines */
};

static struct pitch pitch_of(struct type *type, const struct typesetting *setting)
{
    const struct text_run *two = &whole(type, "x\nx", setting->weight, setting->leading)->run;
    return (struct pitch){two->baseline, two->last_baseline - two->baseline, two->height};
}

/* WHOLE in LINES lines, the widest of them WIDEST. */
static struct text_run parted(const struct text_run *whole, int lines, double widest, struct pitch pitch)
{
    struct text_run run = *whole;
    double rest = (lines - 1) * pitch.step, lower = pitch.baseline - whole->baseline;
    run.lines = lines;
    run.width = widest;
    if (lines > 1)
        run.ink_width = widest - run.ink_x;
    run.ink_height += rest;
    run.ink_y += lower;
    run.height = pitch.height + rest - pitch.step;
    run.baseline = pitch.baseline;
    run.last_baseline = pitch.baseline + rest;
    run.glyphs = NULL;
    run.count = 0;
    return run;
}

/* The glyphs of RUN, which is WHOLE in lines no wider than WIDTH. */
static void part_glyphs(struct arena *arena, const struct kept_run *whole, double width, struct pitch pitch,
                        struct text_run *run)
{
    const struct breaks *breaks = whole->breaks;
    struct glyph_list list = {0};
    double y = pitch.baseline - whole->run.baseline;
    const char *from = whole->text;
    for (size_t first = 0; first < breaks->count; y += pitch.step) {
        struct broken_line line = breaks_line(breaks, first, width);
        const char *end = breaks->items[line.end - 1].behind;
        glyphs_between(arena, whole->run.glyphs, whole->run.count, from, end, -line.start, y, &list);
        from = end;
        first = line.end;
    }
    run->glyphs = list.items;
    run->count = list.count;
}

/* Lines are filled to a hair less than their width, and this is the hair. */
static const double NEARLY = 0.9995;

/* RUN is set to WANTED, which is too wide for one line: WHOLE parted where its words end, without its glyphs. False
 * where only Pango can tell. */
static bool part(struct type *type, const struct kept_run *whole, const struct kept_run *wanted, struct text_run *run)
{
    const struct typesetting *setting = &wanted->setting;
    const struct breaks *breaks = whole->breaks;
    double widest, width = setting->width * NEARLY;
    if (!breaks)
        return false;
    int lines = breaks_lines(breaks, width, &widest);
    if ((setting->lines > 0 && lines > setting->lines) || (!setting->whole_words && widest > width) ||
        (lines < 2 && breaks->count > 1))
        return false;
    *run = parted(&whole->run, lines, widest, pitch_of(type, setting));
    return true;
}

/* WANTED as it is to be drawn. */
static struct text_run set_for_good(struct type *type, const struct kept_run *whole, const struct kept_run *wanted)
{
    struct kept_run *kept = g_hash_table_lookup(type->kept.runs, wanted);
    struct text_run run;
    if (kept)
        return kept->run;
    if (!part(type, whole, wanted, &run))
        return shape(type, &type->kept, wanted)->run;
    kept = keep(&type->kept, wanted);
    part_glyphs(type->kept.arena, whole, wanted->setting.width * NEARLY, pitch_of(type, &wanted->setting), &run);
    kept->run = run;
    return run;
}

/* WANTED as it would be. Splitting it is quicker than finding it. */
static struct text_run set_to_try(struct type *type, const struct kept_run *whole, const struct kept_run *wanted)
{
    struct text_run run;
    if (part(type, whole, wanted, &run))
        return run;
    const struct kept_run *kept = g_hash_table_lookup(type->kept.runs, wanted);
    if (!kept)
        kept = g_hash_table_lookup(type->trial.runs, wanted);
    return kept ? kept->run : shape(type, &type->trial, wanted)->run;
}

/* RUN in another size. */
static struct text_run scaled(struct text_run run, double by)
{
    run.width *= by;
    run.height *= by;
    run.baseline *= by;
    run.last_baseline *= by;
    run.capital *= by;
    run.ink_x *= by;
    run.ink_y *= by;
    run.ink_width *= by;
    run.ink_height *= by;
    run.scale *= by;
    return run;
}

struct text_run type_set(struct type *type, const char *text, struct typesetting setting)
{
    double by = setting.size / SHAPED;
    const struct kept_run *line = whole(type, text, setting.weight, 0);
    if (setting.width <= 0 || line->run.width * by < setting.width - 0.01)
        return scaled(line->run, by);
    struct kept_run wanted = {.text = text, .setting = setting};
    wanted.setting.size = 0;
    wanted.setting.width = setting.width / by;
    struct text_run run = type->trying ? set_to_try(type, line, &wanted) : set_for_good(type, line, &wanted);
    return scaled(run, by);
}

struct arena *type_try(struct type *type, const struct arena *like)
{
    type->trying = true;
    arena_speak(type->trial.arena, arena_language(like));
    return type->trial.arena;
}

void type_try_end(struct type *type)
{
    type->trying = false;
    g_hash_table_remove_all(type->trial.runs);
    g_ptr_array_set_size(type->trial.layouts, 0);
    arena_reset(type->trial.arena);
}

double type_width(struct type *type, const char *text, double size, enum weight weight)
{
    return whole(type, text, weight, 0)->run.width * (size / SHAPED);
}
