/* tally_json.c - weekly figures for other programs. The form is described by
 * share/schema/tally-3.schema.json. */
#include "export/json_text.h"
#include "export/show_programme.h"
#include "export/tally_formats.h"
#include "model/athlete.h"
#include "model/season.h"

static json_t *row_json(const struct tally_view *view, const struct tally_table *table, const struct tally_row *row)
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
    if (row->camp)
        json_put_words(json, "camp", row->camp->name.shown);
    for (int week = 0; week < table->weeks; week++) {
        if (!row->known[week])
            continue;
        json_t *cell = json_object();
        json_put_words(cell, "starts", view_date(view->arena, tally_monday(table, week)));
        json_put(cell, "low", json_decimal(row->cells[week].low));
        json_put(cell, "high", json_decimal(row->cells[week].high));
        json_add(weeks, cell);
    }
    json_put(json, "weeks", weeks);
    return json;
}

static json_t *camps_json(const struct tally_view *view, const struct tally_table *table)
{
    json_t *camps = json_array();
    for (size_t i = 0; i < table->camp_count; i++) {
        const struct tally_camp *camp = &table->camps[i];
        json_t *json = json_object();
        json_put_words(json, "camp", camp->camp->name.shown);
        json_put_number(json, "week", (size_t)camp->first_week);
        json_put_words(json, "starts", view_date(view->arena, tally_camp_monday(camp)));
        json_put_number(json, "weeks", (size_t)camp->weeks);
        json_add(camps, json);
    }
    return camps;
}

static json_t *table_json(const struct tally_view *view, const struct tally_table *table)
{
    json_t *json = json_object(), *rows = json_array();
    json_put_words(json, "athlete", table->athlete->name.shown);
    json_put_words(json, "starts", view_date(view->arena, tally_monday(table, 0)));
    json_put_number(json, "weeks", (size_t)table->weeks);
    json_put(json, "camps", camps_json(view, table));
    for (size_t i = 0; i < table->count; i++)
        json_add(rows, row_json(view, table, &table->rows[i]));
    json_put(json, "rows", rows);
    return json;
}

static json_t *line_json(const struct tally_view *view, const struct tally_line *line)
{
    json_t *json = json_object();
    json_put_words(json, "athlete", line->athlete->name.shown);
    json_put_words(json, "count", counted_name(view->arena, view->counted));
    json_put_words(json, "what", line->what);
    json_put_words(json, "line", line->line);
    if (*line->unit)
        json_put_words(json, "unit", line->unit);
    json_put_number(json, "times", (size_t)line->times);
    json_put(json, "low", json_decimal(line->amount.low));
    json_put(json, "high", json_decimal(line->amount.high));
    return json;
}

static json_t *part_json(const struct tally_view *view, const struct tally_part *part)
{
    struct tally_figure figures[PART_FIGURES];
    size_t count = tally_part_figures(view, part, figures);
    json_t *json = json_object(), *list = json_array();
    json_put_words(json, "athlete", part->athlete->name.shown);
    json_put_words(json, "by", tally_by_name(view->by));
    json_put_words(json, "iso_week", tally_iso_week(view->arena, part->monday));
    if (part->date)
        json_put_words(json, "day", view_date(view->arena, part->date));
    if (*part->what)
        json_put_words(json, "what", part->what);
    for (size_t i = 0; i < count; i++) {
        json_t *figure = json_object();
        json_put_words(figure, "group", figures[i].group);
        json_put_words(figure, "name", figures[i].name);
        if (*figures[i].unit)
            json_put_words(figure, "unit", figures[i].unit);
        json_put(figure, "low", json_decimal(figures[i].range.low));
        json_put(figure, "high", json_decimal(figures[i].range.high));
        json_add(list, figure);
    }
    json_put(json, "figures", list);
    return json;
}

/* Puts the view's items into ITEMS, under the name that the form gives them; returns how many. */
static const char *items_json(const struct tally_view *view, json_t *items, size_t *count)
{
    if (view->counted != COUNTED_NONE) {
        struct tally_line *lines;
        *count = tally_lines(view, &lines);
        for (size_t i = 0; i < *count; i++)
            json_add(items, line_json(view, &lines[i]));
        return "lines";
    }
    if (view->by != BY_TABLE) {
        struct tally_part *parts;
        *count = tally_parts(view, &parts);
        for (size_t i = 0; i < *count; i++)
            json_add(items, part_json(view, &parts[i]));
        return "parts";
    }
    struct tally_table *tables;
    *count = tally_tables(view, &tables);
    for (size_t i = 0; i < *count; i++)
        json_add(items, table_json(view, &tables[i]));
    return "tables";
}

bool tally_json(const struct tally_view *view, struct text *out)
{
    json_t *json = json_object(), *items = json_array();
    size_t count;
    json_put_words(json, "format", "bellsheet tally");
    json_put_number(json, "version", TALLY_FORM);
    json_put_words(json, "program", view->version);
    const char *name = items_json(view, items, &count);
    json_put(json, name, items);
    json_write(json, out);
    return count > 0;
}
