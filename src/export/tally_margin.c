/* tally_margin.c - how far each week is from each limit: what the checks themselves compared. */
#include <string.h>

#include "export/tally_formats.h"
#include "limits/limits.h"
#include "measure/kit.h"
#include "model/athlete.h"
#include "model/season.h"
#include "wording/wording.h"

/* "at most ", and the figure in the words of what is compared. */
static const char *figure_words(const struct tally_view *view, const struct margin *margin,
                                enum counted counted)
{
    const struct limit *limit = margin->limit;
    enum mass_unit unit = gym_unit(margin->athlete->gym);
    static const char *const bounds[] = {"at most ", "at least ", "within "};
    const char *value = counted_amount_in(view->arena, counted, limit->value, unit);
    const char *top =
        limit->bound == LIMIT_WITHIN
            ? arena_printf(view->arena, " to %s", counted_amount_in(view->arena, counted, limit->top, unit))
            : "";
    return arena_printf(view->arena, "%s%s%s", bounds[limit->bound], value, top);
}

/* " a week", " a session in power", " in taper" */
static const char *stretch_words(const struct tally_view *view, const struct margin *margin)
{
    const struct limit *limit = margin->limit;
    bool summed = margin->counted < COUNTED_COUNT && !limit->below_peak;
    const char *over = !summed                         ? ""
                       : limit->scope == LIMIT_WEEK    ? " a week"
                       : limit->scope == LIMIT_SESSION ? " a session"
                       : limit->scope == LIMIT_CAMP    ? " a camp"
                                                       : "";
    const char *phase = margin->phase ? margin->phase->name.folded : limit->phase;
    return phase ? arena_printf(view->arena, "%s in %s", over, phase) : over;
}

static const char *bound_words(const struct tally_view *view, const struct margin *margin)
{
    const struct limit *limit = margin->limit;
    enum counted counted = limit->below_peak ? COUNTED_VOLUME
                           : limit->against  ? COUNTED_SETS
                                             : margin->counted;
    const char *against =
        limit->against ? arena_printf(view->arena, " to 1 of %s",
                                      counted_name(view->arena, counted_find(limit->against)))
                       : "";
    return arena_printf(view->arena, "%s%s%s%s, %s", figure_words(view, margin, counted), against,
                        limit->below_peak ? " below the peak week" : "",
                        stretch_words(view, margin), forces.names[limit->force]);
}

/* The row of MARGIN, which is made if there is none yet. */
static struct tally_row *row_of(const struct tally_view *view, struct tally_table *table,
                                const struct margin *margin, const struct camp *camp)
{
    static const char *const sides[] = {"left", "right"};
    const char *bound = bound_words(view, margin);
    const char *name = counted_name(view->arena, margin->counted);
    const char *side = margin->side == SIDE_ALL ? "" : sides[margin->side];
    for (size_t i = 0; i < table->count; i++) {
        struct tally_row *row = &table->rows[i];
        if (strcmp(row->name, name) == 0 && strcmp(row->bound, bound) == 0 &&
            strcmp(row->side, side) == 0 && row->camp == camp)
            return row;
    }
    const char *unit = margin->limit->below_peak ? "%"
                       : margin->limit->against  ? "to 1"
                                                 : tally_unit(margin->counted, gym_unit(margin->athlete->gym));
    struct tally_row *row = tally_row_add(view, table, "margin", name, side, unit);
    row->bound = bound;
    row->camp = camp;
    return row;
}

/* Puts MARGIN into the week in which it was counted, or into each week of a phase or camp; of several in one week,
 * the least counts. */
static void put_margin(const struct tally_view *view, struct tally_table *table,
                       const struct margin *margin, const struct camp *camp)
{
    const struct limit *limit = margin->limit;
    bool plain = limit->against || limit->below_peak;
    milli left = plain ? margin->left : tally_in_unit(margin->counted, margin->left, gym_unit(margin->athlete->gym));
    int first = margin->whole ? margin->first : margin->last;
    for (int week = 0; week < table->weeks; week++) {
        int monday = tally_monday(table, week);
        if (first > monday + 6 || margin->last < monday)
            continue;
        struct tally_row *row = row_of(view, table, margin, camp);
        if (row->known[week] && row->cells[week].low <= left)
            continue;
        row->cells[week] = (struct range){left, left};
        row->known[week] = true;
    }
}

static bool is_of(const struct limit_table *limits, const struct limit *limit)
{
    for (size_t i = 0; i < limits->count; i++)
        if (limits->items[i].limit == limit)
            return true;
    return false;
}

/* Does MARGIN's limit belong to TABLE? If so, *CAMP is the only camp that it is for, or NULL for all of the table's
 * camps. TABLES has the limits of each camp. */
static bool is_of_table(const struct tally_table *table, const struct limit_table *tables, const struct margin *margin,
                        const struct camp **camp)
{
    size_t found = 0;
    *camp = NULL;
    for (size_t i = 0; i < table->camp_count; i++) {
        if ((margin->camp && margin->camp != table->camps[i].camp) || !is_of(&tables[i], margin->limit))
            continue;
        *camp = *camp ? *camp : table->camps[i].camp;
        found++;
    }
    if (found == table->camp_count && !margin->camp)
        *camp = NULL;
    return found > 0;
}

void tally_add_margins(const struct tally_view *view, struct tally_table *table,
                       const struct margins *margins)
{
    struct limit_table *tables = arena_alloc(view->arena, (table->camp_count + 1) * sizeof *tables);
    for (size_t i = 0; i < table->camp_count; i++)
        limit_table_build(view->arena, view->programme, table->camps[i].camp, &tables[i]);
    for (size_t i = 0; i < margins->count; i++) {
        const struct margin *margin = &margins->items[i];
        const struct camp *camp;
        if (counted_tells_body(margin->counted) && !view->private)
            continue;
        if (margin->athlete == table->athlete && is_of_table(table, tables, margin, &camp))
            put_margin(view, table, margin, camp);
    }
}
