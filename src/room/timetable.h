/* timetable.h - from what a search placed to rows and figures. */
#ifndef BELL_ROOM_TIMETABLE_H
#define BELL_ROOM_TIMETABLE_H

#include "room/bound.h"
#include "room/decode.h"

/* Fills TABLE, which is ARENA's, from all that was placed. */
void room_table_fill(struct arena *arena, const struct room_chains *chains, const struct room_log *log,
                     const struct room_bound *bound, struct room_table *table);

#endif
