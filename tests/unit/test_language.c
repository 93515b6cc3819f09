/* test_language.c - texts looked up in a catalogue, counts, figures, hours and days as a language has them, and what the
 * catalogues themselves must keep to.
 *
 * Days, hours and decimal signs are those of the Unicode Common Locale Data Repository (CLDR) 48 for es and th; those in Thai are of
 * its Buddhist calendar, which is the usual one there. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <string.h>

#include "figures/dates.h"
#include "figures/mass.h"
#include "language/language.h"
#include "layout/sheet.h"
#include "wording/wording.h"
#include "unit/one_arena.h"

static size_t form_of(unsigned long n)
{
    return n == 0 ? 2 : n != 1;
}

/* Where each text begins: "" at 0, "%d round" at 1, its forms at 10, 20 and 30, "stop" at 38 and its form at 43, "door" at 48,
 * "open" at 53 and its form at 58. */
static const char texts[] = "\0%d round\0una ronda\0%d rondas\0ninguna\0stop\0alto\0door\0open\0abierto";
static const struct translation translations[] = {{0, 1, 10}, {0, 38, 43}, {48, 53, 58}};
static const struct language half = {"Half", "xx", texts, translations, 3, form_of, ',', 543, true, false, false, false};

static void test_texts(void **state)
{
    (void)state;
    arena_speak(arena, NULL);
    assert_string_equal(said(arena, "stop"), "stop");
    arena_speak(arena, &half);
    assert_string_equal(said(arena, "stop"), "alto");
    assert_string_equal(said(arena, "go"), "go");
    assert_string_equal(said_as(arena, "door", "open"), "abierto");
    assert_string_equal(said(arena, "open"), "open");
    struct arena *beside = arena_beside(arena);
    assert_string_equal(said(beside, "stop"), "alto");
    arena_free(beside);
}

static void test_counts(void **state)
{
    (void)state;
    arena_speak(arena, NULL);
    assert_string_equal(said_count(arena, 1, "%d round", "%d rounds"), "%d round");
    assert_string_equal(said_count(arena, 0, "%d round", "%d rounds"), "%d rounds");
    arena_speak(arena, &half);
    assert_string_equal(said_count(arena, 1, "%d round", "%d rounds"), "una ronda");
    assert_string_equal(said_count(arena, 5, "%d round", "%d rounds"), "%d rondas");
    assert_string_equal(said_count(arena, 0, "%d round", "%d rounds"), "ninguna");
    assert_string_equal(said_count(arena, -1, "%d round", "%d rounds"), "una ronda");
    assert_string_equal(said_count(arena, 2, "%d set", "%d sets"), "%d sets");
}

/* What guards somebody keeps its English until a native reader has signed for it, and then loses it. */
static void test_guards(void **state)
{
    struct language read = half;
    (void)state;
    arena_speak(arena, &half);
    assert_string_equal(said_guard(arena, "stop"), "alto / stop");
    assert_string_equal(said_guard(arena, "go"), "go");
    read.guards_read = true;
    arena_speak(arena, &read);
    assert_string_equal(said_guard(arena, "stop"), "alto");
    arena_speak(arena, NULL);
    assert_string_equal(said_guard(arena, "stop"), "stop");
}

static void test_unread(void **state)
{
    struct language read = half;
    (void)state;
    arena_speak(arena, NULL);
    assert_string_equal(said_unread(arena), "");
    arena_speak(arena, &half);
    assert_true(strlen(said_unread(arena)) > 0);
    read.read = true;
    arena_speak(arena, &read);
    assert_string_equal(said_unread(arena), "");
}

static void test_figures_and_hours(void **state)
{
    (void)state;
    arena_speak(arena, NULL);
    assert_string_equal(said_figures(arena, "77.5"), "77.5");
    assert_string_equal(said_hour(arena, 17 * 3600 + 5 * 60), "17:05");
    arena_speak(arena, &half);
    assert_string_equal(said_figures(arena, "77.5"), "77,5");
    assert_string_equal(said_hour(arena, 17 * 3600 + 5 * 60), "5:05 p.m.");
    assert_string_equal(said_hour(arena, 0), "12:00 a.m.");
    assert_string_equal(said_hour(arena, 12 * 3600), "12:00 p.m.");
    assert_string_equal(said_hour(arena, 24 * 3600 + 60), "12:01 a.m.");
    assert_int_equal(said_year(arena, 2027), 2570);
}

/* CLDR: the full date, the decimal sign, the hour without seconds. */
static void test_as_cldr_has_it(void **state)
{
    static const struct {
        const char *language, *day, *first, *mass, *hour;
    } wanted[] = {
        {"english", "Monday 8 March 2027", "Friday 1 January 2027", "77.5\302\240kg", "9:05"},
        {"spanish", "lunes, 8 de marzo de 2027", "viernes, 1 de enero de 2027", "77,5\302\240kg", "9:05"},
        {"thai", "วันจันทร์ที่ 8 มีนาคม พ.ศ. 2570", "วันศุกร์ที่ 1 มกราคม พ.ศ. 2570", "77.5\302\240กก.", "09:05"},
    };
    (void)state;
    for (size_t i = 0; i < sizeof wanted / sizeof *wanted; i++) {
        arena_speak(arena, language_find(wanted[i].language));
        assert_string_equal(sheet_day_words(arena, date_from_ymd(2027, 3, 8)), wanted[i].day);
        assert_string_equal(sheet_day_words(arena, date_from_ymd(2027, 1, 1)), wanted[i].first);
        assert_string_equal(wording_mass(arena, mass_from(77500, MASS_IN_KG), MASS_IN_KG, false), wanted[i].mass);
        assert_string_equal(said_hour(arena, 9 * 3600 + 5 * 60), wanted[i].hour);
    }
}

static void test_names(void **state)
{
    (void)state;
    assert_string_equal(language_find("spanish")->code, "es");
    assert_string_equal(language_find("english")->code, "en");
    assert_null(language_find("spanis"));
    assert_null(language_find("spanishes"));
    assert_null(language_find(""));
}

/* What stands at the edges of a text joins it to the next: a no-break space, a comma, nothing. */
static const char *edge(const char *text, bool last)
{
    static const char *const edges[] = {"\302\240", " ", ", ", ": "};
    for (size_t i = 0; i < sizeof edges / sizeof *edges; i++) {
        size_t length = strlen(edges[i]), whole = strlen(text);
        if (whole >= length && memcmp(last ? text + whole - length : text, edges[i], length) == 0)
            return edges[i];
    }
    return "";
}

static void test_translations_join_as_their_texts_do(void **state)
{
    size_t looked = 0;
    (void)state;
    for (size_t l = 0; l < language_count; l++)
        for (size_t i = 0; i < languages[l]->count; i++) {
            const char *all = languages[l]->texts;
            const struct translation *one = &languages[l]->translations[i];
            looked++;
            assert_string_equal(edge(all + one->forms, false), edge(all + one->id, false));
            assert_string_equal(edge(all + one->forms, true), edge(all + one->id, true));
            if (i) {
                int order = strcmp(all + one[-1].context, all + one->context);
                assert_true(order < 0 || (order == 0 && strcmp(all + one[-1].id, all + one->id) < 0));
            }
        }
    assert_true(looked > 500);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_texts),
        cmocka_unit_test(test_counts),
        cmocka_unit_test(test_guards),
        cmocka_unit_test(test_unread),
        cmocka_unit_test(test_figures_and_hours),
        cmocka_unit_test(test_as_cldr_has_it),
        cmocka_unit_test(test_names),
        cmocka_unit_test(test_translations_join_as_their_texts_do),
    };
    return cmocka_run_group_tests(tests, open_arena, close_arena);
}
