#include "layout/type.h"

#include <fontconfig/fontconfig.h>
#include <glib.h>
#include <harfbuzz/hb-ot.h>
#include <pango/pangocairo.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "layout/breaks.h"
#include "layout/fonts.h"

#define FAMILY "Roboto Condensed"

enum { PATH_SIZE = 512 };

struct type {
    FcConfig *config;
    FcCharSet *pinned;    /* characters the pinned family has */
    FcCharSet *met;       /* characters it lacks that were already looked for */
    GPtrArray *maps;      /* of PangoFontMap; the last is in use */
    PangoContext *context;
    double capital;
    GHashTable *runs;     /* a set of struct kept_run */
    GHashTable *trial;    /* the same, for what is only being tried; NULL outside a trial */
    struct arena *scaled; /* runs of a trial that were measured in another size */
};

/* A measured run and what it was measured for. */
struct kept_run {
    struct style style;
    struct run run;
    struct breaks *breaks; /* NULL until they are asked for */
    char text[];
};

static void kept_free(gpointer data)
{
    struct kept_run *kept = data;
    g_object_unref(kept->run.layout);
    free(kept->breaks);
    free(kept);
}

/* Sizes and widths are told apart by thousandths of a point. */
static guint thousandths(double value)
{
    return (guint)(value * 1000 + 0.5);
}

static guint kept_hash(gconstpointer data)
{
    const struct kept_run *kept = data;
    const struct style *style = &kept->style;
    guint hash = g_str_hash(kept->text);
    hash = hash * 31 + thousandths(style->size);
    hash = hash * 31 + thousandths(style->width);
    return hash * 31 + (guint)style->weight * 2 + style->whole_words;
}

static gboolean kept_equal(gconstpointer one, gconstpointer other)
{
    const struct style *a = &((const struct kept_run *)one)->style;
    const struct style *b = &((const struct kept_run *)other)->style;
    return thousandths(a->size) == thousandths(b->size) &&
           thousandths(a->width) == thousandths(b->width) &&
           thousandths(a->leading) == thousandths(b->leading) && a->weight == b->weight &&
           a->align == b->align && a->lines == b->lines && a->whole_words == b->whole_words &&
           strcmp(((const struct kept_run *)one)->text, ((const struct kept_run *)other)->text) == 0;
}

static struct kept_run *kept_new(const char *text, const struct style *style)
{
    size_t length = strlen(text);
    struct kept_run *kept = memory_get(sizeof *kept + length + 1);
    *kept = (struct kept_run){.style = *style};
    memcpy(kept->text, text, length + 1);
    return kept;
}

static GHashTable *runs_new(void)
{
    return g_hash_table_new_full(kept_hash, kept_equal, NULL, kept_free);
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

/* Capital height over size from the regular face's OS/2 table. */
static double measure_capital(struct type *type)
{
    PangoFontDescription *wanted = pango_font_description_from_string(FAMILY);
    pango_font_description_set_absolute_size(wanted, 1000 * PANGO_SCALE);
    PangoFont *font = pango_context_load_font(type->context, wanted);
    pango_font_description_free(wanted);
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

/* All characters of the files in the configuration. */
static FcCharSet *covered(FcConfig *config)
{
    FcCharSet *all = FcCharSetCreate();
    FcFontSet *fonts = FcConfigGetFonts(config, FcSetApplication);
    for (int i = 0; fonts && i < fonts->nfont; i++) {
        FcCharSet *of_font;
        if (FcPatternGetCharSet(fonts->fonts[i], FC_CHARSET, 0, &of_font) == FcResultMatch)
            FcCharSetMerge(all, of_font, NULL);
    }
    return all;
}

static const char *add_pinned(FcConfig *config)
{
    static char wrong[256];
    for (size_t i = 0; i < fonts_pinned_count; i++) {
        char path[PATH_SIZE];
        if (font_path(&fonts_pinned[i], path, sizeof path) &&
            FcConfigAppFontAddFile(config, (const FcChar8 *)path))
            continue;
        snprintf(wrong, sizeof wrong,
                 "the font file %s is missing; the Debian package %s brings it",
                 fonts_pinned[i].file, fonts_pinned[i].package);
        return wrong;
    }
    return NULL;
}

struct type *type_open(const char **wrong)
{
    struct type *type = memory_get(sizeof *type);
    *type = (struct type){.config = FcConfigCreate()};
    *wrong = add_pinned(type->config);
    if (*wrong) {
        FcConfigDestroy(type->config);
        FcFini();
        free(type);
        return NULL;
    }
    FcConfigSetCurrent(type->config);
    type->pinned = covered(type->config);
    type->met = FcCharSetCreate();
    type->runs = runs_new();
    type->maps = g_ptr_array_new();
    make_context(type);
    type->capital = measure_capital(type);
    return type;
}

/* Ends a font map. A thread of Pango's looks fonts up and holds on to the map until it has found them, so this waits
 * (a second at most) to be the last. False where it was not: something of the map is still in use. */
static bool end_map(PangoFontMap *map)
{
    const gint *holders = (const gint *)&G_OBJECT(map)->ref_count;
    int patience = 10000;
    while (g_atomic_int_get(holders) > 1 && patience-- > 0)
        g_usleep(100);
    bool last = g_atomic_int_get(holders) == 1;
    g_object_unref(map);
    return last;
}

void type_close(struct type *type)
{
    if (!type)
        return;
    bool idle = true;
    g_hash_table_destroy(type->runs);
    g_object_unref(type->context);
    for (guint i = 0; i < type->maps->len; i++)
        idle = end_map(type->maps->pdata[i]) && idle;
    g_ptr_array_free(type->maps, TRUE);
    pango_cairo_font_map_set_default(NULL);
    FcCharSetDestroy(type->pinned);
    FcCharSetDestroy(type->met);
    FcConfigSetCurrent(NULL);
    FcConfigDestroy(type->config);
    /* Both end the program where something of theirs is still held. */
    if (idle) {
        cairo_debug_reset_static_data();
        FcFini();
    }
    free(type);
}

double type_capital(const struct type *type)
{
    return type->capital;
}

/* Adds the first file that has CHARACTER, with its bold face where there is one. */
static bool add_fallback(struct type *type, gunichar character)
{
    struct font_file files[FONT_CANDIDATES];
    size_t n = font_candidates(character, files);
    for (size_t i = 0; i < n; i++) {
        char path[PATH_SIZE];
        if (!font_path(&files[i], path, sizeof path) ||
            !FcConfigAppFontAddFile(type->config, (const FcChar8 *)path))
            continue;
        char *end = strstr(path, "-Regular.ttf");
        if (end && strstr(path, "Noto")) {
            memcpy(end, "-Bold.ttf", sizeof "-Bold.ttf");
            FcConfigAppFontAddFile(type->config, (const FcChar8 *)path);
        }
        FcCharSet *now = covered(type->config);
        bool has = FcCharSetHasChar(now, character);
        FcCharSetDestroy(type->pinned);
        type->pinned = now;
        if (has)
            return true;
    }
    return false;
}

/* Sees to it that the configuration has every character of TEXT that any file here has. */
static void cover(struct type *type, const char *text)
{
    bool added = false;
    for (const char *p = text; *p; p = g_utf8_next_char(p)) {
        if ((unsigned char)*p < 0x80)
            continue;
        gunichar c = g_utf8_get_char(p);
        if (FcCharSetHasChar(type->pinned, c) || FcCharSetHasChar(type->met, c) ||
            g_unichar_iszerowidth(c))
            continue;
        FcCharSetAddChar(type->met, c);
        added = add_fallback(type, c) || added;
    }
    if (added)
        make_context(type);
}

static PangoLayout *lay_out(struct type *type, const char *text, const struct style *style)
{
    static const PangoAlignment alignments[] = {PANGO_ALIGN_LEFT, PANGO_ALIGN_CENTER,
                                                PANGO_ALIGN_RIGHT};
    PangoLayout *layout = pango_layout_new(type->context);
    PangoFontDescription *font = pango_font_description_from_string(FAMILY);
    pango_font_description_set_absolute_size(font, style->size * PANGO_SCALE);
    pango_font_description_set_weight(font, style->weight == WEIGHT_BOLD ? PANGO_WEIGHT_BOLD
                                                                         : PANGO_WEIGHT_NORMAL);
    pango_layout_set_font_description(layout, font);
    pango_font_description_free(font);
    if (style->width > 0) {
        pango_layout_set_width(layout, (int)(style->width * PANGO_SCALE));
        pango_layout_set_wrap(layout, style->whole_words ? PANGO_WRAP_WORD : PANGO_WRAP_WORD_CHAR);
    }
    if (style->lines > 0) {
        pango_layout_set_height(layout, -style->lines);
        pango_layout_set_ellipsize(layout, PANGO_ELLIPSIZE_END);
    }
    if (style->leading > 0)
        pango_layout_set_line_spacing(layout, (float)style->leading);
    pango_layout_set_text(layout, text, -1);
    /* Pango turns alignment round for right-to-left text; a name in a column starts where the others do. */
    bool turned = pango_layout_get_direction(layout, 0) == PANGO_DIRECTION_RTL;
    if (style->width > 0)
        pango_layout_set_alignment(layout, alignments[turned ? ALIGN_END - style->align : style->align]);
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

static struct run measure(struct type *type, const char *text, const struct style *style)
{
    PangoLayout *layout = lay_out(type, text, style);
    PangoRectangle ink, logical;
    pango_layout_get_extents(layout, &ink, &logical);
    return (struct run){
        .layout = layout,
        .width = points(logical.width),
        .height = points(logical.height),
        .baseline = points(pango_layout_get_baseline(layout)),
        .last_baseline = points(last_baseline(layout)),
        .capital = type->capital * style->size,
        .ink_x = points(ink.x),
        .ink_y = points(ink.y),
        .ink_width = points(ink.width),
        .ink_height = points(ink.height),
        .lines = pango_layout_get_line_count(layout),
        .ellipsised = pango_layout_is_ellipsized(layout),
        .unknown = pango_layout_get_unknown_glyphs_count(layout),
    };
}

static struct kept_run *look_up(struct type *type, GHashTable *into, const char *text,
                                const struct style *style)
{
    struct kept_run *wanted = kept_new(text, style);
    struct kept_run *kept = g_hash_table_lookup(type->runs, wanted);
    if (!kept && into != type->runs)
        kept = g_hash_table_lookup(into, wanted);
    if (kept) {
        free(wanted);
        return kept;
    }
    cover(type, text);
    wanted->run = measure(type, text, style);
    g_hash_table_add(into, wanted);
    return wanted;
}

/* The size that others are worked out from: without hinting all of a text grows alike. */
static const double MEASURED = 64;

/* RUN at MEASURED as it is at SIZE; not to be painted. */
static struct run *scaled(struct type *type, const struct run *measured, double size)
{
    struct run *run = arena_alloc(type->scaled, sizeof *run);
    double by = size / MEASURED;
    *run = *measured;
    run->layout = NULL;
    double *const lengths[] = {&run->width,    &run->height,    &run->baseline,
                               &run->capital,  &run->ink_x,     &run->ink_y,
                               &run->ink_width, &run->ink_height, &run->last_baseline};
    for (size_t i = 0; i < sizeof lengths / sizeof *lengths; i++)
        *lengths[i] *= by;
    return run;
}

/* LINE, a text on one line at MEASURED, in lines of STYLE's width: NULL where only Pango can tell. A run that fits by
 * a hair is taken to need one more line, so that what is painted is never the taller. */
static const struct run *broken_run(struct type *type, struct kept_run *line, const struct style *style)
{
    static const double nearly = 0.9995;
    if (!line->breaks)
        line->breaks = breaks_find(line->run.layout);
    if (!line->breaks->plain)
        return NULL;
    double widest, width = style->width * MEASURED / style->size * nearly;
    int lines = breaks_lines(line->breaks, width, &widest);
    if ((style->lines > 0 && lines > style->lines) || (!style->whole_words && widest > width) || lines < 2)
        return NULL;
    const struct style two_lines = {.size = MEASURED, .weight = style->weight, .leading = style->leading};
    const struct run *two = &look_up(type, type->runs, "x\nx", &two_lines)->run;
    double step = two->last_baseline - two->baseline;
    struct run run = line->run;
    run.lines = lines;
    run.width = run.ink_width = widest;
    run.ink_height += two->baseline - run.baseline + (lines - 1) * step;
    run.ink_y += two->baseline - run.baseline;
    run.height = two->height + (lines - 2) * step;
    run.baseline = two->baseline;
    run.last_baseline = two->baseline + (lines - 1) * step;
    return scaled(type, &run, style->size);
}

const struct run *type_set(struct type *type, const char *text, struct style style)
{
    if (!type->trial)
        return &look_up(type, type->runs, text, &style)->run;
    struct kept_run *line =
        look_up(type, type->runs, text, &(struct style){.size = MEASURED, .weight = style.weight});
    const struct run *run = scaled(type, &line->run, style.size);
    if (style.width <= 0 || run->width < style.width - 0.01)
        return run;
    run = broken_run(type, line, &style);
    return run ? run : &look_up(type, type->trial, text, &style)->run;
}

void type_try(struct type *type)
{
    type->trial = runs_new();
    type->scaled = arena_new();
}

void type_try_end(struct type *type)
{
    g_hash_table_destroy(type->trial);
    arena_free(type->scaled);
    type->trial = NULL;
    type->scaled = NULL;
}

double type_width(struct type *type, const char *text, double size, enum weight weight)
{
    return type_set(type, text, (struct style){.size = size, .weight = weight})->width;
}
