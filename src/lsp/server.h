/* server.h - the server inside: its state, what the client asked for, and a request that is being answered. */
#ifndef BELL_LSP_SERVER_H
#define BELL_LSP_SERVER_H

#include <glib.h>
#include <jansson.h>

#include "lsp/club.h"
#include "lsp/framing.h"
#include "lsp/lsp.h"
#include "lsp/page.h"

/* The codes of JSON-RPC 2.0 and of the protocol. */
enum {
    ERROR_PARSE = -32700,
    ERROR_INVALID_REQUEST = -32600,
    ERROR_UNKNOWN_METHOD = -32601,
    ERROR_INVALID_PARAMS = -32602,
    ERROR_NOT_INITIALIZED = -32002,
    ERROR_CANCELLED = -32800,
    ERROR_FAILED = -32803
};

enum life { LIFE_NEW, LIFE_RUNNING, LIFE_SHUT, LIFE_ENDED };

/* What the client can do. */
struct wishes {
    bool pull;              /* it asks for findings of what is open */
    bool refresh_findings;  /* and can be told to ask again */
    bool refresh_hints;
    bool related, descriptions; /* in findings */
    bool versioned_edits;   /* documentChanges */
    bool watched;           /* it can be asked to watch files */
    bool progress;          /* it shows work that takes long */
    bool resolves_actions;  /* it asks for an action's edit when it is chosen */
    bool hierarchy;         /* symbols in symbols */
};

struct message {
    json_t *json;
    bool cancelled;
};

struct lsp {
    struct lsp_host host;
    struct frames frames;
    GQueue messages; /* of struct message, not handled yet */
    enum life life;
    int status;
    bool unsettled; /* something changed since the findings were last published */
    struct wishes wishes;
    enum encoding encoding;
    const char *athlete; /* whose loads the hints are; NULL: the range of all */
    struct arena *arena; /* lives as long as the server */
    struct workspace workspace;
    json_int_t asked;    /* numbers of requests to the client */
    json_int_t progress_asked; /* the request whose answer allows progress to be reported; 0: none is awaited */
    json_int_t progress_token; /* the token for it then; 0: not allowed */
};

/* A request or notification that is being handled. */
struct call {
    struct lsp *lsp;
    struct arena *arena; /* of this call */
    const json_t *params;
    int code;            /* of the error that is the answer; 0: there is none */
    const char *words;
};

/* The result, owned by the caller, or NULL for null; a notification's result is dropped. */
typedef json_t *lsp_handler(struct call *call);

/* Makes the answer an error and returns NULL. */
json_t *call_fail(struct call *call, int code, const char *words);

/* Sends a notification or a request, which returns its number; PARAMS is taken over. */
void lsp_notify(struct lsp *lsp, const char *method, json_t *params);
void lsp_notify_text(struct lsp *lsp, const char *method, const char *params); /* an object of JSON */
json_int_t lsp_ask(struct lsp *lsp, const char *method, json_t *params);

/* The string KEY of JSON, "" if there is none. */
const char *member_words(const json_t *json, const char *key);
/* What PATH ("a.b.c") leads to in JSON, or NULL. */
const json_t *member_at(const json_t *json, const char *path);

/* --- what requests look at --- */

/* An open document in the plan that it belongs to, as it is now. */
struct focus {
    struct document *document;
    struct club *club;
    const struct project *project;
    const struct source *source;
    const struct tree *tree;
    unsigned file; /* index of the source */
    struct page page;
};

/* The document that the call is about. False if there is no such document, which is then the answer. */
bool call_focus(struct call *call, struct focus *focus);
/* The same with the byte that the call points at. */
bool call_focus_at(struct call *call, struct focus *focus, size_t *offset);

/* The page of a file of the plan; and the URI by which the client knows it. */
struct page focus_page(struct call *call, const struct club *club, unsigned file);
const char *focus_uri(struct call *call, const struct club *club, unsigned file);
/* {"uri": ..., "range": ...} of SPAN. */
json_t *focus_location(struct call *call, const struct club *club, struct span span);

/* May what is in SPAN be shown beside what is in FILE? What is private may be shown in its own file only. */
bool focus_may_show(const struct focus *focus, struct span span);

#endif
