/* format_values.h - what stands in a statement's line, in its one canonical spelling; shared by
 * the files format*.c of this room only. Each function adds to OUT. */
#ifndef BELL_SYNTAX_FORMAT_VALUES_H
#define BELL_SYNTAX_FORMAT_VALUES_H

#include "base/text.h"
#include "syntax/tree.h"

/* --- format_values.c --- */

/* The value VALUE, a child of a statement or below one. */
void format_value(struct text *out, const struct node *value);

/* FIRST and the values after it up to, not including, END (NULL: all), with what separates them. */
void format_values(struct text *out, const struct node *first, const struct node *end);

/* --- format_dose.c --- */

void format_amount(struct text *out, const struct node *amount);
void format_load(struct text *out, const struct node *load);
void format_effort(struct text *out, const struct node *effort);
void format_kit_entry(struct text *out, const struct node *entry);

/* --- format_when.c --- */

void format_days(struct text *out, const struct node *days);
void format_clock(struct text *out, const struct node *clock);
void format_when(struct text *out, const struct node *when);
void format_bound(struct text *out, const struct node *bound);
void format_tail(struct text *out, const struct node *tail);

/* --- format_figures.c --- */

/* The first of PHRASES, which are separated by |. */
void format_spelling(struct text *out, const char *phrases);

/* The word that the grammar calls TOKEN; the same with CODE. */
void format_word(struct text *out, int token);
void format_coded_word(struct text *out, int token, int code);

/* The word TOKEN and the value below CLAUSE. */
void format_after_word(struct text *out, int token, const struct node *clause);

/* `week` for a single one, otherwise `weeks`. */
void format_week(struct text *out, const struct node *figure);

/* The unit of COUNT: `weeks`, but `1 week` where words.def has that as the second spelling. */
void format_measure_of(struct text *out, const struct node *count, int measure);

/* NAME with each run of white space made one space. */
void format_name(struct text *out, const char *name);

/* A number in thousandths; a NUMBER, which may be a time; a day number. */
void format_decimal(struct text *out, int64_t milli);
void format_number(struct text *out, const struct node *number);
void format_date(struct text *out, int64_t day, bool month);

void format_range(struct text *out, const struct node *range);
void format_series(struct text *out, const struct node *series);
void format_figure(struct text *out, const struct node *figure);

/* PARENT's children with JOINT between them. */
void format_joined(struct text *out, const struct node *parent, const char *joint);

#endif
