/* The table of checks and the pages that explain them. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>
#include <glib.h>

#include "rules/explain.h"
#include "rules/rules.h"

static void every_check_is_explained(void **state)
{
    (void)state;
    for (size_t i = 0; i < rule_count(); i++) {
        const struct rule *rule = rule_at(i);
        const struct explanation *page = explanation_find(rule_name(rule));
        if (!page)
            print_error("no page for %s\n", rule_name(rule));
        assert_non_null(page);
        assert_true(strlen(page->what) > 30 && strlen(page->why) > 30);
        assert_true(strlen(page->source) > 10 && strlen(page->mend) > 15);
        assert_ptr_equal(rule_find(rule_name(rule)), rule);
        for (size_t k = 0; k < i; k++)
            assert_string_not_equal(rule_name(rule), rule_name(rule_at(k)));
    }
    for (size_t i = 0; i < explanation_count(); i++)
        assert_non_null(rule_find(explanation_at(i)->name));
}

static void every_slip_has_one_page(void **state)
{
    (void)state;
    assert_true(slip_count() > 100);
    for (size_t i = 0; i < slip_count(); i++) {
        const struct slip *slip = slip_at(i);
        assert_true(strlen(slip->title) > 10 && strlen(slip->title) < 80 && strlen(slip->words) > 20);
        assert_null(rule_find(slip->name));
        assert_ptr_equal(slip_find(slip->name), slip);
    }
    assert_null(slip_at(slip_count()));
}

/* Whether TEXT has WORD as a word of its own, case aside. */
static bool has_word(const char *text, const char *word)
{
    size_t length = strlen(word);
    for (const char *at = text; *at; at++)
        if (g_ascii_strncasecmp(at, word, length) == 0 && !g_ascii_isalpha(at[length]) &&
            (at == text || !g_ascii_isalpha(at[-1])))
            return true;
    return false;
}

static void no_page_promises_anything(void **state)
{
    (void)state;
    static const char *const words[] = {"safe", "cleared", "ready", "risk"};
    for (size_t i = 0; i < explanation_count(); i++)
        for (size_t w = 0; w < 4; w++) {
            const struct explanation *page = explanation_at(i);
            assert_false(has_word(page->what, words[w]) || has_word(page->why, words[w]) ||
                         has_word(page->source, words[w]) || has_word(page->mend, words[w]));
        }
    for (size_t i = 0; i < slip_count(); i++)
        for (size_t w = 0; w < 4; w++)
            assert_false(has_word(slip_at(i)->title, words[w]) ||
                         has_word(slip_at(i)->words, words[w]));
}

static void a_slip_finds_the_nearest_check(void **state)
{
    (void)state;
    assert_string_equal(rule_nearest("strike-over"), "strikes-over");
    assert_string_equal(rule_nearest("kit-mising"), "kit-missing");
    assert_null(rule_nearest("something-else-altogether"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_check_is_explained),
        cmocka_unit_test(every_slip_has_one_page),
        cmocka_unit_test(no_page_promises_anything),
        cmocka_unit_test(a_slip_finds_the_nearest_check),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
