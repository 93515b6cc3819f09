/* show_programme.h - a resolved programme as text for people and as JSON for other programs: what was
 * understood, not what was written.
 *
 * Body mass, dates of birth, restrictions, holds, bests from a private file, and every load that would reveal what
 * somebody weighs are left out unless they are asked for: output ends up in logs, where it stays. */
#ifndef BELL_EXPORT_SHOW_PROGRAMME_H
#define BELL_EXPORT_SHOW_PROGRAMME_H

#include "base/text.h"
#include "model/quantity.h"

struct occasion;
struct programme;

struct programme_view {
    const struct programme *programme;
    struct arena *arena;                       /* for what is made on the way */
    const struct occasion *const *occasions;   /* those to show, in any order */
    size_t count;
    const char *version;                       /* of the program: "0.1.0" */
    bool lines;                                /* name the line of the plan beside what it says */
    bool ledgers;                              /* whole weeks are in view: give their stance ledgers */
    bool rooms;                                /* one day is in view: give the timetables of its squads */
    bool private;
};

/* The version of the form that share/schema/programme-3.schema.json describes. A change that could
 * break a reader gets a new number. Nothing in it depends on the order of declarations. */
enum { PROGRAMME_FORM = 3 };

/* Adds the view to OUT. */
void programme_json(const struct programme_view *view, struct text *out);
void programme_text(const struct programme_view *view, struct text *out);

/* --- shared by the two --- */

/* What comes before the days. */
enum view_by { VIEW_BY_DAY, VIEW_BY_ATHLETE };

/* The occasions of VIEW in an order that does not depend on the order of declarations: by athlete or camp if asked for,
 * then by date, clock, and names. In the view's arena. */
const struct occasion **view_order(const struct programme_view *view, enum view_by by);

/* "17:30"; "2027-03-01". */
const char *view_clock(struct arena *arena, int seconds);
const char *view_date(struct arena *arena, int day);
/* "monday" */
const char *view_weekday(int day);
/* What is done: the name of the session or activity. */
const char *view_title(const struct occasion *occasion);
/* "sessions/first.bell:12", the line at which SPAN starts. */
const char *view_line(const struct programme_view *view, struct span span);

/* Are both of one athlete and ISO week? */
bool view_same_week(const struct occasion *a, const struct occasion *b);

#endif
