/* tally_tables.c - which tables a tally has: whose, of which camps and weeks. */
#include <stdlib.h>
#include <string.h>

#include "export/tally_formats.h"
#include "figures/dates.h"
#include "limits/share.h"
#include "model/programme.h"

int tally_monday(const struct tally_table *table, int index)
{
    return table->monday + DAYS_OF_WEEK * index;
}

int tally_camp_monday(const struct tally_camp *camp)
{
    return date_monday(camp->camp->first) + DAYS_OF_WEEK * (camp->first_week - 1);
}

int tally_camp_week(const struct tally_camp *camp, int monday)
{
    int week = (monday - tally_camp_monday(camp)) / DAYS_OF_WEEK;
    return monday >= tally_camp_monday(camp) && week < camp->weeks ? camp->first_week + week : 0;
}

/* The weeks of CAMP that were asked for; false: none. */
static bool weeks_asked(const struct tally_view *view, const struct camp *camp, int *first, int *count)
{
    int last = view->week ? view->week : camp->weeks, monday = date_monday(camp->first);
    *first = view->week ? view->week : 1;
    if (view->first && (date_monday(view->first) - monday) / 7 + 1 > *first)
        *first = (date_monday(view->first) - monday) / 7 + 1;
    if (view->last && view->last < monday)
        return false;
    if (view->last && (view->last - monday) / 7 + 1 < last)
        last = (view->last - monday) / 7 + 1;
    *count = last - *first + 1;
    return *count > 0 && last <= camp->weeks;
}

bool tally_wants(const struct tally_view *view, const struct occasion *occasion)
{
    int monday = date_monday(occasion->date);
    return (!view->week || occasion->week == view->week) && (!view->first || monday + 7 - 1 >= view->first) &&
           (!view->last || monday <= view->last);
}

/* Some weeks of a camp of an athlete. */
struct attended {
    const struct athlete *athlete;
    struct tally_camp camp;
};

static int by_athlete_and_week(const void *left, const void *right)
{
    const struct attended *a = left, *b = right;
    int athletes = strcmp(a->athlete->name.folded, b->athlete->name.folded);
    int mondays = tally_camp_monday(&a->camp) - tally_camp_monday(&b->camp);
    return athletes ? athletes : mondays ? mondays : strcmp(a->camp.camp->name.folded, b->camp.camp->name.folded);
}

/* The parts of every athlete's camps that the view asks for, in the order of the tables. */
static size_t find_attended(const struct tally_view *view, struct attended **attended)
{
    const struct programme *programme = view->programme;
    size_t count = 0, capacity = 0;
    struct attended *items = NULL;
    for (size_t c = 0; c < programme->camp_count; c++)
        for (size_t a = 0; a < programme->camps[c]->athlete_count; a++) {
            struct attended one = {programme->camps[c]->athletes[a], {.camp = programme->camps[c]}};
            if ((view->athlete && one.athlete != view->athlete) ||
                !weeks_asked(view, one.camp.camp, &one.camp.first_week, &one.camp.weeks))
                continue;
            items = arena_grow(view->arena, items, count, &capacity, sizeof *items);
            items[count++] = one;
        }
    if (count > 1)
        qsort(items, count, sizeof *items, by_athlete_and_week);
    *attended = items;
    return count;
}

/* Adds CAMP to TABLE, which does not begin later. */
static void add_camp(const struct tally_view *view, struct tally_table *table, const struct tally_camp *camp)
{
    int weeks = (tally_camp_monday(camp) - table->monday) / DAYS_OF_WEEK + camp->weeks;
    table->camps = arena_grow(view->arena, table->camps, table->camp_count, &table->camp_capacity, sizeof *table->camps);
    table->camps[table->camp_count++] = *camp;
    table->weeks = weeks > table->weeks ? weeks : table->weeks;
}

size_t tally_tables(const struct tally_view *view, struct tally_table **tables)
{
    struct attended *attended;
    size_t all = find_attended(view, &attended), count = 0;
    struct tally_table *items = arena_alloc(view->arena, (all + 1) * sizeof *items);
    for (size_t i = 0; i < all; i++) {
        int monday = tally_camp_monday(&attended[i].camp);
        if (i && attended[i].athlete == attended[i - 1].athlete && attended[i].camp.camp == attended[i - 1].camp.camp)
            continue; /* who left and came back is named twice */
        if (!count || items[count - 1].athlete != attended[i].athlete ||
            monday >= tally_monday(&items[count - 1], items[count - 1].weeks))
            items[count++] = (struct tally_table){.athlete = attended[i].athlete, .monday = monday};
        add_camp(view, &items[count - 1], &attended[i].camp);
    }
    struct margins margins = {0};
    if (view->margin)
        rules_measure(view->programme, &margins);
    for (size_t i = 0; i < count; i++) {
        if (view->margin) {
            tally_add_margins(view, &items[i], &margins);
            continue;
        }
        struct diary diary = tally_diary(view, items[i].athlete);
        tally_fill(view, &items[i], &diary);
    }
    *tables = items;
    return count;
}
