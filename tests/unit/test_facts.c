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

static const struct occasion *planned(const struct plan_reader *reader, size_t index)
{
    assert_true(index < reader->programme->occasion_count);
    return &reader->programme->occasions[index];
}

static const char LIGHT[] = "athlete Nils Ferrow\n    stance  orthodox\nsession Legs\n    rpe  7/8\n"
                            "    straight A  3/5 sets rest 2:00\n        push-up : 5 @ RPE 7-8\n"
                            "    straight B  rest 2:00\n        goblet squat : 5 @ 10, 12, 14, 16 kg 2 in reserve\n"
                            "    straight C\n        plank : hold 20 s\n"
                            "    rounds  4 x 2:00 rest 1:00\n        shadow boxing : RPE 6\n"
                            "camp Spring\n    for     Nils Ferrow\n    starts  2027-03-01\n"
                            "    weeks 1-2\n        monday  Legs\n        tuesday  pads : 40 min RPE 6\n";

static void test_deload(void **state)
{
    (void)state;
    struct plan_reader reader;
    char plan[1200];
    snprintf(plan, sizeof plan, "%s    week 2\n        deload  50%% of the sets, RPE 2 lower\n", LIGHT);
    open_plan(&reader, plan);
    const struct occasion *full = planned(&reader, 0), *light = planned(&reader, 2), *pads = planned(&reader, 3);
    assert_int_equal(full->deload, 0);
    assert_int_equal(light->deload, 50000);
    assert_int_equal(full->blocks[0].sets, 3);
    assert_int_equal(full->blocks[0].items->runs->load.effort_band.high, 8000); /* what the weeks share is not changed */
    assert_int_equal(light->blocks[0].sets, 2); /* of 5, 2.5 are as near to 2 as to 3 */
    assert_int_equal(light->blocks[0].items->sets, 2);
    assert_int_equal(light->blocks[0].items->runs->load.effort_band.low, 5000);
    assert_int_equal(light->blocks[0].items->runs->load.effort_band.high, 6000);
    const struct item *squats = light->blocks[1].items;
    assert_int_equal(squats->sets, 2);
    assert_int_equal(squats->run_count, 2);
    assert_true(squats->runs[1].load.made < full->blocks[1].items->runs[2].load.made); /* the first two stay */
    assert_int_equal(squats->runs->load.effort_band.low, 4000);
    assert_int_equal(light->blocks[2].sets, 1);
    assert_int_equal(light->blocks[3].sets, 4);
    assert_int_equal(light->blocks[3].items->runs->load.effort_band.low, 4000);
    assert_int_equal(light->rpe.low, 6000);
    assert_true(light->seconds < full->seconds);
    assert_int_equal(pads->rpe.low, 6000);
    assert_int_equal(pads->seconds, 40 * 60);
    struct tally tally = {0};
    tally_occasion(&tally, light);
    assert_int_equal(tally.sum[COUNTED_SETS].high, 5000);
    plan_reader_close(&reader);
}

/* Of two deloads of one day the narrower holds, and what a deload does not name stays. */
static void test_deload_narrower(void **state)
{
    (void)state;
    struct plan_reader reader;
    char plan[1200];
    snprintf(plan, sizeof plan, "%s    week 2\n        deload  RPE 1 lower\n    weeks 1-2\n        deload  60%% of the sets\n", LIGHT);
    open_plan(&reader, plan);
    assert_int_equal(planned(&reader, 0)->blocks[0].sets, 2); /* 1.8 */
    assert_int_equal(planned(&reader, 0)->rpe.low, 7000);
    assert_int_equal(planned(&reader, 2)->blocks[0].sets, 5);
    assert_int_equal(planned(&reader, 2)->rpe.low, 7000);
    plan_reader_close(&reader);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_counts_for_nothing),
        cmocka_unit_test(test_deload),
        cmocka_unit_test(test_deload_narrower),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
