/* estimates.h - maxima read from what was logged. They stand beside a tested best and never in its place. */
#ifndef BELL_DONE_ESTIMATES_H
#define BELL_DONE_ESTIMATES_H

#include <stdbool.h>
#include <stddef.h>

#include "base/arena.h"
#include "model/quantity.h"

struct athlete;
struct exercise;
struct logged_line;
struct logged_set;
struct programme;

enum estimate_way { ESTIMATE_BY_REPS, ESTIMATE_BY_SPEED };

/* What the logs say of one lift of one athlete. */
struct lift_estimate {
    const struct exercise *exercise;
    enum estimate_way way;
    mass maximum, low, high;        /* LOW to HIGH: what its error leaves */
    const struct logged_line *line; /* of the last day that says something */
    const struct logged_set *set;   /* BY_REPS: of that line the set that says most */
    milli share;                    /* BY_REPS: what was lifted, in thousandths of a per cent of MAXIMUM */
    size_t points;                  /* BY_SPEED: sets on the line */
    mass before;                    /* BY_REPS: what the last day before that said; 0: none did */
    int before_day;
    mass first;                     /* BY_REPS: what the first of all the days says */
    int first_day;
};

/* Those of ATHLETE, by exercise, of each what repetitions say and what speeds say. Returns how many are in *ESTIMATES. */
/* What the logs from FIRST to LAST say alone. */
size_t estimates_between(struct arena *arena, const struct programme *programme, const struct athlete *athlete, int first,
                         int last, struct lift_estimate **estimates);
size_t estimates_of(struct arena *arena, const struct programme *programme, const struct athlete *athlete,
                    struct lift_estimate **estimates);

/* The RPE that SET was rated at, in thousandths, the middle of a range; all-out is 10. 0: nothing was said. */
milli logged_rpe(const struct logged_set *set);

/* Repetitions of SET, on each side those of one; 0 where it is no set of plain repetitions. */
milli logged_reps(const struct logged_set *set);

#endif
