/* stanzas.h - takes a file of logs apart by its lines alone. A declaration with what is indented below it and the
 * comments right above it is one stanza, and so is a comment on its own. Nothing is read as a plan, so this works
 * for a file with errors too, and every line that is not blank is in a stanza. */
#ifndef BELL_LOGS_STANZAS_H
#define BELL_LOGS_STANZAS_H

#include <stdbool.h>
#include <stddef.h>

#include "base/arena.h"

struct stanza {
    const char *text;  /* LENGTH bytes in the file's own, without the last line end */
    size_t length;
    unsigned line;     /* its first, from 1 */
    const char *key;   /* what two versions of it have in common: for a log its day, hour, athlete and name, for
                        * results their day and athlete, for other declarations their first line, for a comment all
                        * of it; a number is added if the file has the key again */
    const char *title; /* its first line that is not a comment, without the comment and spaces at its end */
    bool log;          /* or test results, which are imported and joined in the same way */
    bool orphan;       /* indented lines at the start of a file, below no declaration, with what is above them */
    const char *day;   /* of a log: "2027-03-01 18:00", "2027-03-01"; else "" */
    bool filled;       /* something that is not a comment is below its first line */
    int gap;           /* blank lines above it */
};

struct stanzas {
    struct stanza *items;
    size_t count, capacity;
};

/* Those of TEXT, LENGTH bytes of UTF-8 and a NUL, without a byte order mark; it must outlive them. */
struct stanzas stanzas_of(struct arena *arena, const char *text, size_t length);

/* The one with KEY, or NULL; it looks through all of them. */
const struct stanza *stanzas_find(const struct stanzas *stanzas, const char *key);

#endif
