/* tally_logs.c - what the logs say of each week: its load, monotony and strain as planned and as it turned out, what
 * was done of what was planned, and how hard it was meant to be and was. */
#include "export/tally_formats.h"
#include "done/adherence.h"
#include "done/felt.h"
#include "done/week_load.h"

static void set_cell(struct tally_row *row, int week, struct range value)
{
    row->cells[week] = value;
    row->known[week] = true;
}

static const struct occasion *const *occasions_of(const struct diary *diary)
{
    return (const struct occasion *const *)diary->occasions;
}

/* --- load --- */

/* Rows for one kind; those of what was done only for weeks with a log. */
static void add_kind(const struct tally_view *view, struct tally_table *table, const struct diary *diary,
                     enum week_load_kind kind)
{
    bool done = kind == LOAD_AS_DONE;
    struct tally_row *monotony = NULL, *strain = NULL;
    for (int w = 0; w < table->weeks; w++) {
        struct week_load load = week_load_from(occasions_of(diary), diary->count, tally_monday(table, w), kind);
        if (!load.total.high || load.even || (done && !load.logged))
            continue;
        if (!monotony) {
            tally_row_add(view, table, "load", done ? "monotony, as done" : "monotony", "", "");
            strain = tally_row_add(view, table, "load", done ? "strain, as done" : "strain", "", "");
            monotony = strain - 1; /* the rows may have moved */
        }
        set_cell(monotony, w, load.monotony);
        set_cell(strain, w, load.strain);
    }
}

void tally_add_loads(const struct tally_view *view, struct tally_table *table, const struct diary *diary)
{
    add_kind(view, table, diary, LOAD_AS_PLANNED);
    add_kind(view, table, diary, LOAD_AS_DONE);
}

/* --- done of planned --- */

/* The occasions of the seven days from MONDAY. */
static struct diary week_of(const struct diary *diary, int monday)
{
    size_t first = 0, end;
    while (first < diary->count && diary->occasions[first]->date < monday)
        first++;
    for (end = first; end < diary->count && diary->occasions[end]->date < monday + 7; end++)
        ;
    return (struct diary){diary->occasions + first, end - first};
}

void tally_add_adherence(const struct tally_view *view, struct tally_table *table, const struct diary *diary)
{
    static const char *const names[ADHERENCE_COUNT] = {"sessions, done of planned", "sets, done of planned",
                                                       "load, done of planned"};
    int last = adherence_last(view->programme, table->athlete);
    for (int of = 0; of < ADHERENCE_COUNT; of++) {
        struct tally_row *row = NULL;
        for (int w = 0; w < table->weeks; w++) {
            struct diary week = week_of(diary, tally_monday(table, w));
            struct adherence adherence = adherence_of(occasions_of(&week), week.count, last);
            struct range share;
            if (!adherence.known || !kept_share(&adherence.of[of], &share))
                continue;
            if (!row)
                row = tally_row_add(view, table, "adherence", names[of], "", "%");
            set_cell(row, w, share);
        }
    }
}

/* --- effort --- */

static struct tally_row *effort_row(const struct tally_view *view, struct tally_table *table, const char *what,
                                    const char *side)
{
    for (size_t i = 0; i < table->count; i++)
        if (table->rows[i].name == what && table->rows[i].side == side)
            return &table->rows[i];
    return tally_row_add(view, table, "effort", what, side, "RPE");
}

void tally_add_felt(const struct tally_view *view, struct tally_table *table, const struct diary *diary)
{
    static const char *const meant = "intended", *const was = "felt";
    struct felt *all, *felt;
    int first = tally_monday(table, 0), last = tally_monday(table, table->weeks - 1) + 6;
    size_t kinds = felt_of(view->arena, occasions_of(diary), diary->count, first, last, &all);
    for (size_t i = 0; i < kinds; i++)
        for (int w = 0; w < table->weeks; w++) {
            int monday = tally_monday(table, w);
            size_t count = felt_of(view->arena, occasions_of(diary), diary->count, monday, monday + 6, &felt);
            for (size_t k = 0; k < count; k++)
                if (felt[k].what == all[i].what) {
                    set_cell(effort_row(view, table, all[i].what, meant), w,
                             (struct range){felt[k].intended, felt[k].intended});
                    set_cell(effort_row(view, table, all[i].what, was), w, (struct range){felt[k].felt, felt[k].felt});
                }
        }
}
