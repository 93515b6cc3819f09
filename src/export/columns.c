#include "export/columns.h"

#include <string.h>

static const char NO_BREAK[] = "\302\240";

void columns_add(struct columns *columns, const char *const *cells, size_t count)
{
    columns->rows = arena_grow(columns->arena, columns->rows, columns->count, &columns->capacity,
                               sizeof *columns->rows);
    const char **row = columns->rows[columns->count++];
    for (size_t i = 0; i < MOST_COLUMNS; i++)
        row[i] = i < count ? cells[i] : "";
}

void columns_words(struct text *out, const char *words)
{
    for (const char *gap; (gap = strstr(words, NO_BREAK)) != NULL; words = gap + 2) {
        text_add_bytes(out, words, (size_t)(gap - words));
        text_add_char(out, ' ');
    }
    text_add(out, words);
}

static void pad(struct text *out, unsigned width)
{
    for (unsigned i = 0; i < width; i++)
        text_add_char(out, ' ');
}

static void write_row(const char *const *row, const unsigned widths[MOST_COLUMNS], int indent,
                      size_t numbers, struct text *out)
{
    size_t last = MOST_COLUMNS;
    while (last > 0 && !*row[last - 1])
        last--;
    pad(out, last ? (unsigned)indent : 0);
    for (size_t i = 0; i < last; i++) {
        unsigned gap = widths[i] - text_width(row[i], strlen(row[i]));
        if (i >= numbers)
            pad(out, gap);
        columns_words(out, row[i]);
        if (i < numbers && i + 1 < last)
            pad(out, gap);
        if (i + 1 < last && widths[i] > 0)
            pad(out, 2);
    }
    text_add_char(out, '\n');
}

void columns_write(struct columns *columns, int indent, size_t numbers, struct text *out)
{
    unsigned widths[MOST_COLUMNS] = {0};
    for (size_t r = 0; r < columns->count; r++)
        for (size_t i = 0; i < MOST_COLUMNS; i++) {
            unsigned width = text_width(columns->rows[r][i], strlen(columns->rows[r][i]));
            widths[i] = width > widths[i] ? width : widths[i];
        }
    for (size_t r = 0; r < columns->count; r++)
        write_row(columns->rows[r], widths, indent, numbers, out);
    columns->count = 0;
}
