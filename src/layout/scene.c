#include "layout/scene.h"

#include <string.h>

struct scene *scene_new(struct arena *arena, double width, double height, double margin)
{
    struct scene *scene = arena_alloc(arena, sizeof *scene);
    *scene = (struct scene){.arena = arena, .width = width, .height = height, .margin = margin};
    scene->title = scene->author = scene->subject = scene->keywords = scene->description = "";
    return scene;
}

struct piece *piece_new(struct arena *arena)
{
    struct piece *piece = arena_alloc(arena, sizeof *piece);
    piece->arena = arena;
    return piece;
}

struct piece *scene_page(struct scene *scene)
{
    scene->pages = arena_grow(scene->arena, scene->pages, scene->page_count, &scene->page_capacity,
                              sizeof *scene->pages);
    struct piece *page = piece_new(scene->arena);
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
static void piece_reserve(struct piece *piece, size_t more)
{
    size_t wanted = piece->count + more, room = 2 * piece->capacity;
    if (wanted <= piece->capacity)
        return;
    piece->capacity = room > wanted ? room : wanted;
    struct element *elements = arena_alloc(piece->arena, piece->capacity * sizeof *elements);
    if (piece->count)
        memcpy(elements, piece->elements, piece->count * sizeof *elements);
    piece->elements = elements;
}

static struct element *piece_add(struct piece *piece, struct element element)
{
    piece_reserve(piece, 1);
    piece->elements[piece->count] = element;
    return &piece->elements[piece->count++];
}

void piece_text(struct piece *piece, double x, double baseline, const char *text,
                const struct run *run, struct look look)
{
    struct run *kept = arena_alloc(piece->arena, sizeof *kept);
    *kept = *run;
    piece_add(piece, (struct element){.kind = ELEMENT_TEXT,
                                      .x = x,
                                      .y = baseline - run->baseline,
                                      .width = run->width,
                                      .height = run->height,
                                      .fill = look.ink,
                                      .text = text,
                                      .run = kept,
                                      .rank = look.rank,
                                      .role = look.role});
}

void piece_line(struct piece *piece, double x, double y, double dx, double dy, double width,
                enum ink ink)
{
    piece_add(piece, (struct element){.kind = ELEMENT_LINE,
                                      .x = x,
                                      .y = y,
                                      .width = dx,
                                      .height = dy,
                                      .stroke = ink,
                                      .stroke_width = width});
}

struct element *piece_box(struct piece *piece, double x, double y, double width, double height,
                          enum ink fill, enum ink stroke, double stroke_width)
{
    return piece_add(piece, (struct element){.kind = ELEMENT_BOX,
                                             .x = x,
                                             .y = y,
                                             .width = width,
                                             .height = height,
                                             .fill = fill,
                                             .stroke = stroke,
                                             .stroke_width = stroke_width});
}

struct element *piece_shape(struct piece *piece, double x, double y, double width, double height,
                            const struct step *steps, size_t count)
{
    return piece_add(piece, (struct element){.kind = ELEMENT_SHAPE,
                                             .x = x,
                                             .y = y,
                                             .width = width,
                                             .height = height,
                                             .fill = INK_BLACK,
                                             .steps = steps,
                                             .step_count = count});
}

static void copy_elements(struct piece *piece, const struct piece *part, double x, double y)
{
    piece_reserve(piece, part->count);
    for (size_t i = 0; i < part->count; i++) {
        const struct element *element = &part->elements[i];
        if (element->kind == ELEMENT_PART) {
            copy_elements(piece, element->part, x + element->x, y + element->y);
            continue;
        }
        struct element *copy = piece_add(piece, *element);
        copy->x += x;
        copy->y += y;
    }
}

void piece_place(struct piece *piece, const struct piece *part, double x, double y)
{
    if (piece->flat || part->count < 2)
        copy_elements(piece, part, x, y);
    else
        piece_add(piece, (struct element){.kind = ELEMENT_PART, .x = x, .y = y, .part = part});
}

struct piece *piece_flat(const struct piece *piece)
{
    struct piece *flat = piece_new(piece->arena);
    *flat = *piece;
    flat->elements = NULL;
    flat->count = flat->capacity = 0;
    copy_elements(flat, piece, 0, 0);
    return flat;
}

static void add_edge(struct piece *piece, enum element_kind kind, enum role role)
{
    piece_add(piece, (struct element){.kind = kind, .role = role});
}

void piece_open(struct piece *piece, enum role role)
{
    add_edge(piece, ELEMENT_OPEN, role);
}

void piece_close(struct piece *piece, enum role role)
{
    add_edge(piece, ELEMENT_CLOSE, role);
}

void piece_place_as(struct piece *piece, enum role role, const struct piece *part, double x, double y)
{
    piece_open(piece, role);
    if (part)
        piece_place(piece, part, x, y);
    piece_close(piece, role);
}

double scene_smallest(const struct scene *scene, int page, enum rank rank, const char **text)
{
    double least = 0;
    for (size_t p = 0; p < scene->page_count; p++) {
        const struct piece *piece = scene->pages[p];
        for (size_t i = 0; i < piece->count && (page == 0 || page == (int)p + 1); i++) {
            const struct element *element = &piece->elements[i];
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
