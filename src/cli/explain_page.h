/* explain_page.h - the page of a diagnostic, share/explain/NAME.md. */
#ifndef BELL_CLI_EXPLAIN_PAGE_H
#define BELL_CLI_EXPLAIN_PAGE_H

#include "base/arena.h"
#include "source/diagnostics.h"

/* Paragraphs on one line each, separated by line ends; NULL if the page has no such part. */
struct explain_page {
    const char *what, *why, *source, *suggestion;
};

/* Reads the page of DIAGNOSTIC into ARENA. False if it cannot be read. */
bool explain_page_read(struct arena *arena, enum diagnostic diagnostic, struct explain_page *page);

/* Title, what it is and what to do, as reports give them; NULL for a name without a page. Why a check looks is left
 * out: words beside a person's name need not say what the check fears. */
const char *explain_describe(struct arena *arena, const char *name);

#endif
