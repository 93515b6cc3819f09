/* zone.h - how far the clocks of a time zone are ahead of UTC, and when that changes. From the bytes of a TZif file, as
 * RFC 9636 (before it RFC 8536) describes it: version 2 and later, with the rule at its end for the years after its table.
 *
 * A moment is in seconds since 1970-01-01 00:00 UTC, without leap seconds. */
#ifndef BELL_FIGURES_ZONE_H
#define BELL_FIGURES_ZONE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

struct arena;
struct zone;

/* What the clocks of a zone show for a while. */
struct zone_clocks {
    int ahead;           /* of UTC, in seconds; east more than 0 */
    bool summer;
    const char *letters; /* "BST" */
};

#define ZONE_NEVER INT64_MAX

/* The zone of a file's BYTES, called NAME, in ARENA; NULL where they are no such file. */
const struct zone *zone_read(struct arena *arena, const char *name, const void *bytes, size_t length);

/* Is NAME written like one of the time zone database: "Europe/London", "Etc/GMT+5"? Such a name leads out of no folder. */
bool zone_is_name(const char *name);

const char *zone_name(const struct zone *zone);

/* "Los Angeles" of America/Los_Angeles. */
const char *zone_place(struct arena *arena, const struct zone *zone);

struct zone_clocks zone_at(const struct zone *zone, int64_t moment);

/* The first moment after MOMENT at which the clocks change; ZONE_NEVER: they do not. */
int64_t zone_change_after(const struct zone *zone, int64_t moment);

/* How a day's clocks come by an hour. */
enum zone_hour { ZONE_ONCE, ZONE_SKIPPED, ZONE_TWICE };

/* The moment at which the clocks show CLOCK, in seconds from midnight, on DATE. Of an hour that they show twice the first; of
 * one that they skip what it would be had they not yet changed, as RFC 5545, 3.3.5, has both. HOW may be NULL. */
int64_t zone_moment(const struct zone *zone, int date, int clock, enum zone_hour *how);

/* How many seconds clocks are ahead of UTC that show CLOCK on DATE at MOMENT. */
int zone_ahead(int date, int clock, int64_t moment);

/* The day, and the seconds from its midnight, that clocks AHEAD of UTC show at MOMENT. */
void zone_shown(int64_t moment, int ahead, int *date, int *clock);

#endif
