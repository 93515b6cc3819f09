/* table_log.h - what one row of a table says of a log, its figures checked and written as a plan writes them. Whom and
 * what it names is looked up by whoever asks (import.h). */
#ifndef BELL_LOGS_TABLE_LOG_H
#define BELL_LOGS_TABLE_LOG_H

#include "logs/csv.h"
#include "logs/table_rules.h"

struct table_log {
    unsigned number;      /* of its row */
    const char *refused;  /* why it cannot be taken, or NULL; then nothing below may be relied on */
    int day;              /* day number */
    int clock;            /* seconds from midnight; -1 not said */
    const char *athlete;  /* names as the plan should have them; "" where none is given */
    const char *session, *exercise;
    const char *line;     /* "A.1", or "" */
    int sets;             /* how many are alike */
    const char *set;      /* one of them: "5 @ 60 kg RPE 8 0.45 m/s"; "" where the row has none */
    const char *took, *rpe; /* "52 min", "7", or "" */
    const char *note, *missed;
    const char *test, *result; /* a trial of a test, as a figure in the test's unit; "" where the row is of none */
    const char *side;          /* "left", "right" or "" */
};

struct table_log table_log_read(struct arena *arena, const struct table_rules *rules, const struct csv_row *row);

#endif
