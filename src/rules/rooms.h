/* rooms.h - the rooms of a programme's squads, as the checks look at them. Read by the files of this room only. */
#ifndef BELL_RULES_ROOMS_H
#define BELL_RULES_ROOMS_H

#include "rules/run.h"
#include "squad/squad.h"

/* Seconds beyond the rests that are worth telling. Common practice, no source. */
enum { LONG_WAIT = 300 };

/* A squad on one day. */
struct room_meeting {
    const struct occasion *const *members;
    size_t count;
    const struct squad *squad;      /* NULL: not looked at yet */
    const struct room_table *table; /* the best that was found; NULL: too large */
    int latest;                     /* seconds after the hour; who is done later is late */
    bool solved;                    /* else it is what happens without a plan: who is ready first goes first */
};

/* The squads whose first member among those asked for is the athlete of WINDOW, by date, and how many. The room of each is
 * worked out: fully where it must be, and until all that they may cost is spent. */
struct room_meeting *const *run_meetings(struct run *run, const struct window *window, size_t *count);

/* Is OCCASION, of the programme, one of a squad's? */
bool run_is_in_squad(struct run *run, const struct occasion *occasion);

/* COUNT occasions of one hour as a window for what is found of all of them, in the timeline of WINDOW. In the run's arena. */
const struct window *room_window(struct run *run, const struct window *window, const struct occasion *const *members,
                                 size_t count);

/* Whether one more proposal may be worked out. */
bool run_may_propose(struct run *run);

#endif
