/* Random words and figures of a private file, saved and unsaved: every request is made at every word of the other files,
 * and none of them comes out. */
#include <stdarg.h>
#include <stddef.h>
#include <setjmp.h>
#include <stdint.h>
#include <cmocka.h>

#include <glib.h>
#include <glib/gstdio.h>
#include <jansson.h>
#include <stdlib.h>
#include <string.h>

#include "lsp/lsp.h"

static const char PUBLIC[] = "gym Slipway\n"
                             "    barbells    2 x 20 kg\n"
                             "    plates      4 x 20, 4 x 10, 4 x 5, 4 x 2.5, 4 x 1.25 kg\n"
                             "    kettlebells 2 x 12, 2 x 16, 20 kg\n"
                             "    stations    rack, pull-up bar\n"
                             "athlete Mateus Quillfeather\n"
                             "    stance        southpaw\n"
                             "    trains at     Slipway\n"
                             "    bests\n"
                             "        back squat : 1 @ 90 kg on 2027-02-20\n"
                             "session Strength day\n"
                             "    straight A   3 sets rest 1:30\n"
                             "        back squat   : 5 @ 70/75%\n"
                             "        goblet squat : 8 @ 20% of body mass + 4 kg\n"
                             "        chin-up      : 5 @ body mass\n"
                             "limits Own\n"
                             "    every week\n"
                             "        sets                   at most 3\n"
                             "        tonnage with body mass at most 400 kg\n"
                             "camp Spring\n"
                             "    for       Mateus Quillfeather\n"
                             "    starts    2027-03-01\n"
                             "    limits    Own\n"
                             "    weeks 1-2\n"
                             "        monday    17:30  Strength day\n";

enum { WORDS = 60, MASSES = 20 };

struct private_words {
    GPtrArray *tokens; /* that must not come out */
    GRand *dice;
};

/* A new token, kept. */
static const char *coin(struct private_words *words, bool figure)
{
    char *token;
    if (figure) {
        token = g_strdup_printf("%d.%d%d", g_rand_int_range(words->dice, 45, 120), g_rand_int_range(words->dice, 0, 10),
                                g_rand_int_range(words->dice, 1, 10));
    } else {
        token = g_strnfill(9, 'q');
        for (int i = 1; i < 9; i++)
            token[i] = (char)('a' + g_rand_int_range(words->dice, 0, 26));
    }
    g_ptr_array_add(words->tokens, token);
    return token;
}

static char *private_text(struct private_words *words)
{
    GString *text = g_string_new("private Mateus Quillfeather\n");
    for (int i = 0; i < MASSES; i++)
        g_string_append_printf(text, "    body mass %s kg on 2027-01-%02d\n", coin(words, true), i + 1);
    for (int i = 0; i < WORDS; i++)
        g_string_append_printf(text, "    # %s\n    avoid neck\n        because %s\n", coin(words, false), coin(words, false));
    for (int i = 0; i < WORDS; i++)
        g_string_append_printf(text, "    avoid overhead\n        because %s\n        ended by %s on 2027-02-%02d\n",
                               coin(words, false), coin(words, false), i % 28 + 1);
    g_string_append_printf(text, "    suspended by %s\n        since 2027-01-02\n    away from 2027-01-04 to 2027-01-06\n        because %s\n"
                                 "    hold head\n        since 2027-01-20\n        agreed by %s on 2027-01-22\n",
                           coin(words, false), coin(words, false), coin(words, false));
    g_string_append_printf(text, "exercise %s\n    kind strength\n    pattern pull\n    cue %s\n", coin(words, false),
                           coin(words, false));
    return g_string_free(text, FALSE);
}

/* --- the server --- */

struct listener {
    const struct private_words *words;
    struct lsp *lsp;
    char *uri; /* of the public file */
    size_t heard;
    bool allowed; /* what is asked is about the private file itself */
    size_t found;
};

static void take_message(void *with, const char *bytes, size_t length)
{
    struct listener *listener = with;
    char *said = g_strndup(bytes, length);
    bool own = strstr(said, "publishDiagnostics") && strstr(said, "private.bell\",\"");
    for (guint i = 0; i < listener->words->tokens->len && !own; i++) {
        bool found = strstr(said, g_ptr_array_index(listener->words->tokens, i)) != NULL;
        listener->found += found;
        if (found && !listener->allowed)
            fail_msg("%s came out: %s", (const char *)g_ptr_array_index(listener->words->tokens, i), said);
    }
    listener->heard += length;
    g_free(said);
}

static void tell(struct listener *listener, const char *method, json_t *params, int id)
{
    json_t *message = json_pack("{s:s,s:s,s:o}", "jsonrpc", "2.0", "method", method, "params", params);
    if (id)
        json_object_set_new(message, "id", json_integer(id));
    char *body = json_dumps(message, JSON_COMPACT), *frame = g_strdup_printf("Content-Length: %zu\r\n\r\n%s", strlen(body), body);
    lsp_feed(listener->lsp, frame, strlen(frame));
    while (lsp_step(listener->lsp))
        continue;
    json_decref(message);
    free(body);
    g_free(frame);
}

static void tell_opened(struct listener *listener, const char *uri, const char *text)
{
    tell(listener, "textDocument/didOpen",
         json_pack("{s:{s:s,s:i,s:s}}", "textDocument", "uri", uri, "version", 1, "text", text), 0);
}

static void ask_all(struct listener *listener, int line, int character)
{
    static const char *const methods[] = {"hover", "completion", "signatureHelp", "definition", "references",
                                          "documentHighlight", "inlayHint", "codeAction", "codeLens", "documentSymbol",
                                          "selectionRange", "prepareRename", "formatting", "diagnostic"};
    for (size_t i = 0; i < sizeof methods / sizeof *methods; i++) {
        char *method = g_strdup_printf("textDocument/%s", methods[i]);
        json_t *place = json_pack("{s:i,s:i}", "line", line, "character", character);
        tell(listener, method,
             json_pack("{s:{s:s},s:O,s:[O],s:{s:O,s:O}}", "textDocument", "uri", listener->uri, "position", place,
                       "positions", place, "range", "start", place, "end", place), 2);
        json_decref(place);
        g_free(method);
    }
}

/* Asks at the start of every word of the public file. */
static void ask_everywhere(struct listener *listener)
{
    gchar **lines = g_strsplit(PUBLIC, "\n", -1);
    for (int line = 0; lines[line]; line++)
        for (int at = 1; lines[line][at - 1] && lines[line][at]; at++)
            if (lines[line][at - 1] == ' ' && lines[line][at] != ' ')
                ask_all(listener, line, at + 1);
    g_strfreev(lines);
    tell(listener, "workspace/symbol", json_pack("{s:s}", "query", ""), 3);
    lsp_settle(listener->lsp);
}

static char *save(const char *folder, const char *name, const char *text)
{
    char *path = g_build_filename(folder, name, NULL), *uri = g_filename_to_uri(path, NULL, NULL);
    assert_true(g_file_set_contents(path, text, -1, NULL));
    g_free(path);
    return uri;
}

static void nothing_comes_out(void **state)
{
    (void)state;
    struct private_words words = {g_ptr_array_new_with_free_func(g_free), g_rand_new_with_seed(17)};
    char *here = g_get_current_dir(), *share = g_build_filename(here, "share", NULL);
    char *folder = g_dir_make_tmp("private-XXXXXX", NULL), *saved = private_text(&words), *unsaved = private_text(&words);
    struct listener listener = {.words = &words, .uri = save(folder, "plan.bell", PUBLIC)};
    char *uri = save(folder, "private.bell", saved), *root = g_filename_to_uri(folder, NULL, NULL);
    const struct lsp_host host = {.share = share, .today = "2027-03-01", .version = "test", .write = take_message,
                                  .with = &listener};
    listener.lsp = lsp_open(&host);
    tell(&listener, "initialize", json_pack("{s:n,s:{},s:s}", "processId", "capabilities", "rootUri", root), 1);
    tell_opened(&listener, listener.uri, PUBLIC);
    ask_everywhere(&listener);
    tell_opened(&listener, uri, unsaved);
    ask_everywhere(&listener);
    /* About itself it tells, so the search finds what is there. */
    listener.allowed = true;
    tell(&listener, "textDocument/documentSymbol", json_pack("{s:{s:s}}", "textDocument", "uri", uri), 4);
    assert_true(listener.found > 0);
    lsp_close(listener.lsp);
    assert_true(listener.heard > 100000);
    char *path = g_filename_from_uri(uri, NULL, NULL), *plan = g_filename_from_uri(listener.uri, NULL, NULL);
    g_remove(path);
    g_remove(plan);
    g_rmdir(folder);
    char *all[] = {here, share, folder, saved, unsaved, listener.uri, uri, root, path, plan};
    for (size_t i = 0; i < sizeof all / sizeof *all; i++)
        g_free(all[i]);
    g_ptr_array_free(words.tokens, TRUE);
    g_rand_free(words.dice);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(nothing_comes_out)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
