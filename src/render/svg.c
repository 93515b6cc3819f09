/* svg.c - a page as SVG: outlines once, and what is drawn with them. A file is small and made quickly that way; pages with
 * letters that no outline has (pictures of a font, boxes for what no font has) are left to cairo's own surface. */
#include <cairo-svg.h>
#include <glib.h>
#include <math.h>
#include <string.h>

#include "render/cairo_painter.h"
#include "render/outlines.h"
#include "render/render.h"

struct svg_painter {
    struct painter painter;
    struct outlines outlines;
    struct text body;
    bool beyond; /* something has no outline */
};

static void add_escaped(struct text *out, const char *tag, const char *words)
{
    char *escaped = g_markup_escape_text(words, -1);
    text_addf(out, "<%s>%s</%s>\n", tag, escaped, tag);
    g_free(escaped);
}

/* --- what is drawn --- */

enum { PLACES = 2 }; /* decimals of a point: a hundredth of it is no dot of any printer */

static void add_number(struct text *out, const char *name, double number, int places)
{
    text_add_char(out, ' ');
    text_add(out, name);
    text_add(out, "=\"");
    outlines_number(out, number, places);
    text_add_char(out, '"');
}

static void add_ink(struct text *out, const char *name, enum ink ink)
{
    const struct colour *colour = ink_colour(ink);
    text_addf(out, " %s=\"#%02x%02x%02x\"", name, (unsigned)lround(255 * colour->red),
              (unsigned)lround(255 * colour->green), (unsigned)lround(255 * colour->blue));
}

static void add_inks(struct text *out, const struct element *element)
{
    add_ink(out, "fill", element->fill);
    if (element->stroke != INK_NONE) {
        add_ink(out, "stroke", element->stroke);
        add_number(out, "stroke-width", element->stroke_width, PLACES);
    }
    text_add(out, "/>\n");
}

static struct svg_painter *own(struct painter *painter)
{
    return (struct svg_painter *)painter;
}

/* Decimals of a place in the size a text was shaped in, which is several times that in which it is read. */
enum { SHAPED_PLACES = 1 };

/* The glyphs on a line at BASELINE, from which others differ. */
static void add_glyphs(struct svg_painter *svg, const struct glyphs *glyphs, double baseline)
{
    for (int i = 0; i < glyphs->count; i++) {
        int outline = outlines_find(&svg->outlines, glyphs->font, glyphs->items[i].index);
        if (outline < 0)
            continue;
        text_add(&svg->body, "<use href=\"#g");
        outlines_number(&svg->body, outline, 0);
        text_add_char(&svg->body, '"');
        double y = glyphs->y + glyphs->items[i].y - baseline;
        add_number(&svg->body, "x", glyphs->x + glyphs->items[i].x, SHAPED_PLACES);
        if (fabs(y) > 0.05)
            add_number(&svg->body, "y", y, SHAPED_PLACES);
        text_add(&svg->body, "/>");
    }
}

static void paint_text(struct painter *painter, const struct element *element)
{
    struct svg_painter *svg = own(painter);
    const struct text_run *run = element->run;
    if (run->layout) {
        svg->beyond = true;
        return;
    }
    double baseline = run->count && run->glyphs->count ? run->glyphs->y + run->glyphs->items->y : 0;
    text_add(&svg->body, "<g");
    if (element->fill != INK_BLACK) /* which is what the page is painted in */
        add_ink(&svg->body, "fill", element->fill);
    text_add(&svg->body, " transform=\"translate(");
    outlines_number(&svg->body, element->x, PLACES);
    text_add_char(&svg->body, ' ');
    outlines_number(&svg->body, element->y + run->scale * baseline, PLACES);
    text_add(&svg->body, ") scale(");
    outlines_number(&svg->body, run->scale, 6);
    text_add(&svg->body, ")\">");
    for (size_t i = 0; i < run->count; i++)
        add_glyphs(svg, &run->glyphs[i], baseline);
    text_add(&svg->body, "</g>\n");
}

static void paint_line(struct painter *painter, const struct element *element)
{
    struct text *out = &own(painter)->body;
    text_add(out, "<line");
    add_number(out, "x1", element->x, PLACES);
    add_number(out, "y1", element->y, PLACES);
    add_number(out, "x2", element->x + element->width, PLACES);
    add_number(out, "y2", element->y + element->height, PLACES);
    add_inks(out, element);
}

static void paint_rectangle(struct painter *painter, const struct element *element)
{
    struct text *out = &own(painter)->body;
    text_add(out, "<rect");
    add_number(out, "x", element->x, PLACES);
    add_number(out, "y", element->y, PLACES);
    add_number(out, "width", element->width, PLACES);
    add_number(out, "height", element->height, PLACES);
    if (element->radius > 0)
        add_number(out, "rx", element->radius, PLACES);
    add_inks(out, element);
}

static void paint_shape(struct painter *painter, const struct element *element)
{
    struct text *out = &own(painter)->body;
    text_add(out, "<path d=\"");
    for (size_t i = 0; i < element->step_count; i++) {
        const struct step *step = &element->steps[i];
        int count = step->op == 'C' ? 6 : step->op == 'Z' ? 0 : 2;
        text_add_char(out, step->op);
        for (int j = 0; j < count; j += 2) {
            double across = element->mirrored ? 1 - step->at[j] : step->at[j];
            text_add(out, j ? " " : "");
            outlines_number(out, element->x + across * element->width, PLACES);
            text_add_char(out, ' ');
            outlines_number(out, element->y + step->at[j + 1] * element->height, PLACES);
        }
    }
    text_add_char(out, '"');
    add_inks(out, element);
}

static void start_window(struct painter *painter, const struct scene *scene)
{
    struct text *out = &own(painter)->body;
    text_add(out, "<clipPath id=\"window\"><rect");
    add_number(out, "x", scene->window.x, PLACES);
    add_number(out, "y", scene->window.y, PLACES);
    add_number(out, "width", scene->window.width, PLACES);
    add_number(out, "height", scene->window.height, PLACES);
    text_add(out, "/></clipPath>\n<g clip-path=\"url(#window)\">\n");
}

static void end_window(struct painter *painter)
{
    text_add(&own(painter)->body, "</g>\n");
}

/* --- the file --- */

static void add_start(const struct scene *scene, struct text *out)
{
    text_add(out, "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\" "
                  "width=\"");
    outlines_number(out, scene->width, 6);
    text_add(out, "pt\" height=\"");
    outlines_number(out, scene->height, 6);
    text_add(out, "pt\" viewBox=\"0 0 ");
    outlines_number(out, scene->width, 6);
    text_add_char(out, ' ');
    outlines_number(out, scene->height, 6);
    text_add(out, "\" version=\"1.1\" role=\"img\">\n");
    add_escaped(out, "title", scene->title);
    add_escaped(out, "desc", scene->description);
}

/* By cairo's own surface, which draws each letter as outlines too: the words go into the file as its title and description,
 * and the root is made one image. */
static const char *render_by_cairo(const struct scene *scene, int page, struct text *out)
{
    struct text drawn = {.arena = out->arena};
    cairo_surface_t *surface = cairo_svg_surface_create_for_stream(cairo_painter_write, &drawn, scene->width, scene->height);
    cairo_t *cairo = cairo_create(surface);
    struct cairo_painter painter = cairo_painter_on(cairo);
    painter_page(&painter.painter, scene, page);
    const char *wrong = cairo_painter_end(cairo, surface);
    const char *root = wrong ? NULL : strstr(text_get(&drawn), "<svg "), *end = root ? strchr(root, '>') : NULL;
    if (!wrong && !end)
        wrong = "the SVG has no root";
    if (!wrong) {
        text_add_bytes(out, drawn.data, (size_t)(end - drawn.data));
        text_add(out, " role=\"img\">\n");
        add_escaped(out, "title", scene->title);
        add_escaped(out, "desc", scene->description);
        text_add(out, end + 1);
    }
    text_free(&drawn);
    return wrong;
}

const char *render_svg(const struct scene *scene, int page, struct text *out)
{
    struct svg_painter svg = {.painter = {.start_window = start_window,
                                          .end_window = end_window,
                                          .text = paint_text,
                                          .line = paint_line,
                                          .rectangle = paint_rectangle,
                                          .shape = paint_shape},
                              .outlines = outlines_open()};
    painter_page(&svg.painter, scene, page);
    bool whole = !svg.beyond && !svg.outlines.missing;
    if (whole) {
        add_start(scene, out);
        text_add(out, "<defs>\n");
        text_add(out, text_get(&svg.outlines.paths));
        text_add(out, "</defs>\n<g");
        add_ink(out, "fill", INK_BLACK);
        text_add(out, ">\n");
        text_add(out, text_get(&svg.body));
        text_add(out, "</g>\n</svg>\n");
    }
    outlines_close(&svg.outlines);
    text_free(&svg.body);
    return whole ? NULL : render_by_cairo(scene, page, out);
}
