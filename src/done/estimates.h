/* estimates.h - maxima estimated from what was logged. They are shown beside a tested best and never replace it. */
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
    const struct logged_line *line; /* of the last day that gives one */
    const struct logged_set *set;   /* BY_REPS: the set of that line that gives the highest */
    milli share;                    /* BY_REPS: what was lifted, in thousandths of a per cent of MAXIMUM */
    size_t points;                  /* BY_SPEED: sets on the line */
    mass before;                    /* BY_REPS: what the last day before that gave; 0: none did */
    int before_day;
    mass first;                     /* BY_REPS: what the first of all the days gave */
    int first_day;
};

/* Those of ATHLETE, by exercise: for each, what repetitions give and what speeds give. Returns how many are in
 * *ESTIMATES. */
/* The same from the logs between FIRST and LAST alone. */
size_t estimates_between(struct arena *arena, const struct programme *programme, const struct athlete *athlete, int first,
                         int last, struct lift_estimate **estimates);
size_t estimates_of(struct arena *arena, const struct programme *programme, const struct athlete *athlete,
                    struct lift_estimate **estimates);

/* The RPE that SET was rated at, in thousandths, the middle of a range; all-out is 10. 0: it was not rated. */
milli logged_rpe(const struct logged_set *set);

/* Repetitions of SET; for work on each side, those of one side. 0 if it is not a set of plain repetitions. */
milli logged_reps(const struct logged_set *set);

#endif
