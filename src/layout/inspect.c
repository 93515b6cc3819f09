/* inspect.c - looks in a finished scene for what a printer would send back. */
#include "layout/scene.h"

#include <math.h>
#include <stdlib.h>

/* Glyphs that come closer than this, in points, touch. */
static const double TOUCH = 0.1;

struct rectangle {
    double left, top, right, bottom;
};

/* What the element covers, with the glyphs' own box for a text. */
static struct rectangle covered(const struct element *element)
{
    if (element->kind == ELEMENT_TEXT) {
        const struct text_run *run = element->run;
        double x = element->x + run->ink_x, y = element->y + run->ink_y;
        return (struct rectangle){x, y, x + run->ink_width, y + run->ink_height};
    }
    double x = fmin(element->x, element->x + element->width);
    double y = fmin(element->y, element->y + element->height);
    return (struct rectangle){x, y, x + fabs(element->width), y + fabs(element->height)};
}

static bool overlap(struct rectangle a, struct rectangle b)
{
    return a.left < b.right - TOUCH && b.left < a.right - TOUCH && a.top < b.bottom - TOUCH &&
           b.top < a.bottom - TOUCH;
}

static void inspect_element(struct scene *scene, int page, const struct element *element,
                            struct rectangle area)
{
    const char *text = element->kind == ELEMENT_TEXT ? element->text : "";
    if (area.left < scene->margin - 0.5 || area.top < scene->margin - 0.5 ||
        area.right > scene->width - scene->margin + 0.5 ||
        area.bottom > scene->height - scene->margin + 0.5)
        scene_problem(scene, PROBLEM_OUTSIDE, page, text,
                      arena_printf(scene->arena, "\"%s\" runs into the margin of page %d", text,
                                   page));
    if (element->kind != ELEMENT_TEXT)
        return;
    if (element->run->ellipsised)
        scene_problem(scene, PROBLEM_ELLIPSISED, page, text,
                      arena_printf(scene->arena, "\"%s\" does not fit and is cut short", text));
    if (element->run->unknown)
        scene_problem(scene, PROBLEM_UNKNOWN_GLYPH, page, text,
                      arena_printf(scene->arena,
                                   "no font here has every character of \"%s\"", text))
            ->help = "the Debian packages fonts-noto-core and fonts-vlgothic cover most scripts";
}

static void inspect_page(struct scene *scene, int page)
{
    const struct box *box = scene->pages[page - 1];
    struct rectangle *areas = arena_alloc(scene->arena, (box->count + 1) * sizeof *areas);
    for (size_t i = 0; i < box->count; i++)
        areas[i] = covered(&box->elements[i]);
    for (size_t i = 0; i < box->count; i++) {
        const struct element *one = &box->elements[i];
        if (one->kind == ELEMENT_OPEN || one->kind == ELEMENT_CLOSE)
            continue;
        inspect_element(scene, page, one, areas[i]);
        for (size_t j = i + 1; one->kind == ELEMENT_TEXT && j < box->count; j++) {
            const struct element *other = &box->elements[j];
            if (other->kind == ELEMENT_TEXT && overlap(areas[i], areas[j]))
                scene_problem(scene, PROBLEM_OVERLAP, page, one->text,
                              arena_printf(scene->arena, "\"%s\" and \"%s\" touch on page %d",
                                           one->text, other->text, page));
        }
    }
}

void scene_inspect(struct scene *scene)
{
    for (size_t i = 0; i < scene->page_count; i++)
        inspect_page(scene, (int)i + 1);
}
