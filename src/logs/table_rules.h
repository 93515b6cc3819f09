/* table_rules.h - the rules that say which column of a table is what, one a line:
 *
 *     separated by semicolon
 *     decimal comma
 *     Date      : day as day.month.year
 *     Weight    : load in kg
 *     read OT as Oriel Tamsin
 *
 * A comment starts with `#`, as in a plan. */
#ifndef BELL_LOGS_TABLE_RULES_H
#define BELL_LOGS_TABLE_RULES_H

#include <stdbool.h>
#include <stddef.h>

#include "base/arena.h"

struct source;
struct csv;

enum column_kind {
    COLUMN_DAY, COLUMN_HOUR, COLUMN_ATHLETE, COLUMN_SESSION, COLUMN_EXERCISE, COLUMN_LINE, COLUMN_SETS, COLUMN_REPS,
    COLUMN_LOAD, COLUMN_RPE, COLUMN_RESERVE, COLUMN_SPEED, COLUMN_TOOK, COLUMN_SESSION_RPE, COLUMN_NOTE, COLUMN_MISSED,
    COLUMN_TEST, COLUMN_RESULT, COLUMN_SIDE,
    COLUMN_KINDS
};

struct column_rule {
    const char *name;     /* of the column; NULL if no column is of this kind */
    const char *behind;   /* the unit after `in`, the form of a day after `as`, or "" */
    unsigned line, place; /* where it is in the rules, both from 1 */
    int index;            /* of the column, from 0, once table_rules_find has found it */
};

struct read_as {
    const char *from, *as; /* FROM folded */
};

struct table_rules_fault {
    unsigned line, place; /* of the rules, both from 1 */
    const char *words, *help; /* HELP may be NULL */
};

struct table_rules {
    char separator;
    bool decimal_comma;
    struct column_rule columns[COLUMN_KINDS];
    struct read_as *readings;
    size_t reading_count, reading_capacity;
    struct table_rules_fault *faults;
    size_t fault_count, fault_capacity;
};

/* Reads SOURCE, whose lines are known. What is wrong with it is in FAULTS. */
struct table_rules table_rules_read(struct arena *arena, const struct source *source);

/* Finds the columns in TABLE; adds faults for those that it does not have. */
void table_rules_find(struct arena *arena, struct table_rules *rules, const struct csv *table);

/* What NAME of the table is called in the plan: another name by a line `read`, or itself. */
const char *table_rules_name(struct arena *arena, const struct table_rules *rules, const char *name);

#endif
