/* account.h - what a comparison says, as lines that text and Markdown are made of. For this room alone. */
#ifndef BELL_COMPARE_ACCOUNT_H
#define BELL_COMPARE_ACCOUNT_H

#include "compare/compare.h"

enum account_level { ACCOUNT_HEADING, ACCOUNT_ENTRY, ACCOUNT_DETAIL };

struct account_line {
    enum account_level level;
    char sign; /* '+' it came, '-' it went, '~' it changes, ' ' none of these */
    const char *words;
};

struct account {
    struct arena *arena;
    struct account_line *lines;
    size_t count, capacity;
};

/* All of COMPARISON, in ARENA. */
struct account account_of(struct arena *arena, const struct comparison *comparison);

void account_add(struct account *account, enum account_level level, char sign, const char *words);

/* Adds a line for each thing of CHANGE that differs. In account_facts.c. */
void account_facts(struct account *account, const struct plan_change *change);

/* What athletes do differently; those with the same changes are put together. In account_days.c. */
void account_days(struct account *account, const struct comparison *comparison);

#endif
