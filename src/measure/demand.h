/* demand.h - how much a set asks of the athlete, read from its load, its effort and its
 * repetitions. */
#ifndef BELL_MEASURE_DEMAND_H
#define BELL_MEASURE_DEMAND_H

#include <stdbool.h>

#include "model/quantity.h"

struct athlete;
struct best;
struct exercise;
struct item;
struct occasion;
struct set_run;

/* Where heavy and hard begin, in thousandths: common practice, no source. */
enum {
    HEAVY_PERCENT = 80000,
    HEAVY_RPE = 8000,
    HARD_RPE = 7000,
    HARD_RESERVE = 3000 /* repetitions in reserve that RPE 7 leaves (Zourdos et al. 2016) */
};

/* The athlete's best that a load of EXERCISE on DAY is compared with: the latest that is not dated after DAY, or
 * NULL. */
const struct best *athlete_best(const struct athlete *athlete, const struct exercise *exercise,
                                int day);

/* The set's load as a percentage of the best, in thousandths: as written, or worked out from kilograms where there is a
 * best, of an exercise that is done on as many sides. Both ends are 0 if it cannot be known. */
struct range run_percent(const struct athlete *athlete, const struct exercise *exercise,
                         const struct set_run *run, int day);

/* RPE asked for, in thousandths, also from repetitions in reserve; all-out work and a rep maximum are 10. Both ends are
 * 0 if the line says nothing about effort. */
struct range run_rpe(const struct set_run *run);

/* The share of a best that the set comes to, in thousandths: run_percent's upper end or, for strength work with a
 * weight, the share at which its repetitions and those in reserve are all that can be done. 0 if neither is known. */
milli run_percent_met(const struct athlete *athlete, const struct exercise *exercise,
                      const struct set_run *run, int day);

/* Whether the set tries for a best of one repetition: a 1RM, or one repetition at 95 % and up or at RPE 9 and up. */
bool run_is_one_rep_test(const struct athlete *athlete, const struct exercise *exercise,
                         const struct set_run *run, int day);

/* Repetitions that one limb does without a break: the largest part of the dose. Both ends 0 where
 * the dose is not in repetitions. */
struct range run_reps(const struct set_run *run);

/* Heavy: 80 % and up; where no percentage is known, a weight at RPE 8 and up for so few repetitions
 * that these and those in reserve are no more than 80 % allows (8, Haff and Triplett 2016). Hard: RPE 7 and up, or no more than three repetitions left at that
 * load. */
bool run_is_heavy(const struct athlete *athlete, const struct exercise *exercise,
                  const struct set_run *run, int day);
bool run_is_hard(const struct athlete *athlete, const struct exercise *exercise,
                 const struct set_run *run, int day);

/* Of any set of an item. A heavy item may also be long: a weight at RPE 8 and up for however many repetitions, because
 * it takes as long to recover from. */
bool item_is_heavy(const struct occasion *occasion, const struct item *item);

/* The first heavy lift of a session, to which its athlete warms up; or NULL. */
const struct item *occasion_ramped(const struct occasion *occasion);
bool item_is_hard(const struct occasion *occasion, const struct item *item);

#endif
