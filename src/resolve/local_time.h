/* local_time.h - which clocks written hours are read by; shared by the resolve_*.c files only. */
#ifndef BELL_RESOLVE_LOCAL_TIME_H
#define BELL_RESOLVE_LOCAL_TIME_H

#include "resolve/resolver.h"

struct zone;
struct zone_days;

/* Reads the time zone of the gym at NODE, and that of the closed occasion at NODE; NULL where none is said. */
const struct zone *gym_zone_read(struct resolver *r, const struct node *node);
const struct zone *held_zone_read(struct resolver *r, const struct node *node);

/* Reads the lines `time zone` of the camp or athlete at NODE. */
void zone_days_read(struct resolver *r, const struct node *node, const struct zone_days **days, size_t *count);

/* Warns of the first of the COUNT DAYS, where nothing says by which clocks ATHLETE's hours on other days are, and returns
 * whether that was so. */
bool zone_days_check(struct resolver *r, const struct zone_days *days, size_t count, const struct athlete *athlete);

/* By which clocks OCCASION's hour is, if it is not closed, and how far they are ahead of UTC then. */
void settle_clocks(struct resolver *r, struct occasion *occasion);

#endif
