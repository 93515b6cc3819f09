/* avoid.h - what a standing restriction bars. */
#ifndef BELL_MEASURE_AVOID_H
#define BELL_MEASURE_AVOID_H

#include "model/kinds.h"
#include "model/quantity.h"

struct activity;
struct athlete;
struct avoid;
struct exercise;
struct item;
struct part;
struct set_run;

/* Is AVOID in force on DAY? It never lapses by the calendar: only an entry ends it. */
bool avoid_stands(const struct avoid *avoid, int day);

/* Does AVOID (in force or not) bar EXERCISE by name, pattern, region (loaded at half or more), kind, position or what it
 * asks of a joint, in whatever dose? What the restriction says can be done is never barred; what is easier or harder
 * than a barred exercise is barred with it. A restriction of one side bars so only what works on both sides at once. */
bool avoid_bars(const struct avoid *avoid, const struct exercise *exercise);

/* Which repetitions of PART it bars, as bits of enum barred, for somebody whose own stance is OWN. Of what is done on
 * each side they may be those of one side; of anything else they are all or none. */
unsigned avoid_bars_part(const struct avoid *avoid, const struct exercise *exercise, const struct part *part,
                         enum stance own);

/* Does it bar anything that ITEM still asks of an athlete whose own stance is OWN: the exercise, a side, or an effort? */
bool avoid_bars_item(const struct avoid *avoid, const struct item *item, enum stance own);

/* Does it bar ACTIVITY, by what that asks of a joint or because it strikes? Activities work on both sides. */
bool avoid_bars_activity(const struct avoid *avoid, const struct activity *activity);

/* Whether a region has sides that can be told apart, or a joint. */
bool region_has_sides(enum region region);
bool joint_has_sides(enum joint joint);

/* Does it bar this set by its effort (`avoid all-out`: all-out, RPE 9 and up, one rep left or none)? */
bool avoid_bars_effort(const struct avoid *avoid, const struct set_run *run);

/* Is anything at all restricted for ATHLETE on DAY? */
bool athlete_restricted(const struct athlete *athlete, int day);

#endif
