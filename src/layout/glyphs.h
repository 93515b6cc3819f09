/* glyphs.h - a text as Pango shaped it: glyphs in their places, taken out of Pango's layout so that they can be drawn
 * in any size and broken into lines without being shaped again. */
#ifndef BELL_LAYOUT_GLYPHS_H
#define BELL_LAYOUT_GLYPHS_H

#include <cairo.h>
#include <pango/pango.h>
#include <stddef.h>

#include "base/arena.h"

/* Glyphs of one font in one line. Points at the size they were shaped in, from the text's top left corner. */
struct glyphs {
    cairo_scaled_font_t *font;
    const cairo_glyph_t *items;
    int count;
    const cairo_text_cluster_t *clusters; /* which bytes stand for which glyphs, in the order of the text */
    int cluster_count;
    cairo_text_cluster_flags_t flags;
    const double *pens; /* where each cluster starts, and behind them where the last ends */
    const char *text;
    int length;  /* of it, in bytes */
    double x, y; /* to be added to the glyphs' own places */
};

/* A list of glyphs that grows. */
struct glyph_list {
    struct glyphs *items;
    size_t count, capacity;
};

/* Adds to LIST what RUN draws, its pen starting at X on BASELINE: bytes are those of TEXT, which lives as long as ARENA.
 * FONTS keeps each font once and owns it. Characters that no font has are left out. */
void glyphs_add(struct arena *arena, struct glyph_list *list, PangoGlyphItem *run, const char *text, double x,
                double baseline, GPtrArray *fonts);

/* The same of all that LAYOUT draws, *COUNT strings; TEXT is a copy of its text. */
struct glyphs *glyphs_of(struct arena *arena, PangoLayout *layout, const char *text, GPtrArray *fonts, size_t *count);

/* Adds to LIST what the COUNT strings of GLYPHS, written from left to right, show of the bytes from FROM up to END,
 * moved by (X, Y). No cluster may lie across either. */
void glyphs_between(struct arena *arena, const struct glyphs *glyphs, size_t count, const char *from, const char *end,
                    double x, double y, struct glyph_list *list);

#endif
