/* turn.h - what was done of one line of a session, time after time. Only the files of this room read it. */
#ifndef BELL_DONE_TURN_H
#define BELL_DONE_TURN_H

#include <stdbool.h>
#include <stddef.h>

#include "base/arena.h"
#include "model/quantity.h"

struct athlete;
struct done;
struct item;
struct logged_line;
struct occasion;
struct programme;

/* All that one athlete does, by date. */
struct diary_of {
    const struct occasion **items;
    size_t count;
    int last_log; /* the last day of it that has a log; 0: none */
};

struct diary_of diary_of_athlete(struct arena *arena, const struct programme *programme, const struct athlete *athlete);

/* A line as it was done on one day. What a log does not say stays as planned; of a range, the lower end counts. */
struct turn {
    const struct done *log;
    const struct item *item;        /* as it was planned */
    const struct logged_line *line; /* NULL: as planned */
    bool done;                      /* neither missed nor skipped */
    int sets;
    mass load;                      /* of the last set that had one */
    bool one_load;                  /* of all sets */
    milli least_reps, last_reps;
    milli rpe;                      /* of the last set that was rated; 0: none was */
    bool all_out;                   /* the last set was */
};

/* The turns of ITEM (of DIARY's occasion AT) before it: at most two, the last first. Missed or skipped ones count;
 * days without a log do not. */
size_t turns_before(const struct diary_of *diary, size_t at, const struct item *item, struct turn turns[2]);

#endif
