/* import.h - rows of a table become logs of a plan, and results of tests: who and what they name is looked up in it, rows of one session come
 * together, and each becomes a line of the session. A log of which a row is refused is not made: it would be there half,
 * and in the way of the whole of it once that row is put right. */
#ifndef BELL_LOGS_IMPORT_H
#define BELL_LOGS_IMPORT_H

#include "base/text.h"
#include "logs/table_log.h"

struct occasion;
struct programme;

struct imported_log {
    const char *text;           /* its stanza, or "" where it is not made */
    struct table_log **rows;
    size_t row_count, row_capacity;
    bool results;               /* of tests, not of a session */
    const struct occasion *occasion; /* what it is of, as far as can be told */
    const char *key;
};

struct imported {
    struct table_log *rows;      /* of the table, in its order; REFUSED says why one is not taken */
    size_t row_count;
    struct imported_log **logs;  /* in the order of their first rows */
    size_t log_count, log_capacity;
};

/* Rows of days after TODAY are refused (0: none are). */
struct imported import_table(struct arena *arena, const struct programme *programme, const struct table_rules *rules,
                             const struct csv *table, int today);

/* Takes LOG out again because of its row AT, one of its own, which is refused in WORDS. */
void imported_drop(struct arena *arena, struct imported_log *log, struct table_log *at, const char *words);

#endif
