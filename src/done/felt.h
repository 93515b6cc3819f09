/* felt.h - how hard work was meant to be and how hard it felt, by kind of session. Over 45 weeks, what athletes felt
 * was below what their coach intended in every period (Rabelo et al. 2016, J Strength Cond Res 30:134-140), so the
 * two are worth comparing. */
#ifndef BELL_DONE_FELT_H
#define BELL_DONE_FELT_H

#include <stddef.h>

#include "base/arena.h"
#include "model/quantity.h"

struct occasion;

struct felt {
    const char *what;      /* the session or activity */
    size_t count;          /* how often both are known */
    milli intended, felt;  /* mean RPE */
};

/* Takes those of COUNT occasions from FIRST to LAST whose effort was planned and logged, in the order in which their
 * kinds first come. Returns how many are in *FELT. */
size_t felt_of(struct arena *arena, const struct occasion *const *occasions, size_t count, int first, int last,
               struct felt **felt);

#endif
