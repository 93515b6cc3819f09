/* calendar_zone.h - a time zone as a calendar has to bring it along (VTIMEZONE). For days_calendar.c alone. */
#ifndef BELL_EXPORT_CALENDAR_ZONE_H
#define BELL_EXPORT_CALENDAR_ZONE_H

#include <stdbool.h>

#include "base/text.h"

/* Adds ZONE with its changes from the one in force on day FIRST to the last before day LAST. False if this machine does not
 * know the zone. */
bool calendar_zone(struct text *out, const char *zone, int first, int last);

#endif
