/* span_order.h - which of two places comes first. */
#ifndef BELL_SOURCE_SPAN_ORDER_H
#define BELL_SOURCE_SPAN_ORDER_H

#include "source/source.h"

/* Below 0 where A comes before B, above 0 where it comes behind it: files in the order in which they were read, and within
 * one by where the place starts. */
int span_order(struct span a, struct span b);

#endif
