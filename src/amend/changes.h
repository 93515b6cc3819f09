/* changes.h - what might be changed in a week, and a plan with some of it changed. */
#ifndef BELL_AMEND_CHANGES_H
#define BELL_AMEND_CHANGES_H

#include "amend/attempt.h"

struct change {
    const struct occasion *occasion; /* one of those that the line places that day */
    const struct occasion *with;     /* takes its hour, which takes that one's; NULL: nothing does */
    int day, clock;                  /* where it goes; as it is for a cut */
    const char *lines;               /* below it; NULL: it is a move */
    int group;                       /* of one group one is taken at most */
    const char *words;
};

struct changes {
    struct change *items; /* the cheapest first: moves, what is done instead, less of keep 3, less of keep 2 */
    size_t count, capacity;
};

/* All changes of WEEK of every camp. */
struct changes changes_of(struct arena *arena, const struct project *project, int week, int today);

/* The plan of *ATTEMPT, which is BEFORE with the first COUNT of CHANGES, with the next one of them too; not checked yet. False
 * where it cannot be written so, or would not mean the same as BEFORE but for these. */
bool changes_make(struct arena *arena, const struct project *before, const struct change *const *changes, size_t count,
                  int week, struct attempt *attempt);

#endif
