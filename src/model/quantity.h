/* quantity.h - what the whole model is measured and named in.
 *
 * Units, everywhere: mass in hundredths of a microgram, in which kilograms and pounds are both whole (figures/mass.h);
 * plain numbers, percentages, RPE and repetitions in thousandths (`milli`, so 82.5 % is 82500 and 5 reps are 5000); time
 * in whole seconds; length in centimetres; dates as day numbers (figures/dates.h), 0 where none is given. Everything
 * lives in the compile's arena. */
#ifndef BELL_MODEL_QUANTITY_H
#define BELL_MODEL_QUANTITY_H

#include <stdint.h>

#include "figures/mass.h"
#include "source/source.h"

typedef int64_t milli; /* thousandths of a plain number */
typedef int64_t mass;  /* hundredths of a microgram */

enum stance { STANCE_UNKNOWN, STANCE_ORTHODOX, STANCE_SOUTHPAW };

/* A figure or a range; low == high for a plain figure. */
struct range {
    milli low, high;
};

/* A name as written, how it is compared, and where it was declared. */
struct name {
    const char *shown, *folded;
    struct span span;
};

#endif
