/* room_maker.h - rooms at random, for tests: every kind of block, late athletes, partners, scarce discs. */
#ifndef BELL_TESTS_ROOM_MAKER_H
#define BELL_TESTS_ROOM_MAKER_H

#include <stdint.h>

#include "room/room.h"

/* The room of SEED: the same seed, the same room. */
struct room room_make(struct arena *arena, uint64_t seed);

#endif
