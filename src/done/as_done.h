/* as_done.h - an occasion as it was done, in the form in which it was planned: whatever counts planned work counts
 * this too. */
#ifndef BELL_DONE_AS_DONE_H
#define BELL_DONE_AS_DONE_H

#include <stdbool.h>

#include "base/arena.h"

struct done;
struct logged_line;
struct occasion;

/* Whether a log tells of OCCASION, and not that it was missed or took no time. */
bool occasion_done(const struct occasion *occasion);

/* What LOG says of the line REF, or of the whole block that it is in; NULL: nothing, so that it stays as planned. */
const struct logged_line *logged_line_of(const struct done *log, const char *ref);

/* OCCASION with what its log says in place of what was planned: without the lines that were skipped, with the sets that were
 * done, as long and as hard as it was. What the log does not say stays as planned. Only for one that was done. */
struct occasion occasion_as_done(struct arena *arena, const struct occasion *occasion);

#endif
