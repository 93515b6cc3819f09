/* tidy.h - makes the gaps of contrasts as planned, if nothing else changes by it. */
#ifndef BELL_ROOM_TIDY_H
#define BELL_ROOM_TIDY_H

#include "room/chains.h"

/* Starts each item of a contrast as late as the next use of its kit allows and the gap after it needs. ROWS are
 * sorted by start. Everybody still ends at the same time, and kit changes hands in the same order. */
void room_tidy(struct arena *arena, const struct room_chains *chains, struct room_row *rows, size_t count);

#endif
