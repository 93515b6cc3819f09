/* tally_formats.h - what a plan adds up to, week by week: tables for people, for spreadsheets and for
 * other programs. It describes; what is within its limits is for the checks to say. */
#ifndef BELL_EXPORT_TALLY_FORMATS_H
#define BELL_EXPORT_TALLY_FORMATS_H

#include "base/text.h"
#include "measure/accounts.h"
#include "model/programme.h"
#include "rules/margin.h"

struct tally_view {
    const struct programme *programme;
    struct arena *arena;
    const struct athlete *athlete; /* or NULL: everybody */
    int week;                      /* of the camps, from 1; 0: all */
    bool margin;                   /* give how far each week is from each limit */
    enum account account; /* the lines that add up to it, in place of tables; or ACCOUNT_NONE */
    const char *version;  /* of the program */
};

/* Each adds the view to OUT; false where the view is empty. CSV is RFC 4180 with one figure a row;
 * JSON is described by share/schema/tally-1.schema.json. */
bool tally_text(const struct tally_view *view, struct text *out);
bool tally_csv(const struct tally_view *view, struct text *out);
bool tally_json(const struct tally_view *view, struct text *out);

enum { TALLY_FORM = 1 };

/* --- shared by the three --- */

/* One figure in each week, in thousandths of UNIT. */
struct tally_row {
    const char *group; /* "account", "not counted", "limb", "load", "share", "margin" */
    const char *name;  /* "pull sets", "left hand" */
    const char *side;  /* "left", "right"; of a limb its stance; else "" */
    const char *unit;  /* "min", "kg", "reps", "%"; "" for plain counts */
    const char *bound; /* of a margin, the limit: "at most 24 a week, must"; else "" */
    struct range *cells;
    bool *known; /* false: the week has no such figure */
};

/* What one athlete does in the weeks of one camp, in whatever camp it is done. */
struct tally_table {
    const struct camp *camp;
    const struct athlete *athlete;
    int first_week, weeks; /* of the camp, those shown */
    struct tally_row *rows;
    size_t count, capacity;
};

/* By camp, then athlete, both by name; in the view's arena. */
size_t tally_tables(const struct tally_view *view, struct tally_table **tables);

/* Adds a row of WEEKS unknown cells to TABLE. */
struct tally_row *tally_row_add(const struct tally_view *view, struct tally_table *table,
                                const char *group, const char *name, const char *side,
                                const char *unit);

/* Adds the rows of the table's athlete and camp among MARGINS (tally_margin.c). */
void tally_add_margins(const struct tally_view *view, struct tally_table *table,
                       const struct margins *margins);

/* The first day of a table's week INDEX, from 0. */
int tally_monday(const struct tally_table *table, int index);

/* What ACCOUNT is counted in, mass in UNIT, and VALUE of it in thousandths of that; pounds are whole. */
const char *tally_unit(enum account account, enum mass_unit unit);
milli tally_in_unit(enum account account, milli value, enum mass_unit unit);

/* The lines that add up to the view's account. */
struct tally_line {
    const struct athlete *athlete;
    const char *line; /* "sessions/first.bell:12" */
    const char *what; /* "Long reach, B.1 chin-up" */
    const char *unit; /* of the amount; "" for plain counts */
    struct range amount;
    int times;
};
size_t tally_lines(const struct tally_view *view, struct tally_line **lines);

#endif
