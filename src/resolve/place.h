/* place.h - from the weeks of a camp to occasions; shared by the resolve_*.c files only. */
#ifndef BELL_RESOLVE_PLACE_H
#define BELL_RESOLVE_PLACE_H

#include "resolve/resolver.h"

/* Adds what the spans of the camp at NODE place to the resolver's occasions, and its waivers. */
void resolve_places(struct resolver *r, const struct node *node, struct camp *camp);

/* Has a plan as much as it may have? Reports once the LINE that adds one more. */
bool placed_is_full(struct resolver *r, struct span line);

/* What is placed of SESSION, in any version, for ATHLETE on DAY: at CLOCK, if it is there then, or else the first; where
 * there is none that day, the nearest of its week. NULL: none. For after all camps are read. */
const struct placed *placed_near(struct resolver *r, const struct athlete *athlete, const struct session *session, int day,
                                 int clock);

/* What stands below the line at NODE, which places something of CAMP at CLOCK, of who comes when and how the room is run;
 * NULL: nothing (resolve_attendance.c). */
const struct attendance *attendance_read(struct resolver *r, const struct node *node, const struct camp *camp, int clock);

/* How many time zones what the line at NODE places, ACTIVITY if it is one, crosses, in thousandths: east more than 0, west
 * less (resolve_zones.c). */
milli zones_read(struct resolver *r, const struct node *node, const struct activity *activity);

struct days_covered;
struct dose;

/* Fills what DOSE, which the line of an activity says, comes to for the occasion's column of its series; and what the
 * activity's own clock comes to where a line says none (resolve_activity_line.c). */
void activity_settle(struct resolver *r, const struct dose *dose, struct occasion *occasion);
void activity_use_clock(struct occasion *occasion);

/* Keeps the waiver at NODE, below a span that has COVERED or NULL, and below the line PLACE or NULL (resolve_waiver.c). */
void waiver_read(struct resolver *r, const struct node *node, const struct camp *camp, const struct days_covered *covered,
                 const void *place);

/* A camp with a bout that an athlete is in, and the next of the same athlete. */
struct own_camp {
    const struct camp *camp;
    const struct own_camp *next;
};

/* Gives the closed days of each camp the phases that the record has them in. OWN are each athlete's camps with a bout. And
 * the phase of what was HELD, or NULL. */
void pin_phases(struct resolver *r, const struct own_camp *const *own);
const struct phase *pinned_phase(struct resolver *r, const struct own_camp *own, const struct placed *held);

/* Sorts the occasions, finds the columns of their series, and works each out. */
void settle_occasions(struct resolver *r);

#endif
