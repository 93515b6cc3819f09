#ifndef BELL_FIGURES_TAPER_H
#define BELL_FIGURES_TAPER_H

#include <stdbool.h>
#include <stdint.h>

/* 
 * How far a taper cuts a count below its peak week. Published: Bosquet et al. 2007, Med Sci Sports Exerc 39:1358-1365,
 * where cutting volume by 41 to 60 % while keeping intensity did most (mostly endurance athletes). The limits
 * themselves are a matter for the coach's files.
 */
struct taper {
    int64_t peak;  /* the peak week, in any unit */
    int64_t total; /* what the weeks of the taper add up to, in the same unit */
    int weeks;     /* how many weeks those are: 1 for its last week alone */
};

/* False where the peak or the weeks are below 1, the total below 0, or the figures too large. */
bool taper_is_valid(const struct taper *taper);

/*
 * The cut of the taper's mean week, in thousandths of a per cent of the peak, to the nearest;
 * below 0 where the mean is above the peak, and 0 where the taper is not valid. For printing.
 */
int64_t taper_cut(const struct taper *taper);

/*
 * -1, 0 or 1 as the cut is less than, equal to or more than a percentage in thousandths (between
 * -1000 % and 100 %), worked in whole numbers so that a cut of just 41 % is never a hair short of
 * it. The taper must be valid. For judging.
 */
int taper_compare(const struct taper *taper, int64_t percent);

#endif
