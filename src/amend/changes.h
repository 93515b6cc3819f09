/* changes.h - what might be changed in a week, and a plan with some of it changed. */
#ifndef BELL_AMEND_CHANGES_H
#define BELL_AMEND_CHANGES_H

#include "amend/attempt.h"

struct change {
    const struct occasion *occasion; /* one of those that the line places that day */
    const struct occasion *with;     /* exchanges hours with this one; NULL: nothing does */
    int day, clock;                  /* where it goes; for a cut, where it is */
    const char *lines;               /* below it; NULL: it is a move */
    int group;                       /* at most one of a group is taken */
    const char *words;
};

struct changes {
    struct change *items; /* the cheapest first: moves, other exercises, less of keep 3, less of keep 2 */
    size_t count, capacity;
};

/* All changes of WEEK of every camp. */
struct changes changes_of(struct arena *arena, const struct project *project, int week, int today);

/* Adds the next of CHANGES to the plan of *ATTEMPT, which is BEFORE with the first COUNT of them; it is not checked
 * yet. False if the change cannot be written, or if the plan would differ from BEFORE in anything else. */
bool changes_make(struct arena *arena, const struct project *before, const struct change *const *changes, size_t count,
                  int week, struct attempt *attempt);

#endif
