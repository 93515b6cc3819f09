/* exercise.h - an exercise: what it trains, what it needs, how it is done. */
#ifndef BELL_MODEL_EXERCISE_H
#define BELL_MODEL_EXERCISE_H

#include <stdbool.h>
#include <stddef.h>

#include "model/kinds.h"
#include "model/quantity.h"
#include "model/strain.h"

/* Which limbs do the work of one repetition, by bits. Lead and rear follow the stance of the rep. */
enum worker {
    WORKER_LEAD_HAND = 1,
    WORKER_REAR_HAND = 2,
    WORKER_LEAD_LEG = 4,
    WORKER_REAR_LEG = 8,
    WORKER_LEAD_HIP = 16, /* a hip not named turns with the hand or leg of its own side */
    WORKER_REAR_HIP = 32,
    WORKER_HAND = 64, /* of exercises done by each side or both: which limb the side's rep lands on */
    WORKER_LEG = 128,
    WORKER_HIP = 256
};

enum side_rule { SIDE_BOTH, SIDE_EACH_SIDE, SIDE_EACH_WAY, SIDE_PER_STANCE };

struct fault {
    const char *fault, *fix; /* fix may be NULL */
};

/* Kit that an exercise needs. Alternatives are not kept: one line, one need. */
struct need {
    struct name name;
    int count;
};

struct substitute {
    struct name kit;             /* what is missing */
    const struct exercise *instead;
    struct name instead_name;
};

struct exercise {
    struct name name;
    struct name *aliases;
    size_t alias_count;
    enum exercise_kind kind;
    unsigned patterns;           /* bit 1 << enum pattern */
    enum pattern pattern;        /* the first named */
    enum side_rule side;
    int ways;                    /* of SIDE_EACH_WAY: 2, or the neck's 4; else 0 */
    unsigned workers;            /* bits of enum worker */
    unsigned again;              /* of these, what strikes twice in a repetition (the hook of a jab, cross, hook) */
    enum level level;            /* the least lifting age it is meant for; novice by default */
    struct need *needs;
    size_t need_count;
    milli loads[REGION_COUNT];   /* share of a set that counts for each region */
    struct strains strains;      /* what it asks of the joints */
    const struct exercise *base; /* `percent of`: whose best a percentage is taken from; itself by default */
    milli factor;                /* of that best; 1000 by default */
    milli slowest;               /* speed of the bar in a one-rep maximum, thousandths of a metre a second; 0: not known */
    enum unit counts;
    enum weigh weigh;
    const char **cues;
    size_t cue_count;
    struct fault *faults;
    size_t fault_count;
    const char *stop;            /* stop rule or NULL */
    const struct exercise *easier, *harder;
    struct substitute *without;
    size_t without_count;
    bool shelf;                  /* from the shelf that comes with the program */
    bool lost;                   /* declared nowhere: only the record of closed days still names it */
    bool replaced;               /* replaced by one of the club's own: no name leads to it any more */
    const char **positions;      /* folded: "overhead", "kneeling" */
    size_t position_count;
    bool ballistic;              /* throws, strikes, jumps and all power work: done as fast as possible */
    size_t number;               /* place in programme.exercises */
};

#endif
