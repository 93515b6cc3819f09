/* wall_table.c - a squad's table: an athlete a row, a column for each line where they differ. Columns that do not fit
 * beside the others go on in a further table below. */
#include <glib.h>
#include <math.h>
#include <string.h>

#include "layout/dose.h"
#include "layout/marks.h"
#include "layout/wall.h"
#include "model/wording.h"

/* Share of the width that names may always take; beyond it, only what the widest column leaves. */
static const double NAMES_MOST = 0.42;
/* A name of so many letters stays on one line, and the letters are small enough for that; a longer one is broken. */
enum { NAME_LETTERS = 28 };
/* Points added to a width that was measured, lest rounding breaks what just fits. */
static const double SLACK = 0.5;

struct table {
    const struct wall *wall;
    struct dose_sizes sizes;
    double gap;
    double names;              /* width of the athletes' column */
    const struct lane **lanes; /* one a column */
    double *widths;
    double *whole;  /* widest figure before the point, so that points stand in line */
    double *figure; /* widest from there, so that discs do */
    size_t columns;
    bool beside; /* discs stand beside the load, not below it */
};

static struct face small_face(const struct table *table, enum weight weight, enum ink ink)
{
    return (struct face){table->sizes.small, weight, {ink, RANK_SECOND, ROLE_CELL}};
}

static struct face large_face(const struct table *table, enum weight weight)
{
    return (struct face){table->sizes.size, weight, {INK_BLACK, RANK_FIRST, ROLE_CELL}};
}

static double capital(const struct table *table, double size)
{
    return size * type_capital(table->wall->press.type);
}

static void stack(struct piece *cell, const struct piece *part, double gap)
{
    if (part->count == 0)
        return;
    double y = cell->height + (cell->count ? gap : 0);
    piece_place(cell, part, 0, y);
    cell->width = fmax(cell->width, part->width);
    cell->height = y + part->height;
}

/* A mass of the column's own exercise: its heading tells what the kilograms are of. */
static const char *bare_mass(const struct table *table, const struct lane *lane,
                             const struct item *item)
{
    if (item->exercise != lane->item->exercise || item->run_count != 1 || lane->efforts_differ)
        return "";
    const char *words = wording_load_mass(table->wall->press.arena, &item->runs[0].load, false);
    const char *unit = strstr(words, WORDING_GAP "kg");
    return unit ? arena_copy(table->wall->press.arena, words, (size_t)(unit - words)) : "";
}

/* How wide what stands before the decimal point is. */
static double whole_width(const struct table *table, const char *number)
{
    struct arena *arena = table->wall->press.arena;
    const char *whole = arena_copy(arena, number, strcspn(number, "."));
    return type_width(table->wall->press.type, whole, table->sizes.size, WEIGHT_BOLD);
}

/* NUMBER moved right so that its point stands under those of the column. */
static struct piece *figure_piece(const struct table *table, size_t column, const char *number)
{
    const struct press *press = &table->wall->press;
    struct piece *word = press_word(press, number, large_face(table, WEIGHT_BOLD));
    struct piece *piece = piece_new(press->arena);
    double shift = fmax(0, table->whole[column] - whole_width(table, number));
    piece_place(piece, word, shift, 0);
    piece->width = fmax(word->width + shift, table->whole[column] + table->figure[column]);
    piece->height = word->height;
    piece->baseline = word->baseline;
    return piece;
}

static struct piece *cell_line(const struct table *table, size_t column, const struct item *item,
                               double width)
{
    const struct press *press = &table->wall->press;
    const struct lane *lane = table->lanes[column];
    struct flow flow = {0};
    if (lane_dose_differs(press->arena, lane, item))
        dose_add_amounts(press, &flow, lane->block, item, table->sizes);
    const char *bare = bare_mass(table, lane, item);
    if (*bare)
        flow_add(press, &flow, figure_piece(table, column, bare));
    else
        dose_add_loads(press, &flow, lane->block, item, table->sizes, false);
    if (table->beside)
        dose_add_bars(press, &flow, item, table->sizes.small, RANK_SECOND);
    return flow_set(press, &flow, width, 0.4 * table->sizes.size, 1.06 * table->sizes.size,
                    capital(table, table->sizes.size));
}

static struct piece *cell_piece(const struct table *table, size_t column, size_t member,
                                double width)
{
    const struct press *press = &table->wall->press;
    const struct lane *lane = table->lanes[column];
    const struct item *item = lane->by_member[member];
    bool pounds = table->wall->group.members[member]->athlete->pounds;
    struct piece *cell = piece_new(press->arena);
    double gap = 0.45 * table->sizes.small;
    if (!item)
        return press_word(press, WORDING_TO, large_face(table, WEIGHT_REGULAR));
    if (wall_as_shown(table->wall, lane, member))
        return press_word(press, "as shown", small_face(table, WEIGHT_REGULAR, INK_GREY));
    if (item->exercise != lane->item->exercise)
        stack(cell,
              press_paragraph(press, item->exercise->name.shown,
                              small_face(table, WEIGHT_BOLD, INK_SPOT), width, 0, 0.95, true),
              gap);
    stack(cell, cell_line(table, column, item, width), gap);
    struct flow notes = {0};
    if (!table->beside)
        dose_add_bars(press, &notes, item, table->sizes.small, RANK_SECOND);
    if (pounds)
        dose_add_shares(press, &notes, item, table->sizes, true);
    stack(cell,
          flow_set(press, &notes, width, 0.5 * table->sizes.small, 1.4 * table->sizes.small,
                   capital(table, table->sizes.small)),
          gap);
    return cell;
}

static struct piece *head_piece(const struct table *table, const struct lane *lane, double width)
{
    const struct press *press = &table->wall->press;
    struct piece *head = piece_new(press->arena);
    const struct load *load = lane->item->run_count ? &lane->item->runs[0].load : NULL;
    const char *ref = lane->block->letter ? arena_printf(press->arena, "%c%d", lane->block->letter,
                                                         lane->item->index + 1)
                                          : "";
    if (*ref)
        stack(head, press_word(press, ref, small_face(table, WEIGHT_BOLD, INK_SPOT)), 0);
    stack(head,
          press_paragraph(press, lane->item->exercise->name.shown,
                          small_face(table, WEIGHT_BOLD, INK_BLACK), width, 0, 0.9, true),
          0.4 * table->sizes.small);
    if (load && *wording_load_mass(press->arena, load, false))
        stack(head,
              press_word(press,
                         arena_printf(press->arena, "kg" WORDING_GAP "%s",
                                      wording_meaning(lane->item->exercise, load)),
                         small_face(table, WEIGHT_REGULAR, INK_GREY)),
              0.3 * table->sizes.small);
    return head;
}

/* What the bare figures of COLUMN need before and behind the point. */
static void measure_figures(struct table *table, size_t column)
{
    const struct group *group = &table->wall->group;
    for (size_t i = 0; i < group->count; i++) {
        const struct item *item = table->lanes[column]->by_member[i];
        const char *bare = item ? bare_mass(table, table->lanes[column], item) : "";
        if (!*bare)
            continue;
        double whole = whole_width(table, bare);
        double all = type_width(table->wall->press.type, bare, table->sizes.size, WEIGHT_BOLD);
        table->whole[column] = fmax(table->whole[column], whole);
        table->figure[column] = fmax(table->figure[column], all - whole);
    }
}

/* The names' width, when the columns' are known; a common name that would be broken is unfit. */
static void measure_names(struct table *table, bool *unfit)
{
    const struct wall *wall = table->wall;
    double mark = 0.9 * table->sizes.size, widest = 0, common = 0;
    for (size_t c = 0; c < table->columns; c++)
        widest = fmax(widest, table->widths[c] + table->gap);
    table->names = 0;
    for (size_t i = 0; i < wall->group.count; i++) {
        const char *name = wall->group.members[i]->athlete->name.shown;
        double wide = type_width(wall->press.type, name, table->sizes.size, WEIGHT_BOLD);
        table->names = fmax(table->names, wide + mark);
        if (g_utf8_strlen(name, -1) <= NAME_LETTERS)
            common = fmax(common, wide + mark);
    }
    table->names = fmin(table->names, fmax(NAMES_MOST * wall->column, wall->column - widest));
    *unfit = *unfit || common > table->names + 0.5;
}

/* The width by what the cells hold, broken where they are wordy. */
static void measure_column(struct table *table, size_t column)
{
    const struct wall *wall = table->wall;
    double limit = 6.5 * table->sizes.size, width = 4 * table->sizes.small;
    measure_figures(table, column);
    for (size_t i = 0; i < wall->group.count; i++)
        width = fmax(width, cell_piece(table, column, i, limit)->width);
    width = fmax(width, head_piece(table, table->lanes[column], width)->width);
    table->widths[column] = width;
}

/* The end of the columns that fit beside the names, from FIRST on; at least one. What is left over goes to all
 * alike. */
static size_t fit_columns(struct table *table, size_t first, bool *unfit)
{
    double left = table->wall->column - table->names;
    size_t end = first;
    while (end < table->columns && (end == first || table->widths[end] + table->gap <= left))
        left -= table->widths[end++] + table->gap;
    *unfit = *unfit || left < -0.5;
    double more = fmax(0, fmin(left / (double)(end - first), 2 * table->sizes.size));
    for (size_t c = first; c < end; c++)
        table->widths[c] += more;
    return end;
}

static struct piece *heading_row(const struct table *table, size_t first, size_t end)
{
    const struct wall *wall = table->wall;
    struct piece *row = piece_new(wall->press.arena);
    double rule = 0.05 * table->sizes.size, small = table->sizes.small;
    double top = rule + 0.6 * small, x = table->names + table->gap, bottom = 0;
    piece_box(row, 0, 0, wall->column, rule, INK_BLACK, INK_NONE, 0);
    piece_open(row, ROLE_ROW);
    piece_open(row, ROLE_HEAD);
    press_put(&wall->press, row, 0, top + capital(table, small), "Who does what",
              small_face(table, WEIGHT_BOLD, INK_BLACK));
    piece_close(row, ROLE_HEAD);
    for (size_t c = first; c < end; c++) {
        struct piece *head = head_piece(table, table->lanes[c], table->widths[c]);
        piece_place_as(row, ROLE_HEAD, head, x, top);
        bottom = fmax(bottom, head->height);
        x += table->widths[c] + table->gap;
    }
    piece_close(row, ROLE_ROW);
    row->height = top + bottom + 0.5 * small;
    return row;
}

static struct piece *athlete_row(const struct table *table, size_t first, size_t end, size_t member)
{
    const struct wall *wall = table->wall;
    const struct athlete *athlete = wall->group.members[member]->athlete;
    struct piece *row = piece_new(wall->press.arena);
    double size = table->sizes.size, top = 0.34 * size, tallest = capital(table, size);
    piece_line(row, 0, 0, wall->column, 0, 0.8, INK_HAIR);
    struct piece *name =
        press_paragraph(&wall->press, athlete->name.shown, large_face(table, WEIGHT_BOLD),
                        table->names - 0.9 * size + SLACK, 0, 0.95, false);
    piece_open(row, ROLE_ROW);
    piece_place_as(row, ROLE_HEAD, name, 0, top);
    if (athlete->stance != STANCE_UNKNOWN)
        piece_place(row,
                    mark_stance(&wall->press,
                                athlete->stance == STANCE_SOUTHPAW ? DOSE_SOUTHPAW : DOSE_ORTHODOX,
                                0.8 * size),
                    name->width + 0.25 * size, top + name->baseline - 0.76 * size);
    tallest = fmax(tallest, name->height - 0.22 * size);
    double x = table->names + table->gap;
    for (size_t c = first; c < end; c++) {
        struct piece *cell = cell_piece(table, c, member, table->widths[c]);
        piece_place_as(row, ROLE_DATUM, cell, x, top);
        tallest = fmax(tallest, cell->height);
        x += table->widths[c] + table->gap;
    }
    piece_close(row, ROLE_ROW);
    row->height = top + tallest;
    return row;
}

static void add_rows(struct strips *strips, const struct table *table, size_t first, size_t end)
{
    const struct press *press = &table->wall->press;
    double size = table->sizes.size;
    struct piece *heading = heading_row(table, first, end);
    for (size_t i = 0; i < table->wall->group.count; i++)
        strips_add(press, strips,
                   (struct strip){.heading = heading,
                                  .again = heading,
                                  .body = athlete_row(table, first, end, i),
                                  .before = i ? 0.28 * size : 0.6 * size,
                                  .first = i == 0,
                                  .row = true,
                                  .title = "Who does what"});
}

/* Whether all columns stand side by side, the discs beside the loads. */
static bool is_roomy(struct table *table, bool *unfit)
{
    double wide = 0;
    for (size_t c = 0; c < table->columns; c++) {
        measure_column(table, c);
        wide += table->widths[c] + table->gap;
    }
    measure_names(table, unfit);
    return !*unfit && table->names + wide <= table->wall->column;
}

struct strips wall_table(const struct wall *wall, double size, bool *unfit)
{
    struct table table = {
        .wall = wall,
        .sizes = {.size = size, .small = wall_small(wall, size), .small_rank = RANK_SECOND},
        .gap = 0.5 * size,
        .beside = true,
    };
    struct strips strips = {0};
    struct arena *arena = wall->press.arena;
    size_t most = wall->group.lane_count + 1;
    table.lanes = arena_alloc(arena, most * sizeof *table.lanes);
    table.widths = arena_alloc(arena, most * sizeof *table.widths);
    table.whole = arena_alloc(arena, most * sizeof *table.whole);
    table.figure = arena_alloc(arena, most * sizeof *table.figure);
    for (size_t i = 0; i < wall->group.lane_count; i++)
        if (lane_needs_column(&wall->group.lanes[i]))
            table.lanes[table.columns++] = &wall->group.lanes[i];
    bool broken = false;
    if (!is_roomy(&table, &broken)) {
        table.beside = broken = false;
        is_roomy(&table, &broken);
    }
    *unfit = *unfit || broken;
    for (size_t first = 0; first < table.columns;) {
        size_t end = fit_columns(&table, first, unfit);
        add_rows(&strips, &table, first, end);
        first = end;
    }
    return strips;
}
