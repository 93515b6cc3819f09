/* occasion.h - what one athlete does on one day. */
#ifndef BELL_MODEL_OCCASION_H
#define BELL_MODEL_OCCASION_H

#include <stdbool.h>
#include <stddef.h>

#include "model/block.h"
#include "model/log.h"
#include "model/quantity.h"

struct activity;
struct athlete;
struct camp;
struct closure;
struct gym;
struct phase;
struct zone;

struct lateness {
    const struct athlete *athlete;
    int seconds;
};

/* Athletes who hold for each other. */
struct pairing {
    const struct athlete *const *athletes;
    size_t count;
};

/* Who comes to a session when, and how its room is run, according to the line that places it. */
struct attendance {
    int out_by;               /* the doors close; seconds from midnight, -1 not given */
    int coaches;              /* 0: not given */
    const char *run_by;       /* somebody else, who decides when it is; NULL: it is ours to move */
    const struct lateness *late;
    size_t late_count;
    const struct pairing *pairs; /* none: as the camp names its athletes */
    size_t pair_count;
    struct span out_by_span;
};

/* Something one athlete does on one day. Either SESSION or ACTIVITY is set. */
struct occasion {
    const struct camp *camp;
    const struct athlete *athlete;
    const struct session *session;
    const struct activity *activity;
    const struct gym *gym;    /* where its line or camp says; NULL: where the athlete trains (occasion_gym) */
    int date;
    int clock;                /* seconds from midnight, by the clocks there; -1 not given */
    int ahead;                /* seconds that those are ahead of UTC then, if their zone is known: */
    const struct zone *zone;  /* or NULL */
    int week;                 /* of the camp, from 1 */
    int weeks_out;            /* from the bout; -1 where there is none or it is past */
    const struct phase *phase; /* or NULL */
    int column;               /* of series, from 0 */
    const struct block *blocks;
    size_t block_count;
    int seconds;              /* of the whole */
    /* of an activity */
    int rounds;               /* 0 where minutes count */
    int round_seconds;
    struct range rpe;         /* planned effort of the whole session; low 0: none */
    struct outcome outcome;
    const struct done *log;   /* the one that tells of it; NULL: none does */
    bool logged;              /* a log covers it, with or without what it took */
    struct range pulse;       /* beats a minute; high 0: none */
    struct range metres;      /* of roadwork and the like; high 0: not given */
    milli deload;             /* the share of the session's sets that a lighter week leaves, with less effort; 0: it is none */
    milli zones;              /* time zones that a journey crosses, east; below 0 west */
    bool optional;            /* may be left out: counts against "at most" and not for "at least" */
    const struct attendance *attendance; /* NULL: the line that places it does not say */
    bool held;                /* of a closed day, as the record has it: no edit of the plan changes it */
    const void *place;        /* that line, for comparison with a waiver's */
    struct span span;         /* of the line that places it */
};

/* Why something that was placed is not planned. */
enum left_why {
    LEFT_OUT,    /* the athlete is out or away */
    LEFT_HELD,   /* a hold bars it */
    LEFT_ABSENT, /* the athlete is absent from this alone */
    LEFT_CLOSED  /* its gym is closed */
};

/* What was placed for an athlete and is not planned. */
struct left_out {
    struct occasion occasion; /* as it was placed; without blocks where nothing of it is planned */
    bool whole;               /* nothing of it is planned */
    enum left_why why;
    bool out;                 /* the plan itself says so: there is nothing to report */
    const struct closure *closure; /* of LEFT_CLOSED */
};

#endif
