/* trim.h - a session cut to the time available, with the least loss.
 *
 * * What matters most stays: a block of keep 1, or without a keep, loses nothing. Of two cuts, the one with fewer
 * blocks of keep 2 left out is the lesser loss; then the one with fewer sets of them lost; then the one with fewer
 * blocks of keep 3 left out; then the one with fewer sets of those lost; and then the one that takes from later
 * blocks. So sets go before blocks. To cut what matters least is common practice, no source. */
#ifndef BELL_ROOM_TRIM_H
#define BELL_ROOM_TRIM_H

#include <stdint.h>

#include "room/change.h"

struct room_trim {
    struct room_cut cut;
    uint64_t loss;      /* of the cut; less is better */
    const struct room *room;
    const struct room_table *table;
    bool fits;          /* if false, this is all that may go, and it is not enough */
    bool proven;        /* no lesser cut would do; never set if the session does not fit */
};

/* ROOM's session cut to end SECONDS after its hour. NULL: the room is refused, however it is cut. */
const struct room_trim *room_trim(struct arena *arena, const struct room *room, int seconds);

/* The loss of a cut: a whole number that compares as described above. */
uint64_t room_loss(const struct room *room, const struct room_cut *cut);

#endif
