#ifndef BELL_FIGURES_ONERM_H
#define BELL_FIGURES_ONERM_H

#include <stdbool.h>
#include <stdint.h>

#include "figures/mass.h"

/*
 * One-rep maximum estimated from a set taken to failure. The equations and where they were
 * published are quoted from memory; the arithmetic is checked in tests. Several began as a coach's
 * chart and not as a study (table 1 of PMC4042664, Biology of Sport, says so of Epley, Brzycki and
 * Lander). Always an estimate: whatever prints one must say so.
 */
enum onerm_equation {
    ONERM_EPLEY,
    ONERM_BRZYCKI,
    ONERM_LOMBARDI,
    ONERM_MAYHEW,
    ONERM_OCONNER,
    ONERM_WATHEN,
    ONERM_LANDER,
    ONERM_EQUATIONS /* how many there are */
};

enum onerm_status {
    ONERM_OK,
    ONERM_OUTSIDE, /* worked out, but from more repetitions than the equations are meant for */
    ONERM_REFUSED  /* no estimate: load or repetitions make no sense, or the equation breaks down */
};

enum {
    ONERM_REPS_MOST = 10,          /* last repetition count that is not ONERM_OUTSIDE */
    ONERM_REPS_LIMIT = 1000        /* above this a count is a slip of the pen */
};

#define ONERM_LOAD_LIMIT (10000 * MASS_KG) /* 10 t, which a double still represents to the last digit */

/* Author, work and year. NULL outside the enumeration. */
const char *onerm_source(enum onerm_equation equation);

/* Finds an equation by its name, one word in lower case as the notation writes it. False, and *equation untouched, where there is none. */
bool onerm_from_name(const char *name, enum onerm_equation *equation);

/*
 * The estimate in the unit of the load, unrounded; a single is its own maximum in every equation.
 * Status as for onerm_estimate; *maximum is 0 where refused.
 */
enum onerm_status onerm_real(enum onerm_equation equation, double load, int reps,
                             double *maximum);

/* The same from repetitions that need not be whole, as those done and left may be; 0 where refused. */
double onerm_at(enum onerm_equation equation, double load, double reps);

/*
 * The estimate from a load (figures/mass.h), to the nearest thousandth of the unit that it is written in. Refused for
 * load or reps below 1 or above the limits, and for 37 repetitions or more by Brzycki and Lander,
 * whose divisors run out there. *maximum is 0 where refused.
 */
enum onerm_status onerm_estimate(enum onerm_equation equation, int64_t load, int reps,
                                 int64_t *maximum);

#endif
