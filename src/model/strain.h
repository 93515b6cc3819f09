/* strain.h - what work asks of a joint. */
#ifndef BELL_MODEL_STRAIN_H
#define BELL_MODEL_STRAIN_H

#include <stdbool.h>
#include <stddef.h>

#include "model/kinds.h"

enum { DEMAND_NONE = -1 }; /* the joint works, and nothing more is asked of it */

/* `knee deep`. Of work on one side the limb that works bears it, unless a line `both sides` says so, as of a split squat,
 * whose other knee bends as deep. */
struct strain {
    enum joint joint;
    int demand; /* enum demand, or DEMAND_NONE */
    bool both;
};

struct strains {
    const struct strain *items;
    size_t count;
    bool said; /* there is a line `joints`, if only `joints none` */
};

#endif
