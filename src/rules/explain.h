/* explain.h - a page for each check: what it looks at, why, where its figure comes from, how to
 * mend it. */
#ifndef BELL_RULES_EXPLAIN_H
#define BELL_RULES_EXPLAIN_H

#include <stddef.h>

#include "source/diag.h"

struct explanation {
    const char *name;                       /* of the check */
    const char *what, *why, *source, *mend; /* whole sentences, without line breaks */
};

/* The page of a check, or NULL. */
const struct explanation *explanation_find(const char *name);

size_t explanation_count(void);
const struct explanation *explanation_at(size_t index);

/* Of what is found in single lines before there is a plan to check, and on sheets. */
struct slip {
    const char *name;
    enum severity severity;
    const char *title; /* one line, for lists */
    const char *words; /* what it means and what mends it: whole sentences, without line breaks */
    bool on_sheets;    /* else in lines */
};

size_t slip_count(void);
const struct slip *slip_at(size_t index);
/* NULL where there is none of that name. */
const struct slip *slip_find(const char *name);

#endif
