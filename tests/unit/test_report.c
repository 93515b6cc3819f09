/* Findings as they are made: all of a week, squads, and waivers. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "unit/plan_builder.c"

/* What a screen makes of so many is for it to say (test_screen.c): reports have them all. */
static void a_week_has_all_its_warnings(void **state)
{
    (void)state;
    static const char *const counts[] = {"chest sets", "trunk sets", "hips sets",  "calf sets",
                                           "neck sets",  "grip sets",  "groin sets", "arm sets"};
    struct bench bench = bench_new();
    for (size_t i = 0; i < 8; i++)
        plan_limit(bench.plan, bench.limits, LIMIT_WEEK, counts[i], LIMIT_AT_LEAST, 4000);
    bench.camp->last = bench.monday + 6;
    bench_place(&bench, 0);
    plan_check(bench.plan);
    assert_int_equal(plan_found(bench.plan, "sets-under"), 8);
    const struct finding *finding = plan_finding(bench.plan, "sets-under");
    assert_string_equal(finding->of->who, "Oriel Tamsin");
    assert_string_equal(finding->of->when, "week 1 of Harbour final (from 2027-03-01)");
    assert_true(finding->of->week);
    assert_string_equal(finding->row->is, "0 arm sets");
    assert_string_equal(finding->row->least, "at least 4");
    plan_free(bench.plan);
}

static void a_waiver_keeps_one_week_quiet(void **state)
{
    (void)state;
    struct bench bench = bench_new();
    plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "sparring rounds", LIMIT_AT_MOST, 24000);
    bench_spar(&bench, 25, 1);
    bench_spar(&bench, 25, 8);
    struct waiver waivers[] = {
        {.check = "sparring-over",
         .because = "agreed",
         .first = bench.monday,
         .last = bench.monday + 6,
         .camp = bench.camp},
        {.check = "sparring-over",
         .because = "agreed",
         .first = bench.monday + 14,
         .last = bench.monday + 20,
         .camp = bench.camp},
        {.check = "sparing-over", .because = "agreed", .span = {0, 20, 30}},
    };
    bench.plan->programme.waivers = waivers;
    bench.plan->programme.waiver_count = 3;
    plan_check(bench.plan);
    assert_int_equal(plan_found(bench.plan, "sparring-over"), 1);
    assert_int_equal(plan_found(bench.plan, "waiver-unused"), 1);
    assert_int_equal(plan_found(bench.plan, "waiver-unknown"), 1);
    assert_string_equal(plan_finding(bench.plan, "waiver-unknown")->help, "`waive sparring-over`");
    plan_free(bench.plan);
}

/* A waiver for one day covers no week. */
static void a_waiver_covers_no_more_than_its_days(void **state)
{
    (void)state;
    struct bench bench = bench_new();
    plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "sparring rounds", LIMIT_AT_MOST, 24000);
    bench_spar(&bench, 25, 1);
    struct waiver waiver = {.check = "sparring-over",
                            .because = "agreed",
                            .first = bench.monday + 1,
                            .last = bench.monday + 1,
                            .camp = bench.camp};
    bench.plan->programme.waivers = &waiver;
    bench.plan->programme.waiver_count = 1;
    bench_expect(&bench, "sparring-over", 1);
}

/* A waiver below a placed line covers the week's finding of what the line places, and no other. */
static void a_waiver_belongs_to_its_line(void **state)
{
    (void)state;
    for (int other = 0; other < 2; other++) {
        struct bench bench = bench_new();
        plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "sparring rounds", LIMIT_AT_MOST, 24000);
        struct occasion *sparring = bench_spar(&bench, 25, 1), *later = bench_spar(&bench, 1, 8);
        struct waiver waiver = {.check = "sparring-over",
                                .because = "agreed",
                                .first = bench.monday,
                                .last = bench.monday + 27,
                                .camp = bench.camp,
                                .place = other ? later->place : sparring->place};
        bench.plan->programme.waivers = &waiver;
        bench.plan->programme.waiver_count = 1;
        bench_expect(&bench, "sparring-over", (size_t)other);
    }
}

/* Five athletes do the same: told once, for the one who does most, with three of the names. */
static void a_squad_is_told_once(void **state)
{
    (void)state;
    static const char *const names[] = {"Ada", "Bea", "Cy", "Dee"};
    struct bench bench = bench_new();
    plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "sparring rounds", LIMIT_AT_MOST, 24000);
    bench_spar(&bench, 25, 1);
    for (size_t i = 0; i < 4; i++) {
        bench.athlete = plan_athlete(bench.plan, names[i], STANCE_ORTHODOX);
        plan_join(bench.plan, bench.camp, bench.athlete);
        bench_spar(&bench, i == 1 ? 30 : 25, 1);
    }
    plan_check(bench.plan);
    assert_int_equal(plan_found(bench.plan, "sparring-over"), 1);
    const struct finding *finding = plan_finding(bench.plan, "sparring-over");
    assert_string_equal(finding->words, "Bea: 30 sparring rounds in week 1 of Harbour final (from "
                                        "2027-03-01), at most 24");
    assert_string_equal(finding->notes[finding->note_count - 1].words,
                        "found 5 times in all, for Oriel Tamsin, Ada, Bea and 2 more; the worst is "
                        "shown");
    plan_free(bench.plan);
}

/* What a whole squad lacks in four weeks: one finding a limit. */
static void a_squad_lacks_a_thing_once(void **state)
{
    (void)state;
    static const char *const counts[] = {"chest sets", "trunk sets", "hips sets",
                                           "calf sets",  "neck sets",  "grip sets"};
    struct bench bench = bench_new();
    for (size_t i = 0; i < 6; i++)
        plan_limit(bench.plan, bench.limits, LIMIT_WEEK, counts[i], LIMIT_AT_LEAST, 4000);
    bench_place(&bench, 0);
    bench.athlete = plan_athlete(bench.plan, "Ada", STANCE_ORTHODOX);
    plan_join(bench.plan, bench.camp, bench.athlete);
    plan_check(bench.plan);
    assert_int_equal(plan_found(bench.plan, "sets-under"), 6);
    assert_int_equal(plan_finding(bench.plan, "sets-under")->met, 8);
    plan_free(bench.plan);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_week_has_all_its_warnings),
        cmocka_unit_test(a_waiver_keeps_one_week_quiet),
        cmocka_unit_test(a_waiver_covers_no_more_than_its_days),
        cmocka_unit_test(a_waiver_belongs_to_its_line),
        cmocka_unit_test(a_squad_is_told_once),
        cmocka_unit_test(a_squad_lacks_a_thing_once),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
