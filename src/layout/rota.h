/* rota.h - when and where the squad of a sheet does what: the timetables of its rooms, in a sheet's words. */
#ifndef BELL_LAYOUT_ROTA_H
#define BELL_LAYOUT_ROTA_H

#include "layout/sheet.h"
#include "squad/squad.h"

/* A squad in its room. A session that some do elsewhere has a room for each place. */
struct rota {
    const struct squad *squad;
    const struct room_table *table;
    const bool *seen;  /* of each member: whether the sheet shows what they do */
    const bool *named; /* whether another's card may say that they come before; nobody on hold is named */
};

/* The rooms in which the request's session is done that have a timetable; *ALL of them. None where nobody shares one.
 * Members whom the sheet does not show are in the timetable but not seen; nor is, except on the coach's own copy, who is on
 * hold. */
size_t rotas_of(const struct sheet_request *request, struct rota **all);

/* "18:04:20", and "18:05" where a minute is near enough (the one that SECONDS lies in). */
const char *rota_hour(struct arena *arena, const struct rota *of, int seconds);
const char *rota_minute(struct arena *arena, const struct rota *of, int seconds);

/* OCCASION at the hours of the room that it is done in: each block from the first who begins it to the last who ends it, the
 * whole up to the squad's finish. OCCASION itself where there is no one room, or where blocks are done side by side. */
const struct occasion *rota_spread(struct arena *arena, const struct rota *rooms, size_t count, const struct occasion *occasion);

/* "19:09": when ATHLETE begins BLOCK, warm-up sets counted; ROOM_NONE for the whole squad. "" where they do not do it. */
const char *rota_block_hour(struct arena *arena, const struct rota *of, int athlete, const struct block *block);
/* The same with the last end, for the whole squad: "19:09-19:18". */
const char *rota_block_hours(struct arena *arena, const struct rota *of, const struct block *block);

/* "19:09:20 rack 1 after Kofi, 19:12:10, 19:15:00 rack 2": when ATHLETE does each set of line INDEX of BLOCK, on which of the
 * kit that others use too, and whose turn comes before. "" where that kit is nobody else's. */
const char *rota_turns(struct arena *arena, const struct rota *of, int athlete, const struct block *block, int index);

/* The member that OCCASION is, or ROOM_NONE. */
int rota_member(const struct rota *of, const struct occasion *occasion);

/* The first row, warm-up sets apart, in which ATHLETE does line INDEX of BLOCK, or its bell; NULL where they do not. */
const struct room_row *rota_first(const struct rota *of, int athlete, const struct block *block, int index);

/* "A1 . 2" for a second set, "A1 warm up", "A" for a bell. */
const char *rota_line(struct arena *arena, const struct rota *of, const struct room_row *row);

/* "60 kg with bar": what ROW is done with; "" where nothing in kilograms tells it. */
const char *rota_load(struct arena *arena, const struct rota *of, const struct room_row *row);

/* The unit of KIND and NUMBER that ROW uses, or NULL. */
const struct room_unit *rota_unit(const struct room_row *row, int kind, int number);

/* Is KIND the coaches, who are kit like any other to a room? */
bool rota_is_coach(const struct rota *of, int kind);

/* "rack 2"; "trap bar" where there is but one. */
const char *rota_unit_name(struct arena *arena, const struct rota *of, int kind, int number);

/* "off 5 kg, on 10 kg, 2.5 kg": what is changed, of one side, between the loads of BEFORE and ROW on one seat. "" where nothing
 * is. With BEFORE NULL, what lies there when the session starts: "20 kg barbell, 25 kg". */
const char *rota_discs(struct arena *arena, const struct rota *of, const struct room_row *before,
                            const struct room_row *row);

/* "2 x rack, 3 x 20 kg barbell, 4 x 10 kg disc": all kit of the room that is in use at once, at most. */
const char *rota_kit(struct arena *arena, const struct rota *of);

#endif
