/* test_output.c - folders that are made and taken back, files that cannot be written, and what is swept away. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include <errno.h>
#include <glib.h>
#include <glib/gstdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/output.h"

static char *top;

static int make_top(void **state)
{
    (void)state;
    top = g_dir_make_tmp("bellsheet-output-XXXXXX", NULL);
    return top && g_chdir(top) == 0 ? 0 : -1;
}

static int remove_top(void **state)
{
    (void)state;
    char *words[] = {"rm", "-rf", top, NULL};
    g_spawn_sync("/", words, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, NULL, NULL, NULL, NULL);
    g_free(top);
    return 0;
}

static bool is_folder(const char *path)
{
    return g_file_test(path, G_FILE_TEST_IS_DIR);
}

static void folders_are_made_and_taken_back(void **state)
{
    size_t there = 99;
    (void)state;
    assert_string_equal(output_make_folder("", 0700, NULL), strerror(ENOENT));
    assert_null(output_make_folder("a", 0700, NULL));
    assert_null(output_make_folder("a//b/c///", 0700, &there));
    assert_true(is_folder("a/b/c"));
    assert_int_equal(there, strlen("a/"));
    output_drop_folder("a//b/c///", there);
    assert_true(is_folder("a"));
    assert_false(is_folder("a/b"));
    assert_null(output_make_folder("a/b/c", 0700, &there));
    assert_true(g_file_set_contents("a/b/kept", "", 0, NULL));
    output_drop_folder("a/b/c", there);
    assert_false(is_folder("a/b/c"));
    assert_true(is_folder("a/b"));
    char *whole = g_strdup_printf("%s/d/e", top);
    assert_null(output_make_folder(whole, 0700, &there));
    output_drop_folder(whole, there);
    assert_false(is_folder("d"));
    assert_true(is_folder(top));
    g_free(whole);
}

static void what_stands_in_the_way_is_named(void **state)
{
    (void)state;
    assert_true(g_file_set_contents("file", "", 0, NULL));
    assert_string_equal(output_make_folder("file", 0700, NULL), strerror(ENOTDIR));
    assert_string_equal(output_make_folder("file/below", 0700, NULL), strerror(ENOTDIR));
    assert_int_equal(symlink("nowhere", "dangling"), 0);
    assert_string_equal(output_make_folder("dangling/below", 0700, NULL), strerror(ENOENT));
    assert_string_equal(output_make_folder("dangling", 0700, NULL), strerror(ENOENT));
    assert_null(output_make_folder("folder", 0700, NULL));
    assert_string_equal(output_write("folder", "x", 1), strerror(EISDIR));
    assert_string_equal(output_keep("folder", "x", 1), strerror(EISDIR));
    assert_string_equal(output_write("nowhere/file", "x", 1), strerror(ENOENT));
    assert_string_equal(output_write_private("nowhere/file", "x", 1), strerror(ENOENT));
    assert_string_equal(output_keep_name("nowhere/file"), strerror(ENOENT));
    assert_null(output_keep_name("file"));
}

static void a_private_file_is_its_owners(void **state)
{
    struct stat about;
    (void)state;
    assert_null(output_write_private("private", "ab", 2));
    assert_null(output_keep_private("private", "abc", 3));
    assert_int_equal(stat("private", &about), 0);
    assert_int_equal(about.st_mode & 0777, 0600);
    assert_int_equal(about.st_size, 3);
    assert_int_equal(chmod("private", 0640), 0);
    assert_null(output_write("private", "", 0));
    assert_int_equal(stat("private", &about), 0);
    assert_int_equal(about.st_mode & 0777, 0640);
    assert_int_equal(about.st_size, 0);
    assert_int_equal(chmod("private", 0440), 0);
    assert_string_equal(output_keep("private", "a", 1), "this file is write-protected, so nothing is written to it");
    assert_null(output_write("private", "a", 1));
}

/* Only files of ours that nobody writes: by their names, and no folders, links or pipes. */
static void only_abandoned_files_are_swept(void **state)
{
    static const char *const stay[] = {"s/.bellsheet-folder", "s/.bellsheet-linked", "s/.bellsheet-pipe00", "s/.bellsheet-short",
                                       "s/.bellsheet-toolong", "s/other"};
    (void)state;
    assert_null(output_make_folder("s/.bellsheet-folder", 0700, NULL));
    assert_int_equal(symlink("../file", "s/.bellsheet-linked"), 0);
    assert_int_equal(mkfifo("s/.bellsheet-pipe00", 0600), 0);
    for (size_t i = 3; i < sizeof stay / sizeof *stay; i++)
        assert_true(g_file_set_contents(stay[i], "", 0, NULL));
    assert_true(g_file_set_contents("s/.bellsheet-abcdef", "", 0, NULL));
    output_sweep("s");
    output_sweep("nowhere");
    struct stat about;
    assert_int_equal(lstat("s/.bellsheet-abcdef", &about), -1);
    for (size_t i = 0; i < sizeof stay / sizeof *stay; i++)
        assert_int_equal(lstat(stay[i], &about), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(folders_are_made_and_taken_back),
        cmocka_unit_test(what_stands_in_the_way_is_named),
        cmocka_unit_test(a_private_file_is_its_owners),
        cmocka_unit_test(only_abandoned_files_are_swept),
    };
    return cmocka_run_group_tests(tests, make_top, remove_top);
}
