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

/* Asks at the start of every word of the public file, which holds TEXT. */
static void ask_everywhere(struct listener *listener, const char *text)
{
    gchar **lines = g_strsplit(text, "\n", -1);
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
    ask_everywhere(&listener, PUBLIC);
    tell_opened(&listener, uri, unsaved);
    ask_everywhere(&listener, PUBLIC);
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

/* --- who is hurt --- */

/* The athletes' file, in which the first or the second of two who are alike may not do this and that. */
static char *athletes_text(bool second)
{
    static const char *const names[] = {"Wren Holloway", "Ines Corvane"};
    GString *text = g_string_new("gym Slipway\n    barbells 2 x 20 kg\n    plates 4 x 20, 4 x 10, 4 x 5, 4 x 2.5 kg\n"
                                 "    kettlebells 2 x 12, 2 x 16, 20 kg\n    stations rack, pull-up bar\n");
    for (int i = 0; i < 2; i++)
        g_string_append_printf(text, "athlete %s\n    stance orthodox\n    lifting since 2020-01\n    trains at Slipway\n"
                                     "    bests\n        back squat : 1 @ 90 kg on 2027-02-20\n    %s\n        %s\n",
                               names[i], (i == 1) == second ? "avoid overhead" : "# an empty line, as it were",
                               (i == 1) == second ? "because the physio says so" : "# and another one");
    return g_string_free(text, FALSE);
}

static const char SESSIONS[] = "session Strength day\n"
                               "    straight A   3 sets rest 1:30\n"
                               "        back squat        : 5 @ 60 kg\n"
                               "        romanian deadlift : 8 @ 60 kg\n"
                               "        overhead press    : 5 @ 30 kg\n"
                               "        push-up           : 8\n"
                               "limits Own\n"
                               "    every week\n"
                               "        sets  at most 3\n"
                               "camp Spring\n"
                               "    limits    Own\n"
                               "    for       Wren Holloway, Ines Corvane\n"
                               "    starts    2027-03-01\n"
                               "    weeks 1-2\n"
                               "        monday    17:30  Strength day\n";

/* All that is answered about the sessions' file, and told of it. */
struct answers {
    GString *text;
};

static void take_answer(void *with, const char *bytes, size_t length)
{
    struct answers *answers = with;
    char *said = g_strndup(bytes, length);
    const char *body = strstr(said, "\r\n\r\n");
    if (!strstr(said, "publishDiagnostics") || strstr(said, "sessions.bell\",\""))
        g_string_append(answers->text, body ? body : said);
    g_free(said);
}

/* TEXT, which is freed, without whom the neutral sentence names, which says no more, and without hashes of it. */
static char *masked(char *text)
{
    GRegex *regex = g_regex_new("(?<=this work is not for )(Wren Holloway|Ines Corvane)|(?<=\"resultId\":\")[0-9a-f]+", 0, 0, NULL);
    char *made = g_regex_replace_literal(regex, text, -1, 0, "X", 0, NULL);
    g_regex_unref(regex);
    g_free(text);
    return made;
}

/* What every request at every word of the sessions' file gets, where the first or the second of the athletes is hurt. */
static char *answers_when(const char *folder, bool second)
{
    struct answers answers = {g_string_new(NULL)};
    char *here = g_get_current_dir(), *share = g_build_filename(here, "share", NULL), *athletes = athletes_text(second);
    char *uri = save(folder, "sessions.bell", SESSIONS), *other = save(folder, "athletes.bell", athletes);
    char *root = g_filename_to_uri(folder, NULL, NULL);
    const struct lsp_host host = {.share = share, .today = "2027-03-01", .version = "test", .write = take_answer,
                                  .with = &answers};
    struct listener listener = {.uri = uri, .lsp = lsp_open(&host)};
    tell(&listener, "initialize", json_pack("{s:n,s:{},s:s}", "processId", "capabilities", "rootUri", root), 1);
    tell_opened(&listener, uri, SESSIONS);
    ask_everywhere(&listener, SESSIONS);
    lsp_close(listener.lsp);
    char *all[] = {here, share, athletes, uri, other, root};
    for (size_t i = 0; i < sizeof all / sizeof *all; i++)
        g_free(all[i]);
    return masked(g_string_free(answers.text, FALSE));
}

/* Where others read, nothing else tells which of the two it is: not a word, not a place in a list. */
static void who_is_hurt_is_not_told(void **state)
{
    (void)state;
    char *folder = g_dir_make_tmp("private-XXXXXX", NULL);
    char *first = answers_when(folder, false), *second = answers_when(folder, true);
    assert_non_null(strstr(first, "this work is not for X")); /* something is found */
    assert_string_equal(first, second);
    char *sessions = g_build_filename(folder, "sessions.bell", NULL), *athletes = g_build_filename(folder, "athletes.bell", NULL);
    g_remove(sessions);
    g_remove(athletes);
    g_rmdir(folder);
    char *all[] = {folder, first, second, sessions, athletes};
    for (size_t i = 0; i < sizeof all / sizeof *all; i++)
        g_free(all[i]);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(nothing_comes_out), cmocka_unit_test(who_is_hurt_is_not_told)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
