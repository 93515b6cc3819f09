#include "export/days_calendar.h"

#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "export/calendar_lines.h"
#include "export/calendar_zone.h"
#include "figures/dates.h"
#include "figures/zone.h"
#include "language/language.h"
#include "measure/clocks.h"
#include "measure/kit.h"
#include "model/activity.h"
#include "model/athlete.h"
#include "model/gym.h"
#include "model/occasion.h"
#include "model/season.h"
#include "wording/wording.h"

enum { NEAR_DAYS = 31 }; /* NEAR: what is no longer on its day but is found this close has moved */

struct calendar {
    const struct calendar_request *request;
    struct arena *arena;
    struct calendar_events before, events;
    const char *stamp;
};

/* --- one event --- */

/* What the plan calls it, in whatever language its athlete reads: by this an event is known again. */
static const char *name_of(struct arena *arena, const struct occasion *occasion)
{
    return calendar_words(arena, occasion->session ? occasion->session->name.shown : occasion->activity->name.shown);
}

/* The same in the athlete's language, which may be that of one camp; what coaches named themselves stays as they wrote it. */
static void add_title(struct arena *arena, const struct occasion *occasion, struct text *body)
{
    const char *name = name_of(arena, occasion), *title = name;
    const struct language *before = arena_language(arena), *language = occasion_language(occasion);
    arena_speak(arena, language);
    if (occasion->activity)
        title = calendar_words(arena, wording_activity(arena, occasion->activity));
    arena_speak(arena, before);
    if (language && strcmp(title, name) != 0)
        text_addf(body, "SUMMARY;LANGUAGE=%s:%s\n" CALENDAR_NAME ":%s\n", language->code, title, name);
    else
        text_addf(body, "SUMMARY:%s\n", name);
}

static const char *time_words(struct arena *arena, int date, int clock)
{
    int year = 0, month = 0, day = 0;
    date_to_ymd(date, &year, &month, &day);
    return arena_printf(arena, "%04d%02d%02dT%02d%02d00", year, month, day, clock / 3600, clock / 60 % 60);
}

static void add_times(const struct calendar *calendar, const struct occasion *occasion, struct text *body)
{
    struct arena *arena = calendar->arena;
    if (occasion->clock < 0) {
        text_addf(body, "DTSTART;VALUE=DATE:%.8s\n", time_words(arena, occasion->date, 0));
        return;
    }
    const char *in = occasion->zone ? arena_printf(arena, ";TZID=%s", zone_name(occasion->zone)) : "";
    struct occasion whole = *occasion; /* in whole minutes */
    int date, clock;
    whole.seconds = (occasion->seconds + 59) / 60 * 60;
    occasion_end(&whole, NULL, &date, &clock);
    text_addf(body, "DTSTART%s:%s\n", in, time_words(arena, occasion->date, occasion->clock));
    if (occasion->seconds)
        text_addf(body, "DTEND%s:%s\n", in, time_words(arena, date, clock));
}

/* When, what and where; nothing about loads, and nothing about anybody's health. */
static const char *body_of(const struct calendar *calendar, const struct occasion *occasion)
{
    const struct gym *gym = occasion_gym(occasion);
    bool there = gym && (occasion->session || !occasion->activity->outside);
    struct text body = {.arena = calendar->arena};
    add_times(calendar, occasion, &body);
    add_title(calendar->arena, occasion, &body);
    if (there)
        text_addf(&body, "LOCATION:%s\n", calendar_words(calendar->arena, gym->name.shown));
    text_addf(&body, "CATEGORIES:%s\n", calendar_words(calendar->arena, occasion->camp->name.shown));
    return text_keep(calendar->arena, &body);
}

/* A UID that no other event has. It is made from where and when the event was first planned, and never changes. */
static const char *new_uid(const struct calendar *calendar, const struct occasion *occasion)
{
    struct arena *arena = calendar->arena;
    const char *key = arena_printf(arena, "%s|%s|%s|%d|%d", occasion->athlete->name.folded, occasion->camp->name.folded,
                                   name_of(arena, occasion), occasion->date, occasion->clock);
    uint64_t hash = text_hash(0, key, strlen(key));
    for (;; hash++) {
        const char *uid = arena_printf(arena, "%016llx@bellsheet", (unsigned long long)hash);
        bool used = false;
        for (size_t i = 0; i < calendar->before.count && !used; i++)
            used = strcmp(calendar->before.items[i].uid, uid) == 0;
        for (size_t i = 0; i < calendar->events.count && !used; i++)
            used = strcmp(calendar->events.items[i].uid, uid) == 0;
        if (!used)
            return uid;
    }
}

/* --- which of those before is which --- */

static struct calendar_event *find_before(struct calendar *calendar, const struct occasion *occasion, bool moved)
{
    const char *name = name_of(calendar->arena, occasion);
    struct calendar_event *nearest = NULL;
    int least = moved ? NEAR_DAYS + 1 : 1;
    for (size_t i = 0; i < calendar->before.count; i++) {
        struct calendar_event *event = &calendar->before.items[i];
        int days = abs(event->date - occasion->date);
        bool fits = !event->taken && strcmp(event->name, name) == 0 && (moved ? !event->cancelled : event->clock == occasion->clock);
        if (fits && days < least) {
            nearest = event;
            least = days;
        }
    }
    return nearest;
}

static void add_event(struct calendar *calendar, struct calendar_event event)
{
    calendar->events.items = arena_grow(calendar->arena, calendar->events.items, calendar->events.count,
                                        &calendar->events.capacity, sizeof *calendar->events.items);
    calendar->events.items[calendar->events.count++] = event;
}

static void go_on(struct calendar *calendar, const struct occasion *occasion, struct calendar_event *before)
{
    const char *body = body_of(calendar, occasion);
    struct calendar_event event = {.body = body, .date = occasion->date, .clock = occasion->clock, .stamp = calendar->stamp};
    if (before) {
        bool same = !before->cancelled && strcmp(before->body, body) == 0;
        before->taken = true;
        event.uid = before->uid;
        event.sequence = before->sequence + !same;
        event.stamp = same ? before->stamp : calendar->stamp;
    } else {
        event.uid = new_uid(calendar, occasion);
    }
    add_event(calendar, event);
}

/* First what is where it was, then what is near it, then what is new. */
static void match(struct calendar *calendar)
{
    const struct calendar_request *request = calendar->request;
    bool *done = arena_alloc(calendar->arena, request->count + 1);
    for (int pass = 0; pass < 3; pass++)
        for (size_t i = 0; i < request->count; i++) {
            struct calendar_event *before = done[i] || pass == 2 ? NULL : find_before(calendar, request->occasions[i], pass == 1);
            if (done[i] || (pass < 2 && !before))
                continue;
            done[i] = true;
            go_on(calendar, request->occasions[i], before);
        }
    for (size_t i = 0; i < calendar->before.count; i++) {
        struct calendar_event event = calendar->before.items[i];
        if (event.taken)
            continue;
        event.sequence += !event.cancelled;
        event.stamp = event.cancelled ? event.stamp : calendar->stamp;
        event.cancelled = true;
        add_event(calendar, event);
    }
}

/* --- zones --- */

/* "Asia/Bangkok" from an event's lines, or "" if its hours are those of wherever the phone is. */
static const char *zone_of(struct arena *arena, const struct calendar_event *event)
{
    const char *zone = strstr(event->body, "DTSTART;TZID="), *from = zone ? strchr(zone, '=') + 1 : "";
    return arena_copy(arena, from, strcspn(from, ":\n"));
}

static const struct zone *known_zone(const struct calendar_request *request, const char *name)
{
    for (size_t i = 0; i < request->count; i++)
        if (request->occasions[i]->zone && strcmp(zone_name(request->occasions[i]->zone), name) == 0)
            return request->occasions[i]->zone;
    return NULL;
}

/* NAME with its changes over all events; as it was before, if only cancelled events use it. */
static void write_zone(const struct calendar *calendar, const char *name, struct text *out)
{
    const struct calendar_events *events = &calendar->events, *before = &calendar->before;
    const struct zone *zone = known_zone(calendar->request, name);
    if (zone)
        calendar_zone(out, zone, events->items[0].date - 1, events->items[events->count - 1].date + 1);
    for (size_t i = 0; !zone && i < before->zone_count; i++)
        if (strcmp(before->zones[i].name, name) == 0) {
            calendar_body(out, before->zones[i].body);
            return;
        }
}

static void write_zones(const struct calendar *calendar, struct text *out)
{
    const struct calendar_events *events = &calendar->events;
    const char **written = arena_alloc(calendar->arena, (events->count + 1) * sizeof *written);
    size_t count = 0;
    for (size_t i = 0; i < events->count; i++) {
        const char *name = zone_of(calendar->arena, &events->items[i]);
        size_t same = 0;
        while (same < count && strcmp(written[same], name) != 0)
            same++;
        if (!*name || same < count)
            continue;
        written[count++] = name;
        write_zone(calendar, name, out);
    }
}

/* --- the whole --- */

static int by_time(const void *one, const void *other)
{
    const struct calendar_event *a = one, *b = other;
    int order = a->date - b->date;
    order = order ? order : a->clock - b->clock;
    return order ? order : strcmp(a->uid, b->uid);
}

static const char *stamp_words(struct arena *arena, long long seconds)
{
    char words[32] = "";
    time_t at = (time_t)seconds;
    struct tm utc;
    if (gmtime_r(&at, &utc))
        strftime(words, sizeof words, "%Y%m%dT%H%M%SZ", &utc);
    return arena_copy(arena, words, strlen(words));
}

static void write_event(const struct calendar *calendar, const struct calendar_event *event, struct text *out)
{
    struct arena *arena = calendar->arena;
    calendar_line(out, "BEGIN:VEVENT");
    calendar_line(out, arena_printf(arena, "UID:%s", event->uid));
    calendar_line(out, arena_printf(arena, "DTSTAMP:%s", event->stamp));
    calendar_line(out, arena_printf(arena, "SEQUENCE:%ld", event->sequence));
    calendar_line(out, event->cancelled ? "STATUS:CANCELLED" : "STATUS:CONFIRMED");
    calendar_body(out, event->body);
    calendar_line(out, "END:VEVENT");
}

/* The calendar's own description (RFC 7986, 5.2): that no native speaker has read the words of its events, in each language
 * of which that is so. */
static void write_unread(const struct calendar_request *request, struct text *out)
{
    const struct language *before = arena_language(request->arena);
    for (size_t l = 0; l < language_count; l++) {
        bool used = false;
        for (size_t i = 0; i < request->count && !used; i++)
            used = occasion_language(request->occasions[i]) == languages[l];
        arena_speak(request->arena, languages[l]);
        const char *unread = said_unread(request->arena);
        if (used && *unread)
            calendar_line(out, arena_printf(request->arena, "DESCRIPTION;LANGUAGE=%s:%s", languages[l]->code,
                                            calendar_words(request->arena, unread)));
    }
    arena_speak(request->arena, before);
}

void calendar_write(const struct calendar_request *request, struct text *out)
{
    struct calendar calendar = {.request = request, .arena = request->arena};
    calendar.stamp = stamp_words(request->arena, request->stamp);
    if (request->before)
        calendar.before = calendar_read(request->arena, request->before, request->before_length);
    match(&calendar);
    struct calendar_events *events = &calendar.events;
    if (events->count)
        qsort(events->items, events->count, sizeof *events->items, by_time);
    calendar_line(out, "BEGIN:VCALENDAR");
    calendar_line(out, "VERSION:2.0");
    calendar_line(out, "PRODID:-//bellsheet//plans//EN");
    calendar_line(out, "METHOD:PUBLISH");
    write_unread(request, out);
    write_zones(&calendar, out);
    for (size_t i = 0; i < events->count; i++)
        write_event(&calendar, &events->items[i], out);
    calendar_line(out, "END:VCALENDAR");
}
