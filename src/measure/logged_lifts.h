/* logged_lifts.h - what logs say was lifted. */
#ifndef BELL_MEASURE_LOGGED_LIFTS_H
#define BELL_MEASURE_LOGGED_LIFTS_H

#include "model/programme.h"

/* How two lines of logs are ordered in programme.lifted: by athlete, exercise, date, and as they were written. */
int lifted_order(const struct logged_line *a, const struct logged_line *b);

/* The mass that ATHLETE last logged for EXERCISE before DAY, in the last set that had one; 0 if there is none. What was
 * held in two pieces, and what was added to the body, is no mass of the kind that `@ last` asks for. */
mass lifted_last(const struct programme *programme, const struct athlete *athlete, const struct exercise *exercise,
                 int day);

#endif
