/* test_text.c - spaces that look like one, scripts from right to left, and names that only look alike. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include <glib.h>
#include <string.h>

#include "base/bidi.h"
#include "base/text.h"
#include "base/unicode.h"
#include "source/diag.h"
#include "unit/one_arena.h"

static const char *letter(gunichar c)
{
    char bytes[8];
    int length = g_unichar_to_utf8(c, bytes);
    return arena_copy(arena, bytes, (size_t)length);
}

/* Those of the general category Zs, but for the space itself (Unicode Character Database). */
static void every_odd_space_is_one(void **state)
{
    (void)state;
    for (gunichar c = 0x80; c < 0x3100; c++) {
        const char *bytes = letter(c);
        bool odd = g_unichar_type(c) == G_UNICODE_SPACE_SEPARATOR;
        assert_int_equal(text_odd_space(bytes), odd ? strlen(bytes) : 0);
        const char *between = arena_printf(arena, "a%sb", bytes);
        assert_string_equal(text_plain_spaces(arena, between, strlen(between)), odd ? "a b" : between);
    }
}

/* A letter of each end of the blocks that are written from right to left is kept together, and its neighbours are not. */
static void blocks_from_right_to_left_are_isolated(void **state)
{
    static const struct {
        gunichar letter;
        bool isolated;
    } cases[] = {{0x5d0, true},    {0x8a0, true},    {0x915, false},   {0xfb1d, true},   {0xfb13, false},
                 {0xfe70, true},   {0xfe30, false},  {0xff21, false},  {0x10800, true},  {0x10fff, true},
                 {0x10400, false}, {0x11005, false}, {0x1e900, true},  {0x1f600, false}, {0x41, false}};
    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        const char *word = letter(cases[i].letter), *text = bidi_isolated(arena, arena_printf(arena, "x %s y", word));
        const char *wanted = cases[i].isolated ? "x \342\201\250%s\342\201\251 y" : "x %s y";
        assert_string_equal(text, arena_printf(arena, wanted, word));
    }
}

static void words_of_one_name_stay_together(void **state)
{
    static const gunichar joins[] = {' ', 0xa0, '-', '\'', 0x2019, '.', 0x200c, 0x200d, 0x5b0};
    const char *word = letter(0x5d0);
    (void)state;
    for (size_t i = 0; i < sizeof joins / sizeof *joins; i++) {
        const char *name = arena_printf(arena, "%s%s%s", word, letter(joins[i]), word);
        assert_string_equal(bidi_isolated(arena, arena_printf(arena, "x %s y", name)),
                            arena_printf(arena, "x \342\201\250%s\342\201\251 y", name));
    }
    const char *apart = bidi_isolated(arena, arena_printf(arena, "x %s, %s", word, word));
    assert_string_equal(apart, arena_printf(arena, "x \342\201\250%s\342\201\251, \342\201\250%s\342\201\251", word, word));
}

static bool is_good_name(const char *name)
{
    const char *what;
    size_t size;
    return unicode_name_fault(name, strlen(name), &what, &size) == strlen(name);
}

/* An invisible character is allowed where its script needs it (RFC 5892, A.1 and A.2), also beyond marks between. */
static void joiners_stand_where_a_script_needs_them(void **state)
{
    (void)state;
    const char *beh = letter(0x628), *fatha = letter(0x64e), *joiner = letter(0x200c), *ka = letter(0x915),
               *virama = letter(0x94d), *with = letter(0x200d);
    assert_true(is_good_name(arena_printf(arena, "%s%s%s", beh, joiner, beh)));
    assert_true(is_good_name(arena_printf(arena, "%s%s%s%s", beh, fatha, joiner, beh)));
    assert_true(is_good_name(arena_printf(arena, "%s%s%s%s", beh, joiner, fatha, beh)));
    assert_false(is_good_name(arena_printf(arena, "%s%s", beh, joiner)));
    assert_false(is_good_name(arena_printf(arena, "%s%s%s", joiner, beh, beh)));
    assert_false(is_good_name(arena_printf(arena, "a%sb", joiner)));
    assert_true(is_good_name(arena_printf(arena, "%s%s%s%s", ka, virama, with, ka)));
    assert_true(is_good_name(arena_printf(arena, "%s%s%s%s", ka, with, virama, ka)));
    assert_false(is_good_name(arena_printf(arena, "-%s%s%s", with, virama, ka)));
    assert_false(is_good_name(arena_printf(arena, "a%sb", with)));
}

static void latin_is_told_from_other_scripts(void **state)
{
    (void)state;
    assert_true(unicode_is_latin("Zo\303\253 1 \302\267 x"));
    assert_false(unicode_is_latin("Wren \320\226"));
    assert_true(unicode_is_latin(""));
}

static int compared(const char *a, const char *b)
{
    const struct finding one = {.words = a}, other = {.words = b};
    int order = diag_compare(&one, &other), back = diag_compare(&other, &one);
    assert_int_equal(order < 0 ? -1 : order > 0, back < 0 ? 1 : back > 0 ? -1 : 0);
    return order < 0 ? -1 : order > 0;
}

static void figures_in_words_are_compared_by_size(void **state)
{
    static const struct {
        const char *less, *more;
    } cases[] = {{"week 5", "week 10"},     {"week 5 of b", "week 10 of a"}, {"a", "b"},           {"a", "ab"},
                 {"week 9", "week x"},      {"5 a 6", "5 a 10"},             {"2027-03-01", "2027-03-02"},
                 {"2027-03-31", "2027-04-01"}, {"week 05", "week 5"},        {"0", "00"},          {"0 b", "00 a"},
                 {"10", "10 "},             {"", "1"}};
    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
        assert_int_equal(compared(cases[i].less, cases[i].more), -1);
    assert_int_equal(compared("week 5", "week 5"), 0);
}

static void of_the_same_words_the_first_comes_first(void **state)
{
    (void)state;
    struct finding one = {.words = "a", .order = 1}, other = {.words = "a", .order = 2};
    assert_true(diag_compare(&one, &other) < 0);
    assert_true(diag_compare(&other, &one) > 0);
    other.severity = SEVERITY_ERROR;
    assert_true(diag_compare(&one, &other) > 0);
    one.span.start = 1;
    other.span.file = 1;
    assert_true(diag_compare(&one, &other) < 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_odd_space_is_one),
        cmocka_unit_test(blocks_from_right_to_left_are_isolated),
        cmocka_unit_test(words_of_one_name_stay_together),
        cmocka_unit_test(joiners_stand_where_a_script_needs_them),
        cmocka_unit_test(latin_is_told_from_other_scripts),
        cmocka_unit_test(figures_in_words_are_compared_by_size),
        cmocka_unit_test(of_the_same_words_the_first_comes_first),
    };
    return cmocka_run_group_tests(tests, open_arena, close_arena);
}
