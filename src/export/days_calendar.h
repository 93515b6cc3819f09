/* days_calendar.h - one athlete's days as a calendar (RFC 5545) that a phone can subscribe to. It says when, what and
 * where, and nothing about loads or anybody's health.
 *
 * * What an activity is called is in the athlete's language (occasion_language). An event says what the plan calls it, too,
 * and so is known again when the language changes.
 *
 * * Hours are by the clocks of the day's zone, which the calendar includes. If a plan does not say which zone that is,
 * they are by the phone's clock.
 *
 * * A calendar continues the one that was written before it: what is still planned keeps its UID, even if it moved;
 * its SEQUENCE rises if it changed; what is no longer planned is CANCELLED. */
#ifndef BELL_EXPORT_DAYS_CALENDAR_H
#define BELL_EXPORT_DAYS_CALENDAR_H

#include <stddef.h>

#include "base/text.h"

struct occasion;

struct calendar_request {
    struct arena *arena;
    const struct occasion *const *occasions; /* one athlete's, by date */
    size_t count;
    long long stamp;      /* seconds since 1970, the time stamp of what is new or changed */
    const char *before;   /* the calendar that was written before; or NULL */
    size_t before_length;
};

/* Adds the calendar to OUT. */
void calendar_write(const struct calendar_request *request, struct text *out);

#endif
