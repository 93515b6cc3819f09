/* tally_formats.h - what a plan adds up to, week by week: tables for people, for spreadsheets and for
 * other programs. It describes; what is within its limits is for the checks to say. */
#ifndef BELL_EXPORT_TALLY_FORMATS_H
#define BELL_EXPORT_TALLY_FORMATS_H

#include "base/text.h"
#include "figures/effort.h"
#include "measure/counts.h"
#include "measure/tonnage.h"
#include "rules/margin.h"

struct athlete;
struct camp;
struct programme;

/* What each row of a volume is about. */
enum tally_by { BY_TABLE, BY_LIFT, BY_SESSION, BY_DAY, BY_WEEK };

struct tally_view {
    const struct programme *programme;
    struct arena *arena;
    const struct athlete *athlete; /* or NULL: everybody */
    int week;                      /* week of the camps, from 1; 0: all */
    int first, last;               /* days, whose weeks are shown whole; 0: no bound */
    bool private;                  /* include what reveals body mass */
    bool margin;                   /* give how far each week is from each limit */
    enum tally_by by;     /* volume of parts, in place of tables; or BY_TABLE */
    enum counted counted; /* the lines that add up to it, in place of tables; or COUNTED_NONE */
    const char *version;  /* of the program */
};

/* Each adds the view to OUT; false if the view is empty. CSV is RFC 4180 with one figure a row; JSON is described by
 * share/schema/tally-3.schema.json. */
bool tally_text(const struct tally_view *view, struct text *out);
bool tally_csv(const struct tally_view *view, struct text *out);
bool tally_json(const struct tally_view *view, struct text *out);

enum { TALLY_FORM = 3 };

/* --- shared by the three --- */

/* One figure in each week, in thousandths of UNIT. */
struct tally_row {
    const char *group; /* "count", "not counted", "limb", "load", "adherence", "effort", "share", "margin" */
    const char *name;  /* "pull sets", "left hand" */
    const char *side;  /* "left", "right"; for a limb its stance; else "" */
    const char *unit;  /* "min", "kg", "reps", "%"; "" for plain counts */
    const char *bound; /* of a margin, the limit: "at most 24 a week, must"; else "" */
    const struct camp *camp; /* the one camp that it is about; NULL: all of the table's */
    struct range *cells;
    bool *known; /* false: the week has no such figure */
};

/* The weeks of a camp that a table shows. */
struct tally_camp {
    const struct camp *camp;
    int first_week, weeks; /* of the camp, from 1 */
};

/* What one athlete does week by week, in whatever camp it is done. Camps that have a week in common share a table,
 * so that each week is shown once. */
struct tally_table {
    const struct athlete *athlete;
    struct tally_camp *camps; /* by their first week shown, then by name */
    size_t camp_count, camp_capacity;
    int monday, weeks;        /* MONDAY: the first day of the first week */
    struct tally_row *rows;
    size_t count, capacity;
};

/* Is OCCASION in one of the weeks that VIEW shows? */
bool tally_wants(const struct tally_view *view, const struct occasion *occasion);

/* By athlete, then week; in the view's arena. */
size_t tally_tables(const struct tally_view *view, struct tally_table **tables);

/* Adds a row of WEEKS unknown cells to TABLE. */
struct tally_row *tally_row_add(const struct tally_view *view, struct tally_table *table,
                                const char *group, const char *name, const char *side,
                                const char *unit);

/* Adds the figures of each of TABLE's weeks; DIARY is its athlete's (tally_table.c). */
struct diary;
void tally_fill(const struct tally_view *view, struct tally_table *table, const struct diary *diary);

/* Adds the rows of the table's athlete and camps among MARGINS (tally_margin.c). */
void tally_add_margins(const struct tally_view *view, struct tally_table *table,
                       const struct margins *margins);

/* The first day of a table's week INDEX, from 0. */
int tally_monday(const struct tally_table *table, int index);
/* The first day of CAMP's first week that is shown. */
int tally_camp_monday(const struct tally_camp *camp);
/* The week of CAMP, from 1, that the day MONDAY begins; 0: none that is shown. */
int tally_camp_week(const struct tally_camp *camp, int monday);

/* The unit of COUNTED, with mass in UNIT, and VALUE in thousandths of it; pounds are whole. */
const char *tally_unit(enum counted counted, enum mass_unit unit);
milli tally_in_unit(enum counted counted, milli value, enum mass_unit unit);
/* The same of a range, as the gym of ATHLETE says masses. */
struct range tally_range(const struct athlete *athlete, enum counted counted, struct range range);

/* All that one athlete does, by date. */
struct diary {
    const struct occasion **occasions;
    size_t count;
};
struct diary tally_diary(const struct tally_view *view, const struct athlete *athlete);

/* Rows of what the logs say (tally_logs.c): monotony and strain, what was done of what was planned, and effort. */
void tally_add_loads(const struct tally_view *view, struct tally_table *table, const struct diary *diary);
void tally_add_adherence(const struct tally_view *view, struct tally_table *table, const struct diary *diary);
void tally_add_felt(const struct tally_view *view, struct tally_table *table, const struct diary *diary);

/* What one athlete lifts in one part of the plan: a lift of a week, a session, a day or a week (tally_parts.c). */
struct tally_part {
    const struct athlete *athlete;
    int monday, date;     /* date: 0 if the part is of a week */
    const char *what;     /* of a lift or a session; "" else */
    struct range tonnage[4]; /* from COUNTED_TONNAGE on */
    struct range lifts, zones[EFFORT_ZONES];
    milli intensity;      /* mean percentage of the lifts in the zones, or 0 */
    milli left_out[GAP_COUNT];
};

/* By athlete, then day, then in the plan's order; those that lift nothing are left out. */
size_t tally_parts(const struct tally_view *view, struct tally_part **parts);

/* "lift", "session", "day", "week". */
const char *tally_by_name(enum tally_by by);

/* The ISO 8601 week of a day: "2027-W09". */
const char *tally_iso_week(struct arena *arena, int day);

/* One figure of a part. */
struct tally_figure {
    const char *group, *name, *unit; /* of rows of the weekly tables */
    struct range range;
};
enum { PART_FIGURES = 4 + 1 + EFFORT_ZONES + 1 + GAP_COUNT };
/* Puts those that are not 0 and may be shown into FIGURES; returns how many. */
size_t tally_part_figures(const struct tally_view *view, const struct tally_part *part,
                          struct tally_figure figures[PART_FIGURES]);

/* The lines that add up to the view's count. */
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
