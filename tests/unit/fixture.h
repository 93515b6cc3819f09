/* fixture.h - a small programme made by hand: a squad of both stances on one evening, with rounds and fillers, a
 * contrast, a superset and a hold. It stands in for the parser and the resolver in tests of the sheets. */
#ifndef BELL_TESTS_FIXTURE_H
#define BELL_TESTS_FIXTURE_H

#include "model/programme.h"

enum { FIXTURE_MOST = 12 };

struct fixture {
    struct arena *arena;
    struct programme programme;
    struct occasion occasions[FIXTURE_MOST]; /* one an athlete, all of one session, day and hour */
    size_t count;
    struct gym *gym;
};

/* A programme for ATHLETES athletes (1 to FIXTURE_MOST). Athletes with an odd number are novices who do a
 * goblet squat in place of the bar. Ended with fixture_free. */
struct fixture *fixture_new(size_t athletes);
void fixture_free(struct fixture *fixture);

#endif
