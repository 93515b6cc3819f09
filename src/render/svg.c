/* svg.c - a page as SVG. Each letter's outline stands in the file once, in the size it was shaped in, and is referred to
 * from then on, whatever the size. cairo could write SVG too, but gives every size of a letter an outline of its own: a
 * card takes it ten times as long and is three times as large. */
#include <glib.h>
#include <math.h>
#include <pango/pangocairo.h>

#include "render/painter.h"
#include "render/render.h"

struct svg_painter {
    struct painter painter;
    struct text outlines, body;
    GPtrArray *fonts;  /* those met; a font is called by its place */
    GHashTable *known; /* the glyphs met, and whether they have an outline */
    cairo_t *pen;      /* to ask for outlines */
};

static struct text *body_of(struct painter *painter)
{
    return &((struct svg_painter *)painter)->body;
}

/* --- numbers and words --- */

/* VALUE with so many DECIMALS at most, in the C locale whatever the locale is. */
static void add_number(struct text *out, double value, int decimals)
{
    char digits[32];
    size_t n = sizeof digits;
    int64_t unit = 1;
    for (int i = 0; i < decimals; i++)
        unit *= 10;
    int64_t whole = llround(fabs(value) * (double)unit);
    if (value < 0 && whole)
        text_add_char(out, '-');
    for (; decimals && whole % 10 == 0; decimals--)
        whole /= 10;
    for (int i = 0; i < decimals; i++, whole /= 10)
        digits[--n] = (char)('0' + whole % 10);
    if (decimals)
        digits[--n] = '.';
    do
        digits[--n] = (char)('0' + whole % 10);
    while (whole /= 10);
    text_add_bytes(out, digits + n, sizeof digits - n);
}

/* Hundredths of a point are less than any printer or screen can show. */
static void add_points(struct text *out, const char *before, double value)
{
    text_add(out, before);
    add_number(out, value, 2);
}

static void add_colour(struct text *out, const char *attribute, enum ink ink)
{
    const struct colour *colour = ink_colour(ink);
    text_addf(out, " %s=\"#%02x%02x%02x\"", attribute, (unsigned)lround(colour->red * 255),
              (unsigned)lround(colour->green * 255), (unsigned)lround(colour->blue * 255));
}

static void add_escaped(struct text *out, const char *tag, const char *words)
{
    char *escaped = g_markup_escape_text(words, -1);
    text_addf(out, "<%s>%s</%s>\n", tag, escaped, tag);
    g_free(escaped);
}

/* --- outlines --- */

static void add_step(struct text *out, char op, const double *at, int numbers)
{
    text_add_char(out, op);
    for (int i = 0; i < numbers; i++)
        add_points(out, i ? " " : "", at[i]);
}

/* The path that cairo holds, and cairo's pen taken off it. False where it draws nothing. */
static bool add_path(struct text *out, cairo_t *cairo)
{
    static const char ops[] = {[CAIRO_PATH_MOVE_TO] = 'M',
                               [CAIRO_PATH_LINE_TO] = 'L',
                               [CAIRO_PATH_CURVE_TO] = 'C',
                               [CAIRO_PATH_CLOSE_PATH] = 'Z'};
    cairo_path_t *path = cairo_copy_path(cairo);
    bool drawn = false;
    for (int i = 0; i < path->num_data; i += path->data[i].header.length) {
        const cairo_path_data_t *data = &path->data[i];
        double at[6];
        int points = data->header.length - 1;
        /* cairo ends each outline with a step to where it began. */
        if (data->header.type == CAIRO_PATH_MOVE_TO && i + data->header.length == path->num_data)
            break;
        for (int p = 0; p < points && p < 3; p++) {
            at[2 * p] = data[p + 1].point.x;
            at[2 * p + 1] = data[p + 1].point.y;
        }
        add_step(out, ops[data->header.type], at, 2 * points);
        drawn = true;
    }
    cairo_path_destroy(path);
    cairo_new_path(cairo);
    return drawn;
}

static guint font_number(struct svg_painter *svg, cairo_scaled_font_t *font)
{
    guint number;
    if (!g_ptr_array_find(svg->fonts, font, &number)) {
        number = svg->fonts->len;
        g_ptr_array_add(svg->fonts, font);
    }
    return number;
}

/* Sees to it that the outline of GLYPH of font NUMBER is in the file. False where it has none, as a space. */
static bool add_outline(struct svg_painter *svg, guint number, unsigned long glyph)
{
    enum { MOST_GLYPHS = 65536 };
    gpointer key = GSIZE_TO_POINTER((gsize)number * MOST_GLYPHS + glyph), drawn;
    if (g_hash_table_lookup_extended(svg->known, key, NULL, &drawn))
        return GPOINTER_TO_INT(drawn);
    struct text path = {0};
    cairo_set_scaled_font(svg->pen, svg->fonts->pdata[number]);
    cairo_glyph_path(svg->pen, &(cairo_glyph_t){.index = glyph}, 1);
    bool has = add_path(&path, svg->pen);
    if (has)
        text_addf(&svg->outlines, "<path id=\"g%u-%lu\" d=\"%s\"/>\n", number, glyph, text_get(&path));
    text_free(&path);
    g_hash_table_insert(svg->known, key, GINT_TO_POINTER(has));
    return has;
}

/* --- elements --- */

/* From the BASELINE of the text's first line. */
static void add_glyphs(struct svg_painter *svg, const struct glyphs *glyphs, double baseline)
{
    guint number = font_number(svg, glyphs->font);
    for (int i = 0; i < glyphs->count; i++) {
        const cairo_glyph_t *glyph = &glyphs->items[i];
        if (!add_outline(svg, number, glyph->index))
            continue;
        text_addf(&svg->body, "<use xlink:href=\"#g%u-%lu", number, glyph->index);
        add_points(&svg->body, "\" x=\"", glyph->x + glyphs->x);
        double y = glyph->y + glyphs->y - baseline;
        if (fabs(y) >= 0.005)
            add_points(&svg->body, "\" y=\"", y);
        text_add(&svg->body, "\"/>");
    }
}

static void paint_text(struct painter *painter, const struct element *element)
{
    struct svg_painter *svg = (struct svg_painter *)painter;
    const struct run *run = element->run;
    text_add(&svg->body, "<g");
    add_colour(&svg->body, "fill", element->fill);
    add_points(&svg->body, " transform=\"translate(", element->x);
    add_points(&svg->body, " ", element->y + run->baseline);
    text_add(&svg->body, ") scale(");
    add_number(&svg->body, run->scale, 6);
    text_add(&svg->body, ")\">");
    for (size_t i = 0; i < run->count && !run->layout; i++)
        add_glyphs(svg, &run->glyphs[i], run->baseline / run->scale);
    if (run->layout) {
        text_add(&svg->body, "<path d=\"");
        cairo_move_to(svg->pen, 0, -run->baseline / run->scale);
        pango_cairo_layout_path(svg->pen, run->layout);
        add_path(&svg->body, svg->pen);
        text_add(&svg->body, "\"/>");
    }
    text_add(&svg->body, "</g>\n");
}

static void add_stroke(struct text *out, const struct element *element)
{
    if (element->stroke == INK_NONE)
        return;
    add_colour(out, "stroke", element->stroke);
    add_points(out, " stroke-width=\"", element->stroke_width);
    text_add(out, "\"");
}

static void add_fill(struct text *out, const struct element *element)
{
    if (element->fill == INK_NONE)
        text_add(out, " fill=\"none\"");
    else
        add_colour(out, "fill", element->fill);
}

static void paint_line(struct painter *painter, const struct element *element)
{
    struct text *out = body_of(painter);
    add_points(out, "<path d=\"M", element->x);
    add_points(out, " ", element->y);
    add_points(out, "l", element->width);
    add_points(out, " ", element->height);
    text_add(out, "\"");
    add_stroke(out, element);
    text_add(out, "/>\n");
}

static void paint_box(struct painter *painter, const struct element *element)
{
    struct text *out = body_of(painter);
    add_points(out, "<rect x=\"", element->x);
    add_points(out, "\" y=\"", element->y);
    add_points(out, "\" width=\"", element->width);
    add_points(out, "\" height=\"", element->height);
    if (element->radius > 0)
        add_points(out, "\" rx=\"", element->radius);
    text_add(out, "\"");
    add_fill(out, element);
    add_stroke(out, element);
    text_add(out, "/>\n");
}

static void paint_shape(struct painter *painter, const struct element *element)
{
    struct text *out = body_of(painter);
    text_add(out, "<path d=\"");
    for (size_t i = 0; i < element->step_count; i++) {
        const struct step *step = &element->steps[i];
        double at[6];
        element_step(element, step, at);
        add_step(out, step->op, at, step->op == 'C' ? 6 : step->op == 'Z' ? 0 : 2);
    }
    text_add(out, "\"");
    add_fill(out, element);
    add_stroke(out, element);
    text_add(out, "/>\n");
}

/* --- the file --- */

/* Letters drawn as outlines say nothing to a screen reader; so the words go into the file as its title and description,
 * and the root is made one image. */
static void add_file(const struct svg_painter *svg, const struct scene *scene, struct text *out)
{
    text_add(out, "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\" "
                  "xmlns:xlink=\"http://www.w3.org/1999/xlink\" version=\"1.1\" role=\"img\"");
    add_points(out, " width=\"", scene->width);
    add_points(out, "pt\" height=\"", scene->height);
    add_points(out, "pt\" viewBox=\"0 0 ", scene->width);
    add_points(out, " ", scene->height);
    text_add(out, "\" stroke-miterlimit=\"10\">\n"); /* cairo's, so that all files look alike */
    add_escaped(out, "title", scene->title);
    add_escaped(out, "desc", scene->description);
    text_add(out, "<defs>\n");
    text_add_bytes(out, text_get(&svg->outlines), svg->outlines.length);
    text_add(out, "</defs>\n");
    text_add_bytes(out, text_get(&svg->body), svg->body.length);
    text_add(out, "</svg>\n");
}

const char *render_svg(const struct scene *scene, int page, struct text *out)
{
    cairo_surface_t *surface = cairo_image_surface_create(CAIRO_FORMAT_A8, 1, 1);
    struct svg_painter svg = {
        .painter = {.text = paint_text, .line = paint_line, .box = paint_box, .shape = paint_shape},
        .fonts = g_ptr_array_new(),
        .known = g_hash_table_new(NULL, NULL),
        .pen = cairo_create(surface),
    };
    painter_page(&svg.painter, scene, page);
    add_file(&svg, scene, out);
    cairo_status_t status = cairo_status(svg.pen);
    cairo_destroy(svg.pen);
    cairo_surface_destroy(surface);
    g_hash_table_destroy(svg.known);
    g_ptr_array_free(svg.fonts, TRUE);
    text_free(&svg.outlines);
    text_free(&svg.body);
    return status == CAIRO_STATUS_SUCCESS ? NULL : cairo_status_to_string(status);
}
