#include "layout/strips.h"

#include <limits.h>

void strips_add(const struct press *press, struct strips *strips, struct strip strip)
{
    strips->items = arena_grow(press->arena, strips->items, strips->count, &strips->capacity,
                               sizeof *strips->items);
    strips->items[strips->count++] = strip;
}

void strips_append(const struct press *press, struct strips *strips, const struct strips *more)
{
    for (size_t i = 0; i < more->count; i++)
        strips_add(press, strips, more->items[i]);
}

static const struct piece *heading_of(const struct strip *strip, bool top)
{
    if (strip->first)
        return strip->heading;
    return top ? strip->again : NULL;
}

static double height_of(const struct strip *strip, bool top)
{
    const struct piece *heading = heading_of(strip, top);
    return (top ? 0 : strip->before) + (heading ? heading->height : 0) + strip->body->height;
}

double strips_height(const struct strips *strips)
{
    double height = 0;
    for (size_t i = 0; i < strips->count; i++)
        height += height_of(&strips->items[i], i == 0);
    return height;
}

size_t strips_fit(const struct strips *strips, size_t start, double height, double *used)
{
    size_t end = start;
    for (*used = 0; end < strips->count; end++) {
        double more = height_of(&strips->items[end], end == start);
        if (end > start && *used + more > height)
            break;
        *used += more;
    }
    return end - start;
}

int strips_pages(const struct strips *strips, double height)
{
    int pages = 0;
    double used;
    for (size_t start = 0; start < strips->count; pages++) {
        start += strips_fit(strips, start, height, &used);
        if (used > height)
            return INT_MAX; /* one strip alone is too high */
    }
    return pages;
}

/* A section's space grows three times as much as a part's. */
static double weight_of(const struct strip *strip, bool top)
{
    return top ? 0 : strip->first ? 3 : 1;
}

void strips_draw(struct scene *scene, struct piece *page, const struct strips *strips, size_t start,
                 size_t end, double x, double y, double slack)
{
    double weights = 0;
    for (size_t i = start; i < end; i++)
        weights += weight_of(&strips->items[i], i == start);
    bool table = false;
    for (size_t i = start; i < end; i++) {
        const struct strip *strip = &strips->items[i];
        bool top = i == start;
        if (table && strip->first)
            piece_close(page, ROLE_TABLE);
        if (strip->row && (top || strip->first))
            piece_open(page, ROLE_TABLE);
        table = strip->row;
        const struct piece *heading = heading_of(strip, top);
        if (!top)
            y += strip->before + slack * weight_of(strip, top) / weights;
        if (strip->first && strip->title)
            scene_bookmark(scene, strip->title, y, true);
        if (heading) {
            piece_place(page, heading, x, y);
            y += heading->height;
        } else if (strip->aside) {
            piece_place(page, strip->aside, x, y);
        }
        piece_place(page, strip->body, x, y);
        y += strip->body->height;
    }
    if (table)
        piece_close(page, ROLE_TABLE);
}
