/* join.h - joins two versions of a file of logs into one that has what either of them has.
 *
 * * Stanzas are identified by what they are about (stanzas.h), so logs that two people add at one place of the file
 * all stay, whatever lines they share. What only one version changed or removed since BASE is as in that version.
 * What both changed in different ways is in the result twice, between the marks that git uses. */
#ifndef BELL_LOGS_JOIN_H
#define BELL_LOGS_JOIN_H

#include "base/text.h"

struct phrasebook;

struct join_side {
    const char *text; /* LENGTH bytes of UTF-8 and a NUL, without a byte order mark */
    size_t length;
};

struct join_conflict {
    const char *title; /* "log 2027-03-02 Oriel Tamsin, pads" */
    unsigned line;     /* of the result, where its first mark is */
};

struct joined {
    struct text out; /* with the line ends of OURS; in canonical layout if both versions are and nothing conflicts */
    struct join_conflict *conflicts;
    size_t conflict_count, conflict_capacity;
};

struct joined join(struct arena *arena, const struct phrasebook *phrases, const struct join_side *base,
                   const struct join_side *ours, const struct join_side *theirs);

/* Do two texts say the same, comments included? Layout does not matter. */
bool join_same(struct arena *arena, const struct phrasebook *phrases, const char *a, size_t a_length, const char *b,
               size_t b_length);

#endif
