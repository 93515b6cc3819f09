/* avoid.h - what a standing restriction bars. */
#ifndef BELL_MEASURE_AVOID_H
#define BELL_MEASURE_AVOID_H

#include "model/kinds.h"

struct athlete;
struct avoid;
struct exercise;
struct set_run;

/* Is AVOID in force on DAY? It never lapses by the calendar: only an entry ends it. */
bool avoid_stands(const struct avoid *avoid, int day);

/* Does AVOID (in force or not) bar EXERCISE by name, pattern, region (loaded at half or more), kind or position, in
 * whatever dose? What the restriction says can be done is never barred; what is easier or harder than a barred exercise
 * is barred with it. */
bool avoid_bars(const struct avoid *avoid, const struct exercise *exercise);

/* Does it bar this set by its effort (`avoid all-out`: all-out, RPE 9 and up, one rep left or none)? */
bool avoid_bars_effort(const struct avoid *avoid, const struct set_run *run);

/* Is anything at all restricted for ATHLETE on DAY? */
bool athlete_restricted(const struct athlete *athlete, int day);

#endif
