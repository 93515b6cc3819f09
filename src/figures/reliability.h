/* reliability.h - how much of a change in a test is the test's own error.
 *
 * The typical error is the standard deviation of the differences between two trials of the same people, divided by the
 * square root of two (Hopkins 2000, Sports Med 30:1-15, from memory; repeated in Hopkins 2004, Sportscience 8:1-7). The least
 * detectable change, at 95 %, is 1.96 times the square root of two times that. The smallest worthwhile change is a fifth of
 * the standard deviation between athletes (Hopkins 2004). */
#ifndef BELL_FIGURES_RELIABILITY_H
#define BELL_FIGURES_RELIABILITY_H

#include <stddef.h>

/* The sample's standard deviation; 0 of fewer than two values. And the mean; 0 of none. */
double reliability_deviation(const double *values, size_t count);
double reliability_mean(const double *values, size_t count);

/* The typical error of COUNT pairs, given the differences between their two trials; 0 of fewer than two. */
double reliability_typical_error(const double *differences, size_t count);

/* The least change that is not the error's alone, of results whose typical error is ERROR. */
double reliability_least_change(double error);

/* The least change that matters, among athletes with this standard deviation between them. */
double reliability_worthwhile(double deviation);

/* The chances, of 1, that a true change lies above WORTHWHILE, within it and below its negative, if CHANGE was measured with a
 * typical error of ERROR above 0; by the normal curve. */
struct chances {
    double above, within, below;
};
struct chances reliability_chances(double change, double error, double worthwhile);

/* Metres of height of a jump that was SECONDS in the air: g t^2 / 8, with g = 9.81 m/s^2 as publications take it; the
 * formula is that of free fall. */
double jump_height(double seconds);

#endif
