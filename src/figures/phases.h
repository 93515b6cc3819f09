#ifndef BELL_FIGURES_PHASES_H
#define BELL_FIGURES_PHASES_H

#include <stdbool.h>

/* How long each of several phases is between two days, in the order in which they follow one another. What gives way
 * first is the coach's to say; no published source. */
struct phase_length {
    int shortest, longest; /* days that it asks for; the same where it has one length; shortest 0: it has begun, and may end */
    int keep;              /* 1 matters most; 0: it is never left out */
    bool open;             /* it has no length of its own, and takes the time that is left */
    int days;              /* the answer */
    bool out;              /* it is left out: the days do not reach for it */
};

/* Shares DAYS among PHASES. Where they ask for more, the phase with the highest `keep` becomes shorter first, down to its
 * shortest, and is then left out, before the next one gives way; of two alike the earlier one. Those without `keep` become
 * shorter last. The days that a phase left out does not need join the phase before it, or else the one after it; where none
 * but an open one is left, they belong to no phase. Returns how many do, or -1 where there are fewer days than the phases
 * need. */
int phases_fit(struct phase_length *phases, int count, int days);

/* The least that PHASES need. */
int phases_least(const struct phase_length *phases, int count);

#endif
