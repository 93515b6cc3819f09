/* tally_json.c - weekly figures for other programs. The form is described by
 * share/schema/tally-1.schema.json. */
#include "export/json_text.h"
#include "export/show_programme.h"
#include "export/tally_formats.h"

static json_t *row_json(const struct tally_table *table, const struct tally_row *row)
{
    json_t *json = json_object(), *weeks = json_array();
    json_put_words(json, "group", row->group);
    json_put_words(json, "name", row->name);
    if (*row->side)
        json_put_words(json, "side", row->side);
    if (*row->unit)
        json_put_words(json, "unit", row->unit);
    if (*row->bound)
        json_put_words(json, "limit", row->bound);
    for (int week = 0; week < table->weeks; week++) {
        if (!row->known[week])
            continue;
        json_t *cell = json_object();
        json_put_number(cell, "week", (size_t)table->first_week + (size_t)week);
        json_put(cell, "low", json_decimal(row->cells[week].low));
        json_put(cell, "high", json_decimal(row->cells[week].high));
        json_array_append_new(weeks, cell);
    }
    json_put(json, "weeks", weeks);
    return json;
}

static json_t *table_json(const struct tally_view *view, const struct tally_table *table)
{
    json_t *json = json_object(), *rows = json_array();
    json_put_words(json, "camp", table->camp->name.shown);
    json_put_words(json, "athlete", table->athlete->name.shown);
    json_put_number(json, "week", (size_t)table->first_week);
    json_put_words(json, "starts", view_date(view->arena, tally_monday(table, 0)));
    json_put_number(json, "weeks", (size_t)table->weeks);
    for (size_t i = 0; i < table->count; i++)
        json_array_append_new(rows, row_json(table, &table->rows[i]));
    json_put(json, "rows", rows);
    return json;
}

static json_t *line_json(const struct tally_view *view, const struct tally_line *line)
{
    json_t *json = json_object();
    json_put_words(json, "athlete", line->athlete->name.shown);
    json_put_words(json, "account", account_name(view->arena, view->account));
    json_put_words(json, "what", line->what);
    json_put_words(json, "line", line->line);
    if (*line->unit)
        json_put_words(json, "unit", line->unit);
    json_put_number(json, "times", (size_t)line->times);
    json_put(json, "low", json_decimal(line->amount.low));
    json_put(json, "high", json_decimal(line->amount.high));
    return json;
}

bool tally_json(const struct tally_view *view, struct text *out)
{
    json_begin();
    json_t *json = json_object(), *items = json_array();
    bool lines = view->account != ACCOUNT_NONE;
    size_t count;
    json_put_words(json, "format", "bellsheet tally");
    json_put_number(json, "version", TALLY_FORM);
    json_put_words(json, "program", view->version);
    if (lines) {
        struct tally_line *found;
        count = tally_lines(view, &found);
        for (size_t i = 0; i < count; i++)
            json_array_append_new(items, line_json(view, &found[i]));
    } else {
        struct tally_table *tables;
        count = tally_tables(view, &tables);
        for (size_t i = 0; i < count; i++)
            json_array_append_new(items, table_json(view, &tables[i]));
    }
    json_put(json, lines ? "lines" : "tables", items);
    json_write(json, out);
    return count > 0;
}
