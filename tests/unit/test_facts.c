/* The calendar's facts: what takes up its hour and counts for nothing. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "measure/tally.h"
#include "model/programme.h"
#include "plan_reader.h"

static void open_plan(struct plan_reader *reader, const char *plan)
{
    plan_reader_open(reader);
    plan_reader_shelf(reader);
    plan_reader_text(reader, "plan.bell", plan, strlen(plan));
    plan_reader_resolve(reader);
    if (diag_count(reader->diag, SEVERITY_ERROR))
        plan_reader_tell(reader);
    assert_int_equal(diag_count(reader->diag, SEVERITY_ERROR), 0);
}

static void test_counts_for_nothing(void **state)
{
    (void)state;
    static const char *const names[] = {"travel", "exam", "work", "weigh-in"};
    for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
        struct plan_reader reader;
        char plan[400];
        snprintf(plan, sizeof plan,
                 "athlete Nils Ferrow\n    stance  orthodox\ncamp Spring\n    for     Nils Ferrow\n    starts  2027-03-01\n"
                 "    week 1\n        monday  06:00  %s : 6 h\n", names[i]);
        open_plan(&reader, plan);
        assert_int_equal(reader.programme->occasion_count, 1);
        const struct occasion *occasion = reader.programme->occasions;
        assert_int_equal(occasion->seconds, 6 * 3600);
        struct tally nothing = {0}, tally = {0};
        tally_occasion(&tally, occasion);
        assert_memory_equal(&tally, &nothing, sizeof tally);
        struct share *shares;
        for (int counted = 0; counted < COUNTED_COUNT; counted++)
            assert_int_equal(tally_shares(reader.arena, &occasion, 1, (enum counted)counted, SIDE_ALL, &shares), 0);
        assert_int_equal(tally_shares_done(reader.arena, &occasion, 1, &shares), 0);
        plan_reader_close(&reader);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_counts_for_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
