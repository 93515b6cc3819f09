/* person.h - an athlete's ages on a day. */
#ifndef BELL_MEASURE_PERSON_H
#define BELL_MEASURE_PERSON_H

#include "model/programme.h"

/* Years completed on DAY; -1 where no day of birth is known. */
int athlete_age(const struct athlete *athlete, int day);

/* Is ATHLETE known to be under AGE on DAY? */
bool athlete_under(const struct athlete *athlete, int day, int age);

/* The lifting age on DAY: as given, else by the time since lifting began: under a year novice, under three
 * intermediate, then advanced (common practice, no source). Novice where nothing is known. */
enum level athlete_level_on(const struct athlete *athlete, int day);

#endif
