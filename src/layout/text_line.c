#include "layout/text_line.h"

#include <string.h>

/* Scripts that the sheets' family has: written from left to right, no letter higher than another's line. */
static bool is_plain(const char *text)
{
    for (const char *p = text; *p; p = g_utf8_next_char(p)) {
        gunichar c = g_utf8_get_char(p);
        if (c < 0x20 || (c >= 0x530 && c < 0x1e00) || c >= 0x2200)
            return false;
    }
    return *text != '\0';
}

static double points(int units)
{
    return (double)units / PANGO_SCALE;
}

/* The smallest box that contains both; one without width contains nothing. */
static PangoRectangle joined(PangoRectangle a, PangoRectangle b)
{
    if (a.width == 0 || b.width == 0)
        return a.width == 0 ? b : a;
    int right = MAX(a.x + a.width, b.x + b.width), bottom = MAX(a.y + a.height, b.y + b.height);
    PangoRectangle all = {.x = MIN(a.x, b.x), .y = MIN(a.y, b.y)};
    all.width = right - all.x;
    all.height = bottom - all.y;
    return all;
}

/* A line on its way: boxes are from the start of its baseline. */
struct pen {
    struct arena *arena;
    const char *text;
    int length;
    GPtrArray *fonts;
    struct text_line *line;
    int x;
};

static bool add_item(struct pen *pen, PangoItem *item)
{
    PangoGlyphString *glyphs = pango_glyph_string_new();
    PangoGlyphItem run = {.item = item, .glyphs = glyphs};
    PangoRectangle ink, logical;
    bool known = item->analysis.level % 2 == 0;
    pango_shape_with_flags(pen->text + item->offset, item->length, pen->text, pen->length, &item->analysis, glyphs,
                           PANGO_SHAPE_NONE);
    for (int i = 0; i < glyphs->num_glyphs && known; i++)
        known = !(glyphs->glyphs[i].glyph & PANGO_GLYPH_UNKNOWN_FLAG);
    pango_glyph_string_extents(glyphs, item->analysis.font, &ink, &logical);
    ink.x += pen->x;
    logical.x += pen->x;
    pen->line->ink = joined(pen->line->ink, ink);
    pen->line->logical = joined(pen->line->logical, logical);
    glyphs_add(pen->arena, &pen->line->glyphs, &run, pen->text, points(pen->x), 0, pen->fonts);
    pen->x += logical.width;
    pango_glyph_string_free(glyphs);
    return known;
}

/* From the start of the baseline to the top left corner. */
static void move_down(struct text_line *line)
{
    line->baseline = -line->logical.y;
    line->logical.y = 0;
    line->ink.y += line->baseline;
    for (size_t i = 0; i < line->glyphs.count; i++)
        line->glyphs.items[i].y = points(line->baseline);
}

static const struct breaks *find_breaks(const struct pen *pen)
{
    int count = (int)g_utf8_strlen(pen->text, pen->length) + 1;
    PangoLogAttr *attributes = g_malloc_n((gsize)count, sizeof *attributes);
    pango_get_log_attrs(pen->text, pen->length, -1, pango_language_from_string("en"), attributes, count);
    const struct breaks *breaks = breaks_find(pen->arena, attributes, count, pen->text, pen->line->glyphs.items,
                                              pen->line->glyphs.count);
    g_free(attributes);
    return breaks;
}

bool line_shape(struct arena *arena, PangoContext *context, PangoAttrList *attributes, const char *text, GPtrArray *fonts,
                struct text_line *line)
{
    if (!is_plain(text))
        return false;
    *line = (struct text_line){0};
    struct pen pen = {arena, text, (int)strlen(text), fonts, line, 0};
    bool known = true;
    GList *items = pango_itemize(context, text, 0, pen.length, attributes, NULL);
    for (GList *at = items; at; at = at->next) {
        known = known && add_item(&pen, at->data);
        pango_item_free(at->data);
    }
    g_list_free(items);
    if (!known)
        return false;
    line->breaks = find_breaks(&pen);
    move_down(line);
    return true;
}
