/* csv.h - a table of comma-separated values (RFC 4180), as spreadsheets and measuring devices write it: fields with
 * or without quotes, a quote inside quotes doubled, lines that end in CR LF or LF. The caller names the separator. */
#ifndef BELL_LOGS_CSV_H
#define BELL_LOGS_CSV_H

#include <stddef.h>

#include "base/arena.h"

struct csv_row {
    unsigned number;    /* as a spreadsheet counts: the first, with the names of the columns, is 1 */
    const char **cells; /* as many as there are columns; without space around them */
    const char *fault;  /* why it cannot be read, in words; NULL if it can */
};

struct csv {
    const char **columns; /* their names */
    size_t column_count;
    struct csv_row *rows;
    size_t row_count, row_capacity;
};

/* The table in TEXT, LENGTH bytes of UTF-8 without a byte order mark. Rows without any text are left out. All of it lives
 * in ARENA. */
struct csv csv_read(struct arena *arena, const char *text, size_t length, char separator);

#endif
