/* line.h - one line on its way to the grammar; shared by lines.c, values.c and pieces.c only. */
#ifndef BELL_SYNTAX_LINE_H
#define BELL_SYNTAX_LINE_H

#include "parse.h"
#include "syntax/phrases.h"
#include "syntax/raw.h"
#include "syntax/read.h"

struct raw_token {
    enum raw_kind kind;
    uint32_t start, end;
};

struct line {
    struct reader *reader;
    struct plan_pstate *parser;
    const char *text;         /* of the whole file */
    uint32_t file;
    struct raw_token *tokens; /* without comments */
    size_t count, capacity;
    size_t at;                /* the next token to hand on */
    bool abandoned;           /* reported: the rest of the line is dropped */
};

/* The span of tokens FIRST up to, not including, END. */
struct span line_span(const struct line *line, size_t first, size_t end);

/* The text of one token. */
const char *line_text(const struct line *line, size_t token, size_t *length);

/* How many tokens from AT spell PHRASE, case aside; 0 if they do not. */
size_t line_spells(const struct line *line, size_t at, const struct phrase *phrase);

/* Is there a token of KIND at or after the line's place? */
bool line_has(const struct line *line, enum raw_kind kind);

/* Hands one token to the grammar. */
void line_push(struct line *line, int token, PLAN_STYPE value, struct span span);

/* Hands on the rest of the line by the steps of FORM (kinds.def); START is where its phrase begins. */
void line_values(struct line *line, const struct form *form, size_t start);

#endif
