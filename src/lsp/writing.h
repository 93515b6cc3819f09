/* writing.h - the line that is being written: the lines above show what may be in it, because it is not finished and
 * no tree knows it. */
#ifndef BELL_LSP_WRITING_H
#define BELL_LSP_WRITING_H

#include "lsp/server.h"
#include "syntax/phrases.h"

struct writing {
    const struct phrasebook *book;
    int place;      /* what may come here: bits of enum place; 0 if a line above cannot be read */
    size_t indent;  /* byte at which the line begins, after its white space */
    size_t caret;
    /* The statement that the line is, once its words are written; NULL before. */
    const struct statement *statement;
    size_t behind;  /* byte after these words and the spaces there */
    const struct statement *fallback; /* what the line is if no words fit, or NULL */
};

/* The line of TEXT, of LENGTH bytes, that contains the byte CARET, up to that byte. */
struct writing writing_find(const struct phrasebook *book, const char *text, size_t length, size_t caret);

/* Does the text of PHRASE, of LENGTH bytes, begin with the SIZE bytes at START? Case does not matter, and a run of
 * spaces counts as one. */
bool phrase_begins(const char *phrase, size_t length, const char *start, size_t size);

#endif
