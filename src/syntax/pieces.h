/* pieces.h - single pieces of a line handed to the grammar: names, figures, times and days; and the slips that show in
 * one piece alone. Shared by values.c, line_names.c and pieces.c only. */
#ifndef BELL_SYNTAX_PIECES_H
#define BELL_SYNTAX_PIECES_H

#include "syntax/line.h"

enum { MOST_DIGITS = 7, LONGEST_TIME = 100 * 3600 /* seconds */ };

/* A token's value: a number in thousandths, or the code of a word. */
static inline PLAN_STYPE value_number(int64_t number)
{
    return (PLAN_STYPE){.T_NUMBER = number};
}

static inline PLAN_STYPE value_code(int code)
{
    return (PLAN_STYPE){.T_MEASURE = code};
}

/* Gives up the line: the parser recovers at the line's end without a message of its own. */
struct finding *line_diagnose(struct line *line, size_t first, size_t end, enum diagnostic diagnostic, const char *words);

/* Reports a slip whose meaning is clear: FIX is the right text, and the caller hands on what that would be. */
struct finding *line_suggest(struct line *line, size_t first, size_t end, enum diagnostic diagnostic, const char *words,
                             const char *fix);

/* Tokens FIRST up to, not including, END as one name or text of KIND. */
void push_words(struct line *line, size_t first, size_t end, int token, enum node_kind kind);
void push_tempo(struct line *line, size_t first, size_t end, const char *written);

/* The text of token AT, in the tree's arena. */
char *token_copy(const struct line *line, size_t at);

/* The number at AT in thousandths, with how many digits it has before and after the point. */
int64_t number_at(const struct line *line, size_t at, size_t *digits, size_t *decimals);

/* The token at AT as what it is; one that cannot be valid is reported. */
void push_number(struct line *line, size_t at);
void push_time(struct line *line, size_t at);
void push_clock(struct line *line, size_t at);
void push_date(struct line *line, size_t at, bool month);

/* The token at AT is a date in another order, a decimal with a comma, a figure with a sign for its unit. */
void diagnose_date(struct line *line, size_t at);
void diagnose_decimal(struct line *line, size_t at);
void diagnose_quoted(struct line *line, size_t at);

#endif
