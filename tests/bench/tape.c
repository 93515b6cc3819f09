#include "bench/tape.h"

#include <glib.h>

enum call_kind { CALL_TAG, CALL_UNTAG, CALL_INK, CALL_GLYPHS, CALL_PATH, CALL_FILL, CALL_STROKE };

struct call {
    enum call_kind kind;
    const char *tag;
    const struct glyphs *glyphs;
    cairo_path_t *path;
    double at[3]; /* a colour; a width; a text's place and scale */
};

struct tape {
    GArray *calls;
    cairo_t *pen; /* to make paths with */
    bool tagged;
};

static void add(struct tape *tape, struct call call)
{
    g_array_append_val(tape->calls, call);
}

static void add_ink(struct tape *tape, enum ink ink)
{
    const struct colour *colour = ink_colour(ink);
    add(tape, (struct call){.kind = CALL_INK, .at = {colour->red, colour->green, colour->blue}});
}

/* What the pen has drawn, filled and stroked as ELEMENT is. */
static void add_path(struct tape *tape, const struct element *element)
{
    add(tape, (struct call){.kind = CALL_PATH, .path = cairo_copy_path(tape->pen)});
    cairo_new_path(tape->pen);
    if (element->fill != INK_NONE && element->kind != ELEMENT_LINE) {
        add_ink(tape, element->fill);
        add(tape, (struct call){.kind = CALL_FILL});
    }
    if (element->stroke != INK_NONE) {
        add_ink(tape, element->stroke);
        add(tape, (struct call){.kind = CALL_STROKE, .at = {element->stroke_width}});
    }
}

static void add_text(struct tape *tape, const struct element *element)
{
    add_ink(tape, element->fill);
    for (size_t i = 0; i < element->run->count; i++) {
        const struct glyphs *glyphs = &element->run->glyphs[i];
        double scale = element->run->scale;
        add(tape, (struct call){.kind = CALL_GLYPHS,
                                .glyphs = glyphs,
                                .at = {element->x + glyphs->x * scale, element->y + glyphs->y * scale, scale}});
    }
}

static void add_line(struct tape *tape, const struct element *element)
{
    cairo_move_to(tape->pen, element->x, element->y);
    cairo_rel_line_to(tape->pen, element->width, element->height);
    add_path(tape, element);
}

static void add_box(struct tape *tape, const struct element *e)
{
    double r = e->radius, right = e->x + e->width, bottom = e->y + e->height;
    if (r > 0) {
        cairo_new_sub_path(tape->pen);
        cairo_arc(tape->pen, right - r, e->y + r, r, -G_PI_2, 0);
        cairo_arc(tape->pen, right - r, bottom - r, r, 0, G_PI_2);
        cairo_arc(tape->pen, e->x + r, bottom - r, r, G_PI_2, G_PI);
        cairo_arc(tape->pen, e->x + r, e->y + r, r, G_PI, 3 * G_PI_2);
        cairo_close_path(tape->pen);
    } else {
        cairo_rectangle(tape->pen, e->x, e->y, e->width, e->height);
    }
    add_path(tape, e);
}

static void add_shape(struct tape *tape, const struct element *e)
{
    for (size_t i = 0; i < e->step_count; i++) {
        double at[6];
        for (size_t j = 0; j < 6; j += 2) {
            double across = e->mirrored ? 1 - e->steps[i].at[j] : e->steps[i].at[j];
            at[j] = e->x + across * e->width;
            at[j + 1] = e->y + e->steps[i].at[j + 1] * e->height;
        }
        switch (e->steps[i].op) {
        case 'M': cairo_move_to(tape->pen, at[0], at[1]); break;
        case 'L': cairo_line_to(tape->pen, at[0], at[1]); break;
        case 'C': cairo_curve_to(tape->pen, at[0], at[1], at[2], at[3], at[4], at[5]); break;
        default: cairo_close_path(tape->pen);
        }
    }
    add_path(tape, e);
}

static void add_element(struct tape *tape, const struct element *element)
{
    /* Which tag it is costs nothing. */
    bool edge = element->kind == ELEMENT_OPEN || element->kind == ELEMENT_CLOSE, text = element->kind == ELEMENT_TEXT;
    const char *tag = edge ? "Div" : "P";
    if (tape->tagged && (element->kind == ELEMENT_OPEN || text))
        add(tape, (struct call){.kind = CALL_TAG, .tag = tag});
    if (text)
        add_text(tape, element);
    else if (element->kind == ELEMENT_LINE)
        add_line(tape, element);
    else if (element->kind == ELEMENT_RECTANGLE)
        add_box(tape, element);
    else if (element->kind == ELEMENT_SHAPE)
        add_shape(tape, element);
    if (tape->tagged && (element->kind == ELEMENT_CLOSE || text))
        add(tape, (struct call){.kind = CALL_UNTAG, .tag = tag});
}

struct tape *tape_record(const struct scene *scene, int page, bool tagged)
{
    struct tape *tape = g_new0(struct tape, 1);
    cairo_surface_t *surface = cairo_image_surface_create(CAIRO_FORMAT_A8, 1, 1);
    tape->calls = g_array_new(FALSE, FALSE, sizeof(struct call));
    tape->pen = cairo_create(surface);
    tape->tagged = tagged;
    const struct box *box = scene->pages[page - 1];
    for (size_t i = 0; i < box->count; i++)
        add_element(tape, &box->elements[i]);
    cairo_destroy(tape->pen);
    cairo_surface_destroy(surface);
    return tape;
}

static void play_glyphs(const struct call *call, cairo_t *cairo)
{
    const struct glyphs *glyphs = call->glyphs;
    cairo_save(cairo);
    cairo_translate(cairo, call->at[0], call->at[1]);
    cairo_scale(cairo, call->at[2], call->at[2]);
    cairo_set_scaled_font(cairo, glyphs->font);
    cairo_show_text_glyphs(cairo, glyphs->text, glyphs->length, glyphs->items, glyphs->count, glyphs->clusters,
                           glyphs->cluster_count, glyphs->flags);
    cairo_restore(cairo);
}

void tape_play(const struct tape *tape, cairo_t *cairo)
{
    for (guint i = 0; i < tape->calls->len; i++) {
        const struct call *call = &g_array_index(tape->calls, struct call, i);
        switch (call->kind) {
        case CALL_TAG: cairo_tag_begin(cairo, call->tag, NULL); break;
        case CALL_UNTAG: cairo_tag_end(cairo, call->tag); break;
        case CALL_INK: cairo_set_source_rgb(cairo, call->at[0], call->at[1], call->at[2]); break;
        case CALL_GLYPHS: play_glyphs(call, cairo); break;
        case CALL_PATH:
            cairo_new_path(cairo);
            cairo_append_path(cairo, call->path);
            break;
        case CALL_FILL: cairo_fill_preserve(cairo); break;
        case CALL_STROKE:
            cairo_set_line_width(cairo, call->at[0]);
            cairo_stroke_preserve(cairo);
            break;
        }
    }
}

void tape_free(struct tape *tape)
{
    for (guint i = 0; i < tape->calls->len; i++)
        if (g_array_index(tape->calls, struct call, i).path)
            cairo_path_destroy(g_array_index(tape->calls, struct call, i).path);
    g_array_free(tape->calls, TRUE);
    g_free(tape);
}
