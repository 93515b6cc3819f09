/* Fixes that are tried before they are reported, waivers up to a figure, and what asks the coach to look. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "kg.h"
#include "unit/plan_builder.c"

/* --- mends --- */

/* Runs the checks, expects the help of the first finding of NAME (NULL: none), and ends the bench. */
static void expect_help(struct bench *bench, const char *name, const char *help)
{
    plan_check(bench->plan);
    const struct finding *finding = plan_finding(bench->plan, name);
    assert_non_null(finding);
    if (help)
        assert_string_equal(finding->help, help);
    else
        assert_null(finding->help);
    plan_free(bench->plan);
}

/* 12 sets and 5 of the same kind, at most so many: the fewest sets that suffice. */
static struct bench bench_of_sets(int most)
{
    struct bench bench = bench_new();
    plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "sets", LIMIT_AT_MOST, most * 1000);
    bench_sets(&bench, bench_place(&bench, 0), bench_squat(&bench), 12, 5, UNIT_REPS);
    bench_sets(&bench, bench_place(&bench, 3), bench_press(&bench), 5, 5, UNIT_REPS);
    return bench;
}

static void the_fewest_sets_are_taken(void **state)
{
    (void)state;
    static const struct {
        int most;
        const char *help;
    } cases[] = {
        {16, "one set fewer of A.1 back squat on Monday 2027-03-01 brings it to 16"},
        {14, "three sets fewer of A.1 back squat on Monday 2027-03-01 bring it to 14"},
        {13, NULL}, /* four are no small edit */
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct bench bench = bench_of_sets(cases[i].most);
        expect_help(&bench, "sets-over", cases[i].help);
    }
}

/* Made as it says, the plan keeps to its limit. */
static void the_edit_does_what_it_says(void **state)
{
    (void)state;
    struct bench bench = bench_of_sets(14);
    struct item *squat = (struct item *)&bench.plan->occasions[0]->blocks[0].items[0];
    ((struct set_run *)squat->runs)[0].count -= 3;
    squat->sets -= 3;
    bench_expect(&bench, "sets-over", 0);
}

/* A floor on squats leaves the press as the only line to take from. */
static void no_floor_is_broken_by_an_edit(void **state)
{
    (void)state;
    for (int floors = 1; floors < 3; floors++) {
        struct bench bench = bench_of_sets(16);
        plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "squat sets", LIMIT_AT_LEAST, 12000);
        if (floors == 2)
            plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "push sets", LIMIT_AT_LEAST, 5000);
        expect_help(&bench, "sets-over",
                    floors == 2 ? NULL
                                : "one set fewer of A.1 bench press on Thursday 2027-03-04 brings it to 16");
    }
}

/* Neck and shoulder care is not where sets are saved. */
static void care_is_left_alone(void **state)
{
    (void)state;
    static const enum pattern care[] = {PATTERN_NECK, PATTERN_SHOULDER_CARE, PATTERN_PULL};
    for (size_t i = 0; i < 3; i++) {
        struct bench bench = bench_new();
        plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "sets", LIMIT_AT_MOST, 4000);
        struct exercise *exercise =
            plan_exercise(bench.plan, "hold", EXERCISE_STRENGTH, care[i]);
        bench_sets(&bench, bench_place(&bench, 0), exercise, 5, 5, UNIT_REPS);
        expect_help(&bench, "sets-over",
                    i < 2 ? NULL : "one set fewer of A.1 hold on Monday 2027-03-01 brings it to 4");
    }
}

/* Rounds of sparring may be taken away; where there are too few, nothing is proposed, and never more. */
static void sparring_is_only_ever_taken_away(void **state)
{
    (void)state;
    for (int low = 0; low < 2; low++) {
        struct bench bench = bench_new();
        plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "sparring rounds",
                   low ? LIMIT_AT_LEAST : LIMIT_AT_MOST, low ? 9000 : 7000);
        bench_spar(&bench, 8, 5);
        expect_help(&bench, low ? "sparring-under" : "sparring-over",
                    low ? NULL
                        : "one round fewer of sparring on Saturday 2027-03-06 brings it to 7");
    }
}

/* Roadwork of so many minutes in two weeks, RPE 5, the second at most 15 % above the first. */
static struct bench bench_of_roadwork(int first, int second, int weigh_in)
{
    struct bench bench = bench_new();
    plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "load rise", LIMIT_AT_MOST, 15000);
    const int minutes[] = {first, second};
    for (int week = 0; week < 2; week++) {
        struct occasion *run = plan_do(bench.plan, bench.camp, bench.athlete,
                                       plan_activity(bench.plan, "roadwork"), bench.monday + 7 * week);
        run->seconds = minutes[week] * 60;
        run->rpe = (struct range){5000, 5000};
    }
    struct occasion *scales = plan_do(bench.plan, bench.camp, bench.athlete,
                                      plan_activity(bench.plan, "weigh-in"), bench.monday + 8);
    scales->seconds = weigh_in * 60;
    return bench;
}

/* Fifteen minutes at most are a small edit, and half of what was planned stays. */
static void a_rise_is_mended_by_minutes(void **state)
{
    (void)state;
    static const struct {
        int first, second;
        const char *help;
    } cases[] = {
        {100, 116, "5 min less of roadwork on Monday 2027-03-08 brings it to 555"},
        {100, 130, "15 min less of roadwork on Monday 2027-03-08 brings it to 575"},
        {100, 131, NULL},
        {16, 20, "5 min less of roadwork on Monday 2027-03-08 brings it to 75"},
        {5, 9, NULL},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct bench bench = bench_of_roadwork(cases[i].first, cases[i].second, 0);
        bench.plan->occasions[2]->seconds = 0;
        expect_help(&bench, "load-rise", cases[i].help);
    }
    struct bench bench = bench_of_roadwork(100, 130 - 15, 0);
    bench_expect(&bench, "load-rise", 0);
}

/* A visit to the scales is no training that could be shorter, and eight minutes are short already. */
static void what_asks_no_effort_is_left_alone(void **state)
{
    (void)state;
    struct bench bench = bench_of_roadwork(20, 8, 70);
    plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "time", LIMIT_AT_MOST, 75 * 60000);
    expect_help(&bench, "time-over", NULL);
}

/* A camp of twenty sessions and one long one, which alone is looked at, at most as many sets as given. */
static struct bench bench_of_camp(int most)
{
    struct bench bench = bench_new();
    struct exercise *squat = bench_squat(&bench), *press = bench_press(&bench);
    plan_limit(bench.plan, bench.limits, LIMIT_CAMP, "sets", LIMIT_AT_MOST, most * 1000);
    for (int i = 0; i < 20; i++)
        bench_sets(&bench, bench_place(&bench, i), press, 2, 5, UNIT_REPS);
    bench_sets(&bench, bench_place(&bench, 21), squat, 10, 5, UNIT_REPS);
    return bench;
}

static void a_camp_is_mended_at_its_largest_lines(void **state)
{
    (void)state;
    struct bench bench = bench_of_camp(48);
    expect_help(&bench, "sets-over", "two sets fewer of A.1 back squat on Monday 2027-03-22 bring it to 48");
    bench = bench_of_camp(46);
    expect_help(&bench, "sets-over", NULL);
}

/* The floor of the week in which the edit would lie. */
static void no_floor_of_the_week_is_broken_for_a_camp(void **state)
{
    (void)state;
    for (int least = 8; least < 10; least++) {
        struct bench bench = bench_of_camp(48);
        plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "squat sets", LIMIT_AT_LEAST, least * 1000);
        expect_help(&bench, "sets-over",
                    least == 8 ? "two sets fewer of A.1 back squat on Monday 2027-03-22 bring it to 48"
                               : NULL);
    }
}

/* --- waivers with a figure --- */

static void a_waiver_holds_up_to_its_figure(void **state)
{
    (void)state;
    for (int rounds = 30; rounds < 32; rounds++) {
        struct bench bench = bench_new();
        plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "sparring rounds", LIMIT_AT_MOST, 24000);
        struct waiver waiver = {.check = "sparring-over", .because = "agreed", .capped = true,
                                .cap = 30000, .first = bench.monday, .last = bench.monday + 6};
        bench.plan->programme.waivers = &waiver;
        bench.plan->programme.waiver_count = 1;
        bench_spar(&bench, rounds, 1);
        bench_expect(&bench, "sparring-over", rounds == 31);
    }
}

static void a_waiver_of_a_floor_holds_down_to_its_figure(void **state)
{
    (void)state;
    for (int count = 1; count < 3; count++) {
        struct bench bench = bench_new();
        bench.camp->last = bench.monday + 6;
        plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "sessions", LIMIT_AT_LEAST, 3000);
        struct waiver waiver = {.check = "sessions-under", .because = "exams", .capped = true,
                                .cap = 2000, .first = bench.monday, .last = bench.monday + 6};
        bench.plan->programme.waivers = &waiver;
        bench.plan->programme.waiver_count = 1;
        for (int i = 0; i < count; i++)
            bench_place(&bench, i);
        bench_expect(&bench, "sessions-under", count == 1);
    }
}

/* Minutes, as the message has them. */
static void a_waiver_of_time_is_in_minutes(void **state)
{
    (void)state;
    for (int extra = 0; extra < 2; extra++) {
        struct bench bench = bench_new();
        plan_limit(bench.plan, bench.limits, LIMIT_SESSION, "time", LIMIT_AT_MOST, 3600000);
        struct waiver waiver = {.check = "time-over", .because = "agreed", .capped = true,
                                .cap = 80000, .first = bench.monday, .last = bench.monday + 6};
        bench.plan->programme.waivers = &waiver;
        bench.plan->programme.waiver_count = 1;
        bench_place(&bench, 0)->seconds = 4800 + extra;
        bench_expect(&bench, "time-over", (size_t)extra);
    }
}

/* One whose figure is passed, or that is for what has no figure, is not called useless. */
static void a_waiver_says_what_its_figure_comes_to(void **state)
{
    (void)state;
    struct waiver sparring = {.check = "sparring-over", .because = "agreed", .capped = true, .cap = 30000};
    struct waiver contrast = {.check = "contrast-not-heavy", .because = "agreed", .capped = true, .cap = 4000};
    for (int figure = 0; figure < 2; figure++) {
        struct bench bench = bench_new();
        struct waiver *waiver = figure ? &sparring : &contrast;
        waiver->first = bench.monday;
        waiver->last = bench.monday + 6;
        bench.plan->programme.waivers = waiver;
        bench.plan->programme.waiver_count = 1;
        plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "sparring rounds", LIMIT_AT_MOST, 24000);
        bench_spar(&bench, 31, 1);
        struct block *block = plan_block(bench.plan, bench_place(&bench, 0), BLOCK_CONTRAST, 3);
        plan_percent(plan_sets(bench.plan, plan_item(bench.plan, block, bench_squat(&bench)), 3, 3, UNIT_REPS), 60);
        plan_sets(bench.plan, plan_item(bench.plan, block, bench_throw(&bench)), 3, 3, UNIT_REPS);
        bench_expect_words(&bench, "waiver-unused", SEVERITY_WARNING,
                           figure ? "this waives sparring-over up to 30, but it comes to 31: nothing is waived"
                                  : "this waives contrast-not-heavy up to 4, but its message has no figure");
    }
}

/* --- on purpose --- */

static void a_superset_may_be_meant(void **state)
{
    (void)state;
    for (int meant = 0; meant < 2; meant++) {
        struct bench bench = bench_new();
        struct block *block =
            plan_block(bench.plan, bench_place(&bench, 0), BLOCK_SUPERSET, 3);
        for (int i = 0; i < 2; i++)
            plan_effort(plan_sets(bench.plan, plan_item(bench.plan, block, bench_press(&bench)), 3,
                                  8, UNIT_REPS),
                        EFFORT_RPE, 8);
        block->on_purpose = meant ? "a finisher" : NULL;
        bench_expect(&bench, "pair-same-region", (size_t)!meant);
    }
}

/* --- after a bout --- */

static void what_follows_a_bout_waits_for_its_entries(void **state)
{
    (void)state;
    static const struct {
        bool result, checked;
        int day;
        size_t found;
    } cases[] = {{false, false, 12, 1}, {true, false, 12, 1}, {false, true, 12, 1},
                 {true, true, 12, 0},   {false, false, 11, 0}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct bench bench = bench_new();
        struct bout *bout = plan_bout(bench.plan, bench.camp, bench.monday + 11);
        bout->result_known = cases[i].result;
        bout->checked = cases[i].checked;
        bench_place(&bench, cases[i].day);
        bench_expect(&bench, "provisional", cases[i].found);
    }
}

/* It reaches into the athlete's next camp, and warns once the bout's day has passed. */
static void the_next_camp_is_provisional_too(void **state)
{
    (void)state;
    for (int past = 0; past < 2; past++) {
        struct bench bench = bench_new();
        struct camp *next = plan_camp(bench.plan, "Lock Gate night", bench.monday + 28, 2);
        plan_join(bench.plan, next, bench.athlete);
        plan_bout(bench.plan, bench.camp, bench.monday + 26);
        bench.plan->programme.today = bench.monday + 26 + past;
        bench_place(&bench, 30)->camp = next;
        bench_expect_words(&bench, "provisional", past ? SEVERITY_WARNING : SEVERITY_INFO,
                           "Oriel Tamsin: what follows the bout on 2027-03-27 is provisional");
    }
}

/* --- for the coach alone --- */

/* Weighings so many days before today. */
static struct bench bench_weighed(struct body_mass *masses, size_t count, int age)
{
    struct bench bench = bench_new();
    bench.plan->programme.today = bench.monday;
    for (size_t i = 0; i < count; i++)
        masses[i].date = bench.monday - masses[i].date;
    bench.athlete->masses = masses;
    bench.athlete->mass_count = count;
    bench.athlete->born = bench.monday - age * 366;
    return bench;
}

/* From a mean of 60 kg, 59.10 kg is 1.5 % less, which is let pass. */
static void a_fast_fall_is_told(void **state)
{
    (void)state;
    static const struct {
        mass now;
        size_t count;
        bool private;
        size_t found;
    } cases[] = {{KG(59.10), 3, true, 0}, {KG(59.09), 3, true, 1}, {KG(59.09), 3, false, 0}, {KG(59.09), 2, true, 0}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        bool private = cases[i].private;
        struct body_mass masses[] = {{cases[i].now, 0, private}, {KG(60), 7, private}, {KG(60), 8, private}};
        struct bench bench = bench_weighed(masses, cases[i].count, 25);
        plan_check(bench.plan);
        assert_int_equal(plan_found(bench.plan, "mass-falling"), cases[i].found);
        assert_int_equal(diag_count(bench.plan->diag, SEVERITY_WARNING) +
                             diag_count(bench.plan->diag, SEVERITY_ERROR),
                         plan_found(bench.plan, "session-never-placed"));
        if (cases[i].found)
            assert_true(plan_finding(bench.plan, "mass-falling")->private);
        plan_free(bench.plan);
    }
}

static void a_planned_loss_is_told_for_the_young(void **state)
{
    (void)state;
    static const struct {
        mass to_come;
        int age;
        size_t found;
    } cases[] = {{KG(59.9), 16, 1}, {KG(60), 16, 0}, {KG(59.9), 19, 0}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct body_mass masses[] = {{KG(60), 3, true}, {cases[i].to_come, -20, true}};
        struct bench bench = bench_weighed(masses, 2, cases[i].age);
        bench_expect(&bench, "mass-planned", cases[i].found);
    }
}

static void the_young_lift_with_a_coach(void **state)
{
    (void)state;
    for (int age = 17; age < 19; age++) {
        struct bench bench = bench_weighed(NULL, 0, age);
        bench_place(&bench, 0);
        plan_check(bench.plan);
        assert_int_equal(plan_found(bench.plan, "supervision"), age == 17);
        if (age == 17)
            assert_true(plan_finding(bench.plan, "supervision")->private);
        plan_free(bench.plan);
    }
}

/* --- limits --- */

static void a_phase_that_no_camp_has_is_told(void **state)
{
    (void)state;
    for (int spelt = 0; spelt < 2; spelt++) {
        struct bench bench = bench_new();
        plan_phase(bench.plan, bench.camp, "strength", bench.monday, bench.monday + 27);
        plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "sets", LIMIT_AT_MOST, 90000)->phase =
            spelt ? "strength" : "strenght";
        bench_expect(&bench, "limit-never-holds", (size_t)!spelt);
    }
}

/* Ten sets at the peak, then a week's phase: six are 40 % below, seven are not. */
static void any_counted_can_be_held_below_its_peak(void **state)
{
    (void)state;
    for (int sets = 6; sets < 8; sets++) {
        struct bench bench = bench_new();
        plan_phase(bench.plan, bench.camp, "base", bench.monday, bench.monday + 6);
        plan_phase(bench.plan, bench.camp, "taper", bench.monday + 7, bench.monday + 13);
        struct limit *limit = plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "squat sets",
                                         LIMIT_AT_LEAST, 40000);
        limit->phase = "taper";
        limit->below_peak = true;
        struct exercise *squat = bench_squat(&bench);
        bench_sets(&bench, bench_place(&bench, 0), squat, 10, 5, UNIT_REPS);
        bench_sets(&bench, bench_place(&bench, 7), squat, sets, 5, UNIT_REPS);
        bench_expect(&bench, "taper-volume", sets == 7);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_fewest_sets_are_taken),
        cmocka_unit_test(the_edit_does_what_it_says),
        cmocka_unit_test(no_floor_is_broken_by_an_edit),
        cmocka_unit_test(care_is_left_alone),
        cmocka_unit_test(sparring_is_only_ever_taken_away),
        cmocka_unit_test(a_rise_is_mended_by_minutes),
        cmocka_unit_test(what_asks_no_effort_is_left_alone),
        cmocka_unit_test(a_camp_is_mended_at_its_largest_lines),
        cmocka_unit_test(no_floor_of_the_week_is_broken_for_a_camp),
        cmocka_unit_test(a_waiver_holds_up_to_its_figure),
        cmocka_unit_test(a_waiver_of_a_floor_holds_down_to_its_figure),
        cmocka_unit_test(a_waiver_of_time_is_in_minutes),
        cmocka_unit_test(a_waiver_says_what_its_figure_comes_to),
        cmocka_unit_test(a_superset_may_be_meant),
        cmocka_unit_test(what_follows_a_bout_waits_for_its_entries),
        cmocka_unit_test(the_next_camp_is_provisional_too),
        cmocka_unit_test(a_fast_fall_is_told),
        cmocka_unit_test(a_planned_loss_is_told_for_the_young),
        cmocka_unit_test(the_young_lift_with_a_coach),
        cmocka_unit_test(a_phase_that_no_camp_has_is_told),
        cmocka_unit_test(any_counted_can_be_held_below_its_peak),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
