/* Findings as they are made: all of a week, squads, and waivers. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "model/athlete.h"
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

/* What goes past a waiver's figure is said at its worst, in whichever week that is; less of a floor is worse, down to none. */
static void the_worst_past_a_waiver(void **state)
{
    (void)state;
    static const struct {
        enum limit_bound bound;
        int sets[3], cap;
        const char *words;
    } rows[] = {
        {LIMIT_AT_MOST, {12, 15, 13}, 11, "this waives sets-over up to 11, but it comes to 15: nothing is waived"},
        {LIMIT_AT_MOST, {15, 12, 15}, 11, "this waives sets-over up to 11, but it comes to 15: nothing is waived"},
        {LIMIT_AT_LEAST, {3, 2, 4}, 5, "this waives sets-under down to 5, but it comes to 2: nothing is waived"},
        {LIMIT_AT_LEAST, {2, 3, 2}, 5, "this waives sets-under down to 5, but it comes to 2: nothing is waived"},
        {LIMIT_AT_LEAST, {3, 0, 4}, 5, "this waives sets-under down to 5, but it comes to 0: nothing is waived"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct bench bench = bench_new();
        bench.camp->weeks = 3;
        bench.camp->last = bench.monday + 20;
        plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "sets", rows[i].bound, rows[i].bound == LIMIT_AT_MOST ? 9000 : 7000);
        struct exercise *squat = bench_squat(&bench);
        for (int week = 0; week < 3; week++) {
            struct occasion *occasion = bench_place(&bench, 7 * week);
            if (rows[i].sets[week])
                bench_sets(&bench, occasion, squat, rows[i].sets[week], 5, UNIT_REPS);
        }
        struct waiver *waiver = bench_waive(&bench, rows[i].bound == LIMIT_AT_MOST ? "sets-over" : "sets-under");
        waiver->capped = true;
        waiver->cap = rows[i].cap * 1000;
        plan_check(bench.plan);
        assert_non_null(plan_finding(bench.plan, "waiver-unused"));
        assert_string_equal(plan_finding(bench.plan, "waiver-unused")->words, rows[i].words);
        plan_free(bench.plan);
    }
}

/* In place of a health fact others read whom the work is not for and when, and nothing of what is no work. */
static void what_others_read(void **state)
{
    (void)state;
    static const char *const words[] = {"this work is not for Oriel Tamsin on 2027-03-01",
                                        "this work is not for Oriel Tamsin on 2027-03-01, 2027-03-08"};
    for (int days = 1; days <= 2; days++) {
        struct bench bench = bench_new();
        struct exercise *press = bench_press(&bench);
        struct avoid avoid = {.shown = "bench press", .exercise = press, .pattern = -1, .region = -1, .kind = -1, .joint = -1,
                              .demand = -1, .review = bench.monday, .span = bench.athlete->name.span};
        bench.athlete->avoids = &avoid;
        bench.athlete->avoid_count = 1;
        bench.plan->programme.today = bench.monday;
        struct item *first = NULL;
        for (int day = 0; day < days; day++) { /* of one line */
            struct occasion *occasion = bench_place(&bench, 7 * day);
            bench_sets(&bench, occasion, press, 3, 5, UNIT_REPS);
            struct item *item = (struct item *)&occasion->blocks[0].items[0];
            first = first ? first : item;
            item->span = first->span;
        }
        plan_check(bench.plan);
        assert_non_null(plan_finding(bench.plan, "avoid-broken"));
        assert_string_equal(plan_finding(bench.plan, "avoid-broken")->neutral, words[days - 1]);
        assert_non_null(plan_finding(bench.plan, "review-due"));
        assert_string_equal(plan_finding(bench.plan, "review-due")->neutral, "");
        plan_free(bench.plan);
    }
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
        cmocka_unit_test(the_worst_past_a_waiver),
        cmocka_unit_test(what_others_read),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
