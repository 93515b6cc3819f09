/* sheet_plans.h - plans at random for tests of the sheets: the longest names and cues that are allowed, every script,
 * up to twelve athletes and ten blocks. What stands in one follows from its seed. */
#ifndef BELL_TESTS_SHEET_PLANS_H
#define BELL_TESTS_SHEET_PLANS_H

#include <stdint.h>

#include "base/text.h"

/* Adds a plan to OUT: one camp whose first week has one session for all its athletes. */
void sheet_plan_make(uint64_t seed, struct text *out);

#endif
