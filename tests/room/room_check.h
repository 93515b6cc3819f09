/* room_check.h - is a timetable valid? Reads the room and the rows, and shares no code with what made them. */
#ifndef BELL_TESTS_ROOM_CHECK_H
#define BELL_TESTS_ROOM_CHECK_H

#include "base/text.h"
#include "room/room.h"

/* What the rows come to; faults are lines of text, none where the timetable is valid. */
struct room_check {
    const struct room *room;
    const struct room_row *rows;
    size_t count;
    struct text faults;
    int finish, wait, discs;
    int opening; /* when the bell that opens the session rings; ROOM_NONE */
};

/* Ended with text_free(&check.faults). */
struct room_check room_check(const struct room *room, const struct room_row *rows, size_t count);

#endif
