/* tally_text.c - weekly figures as aligned text. */
#include <string.h>

#include "export/columns.h"
#include "export/show_programme.h"
#include "export/tally_formats.h"
#include "measure/kit.h"
#include "model/athlete.h"
#include "model/season.h"
#include "wording/wording.h"

enum { NAMES = 4, WEEKS_ABREAST = 10 };

/* A figure that is a hair past a limit must not be rounded onto it. */
static milli to_hundredths(milli figure)
{
    milli nearest = (figure + (figure < 0 ? -5 : 5)) / 10 * 10;
    return figure < 0 && nearest == 0 ? -10 : nearest;
}

/* More than hundredths are of no use to the eye. */
static struct range rounded(struct range range)
{
    return (struct range){to_hundredths(range.low), to_hundredths(range.high)};
}

static const char *cell_words(const struct tally_view *view, const struct tally_row *row, int week)
{
    if (!row->known[week])
        return "-";
    struct range cell = rounded(row->cells[week]);
    const char *words = wording_range(view->arena, cell);
    bool surplus = strcmp(row->group, "margin") == 0 && cell.high > 0;
    return surplus ? arena_printf(view->arena, "+%s", words) : words;
}

/* Its name; if several camps share the table and it is about one, with that camp's name. */
static const char *row_words(const struct tally_view *view, const struct tally_table *table, const struct tally_row *row)
{
    return row->camp && table->camp_count > 1 ? arena_printf(view->arena, "%s (%s)", row->name, row->camp->name.shown)
                                              : row->name;
}

static void add_row(const struct tally_view *view, const struct tally_table *table, struct columns *columns,
                    const struct tally_row *row, int from, int to)
{
    const char *cells[MOST_COLUMNS] = {row_words(view, table, row), row->side, row->unit, row->bound};
    for (int week = from; week < to; week++)
        cells[NAMES + week - from] = cell_words(view, row, week);
    columns_add(columns, cells, (size_t)(NAMES + to - from));
}

/* A line of its own for the name of a group. */
static void add_group(struct columns *columns, const char *group)
{
    static const char *const words[][2] = {{"not counted", "not counted:"},
                                           {"limb", "limbs, by stance:"},
                                           {"load", "load:"},
                                           {"adherence", "done of planned, up to the last day that logs tell of:"},
                                           {"effort", "effort of whole sessions:"},
                                           {"share", "shares:"}};
    for (size_t i = 0; i < sizeof words / sizeof *words; i++)
        if (strcmp(words[i][0], group) == 0)
            columns_add(columns, &words[i][1], 1);
}

/* The heads of a table's weeks: those of its camp or, if several camps share it, the Mondays, and below them the
 * weeks of each camp. */
static void add_heads(const struct tally_view *view, const struct tally_table *table, struct columns *columns, int from,
                      int to)
{
    const char *cells[MOST_COLUMNS] = {"", "", "", ""};
    for (int week = from; table->camp_count > 1 && week < to; week++)
        cells[NAMES + week - from] = view_date(view->arena, tally_monday(table, week));
    if (table->camp_count > 1)
        columns_add(columns, cells, (size_t)(NAMES + to - from));
    for (size_t i = 0; i < table->camp_count; i++) {
        bool any = false;
        cells[0] = table->camp_count > 1 ? table->camps[i].camp->name.shown : "";
        for (int w = from; w < to; w++) {
            int week = tally_camp_week(&table->camps[i], tally_monday(table, w));
            any = any || week;
            cells[NAMES + w - from] = week ? arena_printf(view->arena, "week %d", week) : "";
        }
        if (any)
            columns_add(columns, cells, (size_t)(NAMES + to - from));
    }
}

/* "Oriel Tamsin, Cup and Derby" */
static const char *heading_words(const struct tally_view *view, const struct tally_table *table)
{
    struct text words = {.arena = view->arena};
    text_addf(&words, "%s, ", table->athlete->name.shown);
    for (size_t i = 0; i < table->camp_count; i++)
        text_addf(&words, "%s%s", i == 0 ? "" : i + 1 < table->camp_count ? ", " : " and ",
                  table->camps[i].camp->name.shown);
    return text_keep(view->arena, &words);
}

static void add_weeks(const struct tally_view *view, const struct tally_table *table, int from,
                      int to, struct text *out)
{
    struct columns columns = {.arena = view->arena};
    add_heads(view, table, &columns, from, to);
    for (size_t i = 0; i < table->count; i++) {
        if (i == 0 || strcmp(table->rows[i].group, table->rows[i - 1].group) != 0)
            add_group(&columns, table->rows[i].group);
        add_row(view, table, &columns, &table->rows[i], from, to);
    }
    columns_write(&columns, 2, NAMES, out);
}

static bool lines_text(const struct tally_view *view, struct text *out)
{
    struct tally_line *lines;
    size_t count = tally_lines(view, &lines);
    struct columns columns = {.arena = view->arena};
    for (size_t i = 0; i < count; i++) {
        if (i == 0 || lines[i].athlete != lines[i - 1].athlete) {
            columns_write(&columns, 2, MOST_COLUMNS, out);
            text_addf(out, "%s%s, %s\n", i ? "\n" : "", lines[i].athlete->name.shown,
                      counted_name(view->arena, view->counted));
        }
        const char *const cells[] = {
            arena_printf(view->arena, "%s%s%s", wording_range(view->arena, rounded(lines[i].amount)),
                         *lines[i].unit ? " " : "", lines[i].unit),
            arena_printf(view->arena, "%d %s", lines[i].times,
                         lines[i].times == 1 ? "time" : "times"),
            lines[i].what, lines[i].line};
        columns_add(&columns, cells, 4);
    }
    columns_write(&columns, 2, MOST_COLUMNS, out);
    return count > 0;
}

/* --- volume by parts --- */

/* "-" for nothing at all. */
static const char *figure_words(const struct tally_view *view, struct range range)
{
    return range.high > 0 ? wording_range(view->arena, rounded(range)) : "-";
}

/* "24 reps carried, 30 m held": what the tonnage leaves out. */
static const char *left_out_words(const struct tally_view *view, const struct tally_part *part)
{
    struct text out = {.arena = view->arena};
    for (int gap = 0; gap < GAP_COUNT; gap++) {
        enum tonnage_gap left = (enum tonnage_gap)gap;
        milli amount = part->left_out[gap];
        if (amount > 0)
            text_addf(&out, "%s%s %s %s", out.length ? "; " : "", wording_number(view->arena, amount),
                      tonnage_gap_unit(left), tonnage_gap_name(left));
    }
    return text_keep(view->arena, &out);
}

enum { LABELS = 3, MOST_PARTS = LABELS + 4 + 1 + EFFORT_ZONES + 2 };

/* Fills in the columns of PART, or their heads if PART is NULL; returns how many there are, the last with words. */
static size_t part_cells(const struct tally_view *view, const struct tally_part *part, const char **cells)
{
    static const char *const heads[] = {"tonnage", "with throws", "with body mass", "with both"};
    static const char *const zones[] = {"<70 %", "70-80", "80-90", "90 up"};
    size_t count = 0;
    cells[count++] = part ? part->date ? view_date(view->arena, part->date) : tally_iso_week(view->arena, part->monday) : "";
    cells[count++] = part ? part->what : "";
    cells[count++] = part ? mass_unit_name(gym_unit(part->athlete->gym)) : "";
    for (int i = 0; i < 4; i++) {
        enum counted counted = (enum counted)(COUNTED_TONNAGE + i);
        if (!counted_tells_body(counted) || view->private)
            cells[count++] =
                part ? figure_words(view, tally_range(part->athlete, counted, part->tonnage[i])) : heads[i];
    }
    cells[count++] = part ? figure_words(view, part->lifts) : "lifts";
    for (int zone = 0; zone < EFFORT_ZONES; zone++)
        cells[count++] = part ? figure_words(view, part->zones[zone]) : zones[zone];
    cells[count++] = part ? figure_words(view, (struct range){part->intensity, part->intensity}) : "mean %";
    cells[count++] = part ? left_out_words(view, part) : "not counted";
    return count;
}

static bool parts_text(const struct tally_view *view, struct text *out)
{
    struct tally_part *parts;
    size_t count = tally_parts(view, &parts), cells_count = 0;
    struct columns columns = {.arena = view->arena};
    const char *cells[MOST_PARTS];
    for (size_t i = 0; i < count; i++) {
        if (i == 0 || parts[i].athlete != parts[i - 1].athlete) {
            columns_write(&columns, 2, LABELS, out);
            text_addf(out, "%s%s, by %s\n", i ? "\n" : "", parts[i].athlete->name.shown, tally_by_name(view->by));
            cells_count = part_cells(view, NULL, cells);
            columns_add(&columns, cells, cells_count);
        }
        cells_count = part_cells(view, &parts[i], cells);
        columns_add(&columns, cells, cells_count);
    }
    columns_write(&columns, 2, LABELS, out);
    return count > 0;
}

bool tally_text(const struct tally_view *view, struct text *out)
{
    if (view->counted != COUNTED_NONE)
        return lines_text(view, out);
    if (view->by != BY_TABLE)
        return parts_text(view, out);
    struct tally_table *tables;
    size_t count = tally_tables(view, &tables);
    for (size_t i = 0; i < count; i++) {
        const struct tally_table *table = &tables[i];
        text_addf(out, "%s%s%s\n", i ? "\n" : "", heading_words(view, table),
                  view->margin ? ": what is left up to each limit, below 0 past it" : "");
        for (int from = 0; from < table->weeks; from += WEEKS_ABREAST) {
            int to = from + WEEKS_ABREAST < table->weeks ? from + WEEKS_ABREAST : table->weeks;
            text_add(out, from ? "\n" : "");
            add_weeks(view, table, from, to, out);
        }
    }
    return count > 0;
}
