/* columns.h - lines of cells, each column as wide as its widest cell. Read by the files of this
 * room only. */
#ifndef BELL_EXPORT_COLUMNS_H
#define BELL_EXPORT_COLUMNS_H

#include "base/arena.h"
#include "base/text.h"

enum { MOST_COLUMNS = 16 };

struct columns {
    struct arena *arena;
    const char *(*rows)[MOST_COLUMNS]; /* NULL after the last cell of a row */
    size_t count, capacity;
};

/* Adds a row of COUNT cells, at most MOST_COLUMNS; NULL and "" are empty. The cells must outlive
 * the columns. */
void columns_add(struct columns *columns, const char *const *cells, size_t count);

/* Adds every row to OUT after INDENT spaces, cells separated by two spaces, nothing trailing, and forgets them. The
 * columns from NUMBERS on are aligned right. No-break spaces come out plain, so that the text can be searched. */
void columns_write(struct columns *columns, int indent, size_t numbers, struct text *out);

/* Adds WORDS with plain spaces. */
void columns_words(struct text *out, const char *words);

#endif
