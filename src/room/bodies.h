/* bodies.h - every use of kit in a piece of the session: what must come before it, and what after it. */
#ifndef BELL_ROOM_BODIES_H
#define BELL_ROOM_BODIES_H

#include "room/chains.h"

/* One use of a kind. It starts HEAD seconds after the session's hour at the earliest, and at least TAIL seconds lie
 * between its end and the athlete's end of the piece, whose bell is left out. Blocks that may change places do not
 * count in each other's heads and tails. */
struct room_body {
    int kind, work, head, tail;
    int athlete, leg, step; /* the leg by its place in the chain */
    int place;              /* the position before sorting, so that equals are sorted the same everywhere */
};

struct room_bodies {
    struct room_body *items; /* the longest tail first */
    size_t count;
    int *gaps;               /* of each kind: the least between two uses of one piece */
};

/* If no athlete starts before BASES. */
struct room_bodies room_bodies_of(struct arena *arena, const struct room_chains *chains,
                                  const struct room_piece *piece, const int *bases);

/* ATHLETE's legs of the piece end before this one; the bell that ends the piece is left out. */
int room_legs_end(const struct room_piece *piece, int athlete);

#endif
