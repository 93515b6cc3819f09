/* trim.h - a session cut to the time there is, with the least loss.
 *
 * What matters most stays: no block of keep 1, or without a keep, loses anything. Of two cuts the lesser loss is, in this
 * order: fewer blocks of keep 2 left out, fewer sets of them lost, fewer blocks of keep 3 left out, fewer sets of them
 * lost, and then that which takes from later blocks. So sets go before blocks. That a session is cut by what matters
 * least is common practice, no source. */
#ifndef BELL_ROOM_TRIM_H
#define BELL_ROOM_TRIM_H

#include <stdint.h>

#include "room/change.h"

struct room_trim {
    struct room_cut cut;
    uint64_t loss;      /* of it: lesser is better */
    const struct room *room;
    const struct room_table *table;
    bool fits;          /* else this is all that may go, and it is not enough */
    bool proven;        /* nothing less would do; not said where it does not fit */
};

/* ROOM's session cut to end SECONDS after its hour. NULL: the room is refused, however it is cut. */
const struct room_trim *room_trim(struct arena *arena, const struct room *room, int seconds);

/* The loss of a cut: a whole number that compares as said above. */
uint64_t room_loss(const struct room *room, const struct room_cut *cut);

#endif
