#include "export/calendar_lines.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "figures/dates.h"

enum { MOST_OCTETS = 75, LONGEST_UID = 200 };

void calendar_line(struct text *out, const char *line)
{
    size_t left = strlen(line), room = MOST_OCTETS;
    while (left > room) {
        size_t cut = room;
        while (cut > 1 && ((unsigned char)line[cut] & 0xc0) == 0x80)
            cut--; /* no character is cut in two */
        text_add_bytes(out, line, cut);
        text_add(out, "\r\n ");
        line += cut;
        left -= cut;
        room = MOST_OCTETS - 1; /* the space at the start of the continuation counts */
    }
    text_add_bytes(out, line, left);
    text_add(out, "\r\n");
}

void calendar_body(struct text *out, const char *body)
{
    for (const char *line = body; *line;) {
        size_t length = strcspn(line, "\n");
        calendar_line(out, arena_copy(out->arena, line, length));
        line += length + (line[length] == '\n');
    }
}

const char *calendar_words(struct arena *arena, const char *words)
{
    struct text out = {.arena = arena};
    for (; *words; words++) {
        if (strchr("\\;,", *words))
            text_add_char(&out, '\\');
        text_add_char(&out, (unsigned char)*words < ' ' ? ' ' : *words);
    }
    return text_keep(arena, &out);
}

/* --- reading --- */

/* TEXT with its folded lines joined and plain line ends. */
static char *unfold(struct arena *arena, const char *text, size_t length)
{
    char *out = arena_alloc(arena, length + 1), *to = out;
    for (size_t i = 0; i < length; i++) {
        if (text[i] == '\r' || text[i] == '\0')
            continue;
        if (text[i] == '\n' && i + 1 < length && (text[i + 1] == ' ' || text[i + 1] == '\t'))
            i++;
        else
            *to++ = text[i];
    }
    *to = '\0';
    return out;
}

/* What follows NAME and its colon, or NULL. */
static const char *value_of(const char *line, const char *name)
{
    size_t length = strlen(name);
    return strncmp(line, name, length) == 0 && line[length] == ':' ? line + length + 1 : NULL;
}

static void take_start(struct calendar_event *event, const char *line)
{
    int year, month, day, hour, minute, second;
    const char *value = strrchr(line, ':');
    if (strncmp(line, "DTSTART", strlen("DTSTART")) != 0 || !value)
        return;
    int found = sscanf(value + 1, "%4d%2d%2dT%2d%2d%2d", &year, &month, &day, &hour, &minute, &second);
    event->date = found >= 3 ? date_from_ymd(year, month, day) : 0;
    event->clock = found == 6 && hour >= 0 && hour < 24 && minute >= 0 && minute < 60 ? (hour * 60 + minute) * 60 : -1;
}

static void take_line(struct arena *arena, struct calendar_event *event, struct text *body, const char *line)
{
    const char *value;
    if ((value = value_of(line, "UID")) != NULL)
        event->uid = arena_copy(arena, value, strlen(value));
    else if ((value = value_of(line, "DTSTAMP")) != NULL)
        event->stamp = arena_copy(arena, value, strlen(value));
    else if ((value = value_of(line, "SEQUENCE")) != NULL)
        event->sequence = strtol(value, NULL, 10);
    else if ((value = value_of(line, "STATUS")) != NULL)
        event->cancelled = strcmp(value, "CANCELLED") == 0;
    else {
        value = value_of(line, CALENDAR_NAME);
        if (value || (value = value_of(line, "SUMMARY")) != NULL)
            event->name = arena_copy(arena, value, strlen(value));
        take_start(event, line);
        text_addf(body, "%s\n", line);
    }
}

static bool is_whole(const struct calendar_event *event)
{
    return event->uid && *event->uid && strlen(event->uid) <= LONGEST_UID && event->stamp && strlen(event->stamp) == 16 &&
           event->name && event->date && event->sequence >= 0 && event->sequence < 1000000;
}

/* What is being read. */
struct calendar_reader {
    struct arena *arena;
    struct calendar_events events;
    enum { BETWEEN, IN_EVENT, IN_ZONE } inside;
    struct calendar_event event;
    const char *zone; /* its name; NULL: not seen yet */
    struct text body;
};

static void begin(struct calendar_reader *reading, bool zone)
{
    reading->inside = zone ? IN_ZONE : IN_EVENT;
    reading->event = (struct calendar_event){.clock = -1};
    reading->zone = NULL;
    reading->body = (struct text){.arena = reading->arena};
}

static void end_event(struct calendar_reader *reading)
{
    struct calendar_events *events = &reading->events;
    reading->inside = BETWEEN;
    reading->event.body = text_keep(reading->arena, &reading->body);
    if (!is_whole(&reading->event))
        return;
    events->items = arena_grow(reading->arena, events->items, events->count, &events->capacity, sizeof *events->items);
    events->items[events->count++] = reading->event;
}

static void take_zone_line(struct calendar_reader *reading, const char *line)
{
    struct calendar_events *events = &reading->events;
    const char *name = value_of(line, "TZID");
    text_addf(&reading->body, "%s\n", line);
    reading->zone = name ? arena_copy(reading->arena, name, strlen(name)) : reading->zone;
    if (strcmp(line, "END:VTIMEZONE") != 0)
        return;
    reading->inside = BETWEEN;
    if (!reading->zone)
        return;
    events->zones = arena_grow(reading->arena, events->zones, events->zone_count, &events->zone_capacity, sizeof *events->zones);
    events->zones[events->zone_count++] =
        (struct calendar_old_zone){.name = reading->zone, .body = text_keep(reading->arena, &reading->body)};
}

struct calendar_events calendar_read(struct arena *arena, const char *text, size_t length)
{
    struct calendar_reader reading = {.arena = arena};
    for (char *line = unfold(arena, text, length), *next; line && *line; line = next) {
        next = strchr(line, '\n');
        if (next)
            *next++ = '\0';
        bool zone = strcmp(line, "BEGIN:VTIMEZONE") == 0;
        if (zone || strcmp(line, "BEGIN:VEVENT") == 0)
            begin(&reading, zone);
        if (reading.inside == IN_ZONE)
            take_zone_line(&reading, line);
        else if (reading.inside == IN_EVENT && strcmp(line, "END:VEVENT") == 0)
            end_event(&reading);
        else if (reading.inside == IN_EVENT && strcmp(line, "BEGIN:VEVENT") != 0)
            take_line(arena, &reading.event, &reading.body, line);
    }
    return reading.events;
}
