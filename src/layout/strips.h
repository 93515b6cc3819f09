/* strips.h - a column of parts that flows over pages, each part under a heading that is repeated wherever it is broken
 * off. */
#ifndef BELL_LAYOUT_STRIPS_H
#define BELL_LAYOUT_STRIPS_H

#include "layout/press.h"

struct strip {
    struct box *heading;   /* of the section */
    struct box *again;     /* the heading as it is repeated on a further page */
    struct box *body;
    double before;       /* space above, where it does not begin a page */
    bool first;          /* of its section */
    bool close;          /* belongs to the one before: parted from it only where both are higher than a page */
    bool row;            /* of a table, which is all rows that follow on one another */
    bool heads;          /* the heading is the first rows of that table */
    bool turn;           /* its section's parts are done in turn: an arrow leads from the mark of one to that of the next */
    const char *title;   /* of the section, for the outline */
    size_t number;       /* the sheet's own of what is shown */
};

struct strips {
    struct strip *items;
    size_t count, capacity;
    bool whole; /* a section is broken off only where it is higher than a page */
    double mark, top, bottom; /* where the marks of parts are: their middle from the left, and how far down they reach */
};

void strips_add(const struct press *press, struct strips *strips, struct strip strip);

/* Height of all on one page, and of those from START up to END. */
double strips_height(const struct strips *strips);
double strips_height_of(const struct strips *strips, size_t start, size_t end);

/* How many strips from START on stand in HEIGHT without parting what belongs together; at least 1, so that a strip that
 * fits no page still gets one. *USED is the height they take. */
size_t strips_fit(const struct strips *strips, size_t start, double height, double *used);

/* How many pages they take in COLUMNS side by side, FIRST high on the first page and OTHER on the rest; INT_MAX where a
 * strip alone is higher. */
int strips_pages(const struct strips *strips, double first, double other, int columns);

/* Where strips are split into columns of HEIGHTS, COUNT of them: ENDS are set so that all are filled evenly and few
 * sections are broken off. False if they do not fit. */
bool strips_part(struct arena *arena, const struct strips *strips, const double *heights, size_t count, size_t *ends);

/* Draws strips START up to END on PAGE from (X, Y) down, SLACK shared out among the spaces between them, sections
 * getting more than parts. Adds an entry to the outline for each section that starts. */
void strips_draw(struct scene *scene, struct box *page, const struct strips *strips, size_t start,
                 size_t end, double x, double y, double slack);

#endif
