/* What a plan and a name may hold, and which names look the same. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include <glib.h>
#include <string.h>

#include "base/text.h"
#include "base/bidi.h"
#include "base/unicode.h"

static const char *fault_of(const char *name)
{
    const char *what = NULL;
    size_t size, length = strlen(name);
    return unicode_name_fault(name, length, &what, &size) == length ? NULL : what;
}

static bool is_refused(gunichar c)
{
    char name[32] = "Ana", *end = name + 3;
    end += g_unichar_to_utf8(c, end);
    memcpy(end, "Bell", 5);
    return fault_of(name) != NULL;
}

/* Of each kind that is not seen, or looks different or like a box on another machine. */
static void test_what_no_name_holds(void **state)
{
    (void)state;
    static const gunichar odd[] = {
        0xad, 0x34f, 0x61c, 0x115f, 0x1160, 0x17b4, 0x17b5, 0x180b, 0x180e, 0x180f, 0x200b, 0x200c, 0x200d, 0x200e,
        0x2028, 0x202e, 0x2060, 0x2061, 0x2064, 0x2065, 0x2066, 0x206a, 0x206f, 0x2800, 0x3164, 0xfe00, 0xfe0f, 0xfeff,
        0xffa0, 0xfff0, 0xfff9, 0xfffc, 0xfffd, 0xfffe, 0xffff, 0xfdd0, 0x1bca0, 0x1d173, 0x1fffe, 0x10ffff, 0xe0001,
        0xe0041, 0xe007f, 0xe0100, 0xe01ef, 0xe01f0, 0xe0fff, 0xe000, 0xf0000, 0x100000, 0x378, 0x85};
    for (size_t i = 0; i < sizeof odd / sizeof *odd; i++)
        if (!is_refused(odd[i]))
            fail_msg("U+%04X can stand in a name", odd[i]);
}

/* Held against what GLib knows of the same database: nothing of no width, and no letter refused. */
static void test_every_character(void **state)
{
    (void)state;
    size_t letters = 0;
    for (gunichar c = 0xa0; c <= 0x10ffff; c++) {
        if (c >= 0xd800 && c < 0xe000)
            continue;
        GUnicodeType type = g_unichar_type(c);
        bool letter = g_unichar_isalpha(c) && c != 0x115f && c != 0x1160 && c != 0x3164 && c != 0xffa0;
        letters += letter;
        if (letter && is_refused(c))
            fail_msg("U+%04X is a letter and cannot stand in a name", c);
        if ((type == G_UNICODE_PRIVATE_USE || g_unichar_iszerowidth(c)) && type != G_UNICODE_UNASSIGNED && !is_refused(c) &&
            !g_unichar_ismark(c) && g_unichar_get_script(c) != G_UNICODE_SCRIPT_HANGUL)
            fail_msg("U+%04X takes no room and can stand in a name", c);
        bool none = (c & 0xfffe) == 0xfffe || (c >= 0xfdd0 && c <= 0xfdef);
        if (none != (unicode_fault(c) && strcmp(unicode_fault(c), "a code that is not a character") == 0))
            fail_msg("U+%04X is a character: %d", c, !none);
    }
    assert_true(letters > 100000);
}

/* Where a script needs them, and nowhere else. */
static void test_joiners(void **state)
{
    (void)state;
    assert_null(fault_of("می\u200cخواهم"));       /* Persian: between two letters that would join */
    assert_null(fault_of("क्\u200dष"));           /* Devanagari: behind a virama */
    assert_null(fault_of("क्\u200cष"));
    assert_null(fault_of("র\u200d্যাব"));          /* Bengali: before one */
    assert_null(fault_of("葛\U000e0100城"));      /* a variant of a Han character */
    assert_null(fault_of("ᠪᠠ\u180bᠢ"));          /* and of a Mongolian one */
    assert_non_null(fault_of("Ana\u200cBell"));
    assert_non_null(fault_of("Ana\u200dBell"));
    assert_non_null(fault_of("د\u200cر"));         /* these two never join */
    assert_non_null(fault_of("می\u200c"));         /* at the end there is nothing to part */
    assert_non_null(fault_of("क\u200dष"));
    assert_non_null(fault_of("Ana\U000e0100"));
}

static void test_emoji_stand_in_texts(void **state)
{
    (void)state;
    const char *what;
    size_t size;
    static const char text[] = "🏋️ and 👩‍🦰, \u0639\u200c";
    assert_int_equal(text_first_fault(text, strlen(text), &what, &size), strlen(text));
    static const char broken[] = "a\xef\xbf\xbf";
    assert_int_equal(text_first_fault(broken, strlen(broken), &what, &size), 1);
    assert_string_equal(what, "a code that is not a character");
}

static bool alike(struct arena *arena, const char *a, const char *b)
{
    return strcmp(unicode_look(arena, a), unicode_look(arena, b)) == 0;
}

static void test_what_looks_the_same(void **state)
{
    (void)state;
    struct arena *arena = arena_new();
    static const char *const pairs[][2] = {
        {"Oleg", "Оleg"},         {"Ilse", "llse"},   {"Session 1", "Session I"}, {"Đặng", "Ðặng"}, {"Ana", "Ａna"},
        {"ρeter", "peter"},       {"Zoë", "Zoe\u0308"}, {"Ana\u200d", "Ana"},       {"سیّد", "سيّد"},   {"Bob 0", "Bob O"}};
    for (size_t i = 0; i < sizeof pairs / sizeof *pairs; i++)
        if (!alike(arena, pairs[i][0], pairs[i][1]))
            fail_msg("%s and %s look the same", pairs[i][0], pairs[i][1]);
    static const char *const others[][2] = {
        {"Zoë", "Zoe"}, {"Ian", "Lan"}, {"Carn", "Cam"}, {"Lụa", "Lua"}, {"Session 1", "Session 2"}, {"Oleg", "Олег"}};
    for (size_t i = 0; i < sizeof others / sizeof *others; i++)
        if (alike(arena, others[i][0], others[i][1]))
            fail_msg("%s and %s do not look the same", others[i][0], others[i][1]);
    static const char plain[] = "Oriel Tamsin";
    assert_ptr_equal(unicode_look(arena, plain), plain);
    arena_free(arena);
}

/* Names that run from right to left stand isolated among other words, and nowhere else. */
static void test_right_to_left_names(void **state)
{
    static const char *const cases[][2] = {
        {"plain words", "plain words"},
        {"\331\204\331\212\331\204\331\211", "\331\204\331\212\331\204\331\211"},
        {"after \331\204\331\212 70 kg", "after \342\201\250\331\204\331\212\342\201\251 70 kg"},
        {"\327\231\327\242 \327\236\327\226, Wren", "\342\201\250\327\231\327\242 \327\236\327\226\342\201\251, Wren"},
        {"\327\231\327\242, \327\236\327\226 rest", "\342\201\250\327\231\327\242\342\201\251, \342\201\250\327\236\327\226\342\201\251 rest"},
        {"\331\204\331\212 5 \331\204", "\331\204\331\212 5 \331\204"}, /* a cue of its own, figures and all */
        {"write `for \331\204\331\212` here", "write `for \331\204\331\212` here"},
    };
    (void)state;
    struct arena *arena = arena_new();
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        const char *once = bidi_isolated(arena, cases[i][0]);
        assert_string_equal(once, cases[i][1]);
        assert_string_equal(bidi_isolated(arena, once), once);
    }
    arena_free(arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_right_to_left_names),
        cmocka_unit_test(test_what_no_name_holds),  cmocka_unit_test(test_every_character),
        cmocka_unit_test(test_joiners),             cmocka_unit_test(test_emoji_stand_in_texts),
        cmocka_unit_test(test_what_looks_the_same),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
