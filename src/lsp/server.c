/* server.c - messages: read, queued, dispatched, answered. */
#include "lsp/server.h"

#include <stdlib.h>
#include <string.h>

#include "export/json_text.h"
#include "lsp/methods.h"
#include "lsp/publish.h"

/* --- sending --- */

static void send_body(struct lsp *lsp, const char *body)
{
    char *frame = g_strdup_printf("Content-Length: %zu\r\n\r\n%s", strlen(body), body);
    lsp->host.write(lsp->host.with, frame, strlen(frame));
    g_free(frame);
}

/* MESSAGE is taken over. */
static void send_message(struct lsp *lsp, json_t *message)
{
    json_put_words(message, "jsonrpc", "2.0");
    char *body = json_dumps(message, JSON_COMPACT);
    json_decref(message);
    if (!body)
        abort(); /* all texts are UTF-8, and the program ends when memory runs out */
    send_body(lsp, body);
    free(body);
}

void lsp_notify(struct lsp *lsp, const char *method, json_t *params)
{
    json_t *message = json_object();
    json_put_words(message, "method", method);
    json_put(message, "params", params);
    send_message(lsp, message);
}

void lsp_notify_text(struct lsp *lsp, const char *method, const char *params)
{
    char *body = g_strdup_printf("{\"jsonrpc\":\"2.0\",\"method\":\"%s\",\"params\":%s}", method, params);
    send_body(lsp, body);
    g_free(body);
}

json_int_t lsp_ask(struct lsp *lsp, const char *method, json_t *params)
{
    json_t *message = json_object();
    json_put(message, "id", json_integer(++lsp->asked));
    json_put_words(message, "method", method);
    if (params)
        json_put(message, "params", params);
    send_message(lsp, message);
    return lsp->asked;
}

static json_t *answer_to(const json_t *id)
{
    json_t *answer = json_object();
    json_put(answer, "id", id ? json_deep_copy(id) : json_null());
    return answer;
}

static void send_error(struct lsp *lsp, const json_t *id, int code, const char *words)
{
    json_t *answer = answer_to(id), *error = json_object();
    json_put(error, "code", json_integer(code));
    json_put_words(error, "message", words);
    json_put(answer, "error", error);
    send_message(lsp, answer);
}

static void send_result(struct lsp *lsp, const json_t *id, json_t *result)
{
    json_t *answer = answer_to(id);
    json_put(answer, "result", result ? result : json_null());
    send_message(lsp, answer);
}

json_t *call_fail(struct call *call, int code, const char *words)
{
    call->code = code;
    call->words = words;
    return NULL;
}

/* --- members --- */

const char *member_words(const json_t *json, const char *key)
{
    const char *words = json_string_value(json_object_get(json, key));
    return words ? words : "";
}

const json_t *member_at(const json_t *json, const char *path)
{
    char key[64];
    while (json && *path) {
        size_t length = strcspn(path, ".");
        if (length >= sizeof key)
            return NULL;
        memcpy(key, path, length);
        key[length] = '\0';
        json = json_object_get(json, key);
        path += length + (path[length] == '.');
    }
    return json;
}

/* --- dispatch --- */

/* The error for a request that comes at the wrong time; 0: it may be answered. */
static int untimely(const struct lsp *lsp, const char *method)
{
    if (lsp->life == LIFE_SHUT)
        return ERROR_INVALID_REQUEST;
    if (lsp->life == LIFE_NEW && strcmp(method, "initialize") != 0)
        return ERROR_NOT_INITIALIZED;
    return lsp->life == LIFE_RUNNING && strcmp(method, "initialize") == 0 ? ERROR_INVALID_REQUEST : 0;
}

static const char *untimely_words(int code)
{
    return code == ERROR_NOT_INITIALIZED ? "the server is not initialized yet" : "not at this time";
}

/* Runs METHOD and leaves its result in *RESULT. */
static void run_method(struct call *call, const struct method *method, json_t **result)
{
    const json_t *token = json_object_get(call->params, "workDoneToken");
    bool shown = !method->notifies && (json_is_string(token) || json_is_integer(token));
    if (shown)
        progress_begin(call->lsp, token, method->name);
    *result = method->handle(call);
    if (shown)
        progress_end(call->lsp, token);
}

static void answer_request(struct lsp *lsp, const json_t *id, const char *name, const json_t *params, bool cancelled)
{
    const struct method *method = method_find(name);
    int code = untimely(lsp, name);
    if (code || !method || method->notifies) {
        send_error(lsp, id, code ? code : ERROR_UNKNOWN_METHOD, code ? untimely_words(code) : "no such method");
        return;
    }
    if (cancelled) {
        send_error(lsp, id, ERROR_CANCELLED, "cancelled");
        return;
    }
    struct call call = {.lsp = lsp, .arena = arena_new(), .params = params};
    json_t *result = NULL;
    run_method(&call, method, &result);
    if (call.code) {
        json_decref(result);
        send_error(lsp, id, call.code, call.words);
    } else {
        send_result(lsp, id, result);
    }
    arena_free(call.arena);
}

static void take_notification(struct lsp *lsp, const char *name, const json_t *params)
{
    const struct method *method = method_find(name);
    bool ends = strcmp(name, "exit") == 0;
    if (!method || !method->notifies || (lsp->life != LIFE_RUNNING && !ends))
        return;
    struct call call = {.lsp = lsp, .arena = arena_new(), .params = params};
    json_decref(method->handle(&call));
    arena_free(call.arena);
}

/* What the client answers to a request of ours. */
static void take_answer(struct lsp *lsp, const json_t *json)
{
    const json_t *id = json_object_get(json, "id");
    if (json_is_integer(id) && lsp->progress_asked == json_integer_value(id)) {
        lsp->progress_token = json_object_get(json, "error") ? 0 : lsp->progress_asked;
        lsp->progress_asked = 0;
    }
}

static bool is_id(const json_t *id)
{
    return json_is_string(id) || json_is_integer(id);
}

static void take_message(struct lsp *lsp, const struct message *message)
{
    const json_t *json = message->json, *id = json_object_get(json, "id");
    const char *name = json_string_value(json_object_get(json, "method"));
    const json_t *params = json_object_get(json, "params");
    if (name && is_id(id))
        answer_request(lsp, id, name, params, message->cancelled);
    else if (name && !id)
        take_notification(lsp, name, params);
    else if (json_object_get(json, "result") || json_object_get(json, "error"))
        take_answer(lsp, json);
    else
        send_error(lsp, is_id(id) ? id : NULL, ERROR_INVALID_REQUEST, "this is no request");
}

/* --- the row --- */

static void message_free(struct message *message)
{
    json_decref(message->json);
    g_free(message);
}

/* Marks the request called NUMBER, if it is still waiting. */
static void cancel(struct lsp *lsp, const json_t *number)
{
    for (GList *at = lsp->messages.head; at; at = at->next) {
        struct message *message = at->data;
        if (number && json_equal(json_object_get(message->json, "id"), number) &&
            json_object_get(message->json, "method"))
            message->cancelled = true;
    }
}

static void take_body(struct lsp *lsp, const char *body, size_t length)
{
    json_error_t error;
    json_t *json = json_loadb(body, length, JSON_ALLOW_NUL | JSON_DECODE_ANY, &error);
    if (!json) {
        send_error(lsp, NULL, ERROR_PARSE, "this is no JSON");
        return;
    }
    if (strcmp(member_words(json, "method"), "$/cancelRequest") == 0)
        cancel(lsp, member_at(json, "params.id"));
    struct message *message = g_new0(struct message, 1);
    message->json = json;
    g_queue_push_tail(&lsp->messages, message);
}

void lsp_feed(struct lsp *lsp, const char *bytes, size_t length)
{
    frames_add(&lsp->frames, bytes, length);
    const char *body;
    size_t size;
    for (;;) {
        switch (frames_take(&lsp->frames, &body, &size)) {
        case FRAME_NONE: return;
        case FRAME_BODY: take_body(lsp, body, size); break;
        case FRAME_BAD: send_error(lsp, NULL, ERROR_PARSE, "this is no header of a message"); break;
        }
    }
}

bool lsp_step(struct lsp *lsp)
{
    struct message *message = g_queue_pop_head(&lsp->messages);
    if (!message)
        return false;
    if (lsp->life != LIFE_ENDED)
        take_message(lsp, message);
    message_free(message);
    return true;
}

void lsp_set_today(struct lsp *lsp, const char *today)
{
    if (lsp->host.today && strcmp(lsp->host.today, today) == 0)
        return;
    lsp->host.today = arena_copy(lsp->arena, today, strlen(today));
    workspace_set_today(&lsp->workspace, lsp->host.today);
    lsp->unsettled = true;
}

void lsp_settle(struct lsp *lsp)
{
    if (lsp->life == LIFE_RUNNING && lsp->unsettled)
        publish_all(lsp);
    lsp->unsettled = false;
}

/* --- opening and closing --- */

struct lsp *lsp_open(const struct lsp_host *host)
{
    struct lsp *lsp = g_new0(struct lsp, 1);
    lsp->host = *host;
    lsp->arena = arena_new();
    g_queue_init(&lsp->messages);
    workspace_open(&lsp->workspace, host->share, host->today);
    return lsp;
}

void lsp_close(struct lsp *lsp)
{
    for (struct message *message; (message = g_queue_pop_head(&lsp->messages)) != NULL;)
        message_free(message);
    frames_free(&lsp->frames);
    workspace_close(&lsp->workspace);
    arena_free(lsp->arena);
    g_free(lsp);
}

bool lsp_has_ended(const struct lsp *lsp, int *status)
{
    *status = lsp->status;
    return lsp->life == LIFE_ENDED;
}

int lsp_end_status(const struct lsp *lsp)
{
    return lsp->life == LIFE_SHUT ? 0 : 1;
}
