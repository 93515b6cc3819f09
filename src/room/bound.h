/* bound.h - before when no timetable of a room can end. */
#ifndef BELL_ROOM_BOUND_H
#define BELL_ROOM_BOUND_H

#include "room/chains.h"

struct room_bound {
    int finish;  /* of the squad */
    int longest; /* the end of whoever ends last, were each alone in the room */
};

/* When PIECE, and the bell at its end, can be over at the earliest if no athlete starts before BASES. */
int room_piece_bound(struct arena *arena, const struct room_chains *chains, const struct room_piece *piece,
                     const int *bases);

struct room_bound room_bound_of(struct arena *arena, const struct room_chains *chains);

#endif
