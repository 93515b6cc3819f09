/* tally_csv.c - weekly figures for spreadsheets: RFC 4180, one figure a row. */
#include <string.h>

#include "export/show_programme.h"
#include "export/tally_formats.h"
#include "model/athlete.h"
#include "model/season.h"
#include "wording/wording.h"

/* Adds WORDS as a field. A spreadsheet takes anything that starts with one of = + - @ or a control for a formula: an
 * apostrophe before it keeps it text. */
static void add_words(struct text *out, const char *words)
{
    bool formula = *words && strchr("=+-@\t\r\n", *words);
    bool quoted = formula || strpbrk(words, ",\"\r\n");
    text_add(out, quoted ? "\"" : "");
    text_add(out, formula ? "'" : "");
    for (const char *p = words; *p; p++) {
        text_add(out, *p == '"' ? "\"" : "");
        text_add_char(out, *p);
    }
    text_add(out, quoted ? "\"" : "");
}

static void add_record(struct text *out, const char *const *fields, size_t words,
                       const char *const *figures, size_t numbers)
{
    for (size_t i = 0; i < words; i++) {
        text_add(out, i ? "," : "");
        add_words(out, fields[i]);
    }
    /* Our own figures, even with a minus, are not formulas. */
    for (size_t i = 0; i < numbers; i++) {
        text_add_char(out, ',');
        text_add(out, figures[i]);
    }
    text_add(out, "\r\n");
}

/* The camp that a row of the week from MONDAY is listed under: its own, or else the first that has the week. */
static const struct tally_camp *camp_of(const struct tally_table *table, const struct tally_row *row, int monday)
{
    for (size_t i = 0; i < table->camp_count; i++)
        if ((!row->camp || row->camp == table->camps[i].camp) && tally_camp_week(&table->camps[i], monday))
            return &table->camps[i];
    return NULL;
}

static void add_row(const struct tally_view *view, const struct tally_table *table, const struct tally_row *row,
                    struct text *out)
{
    struct arena *arena = view->arena;
    for (int week = 0; week < table->weeks; week++) {
        int monday = tally_monday(table, week);
        const struct tally_camp *camp = camp_of(table, row, monday);
        if (!camp)
            continue;
        const char *const fields[] = {camp->camp->name.shown, table->athlete->name.shown,
                                      row->group, row->name, row->side, row->unit, row->bound};
        bool known = row->known[week];
        const char *const figures[] = {arena_printf(arena, "%d", tally_camp_week(camp, monday)),
                                       view_date(arena, monday),
                                       known ? wording_number(arena, row->cells[week].low) : "",
                                       known ? wording_number(arena, row->cells[week].high) : ""};
        add_record(out, fields, 7, figures, 4);
    }
}

static bool lines_csv(const struct tally_view *view, struct text *out)
{
    struct tally_line *lines;
    size_t count = tally_lines(view, &lines);
    text_add(out, "athlete,count,what,line,unit,times,low,high\r\n");
    for (size_t i = 0; i < count; i++) {
        const char *const fields[] = {lines[i].athlete->name.shown,
                                      counted_name(view->arena, view->counted), lines[i].what,
                                      lines[i].line, lines[i].unit};
        const char *const figures[] = {arena_printf(view->arena, "%d", lines[i].times),
                                       wording_number(view->arena, lines[i].amount.low),
                                       wording_number(view->arena, lines[i].amount.high)};
        add_record(out, fields, 5, figures, 3);
    }
    return count > 0;
}

static bool parts_csv(const struct tally_view *view, struct text *out)
{
    struct tally_part *parts;
    struct tally_figure figures[PART_FIGURES];
    size_t count = tally_parts(view, &parts);
    text_add(out, "athlete,by,iso week,day,what,group,name,unit,low,high\r\n");
    for (size_t i = 0; i < count; i++) {
        size_t found = tally_part_figures(view, &parts[i], figures);
        for (size_t f = 0; f < found; f++) {
            const char *const fields[] = {parts[i].athlete->name.shown,
                                          tally_by_name(view->by),
                                          tally_iso_week(view->arena, parts[i].monday),
                                          parts[i].date ? view_date(view->arena, parts[i].date) : "",
                                          parts[i].what,
                                          figures[f].group,
                                          figures[f].name,
                                          figures[f].unit};
            const char *const amounts[] = {wording_number(view->arena, figures[f].range.low),
                                           wording_number(view->arena, figures[f].range.high)};
            add_record(out, fields, sizeof fields / sizeof *fields, amounts, 2);
        }
    }
    return count > 0;
}

bool tally_csv(const struct tally_view *view, struct text *out)
{
    if (view->counted != COUNTED_NONE)
        return lines_csv(view, out);
    if (view->by != BY_TABLE)
        return parts_csv(view, out);
    struct tally_table *tables;
    size_t count = tally_tables(view, &tables);
    text_add(out, "camp,athlete,group,name,side,unit,limit,week,starts,low,high\r\n");
    for (size_t i = 0; i < count; i++)
        for (size_t r = 0; r < tables[i].count; r++)
            add_row(view, &tables[i], &tables[i].rows[r], out);
    return count > 0;
}
