/* Every statement of kinds.def is offered at every place where it may stand: the lines above it are made from the same table,
 * so that a new row has its completion, or this says which has not. */
#include <stdarg.h>
#include <stddef.h>
#include <setjmp.h>
#include <stdint.h>
#include <cmocka.h>

#include <glib.h>
#include <jansson.h>
#include <stdlib.h>
#include <string.h>

#include "lsp/lsp.h"
#include "syntax/phrases.h"

struct row {
    const char *phrases;
    int places, opens;
    const char *form;
};

#define STATEMENT(id, phrases, places, form, opens) {phrases, places, opens, #form},
static const struct row rows[] = {
#include "syntax/kinds.def"
};
#undef STATEMENT

struct example {
    const char *form, *parts, *words;
};

#define FORM(id, parts, stops, example) {#id, parts, example},
static const struct example examples[] = {
#include "syntax/kinds.def"
};
#undef FORM

struct editor {
    struct lsp *lsp;
    json_t *answer;
    int asked, version;
};

static void take_message(void *with, const char *bytes, size_t length)
{
    struct editor *editor = with;
    const char *body = strstr(bytes, "\r\n\r\n") + 4;
    json_t *json = json_loadb(body, length - (size_t)(body - bytes), 0, NULL);
    assert_non_null(json);
    if (json_object_get(json, "id") && !json_object_get(json, "method")) {
        json_decref(editor->answer);
        editor->answer = json_incref(json_object_get(json, "result"));
    }
    json_decref(json);
}

static void tell(struct editor *editor, const char *method, json_t *params, bool asks)
{
    json_t *message = json_pack("{s:s,s:s,s:o}", "jsonrpc", "2.0", "method", method, "params", params);
    if (asks)
        json_object_set_new(message, "id", json_integer(++editor->asked));
    char *body = json_dumps(message, JSON_COMPACT), *frame = g_strdup_printf("Content-Length: %zu\r\n\r\n%s", strlen(body), body);
    lsp_feed(editor->lsp, frame, strlen(frame));
    while (lsp_step(editor->lsp))
        continue;
    json_decref(message);
    free(body);
    g_free(frame);
}

/* --- lines --- */

static const struct example *example_of(const struct row *row)
{
    for (size_t i = 0; i < sizeof examples / sizeof *examples; i++)
        if (strcmp(examples[i].form, row->form) == 0)
            return &examples[i];
    fail_msg("there is no form %s", row->form);
    return NULL;
}

/* A row that opens PLACE, as high up in a file as there is one. */
static const struct row *opener(int place)
{
    const struct row *found = NULL;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        if (rows[i].opens == place && !(rows[i].places & place) && (!found || rows[i].places & IN_FILE))
            found = &rows[i];
    return found;
}

/* Adds a line of ROW and those above it to TEXT; returns how deep what stands below it is. */
static int add_lines(GString *text, const struct row *row)
{
    const struct example *example = example_of(row);
    int place = row->places & -row->places, depth = place == IN_FILE ? 0 : add_lines(text, opener(place));
    const char *words = *row->phrases ? *example->words ? example->words : "Wren Holloway" : "push-up : 5";
    g_string_append_printf(text, "%*s", 4 * depth, "");
    if (*row->phrases && *row->phrases != '#' && *example->parts != '!')
        g_string_append_printf(text, "%.*s ", (int)strcspn(row->phrases, "|"), row->phrases);
    g_string_append_printf(text, "%s\n", words);
    return depth + 1;
}

/* --- asking --- */

static bool is_offered(const json_t *answer, const char *phrase, size_t length)
{
    const json_t *items = json_is_array(answer) ? answer : json_object_get(answer, "items");
    for (size_t i = 0; i < json_array_size(items); i++) {
        const char *label = json_string_value(json_object_get(json_array_get(items, i), "label"));
        if (strlen(label) == length && strncmp(label, phrase, length) == 0)
            return true;
    }
    return false;
}

/* Is ROW offered on an empty line at PLACE? */
static bool try_place(struct editor *editor, const struct row *row, int place)
{
    GString *text = g_string_new("");
    int depth = place == IN_FILE ? 0 : add_lines(text, opener(place)), lines = 0;
    for (const char *at = text->str; *at; at++)
        lines += *at == '\n';
    g_string_append_printf(text, "%*s", 4 * depth, "");
    tell(editor, "textDocument/didChange",
         json_pack("{s:{s:s,s:i},s:[{s:s}]}", "textDocument", "uri", "untitled:plan", "version", ++editor->version,
                   "contentChanges", "text", text->str), false);
    tell(editor, "textDocument/completion",
         json_pack("{s:{s:s},s:{s:i,s:i}}", "textDocument", "uri", "untitled:plan", "position", "line", lines, "character",
                   4 * depth), true);
    bool found = is_offered(editor->answer, row->phrases, strcspn(row->phrases, "|"));
    if (!found)
        print_message("`%s` is not offered below\n%s\n", row->phrases, text->str);
    g_string_free(text, TRUE);
    return found;
}

static void test_every_statement(void **state)
{
    (void)state;
    struct editor editor = {.version = 1};
    const struct lsp_host host = {.share = "share", .today = "2027-03-01", .version = "test", .write = take_message,
                                  .with = &editor};
    editor.lsp = lsp_open(&host);
    tell(&editor, "initialize", json_pack("{s:n,s:{}}", "processId", "capabilities"), true);
    tell(&editor, "textDocument/didOpen",
         json_pack("{s:{s:s,s:s,s:i,s:s}}", "textDocument", "uri", "untitled:plan", "languageId", "bell", "version", 1, "text",
                   ""), false);
    size_t tried = 0, missing = 0;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        for (int bit = 0; bit < PLACES; bit++) {
            const char *phrase = rows[i].phrases;
            if (!(rows[i].places & 1 << bit) || !*phrase || *phrase == '#')
                continue;
            missing += !try_place(&editor, &rows[i], 1 << bit);
            tried++;
        }
    assert_int_equal(missing, 0);
    assert_true(tried > 150);
    lsp_close(editor.lsp);
    json_decref(editor.answer);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_every_statement)};
    return cmocka_run_group_tests_name("completion of statements", tests, NULL, NULL);
}
