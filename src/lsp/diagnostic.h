/* diagnostic.h - a finding as the protocol has it. It is written as text directly: one keystroke may report hundreds
 * of places, and a tree of values for each of them took a quarter of the answer's time. */
#ifndef BELL_LSP_DIAGNOSTIC_H
#define BELL_LSP_DIAGNOSTIC_H

#include "base/text.h"
#include "lsp/server.h"

struct finding;

/* Adds FINDING, in CLUB, to OUT as a diagnostic in JSON. PAGE is that of its file. */
void diagnostic_write(struct call *call, const struct club *club, const struct page *page, const struct finding *finding,
                      struct text *out);

/* The same as a value, for an answer that holds more than that. */
json_t *diagnostic_json(struct call *call, const struct club *club, const struct page *page,
                        const struct finding *finding);

/* Adds WORDS to OUT as a string of JSON; what is not UTF-8 in them is replaced. */
void diagnostic_write_words(struct text *out, const char *words);

#endif
