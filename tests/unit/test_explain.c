/* The table of diagnostics, and that of checks, which leads to it. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "rules/rules.h"

static void every_diagnostic_is_found_by_its_name(void **state)
{
    (void)state;
    for (int i = 0; i < DIAGNOSTIC_COUNT; i++) {
        const char *name = diagnostic_name((enum diagnostic)i), *title = diagnostic_title((enum diagnostic)i);
        assert_int_equal(diagnostic_find(name), i);
        assert_true(strlen(title) > 10 && strlen(title) < 80);
    }
    assert_int_equal(diagnostic_find("never-heard-of"), DIAGNOSTIC_COUNT);
}

static void every_check_has_a_diagnostic_of_its_own(void **state)
{
    (void)state;
    assert_true(rule_count() > 50);
    for (size_t i = 0; i < rule_count(); i++) {
        enum diagnostic diagnostic = rule_diagnostic(rule_at(i));
        assert_true(diagnostic_family(diagnostic) < FAMILY_LINES);
        assert_ptr_equal(rule_find(diagnostic_name(diagnostic)), rule_at(i));
    }
    for (int i = 0; i < DIAGNOSTIC_COUNT; i++)
        if (diagnostic_family((enum diagnostic)i) < FAMILY_LINES)
            assert_non_null(rule_find(diagnostic_name((enum diagnostic)i)));
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
        cmocka_unit_test(every_diagnostic_is_found_by_its_name),
        cmocka_unit_test(every_check_has_a_diagnostic_of_its_own),
        cmocka_unit_test(a_slip_finds_the_nearest_check),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
