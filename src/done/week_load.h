/* week_load.h - load, monotony and strain of a week, as planned and as it came to be, with the range that work leaves
 * which may be left out (Foster 1998, Med Sci Sports Exerc 30:1164-1168). */
#ifndef BELL_DONE_WEEK_LOAD_H
#define BELL_DONE_WEEK_LOAD_H

#include <stdbool.h>
#include <stddef.h>

#include "model/quantity.h"

struct occasion;

struct week_load {
    bool logged;            /* a log tells of it: DONE is as it came to be, and as planned where no log tells */
    bool even;              /* every day alike, in one of the ways it can come: monotony and strain have no value */
    bool counted;           /* there is load, and all of it is known */
    struct range total;     /* in thousandths, as the others */
    struct range monotony, strain;
};

enum week_load_kind { LOAD_AS_PLANNED, LOAD_AS_DONE };

/* Of the occasions among COUNT, all of one athlete, on the seven days from MONDAY. */
struct week_load week_load_from(const struct occasion *const *occasions, size_t count, int monday,
                                enum week_load_kind kind);

#endif
