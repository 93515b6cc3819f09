/* ribbon.h - a session drawn along its time, at true scale. */
#ifndef BELL_LAYOUT_RIBBON_H
#define BELL_LAYOUT_RIBBON_H

#include "layout/press.h"

struct occasion;

/* The session of OCCASION from its start to its end over WIDTH points: each set filled, each rest left open, the
 * blocks' letters above, minutes below. SIZE is that of its text. */
struct box *ribbon_box(const struct press *press, const struct occasion *occasion, double width,
                       double size, enum rank rank);

#endif
