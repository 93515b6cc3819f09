#include "layout/glyphs.h"

#include <pango/pangocairo.h>
#include <stdbool.h>

static double points(int units)
{
    return (double)units / PANGO_SCALE;
}

static bool is_drawn(PangoGlyph glyph)
{
    return glyph != PANGO_GLYPH_EMPTY && !(glyph & PANGO_GLYPH_UNKNOWN_FLAG);
}

/* The font's own, kept in FONTS. */
static cairo_scaled_font_t *keep_font(GPtrArray *fonts, PangoFont *font)
{
    cairo_scaled_font_t *scaled = pango_cairo_font_get_scaled_font(PANGO_CAIRO_FONT(font));
    for (guint i = 0; i < fonts->len; i++)
        if (fonts->pdata[i] == scaled)
            return scaled;
    g_ptr_array_add(fonts, cairo_scaled_font_reference(scaled));
    return scaled;
}

static void take_items(struct arena *arena, const PangoGlyphString *string, double pen, double y, struct glyphs *out)
{
    cairo_glyph_t *items = arena_alloc(arena, (size_t)string->num_glyphs * sizeof *items);
    for (int i = 0; i < string->num_glyphs; i++) {
        const PangoGlyphInfo *glyph = &string->glyphs[i];
        if (is_drawn(glyph->glyph))
            items[out->count++] = (cairo_glyph_t){.index = glyph->glyph,
                                                  .x = pen + points(glyph->geometry.x_offset),
                                                  .y = y + points(glyph->geometry.y_offset)};
        pen += points(glyph->geometry.width);
    }
    out->items = items;
}

static void take_clusters(struct arena *arena, PangoGlyphItem *run, const char *text, double pen, struct glyphs *out)
{
    size_t most = (size_t)run->item->num_chars;
    cairo_text_cluster_t *clusters = arena_alloc(arena, most * sizeof *clusters);
    double *pens = arena_alloc(arena, (most + 1) * sizeof *pens);
    PangoGlyphItemIter iter;
    int n = 0;
    for (gboolean more = pango_glyph_item_iter_init_start(&iter, run, text); more;
         more = pango_glyph_item_iter_next_cluster(&iter)) {
        bool backward = iter.start_glyph > iter.end_glyph;
        int first = backward ? iter.end_glyph + 1 : iter.start_glyph;
        int end = backward ? iter.start_glyph + 1 : iter.end_glyph;
        clusters[n].num_bytes = iter.end_index - iter.start_index;
        pens[n] = pen;
        for (int i = first; i < end; i++) {
            clusters[n].num_glyphs += is_drawn(run->glyphs->glyphs[i].glyph);
            pen += points(run->glyphs->glyphs[i].geometry.width);
        }
        n++;
    }
    pens[n] = pen;
    out->clusters = clusters;
    out->cluster_count = n;
    out->pens = pens;
}

void glyphs_add(struct arena *arena, struct glyph_list *list, PangoGlyphItem *run, const char *text, double x,
                double baseline, GPtrArray *fonts)
{
    list->items = arena_grow(arena, list->items, list->count, &list->capacity, sizeof *list->items);
    struct glyphs *out = &list->items[list->count++];
    *out = (struct glyphs){.font = keep_font(fonts, run->item->analysis.font),
                           .flags = run->item->analysis.level % 2 ? CAIRO_TEXT_CLUSTER_FLAG_BACKWARD : 0,
                           .text = text + run->item->offset,
                           .length = run->item->length};
    take_items(arena, run->glyphs, x, baseline, out);
    take_clusters(arena, run, text, x, out);
}

struct glyphs *glyphs_of(struct arena *arena, PangoLayout *layout, const char *text, GPtrArray *fonts, size_t *count)
{
    struct glyph_list list = {0};
    PangoLayoutIter *iter = pango_layout_get_iter(layout);
    do {
        PangoLayoutRun *run = pango_layout_iter_get_run_readonly(iter);
        if (!run)
            continue; /* the end of a line */
        PangoRectangle place;
        pango_layout_iter_get_run_extents(iter, NULL, &place);
        glyphs_add(arena, &list, run, text, points(place.x), points(pango_layout_iter_get_baseline(iter)), fonts);
    } while (pango_layout_iter_next_run(iter));
    pango_layout_iter_free(iter);
    *count = list.count;
    return list.items;
}

/* What GLYPHS show of the bytes from FROM up to END. */
static struct glyphs part_of(const struct glyphs *glyphs, const char *from, const char *end)
{
    const char *at = glyphs->text;
    struct glyphs part = *glyphs;
    int i = 0;
    for (; i < glyphs->cluster_count && at < from; i++) {
        at += glyphs->clusters[i].num_bytes;
        part.items += glyphs->clusters[i].num_glyphs;
    }
    part.text = at;
    part.clusters += i;
    part.pens += i;
    part.count = part.cluster_count = 0;
    for (; i < glyphs->cluster_count && at < end; i++) {
        at += glyphs->clusters[i].num_bytes;
        part.count += glyphs->clusters[i].num_glyphs;
        part.cluster_count++;
    }
    part.length = (int)(at - part.text);
    return part;
}

void glyphs_between(struct arena *arena, const struct glyphs *glyphs, size_t count, const char *from, const char *end,
                    double x, double y, struct glyph_list *list)
{
    for (size_t i = 0; i < count; i++) {
        if (glyphs[i].text >= end || glyphs[i].text + glyphs[i].length <= from)
            continue;
        list->items = arena_grow(arena, list->items, list->count, &list->capacity, sizeof *list->items);
        struct glyphs *part = &list->items[list->count++];
        *part = part_of(&glyphs[i], from, end);
        part->x += x;
        part->y += y;
    }
}
