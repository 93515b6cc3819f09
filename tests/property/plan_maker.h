/* plan_maker.h - plans at random, for tests: what stands in them follows from one seed, how it is
 * spelt and spaced from another. Two plans of one shape mean the same whatever their spelling. The
 * lines come from kinds.def and the words from words.def, so that what is added there is made here
 * too. */
#ifndef BELL_TESTS_PLAN_MAKER_H
#define BELL_TESTS_PLAN_MAKER_H

#include <stdint.h>

#include "base/text.h"
#include "syntax/read.h"

/* Adds to OUT a plan without errors. */
void plan_make(const struct phrasebook *book, uint64_t shape, uint64_t spelling, struct text *out);

#endif
