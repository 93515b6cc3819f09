/* club_maker.h - whole clubs at random, for tests: gyms, exercises, people, sessions and camps that
 * know one another, without an error in them. What stands in one follows from its seed; in which
 * order its declarations, the spans of its camps and the lines of a span are written, from another.
 * (plan_maker.h makes plans that are only to be read, not to be understood.) */
#ifndef BELL_TESTS_CLUB_MAKER_H
#define BELL_TESTS_CLUB_MAKER_H

#include <stdint.h>

#include "base/text.h"

struct club_seed {
    uint64_t shape, order;
    int bout_later; /* days by which every bout is moved, 0 or more */
};

enum { CLUB_BOUT_LATEST = 60 }; /* the most days a bout can be moved: camps leave room for it */

/* Adds the club's plan to OUT. ORDER 0 is the order in which it was made. */
void club_make(const struct club_seed *seed, struct text *out);

#endif
