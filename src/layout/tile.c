#include "layout/tile.h"

#include <math.h>

/* In points, 10 mm and 12 mm about. */
static const double MARGIN = 28, OVERLAP = 34;
static const double MARK = 12, GAP = 3, SIZE = 7.6;

struct tile {
    const struct scene *scene;
    const struct tiling *tiling;
    struct press press;
    int page, row, column;
};

static struct tiling turned(double width, double height, const struct paper *paper, bool landscape)
{
    struct tiling tiling = {.margin = MARGIN, .landscape = landscape};
    paper_points(paper, landscape, &tiling.width, &tiling.height);
    tiling.step_x = floor(tiling.width - 2 * MARGIN) - OVERLAP;
    tiling.step_y = floor(tiling.height - 2 * MARGIN) - OVERLAP;
    tiling.columns = (int)fmax(1, ceil((width - OVERLAP) / tiling.step_x));
    tiling.rows = (int)fmax(1, ceil((height - OVERLAP) / tiling.step_y));
    return tiling;
}

struct tiling tiling_of(double width, double height, const struct paper *paper)
{
    struct tiling upright = turned(width, height, paper, false);
    struct tiling across = turned(width, height, paper, true);
    return across.columns * across.rows < upright.columns * upright.rows ? across : upright;
}

/* Does anything of ELEMENT, moved by (DX, DY), show in the window? Its line's width is allowed for. Groups are left
 * behind: a part contains no whole table. */
static bool shows(const struct element *element, const struct scene *scene, double dx, double dy)
{
    double x = element->x, y = element->y, width = element->width, height = element->height;
    if (element->kind == ELEMENT_OPEN || element->kind == ELEMENT_CLOSE)
        return false;
    if (element->kind == ELEMENT_TEXT) {
        x += fmin(0, element->run->ink_x);
        y += fmin(0, element->run->ink_y);
        width = fmax(width, element->run->ink_x + element->run->ink_width);
        height = fmax(height, element->run->ink_y + element->run->ink_height);
    }
    double left = fmin(x, x + width) + dx - 2, right = fmax(x, x + width) + dx + 2;
    double top = fmin(y, y + height) + dy - 2, bottom = fmax(y, y + height) + dy + 2;
    return right > scene->window.x && left < scene->window.x + scene->window.width &&
           bottom > scene->window.y && top < scene->window.y + scene->window.height;
}

/* Short lines beside the window where the knife goes: along an edge that lies on a neighbour's overlap. */
static void draw_marks(struct box *page, const struct tile *part, const struct scene *tiles)
{
    double left = tiles->window.x, right = left + tiles->window.width;
    double top = tiles->window.y, bottom = top + tiles->window.height;
    const double xs[] = {left, right - OVERLAP}, ys[] = {top, bottom - OVERLAP};
    for (int i = 0; i < 2; i++) {
        bool cut_x = i == 0 ? part->column > 0 : part->column + 1 < part->tiling->columns;
        bool cut_y = i == 0 ? part->row > 0 : part->row + 1 < part->tiling->rows;
        if (cut_x) {
            box_line(page, xs[i], top - GAP - MARK, 0, MARK, 0.5, INK_BLACK);
            box_line(page, xs[i], bottom + GAP, 0, MARK, 0.5, INK_BLACK);
        }
        if (cut_y) {
            box_line(page, left - GAP - MARK, ys[i], MARK, 0, 0.5, INK_BLACK);
            box_line(page, right + GAP, ys[i], MARK, 0, 0.5, INK_BLACK);
        }
    }
}

/* Where the part goes, and which edges are cut. The strip right and below is left for glue. */
static void draw_words(struct box *page, const struct tile *part, const struct scene *tiles)
{
    struct arena *arena = part->press.arena;
    bool cut_left = part->column > 0, cut_top = part->row > 0;
    const char *cut = cut_left && cut_top ? "; cut along the left and top marks"
                      : cut_left          ? "; cut along the left marks"
                      : cut_top           ? "; cut along the top marks"
                                          : "";
    const char *words =
        arena_printf(arena, "page %d: row %d of %d, column %d of %d%s", part->page, part->row + 1,
                     part->tiling->rows, part->column + 1, part->tiling->columns, cut);
    double baseline =
        tiles->window.y + tiles->window.height + GAP + SIZE * type_capital(part->press.type) + 4;
    press_put(&part->press, page, tiles->window.x + OVERLAP / 2, baseline, words,
              (struct face){SIZE, WEIGHT_REGULAR, {INK_GREY, RANK_FOOT, ROLE_PLAIN}});
}

static void add_part(struct scene *tiles, const struct tile *part)
{
    const struct box *whole = part->scene->pages[part->page - 1];
    struct box *page = scene_page(tiles);
    double dx = tiles->window.x - part->column * part->tiling->step_x;
    double dy = tiles->window.y - part->row * part->tiling->step_y;
    struct box seen = {.arena = tiles->arena};
    for (size_t i = 0; i < whole->count; i++) {
        if (!shows(&whole->elements[i], tiles, dx, dy))
            continue;
        seen.elements = arena_grow(tiles->arena, seen.elements, seen.count, &seen.capacity,
                                   sizeof *seen.elements);
        seen.elements[seen.count++] = whole->elements[i];
    }
    box_place(page, &seen, dx, dy);
    page->windowed = page->count;
    draw_marks(page, part, tiles);
    draw_words(page, part, tiles);
    if (part->row == 0 && part->column == 0)
        scene_bookmark(tiles,
                       arena_printf(tiles->arena, "%s, page %d", part->scene->title, part->page), 0,
                       false);
}

struct scene *tile_scene(const struct scene *scene, struct type *type, const struct paper *paper)
{
    struct tiling tiling = tiling_of(scene->width, scene->height, paper);
    struct scene *tiles = scene_new(scene->arena, tiling.width, tiling.height, MARGIN - GAP - MARK);
    tiles->title = scene->title;
    tiles->author = scene->author;
    tiles->subject = scene->subject;
    tiles->keywords = scene->keywords;
    tiles->language = scene->language;
    tiles->description = scene->description;
    tiles->distance = scene->distance;
    tiles->window.x = tiles->window.y = MARGIN;
    tiles->window.width = tiling.step_x + OVERLAP;
    tiles->window.height = tiling.step_y + OVERLAP;
    struct tile part = {.scene = scene, .tiling = &tiling, .press = {scene->arena, type}};
    for (part.page = 1; part.page <= (int)scene->page_count; part.page++)
        for (part.row = 0; part.row < tiling.rows; part.row++)
            for (part.column = 0; part.column < tiling.columns; part.column++)
                add_part(tiles, &part);
    return tiles;
}
