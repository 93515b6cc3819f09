/* request.h - from a part of the plan to what a sheet of it shows. */
#ifndef BELL_SHEETS_REQUEST_H
#define BELL_SHEETS_REQUEST_H

#include "layout/sheet.h"

struct athlete;
struct camp;
struct occasion;
struct programme;
struct season;

/* The occasions that share a sheet: one session on one day at one hour in one camp, an occasion for each athlete; or an
 * athlete's in a week or camp. */
struct occasion_group {
    const struct occasion **occasions;
    size_t count, capacity;
    const struct season *season; /* for a season's sheet */
    bool of_athlete;             /* one athlete's sessions of a week, in whatever camps, on one page of cards */
};

/* What sheets are made from, and how they were asked for. */
struct sheet_origin {
    const struct programme *programme;
    struct arena *arena;       /* requests live in it */
    const char *version;       /* hash or revision of its inputs, for the foot of a sheet; "" for none */
    const struct paper *paper; /* of the wall; NULL: its own */
    bool landscape;            /* of the wall */
    double read_from;          /* centimetres that the wall is read from; 0: its own */
    int pages;                 /* the most that a wall may take to keep its letters large; 0: two */
    bool coach;                /* the coach's own copy */
    bool private;              /* what only private files have is asked for */
    struct squad_memo *memo;   /* timetables that all sheets share; NULL: each works out its own */
};

/* The request for SHEET of GROUP, which has the sheet's scope. The caller sets its arena and type. */
struct sheet_request sheet_request_for(const struct sheet_origin *origin, const struct sheet *sheet,
                                       const struct occasion_group *group);

/* Is the sheet of a week, a camp or a season? Such a sheet is whole or not made at all. */
bool sheet_is_for_each(const struct sheet *sheet);
bool sheet_is_of_season(const struct sheet *sheet);

/* GROUP with those on hold after the others, whose work is the sheet's. A wall leaves them out: neither their names
 * hang there nor what they do instead. */
struct occasion_group sheet_held_last(const struct sheet_origin *origin, const struct sheet *sheet,
                                      const struct occasion_group *group);

/* Is the occasion at INDEX the first of its camp in GROUP? */
bool sheet_begins_camp(const struct occasion_group *group, size_t index);

/* The limits that apply to ATHLETE in each week of CAMP; *COUNT of them. */
const struct sheet_bound *sheet_bounds(const struct programme *programme, struct arena *arena,
                                       const struct camp *camp, const struct athlete *athlete,
                                       size_t *count);

/* The limits that apply in the week of GROUP, from each camp in it, each limit once. Their week is that of the
 * group's first occasion. */
const struct sheet_bound *sheet_week_bounds(const struct programme *programme, struct arena *arena,
                                            const struct occasion_group *group, size_t *count);

#endif
