/* placed.h - a line that places a session, changed on one day alone. What comes out is the whole text of its file; nothing
 * is written here. */
#ifndef BELL_AMEND_PLACED_H
#define BELL_AMEND_PLACED_H

#include "base/text.h"
#include "model/occasion.h"
#include "plan/plan.h"

/* A file of a plan, and its bytes with something changed. */
struct amended {
    unsigned file; /* in the project's sources */
    struct text bytes;
};

/* Adds LINES, which stand below a placed session ("drop C\nchange A : 2 sets"), to the line that places OCCASION, for that
 * day alone. Where the line is for other days too, the day gets one of its own: in the span that it stands in, or in a
 * `week N` behind that. The text is ARENA's. NULL where it went well, else why not. */
const char *placed_add(struct arena *arena, const struct project *project, const struct occasion *occasion,
                       const char *lines, struct amended *amended);

/* The same line moved to DAY, of the same week, and CLOCK (seconds from midnight, or as it is), on OCCASION's day alone. OFF:
 * a line is added by which what stands at the old hour in wider weeks does not come back. */
const char *placed_move(struct arena *arena, const struct project *project, const struct occasion *occasion, int day,
                        int clock, bool off, struct amended *amended);

/* The lines of A and B, of one day and one file, each with the other's hour on that day alone. */
const char *placed_exchange(struct arena *arena, const struct project *project, const struct occasion *a,
                            const struct occasion *b, struct amended *amended);

/* The statement that starts at SPAN, and the tree it is in; NULL where there is none. */
const struct node *placed_statement(const struct project *project, struct span span);

#endif
