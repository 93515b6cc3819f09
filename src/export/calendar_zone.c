#include "export/calendar_zone.h"

#include <glib.h>
#include <stdlib.h>

#include "export/calendar_lines.h"
#include "figures/dates.h"

enum { DAY_SECONDS = 86400, MOST_CHANGES = 400 };

/* The stretch of ZONE that the moment AT, in seconds since 1970, lies in. */
static int stretch_at(GTimeZone *zone, gint64 at)
{
    return g_time_zone_find_interval(zone, G_TIME_TYPE_UNIVERSAL, at);
}

/* The first moment after BEFORE, up to AFTER, that lies in another stretch; they do. */
static gint64 change_between(GTimeZone *zone, gint64 before, gint64 after)
{
    while (after - before > 1) {
        gint64 middle = before + (after - before) / 2;
        if (stretch_at(zone, middle) == stretch_at(zone, before))
            before = middle;
        else
            after = middle;
    }
    return after;
}

static const char *offset_words(struct arena *arena, int seconds)
{
    int size = abs(seconds);
    return arena_printf(arena, "%c%02d%02d", seconds < 0 ? '-' : '+', size / 3600, size / 60 % 60);
}

/* One stretch of the zone, from the moment AT; it was FROM seconds off before. */
static void add_stretch(struct text *out, GTimeZone *zone, gint64 at, int from)
{
    struct arena *arena = out->arena;
    int stretch = stretch_at(zone, at), to = g_time_zone_get_offset(zone, stretch), year, month, day;
    const char *kind = g_time_zone_is_dst(zone, stretch) ? "DAYLIGHT" : "STANDARD";
    gint64 local = at + from; /* it begins at the hour that the clocks showed until then */
    int date = date_from_ymd(1970, 1, 1) + (int)(local / DAY_SECONDS), clock = (int)(local % DAY_SECONDS);
    date_to_ymd(date, &year, &month, &day);
    calendar_line(out, arena_printf(arena, "BEGIN:%s", kind));
    calendar_line(out, arena_printf(arena, "DTSTART:%04d%02d%02dT%02d%02d%02d", year, month, day, clock / 3600, clock / 60 % 60,
                                    clock % 60));
    calendar_line(out, arena_printf(arena, "TZOFFSETFROM:%s", offset_words(arena, from)));
    calendar_line(out, arena_printf(arena, "TZOFFSETTO:%s", offset_words(arena, to)));
    calendar_line(out, arena_printf(arena, "TZNAME:%s", g_time_zone_get_abbreviation(zone, stretch)));
    calendar_line(out, arena_printf(arena, "END:%s", kind));
}

bool calendar_zone(struct text *out, const char *name, int first, int last)
{
    GTimeZone *zone = g_time_zone_new_identifier(name);
    if (!zone)
        return false;
    gint64 at = (gint64)(first - date_from_ymd(1970, 1, 1)) * DAY_SECONDS, end = at + (gint64)(last - first + 1) * DAY_SECONDS;
    int from = g_time_zone_get_offset(zone, stretch_at(zone, at));
    calendar_line(out, "BEGIN:VTIMEZONE");
    calendar_line(out, arena_printf(out->arena, "TZID:%s", name));
    add_stretch(out, zone, at, from);
    for (int changes = 0; at < end && changes < MOST_CHANGES; at += DAY_SECONDS) {
        if (stretch_at(zone, at) == stretch_at(zone, at + DAY_SECONDS))
            continue;
        add_stretch(out, zone, change_between(zone, at, at + DAY_SECONDS), from);
        from = g_time_zone_get_offset(zone, stretch_at(zone, at + DAY_SECONDS));
        changes++;
    }
    calendar_line(out, "END:VTIMEZONE");
    g_time_zone_unref(zone);
    return true;
}
