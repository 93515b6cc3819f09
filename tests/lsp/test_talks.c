/* Conversations with the language server: each *.talk beside this file.
 *
 *     --- NAME             begins a file of the club; `--- unsaved NAME` one that is open and not on the disk
 *     --- talk             begins what is said:
 *     start [JSON]         the first requests; JSON is what the client can do. What is offered is shown where it shows windows;
 *                          with "alone" in it there is no workspace
 *     open, close NAME     of a file; `delete NAME` takes it from the disk, `write NAME OTHER` puts the text of OTHER there,
 *                          `link NAME OTHER` a link to OTHER
 *     type NAME OLD => NEW puts NEW in place of the first OLD of what is open; \n is a line end
 *     settle               lets the server tell what has changed
 *     ask METHOD <NAME MARK> JSON     a request about a place, where ‸ stands in MARK; two of them are a range
 *                          HERE in JSON is the folder
 *     complete <NAME MARK> the labels that are offered there
 *     feed METHOD ...      the same without waiting for the answer; `tell` one that none is due to. A METHOD without a slash is
 *                          one of textDocument/
 *     today DAY            from now on it is another day
 *     words                from now on shows what is found in its words, too
 *     raw BYTES            are fed as they are, with \r and \n
 *     > what the server answered: UPDATE=1 writes these lines anew
 */
#include <stdarg.h>
#include <stddef.h>
#include <setjmp.h>
#include <stdint.h>
#include <stdbool.h>
#include <cmocka.h>

#include <glib.h>
#include <glib/gstdio.h>
#include <jansson.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "lsp/lsp.h"

static const char MARK[] = "‸", FOLDER[] = "tests/lsp";

struct page_open {
    char *name, *text;
    int version; /* 0: it is not open */
};

struct talk {
    char *folder;   /* of the club */
    char *share;
    GPtrArray *files; /* of struct page_open */
    struct lsp *lsp;
    GString *said;  /* what has come since it was last written out */
    bool utf8;
    bool words; /* what is found is shown in its words, not by its name alone */
    int asked;
};

static struct page_open *find_file(struct talk *talk, const char *name)
{
    for (guint i = 0; i < talk->files->len; i++) {
        struct page_open *file = g_ptr_array_index(talk->files, i);
        if (strcmp(file->name, name) == 0)
            return file;
    }
    fail_msg("there is no file %s", name);
    return NULL;
}

/* --- what the server says --- */

/* The name of the file that URI leads to. */
static const char *short_name(const struct talk *talk, const char *uri)
{
    const char *at = strstr(uri, talk->folder);
    return at ? at + strlen(talk->folder) + 1 : uri;
}

static void add_range(GString *out, const json_t *range)
{
    int figures[4];
    json_unpack((json_t *)range, "{s{s:i,s:i},s{s:i,s:i}}", "start", "line", &figures[0], "character", &figures[1], "end",
                "line", &figures[2], "character", &figures[3]);
    g_string_append_printf(out, "%d:%d-%d:%d", figures[0], figures[1], figures[2], figures[3]);
}

static void add_published(struct talk *talk, const json_t *params)
{
    const json_t *all = json_object_get(params, "diagnostics"), *version = json_object_get(params, "version");
    g_string_append_printf(talk->said, "%s", short_name(talk, json_string_value(json_object_get(params, "uri"))));
    if (version)
        g_string_append_printf(talk->said, " version %d", (int)json_integer_value(version));
    g_string_append(talk->said, json_array_size(all) ? ":\n" : ": nothing\n");
    for (size_t i = 0; i < json_array_size(all); i++) {
        const json_t *one = json_array_get(all, i);
        char *words = g_strdelimit(g_strdup(json_string_value(json_object_get(one, "message"))), "\r\n", '|');
        g_string_append(talk->said, "    ");
        add_range(talk->said, json_object_get(one, "range"));
        g_string_append_printf(talk->said, " %s%s%s\n", json_string_value(json_object_get(one, "code")),
                               talk->words ? ": " : "", talk->words ? words : "");
        g_free(words);
    }
}

/* TEXT without the folder, which is another one each time. */
static void add_plain(struct talk *talk, const char *text)
{
    GString *plain = g_string_new(text);
    g_string_replace(plain, talk->folder, "HERE", 0);
    g_string_replace(plain, talk->share, "SHARE", 0);
    for (char *id = plain->str; (id = strstr(id, "\"resultId\":\"")) != NULL;)
        for (id += strlen("\"resultId\":\""); g_ascii_isxdigit(*id); id++)
            *id = '0'; /* made of numbers that new findings shift */
    g_string_append_printf(talk->said, "%s\n", plain->str);
    g_string_free(plain, TRUE);
}

/* Takes the words out of the findings in JSON: the messages have tests of their own. */
static void drop_words(json_t *json)
{
    const char *key;
    json_t *value;
    size_t index;
    if (json_object_get(json, "source"))
        json_object_del(json, "message");
    json_object_foreach (json, key, value)
        drop_words(value);
    json_array_foreach (json, index, value)
        drop_words(value);
}

static void take_message(void *with, const char *bytes, size_t length)
{
    struct talk *talk = with;
    const char *body = strstr(bytes, "\r\n\r\n") + 4;
    json_error_t error;
    json_t *json = json_loadb(body, length - (size_t)(body - bytes), 0, &error);
    assert_non_null(json);
    assert_string_equal(json_string_value(json_object_get(json, "jsonrpc")), "2.0");
    const char *method = json_string_value(json_object_get(json, "method"));
    json_t *answer = json_object_get(json, "result"), *fault = json_object_get(json, "error");
    if (method && strcmp(method, "textDocument/publishDiagnostics") == 0) {
        add_published(talk, json_object_get(json, "params"));
    } else {
        json_object_del(json, "jsonrpc");
        if (!talk->words)
            drop_words(json);
        char *text = json_dumps(method ? json : fault ? fault : answer, JSON_COMPACT | JSON_ENCODE_ANY);
        g_string_append(talk->said, method ? "" : fault ? "error " : "");
        add_plain(talk, text);
        free(text);
    }
    json_decref(json);
}

/* --- what is said to it --- */

static void feed(struct talk *talk, json_t *message)
{
    json_object_set_new(message, "jsonrpc", json_string("2.0"));
    char *body = json_dumps(message, JSON_COMPACT);
    char *frame = g_strdup_printf("Content-Length: %zu\r\n\r\n%s", strlen(body), body);
    lsp_feed(talk->lsp, frame, strlen(frame));
    json_decref(message);
    free(body);
    g_free(frame);
}

static void feed_call(struct talk *talk, const char *method, json_t *params, bool asks)
{
    json_t *message = json_object();
    if (asks)
        json_object_set_new(message, "id", json_integer(++talk->asked));
    json_object_set_new(message, "method", json_string(method));
    if (params)
        json_object_set_new(message, "params", params);
    feed(talk, message);
}

static void run(struct talk *talk)
{
    while (lsp_step(talk->lsp))
        continue;
}

/* The place of the byte OFFSET of TEXT, as the server is to count it. */
static json_t *position_json(const struct talk *talk, const char *text, size_t offset)
{
    int line = 0, character = 0;
    for (const char *at = text; at < text + offset; at = g_utf8_next_char(at)) {
        int bytes = (int)(g_utf8_next_char(at) - at);
        bool ends = *at == '\n' || (*at == '\r' && at[1] != '\n');
        character = ends ? 0 : character + (talk->utf8 ? bytes : bytes == 4 ? 2 : 1);
        line += ends;
    }
    return json_pack("{s:i,s:i}", "line", line, "character", character);
}

static json_t *document_json(const struct talk *talk, const char *name)
{
    char *uri = strchr(name, ':') ? g_strdup(name) : g_strdup_printf("file://%s/%s", talk->folder, name);
    json_t *json = json_pack("{s:s}", "uri", uri);
    g_free(uri);
    return json;
}

/* The parameters that `<NAME MARK> JSON` asks for. */
static json_t *read_params(struct talk *talk, const char *words)
{
    const char *close = *words == '<' ? strchr(words, '>') : NULL;
    json_error_t error;
    GString *rest = g_string_new(NULL);
    g_string_printf(rest, "{%s}", close ? close + 1 : words);
    g_string_replace(rest, "HERE", talk->folder, 0);
    json_t *params = json_loads(rest->str, 0, &error);
    g_string_free(rest, TRUE);
    if (!params)
        fail_msg("no JSON: %s", words);
    if (!close)
        return params;
    char *inside = g_strndup(words + 1, (gsize)(close - words - 1)), *mark = strchr(inside, ' ');
    if (mark)
        *mark++ = '\0';
    json_object_set_new(params, "textDocument", document_json(talk, inside));
    if (mark) {
        gchar **parts = g_strsplit(mark, MARK, 3);
        char *plain = g_strjoinv("", parts), *lines = g_strcompress(plain), *before = g_strcompress(parts[0]);
        const char *text = find_file(talk, inside)->text, *at = strstr(text, lines);
        if (!at)
            fail_msg("%s stands nowhere in %s", lines, inside);
        size_t start = (size_t)(at - text) + strlen(before), end = start + (parts[1] ? strlen(parts[1]) : 0);
        json_t *place = position_json(talk, text, start);
        if (parts[1] && parts[2])
            json_object_set_new(params, "range",
                                json_pack("{s:o,s:o}", "start", place, "end", position_json(talk, text, end)));
        else
            json_object_set_new(params, "position", place);
        g_free(plain);
        g_free(lines);
        g_free(before);
        g_strfreev(parts);
    }
    g_free(inside);
    return params;
}

static char *full_method(const char *name)
{
    static const char *const plain[] = {"initialize", "shutdown", "exit", NULL};
    bool whole = strchr(name, '/') || g_strv_contains(plain, name);
    return whole ? g_strdup(name) : g_strdup_printf("textDocument/%s", name);
}

/* `METHOD PARAMS` */
static void call(struct talk *talk, const char *words, bool asks)
{
    gchar **parts = g_strsplit(words, " ", 2);
    char *method = full_method(parts[0]);
    feed_call(talk, method, read_params(talk, parts[1] ? parts[1] : ""), asks);
    g_free(method);
    g_strfreev(parts);
}

static void start(struct talk *talk, const char *words)
{
    json_error_t error;
    json_t *able = *words ? json_loads(words, 0, &error) : json_object();
    assert_non_null(able);
    talk->utf8 = strstr(words, "utf-8") != NULL;
    json_t *params = json_pack("{s:n,s:o}", "processId", "capabilities", able);
    if (!strstr(words, "\"alone\""))
        json_object_set_new(params, "workspaceFolders", json_pack("[o]", document_json(talk, "")));
    feed_call(talk, "initialize", params, true);
    feed_call(talk, "initialized", json_object(), false);
    run(talk);
    if (!strstr(words, "window"))
        g_string_truncate(talk->said, 0); /* what is offered has a test of its own */
}

static void open_file(struct talk *talk, const char *name)
{
    struct page_open *file = find_file(talk, name);
    json_t *document = document_json(talk, name);
    file->version = 1;
    json_object_set_new(document, "languageId", json_string("bell"));
    json_object_set_new(document, "version", json_integer(1));
    json_object_set_new(document, "text", json_string(file->text));
    feed_call(talk, "textDocument/didOpen", json_pack("{s:o}", "textDocument", document), false);
}

/* `NAME OLD => NEW` */
static void type(struct talk *talk, const char *words)
{
    gchar **parts = g_strsplit(words, " ", 2), **sides = g_strsplit(parts[1], " => ", 2);
    struct page_open *file = find_file(talk, parts[0]);
    char *old = g_strcompress(sides[0]), *new = g_strcompress(sides[1]), *at = strstr(file->text, old);
    if (!at)
        fail_msg("%s stands nowhere in %s", old, parts[0]);
    size_t offset = (size_t)(at - file->text), end = offset + strlen(old);
    json_t *range = json_pack("{s:o,s:o}", "start", position_json(talk, file->text, offset), "end",
                              position_json(talk, file->text, end));
    char *text = g_strdup_printf("%.*s%s%s", (int)offset, file->text, new, file->text + end);
    json_t *document = document_json(talk, parts[0]);
    json_object_set_new(document, "version", json_integer(++file->version));
    feed_call(talk, "textDocument/didChange",
              json_pack("{s:o,s:[{s:o,s:s}]}", "textDocument", document, "contentChanges", "range", range, "text", new),
              false);
    g_free(file->text);
    file->text = text;
    g_free(old);
    g_free(new);
    g_strfreev(parts);
    g_strfreev(sides);
}

static void complete(struct talk *talk, const char *words)
{
    enum { MOST = 12 };
    GString *before = talk->said;
    talk->said = g_string_new("");
    feed_call(talk, "textDocument/completion", read_params(talk, words), true);
    run(talk);
    json_error_t error;
    json_t *items = json_loads(talk->said->str, 0, &error);
    g_string_free(talk->said, TRUE);
    talk->said = before;
    assert_true(json_is_array(items));
    for (size_t i = 0; i < json_array_size(items) && i < MOST; i++) {
        const json_t *item = json_array_get(items, i), *edit = json_object_get(item, "textEdit");
        if (i == 0)
            add_range(talk->said, json_object_get(edit, "range"));
        assert_true(json_equal(json_object_get(edit, "range"),
                               json_object_get(json_object_get(json_array_get(items, 0), "textEdit"), "range")));
        g_string_append_printf(talk->said, "%s%s", i ? ", " : " ", json_string_value(json_object_get(item, "label")));
    }
    g_string_append_printf(talk->said, "%s\n", json_array_size(items) > MOST ? ", ..." : json_array_size(items) ? "" : "none");
    json_decref(items);
}

/* --- the file --- */

static char *path_of(const struct talk *talk, const char *name)
{
    return g_build_filename(talk->folder, name, NULL);
}

static void write_file(const struct talk *talk, const char *name, const char *text)
{
    char *path = path_of(talk, name), *folder = g_path_get_dirname(path);
    g_mkdir_with_parents(folder, 0700);
    assert_true(g_file_set_contents(path, text, -1, NULL));
    g_free(path);
    g_free(folder);
}

static void say(struct talk *talk, const char *line)
{
    gchar **parts = g_strsplit(line, " ", 2);
    const char *verb = parts[0], *rest = parts[1] ? parts[1] : "";
    if (strcmp(verb, "start") == 0) {
        start(talk, rest);
    } else if (strcmp(verb, "open") == 0) {
        open_file(talk, rest);
    } else if (strcmp(verb, "close") == 0) {
        feed_call(talk, "textDocument/didClose", json_pack("{s:o}", "textDocument", document_json(talk, rest)), false);
    } else if (strcmp(verb, "type") == 0) {
        type(talk, rest);
    } else if (strcmp(verb, "settle") == 0) {
        run(talk);
        lsp_settle(talk->lsp);
    } else if (strcmp(verb, "ask") == 0 || strcmp(verb, "tell") == 0) {
        call(talk, rest, *verb == 'a');
        run(talk);
    } else if (strcmp(verb, "feed") == 0) {
        call(talk, rest, true);
    } else if (strcmp(verb, "complete") == 0) {
        complete(talk, rest);
    } else if (strcmp(verb, "delete") == 0) {
        char *path = path_of(talk, rest);
        assert_int_equal(g_remove(path), 0);
        g_free(path);
    } else if (strcmp(verb, "write") == 0) {
        gchar **names = g_strsplit(rest, " ", 2);
        write_file(talk, names[0], find_file(talk, names[1])->text);
        g_strfreev(names);
    } else if (strcmp(verb, "link") == 0) {
        gchar **names = g_strsplit(rest, " ", 2);
        char *path = path_of(talk, names[0]);
        assert_int_equal(symlink(names[1], path), 0);
        g_free(path);
        g_strfreev(names);
    } else if (strcmp(verb, "today") == 0) {
        lsp_set_today(talk->lsp, rest);
    } else if (strcmp(verb, "words") == 0) {
        talk->words = true;
    } else if (strcmp(verb, "raw") == 0) {
        char *bytes = g_strcompress(rest);
        lsp_feed(talk->lsp, bytes, strlen(bytes));
        run(talk);
        g_free(bytes);
    } else {
        fail_msg("what is `%s`?", line);
    }
    g_strfreev(parts);
}

/* Adds what was said, each line behind a >. */
static void write_said(struct talk *talk, GString *out)
{
    gchar **lines = g_strsplit(talk->said->str, "\n", -1);
    for (size_t i = 0; lines[i]; i++)
        if (*lines[i])
            g_string_append_printf(out, "> %s\n", lines[i]);
    g_strfreev(lines);
    g_string_truncate(talk->said, 0);
}

static void end_file(struct talk *talk, struct page_open *file, GString *text, bool saved)
{
    if (!file)
        return;
    file->text = g_strdup(text->str);
    if (saved)
        write_file(talk, file->name, text->str);
    g_string_truncate(text, 0);
}

/* Goes through the lines of a talk and returns it with what the server says now. */
static GString *go_through(struct talk *talk, const char *text)
{
    static const char UNSAVED[] = "unsaved ";
    GString *out = g_string_new(""), *body = g_string_new("");
    gchar **lines = g_strsplit(text, "\n", -1);
    struct page_open *file = NULL;
    bool talking = false, saved = false;
    for (size_t i = 0; lines[i] && (lines[i + 1] || *lines[i]); i++) {
        const char *line = lines[i];
        if (*line != '>')
            g_string_append_printf(out, "%s\n", line);
        if (g_str_has_prefix(line, "--- ")) {
            end_file(talk, file, body, saved);
            talking = strcmp(line, "--- talk") == 0;
            saved = !g_str_has_prefix(line + 4, UNSAVED);
            file = talking ? NULL : g_new0(struct page_open, 1);
            if (file) {
                file->name = g_strdup(line + 4 + (saved ? 0 : sizeof UNSAVED - 1));
                g_ptr_array_add(talk->files, file);
            }
        } else if (file) {
            g_string_append_printf(body, "%s\n", line);
        } else if (talking && *line && *line != '#' && *line != '>') {
            say(talk, line);
            write_said(talk, out);
        }
    }
    g_strfreev(lines);
    g_string_free(body, TRUE);
    return out;
}

static void file_free(void *what)
{
    struct page_open *file = what;
    g_free(file->name);
    g_free(file->text);
    g_free(file);
}

static void remove_all(const char *path)
{
    GDir *folder = g_dir_open(path, 0, NULL);
    for (const char *name; folder && (name = g_dir_read_name(folder)) != NULL;) {
        char *inner = g_build_filename(path, name, NULL);
        remove_all(inner);
        g_free(inner);
    }
    if (folder)
        g_dir_close(folder);
    g_remove(path);
}

/* Fails with the first line that is another one. */
static void show_difference(const char *wanted, const char *got)
{
    gchar **old = g_strsplit(wanted, "\n", -1), **now = g_strsplit(got, "\n", -1);
    size_t i = 0;
    while (old[i] && now[i] && strcmp(old[i], now[i]) == 0)
        i++;
    print_message("line %zu\nwanted: %s\ngot:    %s\n", i + 1, old[i] ? old[i] : "", now[i] ? now[i] : "");
    g_strfreev(old);
    g_strfreev(now);
    fail();
}

static void test_talk(void **state)
{
    char *path = g_build_filename(FOLDER, *state, NULL), *text = NULL, *here = g_get_current_dir();
    assert_true(g_file_get_contents(path, &text, NULL, NULL));
    char *room = g_dir_make_tmp("talk-XXXXXX", NULL);
    struct talk talk = {.folder = g_build_filename(room, "club", NULL), .share = g_build_filename(here, "share", NULL),
                        .files = g_ptr_array_new_with_free_func(file_free), .said = g_string_new("")};
    const struct lsp_host host = {.share = talk.share, .today = "2027-03-01", .version = "test", .write = take_message,
                                  .with = &talk};
    g_mkdir(talk.folder, 0700);
    talk.lsp = lsp_open(&host);
    GString *now = go_through(&talk, text);
    lsp_close(talk.lsp);
    remove_all(room);
    if (g_getenv("UPDATE"))
        assert_true(g_file_set_contents(path, now->str, -1, NULL));
    else if (strcmp(now->str, text) != 0)
        show_difference(text, now->str);
    g_string_free(now, TRUE);
    g_string_free(talk.said, TRUE);
    g_ptr_array_free(talk.files, TRUE);
    g_free(talk.folder);
    g_free(talk.share);
    g_free(room);
    g_free(here);
    g_free(path);
    g_free(text);
}

static int by_name(const void *left, const void *right)
{
    return strcmp(*(char *const *)left, *(char *const *)right);
}

int main(void)
{
    enum { MOST = 64 };
    static struct CMUnitTest tests[MOST];
    GPtrArray *names = g_ptr_array_new_with_free_func(g_free);
    GDir *folder = g_dir_open(FOLDER, 0, NULL);
    for (const char *name; folder && (name = g_dir_read_name(folder)) != NULL;)
        if (g_str_has_suffix(name, ".talk") && names->len < MOST)
            g_ptr_array_add(names, g_strdup(name));
    if (folder)
        g_dir_close(folder);
    g_ptr_array_sort(names, by_name);
    for (guint i = 0; i < names->len; i++)
        tests[i] = (struct CMUnitTest){.name = g_ptr_array_index(names, i), .test_func = test_talk,
                                       .initial_state = g_ptr_array_index(names, i)};
    if (!names->len)
        return 1; /* nothing that is tried proves nothing */
    int failed = _cmocka_run_group_tests("talks", tests, names->len, NULL, NULL);
    g_ptr_array_free(names, TRUE);
    return failed;
}
