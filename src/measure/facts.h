/* facts.h - single facts of a programme, for units that read nothing else of it. */
#ifndef BELL_MEASURE_FACTS_H
#define BELL_MEASURE_FACTS_H

#include <stdbool.h>
#include <stddef.h>

struct programme;

/* Today, or 0 where no day is known. */
int programme_today(const struct programme *programme);
/* How many exercises there are, each with its number below that. */
size_t programme_exercise_count(const struct programme *programme);
/* How many tests there are, each with its number below that. */
size_t programme_test_count(const struct programme *programme);
/* Has the plan a private file? */
bool programme_has_private(const struct programme *programme);

#endif
