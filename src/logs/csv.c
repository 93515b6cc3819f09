#include "logs/csv.h"

#include <string.h>

#include "base/text.h"

struct cell_list {
    const char **items;
    size_t count, capacity;
};

struct csv_reader {
    struct arena *arena;
    const char *at, *end;
    char separator;
    const char *fault; /* of the row being read */
};

static bool is_line_end(const struct csv_reader *reader, const char *at)
{
    return at < reader->end && (*at == '\n' || (*at == '\r' && at + 1 < reader->end && at[1] == '\n'));
}

static bool ends_field(const struct csv_reader *reader, const char *at)
{
    return at >= reader->end || *at == reader->separator || is_line_end(reader, at);
}

/* TEXT without spaces around it; line ends and tabs inside become spaces, because a line of a plan holds none. */
static const char *tidy(struct arena *arena, const char *text, size_t length)
{
    while (length && strchr(" \t\r\n", *text)) {
        text++;
        length--;
    }
    while (length && strchr(" \t\r\n", text[length - 1]))
        length--;
    char *copy = arena_copy(arena, text, length);
    for (size_t i = 0; i < length; i++)
        if (copy[i] == '\n' || copy[i] == '\r' || copy[i] == '\t')
            copy[i] = ' ';
    return copy;
}

/* A field in quotes; the reader is at the first quote. */
static const char *read_quoted(struct csv_reader *reader)
{
    struct text text = {.arena = reader->arena};
    reader->at++;
    for (; reader->at < reader->end; reader->at++) {
        if (*reader->at != '"') {
            text_add_char(&text, *reader->at);
        } else if (reader->at + 1 < reader->end && reader->at[1] == '"') {
            text_add_char(&text, '"');
            reader->at++;
        } else {
            break;
        }
    }
    if (reader->at >= reader->end)
        reader->fault = "a quote is opened here and never closed";
    else
        reader->at++;
    if (!ends_field(reader, reader->at))
        reader->fault = "something stands behind the quote that closes a field";
    while (!ends_field(reader, reader->at))
        reader->at++;
    return tidy(reader->arena, text_get(&text), text.length);
}

static const char *read_field(struct csv_reader *reader)
{
    if (reader->at < reader->end && *reader->at == '"')
        return read_quoted(reader);
    const char *start = reader->at;
    for (; !ends_field(reader, reader->at); reader->at++)
        if (*reader->at == '"')
            reader->fault = "a quote stands inside a field that does not start with one";
    return tidy(reader->arena, start, (size_t)(reader->at - start));
}

/* Reads the fields up to the end of the row, and passes that end. */
static struct cell_list read_cells(struct csv_reader *reader)
{
    struct cell_list cells = {NULL, 0, 0};
    reader->fault = NULL;
    for (;;) {
        const char *cell = read_field(reader);
        cells.items = arena_grow(reader->arena, cells.items, cells.count, &cells.capacity, sizeof *cells.items);
        cells.items[cells.count++] = cell;
        if (reader->at >= reader->end || *reader->at != reader->separator)
            break;
        reader->at++;
    }
    if (is_line_end(reader, reader->at))
        reader->at += *reader->at == '\r' ? 2 : 1;
    return cells;
}

static bool is_blank(const struct cell_list *cells)
{
    for (size_t i = 0; i < cells->count; i++)
        if (*cells->items[i])
            return false;
    return true;
}

struct csv csv_read(struct arena *arena, const char *text, size_t length, char separator)
{
    struct csv_reader reader = {.arena = arena, .at = text, .end = text + length, .separator = separator};
    struct csv table = {NULL, 0, NULL, 0, 0};
    unsigned number = 1;
    struct cell_list cells = read_cells(&reader);
    table.columns = cells.items;
    table.column_count = cells.count;
    while (reader.at < reader.end) {
        cells = read_cells(&reader);
        number++;
        struct csv_row row = {.number = number, .cells = cells.items, .fault = reader.fault};
        if (is_blank(&cells) && !row.fault)
            continue;
        if (!row.fault && cells.count != table.column_count)
            row.fault = arena_printf(arena, "it has %zu field%s, and the first row has %zu", cells.count,
                                     cells.count == 1 ? "" : "s", table.column_count);
        table.rows = arena_grow(arena, table.rows, table.row_count, &table.row_capacity, sizeof *table.rows);
        table.rows[table.row_count++] = row;
    }
    return table;
}
