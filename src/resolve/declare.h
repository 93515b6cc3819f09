/* declare.h - names before their meaning: what a plan, the shelf and the record declare, each with the thing that it will be. */
#ifndef BELL_RESOLVE_DECLARE_H
#define BELL_RESOLVE_DECLARE_H

#include <stdbool.h>
#include <stddef.h>

#include "resolve/resolver.h"

/* A declaration on its way from its name to its meaning. */
struct declared {
    const struct node *node;
    void *thing;
};

struct declarations {
    struct declared *items;
    size_t count, capacity;
};

struct pass {
    struct resolver r;
    struct declarations gyms, exercises, activities, athletes, privates, results, sessions, limits, camps, logs, protocols, held,
        closings, seasons, tests, test_changes;
};

/* Adds the name of NODE, a statement at the margin, and remembers it for the second pass. */
void declare_statement(struct pass *pass, const struct node *node, bool shelf);

/* The names that the record alone still has, once all others are known: a name that a plan or the shelf no longer has is no
 * fault of the record, and what was held keeps it. */
void declare_lost_names(struct pass *pass);

/* What could not be read is unclear. Called before anything else is found. */
void mark_unread(struct resolver *r);

/* By athlete: may what was not understood in TREES concern them? Once all is worked out. */
const bool *find_unclear(struct pass *pass, struct tree *const *trees, size_t count);

#endif
