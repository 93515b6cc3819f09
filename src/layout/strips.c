#include "layout/strips.h"

#include <limits.h>
#include <stdlib.h>

void strips_add(const struct press *press, struct strips *strips, struct strip strip)
{
    strips->items = arena_grow(press->arena, strips->items, strips->count, &strips->capacity,
                               sizeof *strips->items);
    strips->items[strips->count++] = strip;
}

static const struct box *heading_of(const struct strip *strip, bool top)
{
    if (strip->first)
        return strip->heading;
    return top ? strip->again : NULL;
}

static double height_of(const struct strip *strip, bool top)
{
    const struct box *heading = heading_of(strip, top);
    return (top ? 0 : strip->before) + (heading ? heading->height : 0) + strip->body->height;
}

double strips_height_of(const struct strips *strips, size_t start, size_t end)
{
    double height = 0;
    for (size_t i = start; i < end; i++)
        height += height_of(&strips->items[i], i == start);
    return height;
}

double strips_height(const struct strips *strips)
{
    return strips_height_of(strips, 0, strips->count);
}

/* How well a page ends before strip END. */
enum strip_end { PARTS_STRIPS, BREAKS_SECTION, ENDS_SECTION, ENDINGS };

static enum strip_end ending_at(const struct strips *strips, size_t end)
{
    if (end == strips->count || strips->items[end].first)
        return ENDS_SECTION;
    if (strips->items[end].close)
        return PARTS_STRIPS;
    return strips->whole ? BREAKS_SECTION : ENDS_SECTION;
}

size_t strips_fit(const struct strips *strips, size_t start, double height, double *used)
{
    size_t ends[ENDINGS] = {start, start, start};
    double heights[ENDINGS] = {0}, so_far = 0;
    for (size_t end = start; end < strips->count; end++) {
        so_far += height_of(&strips->items[end], end == start);
        if (end > start && so_far > height)
            break;
        enum strip_end ending = ending_at(strips, end + 1);
        ends[ending] = end + 1;
        heights[ending] = so_far;
    }
    int best = ENDS_SECTION;
    while (best > PARTS_STRIPS && ends[best] == start)
        best--;
    *used = heights[best];
    return ends[best] - start;
}

int strips_pages(const struct strips *strips, double first, double other, int columns)
{
    int filled = 0;
    for (size_t start = 0; start < strips->count; filled++) {
        double used, height = filled < columns ? first : other;
        start += strips_fit(strips, start, height, &used);
        if (used > height)
            return INT_MAX; /* one strip alone is too high */
    }
    return (filled + columns - 1) / columns;
}

/* What an ending costs compared with the white left in a column, as a share of its height squared. */
static double cost_of_break(const struct strips *strips, size_t end)
{
    switch (ending_at(strips, end)) {
    case PARTS_STRIPS:
        return 100;
    case BREAKS_SECTION:
        return 10;
    default:
        return end == strips->count || strips->items[end].first ? 0 : 0.1;
    }
}

/* The best way found to split what comes before a strip into some columns. */
struct parting {
    double cost; /* negative: there is none */
    size_t from; /* where the last column begins */
};

/* Works out TO columns from those for one less, BEFORE: all places where a column HEIGHT high may begin and end. */
static void part_column(const struct strips *strips, double height, const struct parting *before,
                        struct parting *to)
{
    size_t n = strips->count;
    for (size_t start = 0; start < n; start++) {
        double used = 0;
        for (size_t end = start; end < n && before[start].cost >= 0; end++) {
            used += height_of(&strips->items[end], end == start);
            if (used > height)
                break;
            double white = (height - used) / height;
            double cost = before[start].cost + white * white + cost_of_break(strips, end + 1);
            if (to[end + 1].cost < 0 || cost < to[end + 1].cost)
                to[end + 1] = (struct parting){cost, start};
        }
    }
}

bool strips_part(struct arena *arena, const struct strips *strips, const double *heights, size_t count, size_t *ends)
{
    size_t n = strips->count;
    struct parting *all = arena_alloc(arena, (count + 1) * (n + 1) * sizeof *all);
    for (size_t i = 0; i < (count + 1) * (n + 1); i++)
        all[i] = (struct parting){.cost = i == 0 ? 0 : -1};
    for (size_t c = 0; c < count; c++)
        part_column(strips, heights[c], &all[c * (n + 1)], &all[(c + 1) * (n + 1)]);
    bool fits = all[count * (n + 1) + n].cost >= 0;
    for (size_t c = count, end = n; fits && c > 0; c--) {
        ends[c - 1] = end;
        end = all[c * (n + 1) + end].from;
    }
    return fits;
}

/* A section's space grows three times as much as a part's; what belongs together stays so. */
static double weight_of(const struct strip *strip, bool top)
{
    return top || strip->close ? 0 : strip->first ? 3 : 1;
}

/* Down from FROM to TO; from a mark of a page before where there is none on this one, and open at its foot. None is drawn where
 * there is no room between two marks. */
static void draw_arrow(struct box *page, const struct strips *strips, double x, double from, double to, bool head)
{
    static const struct step tip[] = {{'M', {0, 0}}, {'L', {1, 0}}, {'L', {0.5, 1}}, {'Z', {0}}};
    double size = strips->bottom - strips->top, wide = 0.46 * size, high = head ? 0.36 * size : 0, line = 0.1 * size;
    from += 0.22 * size;
    to -= head ? 0.16 * size : 0;
    if (to - from < 0.36 * size)
        return;
    box_rectangle(page, x + strips->mark - line / 2, from, line, to - from - high, INK_BLACK, INK_NONE, 0);
    if (head)
        box_shape(page, x + strips->mark - wide / 2, to - high, wide, high, tip, sizeof tip / sizeof *tip)->fill = INK_BLACK;
}

/* Joins the marks of those of strips START up to END whose bodies are TOPS down, to the next one's and to BOTTOM where that is
 * overleaf. */
static void draw_turns(struct box *page, const struct strips *strips, size_t start, size_t end, const double *tops, double x,
                       double bottom)
{
    double from = tops[0] - strips->bottom; /* of the mark before */
    for (size_t i = start; i < end; i++) {
        const struct strip *strip = &strips->items[i], *next = i + 1 < strips->count ? strip + 1 : NULL;
        double top = tops[i - start];
        if (strip->turn && !strip->row && !strip->first)
            draw_arrow(page, strips, x, from + strips->bottom, top + strips->top, true);
        from = strip->row ? from : top;
        if (i + 1 == end && strip->turn && next && !next->first)
            draw_arrow(page, strips, x, from + strips->bottom, bottom, false);
    }
}

void strips_draw(struct scene *scene, struct box *page, const struct strips *strips, size_t start,
                 size_t end, double x, double y, double slack)
{
    double weights = 0;
    for (size_t i = start; i < end; i++)
        weights += weight_of(&strips->items[i], i == start);
    double *tops = arena_alloc(page->arena, (end - start + 1) * sizeof *tops);
    bool table = false;
    for (size_t i = start; i < end; i++) {
        const struct strip *strip = &strips->items[i];
        bool top = i == start;
        const struct box *heading = heading_of(strip, top);
        bool heads = heading && strip->heads;
        if (table && (!strip->row || heading)) {
            box_close(page, ROLE_TABLE);
            table = false;
        }
        if (!top)
            y += strip->before + (weights > 0 ? slack * weight_of(strip, top) / weights : 0);
        if (strip->first && strip->title)
            scene_bookmark(scene, strip->title, y, true);
        if (heads)
            box_open(page, ROLE_TABLE);
        table = table || heads;
        if (heading) {
            box_place(page, heading, x, y);
            y += heading->height;
        }
        if (strip->row && !table)
            box_open(page, ROLE_TABLE);
        table = strip->row;
        box_place(page, strip->body, x, y);
        tops[i - start] = y;
        y += strip->body->height;
    }
    if (table)
        box_close(page, ROLE_TABLE);
    if (start < end)
        draw_turns(page, strips, start, end, tops, x, y);
}
