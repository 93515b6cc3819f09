/* lifecycle.c - the beginning and the end: what the client can do, and what it is offered. */
#include <stdio.h>
#include <string.h>

#include "export/json_text.h"
#include "lsp/methods.h"
#include "lsp/tokens.h"
#include "lsp/uri.h"

static bool can(const json_t *capabilities, const char *path)
{
    return json_is_true(member_at(capabilities, path));
}

/* Does the client ask for the edit of an action when it is chosen? */
static bool resolves_actions(const json_t *able)
{
    const json_t *properties = member_at(able, "textDocument.codeAction.resolveSupport.properties");
    bool found = false;
    for (size_t i = 0; i < json_array_size(properties); i++) {
        const char *name = json_string_value(json_array_get(properties, i));
        found = found || (name && strcmp(name, "edit") == 0);
    }
    return found && can(able, "textDocument.codeAction.dataSupport");
}

static struct wishes read_wishes(const json_t *able)
{
    return (struct wishes){
        .pull = json_is_object(member_at(able, "textDocument.diagnostic")),
        .refresh_findings = can(able, "workspace.diagnostics.refreshSupport"),
        .refresh_hints = can(able, "workspace.inlayHint.refreshSupport"),
        .related = can(able, "textDocument.publishDiagnostics.relatedInformation") ||
                   can(able, "textDocument.diagnostic.relatedInformation"),
        .descriptions = can(able, "textDocument.publishDiagnostics.codeDescriptionSupport") ||
                        can(able, "textDocument.diagnostic.codeDescriptionSupport"),
        .versioned_edits = can(able, "workspace.workspaceEdit.documentChanges"),
        .watched = can(able, "workspace.didChangeWatchedFiles.dynamicRegistration"),
        .progress = can(able, "window.workDoneProgress"),
        .resolves_actions = resolves_actions(able),
        .hierarchy = can(able, "textDocument.documentSymbol.hierarchicalDocumentSymbolSupport")};
}

/* UTF-8 is used if it is offered; every client must know UTF-16. */
static enum encoding choose_encoding(const json_t *able)
{
    const json_t *offered = member_at(able, "general.positionEncodings");
    for (size_t i = 0; i < json_array_size(offered); i++) {
        const char *name = json_string_value(json_array_get(offered, i));
        if (name && strcmp(name, "utf-8") == 0)
            return ENCODING_UTF8;
    }
    return ENCODING_UTF16;
}

static void add_folder(struct call *call, const char *uri)
{
    const char *path = uri_path(call->arena, uri);
    if (path)
        workspace_add_folder(&call->lsp->workspace, path);
}

static void read_folders(struct call *call)
{
    const json_t *folders = json_object_get(call->params, "workspaceFolders");
    const char *root = member_words(call->params, "rootUri"), *path = member_words(call->params, "rootPath");
    for (size_t i = 0; i < json_array_size(folders); i++)
        add_folder(call, member_words(json_array_get(folders, i), "uri"));
    if (json_array_size(folders))
        return;
    if (*root)
        add_folder(call, root);
    else if (*path == '/')
        workspace_add_folder(&call->lsp->workspace, path);
}

static json_t *words_array(const char *const *words, size_t count)
{
    json_t *array = json_array();
    for (size_t i = 0; i < count; i++)
        json_add(array, json_words(words[i]));
    return array;
}

static json_t *object_of(const char *key, json_t *value)
{
    json_t *object = json_object();
    json_put(object, key, value);
    return object;
}

static void offer_plain(json_t *offers)
{
    static const char *const plain[] = {
        "hoverProvider", "definitionProvider", "referencesProvider", "documentHighlightProvider",
        "documentSymbolProvider", "workspaceSymbolProvider", "documentFormattingProvider",
        "documentRangeFormattingProvider", "foldingRangeProvider", "selectionRangeProvider", "inlayHintProvider"};
    for (size_t i = 0; i < sizeof plain / sizeof *plain; i++)
        json_put(offers, plain[i], json_true());
}

static void offer_sync(json_t *offers)
{
    enum { INCREMENTAL = 2 };
    json_t *sync = object_of("openClose", json_true());
    json_put(sync, "change", json_integer(INCREMENTAL));
    json_put(sync, "save", json_object());
    json_put(offers, "textDocumentSync", sync);
}

static void offer_rest(json_t *offers)
{
    static const char *const triggers[] = {" ", ",", "@", ":"};
    static const char *const kinds[] = {"quickfix", "refactor.rewrite"};
    json_put(offers, "completionProvider", object_of("triggerCharacters", words_array(triggers, 4)));
    json_put(offers, "signatureHelpProvider", object_of("triggerCharacters", words_array(triggers, 1)));
    json_t *actions = object_of("codeActionKinds", words_array(kinds, 2));
    json_put(actions, "resolveProvider", json_true());
    json_put(offers, "codeActionProvider", actions);
    json_put(offers, "codeLensProvider", json_object());
    json_put(offers, "documentLinkProvider", json_object());
    json_put(offers, "renameProvider", object_of("prepareProvider", json_true()));
    json_t *tokens = object_of("legend", tokens_legend());
    json_put(tokens, "full", json_true());
    json_put(offers, "semanticTokensProvider", tokens);
    json_t *folders = object_of("supported", json_true());
    json_put(folders, "changeNotifications", json_true());
    json_put(offers, "workspace", object_of("workspaceFolders", folders));
}

json_t *lsp_initialize(struct call *call)
{
    struct lsp *lsp = call->lsp;
    const json_t *able = json_object_get(call->params, "capabilities");
    const char *athlete = member_words(json_object_get(call->params, "initializationOptions"), "athlete");
    lsp->life = LIFE_RUNNING;
    lsp->wishes = read_wishes(able);
    lsp->encoding = choose_encoding(able);
    lsp->athlete = *athlete ? arena_copy(lsp->arena, athlete, strlen(athlete)) : NULL;
    read_folders(call);
    json_t *result = json_object(), *offers = json_object(), *info = object_of("name", json_words("bellsheet"));
    json_put_words(offers, "positionEncoding", lsp->encoding == ENCODING_UTF8 ? "utf-8" : "utf-16");
    offer_sync(offers);
    offer_plain(offers);
    offer_rest(offers);
    if (lsp->wishes.pull) {
        json_t *pull = object_of("interFileDependencies", json_true());
        json_put(pull, "workspaceDiagnostics", json_false());
        json_put(offers, "diagnosticProvider", pull);
    }
    json_put(result, "capabilities", offers);
    json_put_words(info, "version", lsp->host.version);
    json_put(result, "serverInfo", info);
    return result;
}

/* Plans that another program writes are watched, too. */
static void watch_files(struct lsp *lsp)
{
    json_t *watcher = object_of("globPattern", json_words("**/*.bell")), *watchers = json_array();
    json_add(watchers, watcher);
    json_t *registration = object_of("registerOptions", object_of("watchers", watchers)), *all = json_array();
    json_put_words(registration, "id", "plans");
    json_put_words(registration, "method", "workspace/didChangeWatchedFiles");
    json_add(all, registration);
    lsp_ask(lsp, "client/registerCapability", object_of("registrations", all));
}

json_t *lsp_initialized(struct call *call)
{
    if (call->lsp->wishes.watched)
        watch_files(call->lsp);
    progress_ask(call->lsp);
    return NULL;
}

json_t *lsp_shutdown(struct call *call)
{
    call->lsp->life = LIFE_SHUT;
    return NULL;
}

json_t *lsp_exit(struct call *call)
{
    call->lsp->status = lsp_end_status(call->lsp);
    call->lsp->life = LIFE_ENDED;
    return NULL;
}

json_t *lsp_ignore(struct call *call)
{
    (void)call;
    return NULL;
}

/* --- work that takes long --- */

static void tell_progress(struct lsp *lsp, const json_t *token, json_t *value)
{
    json_t *params = object_of("token", json_deep_copy(token));
    json_put(params, "value", value);
    lsp_notify(lsp, "$/progress", params);
}

void progress_begin(struct lsp *lsp, const json_t *token, const char *title)
{
    json_t *value = object_of("kind", json_words("begin"));
    json_put_words(value, "title", title);
    tell_progress(lsp, token, value);
}

void progress_end(struct lsp *lsp, const json_t *token)
{
    tell_progress(lsp, token, object_of("kind", json_words("end")));
}

/* No token of the client's is like it. */
static json_t *own_token(json_int_t number)
{
    char words[64];
    snprintf(words, sizeof words, "bellsheet %lld", (long long)number);
    return json_words(words);
}

void progress_ask(struct lsp *lsp)
{
    if (!lsp->wishes.progress || lsp->progress_asked)
        return;
    lsp->progress_token = 0;
    lsp->progress_asked = lsp_ask(lsp, "window/workDoneProgress/create", object_of("token", own_token(lsp->asked + 1)));
}

void progress_tell(struct lsp *lsp, bool begins)
{
    if (!lsp->progress_token)
        return;
    json_t *token = own_token(lsp->progress_token);
    if (begins)
        progress_begin(lsp, token, "reading the club");
    else
        progress_end(lsp, token);
    json_decref(token);
    if (!begins)
        progress_ask(lsp);
}
