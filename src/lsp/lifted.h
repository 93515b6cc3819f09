/* lifted.h - what is lifted by a percentage: who, when, how much, on which bar. */
#ifndef BELL_LSP_LIFTED_H
#define BELL_LSP_LIFTED_H

#include "lsp/server.h"

/* One set, or several equal ones, that a line of the plan asks for by a percentage. */
struct lifted {
    const struct occasion *occasion;
    const struct item *item;
    const struct set_run *run;
};

/* A line with a percentage in it. */
struct lifted_line {
    size_t start, end; /* bytes of the line */
    size_t behind;     /* its first percentage */
    struct lifted *items; /* by date */
    size_t count, capacity;
};

struct lifted_lines {
    struct lifted_line *items; /* in the order of the file */
    size_t count, capacity;
};

/* The lines of FOCUS between the bytes FIRST and LAST. */
struct lifted_lines lifted_find(struct arena *arena, const struct focus *focus, size_t first, size_t last);

#endif
