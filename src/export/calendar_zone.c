#include "export/calendar_zone.h"

#include <stdlib.h>

#include "export/calendar_lines.h"
#include "figures/dates.h"
#include "figures/zone.h"

enum { DAY = 86400, EPOCH = 719163 /* 1970-01-01 */, MOST_CHANGES = 400 };

/* As in RFC 5545, 3.3.14: seconds are given if there are any, as there once were. */
static const char *offset_words(struct arena *arena, int ahead)
{
    int size = abs(ahead);
    const char *rest = size % 60 ? arena_printf(arena, "%02d", size % 60) : "";
    return arena_printf(arena, "%c%02d%02d%s", ahead < 0 ? '-' : '+', size / 3600, size / 60 % 60, rest);
}

/* What the clocks show from the moment AT on; until then they were FROM ahead. Its start is given by the old clocks. */
static void add_stretch(struct text *out, const struct zone *zone, int64_t at, int from)
{
    struct arena *arena = out->arena;
    struct zone_clocks clocks = zone_at(zone, at);
    const char *kind = clocks.summer ? "DAYLIGHT" : "STANDARD";
    int date, clock, year, month, day;
    zone_shown(at, from, &date, &clock);
    date_to_ymd(date, &year, &month, &day);
    calendar_line(out, arena_printf(arena, "BEGIN:%s", kind));
    calendar_line(out, arena_printf(arena, "DTSTART:%04d%02d%02dT%02d%02d%02d", year, month, day, clock / 3600, clock / 60 % 60,
                                    clock % 60));
    calendar_line(out, arena_printf(arena, "TZOFFSETFROM:%s", offset_words(arena, from)));
    calendar_line(out, arena_printf(arena, "TZOFFSETTO:%s", offset_words(arena, clocks.ahead)));
    calendar_line(out, arena_printf(arena, "TZNAME:%s", calendar_words(arena, clocks.letters)));
    calendar_line(out, arena_printf(arena, "END:%s", kind));
}

void calendar_zone(struct text *out, const struct zone *zone, int first, int last)
{
    int64_t at = (int64_t)(first - EPOCH) * DAY, end = (int64_t)(last + 1 - EPOCH) * DAY;
    int from = zone_at(zone, at).ahead;
    calendar_line(out, "BEGIN:VTIMEZONE");
    calendar_line(out, arena_printf(out->arena, "TZID:%s", zone_name(zone)));
    for (int changes = 0; at < end && changes < MOST_CHANGES; changes++) {
        add_stretch(out, zone, at, from);
        from = zone_at(zone, at).ahead;
        at = zone_change_after(zone, at);
    }
    calendar_line(out, "END:VTIMEZONE");
}
