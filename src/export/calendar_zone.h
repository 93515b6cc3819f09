/* calendar_zone.h - a time zone as a calendar has to include it (VTIMEZONE). For days_calendar.c alone. */
#ifndef BELL_EXPORT_CALENDAR_ZONE_H
#define BELL_EXPORT_CALENDAR_ZONE_H

#include "base/text.h"

struct zone;

/* Adds ZONE with its changes from the one in force on day FIRST to the last before the end of day LAST. */
void calendar_zone(struct text *out, const struct zone *zone, int first, int last);

#endif
