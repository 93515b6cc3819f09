#ifndef BELL_FIGURES_ESTIMATE_H
#define BELL_FIGURES_ESTIMATE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "figures/onerm.h"

/* A one-rep maximum read from sets of training, never a tested one, with the range that its error leaves. */
struct estimate {
    double maximum, low, high; /* in the unit of the loads */
};

/* Where an estimate from a set ends: the scale counts repetitions in reserve only from RPE 7 up (Zourdos et al. 2016, J
 * Strength Cond Res 30:267-275), and the equations are meant for ten repetitions. */
enum { ESTIMATE_RPE_LEAST = 7000, ESTIMATE_REPS_MOST = 10000 };

/*
 * From REPS done (thousandths) and an RPE (thousandths): as many repetitions as were done and left make the maximum by
 * EQUATION. What lifters say is left is off by about one repetition, less near failure (Zourdos et al. 2021, J Strength
 * Cond Res 35 suppl S158): that is the range. False where the set says too little: RPE below 7, or more than ten
 * repetitions done and left.
 */
bool estimate_from_reps(enum onerm_equation equation, double load, int64_t reps, int64_t rpe, struct estimate *estimate);

/* One set: what was lifted how fast, in thousandths of a metre a second. */
struct speed_point {
    double load;
    int64_t speed;
};

enum { SPEED_LOADS_LEAST = 3 /* different ones, below which a line says nothing: common practice, no source */ };

/*
 * From the athlete's own line of load over speed (least squares): where it reaches SLOWEST, the speed of a one-rep
 * maximum. The error is 3.7 %, the larger that was found for such a line from five loads (doi 10.3233/IES-202247, for the
 * bench press), or where the points lie further off their line, their own. False with too few loads, or where heavier
 * was not slower.
 */
bool estimate_from_speed(const struct speed_point *points, size_t count, int64_t slowest, struct estimate *estimate);

#endif
