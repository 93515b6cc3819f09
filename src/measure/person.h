/* person.h - what an athlete is called, and how old on a day. */
#ifndef BELL_MEASURE_PERSON_H
#define BELL_MEASURE_PERSON_H

#include "model/kinds.h"

struct athlete;

/* What ATHLETE is called on walls, boards and tables: as the plan says, otherwise the whole name; no part of it is
 * guessed. */
const char *athlete_called(const struct athlete *athlete);

/* Years completed on DAY; -1 where no day of birth is known. */
int athlete_age(const struct athlete *athlete, int day);

/* Is ATHLETE known to be under AGE on DAY? By the date of birth that the plan gives, otherwise by the age group. */
bool athlete_under(const struct athlete *athlete, int day, int age);

/* Is ATHLETE under 18 on DAY, by the plan or, if it does not say, by the private file? Only for what asks for a coach
 * on the floor and for the steps of a hold: nothing else may depend on that file. */
bool athlete_is_young(const struct athlete *athlete, int day);

/* Is ATHLETE known to be FROM years old and not yet BELOW on DAY? Each of them 0: open. */
bool athlete_is_aged(const struct athlete *athlete, int day, int from, int below);

/* Does the plan give the lifting age of ATHLETE? */
bool athlete_level_known(const struct athlete *athlete);

/* The lifting age on DAY: as given, otherwise by the time since lifting began: under a year novice, under three
 * intermediate, then advanced (common practice, no source). Novice where nothing is known. */
enum level athlete_level_on(const struct athlete *athlete, int day);

#endif
