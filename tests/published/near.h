#ifndef BELL_TESTS_NEAR_H
#define BELL_TESTS_NEAR_H

/* cmocka must have been included before. */
#include <math.h>

/* cmocka's own comparison is in float, too coarse for figures given to ten digits. */
static inline void near_check(double got, double want, double within, const char *file, int line)
{
    if (fabs(got - want) <= within) /* false for a NaN, as it should be */
        return;
    print_error("%.12g is not within %g of %.12g\n", got, within, want);
    _fail(file, line);
}

#define assert_near(got, want, within) near_check((got), (want), (within), __FILE__, __LINE__)

#endif
