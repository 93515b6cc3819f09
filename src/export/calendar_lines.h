/* calendar_lines.h - lines of RFC 5545: folded at 75 octets between characters, ended by CRLF; and events read back from
 * them. For days_calendar.c alone. */
#ifndef BELL_EXPORT_CALENDAR_LINES_H
#define BELL_EXPORT_CALENDAR_LINES_H

#include <stdbool.h>

#include "base/text.h"

/* The line with what the plan calls an event whose SUMMARY is in another language; without it the SUMMARY is that name. */
#define CALENDAR_NAME "X-BELLSHEET-NAME"

struct calendar_event {
    const char *uid, *stamp;
    long sequence;
    bool cancelled;
    const char *body;     /* all its other lines, unfolded, each with a line end */
    const char *name;     /* what the plan called it, as it is written there */
    int date, clock;      /* the hour of its DTSTART; -1: the whole day */
    bool taken;
};

/* A zone's block, as it was written before. */
struct calendar_old_zone {
    const char *name, *body; /* all its lines, from BEGIN to END */
};

struct calendar_events {
    struct calendar_event *items;
    size_t count, capacity;
    struct calendar_old_zone *zones;
    size_t zone_count, zone_capacity;
};

/* Adds LINE as it has to be sent. */
void calendar_line(struct text *out, const char *line);

/* Adds each of the lines of BODY. */
void calendar_body(struct text *out, const char *body);

/* WORDS with the characters escaped that have a meaning in a text value. */
const char *calendar_words(struct arena *arena, const char *words);

/* The events of a calendar that we wrote, in ARENA; what does not look like one is skipped. */
struct calendar_events calendar_read(struct arena *arena, const char *text, size_t length);

#endif
