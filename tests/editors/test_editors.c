/* Every phrase and word of the language stands in each of the editors' files that hold words, and what is JSON can be
 * read as such. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <glib.h>
#include <jansson.h>
#include <stdbool.h>
#include <string.h>

/* A file, what stands between the words of a phrase in it, and on both sides of one. */
struct file {
    const char *path, *space, *left, *right;
};

static const struct file files[] = {
    {"share/editors/vim/syntax/bell.vim", " ", "'", "'"},
    {"share/editors/emacs/bell-mode.el", " ", "\"", "\""},
    {"share/editors/vscode/syntaxes/bell.tmLanguage.json", " +", "(:|", "|)"},
};

#define STATEMENT(id, phrases, places, form, opens) phrases,
#define WORD(token, code, phrases, where) phrases,
static const char *const phrases[] = {
#include "syntax/kinds.def"
#include "syntax/words.def"
};
#undef STATEMENT

static char *read_whole(const char *path)
{
    char *text = NULL;
    if (!g_file_get_contents(path, &text, NULL, NULL))
        fail_msg("%s cannot be read", path);
    return text;
}

/* Does PHRASE stand in TEXT with one of FILE's signs on each side? */
static bool holds(const struct file *file, const char *text, const char *phrase)
{
    char **words = g_strsplit(phrase, " ", -1), *written = g_strjoinv(file->space, words);
    size_t length = strlen(written);
    bool found = false;
    for (const char *at = text; !found && (at = strstr(at, written)) != NULL; at++) {
        const char right = at[length];
        found = at > text && strchr(file->left, at[-1]) && right && strchr(file->right, right);
    }
    g_free(written);
    g_strfreev(words);
    return found;
}

/* Prints what TEXT lacks, and counts it. */
static size_t count_missing(const struct file *file, const char *text, bool tell)
{
    size_t missing = 0;
    for (size_t i = 0; i < sizeof phrases / sizeof *phrases; i++) {
        char **each = g_strsplit(phrases[i], "|", -1);
        for (size_t k = 0; each[k]; k++) {
            if (!*each[k] || strcmp(each[k], "#") == 0 || holds(file, text, each[k]))
                continue;
            missing++;
            if (tell)
                print_error("%s lacks `%s`\n", file->path, each[k]);
        }
        g_strfreev(each);
    }
    return missing;
}

static void test_no_word_is_missing(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof files / sizeof *files; i++) {
        char *text = read_whole(files[i].path);
        assert_int_equal(count_missing(&files[i], text, true), 0);
        g_free(text);
    }
}

static void test_a_missing_word_is_seen(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof files / sizeof *files; i++) {
        char *text = read_whole(files[i].path);
        char **parts = g_strsplit(text, "kettlebells", -1), *without = g_strjoinv("cattlebells", parts);
        assert_int_equal(count_missing(&files[i], without, false), 1);
        g_free(without);
        g_strfreev(parts);
        g_free(text);
    }
}

static void test_json_can_be_read(void **state)
{
    (void)state;
    static const char *const paths[] = {
        "share/editors/vscode/package.json", "share/editors/vscode/language-configuration.json",
        "share/editors/vscode/snippets/bell.json", "share/editors/vscode/syntaxes/bell.tmLanguage.json"};
    for (size_t i = 0; i < sizeof paths / sizeof *paths; i++) {
        json_error_t error;
        json_t *json = json_load_file(paths[i], JSON_REJECT_DUPLICATES, &error);
        if (!json)
            fail_msg("%s:%d: %s", paths[i], error.line, error.text);
        assert_true(json_is_object(json));
        json_decref(json);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_no_word_is_missing),
        cmocka_unit_test(test_a_missing_word_is_seen),
        cmocka_unit_test(test_json_can_be_read),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
