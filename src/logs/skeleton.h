/* skeleton.h - logs to fill in: what was planned, as comments that can become lines of the log. */
#ifndef BELL_LOGS_SKELETON_H
#define BELL_LOGS_SKELETON_H

#include "base/text.h"
#include "model/occasion.h"

struct athlete;
struct programme;

/* Adds a stanza for OCCASION of PROGRAMME to OUT, in canonical layout. Each line in it is a comment, so it says
 * nothing yet and nobody takes it for a log; whoever fills it in takes the `#` off the lines that are true. Planned
 * effort is left out, because how hard a set was is only known afterwards. Of body mass it gives what a card gives,
 * never kilograms. */
void skeleton_add(struct arena *arena, const struct programme *programme, const struct occasion *occasion,
                  struct text *out);

/* The same for those parts of an athlete's day that belong in a private file. */
void skeleton_add_private(const struct athlete *athlete, int day, struct text *out);

#endif
