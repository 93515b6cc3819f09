/* log.h - what was really done. */
#ifndef BELL_MODEL_LOG_H
#define BELL_MODEL_LOG_H

#include <stdbool.h>

#include "model/quantity.h"

struct activity;
struct athlete;
struct session;

/* How long and hard something really was, as a log says. */
struct outcome {
    bool logged, timed;
    int seconds;      /* where TIMED; 0: it was not done */
    struct range rpe; /* high 0: not given */
};

/* How long and hard something was, as a log says. Either SESSION or ACTIVITY is set. */
struct done {
    const struct athlete *athlete;
    const struct session *session;
    const struct activity *activity;
    int date;
    int clock; /* seconds from midnight; -1 not said */
    struct outcome outcome;
    struct span span;
};

#endif
