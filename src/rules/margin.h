/* margin.h - how far a plan is from each of its limits: what the checks compare, before they judge. */
#ifndef BELL_RULES_MARGIN_H
#define BELL_RULES_MARGIN_H

#include "measure/counts.h"
#include "model/occasion.h"
#include "measure/tally.h"

struct athlete;
struct camp;
struct limit;
struct phase;
struct programme;

/* One comparison of a check with a limit. */
struct margin {
    const struct athlete *athlete;
    const struct camp *camp; /* whose phase, session or whole it is; NULL for a week of all camps */
    const struct limit *limit;
    enum counted counted; /* what was compared: the limit's own, or one held below its peak */
    enum side side;
    int first, last;           /* days that it was counted over, both inside */
    bool whole;                /* they are those of a phase or a camp */
    const struct phase *phase; /* the phase, or NULL */
    milli left;                /* in the unit of the limit; below 0 past it */
};

struct margins {
    struct margin *items; /* in the order of the checks, athlete by athlete and week by week */
    size_t count, capacity;
};

/* Runs every check over PROGRAMME as rules_run does, keeps nothing of what is found, and adds what was left each time
 * to MARGINS, in the programme's arena. Cut weeks are pro-rated and excused weeks left out, because the checks do
 * both. */
void rules_measure(const struct programme *programme, struct margins *margins);

#endif
