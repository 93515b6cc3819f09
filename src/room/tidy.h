/* tidy.h - gaps of contrasts made as planned where nothing else changes. */
#ifndef BELL_ROOM_TIDY_H
#define BELL_ROOM_TIDY_H

#include "room/chains.h"

/* Starts each item of a contrast as late as the next use of its kit allows and the gap behind it needs. ROWS come by
 * start; nobody ends otherwise, and no kit changes hands otherwise. */
void room_tidy(struct arena *arena, const struct room_chains *chains, struct room_row *rows, size_t count);

#endif
