/* tonnage.h - volume load: repetitions times the mass that each moves, and the work that it leaves out. */
#ifndef BELL_MEASURE_TONNAGE_H
#define BELL_MEASURE_TONNAGE_H

#include "model/quantity.h"

struct exercise;
struct set_run;

/* What a tonnage leaves out, each in its own unit. The first two can be asked for by a limit's words. */
enum tonnage_gap {
    GAP_THROWN,  /* repetitions of throws, jumps and strikes with a weight */
    GAP_BODY,    /* repetitions that move body mass, or a share of it */
    GAP_CARRIED, /* metres with a weight */
    GAP_HELD,    /* seconds with a weight */
    GAP_BAND,    /* repetitions with a band or another thing without a mass */
    GAP_REP_MAX, /* repetitions of strength and power work at a rep maximum, whose kilograms nobody knows */
    GAP_EFFORT,  /* the same by RPE or repetitions in reserve alone */
    GAP_UNSAID,  /* the same without any load, such as a push-up */
    GAP_COUNT
};

/* In thousandths: of kilograms, and of what the gaps are counted in. */
struct tonnage {
    struct range lifted; /* strength work and what is added to body mass; a load for each hand counts both */
    struct range thrown; /* throws, jumps and strikes with a weight */
    struct range body;   /* body mass and shares of it, where it is known: it reveals what somebody weighs */
    milli left_out[GAP_COUNT];
    milli body_unknown;  /* of GAP_BODY: repetitions of somebody whose mass is not known */
};

/* Of RUN of EXERCISE done TIMES. */
struct tonnage tonnage_of(const struct exercise *exercise, const struct set_run *run, int times);

/* "throws, jumps and strikes", and what it is counted in: "reps", "m", "s". */
const char *tonnage_gap_name(enum tonnage_gap gap);
const char *tonnage_gap_unit(enum tonnage_gap gap);

#endif
