/* A diff is right when it makes the new text of the old one, so it is applied here. */
#include <stdarg.h>
#include <stddef.h>
#include <setjmp.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <cmocka.h>

#include "base/diff.h"

/* The length of the line that starts at TEXT, with its line end. */
static size_t line_length(const char *text)
{
    size_t length = strcspn(text, "\n");
    return length + (text[length] == '\n');
}

/* A line of a hunk: its mark and what it holds, without the line end where the diff says there is
 * none. Returns the line behind it. */
static const char *read_line(const char *at, char *mark, const char **held, size_t *length)
{
    size_t whole = line_length(at);
    bool unended = at[whole] == '\\';
    *mark = *at;
    *held = at + 1;
    *length = whole - 1 - unended;
    return unended ? at + whole + line_length(at + whole) : at + whole;
}

/* Reads `-12,3 ` or `-12 `; *BEFORE is how many lines stand above the hunk. */
static const char *read_place(const char *at, size_t *before, size_t *count)
{
    char *end;
    size_t start = strtoul(at + 1, &end, 10);
    *count = *end == ',' ? strtoul(end + 1, &end, 10) : 1;
    *before = *count ? start - 1 : start;
    return end + 1;
}

/* What DIFF makes of OLD. Fails where the diff does not fit. */
static void apply(const char *old, const char *diff, struct text *out)
{
    size_t line = 0;
    const char *at = diff;
    for (int head = 0; head < 2; head++)
        at += line_length(at);
    while (*at) {
        size_t old_before, new_before, old_count, new_count;
        assert_memory_equal(at, "@@ ", 3);
        at = read_place(at + 3, &old_before, &old_count);
        at = read_place(at, &new_before, &new_count);
        at += line_length(at);
        for (; line < old_before; line++) {
            text_add_bytes(out, old, line_length(old));
            old += line_length(old);
        }
        line += old_count;
        while (old_count || new_count) {
            char mark;
            const char *held;
            size_t length;
            at = read_line(at, &mark, &held, &length);
            if (mark != '+') {
                assert_int_equal(length, line_length(old));
                assert_memory_equal(held, old, length);
                old += length;
                old_count--;
            }
            if (mark != '-') {
                text_add_bytes(out, held, length);
                new_count--;
            }
        }
    }
    text_add(out, old);
}

static void check_pair(const char *old, const char *new_text)
{
    struct text diff = {0}, made = {0};
    diff_unified("plan.bell", old, strlen(old), new_text, strlen(new_text), &diff);
    if (strcmp(old, new_text) == 0)
        assert_int_equal(diff.length, 0);
    else
        apply(old, text_get(&diff), &made);
    assert_string_equal(strcmp(old, new_text) == 0 ? old : text_get(&made), new_text);
    text_free(&diff);
    text_free(&made);
}

static void test_as_written(void **state)
{
    (void)state;
    const char *old = "a\nb\nc\nd\ne\nf\ng\nh\ni\nj\nk\nl\n";
    const char *new_text = "a\nB\nc\nd\ne\nf\ng\nh\ni\nj\nl\nm";
    struct text diff = {0};
    diff_unified("x", old, strlen(old), new_text, strlen(new_text), &diff);
    assert_string_equal(text_get(&diff), "--- x\n+++ x\n"
                                         "@@ -1,5 +1,5 @@\n a\n-b\n+B\n c\n d\n e\n"
                                         "@@ -8,5 +8,5 @@\n h\n i\n j\n-k\n l\n"
                                         "+m\n\\ No newline at end of file\n");
    text_clear(&diff);
    diff_unified("x", "", 0, "a\n", 2, &diff);
    assert_string_equal(text_get(&diff), "--- x\n+++ x\n@@ -0,0 +1 @@\n+a\n");
    text_free(&diff);
}

static unsigned draw(uint64_t *state, unsigned below)
{
    *state = *state * UINT64_C(6364136223846793005) + 1442695040888963407U;
    return (unsigned)(*state >> 33) % below;
}

static void test_makes_the_new_of_the_old(void **state)
{
    (void)state;
    uint64_t seed = 7;
    for (int round = 0; round < 5000; round++) {
        struct text texts[2] = {{0}};
        unsigned letters = 1 + draw(&seed, 5), lines = draw(&seed, 40);
        for (unsigned i = 0; i < lines; i++) {
            char line[3] = {(char)('a' + (char)draw(&seed, letters)), '\n', '\0'};
            bool both = draw(&seed, 5) != 0;
            for (unsigned side = 0; side < 2; side++)
                if (both || draw(&seed, 2))
                    text_add(&texts[side], line);
        }
        for (unsigned side = 0; side < 2; side++)
            if (draw(&seed, 3) == 0)
                text_add(&texts[side], "end");
        check_pair(text_get(&texts[0]), text_get(&texts[1]));
        text_free(&texts[0]);
        text_free(&texts[1]);
    }
}

/* More edits than are searched for: shown as one text in place of the other. */
static void test_all_different(void **state)
{
    (void)state;
    struct text old = {0}, new_text = {0};
    text_add(&old, "first\n");
    text_add(&new_text, "first\n");
    for (int i = 0; i < 3000; i++) {
        text_addf(&old, "old %d\n", i);
        text_addf(&new_text, "new %d\n", i);
    }
    check_pair(text_get(&old), text_get(&new_text));
    text_free(&old);
    text_free(&new_text);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_as_written),
        cmocka_unit_test(test_makes_the_new_of_the_old),
        cmocka_unit_test(test_all_different),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
