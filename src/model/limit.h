/* limit.h - a limit as it is written. */
#ifndef BELL_MODEL_LIMIT_H
#define BELL_MODEL_LIMIT_H

#include <stdbool.h>
#include <stddef.h>

#include "model/kinds.h"
#include "model/quantity.h"

struct athlete;

enum limit_scope { LIMIT_WEEK, LIMIT_SESSION, LIMIT_PHASE, LIMIT_CAMP };

enum limit_bound { LIMIT_AT_MOST, LIMIT_AT_LEAST, LIMIT_WITHIN };

/* Days of a camp that a heading names: `first 2 weeks`, `10 days before a bout`, `2 weeks after a bout`. */
enum limit_stretch { STRETCH_ALL, STRETCH_FIRST, STRETCH_BEFORE_BOUT, STRETCH_AFTER_BOUT };

struct limit {
    enum limit_scope scope;
    const char *phase;        /* folded name of the phase it applies in, or NULL */
    struct span heading;      /* of that name */
    int level;                /* enum level, or -1 */
    int under_age;            /* applies to athletes under this age; 0: to all */
    enum limit_stretch stretch; /* applies on these days of the camp alone */
    int stretch_days;         /* how many they are */
    const char *counted;      /* folded: "sparring rounds", "pull sets", "time" (see model/counts.h) */
    enum limit_bound bound;
    milli value;              /* in the count's unit; time in seconds x 1000; percentages in thousandths */
    enum mass_unit unit;      /* of a mass, as it was written */
    milli top;                /* LIMIT_WITHIN: from VALUE to TOP, both allowed; else 0 */
    bool below_peak;          /* VALUE and TOP are per cent below the camp's largest week before the phase */
    bool a_side;              /* `a side`: left and right are each compared with VALUE */
    const char *against;      /* `at least 1.2 to 1 push`: folded count compared with ("push sets"), or NULL */
    const struct athlete *athlete; /* applies to one athlete alone, or NULL */
    int first_weeks;          /* `first 2 weeks of an exercise`: 2 (the count is "effort"); else 0 */
    enum force force;         /* what breaking it is */
    const char *source;       /* published source or "common practice", or NULL */
    struct span span;
};

struct limits {
    struct name name;
    const struct limits *base;
    struct limit *items;
    size_t count;
    size_t number; /* place in programme.limits */
};

#endif
