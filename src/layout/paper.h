/* paper.h - sheets of paper by name: ISO 216 and two North American sizes. */
#ifndef BELL_LAYOUT_PAPER_H
#define BELL_LAYOUT_PAPER_H

#include <stdbool.h>
#include <stddef.h>

/* In millimetres, portrait. */
struct paper {
    const char *name;
    double width, height;
};

extern const struct paper papers[];
extern const size_t paper_count;

/* The paper called NAME (any case), or NULL. */
const struct paper *paper_find(const char *name);

/* The next larger paper of PAPER's own series, or NULL for the largest. */
const struct paper *paper_larger(const struct paper *paper);

/* Its size in points, turned when LANDSCAPE. */
void paper_points(const struct paper *paper, bool landscape, double *width, double *height);

#endif
