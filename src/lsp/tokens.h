/* tokens.h - which stretches of a plan are words of the language, names, figures, comments. */
#ifndef BELL_LSP_TOKENS_H
#define BELL_LSP_TOKENS_H

#include <jansson.h>

/* The types and modifiers, by which tokens are numbered. */
json_t *tokens_legend(void);

#endif
