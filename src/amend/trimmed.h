/* trimmed.h - a squad's session, or one athlete's, cut to the time available, and the plan that says so. */
#ifndef BELL_AMEND_TRIMMED_H
#define BELL_AMEND_TRIMMED_H

#include "amend/attempt.h"
#include "room/trim.h"
#include "squad/squad.h"

struct trimmed {
    const struct squad *squad;     /* as planned */
    const struct squad *beside;    /* those who do it there, with the one athlete who is cut; NULL: nobody else does */
    struct room room;              /* its room, with what must not be cut to save time */
    const struct room_table *whole; /* the timetable as planned */
    int planned, finish;           /* seconds from the hour until they are done, as planned and as cut; among those BESIDE */
    const struct room_trim *trim;  /* NULL: the room is refused, however it is cut */
    const bool *unsaid;            /* for each block: no line below the session can say what is cut, so nothing is */
    const char *lines;             /* below the placed session; "" if nothing is cut */
    struct amended amended;        /* if something is */
    const char *wrong;             /* why the plan cannot say it; else NULL */
    const struct attempt *attempt; /* the plan with it; NULL if nothing is cut */
};

/* Cuts the session of COUNT occasions, a squad in its order, to SECONDS. BEFORE is REQUEST, compiled and checked.
 * The result fits, or says that it does not; what AMENDED holds has been compiled and checked. */
struct trimmed trim_squad(struct arena *arena, const struct project_request *request, const struct project *before,
                          const struct occasion *const *members, size_t count, int seconds);

/* The same for MEMBER alone. The others who do it there do all of it and take their turns at the kit, so more may be
 * cut than for somebody who trains alone, until the athlete is in time among them. */
struct trimmed trim_one(struct arena *arena, const struct project_request *request, const struct project *before,
                        const struct occasion *member, int seconds);

#endif
