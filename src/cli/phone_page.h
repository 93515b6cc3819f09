/* phone_page.h - one athlete's sessions as a page for the phone: a card to read and, if scripts may run, to tap,
 * which gives the log back in the notation. */
#ifndef BELL_CLI_PHONE_PAGE_H
#define BELL_CLI_PHONE_PAGE_H

#include "base/text.h"

struct occasion;

/* What the page is made with, read from the shelf. */
struct phone_parts {
    const char *style, *script;
};

/* Adds the page of COUNT occasions, one athlete's and by date, to OUT. VERSION may be "". It has what a card has,
 * and never anything private. Nothing on it is loaded from elsewhere, and its own policy forbids that. */
void phone_page(struct arena *arena, const struct phone_parts *parts, const struct occasion *const *occasions, size_t count,
                const char *plan, struct text *out);

#endif
