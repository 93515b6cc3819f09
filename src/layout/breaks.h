/* breaks.h - where a text can be broken into lines, found once, so that a trial of another size or width need not set
 * it again. */
#ifndef BELL_LAYOUT_BREAKS_H
#define BELL_LAYOUT_BREAKS_H

#include <stdbool.h>

#include "layout/glyphs.h"

/* What lies between two places for a break. Points from the line's start: where it ends without the white space after
 * it, and where the next starts. */
struct unbroken {
    double end, next;
    const char *behind; /* the first byte of the next */
};

struct breaks {
    size_t count;
    struct unbroken items[];
};

/* Of TEXT, whose characters and end have LENGTH ATTRIBUTES, and which on one line shows the COUNT strings of GLYPHS. */
const struct breaks *breaks_find(struct arena *arena, const PangoLogAttr *attributes, int length, const char *text,
                                 const struct glyphs *glyphs, size_t count);

/* A line: stretches from FIRST up to END. */
struct broken_line {
    size_t first, end;
    double start, width; /* points; where it starts in the text on one line */
};

/* The line that begins with stretch FIRST and is no wider than WIDTH, unless its only stretch is. */
struct broken_line breaks_line(const struct breaks *breaks, size_t first, double width);

/* How many lines as wide as WIDTH it takes; *WIDEST is set to the widest of them, which is wider than WIDTH where a
 * single stretch is. */
int breaks_lines(const struct breaks *breaks, double width, double *widest);

#endif
