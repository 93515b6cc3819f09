/* propose.h - what would make a session end before its doors close: tried before it is proposed, and never done. */
#ifndef BELL_ROOM_PROPOSE_H
#define BELL_ROOM_PROPOSE_H

#include "room/room.h"

enum room_remedy {
    REMEDY_BELLS,      /* several bells in place of one that wants too much kit */
    REMEDY_WAVES,
    REMEDY_ANY_ORDER,
    REMEDY_MOVE,       /* one block elsewhere */
    REMEDY_SUBSTITUTE, /* for the kit that is the bottleneck, by who waits longest */
    REMEDY_FEWER,      /* sets, rounds or blocks left out, by their keep */
    REMEDY_COUNT
};

struct room_proposal {
    enum room_remedy remedy;
    const char *words;              /* "A, B and C in waves", "one set fewer of D" */
    const struct room *room;        /* the timetable with the change */
    const struct room_table *table;
};

/* The cheapest change after which TABLE's session fits: first changes that lose nothing, then another order of the
 * blocks, then substitutes, then fewer sets. If TABLE was refused because of a bell, it is several bells, whether
 * these fit or not. NULL if there is none. *TRIED has a bit, 1 << remedy, for each remedy that was tried. */
const struct room_proposal *room_propose(struct arena *arena, const struct room *room, const struct room_table *table,
                                         unsigned *tried);

/* "waves, other exercises": what TRIED says, or NULL where nothing was. */
const char *room_tried_words(struct arena *arena, unsigned tried);

#endif
