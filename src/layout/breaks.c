#include "layout/breaks.h"

#include <string.h>

#include "base/arena.h"

/* Scripts that the sheets' family has: written from left to right, no letter higher than another's line. */
static bool is_plain(const char *text)
{
    for (const char *p = text; *p; p = g_utf8_next_char(p)) {
        gunichar c = g_utf8_get_char(p);
        if (c < 0x20 || (c >= 0x530 && c < 0x1e00) || c >= 0x2200)
            return false;
    }
    return true;
}

static double place_of(PangoLayoutLine *line, const char *text, const char *at)
{
    int x;
    pango_layout_line_index_to_x(line, (int)(at - text), FALSE, &x);
    return (double)x / PANGO_SCALE;
}

struct breaks *breaks_find(PangoLayout *layout)
{
    int count;
    const char *text = pango_layout_get_text(layout), *end_of_word = text;
    const PangoLogAttr *attributes = pango_layout_get_log_attrs_readonly(layout, &count);
    PangoLayoutLine *line = pango_layout_get_line_readonly(layout, 0);
    struct breaks *breaks = memory_get(sizeof *breaks + (size_t)count * sizeof *breaks->items);
    *breaks = (struct breaks){.plain = is_plain(text) && pango_layout_get_line_count(layout) == 1};
    int i = 0;
    for (const char *p = text; breaks->plain && i < count; i++) {
        bool last = *p == '\0';
        if (i > 0 && (attributes[i].is_line_break || last))
            breaks->items[breaks->count++] =
                (struct stretch){place_of(line, text, end_of_word), place_of(line, text, p)};
        if (last)
            break;
        const char *next = g_utf8_next_char(p);
        end_of_word = attributes[i].is_white ? end_of_word : next;
        p = next;
    }
    return breaks;
}

int breaks_lines(const struct breaks *breaks, double width, double *widest)
{
    double start = 0, reached = 0;
    int lines = 1;
    *widest = 0;
    for (size_t i = 0; i < breaks->count; i++) {
        const struct stretch *stretch = &breaks->items[i];
        bool first = i == 0 || start >= breaks->items[i - 1].next;
        if (!first && stretch->end - start > width) {
            lines++;
            start = breaks->items[i - 1].next;
        }
        reached = stretch->end - start;
        *widest = reached > *widest ? reached : *widest;
    }
    return lines;
}
