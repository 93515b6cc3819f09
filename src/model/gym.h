/* gym.h - a gym and its kit. */
#ifndef BELL_MODEL_GYM_H
#define BELL_MODEL_GYM_H

#include <stdbool.h>
#include <stddef.h>

#include "model/quantity.h"

struct language;
struct loading;
struct zone;

struct disc {
    mass mass;
    int count;
};

/* A piece of the gym's kit, by its name: "trap bar", "medium band", "rack". */
struct kit {
    struct name name;
    mass mass;      /* for a bar; 0 for what has no mass */
    int count;      /* how many there are */
};

/* A step of the warm-up to a heavy lift. */
struct ramp_wish {
    milli percent; /* of the load it leads to */
    int reps;
};

enum { RAMP_STEPS = 6 };

/* Days on which a gym's doors are closed, in all camps; both included. */
struct closure {
    int first, last;
    const char *because; /* or NULL */
    struct span span;
};

struct gym {
    struct name name;
    const struct language *language; /* of what hangs here; NULL: not said */
    const struct zone *zone; /* of its clocks (figures/zone.h); NULL: not said */
    const struct closure *closures;
    size_t closure_count;
    enum mass_unit unit; /* the unit that its sheets and messages put first */
    bool both_units;     /* some discs are in kilograms and some in pounds */
    struct ramp_wish ramp[RAMP_STEPS]; /* rising */
    int ramp_count;                    /* 0: as usual, see load_ramp */
    int between_athletes; /* seconds from one athlete to the next at one piece of kit */
    int plate_change;     /* seconds to put on or take off one disc, both sides at once */
    struct kit *bars; /* barbells first, each mass once and each by the name "barbell"; then the named bars */
    size_t bar_count;
    struct disc *discs;      /* each mass once, heaviest first; count is of single plates */
    size_t disc_count;
    mass collar;             /* of one collar; 0 where none are used */
    struct disc *dumbbells;  /* count is of single dumbbells */
    size_t dumbbell_count;
    struct disc *kettlebells;
    size_t kettlebell_count;
    struct disc *balls;      /* throwing balls */
    size_t ball_count;
    struct kit *others;      /* bands, stations, and all other kit, named */
    size_t other_count;
    struct loading *loadings; /* prepared by model/loads.c: every load its discs make, on two sleeves and on one */
    size_t loading_count;
    size_t number;            /* place in programme.gyms */
};

#endif
