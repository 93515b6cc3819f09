/* methods.h - every method that the server knows, and what answers it. */
#ifndef BELL_LSP_METHODS_H
#define BELL_LSP_METHODS_H

#include "lsp/server.h"

struct method {
    const char *name;
    lsp_handler *handle;
    bool notifies; /* it is a notification, which gets no answer */
};

/* The method called NAME, or NULL. */
const struct method *method_find(const char *name);

/* One file for each, or for each family. */
lsp_handler lsp_initialize, lsp_initialized, lsp_shutdown, lsp_exit, lsp_ignore;
lsp_handler lsp_did_open, lsp_did_change, lsp_did_close, lsp_did_save, lsp_folders_changed, lsp_files_changed,
    lsp_configured;
lsp_handler lsp_diagnostic;
lsp_handler lsp_completion, lsp_signature;
lsp_handler lsp_hover, lsp_inlay_hint;
lsp_handler lsp_code_action, lsp_resolve_action, lsp_code_lens;
lsp_handler lsp_formatting, lsp_range_formatting;
lsp_handler lsp_document_symbol, lsp_workspace_symbol, lsp_folding, lsp_selection, lsp_tokens, lsp_links;
lsp_handler lsp_definition, lsp_references, lsp_highlight, lsp_prepare_rename, lsp_rename;

/* Tells the client that work has begun under TOKEN, and that it has ended. */
void progress_begin(struct lsp *lsp, const json_t *token, const char *title);
void progress_end(struct lsp *lsp, const json_t *token);

/* Asks the client to let the server report work of its own, if it can. Each request is for one piece of work. */
void progress_ask(struct lsp *lsp);
/* Reports that such work has begun, or has ended; without the client's permission nothing happens. */
void progress_tell(struct lsp *lsp, bool begins);

#endif
