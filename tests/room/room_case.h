/* room_case.h - rooms read from JSON, for tests.
 *
 * {"case": {...}, "expected": {...}}. A case holds kinds of kit with their counts, which of them are "loaded" (seats) and
 * have "one_sleeve"; athletes, who "arrive" at a second; blocks by letter, a "clock" being one with a bell that starts
 * rounds at "bells" and "needs" kit of each; and work: the sets of a block, for one "athlete", some "athletes" or all,
 * each set so many "times". An item "x" lasts "work" seconds, with a "gap" of least and most seconds (null: no end)
 * before it. "turn", "disc" and "between" are the room's seconds, 20, 8 and 120 unless said. */
#ifndef BELL_TESTS_ROOM_CASE_H
#define BELL_TESTS_ROOM_CASE_H

#include <jansson.h>

#include "room/room.h"

struct room_case {
    struct arena *arena;
    json_t *json;
    struct room room;
};

/* The room of a file {"case": {...}}; ends the program where it cannot be read. Ended with room_case_close. */
struct room_case room_case_open(const char *path);
void room_case_close(struct room_case *room_case);

/* Places by name; ROOM_NONE if there is none. */
int room_case_kind(const struct room *room, const char *name);
int room_case_block(const struct room *room, const char *name);

#endif
