/* athlete.h - a person, with bests, body mass and what is barred. */
#ifndef BELL_MODEL_ATHLETE_H
#define BELL_MODEL_ATHLETE_H

#include <stdbool.h>
#include <stddef.h>

#include "model/barred.h"
#include "model/kinds.h"
#include "model/quantity.h"

struct exercise;
struct gym;
struct language;
struct recovery;
struct test_result;
struct zone_days;

/* A best on a day. ONE_MAX is the one-rep maximum, estimated where reps > 1. */
struct best {
    const struct exercise *exercise;
    milli reps;
    mass load, one_max;
    bool estimated;
    int equation;   /* enum onerm_equation that estimated it (figures/onerm.h) */
    int date;
    bool private;   /* from a private file: sheets load by it, and reports do not name it */
    struct span span;
};

struct body_mass {
    mass mass;
    int date;
    bool private; /* from a private file */
};

enum { MORNING_ITEMS = 5 };

/* How somebody slept and feels; for the coach alone. */
struct morning {
    int day;
    int scores[MORNING_ITEMS]; /* 1 to 5 each, 5 best: sleep, soreness, fatigue, stress, mood */
    int sum;
    struct span span;
};

/* Where it hurt and how much, as somebody told; for the coach alone. */
struct pain {
    int day;
    const char *shown; /* "left knee" */
    int joint, region; /* of the vocabularies, or -1 */
    unsigned sides;    /* bits of enum barred; 0: not said */
    int score;         /* of 10 */
    struct span span;
};

struct athlete {
    struct name name;
    const char *called; /* on walls, boards and tables; NULL: by the whole name */
    const struct avoid *avoids;
    size_t avoid_count;
    const struct hold *holds;
    size_t hold_count;
    const struct out *outs;
    size_t out_count;
    const struct illness *illnesses;
    size_t illness_count;
    const struct suspension *suspensions;
    size_t suspension_count;
    const struct knock *knocks;
    size_t knock_count;
    enum stance stance;
    int born;
    int under_age;     /* of `age group under 18`: 18; else 0. A day of birth in the plan goes before it */
    struct span under_span; /* of that line */
    int born_private;  /* written in a private file alone: no verdict, load or variant looks at it */
    struct span born_span; /* of that line */
    int lifting_since; /* first day of the month given */
    bool level_given;
    enum level level;  /* given, or worked out for the programme's first day */
    const struct gym *gym;
    const struct zone_days *zone_days;
    size_t zone_day_count;
    int equation;      /* enum onerm_equation by which maxima are estimated (figures/onerm.h) */
    struct best *bests;
    size_t best_count;
    struct test_result *results; /* by test, then by day, the earliest first, then by side */
    size_t result_count;
    struct body_mass *masses;
    size_t mass_count;
    const struct recovery **recoveries; /* their stages are among the avoids */
    size_t recovery_count, recovery_room;
    struct morning *mornings; /* by day */
    size_t morning_count;
    struct pain *pains; /* by day */
    size_t pain_count;
    bool pounds;       /* print pounds too */
    const struct language *language; /* of the sheets for this athlete alone; NULL: not said */
    size_t number;     /* place in programme.athletes */
};

#endif
