#include "layout/scene.h"

#include <string.h>

struct scene *scene_new(struct arena *arena, double width, double height, double margin)
{
    struct scene *scene = arena_alloc(arena, sizeof *scene);
    *scene = (struct scene){.arena = arena, .width = width, .height = height, .margin = margin};
    scene->title = scene->author = scene->subject = scene->keywords = scene->description = "";
    return scene;
}

struct box *box_new(struct arena *arena)
{
    struct box *box = arena_alloc(arena, sizeof *box);
    box->arena = arena;
    return box;
}

struct box *scene_page(struct scene *scene)
{
    scene->pages = arena_grow(scene->arena, scene->pages, scene->page_count, &scene->page_capacity,
                              sizeof *scene->pages);
    struct box *page = box_new(scene->arena);
    page->flat = true;
    page->width = scene->width;
    page->height = scene->height;
    scene->pages[scene->page_count++] = page;
    return page;
}

void scene_bookmark(struct scene *scene, const char *title, double y, bool nested)
{
    scene->bookmarks = arena_grow(scene->arena, scene->bookmarks, scene->bookmark_count,
                                  &scene->bookmark_capacity, sizeof *scene->bookmarks);
    scene->bookmarks[scene->bookmark_count++] =
        (struct bookmark){title, (int)scene->page_count, y, nested};
}

struct layout_problem *scene_problem(struct scene *scene, enum problem_kind kind, int page,
                                     const char *text, const char *words)
{
    scene->problems = arena_grow(scene->arena, scene->problems, scene->problem_count,
                                 &scene->problem_capacity, sizeof *scene->problems);
    struct layout_problem *problem = &scene->problems[scene->problem_count++];
    *problem = (struct layout_problem){.kind = kind, .page = page, .text = text, .words = words};
    return problem;
}

/* Room for MORE elements: for just these where the piece has none, since most never grow. */
static void box_reserve(struct box *box, size_t more)
{
    size_t wanted = box->count + more, room = 2 * box->capacity;
    if (wanted <= box->capacity)
        return;
    box->capacity = room > wanted ? room : wanted;
    struct element *elements = arena_alloc(box->arena, box->capacity * sizeof *elements);
    if (box->count)
        memcpy(elements, box->elements, box->count * sizeof *elements);
    box->elements = elements;
}

static struct element *box_add(struct box *box, struct element element)
{
    box_reserve(box, 1);
    box->elements[box->count] = element;
    return &box->elements[box->count++];
}

void box_text(struct box *box, double x, double baseline, const char *text,
              const struct text_run *run, struct style style)
{
    struct text_run *kept = arena_alloc(box->arena, sizeof *kept);
    *kept = *run;
    box_add(box, (struct element){.kind = ELEMENT_TEXT,
                                  .x = x,
                                  .y = baseline - run->baseline,
                                  .width = run->width,
                                  .height = run->height,
                                  .fill = style.ink,
                                  .text = text,
                                  .run = kept,
                                  .rank = style.rank,
                                  .role = style.role});
}

void box_line(struct box *box, double x, double y, double dx, double dy, double width,
              enum ink ink)
{
    box_add(box, (struct element){.kind = ELEMENT_LINE,
                                  .x = x,
                                  .y = y,
                                  .width = dx,
                                  .height = dy,
                                  .stroke = ink,
                                  .stroke_width = width});
}

struct element *box_rectangle(struct box *box, double x, double y, double width, double height,
                              enum ink fill, enum ink stroke, double stroke_width)
{
    return box_add(box, (struct element){.kind = ELEMENT_RECTANGLE,
                                         .x = x,
                                         .y = y,
                                         .width = width,
                                         .height = height,
                                         .fill = fill,
                                         .stroke = stroke,
                                         .stroke_width = stroke_width});
}

struct element *box_shape(struct box *box, double x, double y, double width, double height,
                          const struct step *steps, size_t count)
{
    return box_add(box, (struct element){.kind = ELEMENT_SHAPE,
                                         .x = x,
                                         .y = y,
                                         .width = width,
                                         .height = height,
                                         .fill = INK_BLACK,
                                         .steps = steps,
                                         .step_count = count});
}

static void copy_elements(struct box *box, const struct box *part, double x, double y)
{
    box_reserve(box, part->count);
    for (size_t i = 0; i < part->count; i++) {
        const struct element *element = &part->elements[i];
        if (element->kind == ELEMENT_PART) {
            copy_elements(box, element->part, x + element->x, y + element->y);
            continue;
        }
        struct element *copy = box_add(box, *element);
        copy->x += x;
        copy->y += y;
    }
}

void box_place(struct box *box, const struct box *part, double x, double y)
{
    if (box->flat || part->count < 2)
        copy_elements(box, part, x, y);
    else
        box_add(box, (struct element){.kind = ELEMENT_PART, .x = x, .y = y, .part = part});
}

struct box *box_flat(const struct box *box)
{
    struct box *flat = box_new(box->arena);
    *flat = *box;
    flat->elements = NULL;
    flat->count = flat->capacity = 0;
    copy_elements(flat, box, 0, 0);
    return flat;
}

static void add_edge(struct box *box, enum element_kind kind, enum role role)
{
    box_add(box, (struct element){.kind = kind, .role = role});
}

void box_open(struct box *box, enum role role)
{
    add_edge(box, ELEMENT_OPEN, role);
}

void box_close(struct box *box, enum role role)
{
    add_edge(box, ELEMENT_CLOSE, role);
}

void box_place_as(struct box *box, enum role role, const struct box *part, double x, double y)
{
    box_open(box, role);
    if (part)
        box_place(box, part, x, y);
    box_close(box, role);
}

struct box *box_figure(const struct box *mark, const char *words)
{
    struct box *box = box_new(mark->arena);
    box_add(box, (struct element){.kind = ELEMENT_OPEN, .role = ROLE_FIGURE, .text = words});
    box_place(box, mark, 0, 0);
    box_close(box, ROLE_FIGURE);
    box->width = mark->width;
    box->height = mark->height;
    box->baseline = mark->baseline;
    return box;
}

double scene_smallest(const struct scene *scene, enum rank rank, const char **text)
{
    double least = 0;
    for (size_t p = 0; p < scene->page_count; p++) {
        const struct box *box = scene->pages[p];
        for (size_t i = 0; i < box->count; i++) {
            const struct element *element = &box->elements[i];
            if (element->kind != ELEMENT_TEXT || element->rank != rank)
                continue;
            if (least > 0 && element->run->capital >= least)
                continue;
            least = element->run->capital;
            if (text)
                *text = element->text;
        }
    }
    return least;
}
