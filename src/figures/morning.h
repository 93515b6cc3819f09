#ifndef BELL_FIGURES_MORNING_H
#define BELL_FIGURES_MORNING_H

#include <stdbool.h>
#include <stddef.h>

/* How a morning compares with an athlete's own others. Five items (sleep, soreness, fatigue, stress, mood), each 1
 * to 5 and 5 best, as in McLean et al. 2010, Int J Sports Physiol Perform 5:367-383; the sum is compared with the
 * mean of the days before it, in their standard deviations. Below ten days nothing is said, and a spread of less
 * than a point counts as one point (both common practice): else a single step on one item would look like a
 * collapse. It describes; it is no diagnosis, and nobody is kept from training by it. */
enum { MORNING_BEST = 25, MORNING_LEAST_DAYS = 10 };

struct morning_figure {
    bool known;       /* false: fewer days than MORNING_LEAST_DAYS */
    double mean;
    double deviation; /* sample, over n - 1; at least 1 */
    double z;
};

/* SUM against the COUNT sums of the days BEFORE it. */
struct morning_figure morning_compare(int sum, const int *before, size_t count);

#endif
