/* edit.h - what is to be changed in files. */
#ifndef BELL_LSP_EDIT_H
#define BELL_LSP_EDIT_H

#include "lsp/server.h"

/* Adds EDITS, which is taken over, of FILE of CLUB's plan to the workspace edit EDIT. */
void edit_add(struct call *call, const struct club *club, json_t *edit, unsigned file, json_t *edits);

/* {"range": ..., "newText": ...} */
json_t *edit_json(const struct page *page, size_t start, size_t end, const char *text);

#endif
