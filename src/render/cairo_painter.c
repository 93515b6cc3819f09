#include "render/cairo_painter.h"

#include <glib.h>
#include <pango/pangocairo.h>

static cairo_t *context(struct painter *painter)
{
    return ((struct cairo_painter *)painter)->cairo;
}

static void set_ink(cairo_t *cairo, enum ink ink)
{
    const struct colour *colour = ink_colour(ink);
    cairo_set_source_rgb(cairo, colour->red, colour->green, colour->blue);
}

/* Structure types of PDF (ISO 32000-1, 14.8.4); NULL for what does not belong to the content. */
static const char *const tags[] = {[ROLE_PLAIN] = "P", [ROLE_TITLE] = "H1", [ROLE_HEADING] = "H2",
                                   [ROLE_SUBHEADING] = "H3",
                                   [ROLE_CELL] = "P",  [ROLE_SCALE] = NULL, [ROLE_TABLE] = "Table",
                                   [ROLE_ROW] = "TR",  [ROLE_HEAD] = "TH",  [ROLE_DATUM] = "TD",
                                   [ROLE_FIGURE] = "Figure"};

static void open_group(struct painter *painter, const struct element *element)
{
    struct cairo_painter *self = (struct cairo_painter *)painter;
    if (self->tagged)
        cairo_tag_begin(self->cairo, tags[element->role], NULL);
    self->in_figure = element->role == ROLE_FIGURE;
}

static void close_group(struct painter *painter, const struct element *element)
{
    struct cairo_painter *self = (struct cairo_painter *)painter;
    if (self->tagged)
        cairo_tag_end(self->cairo, tags[element->role]);
    self->in_figure = false;
}

/* Drawn in the size it was shaped in, under a scale. */
static void draw_run(cairo_t *cairo, const struct text_run *run)
{
    if (run->layout) {
        cairo_move_to(cairo, 0, 0);
        pango_cairo_show_layout(cairo, run->layout);
        cairo_new_path(cairo);
        return;
    }
    for (size_t i = 0; i < run->count; i++) {
        const struct glyphs *glyphs = &run->glyphs[i];
        cairo_translate(cairo, glyphs->x, glyphs->y);
        cairo_set_scaled_font(cairo, glyphs->font);
        cairo_show_text_glyphs(cairo, glyphs->text, glyphs->length, glyphs->items, glyphs->count,
                               glyphs->clusters, glyphs->cluster_count, glyphs->flags);
        cairo_translate(cairo, -glyphs->x, -glyphs->y);
    }
}

static void paint_text(struct painter *painter, const struct element *element)
{
    cairo_t *cairo = context(painter);
    const struct cairo_painter *self = (const struct cairo_painter *)painter;
    /* What is written on a mark is part of it. */
    bool tagged = self->tagged && !self->in_figure && tags[element->role];
    if (tagged)
        cairo_tag_begin(cairo, tags[element->role], NULL);
    set_ink(cairo, element->fill);
    cairo_save(cairo);
    cairo_translate(cairo, element->x, element->y);
    cairo_scale(cairo, element->run->scale, element->run->scale);
    draw_run(cairo, element->run);
    cairo_restore(cairo);
    if (tagged)
        cairo_tag_end(cairo, tags[element->role]);
}

static void paint_line(struct painter *painter, const struct element *element)
{
    cairo_t *cairo = context(painter);
    set_ink(cairo, element->stroke);
    cairo_set_line_width(cairo, element->stroke_width);
    cairo_move_to(cairo, element->x, element->y);
    cairo_rel_line_to(cairo, element->width, element->height);
    cairo_stroke(cairo);
}

static void fill_and_stroke(cairo_t *cairo, const struct element *element)
{
    if (element->fill != INK_NONE) {
        set_ink(cairo, element->fill);
        cairo_fill_preserve(cairo);
    }
    if (element->stroke != INK_NONE) {
        set_ink(cairo, element->stroke);
        cairo_set_line_width(cairo, element->stroke_width);
        cairo_stroke_preserve(cairo);
    }
    cairo_new_path(cairo);
}

static void rectangle_path(cairo_t *cairo, const struct element *e)
{
    double r = e->radius;
    if (r <= 0) {
        cairo_rectangle(cairo, e->x, e->y, e->width, e->height);
        return;
    }
    double right = e->x + e->width, bottom = e->y + e->height;
    cairo_new_sub_path(cairo);
    cairo_arc(cairo, right - r, e->y + r, r, -G_PI_2, 0);
    cairo_arc(cairo, right - r, bottom - r, r, 0, G_PI_2);
    cairo_arc(cairo, e->x + r, bottom - r, r, G_PI_2, G_PI);
    cairo_arc(cairo, e->x + r, e->y + r, r, G_PI, 3 * G_PI_2);
    cairo_close_path(cairo);
}

static void paint_rectangle(struct painter *painter, const struct element *element)
{
    rectangle_path(context(painter), element);
    fill_and_stroke(context(painter), element);
}

static void shape_path(cairo_t *cairo, const struct element *e)
{
    for (size_t i = 0; i < e->step_count; i++) {
        const struct step *step = &e->steps[i];
        double at[6];
        for (size_t j = 0; j < 6; j += 2) {
            double across = e->mirrored ? 1 - step->at[j] : step->at[j];
            at[j] = e->x + across * e->width;
            at[j + 1] = e->y + step->at[j + 1] * e->height;
        }
        if (step->op == 'M')
            cairo_move_to(cairo, at[0], at[1]);
        else if (step->op == 'L')
            cairo_line_to(cairo, at[0], at[1]);
        else if (step->op == 'C')
            cairo_curve_to(cairo, at[0], at[1], at[2], at[3], at[4], at[5]);
        else
            cairo_close_path(cairo);
    }
}

static void paint_shape(struct painter *painter, const struct element *element)
{
    shape_path(context(painter), element);
    fill_and_stroke(context(painter), element);
}

static void start_window(struct painter *painter, const struct scene *scene)
{
    cairo_t *cairo = context(painter);
    cairo_save(cairo);
    cairo_rectangle(cairo, scene->window.x, scene->window.y, scene->window.width,
                    scene->window.height);
    cairo_clip(cairo);
}

static void end_window(struct painter *painter)
{
    cairo_restore(context(painter));
}

struct cairo_painter cairo_painter_on(cairo_t *cairo)
{
    return (struct cairo_painter){
        .painter = {.start_window = start_window,
                    .end_window = end_window,
                    .text = paint_text,
                    .line = paint_line,
                    .rectangle = paint_rectangle,
                    .shape = paint_shape,
                    .open = open_group,
                    .close = close_group},
        .cairo = cairo,
    };
}

cairo_status_t cairo_painter_write(void *closure, const unsigned char *bytes, unsigned length)
{
    text_add_bytes(closure, (const char *)bytes, length);
    return CAIRO_STATUS_SUCCESS;
}

const char *cairo_painter_end(cairo_t *cairo, cairo_surface_t *surface)
{
    cairo_status_t drawn = cairo_status(cairo);
    cairo_destroy(cairo);
    cairo_surface_finish(surface);
    cairo_status_t written = cairo_surface_status(surface);
    cairo_surface_destroy(surface);
    if (drawn != CAIRO_STATUS_SUCCESS)
        return cairo_status_to_string(drawn);
    return written == CAIRO_STATUS_SUCCESS ? NULL : cairo_status_to_string(written);
}
