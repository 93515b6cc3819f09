/* test_messages.c - messages that are no requests, come at the wrong time, or have another type in each of their places:
 * each is answered as the protocol wants it, or passed over, and the server works on. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <glib.h>
#include <jansson.h>
#include <stdlib.h>
#include <string.h>

#include "lsp/lsp.h"

static GString *said;
static char *share;

/* Notes what was said: of an error its id and code, of a result its id, of the rest the method. */
static void take(void *with, const char *bytes, size_t length)
{
    (void)with;
    const char *body = strstr(bytes, "\r\n\r\n") + 4;
    json_t *json = json_loadb(body, length - (size_t)(body - bytes), 0, NULL);
    assert_non_null(json);
    const char *method = json_string_value(json_object_get(json, "method"));
    char *id = json_dumps(json_object_get(json, "id"), JSON_ENCODE_ANY | JSON_COMPACT);
    const json_t *error = json_object_get(json, "error");
    if (method)
        g_string_append_printf(said, "%s;", method);
    else if (error)
        g_string_append_printf(said, "%s:%d;", id, (int)json_integer_value(json_object_get(error, "code")));
    else
        g_string_append_printf(said, "%s;", id);
    free(id);
    json_decref(json);
}

static struct lsp *open_server(void)
{
    share = g_canonicalize_filename("share", NULL);
    struct lsp *lsp = lsp_open(&(struct lsp_host){.share = share, .today = "2027-02-24", .version = "test", .write = take});
    said = g_string_new("");
    return lsp;
}

static void close_server(struct lsp *lsp)
{
    lsp_close(lsp);
    g_free(share);
    g_string_free(said, TRUE);
}

static void feed(struct lsp *lsp, const char *body)
{
    char *frame = g_strdup_printf("Content-Length: %zu\r\n\r\n%s", strlen(body), body);
    lsp_feed(lsp, frame, strlen(frame));
    g_free(frame);
}

static void work(struct lsp *lsp)
{
    while (lsp_step(lsp))
        continue;
}

/* What the server says to BODY. */
static const char *answer(struct lsp *lsp, const char *body)
{
    g_string_truncate(said, 0);
    feed(lsp, body);
    work(lsp);
    return said->str;
}

#define INITIALIZE(capabilities) "{\"id\":1,\"method\":\"initialize\",\"params\":{\"capabilities\":" capabilities "}}"
#define OPEN(text) "{\"method\":\"textDocument/didOpen\",\"params\":{\"textDocument\":{\"uri\":\"untitled:a\",\"version\":1,\"text\":" text "}}}"
#define SYMBOLS "{\"id\":7,\"method\":\"textDocument/documentSymbol\",\"params\":{\"textDocument\":{\"uri\":\"untitled:a\"}}}"

static void what_is_no_request_is_refused(void **state)
{
    static const char *const bodies[][2] = {
        {"nonsense", "null:-32700;"}, {"", "null:-32700;"},      {"5", "null:-32600;"},
        {"null", "null:-32600;"},     {"[]", "null:-32600;"},    {"\"x\"", "null:-32600;"},
        {"{}", "null:-32600;"},       {"{\"id\":1}", "1:-32600;"}, {"{\"id\":\"a\"}", "\"a\":-32600;"},
        {"{\"id\":{},\"method\":\"initialize\"}", "null:-32600;"},
        {"{\"id\":null,\"method\":\"initialize\"}", "null:-32600;"},
        {"{\"id\":1,\"method\":5}", "1:-32600;"},
        {"{\"id\":1,\"method\":\"textDocument/hover\"}", "1:-32002;"},
        {"{\"id\":\"b\",\"method\":\"no such\"}", "\"b\":-32002;"},
        {"{\"method\":\"no such\"}", ""},
        {OPEN("\"\""), ""},
        {"{\"id\":9,\"result\":null}", ""},
        {"{\"id\":9,\"error\":{}}", ""},
        {"{\"id\":\"c\",\"result\":true}", ""},
        {"{\"method\":\"$/cancelRequest\"}", ""},
        {"{\"method\":\"$/cancelRequest\",\"params\":[1]}", ""}};
    (void)state;
    struct lsp *lsp = open_server();
    for (size_t i = 0; i < sizeof bodies / sizeof *bodies; i++)
        assert_string_equal(answer(lsp, bodies[i][0]), bodies[i][1]);
    assert_string_equal(answer(lsp, INITIALIZE("{}")), "1;");
    assert_string_equal(answer(lsp, INITIALIZE("{}")), "1:-32600;");
    assert_string_equal(answer(lsp, "{\"id\":2,\"method\":\"no such\"}"), "2:-32601;");
    assert_string_equal(answer(lsp, "{\"id\":2,\"method\":\"initialized\"}"), "2:-32601;");
    assert_string_equal(answer(lsp, "{\"method\":\"textDocument/hover\"}"), "");
    assert_string_equal(answer(lsp, "{\"id\":3,\"method\":\"textDocument/hover\",\"params\":5}"), "3:-32602;");
    close_server(lsp);
}

static void a_client_may_say_what_it_can_in_any_type(void **state)
{
    static const char *const first[] = {
        "{\"id\":1,\"method\":\"initialize\"}",
        "{\"id\":1,\"method\":\"initialize\",\"params\":5}",
        INITIALIZE("[]"),
        INITIALIZE("{\"general\":{\"positionEncodings\":[5,\"utf-32\"]},\"textDocument\":5}"),
        INITIALIZE("{\"textDocument\":{\"codeAction\":{\"resolveSupport\":{\"properties\":[5,\"command\"]}},\"diagnostic\":true}}"),
        INITIALIZE("{\"textDocument\":{\"codeAction\":{\"dataSupport\":true,\"resolveSupport\":{\"properties\":\"edit\"}}}}"),
        "{\"id\":1,\"method\":\"initialize\",\"params\":{\"rootPath\":\"here\",\"workspaceFolders\":5}}",
        "{\"id\":1,\"method\":\"initialize\",\"params\":{\"rootPath\":\"/nowhere/at/all\",\"rootUri\":null}}",
        "{\"id\":1,\"method\":\"initialize\",\"params\":{\"rootUri\":\"http://here/\",\"workspaceFolders\":null}}",
        "{\"id\":1,\"method\":\"initialize\",\"params\":{\"workspaceFolders\":[{},5,{\"uri\":\"http://here/\"},{\"uri\":\"file:///nowhere\"}]}}",
        "{\"id\":1,\"method\":\"initialize\",\"params\":{\"initializationOptions\":{\"athlete\":5}}}",
        "{\"id\":1,\"method\":\"initialize\",\"params\":{\"initializationOptions\":{\"athlete\":\"Wren Holloway\"}}}"};
    (void)state;
    for (size_t i = 0; i < sizeof first / sizeof *first; i++) {
        struct lsp *lsp = open_server();
        assert_string_equal(answer(lsp, first[i]), "1;");
        assert_string_equal(answer(lsp, "{\"method\":\"initialized\",\"params\":{}}"), "");
        assert_string_equal(answer(lsp, OPEN("\"athlete A\\n\"")), "");
        assert_string_equal(answer(lsp, SYMBOLS), "7;");
        close_server(lsp);
    }
}

static void what_a_document_is_may_be_said_wrongly(void **state)
{
#define ABOUT(method, rest) "{\"method\":\"textDocument/" method "\",\"params\":{\"textDocument\":{\"uri\":\"untitled:a\",\"version\":2}," rest "}}"
    static const char *const odd[] = {
        OPEN("5"),
        "{\"method\":\"textDocument/didOpen\",\"params\":{\"textDocument\":{\"text\":\"\"}}}",
        "{\"method\":\"textDocument/didOpen\",\"params\":{\"textDocument\":{\"uri\":5,\"text\":\"\"}}}",
        "{\"method\":\"textDocument/didOpen\"}",
        "{\"method\":\"textDocument/didChange\",\"params\":{\"textDocument\":{\"uri\":\"untitled:b\"},\"contentChanges\":[]}}",
        ABOUT("didChange", "\"contentChanges\":5"),
        ABOUT("didChange", "\"contentChanges\":[5,{},{\"text\":5}]"),
        ABOUT("didChange", "\"contentChanges\":[{\"text\":\"x\",\"range\":{}}]"),
        ABOUT("didChange", "\"contentChanges\":[{\"text\":\"x\",\"range\":{\"start\":{\"line\":\"0\",\"character\":0},\"end\":{\"line\":0,\"character\":0}}}]"),
        "{\"method\":\"textDocument/didClose\",\"params\":{\"textDocument\":{\"uri\":\"untitled:b\"}}}",
        "{\"method\":\"textDocument/didClose\",\"params\":[]}",
        "{\"method\":\"textDocument/didSave\",\"params\":{\"textDocument\":{\"uri\":\"untitled:b\"}}}",
        "{\"method\":\"workspace/didChangeWorkspaceFolders\",\"params\":{\"event\":{\"added\":[5,{\"uri\":\"http://here\"}],\"removed\":[{},{\"uri\":\"file:///nowhere\"}]}}}",
        "{\"method\":\"workspace/didChangeWorkspaceFolders\"}",
        "{\"method\":\"workspace/didChangeConfiguration\",\"params\":{\"settings\":5}}",
        "{\"method\":\"workspace/didChangeConfiguration\",\"params\":{\"settings\":{\"bellsheet\":[]}}}",
        "{\"method\":\"workspace/didChangeConfiguration\",\"params\":{\"settings\":{\"bellsheet\":{\"athlete\":5}}}}"};
    (void)state;
    struct lsp *lsp = open_server();
    answer(lsp, INITIALIZE("{}"));
    answer(lsp, OPEN("\"athlete A\\nathlete A\\n\""));
    lsp_settle(lsp);
    assert_string_equal(said->str, "textDocument/publishDiagnostics;");
    for (size_t i = 0; i < sizeof odd / sizeof *odd; i++) {
        assert_string_equal(answer(lsp, odd[i]), "");
        assert_string_equal(answer(lsp, SYMBOLS), "7;"); /* the document is still there */
    }
    /* Opened twice, it is what was said last; without a range a change is of the whole. */
    answer(lsp, OPEN("\"athlete B\\nathlete C\\n\""));
    answer(lsp, ABOUT("didChange", "\"contentChanges\":[{\"text\":\"athlete D\\n\",\"range\":null}]"));
    g_string_truncate(said, 0);
    lsp_settle(lsp);
    assert_string_equal(said->str, "textDocument/publishDiagnostics;");
    assert_string_equal(answer(lsp, "{\"method\":\"textDocument/didClose\",\"params\":{\"textDocument\":{\"uri\":\"untitled:a\"}}}"), "");
    assert_string_equal(answer(lsp, SYMBOLS), "7:-32602;");
    close_server(lsp);
}

static void a_token_of_any_type_asks_for_progress(void **state)
{
#define WITH(token) "{\"id\":7,\"method\":\"workspace/symbol\",\"params\":{\"query\":\"\",\"workDoneToken\":" token "}}"
    (void)state;
    struct lsp *lsp = open_server();
    answer(lsp, INITIALIZE("{}"));
    assert_string_equal(answer(lsp, WITH("\"t\"")), "$/progress;$/progress;7;");
    assert_string_equal(answer(lsp, WITH("5")), "$/progress;$/progress;7;");
    assert_string_equal(answer(lsp, WITH("{}")), "7;");
    assert_string_equal(answer(lsp, "{\"method\":\"textDocument/didSave\",\"params\":{\"workDoneToken\":5}}"), "");
    close_server(lsp);
}

/* Of its own it asks for a token, once; a client that gives none is asked again after the next change of mind. */
static void a_client_may_refuse_a_token(void **state)
{
    (void)state;
    struct lsp *lsp = open_server();
    answer(lsp, INITIALIZE("{\"window\":{\"workDoneProgress\":true}}"));
    assert_string_equal(answer(lsp, "{\"method\":\"initialized\",\"params\":{}}"), "window/workDoneProgress/create;");
    assert_string_equal(answer(lsp, "{\"method\":\"initialized\",\"params\":{}}"), "");
    assert_string_equal(answer(lsp, "{\"id\":\"1\",\"result\":null}"), "");
    assert_string_equal(answer(lsp, "{\"id\":2,\"result\":true}"), "");
    assert_string_equal(answer(lsp, "{\"id\":1,\"error\":{\"code\":-32601,\"message\":\"no\"}}"), "");
    answer(lsp, OPEN("\"athlete A\\n\""));
    g_string_truncate(said, 0);
    lsp_settle(lsp);
    assert_string_equal(said->str, "textDocument/publishDiagnostics;");
    close_server(lsp);
}

static void what_waits_can_be_cancelled_and_is_freed_at_the_end(void **state)
{
    (void)state;
    struct lsp *lsp = open_server();
    answer(lsp, INITIALIZE("{}"));
    answer(lsp, OPEN("\"athlete A\\n\""));
    g_string_truncate(said, 0);
    feed(lsp, SYMBOLS);
    feed(lsp, "{\"id\":8,\"method\":\"workspace/symbol\",\"params\":{\"query\":\"\"}}");
    feed(lsp, "{\"id\":7,\"result\":null}"); /* an answer of the client's has that number, too */
    feed(lsp, "{\"method\":\"$/cancelRequest\",\"params\":{\"id\":7}}");
    feed(lsp, "{\"method\":\"$/cancelRequest\",\"params\":{\"id\":\"8\"}}");
    work(lsp);
    assert_string_equal(said->str, "7:-32800;8;");
    assert_string_equal(answer(lsp, "{\"id\":9,\"method\":\"shutdown\"}"), "9;");
    assert_string_equal(answer(lsp, SYMBOLS), "7:-32600;");
    assert_string_equal(answer(lsp, OPEN("\"\"")), "");
    int status = -1;
    assert_false(lsp_has_ended(lsp, &status));
    assert_string_equal(answer(lsp, "{\"method\":\"exit\"}"), "");
    assert_true(lsp_has_ended(lsp, &status));
    assert_int_equal(status, 0);
    assert_string_equal(answer(lsp, SYMBOLS), "");
    feed(lsp, SYMBOLS);
    close_server(lsp);
}

static void a_day_that_stays_changes_nothing(void **state)
{
    (void)state;
    struct lsp *lsp = open_server();
    answer(lsp, INITIALIZE("{}"));
    answer(lsp, OPEN("\"athlete A\\n\""));
    lsp_settle(lsp);
    g_string_truncate(said, 0);
    lsp_set_today(lsp, "2027-02-24");
    lsp_settle(lsp);
    assert_string_equal(said->str, "");
    lsp_set_today(lsp, "2027-02-25");
    lsp_settle(lsp);
    assert_string_equal(answer(lsp, SYMBOLS), "7;");
    close_server(lsp);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_is_no_request_is_refused),
        cmocka_unit_test(a_client_may_say_what_it_can_in_any_type),
        cmocka_unit_test(what_a_document_is_may_be_said_wrongly),
        cmocka_unit_test(a_token_of_any_type_asks_for_progress),
        cmocka_unit_test(a_client_may_refuse_a_token),
        cmocka_unit_test(what_waits_can_be_cancelled_and_is_freed_at_the_end),
        cmocka_unit_test(a_day_that_stays_changes_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
