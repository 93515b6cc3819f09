/* screen.h - findings as text for the coach's own screen: what must be mended first, and no more than is read.
 *
 * Errors come first, then warnings, then what is only for information; each kind by file and place. For one athlete's
 * week five warnings are shown and the rest are counted, its floors are one table, and of the lines that add up to a
 * figure the three largest are shown. Reports in other formats have every finding, and so has the screen that is asked
 * for notes. */
#ifndef BELL_SOURCE_SCREEN_H
#define BELL_SOURCE_SCREEN_H

#include "source/diag.h"

enum { MOST_WARNINGS = 5, MOST_SUMMANDS = 3 };

struct diag_style {
    bool color;
    bool infos;      /* show findings of severity info too */
    bool notes;      /* show every finding in full, with all its notes */
    size_t most;     /* stop after this many findings; 0: show all */
};

/* Adds the findings to OUT: `file:line:column: error: words [name]`, the line, carets, notes. Columns count
 * terminal columns from 1. Call diag_sort first. */
void diag_print(const struct diag *diag, const struct diag_style *style, struct text *out);

#endif
