/* breaks.h - where a text can be broken into lines, found once, so that a trial of another size or width need not set
 * it anew. */
#ifndef BELL_LAYOUT_BREAKS_H
#define BELL_LAYOUT_BREAKS_H

#include <pango/pango.h>
#include <stdbool.h>
#include <stddef.h>

/* What stands between two places for a break. Points from the line's start: where it ends without the white space
 * behind it, and where the next starts. */
struct stretch {
    double end, next;
};

struct breaks {
    bool plain; /* one paragraph, from left to right, in letters of one height; else the rest is not meant */
    size_t count;
    struct stretch items[];
};

/* Of LAYOUT, which sets its text on one line. The caller frees it. */
struct breaks *breaks_find(PangoLayout *layout);

/* How many lines as wide as WIDTH it takes; *WIDEST is set to the widest of them, which is wider than WIDTH where a
 * single stretch is. */
int breaks_lines(const struct breaks *breaks, double width, double *widest);

#endif
