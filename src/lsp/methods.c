#include "lsp/methods.h"

#include <string.h>

static const struct method methods[] = {
    {"initialize", lsp_initialize, false},
    {"initialized", lsp_initialized, true},
    {"shutdown", lsp_shutdown, false},
    {"exit", lsp_exit, true},
    {"$/cancelRequest", lsp_ignore, true}, /* handled as soon as it comes */
    {"$/setTrace", lsp_ignore, true},
    {"textDocument/didOpen", lsp_did_open, true},
    {"textDocument/didChange", lsp_did_change, true},
    {"textDocument/didClose", lsp_did_close, true},
    {"textDocument/didSave", lsp_did_save, true},
    {"workspace/didChangeWorkspaceFolders", lsp_folders_changed, true},
    {"workspace/didChangeWatchedFiles", lsp_files_changed, true},
    {"workspace/didChangeConfiguration", lsp_configured, true},
    {"textDocument/diagnostic", lsp_diagnostic, false},
    {"textDocument/completion", lsp_completion, false},
    {"textDocument/signatureHelp", lsp_signature, false},
    {"textDocument/hover", lsp_hover, false},
    {"textDocument/inlayHint", lsp_inlay_hint, false},
    {"textDocument/codeAction", lsp_code_action, false},
    {"codeAction/resolve", lsp_resolve_action, false},
    {"textDocument/codeLens", lsp_code_lens, false},
    {"textDocument/formatting", lsp_formatting, false},
    {"textDocument/rangeFormatting", lsp_range_formatting, false},
    {"textDocument/documentSymbol", lsp_document_symbol, false},
    {"workspace/symbol", lsp_workspace_symbol, false},
    {"textDocument/foldingRange", lsp_folding, false},
    {"textDocument/selectionRange", lsp_selection, false},
    {"textDocument/semanticTokens/full", lsp_tokens, false},
    {"textDocument/documentLink", lsp_links, false},
    {"textDocument/definition", lsp_definition, false},
    {"textDocument/references", lsp_references, false},
    {"textDocument/documentHighlight", lsp_highlight, false},
    {"textDocument/prepareRename", lsp_prepare_rename, false},
    {"textDocument/rename", lsp_rename, false},
};

const struct method *method_find(const char *name)
{
    for (size_t i = 0; i < sizeof methods / sizeof *methods; i++)
        if (strcmp(methods[i].name, name) == 0)
            return &methods[i];
    return NULL;
}
