/* Every fix that a golden message brings is an action, and the edit of that action makes the finding go. */
#include <stdarg.h>
#include <stddef.h>
#include <setjmp.h>
#include <stdint.h>
#include <cmocka.h>

#include <bellsheet/bellsheet.h>
#include <glib.h>
#include <jansson.h>
#include <stdlib.h>
#include <string.h>

#include "lsp/lsp.h"
#include "lsp/page.h"

struct plan {
    char *path, *uri, *text, *share, today[16];
    struct lsp *lsp;
    json_t *answer; /* what the server answered last */
};

static void take_message(void *with, const char *bytes, size_t length)
{
    struct plan *plan = with;
    const char *body = strstr(bytes, "\r\n\r\n") + 4;
    json_error_t error;
    json_t *json = json_loadb(body, length - (size_t)(body - bytes), 0, &error);
    assert_non_null(json);
    if (json_object_get(json, "result")) {
        json_decref(plan->answer);
        plan->answer = json_incref(json_object_get(json, "result"));
    }
    json_decref(json);
}

static void tell(struct plan *plan, const char *method, json_t *params, int id)
{
    json_t *message = json_pack("{s:s,s:s,s:o}", "jsonrpc", "2.0", "method", method, "params", params);
    if (id)
        json_object_set_new(message, "id", json_integer(id));
    char *body = json_dumps(message, JSON_COMPACT), *frame = g_strdup_printf("Content-Length: %zu\r\n\r\n%s", strlen(body), body);
    lsp_feed(plan->lsp, frame, strlen(frame));
    while (lsp_step(plan->lsp))
        continue;
    json_decref(message);
    free(body);
    g_free(frame);
}

/* The plan stands alone, for the workspace is elsewhere. */
static void plan_open(struct plan *plan)
{
    const struct lsp_host host = {.share = plan->share, .today = plan->today, .version = "test", .write = take_message,
                                  .with = plan};
    plan->lsp = lsp_open(&host);
    tell(plan, "initialize", json_pack("{s:n,s:{},s:s}", "processId", "capabilities", "rootUri", "file:///nowhere"), 1);
    tell(plan, "textDocument/didOpen",
         json_pack("{s:{s:s,s:i,s:s}}", "textDocument", "uri", plan->uri, "version", 1, "text", plan->text), 0);
}

/* How many findings are called NAME once TEXT stands in place of the plan. */
static size_t count_of(struct bell_session *session, const char *path, const char *text, const char *name)
{
    size_t count = 0;
    assert_int_equal(bell_overlay(session, path, text, strlen(text), 1), BELL_OK);
    assert_int_equal(bell_compile(session), BELL_OK);
    for (size_t i = 0; i < bell_finding_count(session); i++)
        count += strcmp(bell_finding(session, i)->id, name) == 0;
    return count;
}

/* TEXT with the only edit of EDIT made. */
static char *edited(const struct plan *plan, const json_t *edit)
{
    struct arena *arena = arena_new();
    const json_t *edits = json_object_get(json_object_get(edit, "changes"), plan->uri), *one = json_array_get(edits, 0);
    struct page page = page_make(arena, plan->text, strlen(plan->text), ENCODING_UTF16);
    size_t start, end;
    char *text = NULL;
    if (json_array_size(edits) == 1 && page_read_range(&page, json_object_get(one, "range"), &start, &end))
        text = g_strdup_printf("%.*s%s%s", (int)start, plan->text, json_string_value(json_object_get(one, "newText")),
                               plan->text + end);
    arena_free(arena);
    return text;
}

/* Is there an action at PLACE after which fewer than BEFORE findings are called NAME? */
static bool is_mended(struct plan *plan, struct bell_session *other, const struct bell_place *place, const char *name,
                      size_t before)
{
    json_t *range = json_pack("{s:{s:i,s:i},s:{s:i,s:i}}", "start", "line", (int)place->line - 1, "character",
                              (int)place->column - 1, "end", "line", (int)place->end_line - 1, "character",
                              (int)place->end_column - 1);
    tell(plan, "textDocument/codeAction",
         json_pack("{s:{s:s},s:o,s:{s:[],s:[s]}}", "textDocument", "uri", plan->uri, "range", range, "context", "diagnostics",
                   "only", "quickfix"), 2);
    bool mended = false;
    for (size_t i = 0; i < json_array_size(plan->answer) && !mended; i++) {
        const json_t *action = json_array_get(plan->answer, i);
        char *text = edited(plan, json_object_get(action, "edit"));
        mended = text && count_of(other, plan->path, text, name) < before;
        g_free(text);
    }
    return mended;
}

/* Tries the fixes of the plan at PATH; returns how many there are. */
static size_t try_plan(const char *folder, const char *name, const char *share)
{
    struct plan plan = {.path = g_build_filename(folder, name, NULL), .share = g_strdup(share), .today = "2027-03-01"};
    struct bell_session *session, *other = NULL; /* most plans have no fix, and need no other */
    size_t tried = 0;
    assert_true(g_file_get_contents(plan.path, &plan.text, NULL, NULL));
    const char *date = strstr(plan.text, "# date: ");
    if (date)
        g_strlcpy(plan.today, date + strlen("# date: "), sizeof "2027-03-01");
    plan.uri = g_filename_to_uri(plan.path, NULL, NULL);
    const struct bell_options options = {.share = plan.share, .today = plan.today};
    assert_int_equal(bell_open(&options, &session), BELL_OK);
    bell_add_path(session, plan.path);
    bool readable = bell_compile(session) == BELL_OK && g_utf8_validate(plan.text, -1, NULL);
    for (size_t i = 0; readable && i < bell_finding_count(session); i++) {
        const struct bell_finding *finding = bell_finding(session, i);
        if (!finding->replacement || finding->for_coach || strcmp(finding->edit.path, plan.path) != 0)
            continue;
        if (!plan.lsp) {
            plan_open(&plan);
            assert_int_equal(bell_open(&options, &other), BELL_OK);
            bell_add_path(other, plan.path);
        }
        size_t before = count_of(other, plan.path, plan.text, finding->id);
        if (!is_mended(&plan, other, &finding->place, finding->id, before))
            fail_msg("%s: no action mends %s", name, finding->id);
        tried++;
    }
    if (plan.lsp) {
        lsp_close(plan.lsp);
        bell_close(other);
    }
    bell_close(session);
    json_decref(plan.answer);
    g_free(plan.path);
    g_free(plan.uri);
    g_free(plan.text);
    g_free(plan.share);
    return tried;
}

static void try_folder(const char *below, size_t wanted)
{
    char *here = g_get_current_dir(), *share = g_build_filename(here, "share", NULL);
    char *folder = g_build_filename(here, "tests/golden", below, NULL);
    GDir *entries = g_dir_open(folder, 0, NULL);
    size_t tried = 0;
    assert_non_null(entries);
    for (const char *name; (name = g_dir_read_name(entries)) != NULL;)
        if (g_str_has_suffix(name, ".bell"))
            tried += try_plan(folder, name, share);
    g_dir_close(entries);
    assert_true(tried >= wanted);
    g_free(here);
    g_free(share);
    g_free(folder);
}

static void test_messages(void **state)
{
    (void)state;
    try_folder("messages", 70);
}

static void test_checks(void **state)
{
    (void)state;
    try_folder("checks", 2);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_messages), cmocka_unit_test(test_checks)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
