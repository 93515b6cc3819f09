/* outline.h - the lines and blocks of a plan, as the tree has them. */
#ifndef BELL_LSP_OUTLINE_H
#define BELL_LSP_OUTLINE_H

#include "lsp/server.h"

/* The byte after all of STATEMENT: its line and the block below it. */
size_t statement_end(const struct node *statement);

/* The innermost statement with byte OFFSET in its line or its block; NULL if there is none. */
const struct node *statement_at(const struct node *root, size_t offset);

/* Does OFFSET lie in STATEMENT's own line? */
bool is_on_line(const struct page *page, const struct node *statement, size_t offset);

/* STATEMENT's line without indentation and comment, in ARENA. */
const char *statement_words(struct arena *arena, const struct focus *focus, const struct node *statement);

#endif
