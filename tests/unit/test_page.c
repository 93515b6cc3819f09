/* Places in a text as the protocol counts them, in both encodings; and paths of URIs. */
#include <stdarg.h>
#include <stddef.h>
#include <setjmp.h>
#include <stdint.h>
#include <cmocka.h>

#include <string.h>

#include "lsp/page.h"
#include "lsp/uri.h"

static const char TEXT[] = "a\xc3\x84\xf0\x9f\xa5\x8a" "b\r\nc\rd\n\ne";

static struct page page_of(struct arena *arena, enum encoding encoding)
{
    return page_make(arena, TEXT, sizeof TEXT - 1, encoding);
}

static void test_both_ways(void **state)
{
    (void)state;
    /* Bytes, and the line and character in UTF-16 and in UTF-8: a, Ä, a glove, b, two line ends in one, a lone return. */
    static const size_t places[][4] = {{0, 0, 0, 0}, {1, 0, 1, 1}, {3, 0, 2, 3}, {7, 0, 4, 7}, {8, 0, 5, 8},
                                       {10, 1, 0, 0}, {11, 1, 1, 1}, {12, 2, 0, 0}, {14, 3, 0, 0}, {15, 4, 0, 0}, {16, 4, 1, 1}};
    struct arena *arena = arena_new();
    for (int utf8 = 0; utf8 < 2; utf8++) {
        struct page page = page_of(arena, utf8 ? ENCODING_UTF8 : ENCODING_UTF16);
        assert_int_equal(page.line_count, 5);
        for (size_t i = 0; i < sizeof places / sizeof *places; i++) {
            struct caret caret = page_caret(&page, places[i][0]);
            assert_int_equal(caret.line, places[i][1]);
            assert_int_equal(caret.character, places[i][2 + utf8]);
            assert_int_equal(page_offset(&page, caret), places[i][0]);
        }
    }
    arena_free(arena);
}

static void test_beyond(void **state)
{
    (void)state;
    struct arena *arena = arena_new();
    struct page page = page_of(arena, ENCODING_UTF16);
    assert_int_equal(page_offset(&page, (struct caret){0, 99}), 8);
    assert_int_equal(page_offset(&page, (struct caret){99, 0}), sizeof TEXT - 1);
    assert_int_equal(page_offset(&page, (struct caret){0, 3}), 3); /* inside of the glove */
    assert_int_equal(page_caret(&page, 999).line, 4);
    page.marked = true;
    assert_int_equal(page_caret(&page, 1).character, 2);
    assert_int_equal(page_offset(&page, (struct caret){0, 2}), 1);
    assert_int_equal(page_caret(&page, 10).character, 0);
    arena_free(arena);
}

static void test_uris(void **state)
{
    (void)state;
    static const char *const pairs[][2] = {
        {"file:///a/b.bell", "/a/b.bell"}, {"file:///a%20b/%C3%86.bell", "/a b/\xc3\x86.bell"},
        {"file://localhost/a", "/a"}, {"file:/a", "/a"}, {"file:///a/", "/a"}, {"file:///100%", "/100%"},
        {"FILE:///a#b", "/a"}};
    struct arena *arena = arena_new();
    for (size_t i = 0; i < sizeof pairs / sizeof *pairs; i++)
        assert_string_equal(uri_path(arena, pairs[i][0]), pairs[i][1]);
    assert_null(uri_path(arena, "untitled:Untitled-1"));
    assert_null(uri_path(arena, "file://elsewhere/a"));
    assert_null(uri_path(arena, "file:///a%00b"));
    assert_string_equal(uri_of_path(arena, "/a b/\xc3\x86#.bell"), "file:///a%20b/%C3%86%23.bell");
    assert_string_equal(uri_path(arena, uri_of_path(arena, "/100%25 \xff")), "/100%25 \xff");
    arena_free(arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_both_ways), cmocka_unit_test(test_beyond),
                                       cmocka_unit_test(test_uris)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
