/* kit.h - what a gym has. */
#ifndef BELL_MEASURE_KIT_H
#define BELL_MEASURE_KIT_H

#include "model/quantity.h"

struct closure;
struct occasion;

struct exercise;
struct gym;
struct language;
struct need;

/* The unit that its sheets and messages put first; kilograms if GYM is NULL. */
enum mass_unit gym_unit(const struct gym *gym);

/* The language of what is printed of OCCASION for its athlete alone: as the athlete, else the camp, else the gym says it; NULL:
 * none of them does. */
const struct language *occasion_language(const struct occasion *occasion);

/* Where OCCASION is done; NULL: nobody says. */
const struct gym *occasion_gym(const struct occasion *occasion);

/* The days on which GYM, which may be NULL, is closed and DAY is one; NULL: it is open. */
const struct closure *gym_closed(const struct gym *gym, int day);

/* How many of the kit called NAME (folded) GYM has. What every room has (a wall, a training partner) counts as there;
 * any band will do for "band". */
int gym_count(const struct gym *gym, const char *name);

/* Does EXERCISE name KIT (folded) among what it needs? */
bool exercise_needs(const struct exercise *exercise, const char *kit);

/* The first thing that EXERCISE needs and GYM lacks, or NULL. */
const struct need *gym_missing(const struct gym *gym, const struct exercise *exercise);

#endif
