/* What names mean in each line of the language. */
#include <stdarg.h>
#include <stddef.h>
#include <setjmp.h>
#include <stdint.h>
#include <cmocka.h>

#include <string.h>

#include "lsp/index.h"
#include "syntax/phrases.h"
#include "syntax/read.h"

/* A statement that is new to kinds.def needs a row: without one, what its line names would not be renamed. */
static void test_every_statement(void **state)
{
    (void)state;
    struct arena *arena = arena_new();
    const struct phrasebook *book = phrasebook_new(arena);
    size_t with_names = 0;
    for (size_t i = 0; i < book->count; i++) {
        const struct statement *statement = &book->all[i];
        if (!strpbrk(statement->form->steps, "nNM"))
            continue;
        with_names++;
        if (!statement_is_known(statement->kind))
            fail_msg("src/lsp/index.c has no row for `%s`", node_kind_name(statement->kind));
    }
    assert_true(with_names > 40);
    arena_free(arena);
}

static void test_rows(void **state)
{
    (void)state;
    assert_false(statement_is_known(STATEMENT_PURPOSE));
    assert_int_equal(statement_names(STATEMENT_LOG, 0, false), NAMED_ATHLETE);
    assert_int_equal(statement_names(STATEMENT_LOG, 1, false), NAMED_SESSION | NAMED_ACTIVITY);
    assert_int_equal(statement_names(STATEMENT_SESSION, 0, true), NAMED_SESSION);
    assert_int_equal(statement_declares(STATEMENT_PRIVATE), NAMED_NOTHING);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_every_statement), cmocka_unit_test(test_rows)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
