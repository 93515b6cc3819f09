/* table_log.h - what one row of a table says for a log, with its figures checked and written as a plan writes them.
 * The caller (import.h) looks up the athlete and the work that it names. */
#ifndef BELL_LOGS_TABLE_LOG_H
#define BELL_LOGS_TABLE_LOG_H

#include "logs/csv.h"
#include "logs/table_rules.h"

struct table_log {
    unsigned number;      /* of its row */
    const char *refused;  /* why it cannot be taken, or NULL; then nothing below may be relied on */
    int day;              /* day number */
    int clock;            /* seconds from midnight; -1: not given */
    const char *athlete;  /* names as the plan should have them; "" if none is given */
    const char *session, *exercise;
    const char *line;     /* "A.1", or "" */
    int sets;             /* how many are alike */
    const char *set;      /* one of them: "5 @ 60 kg RPE 8 0.45 m/s"; "" if the row has none */
    const char *took, *rpe; /* "52 min", "7", or "" */
    const char *note, *missed;
    const char *test, *result; /* a trial of a test, as a figure in the test's unit; "" if the row is not a trial */
    const char *side;          /* "left", "right" or "" */
};

struct table_log table_log_read(struct arena *arena, const struct table_rules *rules, const struct csv_row *row);

#endif
