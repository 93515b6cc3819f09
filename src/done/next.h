/* next.h - the next load of a line, by its rule (`next time`) and by what was done.
 *
 * * Nothing goes up while a hold is in force, in a taper, or after the line was missed or skipped. A step that the
 * gym cannot make, or that is above a tenth of the load, is not taken: repetitions are proposed instead. For the
 * young, in a taper and under a restriction, loads are rounded down. */
#ifndef BELL_DONE_NEXT_H
#define BELL_DONE_NEXT_H

#include <stddef.h>

#include "base/arena.h"
#include "model/quantity.h"

struct athlete;
struct block;
struct done;
struct item;
struct logged_line;
struct occasion;
struct programme;

/* What was done of the line on one day. */
struct next_ground {
    const struct done *log;
    const struct logged_line *line; /* NULL: as planned */
    const struct item *planned;
};

struct proposal {
    const struct occasion *occasion; /* what is planned, and where */
    const struct block *block;
    const struct item *item;
    mass load;        /* of a piece */
    int reps;         /* for every set, instead of those planned; 0: as they are */
    const char *why;  /* "every set reached 10" */
    struct next_ground grounds[2]; /* the last first */
    size_t ground_count;
};

/* Where the plan for WEEK of the camps differs from what the rules say, by occasion; only for ATHLETE, if that is
 * not NULL. WEEK 0: for each line, the first day after the athlete's last log. Returns how many are in *PROPOSALS. */
size_t next_of(struct arena *arena, const struct programme *programme, int week, const struct athlete *athlete,
               struct proposal **proposals);

#endif
