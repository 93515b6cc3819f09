/* week_load.h - load, monotony and strain of a week, as planned and as it turned out, with the range that comes from
 * work that may be left out (Foster 1998, Med Sci Sports Exerc 30:1164-1168). */
#ifndef BELL_DONE_WEEK_LOAD_H
#define BELL_DONE_WEEK_LOAD_H

#include <stdbool.h>
#include <stddef.h>

#include "model/quantity.h"

struct occasion;

struct week_load {
    bool logged;            /* it has a log: DONE is as it turned out, and as planned for days without one */
    bool even;              /* every day can turn out alike: monotony and strain then have no value */
    bool counted;           /* there is load, and all of it is known */
    struct range total;     /* in thousandths, as the others */
    struct range monotony, strain;
};

enum week_load_kind { LOAD_AS_PLANNED, LOAD_AS_DONE };

/* Takes those of COUNT occasions, all of one athlete, that are on the seven days from MONDAY. */
struct week_load week_load_from(const struct occasion *const *occasions, size_t count, int monday,
                                enum week_load_kind kind);

#endif
