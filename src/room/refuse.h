/* refuse.h - rooms that have no timetable at all, and why. */
#ifndef BELL_ROOM_REFUSE_H
#define BELL_ROOM_REFUSE_H

#include "room/chains.h"

/* The reason in words, or NULL. *BLOCK is the bell that wants more kit than there is, else ROOM_NONE. */
const char *room_refusal(struct arena *arena, const struct room_chains *chains, int *block);

/* Said where a contrast's kit cannot be changed within its gaps although each pair of its items allows it. */
const char *room_refusal_of_ties(void);

#endif
