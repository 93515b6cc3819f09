#include "layout/breaks.h"

/* A place in the text that only moves on. */
struct cursor {
    const struct glyphs *glyphs, *end;
    int cluster;
    const char *at; /* where the cluster starts */
};

static double place_of(struct cursor *cursor, const char *byte)
{
    while (cursor->at < byte) {
        cursor->at += cursor->glyphs->clusters[cursor->cluster++].num_bytes;
        if (cursor->cluster < cursor->glyphs->cluster_count || cursor->glyphs + 1 == cursor->end)
            continue;
        cursor->glyphs++;
        cursor->cluster = 0;
    }
    return cursor->glyphs->pens[cursor->cluster];
}

const struct breaks *breaks_find(struct arena *arena, const PangoLogAttr *attributes, int length, const char *text,
                                 const struct glyphs *glyphs, size_t count)
{
    struct breaks *breaks = arena_alloc(arena, sizeof *breaks + (size_t)length * sizeof *breaks->items);
    struct cursor ends = {glyphs, glyphs + count, 0, text}, starts = ends;
    const char *end_of_word = text, *p = text;
    for (int i = 0; i < length; i++) {
        if (i > 0 && (attributes[i].is_line_break || i + 1 == length))
            breaks->items[breaks->count++] =
                (struct unbroken){place_of(&ends, end_of_word), place_of(&starts, p), p};
        const char *next = g_utf8_next_char(p);
        end_of_word = attributes[i].is_white ? end_of_word : next;
        p = next;
    }
    return breaks;
}

struct broken_line breaks_line(const struct breaks *breaks, size_t first, double width)
{
    double start = first ? breaks->items[first - 1].next : 0;
    size_t end = first + 1;
    while (end < breaks->count && breaks->items[end].end - start <= width)
        end++;
    return (struct broken_line){first, end, start, breaks->items[end - 1].end - start};
}

int breaks_lines(const struct breaks *breaks, double width, double *widest)
{
    int lines = 0;
    *widest = 0;
    for (size_t first = 0; first < breaks->count; lines++) {
        struct broken_line line = breaks_line(breaks, first, width);
        *widest = line.width > *widest ? line.width : *widest;
        first = line.end;
    }
    return lines;
}
