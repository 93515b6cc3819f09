/* Any bytes as the rules of a table and, below a line `---`, as the table. Rows come out with as many cells as there are
 * columns, nothing that goes into a plan has a line end in it, and a table that is written again reads the same. */
#include "fuzz/fuzz.h"

#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "logs/table_log.h"
#include "source/source.h"

static void add_quoted(const char *cell, char separator, bool last, struct text *out)
{
    text_add_char(out, '"');
    for (; *cell; cell++) {
        text_add_char(out, *cell);
        if (*cell == '"')
            text_add_char(out, '"');
    }
    text_add_char(out, '"');
    text_add_char(out, last ? '\n' : separator);
}

/* The rows of CSV that could be read, written again, are read as they were. */
static void write_again(struct arena *arena, const struct csv *csv, char separator)
{
    struct text out = {.arena = arena};
    size_t whole = 0, next = 0;
    for (size_t c = 0; c < csv->column_count; c++)
        add_quoted(csv->columns[c], separator, c + 1 == csv->column_count, &out);
    for (size_t i = 0; i < csv->row_count; i++)
        for (size_t c = 0; c < csv->column_count && !csv->rows[i].fault; c++) {
            whole += c == 0;
            add_quoted(csv->rows[i].cells[c], separator, c + 1 == csv->column_count, &out);
        }
    const struct csv again = csv_read(arena, text_get(&out), out.length, separator);
    if (again.row_count != whole || again.column_count != csv->column_count)
        abort();
    for (size_t i = 0; i < csv->row_count; i++) {
        if (csv->rows[i].fault)
            continue;
        for (size_t c = 0; c < csv->column_count; c++)
            if (again.rows[next].fault || strcmp(again.rows[next].cells[c], csv->rows[i].cells[c]) != 0)
                abort();
        next++;
    }
}

static void take_rows(struct arena *arena, const struct table_rules *rules, const struct csv *csv)
{
    for (size_t i = 0; i < csv->row_count; i++) {
        const struct table_log log = table_log_read(arena, rules, &csv->rows[i]);
        if (log.refused)
            continue;
        const char *const words[] = {log.set, log.took, log.rpe, log.note, log.missed, log.line};
        for (size_t w = 0; w < sizeof words / sizeof *words; w++)
            if (strpbrk(words[w], "\r\n"))
                abort();
    }
}

static void try_table(struct arena *arena, const char *text)
{
    static const char line[] = "\n---\n";
    struct sources sources = {.arena = arena};
    const char *mark = strstr(text, line), *below = mark ? mark + strlen(line) : "";
    int file = source_add(&sources, "rules", text, mark ? (size_t)(mark - text) : strlen(text));
    struct table_rules rules = table_rules_read(arena, &sources.items[file]);
    const struct csv csv = csv_read(arena, below, strlen(below), rules.separator);
    write_again(arena, &csv, rules.separator);
    if (!rules.fault_count)
        table_rules_find(arena, &rules, &csv);
    if (!rules.fault_count)
        take_rows(arena, &rules, &csv);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct arena *arena = arena_new();
    struct sources sources = {.arena = arena};
    const char *what;
    size_t fault_length;
    int file = source_add(&sources, "table", (const char *)data, size);
    const struct source *source = &sources.items[file];
    if (text_first_fault(source->text, source->length, &what, &fault_length) == source->length)
        try_table(arena, source->text);
    arena_free(arena);
    return 0;
}
