/* deload.h - how many sets a lighter week leaves. */
#ifndef BELL_MEASURE_DELOAD_H
#define BELL_MEASURE_DELOAD_H

#include "model/quantity.h"

enum { DELOAD_WHOLE = 100000 /* all sets stay: 100 %, in thousandths */ };

/* Of SETS the nearest whole number to SHARE, of two the smaller, and at least one. */
int deload_leaves(int sets, milli share);

/* The least number of sets of which SHARE leaves WANTED; every number can be left. */
int deload_before(int wanted, milli share);

#endif
