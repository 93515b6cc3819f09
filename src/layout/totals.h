/* totals.h - what a week adds up to, each figure beside its limit. */
#ifndef BELL_LAYOUT_TOTALS_H
#define BELL_LAYOUT_TOTALS_H

#include "layout/frame.h"

/* The athlete's week as a chart of the load by day and a table of the counts, what other camps hold included; as wide as
 * the page. */
struct box *totals_box(const struct frame *frame);

/* A limit's words: "at most 24", "at most 240 a side", "60–90 %". */
const char *bound_words(struct arena *arena, const struct sheet_bound *bound);

/* The limit of REQUEST for WEEK on COUNTED from INDEX on; *INDEX is set after it. NULL if there is none. */
const struct sheet_bound *bound_next(const struct sheet_request *request, enum counted counted,
                                     int week, size_t *index);

#endif
