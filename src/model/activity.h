/* activity.h - work outside the weight room: pads, sparring, roadwork. */
#ifndef BELL_MODEL_ACTIVITY_H
#define BELL_MODEL_ACTIVITY_H

#include <stdbool.h>

#include "model/quantity.h"
#include "model/strain.h"

/* Work outside the weight room: pads, sparring, roadwork. */
struct activity {
    struct name name;
    bool head;                   /* blows to the head can happen */
    int clock_rounds, clock_work, clock_rest; /* of a rule set's bout; 0 where none is given */
    const char *source;          /* of that clock, or NULL */
    bool sparring, contact;
    bool bag;                    /* its rounds count as bag rounds */
    bool bout;                   /* what a camp's `bout` puts on its days */
    bool rest;                   /* not training: travel, a medical check */
    bool outside;                /* not done at a gym: one that is closed does not matter */
    bool strikes;                /* its minutes include blows that nobody counts: pads, bag work, sparring */
    struct strains strains;      /* what it asks of the joints, on both sides */
    bool counts_rounds;
    bool shelf;
    struct range rpe;            /* usual effort, used if a line names none; low 0: none */
};

#endif
