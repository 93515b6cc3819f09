/* writing.h - the line that is being written: what may stand in it is told by the lines above, for it is not finished and no
 * tree knows it. */
#ifndef BELL_LSP_WRITING_H
#define BELL_LSP_WRITING_H

#include "lsp/server.h"
#include "syntax/phrases.h"

struct writing {
    const struct phrasebook *book;
    int place;      /* what may stand here: bits of enum place; 0 where a line above cannot be read */
    size_t indent;  /* byte at which the line begins, behind its white space */
    size_t caret;
    /* The statement that the line is, once its words are written; NULL before. */
    const struct statement *statement;
    size_t behind;  /* byte behind these words and the spaces there */
    const struct statement *fallback; /* what the line is where no words fit, or NULL */
};

/* The line of TEXT, of LENGTH bytes, that holds the byte CARET, up to there. */
struct writing writing_find(const struct phrasebook *book, const char *text, size_t length, size_t caret);

/* Does the text of PHRASE, of LENGTH bytes, begin with the SIZE bytes at START, case aside, each run of spaces one? */
bool phrase_begins(const char *phrase, size_t length, const char *start, size_t size);

#endif
