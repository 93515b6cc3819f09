/* edited_club.h - clubs with something wrong in their meaning, for the fuzzers, and what several of them do with a club. A
 * fuzzer includes edited_club.c. */
#ifndef BELL_FUZZ_EDITED_CLUB_H
#define BELL_FUZZ_EDITED_CLUB_H

#include <stddef.h>
#include <stdint.h>

#include "model/programme.h"
#include "source/diag.h"
#include "source/source.h"

enum { CLUB_DAY = 740048 /* 2027-03-08 */ };

/* A plan, read, understood and checked. */
struct club_read {
    struct arena *arena;
    struct sources sources;
    struct diag *diag;
    struct tree *tree;
    struct programme *programme;
};

/* Makes what SIZE bytes at EDITS make of PLAN: each four change a figure, a word or a line of it, or put in a statement of the
 * language. */
void club_edit(struct text *plan, const uint8_t *edits, size_t size);

/* Reads PLAN; club->arena is to be freed. The first does not check it. */
void club_resolve(struct club_read *club, const struct text *plan);
void club_read(struct club_read *club, const struct text *plan);

/* The occasions of CLUB, or of ATHLETE alone where it is not NULL, in the plan's order. */
const struct occasion **club_occasions(const struct club_read *club, const struct athlete *athlete, size_t *count);

/* Aborts unless WORDS are JSON. */
void club_must_be_json(const struct text *words);

/* Aborts unless WORDS are lines of the language in which no error of form is found. */
void club_must_read(const struct text *words);

/* One for many inputs: a typesetter keeps all that it measured, so after some it is opened anew. */
struct type *club_typesetter(void);

#endif
