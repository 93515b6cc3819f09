#include "layout/matrix.h"

#include <math.h>

static double heads_height(const struct matrix *matrix)
{
    double high = 0;
    for (size_t c = 0; c < matrix->column_count; c++)
        high = fmax(high, matrix->heads[c]->height);
    return high + matrix->pad;
}

static double row_height(const struct matrix *matrix, size_t row)
{
    double high = matrix->names[row]->height;
    for (size_t c = 0; c < matrix->column_count; c++)
        if (matrix->cells[row * matrix->column_count + c])
            high = fmax(high, matrix->cells[row * matrix->column_count + c]->height);
    return high + 2 * matrix->pad;
}

double matrix_height(const struct matrix *matrix, size_t from, size_t to)
{
    double high = heads_height(matrix);
    for (size_t row = from; row < to; row++)
        high += row_height(matrix, row);
    return high;
}

static void place(const struct matrix *matrix, struct box *box, enum role role, const struct box *cell, size_t column, double y)
{
    double x = matrix->names_width + (double)column * matrix->column_width;
    box_open(box, role);
    if (cell)
        box_place(box, cell, x, y);
    box_close(box, role);
}

struct box *matrix_box(struct arena *arena, const struct matrix *matrix, size_t from, size_t to)
{
    struct box *box = box_new(arena);
    double y = heads_height(matrix), width = matrix->names_width + (double)matrix->column_count * matrix->column_width;
    box_open(box, ROLE_TABLE);
    box_open(box, ROLE_ROW);
    box_open(box, ROLE_HEAD);
    box_close(box, ROLE_HEAD);
    for (size_t c = 0; c < matrix->column_count; c++)
        place(matrix, box, ROLE_HEAD, matrix->heads[c], c, 0);
    box_close(box, ROLE_ROW);
    for (size_t row = from; row < to; row++) {
        double line = row == from ? matrix->line : matrix->line / 2;
        box_line(box, 0, y, width, 0, line, row == from ? INK_BLACK : INK_HAIR);
        box_open(box, ROLE_ROW);
        box_place_as(box, ROLE_HEAD, matrix->names[row], 0, y + matrix->pad);
        for (size_t c = 0; c < matrix->column_count; c++)
            place(matrix, box, ROLE_DATUM, matrix->cells[row * matrix->column_count + c], c, y + matrix->pad);
        box_close(box, ROLE_ROW);
        y += row_height(matrix, row);
    }
    box_close(box, ROLE_TABLE);
    box->width = width;
    box->height = y;
    return box;
}
