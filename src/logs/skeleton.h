/* skeleton.h - logs to fill in: what was planned, in comments that become lines of the log. */
#ifndef BELL_LOGS_SKELETON_H
#define BELL_LOGS_SKELETON_H

#include "base/text.h"
#include "model/occasion.h"

struct athlete;
struct programme;

/* Adds a stanza for OCCASION of PROGRAMME to OUT, in canonical layout. It says nothing yet, so nobody takes it for a log:
 * each line in it is a comment, and whoever fills it takes the `#` off those that hold. Effort is not among what is
 * planned: how hard a set was is only known afterwards. Of body mass it tells what a card tells, never kilograms. */
void skeleton_add(struct arena *arena, const struct programme *programme, const struct occasion *occasion,
                  struct text *out);

/* The same for what only a private file should hold of an athlete's day. */
void skeleton_add_private(const struct athlete *athlete, int day, struct text *out);

#endif
