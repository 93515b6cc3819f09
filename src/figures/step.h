#ifndef BELL_FIGURES_STEP_H
#define BELL_FIGURES_STEP_H

#include <stdbool.h>
#include <stdint.h>

/*
 * How much of itself a load changes by, in thousandths of a per cent: 2 % for each half point of RPE by which a set was
 * rated outside of the band (Helms et al. 2018, Front Physiol 9:247; the rule is quoted from memory). RPE and the band are
 * in thousandths; 0 within the band.
 */
int64_t progress_by_effort(int64_t rpe, int64_t low, int64_t high);

/* A change of load in whole pounds, from LOW to HIGH. */
struct progress_pounds {
    int low, high;
};

/*
 * The change that REPS in an all-out last set with a load for OF repetitions (3, 6 or 10) ask for: the tables of
 * autoregulatory progressive resistance exercise (Mann et al. 2010, J Strength Cond Res 24:1718-1723). That for 3 was seen
 * in a secondary work, with 300 lb for 7 repetitions, which make 315 lb; those for 6 and 10 are quoted from memory. False
 * for another OF.
 */
bool progress_by_last_set(int of, int reps, struct progress_pounds *change);

/* The most that a load may rise by at once, in thousandths of a per cent: 2 to 10 % (Ratamess et al. 2009, Med Sci Sports
 * Exerc 41:687-708). */
enum { PROGRESS_MOST = 10000 };

#endif
