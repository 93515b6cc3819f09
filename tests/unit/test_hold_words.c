/* What a coach reads about a hold: what would make a line allowed, which entry is missing; and what is asked where no day is
 * known as today. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "figures/mass.h"
#include "measure/hold.h"
#include "unit/plan_builder.c"

static const char OUT[] = "below `athlete Oriel Tamsin`, write `out since 2027-02-20`: then only what the hold allows is planned";

static struct hold hold_by(const struct bench *bench, const struct protocol *protocol)
{
    return (struct hold){.since = bench->monday - 9, .clock = -1, .protocol = protocol};
}

/* A squat without an effort, below a step that may name it three times over. */
static void what_would_make_a_line_allowed(void **state)
{
    (void)state;
    enum { CAP = 4000 };
    static const struct {
        bool allows, if_agreed, bars; /* squats; the first two at RPE 4 at most */
        bool agreed;
        const char *help;
    } rows[] = {
        {false, false, false, false, OUT},
        {true, false, false, false, "back squat is allowed at RPE 4 at most, and its line has to say so"},
        {true, false, true, false, OUT},
        {false, true, false, false, "back squat needs a line `agreed by doctor NAME on DATE` below the hold"},
        {false, true, true, false, OUT},
        {false, true, false, true, OUT}, /* it has that line */
        {true, true, false, true, "back squat is allowed at RPE 4 at most, and its line has to say so"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct bench bench = bench_new();
        struct exercise *squat = bench_squat(&bench);
        const struct permit capped[] = {{.exercise = squat, .pattern = -1, .kind = -1, .cap = CAP}};
        const struct permit whole[] = {{.exercise = squat, .pattern = -1, .kind = -1}};
        const struct protocol_step steps[] = {{.name = "1", .title = "light work", .days = 1, .back = -1,
                                               .allows = {capped, rows[i].allows},
                                               .if_agreed = {capped, rows[i].if_agreed},
                                               .bars = {whole, rows[i].bars}}};
        const struct protocol protocol = {.steps = steps, .step_count = 1};
        const struct hold_entry agreed[] = {{.kind = ENTRY_AGREED, .day = bench.monday - 3, .by = "doctor Ines Tarrant"}};
        struct hold hold = hold_by(&bench, &protocol);
        hold.entries = agreed;
        hold.entry_count = rows[i].agreed;
        bench.athlete->holds = &hold;
        bench.athlete->hold_count = 1;
        bench_sets(&bench, bench_place(&bench, 0), squat, 3, 5, UNIT_REPS);
        plan_check(bench.plan);
        const struct finding *finding = plan_finding(bench.plan, "hold-broken");
        assert_non_null(finding);
        assert_string_equal(finding->help, rows[i].help);
        plan_free(bench.plan);
    }
}

/* A day gone by is no longer barred but breached, and a bout is reported as one, not as work. */
static void what_is_reported_elsewhere(void **state)
{
    (void)state;
    for (int row = 0; row < 3; row++) {
        struct bench bench = bench_new();
        struct hold hold = hold_by(&bench, NULL);
        bench.athlete->holds = &hold;
        bench.athlete->hold_count = 1;
        bench.plan->programme.today = bench.monday + 1;
        if (row < 2) {
            bench_sets(&bench, bench_place(&bench, row), bench_squat(&bench), 3, 5, UNIT_REPS);
        } else {
            struct activity *activity = plan_activity(bench.plan, "bout");
            activity->bout = true;
            plan_bout(bench.plan, bench.camp, bench.monday + 5);
            plan_do(bench.plan, bench.camp, bench.athlete, activity, bench.monday + 5);
        }
        plan_check(bench.plan);
        assert_int_equal(plan_found(bench.plan, "hold-broken"), row > 0);
        assert_int_equal(plan_found(bench.plan, "hold-breached"), 0); /* the plan has it, but nobody did it */
        if (row == 2)
            assert_string_equal(plan_finding(bench.plan, "hold-broken")->words,
                                "Oriel Tamsin is on hold, but has a bout on 2027-03-06");
        plan_free(bench.plan);
    }
}

/* The end is entered too early, at the first step. */
static void the_step_that_is_missing(void **state)
{
    (void)state;
    static const struct protocol_step three[] = {{.name = "1", .days = 1, .back = -1}, {.name = "2", .days = 1, .back = -1},
                                                 {.name = "3", .end = true, .back = -1}};
    static const struct protocol protocols[] = {{.steps = three, .step_count = 3}, {.steps = three, .step_count = 2},
                                                {.steps = three, .step_count = 1}};
    static const char *const words[] = {"step 2 is not entered as reached", "step 1 is not entered as reached",
                                        "no step is entered as reached", "no step is entered as reached"};
    for (size_t i = 0; i < 4; i++) {
        struct bench bench = bench_new();
        const struct hold_entry ended[] = {{.kind = ENTRY_ENDED, .day = bench.monday - 2, .by = "doctor Ines Tarrant"}};
        struct hold hold = hold_by(&bench, i < 3 ? &protocols[i] : NULL);
        hold.entries = ended;
        hold.entry_count = 1;
        bench.athlete->holds = &hold;
        bench.athlete->hold_count = 1;
        bench_sets(&bench, bench_place(&bench, 0), bench_squat(&bench), 3, 5, UNIT_REPS);
        plan_check(bench.plan);
        const struct finding *finding = plan_finding(bench.plan, "hold-entry");
        assert_non_null(finding);
        char expected[128];
        snprintf(expected, sizeof expected, "Oriel Tamsin: this entry does not count: %s", words[i]);
        assert_string_equal(finding->words, expected);
        plan_free(bench.plan);
    }
}

/* Without a today the latest weighing is the last of all, and none of them is a plan. */
static void weighings_without_a_today(void **state)
{
    (void)state;
    for (int known = 0; known < 2; known++) {
        struct bench bench = bench_new();
        struct body_mass masses[] = {{58 * MASS_KG, bench.monday - 60, true},
                                     {60 * MASS_KG, bench.monday, true},
                                     {60 * MASS_KG, bench.monday + 1, true},
                                     {59 * MASS_KG, bench.monday + 8, true}};
        bench.athlete->born = bench.monday - 16 * 366;
        bench.athlete->masses = masses;
        bench.athlete->mass_count = 4;
        bench.plan->programme.today = known ? bench.monday + 2 : 0;
        bench_sets(&bench, bench_place(&bench, 0), bench_squat(&bench), 3, 5, UNIT_REPS);
        plan_check(bench.plan);
        assert_int_equal(plan_found(bench.plan, "mass-falling"), !known);
        assert_int_equal(plan_found(bench.plan, "mass-planned"), known);
        plan_free(bench.plan);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_would_make_a_line_allowed),
        cmocka_unit_test(what_is_reported_elsewhere),
        cmocka_unit_test(the_step_that_is_missing),
        cmocka_unit_test(weighings_without_a_today),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
