/* bound.h - a time before which no timetable of a room can end. */
#ifndef BELL_ROOM_BOUND_H
#define BELL_ROOM_BOUND_H

#include "room/chains.h"

struct room_bound {
    int finish;  /* of the squad */
    int longest; /* the last athlete's end, if each were alone in the room */
};

/* The earliest end of PIECE and of the bell at its end, if no athlete starts before BASES. */
int room_piece_bound(struct arena *arena, const struct room_chains *chains, const struct room_piece *piece,
                     const int *bases);

struct room_bound room_bound_of(struct arena *arena, const struct room_chains *chains);

#endif
