/* import.h - makes logs and test results out of the rows of a table. Athletes and work are looked up in the plan,
 * the rows of one session are gathered, and each becomes a line of its log. If one of its rows is refused, a log is
 * not made: half a log would be in the way of the whole one once that row is put right. */
#ifndef BELL_LOGS_IMPORT_H
#define BELL_LOGS_IMPORT_H

#include "base/text.h"
#include "logs/table_log.h"

struct occasion;
struct programme;

struct imported_log {
    const char *text;           /* its stanza, or "" if it is not made */
    struct table_log **rows;
    size_t row_count, row_capacity;
    bool results;               /* of tests, not of a session */
    const struct occasion *occasion; /* what it is of, as far as that is known */
    const char *key;
};

struct imported {
    struct table_log *rows;      /* of the table, in its order; REFUSED says why a row is not taken */
    size_t row_count;
    struct imported_log **logs;  /* in the order of their first rows */
    size_t log_count, log_capacity;
};

/* Rows of days after TODAY are refused (0: none are). */
struct imported import_table(struct arena *arena, const struct programme *programme, const struct table_rules *rules,
                             const struct csv *table, int today);

/* Takes LOG out again because its row AT is refused, for the reason in WORDS. */
void imported_drop(struct arena *arena, struct imported_log *log, struct table_log *at, const char *words);

#endif
