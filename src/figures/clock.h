#ifndef BELL_FIGURES_CLOCK_H
#define BELL_FIGURES_CLOCK_H

#include <stdint.h>

enum { CLOCK_LIMIT = 7 * 24 * 3600 }; /* seconds in a week; nothing here lasts longer */

/* 
 * Seconds that rounds take by the clock: every round's work, and a rest between two rounds but none after the last.
 * Blocks of rounds are rounds of rounds. 0 for no rounds; -1 if a number is negative or the total is over CLOCK_LIMIT.
 */
int clock_rounds(int rounds, int work, int rest);

/* The four places of a tempo, in the order in which they are written (common practice). */
enum tempo_place {
    TEMPO_LOWER = 1 << 0,
    TEMPO_PAUSE_LOW = 1 << 1,
    TEMPO_LIFT = 1 << 2,
    TEMPO_PAUSE_HIGH = 1 << 3
};

enum { TEMPO_FAST_SECONDS = 1 }; /* what an X counts (common practice, no source) */

struct tempo {
    int lower; /* seconds, each of them */
    int pause_low;
    int lift;
    int pause_high;
    unsigned fast; /* set of tempo_place that are written X; their seconds are ignored */
};

/* Seconds of one repetition, with an X counted as TEMPO_FAST_SECONDS; -1 as for clock_rounds. */
int tempo_seconds(const struct tempo *tempo);

#endif
