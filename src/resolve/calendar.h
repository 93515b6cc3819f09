/* calendar.h - the weeks and phases of a camp; shared by the resolve_*.c files only. */
#ifndef BELL_RESOLVE_CALENDAR_H
#define BELL_RESOLVE_CALENDAR_H

#include "resolve/resolver.h"

enum { MOST_WEEKS = 260 }; /* of a camp */

/* The days that a `weeks 1-4` or `in taper` of a camp covers. */
struct days_covered {
    int first, last;          /* both inside */
    int every_other_from;     /* week from which every other week counts; 0: all */
    int count;                /* how many days that are; fewer is narrower */
    bool back, by_days;       /* of these days only those that are so many weeks, or days, before a bout: */
    int low, high;
    const char *phase;        /* folded: of these days only those of the phase; or NULL */
    bool left_out;            /* of a phase for which there are no days: it covers none */
};

/* Fewer sets and less effort on some days of a camp. */
struct deload {
    const struct days_covered *covered;
    milli share; /* of the sets that are left, in per cent */
    milli lower; /* by so much RPE is lowered, and so many repetitions more stay in reserve */
};

/* Works out the camp's phases from its start and bouts. */
void resolve_phases(struct resolver *r, const struct node *node, struct camp *camp);

/* Puts the house defaults in force in CAMP, where there are any. */
void camp_take_house_limits(struct resolver *r, struct camp *camp);

/* The week of the camp that DAY falls in, from 1. */
int camp_week(const struct camp *camp, int day);

/* Whole weeks from DAY's ISO week to that of the bout that comes next; -1 where none does, and behind a bout in its week. */
int camp_weeks_out(const struct camp *camp, int day);

/* The phase that contains DAY, or NULL. */
const struct phase *camp_phase(const struct camp *camp, int day);

/* What WHEN covers in CAMP; if it makes no sense, reports it and returns false. */
bool camp_covers(struct resolver *r, const struct camp *camp, const struct node *when, struct days_covered *covered);

/* Reads the line `deload` at NODE for the days COVERED; false if it cannot apply, which is reported. The one that holds on
 * DAY, the narrowest, or NULL. And makes what OCCASION, a session's, is of it (resolve_deload.c). */
bool deload_read(struct resolver *r, const struct node *node, const struct days_covered *covered, struct deload *deload);
const struct deload *deload_on(const struct deload *deloads, size_t count, const struct camp *camp, int day);
void deload_apply(struct resolver *r, const struct deload *deload, struct occasion *occasion);

/* Does COVERED contain DAY? */
bool covers_day(const struct days_covered *covered, const struct camp *camp, int day);

#endif
