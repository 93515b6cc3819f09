/* placed.h - changes a line that places a session, on one day alone. The result is the whole text of its file;
 * nothing is written here. */
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

/* Adds LINES, such as go below a placed session ("drop C\nchange A : 2 sets"), to the line that places OCCASION, for
 * that day alone. If the line is for other days too, the day gets a line of its own: in the same span of weeks, or
 * in a `week N` after it. The text is ARENA's. Returns NULL if it went well, else the reason. */
const char *placed_add(struct arena *arena, const struct project *project, const struct occasion *occasion,
                       const char *lines, struct amended *amended);

/* Moves the same line to DAY, of the same week, and CLOCK (seconds from midnight, or as it is), on OCCASION's day
 * alone. OFF: adds a line so that what wider weeks place at the old hour does not come back. */
const char *placed_move(struct arena *arena, const struct project *project, const struct occasion *occasion, int day,
                        int clock, bool off, struct amended *amended);

/* Gives the lines of A and B, which are of one day and one file, each other's hour on that day alone. */
const char *placed_exchange(struct arena *arena, const struct project *project, const struct occasion *a,
                            const struct occasion *b, struct amended *amended);

/* The statement that starts at SPAN, and the tree it is in; NULL if there is none. */
const struct node *placed_statement(const struct project *project, struct span span);

#endif
