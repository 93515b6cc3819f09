/* matrix.h - a table with a name before each row, a head above each column and a piece in each cell. */
#ifndef BELL_LAYOUT_MATRIX_H
#define BELL_LAYOUT_MATRIX_H

#include "layout/press.h"

struct matrix {
    struct box **names; /* one a row */
    size_t row_count;
    struct box **heads; /* one a column */
    size_t column_count;
    struct box **cells; /* row after row; NULL: there is nothing to do */
    double names_width, column_width;
    double pad;         /* above and below what stands in a row */
    double line;        /* width of the lines under the heads; those between rows are half as wide */
};

/* How high the heads and rows FROM up to TO are. */
double matrix_height(const struct matrix *matrix, size_t from, size_t to);

/* The heads and rows FROM up to TO, as a table. */
struct box *matrix_box(struct arena *arena, const struct matrix *matrix, size_t from, size_t to);

#endif
