/* recovery.h - the way back to work for one joint or region, by criteria. Only a person says that a step was reached. */
#ifndef BELL_MODEL_RECOVERY_H
#define BELL_MODEL_RECOVERY_H

#include <stdbool.h>
#include <stddef.h>

#include "model/barred.h"

struct test;

/* What has to be true before a step begins, in the coach's words; the program tells what it is and judges nothing but
 * figures of tests. */
struct criterion {
    const char *words; /* "pain at most 2 of 10" */
    const struct test *test; /* `single leg hop more than 90% of the other side`; or NULL */
    milli share;       /* of the other side's result, in thousandths of a per cent */
    bool strict;       /* `more than`, not `at least` */
    bool pain;         /* `pain at most 2 of 10`, there or in what is returning: */
    int most;
    struct span span;
};

struct recovery_step {
    const char *name, *title;  /* "2", "to a box" */
    struct permits allows;     /* beside what the steps before it allow */
    const struct criterion *criteria;
    size_t criterion_count;
    bool wants_agreed;         /* a doctor has agreed before it begins */
    struct span span;
};

/* STEP is in force from FIRST; -1: none is reached, and nothing that loads the joint may be done. */
struct recovery_stage {
    int first, step;
    const char *by; /* who said so; NULL of the beginning and of symptoms */
};

struct recovery {
    const char *shown; /* as written: "left knee" */
    int joint, demand, region; /* of the vocabularies, or -1 */
    unsigned sides;    /* bits of enum barred */
    const struct recovery_step *steps;
    size_t step_count;
    const struct recovery_stage *stages; /* by day */
    size_t stage_count;
    int ended;         /* day on which it was ended, or 0 */
    struct span span;
};

#endif
