/* clocks.h - time that really passes between what is placed, by whichever clocks its hours are written. Where only one of two
 * is in a known zone, both are taken to go by the same clocks. */
#ifndef BELL_MEASURE_CLOCKS_H
#define BELL_MEASURE_CLOCKS_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

struct arena;
struct occasion;
struct zone;

/* Seconds from the start of EARLIER to that of LATER, also below 0. Where an hour is not given, from midnight to midnight. */
int64_t seconds_from_start(const struct occasion *earlier, const struct occasion *later);

/* Seconds from the end of EARLIER to the start of LATER where both have an hour (*CLOCKED, which may be NULL); else whole days
 * from the day of the one to that of the other. */
int64_t seconds_from_end(const struct occasion *earlier, const struct occasion *later, bool *clocked);

/* The day and hour at which OCCASION, which has an hour, is over by the clocks of OTHER, or by its own where OTHER is NULL. */
void occasion_end(const struct occasion *occasion, const struct occasion *other, int *date, int *clock);

/* Are the clocks of the one, as far as both are known, not those of the other? */
bool clocks_differ(const struct occasion *one, const struct occasion *other);

/* Do the COUNT of OCCASIONS go by clocks of more than one zone? */
bool clocks_change(const struct occasion *const *occasions, size_t count);

/* The zone of OCCASION's hour, if that is not the one of the gym where its athlete trains at home; else NULL. */
const struct zone *zone_abroad(const struct occasion *occasion);

/* "Bangkok time" of such a zone; else "". */
const char *abroad_words(struct arena *arena, const struct occasion *occasion);

#endif
