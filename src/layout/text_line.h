/* text_line.h - a text on one line, shaped without Pango's layout: that would set lines nobody wants, and look for fonts for a
 * sample of each face's language. */
#ifndef BELL_LAYOUT_TEXT_LINE_H
#define BELL_LAYOUT_TEXT_LINE_H

#include <stdbool.h>

#include "layout/breaks.h"

/* Lengths in Pango's units, from the line's top left corner. */
struct text_line {
    PangoRectangle ink, logical;
    int baseline;
    struct glyph_list glyphs;
    const struct breaks *breaks;
};

/* Shapes TEXT, which lives as long as ARENA, in CONTEXT's font and with ATTRIBUTES. False if it needs a layout: more
 * than a paragraph, letters that are not written from left to right or are higher than others, or that no font has. */
bool line_shape(struct arena *arena, PangoContext *context, PangoAttrList *attributes, const char *text, GPtrArray *fonts,
                struct text_line *line);

#endif
