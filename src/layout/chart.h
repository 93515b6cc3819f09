/* chart.h - bars, lines and limits over columns of time, small enough to stand in rows one under the other.
 *
 * * Several charts of one width share their columns, so that a week stands under the same week. Shade, outline and
 * words show what is what, never colour alone. */
#ifndef BELL_LAYOUT_CHART_H
#define BELL_LAYOUT_CHART_H

#include "layout/press.h"

/* How a series is filled: each differs from its neighbours by its shade, on a grey printer too. */
enum shade { SHADE_FULL, SHADE_HALF, SHADE_PALE, SHADE_OPEN };

enum { CHART_SERIES = 4, CHART_LIMITS = 6 };

/* One value a column; NAN where there is none. */
struct chart_series {
    const char *name; /* for the legend; "" where the chart's title says it */
    enum shade shade;
    const double *values;
};

/* A limit as a line over the columns in which it applies: one value a column, NAN where it does not. */
struct chart_limit {
    const char *words; /* "at most 24" */
    const double *values;
    double left,
        right; /* it applies only from here to there, 0 to 1 of the plot's width; both 0: over whole columns */
};

struct chart {
    const char *title, *unit;
    size_t columns;
    const char *const *names;               /* of the columns, below the plot; NULL: none */
    const double *edges;                    /* columns + 1 places, 0 to 1 of the plot's width */
    struct chart_series bars[CHART_SERIES]; /* stacked, the first lowest */
    size_t bar_count;
    struct chart_series line; /* values NULL: none; it stands alone, and its title names it */
    const double *done;       /* what was done of each bar or point; NAN: not yet, or nobody says; NULL: nothing to draw */
    const char *const *marks; /* a letter behind a column's number, or ""; NULL: none */
    struct chart_limit limits[CHART_LIMITS];
    size_t limit_count;
    double least;        /* where the axis begins; 0 for bars */
    const char *nothing; /* shown in place of a chart without any value */
};

/* What all charts of a row have in common, in points. */
struct chart_frame {
    double left;  /* gutter for title, unit, legend and the axis' numbers */
    double width; /* of the plot */
    double right; /* gutter for the words of limits */
    double height;
    double size; /* of text */
    enum rank rank;
};

/* CHART as a piece LEFT + WIDTH + RIGHT wide and HEIGHT high, read as a table: the title and a number a column. */
struct box *chart_box(const struct press *press, const struct chart *chart,
                      const struct chart_frame *frame);

/* How high a chart must be for its legend and its limits' words to have room. */
double chart_least_height(const struct press *press, const struct chart *chart,
                          const struct chart_frame *frame);

/* Whether every column is wide enough for its number. */
bool chart_holds_numbers(const struct press *press, const struct chart *chart, const struct chart_frame *frame);

/* The step between two marks of an axis from 0 to TOP, so that it has no more than MOST: 1, 2 or 5 times a power of
 * ten, and never below 1. */
double chart_step(double top, int most);

/* Moves COUNT labels, HEIGHTS high, with wanted middles in WANTED (rising), apart so that none touch and all lie
 * between TOP and BOTTOM as far as they fit; the middles they get go to GOT. */
void chart_spread(const double *wanted, double *got, size_t count, const double *heights,
                  double top, double bottom);

#endif
