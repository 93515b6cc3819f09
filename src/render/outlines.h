/* outlines.h - the outlines of glyphs as SVG paths, each once for a page, whatever the sizes it is set in: a text is shaped
 * in one size and drawn under a scale. */
#ifndef BELL_RENDER_OUTLINES_H
#define BELL_RENDER_OUTLINES_H

#include <cairo.h>

#include "base/text.h"

struct outline {
    cairo_scaled_font_t *font;
    unsigned long glyph;
    bool empty; /* a space */
};

struct outlines {
    struct arena *arena;
    cairo_t *cairo; /* on nothing that is seen: it makes the paths */
    struct outline *items;
    size_t count, capacity;
    struct text paths; /* an element `path` for each that is not empty, its id "g" and its place */
    bool missing;      /* a glyph has ink and no outline, as a picture of a font has */
};

struct outlines outlines_open(void);
void outlines_close(struct outlines *outlines);

/* The place of GLYPH of FONT among the outlines; it is added where it is new. -1: there is nothing to draw. */
int outlines_find(struct outlines *outlines, cairo_scaled_font_t *font, unsigned long glyph);

/* Adds NUMBER to OUT with at most PLACES decimals, and no zeros at their end. */
void outlines_number(struct text *out, double number, int places);

#endif
