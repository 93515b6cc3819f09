/* log.h - what was really done. */
#ifndef BELL_MODEL_LOG_H
#define BELL_MODEL_LOG_H

#include <stdbool.h>
#include <stddef.h>

#include "model/kinds.h"
#include "model/quantity.h"

struct activity;
struct athlete;
struct exercise;
struct part;
struct session;

/* How long and hard something really was, as a log says. */
struct outcome {
    bool logged, timed;
    int seconds;      /* where TIMED; 0: it was not done */
    struct range rpe; /* high 0: not given */
};

/* One set as it was done, or several that were alike. Its load is what was lifted, never a share of a best. */
struct logged_set {
    int count;                /* how many: `2 x 4` */
    const struct part *parts;
    size_t part_count;
    enum load_kind kind;      /* LOAD_NONE, LOAD_MASS, LOAD_BODY or LOAD_BAND */
    int pieces;               /* of LOAD_MASS: held in so many, each of LOAD */
    mass load;                /* of LOAD_BODY: what was added */
    const char *thing;        /* of LOAD_BAND: "medium band" */
    enum effort_kind effort;
    struct range effort_band; /* as that of a planned load */
    milli speed;              /* of the bar, in thousandths of a metre a second; 0: not measured */
    struct span span;
};

/* What a log says of one line of its session: its sets, or that it was left out. */
struct logged_line {
    const struct done *log;
    const char *ref;                 /* "A.1"; "A" of a whole block */
    const struct exercise *exercise; /* NULL of a block */
    const struct logged_set *sets;
    size_t set_count;
    bool skipped;
    bool poor;                       /* of a block: done as it is on a poor day */
    const char *because;             /* why, in the coach's words; or NULL */
    struct span span;
};

/* What was done of something, as a log says. Either SESSION or ACTIVITY is set. */
struct done {
    const struct athlete *athlete;
    const struct session *session;
    const struct activity *activity;
    int date;
    int clock; /* seconds from midnight; -1 not said */
    struct outcome outcome;
    const struct logged_line *lines;
    size_t line_count;
    bool as_planned;     /* all of it, sets among it */
    bool missed;         /* none of it; its OUTCOME took no time */
    const char *because; /* why it was missed, in the coach's words; or NULL */
    const char *note;    /* or NULL */
    bool again; /* another log of the same stands before it, and this one counts nowhere */
    struct span span;
};

#endif
