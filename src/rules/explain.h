/* explain.h - a page for each check: what it looks at, why, where its figure comes from, how to
 * mend it. */
#ifndef BELL_RULES_EXPLAIN_H
#define BELL_RULES_EXPLAIN_H

#include <stddef.h>

struct explanation {
    const char *name;                       /* of the check */
    const char *what, *why, *source, *mend; /* whole sentences, without line breaks */
};

/* The page of a check, or NULL. */
const struct explanation *explanation_find(const char *name);

size_t explanation_count(void);
const struct explanation *explanation_at(size_t index);

#endif
