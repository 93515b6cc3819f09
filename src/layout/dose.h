/* dose.h - a dose and its load as drawn: numbers large, signs light, stances by their feet. */
#ifndef BELL_LAYOUT_DOSE_H
#define BELL_LAYOUT_DOSE_H

#include "layout/press.h"
#include "model/programme.h"

/* The sizes a dose is drawn in: SIZE for what is read first, SMALL for what explains it. */
struct dose_sizes {
    double size, small;
    enum rank small_rank;
    double width; /* words that are wider are broken to it; 0: none are */
    bool
        noted; /* what is said of a load, share and pounds too, stands small behind it, one above the other */
};

/* Adds WORDS, on one line or, where they are wider than WIDTH, broken to it; 0: never broken. */
void dose_add_words(const struct press *press, struct flow *flow, const char *words,
                    struct face face, double width);

/* Adds how much: "3 ×", "4", feet, "+", "4", feet; or a list set by set. */
void dose_add_amounts(const struct press *press, struct flow *flow, const struct block *block,
                      const struct item *item, struct dose_sizes sizes);

/* Adds with what: "75 kg with bar", "2 × 16 kg each hand", "medium band", "RPE 8"; one for all sets, or one for each
 * that differs from the set before. */
void dose_add_loads(const struct press *press, struct flow *flow, const struct block *block,
                    const struct item *item, struct dose_sizes sizes, bool pounds);

/* Adds the effort of the first set alone: "RPE 8", "all-out". */
void dose_add_effort(const struct press *press, struct flow *flow, const struct item *item,
                     struct dose_sizes sizes);

/* Adds what stands behind the load: the share of a best, pounds. Loads that are noted have it already. */
void dose_add_shares(const struct press *press, struct flow *flow, const struct item *item,
                     struct dose_sizes sizes, bool pounds);

/* Adds the bar with its discs for every load of the item that hangs on one. */
void dose_add_bars(const struct press *press, struct flow *flow, const struct item *item,
                   double size, enum rank rank);

#endif
