/* candidates.h - logs to add to a plan. Those that it has already are left out, and no other is added before the
 * plan has been compiled with it. */
#ifndef BELL_CLI_CANDIDATES_H
#define BELL_CLI_CANDIDATES_H

#include "cli/options.h"
#include "plan/plan.h"

struct imported_log;
struct phrasebook;

struct candidate {
    const char *text;      /* its stanza, which ends in a line end */
    unsigned number;       /* of its first line or row */
    struct imported_log *log; /* whose rows it is made of, or NULL */
    bool there;            /* the plan has it already */
    const char *refused;   /* why it is not taken, or NULL */
    unsigned refused_at;   /* the line of TEXT that is wrong, from 0 */
    size_t start;          /* its place among those that are compiled */
};

struct candidates {
    struct candidate *items;
    size_t count, capacity;
};

void candidate_add(struct arena *arena, struct candidates *candidates, const struct candidate *candidate);

/* Marks those that PROJECT, or the file APPEND (NULL: none) that need not be part of it, has already, and refuses those
 * that it has otherwise. */
void candidates_compare(struct project *project, const char *append, const struct phrasebook *phrases,
                        struct candidates *candidates);

/* Compiles the plan of OPTIONS, which is PROJECT, with all that are left, and refuses those with errors. False if it
 * cannot be compiled, which it reports. */
bool candidates_compile(struct project *project, const struct options *options, struct candidates *candidates);

/* The text of those that are left, with a blank line between them. */
struct text candidates_text(struct arena *arena, const struct candidates *candidates);

#endif
