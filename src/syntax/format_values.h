/* format_values.h - what stands in a statement's line, in its one canonical spelling; for format.c only. */
#ifndef BELL_SYNTAX_FORMAT_VALUES_H
#define BELL_SYNTAX_FORMAT_VALUES_H

#include "base/text.h"
#include "syntax/tree.h"

/* Adds the first of PHRASES, which are parted by |. */
void format_spelling(struct text *out, const char *phrases);

/* Adds the value VALUE, a child of a statement or below one. */
void format_value(struct text *out, const struct node *value);

/* Adds FIRST and the values behind it up to, not including, END (NULL: all), with what parts each two. */
void format_values(struct text *out, const struct node *first, const struct node *end);

/* Adds ` : `. Behind a name that ends in a lone # the space would make a comment of it, so it is left out. */
void format_colon(struct text *out);
bool format_ends_in_hash(const struct text *out);

#endif
