/* test_results.h - results of tests drawn with their error. */
#ifndef BELL_LAYOUT_TEST_RESULTS_H
#define BELL_LAYOUT_TEST_RESULTS_H

#include "layout/frame.h"
#include "measure/tests.h"

/* One test of one athlete on one side, over the days from FIRST to LAST of an axis WIDTH wide. */
struct result_plot {
    const struct test_error *error;
    struct test_values values;
    int first, last;
    double width, height;
};

/* Where DAY stands on an axis from FIRST to LAST that is WIDTH wide: at both ends there is room for a figure. */
double result_x(int day, int first, int last, double width);

/* The results as points with their typical error, and the first one's least detectable change as a band: what lies outside
 * it is more than the error. The first and the last have their figures beside them. */
struct box *result_plot_box(const struct frame *frame, const struct result_plot *plot);

/* VALUE with its unit, not to be broken: "38.9 cm". */
const char *result_words(struct arena *arena, const struct test *test, double value);

#endif
