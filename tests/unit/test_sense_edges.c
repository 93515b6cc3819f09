/* What cannot be meant as written, on both sides of each border: repetitions, tempo, kilograms, old bests and waivers. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "kg.h"
#include "model/athlete.h"
#include "unit/plan_builder.c"

static bool is_said(const struct finding *finding, const char *words)
{
    for (size_t i = 0; i < finding->note_count; i++)
        if (strcmp(finding->notes[i].words, words) == 0)
            return true;
    return false;
}

/* Of a best of 100 kg, by percentage or in kilograms. */
static void how_many_can_be_done(void **state)
{
    (void)state;
    static const struct {
        int reps;
        double share;
        enum block_kind block;
        enum exercise_kind kind;
        const char *words; /* NULL: nothing is found */
        enum severity severity;
    } rows[] = {
        {8, 80, BLOCK_STRAIGHT, EXERCISE_STRENGTH, NULL, SEVERITY_INFO},
        {9, 80, BLOCK_STRAIGHT, EXERCISE_STRENGTH, "Oriel Tamsin: A.1 lift asks for 9 reps at 80 %; about 8 can be done", SEVERITY_INFO},
        {11, 80, BLOCK_STRAIGHT, EXERCISE_STRENGTH, "Oriel Tamsin: A.1 lift asks for 11 reps at 80 %; about 8 can be done", SEVERITY_INFO},
        {12, 80, BLOCK_STRAIGHT, EXERCISE_STRENGTH, "Oriel Tamsin: A.1 lift asks for 12 reps at 80 %; about 8 can be done", SEVERITY_WARNING},
        {12, 80, BLOCK_CLUSTER, EXERCISE_STRENGTH, NULL, SEVERITY_INFO},
        {12, 80, BLOCK_STRAIGHT, EXERCISE_POWER, NULL, SEVERITY_INFO},
        {1, 100, BLOCK_STRAIGHT, EXERCISE_STRENGTH, NULL, SEVERITY_INFO},
        {2, 100, BLOCK_STRAIGHT, EXERCISE_STRENGTH, "Oriel Tamsin: A.1 lift asks for 2 reps at 100 %; about 1 can be done", SEVERITY_INFO},
        {5, 0, BLOCK_STRAIGHT, EXERCISE_STRENGTH, NULL, SEVERITY_INFO},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        for (int way = 0; way < 3; way++) { /* by percentage, in kilograms, waived */
            struct bench bench = bench_new();
            struct exercise *lift = plan_exercise(bench.plan, "lift", rows[i].kind, PATTERN_SQUAT);
            plan_best(bench.plan, bench.athlete, lift, KG(100), bench.monday - 7);
            struct block *block = plan_block(bench.plan, bench_place(&bench, 0), rows[i].block, 3);
            struct set_run *run = plan_sets(bench.plan, plan_item(bench.plan, block, lift), 3, rows[i].reps, UNIT_REPS);
            if (way == 1 && rows[i].share > 0)
                plan_kilograms(run, rows[i].share);
            else if (rows[i].share > 0)
                plan_percent(run, rows[i].share);
            if (way == 2)
                bench_waive(&bench, "reps-exceed-load");
            plan_check(bench.plan);
            const struct finding *finding = plan_finding(bench.plan, "reps-exceed-load");
            assert_int_equal(finding != NULL, rows[i].words && way < 2);
            if (finding) {
                assert_string_equal(finding->words, rows[i].words);
                assert_int_equal(finding->severity, rows[i].severity);
                assert_int_equal(is_said(finding, "of this best"), way == 1);
            }
            plan_free(bench.plan);
        }
}

static void what_is_fast_has_no_tempo(void **state)
{
    (void)state;
    for (int row = 0; row < 8; row++) {
        struct bench bench = bench_new();
        struct exercise *jump = plan_exercise(bench.plan, "jump", EXERCISE_STRENGTH, PATTERN_JUMP);
        jump->ballistic = row & 1;
        bench_sets(&bench, bench_place(&bench, 0), jump, 3, 3, UNIT_REPS)->tempo.given = row & 2;
        if (row & 4)
            bench_waive(&bench, "tempo-on-fast-work");
        plan_check(bench.plan);
        const struct finding *finding = plan_finding(bench.plan, "tempo-on-fast-work");
        assert_int_equal(finding != NULL, row == 3);
        if (finding) {
            assert_string_equal(finding->words, "jump is done as fast as possible, but has a tempo");
            assert_string_equal(finding->help, "leave the tempo out");
        }
        plan_free(bench.plan);
    }
}

static void what_kilograms_mean(void **state)
{
    (void)state;
    for (int row = 0; row < 8; row++) {
        struct bench bench = bench_new();
        struct exercise *carry = plan_exercise(bench.plan, "carry", EXERCISE_STRENGTH, PATTERN_CARRY);
        carry->weigh = row & 1 ? WEIGH_UNSAID : WEIGH_IMPLEMENT;
        struct set_run *run = bench_sets(&bench, bench_place(&bench, 0), carry, 3, 3, UNIT_REPS);
        if (row & 2)
            plan_kilograms(run, 20);
        else
            plan_percent(run, 50);
        if (row & 4)
            bench_waive(&bench, "kilograms-open");
        plan_check(bench.plan);
        const struct finding *finding = plan_finding(bench.plan, "kilograms-open");
        assert_int_equal(finding != NULL, row == 3);
        if (finding) {
            assert_true(is_said(finding, "the exercise is declared here"));
            assert_string_equal(finding->help, "add a line `weigh one hand`, or whichever it is, to the exercise");
        }
        plan_free(bench.plan);
    }
}

/* --- old bests --- */

static void how_old_a_best_may_be(void **state)
{
    (void)state;
    static const struct {
        int days;
        double percent;
        milli weeks; /* of the coach's own limit, 0: none */
        enum force force;
        bool found;
        enum severity severity;
        milli left;
    } rows[] = {
        {56, 85, 0, FORCE_WARN, false, SEVERITY_INFO, 0},     {57, 84, 0, FORCE_WARN, true, SEVERITY_INFO, 0},
        {85, 84.999, 0, FORCE_WARN, true, SEVERITY_INFO, 0},  {85, 85, 0, FORCE_WARN, true, SEVERITY_WARNING, 0},
        {84, 85, 0, FORCE_WARN, true, SEVERITY_INFO, 0},      {28, 90, 4000, FORCE_WARN, false, SEVERITY_WARNING, 0},
        {21, 90, 4000, FORCE_WARN, false, SEVERITY_WARNING, 1000}, {29, 60, 4000, FORCE_WARN, true, SEVERITY_WARNING, -142},
        {35, 60, 4000, FORCE_INFO, true, SEVERITY_INFO, -1000}, {91, 95, 4000, FORCE_INFO, true, SEVERITY_INFO, -9000},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct bench bench = bench_new();
        struct exercise *squat = bench_squat(&bench);
        struct limit *limit = NULL;
        if (rows[i].weeks) {
            limit = plan_limit(bench.plan, bench.limits, LIMIT_SESSION, "age of a best", LIMIT_AT_MOST, rows[i].weeks);
            limit->force = rows[i].force;
        }
        plan_best(bench.plan, bench.athlete, squat, KG(100), bench.monday - rows[i].days);
        struct set_run *run = bench_sets(&bench, bench_place(&bench, 0), squat, 3, 1, UNIT_REPS);
        plan_percent(run, rows[i].percent);
        run->load.best = &bench.athlete->bests[0];
        plan_check(bench.plan);
        const struct finding *finding = plan_finding(bench.plan, "best-old");
        assert_int_equal(finding != NULL, rows[i].found);
        if (finding)
            assert_int_equal(finding->severity, rows[i].severity);
        if (limit)
            assert_int_equal(plan_left(bench.plan, limit, COUNTED_AGE_OF_BEST), rows[i].left);
        plan_free(bench.plan);
    }
}

/* The last day that it is asked for is reported, unless an earlier one asks for so much of it that it is a warning. */
static void the_worst_day_of_a_best_is_told(void **state)
{
    (void)state;
    static const struct {
        double percents[3];
        const char *words;
    } rows[] = {
        {{70, 71, 72}, "Oriel Tamsin: the best in back squat is 15 weeks old on 2027-03-15, when 72 % of it is asked for"},
        {{90, 71, 72}, "Oriel Tamsin: the best in back squat is 13 weeks old on 2027-03-01, when 90 % of it is asked for"},
        {{90, 91, 72}, "Oriel Tamsin: the best in back squat is 14 weeks old on 2027-03-08, when 91 % of it is asked for"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct bench bench = bench_new();
        struct exercise *squat = bench_squat(&bench);
        plan_best(bench.plan, bench.athlete, squat, KG(100), bench.monday - 91);
        for (int week = 0; week < 3; week++) {
            struct set_run *run = bench_sets(&bench, bench_place(&bench, 7 * week), squat, 3, 1, UNIT_REPS);
            plan_percent(run, rows[i].percents[week]);
            run->load.best = &bench.athlete->bests[0];
        }
        plan_check(bench.plan);
        assert_int_equal(plan_found(bench.plan, "best-old"), 1);
        const struct finding *finding = plan_finding(bench.plan, "best-old");
        assert_string_equal(finding->words, rows[i].words);
        assert_true(is_said(finding, "asked for here"));
        assert_true(is_said(finding, "common practice, no source; a limit of your own can say otherwise"));
        plan_free(bench.plan);
    }
}

static void what_has_no_day_is_not_old(void **state)
{
    (void)state;
    for (int given = 0; given < 3; given++) { /* no best, one without a day, an old one */
        struct bench bench = bench_new();
        struct exercise *squat = bench_squat(&bench);
        plan_best(bench.plan, bench.athlete, squat, KG(100), given == 2 ? bench.monday - 70 : 0);
        struct set_run *run = bench_sets(&bench, bench_place(&bench, 0), squat, 3, 1, UNIT_REPS);
        plan_percent(run, 70);
        run->load.best = given ? &bench.athlete->bests[0] : NULL;
        bench_expect(&bench, "best-old", given == 2 ? 1 : 0);
    }
}

/* --- sessions and waivers --- */

static void a_session_in_no_week(void **state)
{
    (void)state;
    for (int row = 0; row < 4; row++) {
        struct bench bench = bench_new();
        struct session *other = plan_session(bench.plan, "other");
        bench_place(&bench, 0);
        other->is_base = row & 1;
        other->placed = row & 2 ? 1 : 0;
        plan_check(bench.plan);
        const struct finding *finding = plan_finding(bench.plan, "session-never-placed");
        assert_int_equal(finding != NULL, row == 0);
        if (finding)
            assert_string_equal(finding->words, "other is in no week of any camp");
        plan_free(bench.plan);
    }
}

static void waivers_that_cannot_be(void **state)
{
    (void)state;
    static const struct {
        const char *check, *words, *help;
    } rows[] = {
        {"sets-ovr", "there is no check sets-ovr", "`waive sets-over`"},
        {"something else entirely", "there is no check something else entirely", NULL},
        {"hold-broken", "hold-broken cannot be waived", NULL},
        {"waiver-unknown", "waiver-unknown cannot be waived", NULL},
        {"hold-brokenxyz", "there is no check hold-brokenxyz", "`waive hold-broken`"},
        {"hold-brokenwxyz", "there is no check hold-brokenwxyz", NULL},
        {"floors-misse", "there is no check floors-misse", "`waive floors-missed`"},
        {"sets-over", NULL, NULL},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct bench bench = bench_new();
        bench_place(&bench, 0);
        bench_waive(&bench, rows[i].check);
        plan_check(bench.plan);
        const struct finding *finding = plan_finding(bench.plan, "waiver-unknown");
        assert_int_equal(finding != NULL, rows[i].words != NULL);
        if (finding) {
            assert_string_equal(finding->words, rows[i].words);
            assert_int_equal(rows[i].help ? strcmp(finding->help, rows[i].help) : finding->help != NULL, 0);
            /* That somebody is on hold is nobody else's concern. */
            assert_int_equal(finding->neutral != NULL, strcmp(rows[i].check, "hold-broken") == 0);
        }
        assert_int_equal(plan_found(bench.plan, "waiver-unused"), rows[i].words == NULL);
        plan_free(bench.plan);
    }
}

/* What the reader of a plan reports is no check, and says that the plan cannot be done. */
static void what_is_no_check_but_is_reported(void **state)
{
    (void)state;
    for (int before = 0; before < 3; before++) {
        struct bench bench = bench_new();
        bench_place(&bench, 0);
        bench_waive(&bench, "load-cannot-be-made");
        for (int i = 0; i < before; i++)
            diag_report(bench.plan->diag, SEVERITY_WARNING, i + 1 < before ? DIAG_TEMPO_ON_FAST_WORK : DIAG_LOAD_CANNOT_BE_MADE,
                        bench.athlete->name.span, "said before");
        plan_check(bench.plan);
        const struct finding *finding = plan_finding(bench.plan, "waiver-unknown");
        assert_non_null(finding);
        assert_string_equal(finding->words, before ? "load-cannot-be-made cannot be waived: it says that the plan cannot be done as "
                                                     "it is written"
                                                   : "there is no check load-cannot-be-made");
        if (before)
            assert_string_equal(finding->help, "correct what it points at, and leave this line out");
        plan_free(bench.plan);
    }
}

/* A figure in a waiver of what has none. */
static void a_waiver_up_to_nothing(void **state)
{
    (void)state;
    struct bench bench = bench_new();
    struct exercise *jump = plan_exercise(bench.plan, "jump", EXERCISE_STRENGTH, PATTERN_JUMP);
    jump->ballistic = true;
    bench_sets(&bench, bench_place(&bench, 0), jump, 3, 3, UNIT_REPS)->tempo.given = true;
    struct waiver *waiver = bench_waive(&bench, "tempo-on-fast-work");
    waiver->capped = true;
    waiver->cap = 3000;
    plan_check(bench.plan);
    const struct finding *finding = plan_finding(bench.plan, "waiver-unused");
    assert_int_equal(plan_found(bench.plan, "waiver-unused"), 1);
    assert_string_equal(finding->words, "this waives tempo-on-fast-work up to 3, but its message has no figure");
    assert_string_equal(finding->help, "leave out `up to` and the figure");
    plan_free(bench.plan);
}

/* A waiver of what nothing needs is reported, unless something left out of its days may have needed it. */
static void waivers_that_nothing_needs(void **state)
{
    (void)state;
    static const struct {
        int day; /* of the camp, of what is left out; the waiver is for its second week from Wednesday to Friday */
        bool other_camp, unused;
        int last; /* of the waiver, if it is not its Friday */
    } rows[] = {{6, false, true, 0}, {7, false, false, 0}, {9, false, false, 0}, {13, false, false, 0}, {14, false, true, 0}, {9, true, true, 0}, {-7, false, true, 0},
                 {16, false, false, 14}, {16, false, true, 13}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct bench bench = bench_new();
        struct camp *other = plan_camp(bench.plan, "Other", bench.monday, 4);
        struct waiver *waiver = bench_waive(&bench, "sets-over");
        waiver->first = bench.monday + 9;
        waiver->last = bench.monday + (rows[i].last ? rows[i].last : 11);
        struct left_out left = {.occasion = {.camp = rows[i].other_camp ? other : bench.camp, .athlete = bench.athlete,
                                             .date = bench.monday + rows[i].day}};
        bench.plan->programme.left_out = &left;
        bench.plan->programme.left_out_count = 1;
        bench_place(&bench, 9);
        plan_check(bench.plan);
        const struct finding *finding = plan_finding(bench.plan, "waiver-unused");
        assert_int_equal(finding != NULL, rows[i].unused);
        if (finding) {
            assert_string_equal(finding->words, "this waives sets-over, but nothing here needs it");
            assert_string_equal(finding->help, "leave the line out");
        }
        plan_free(bench.plan);
    }
}

/* What goes past its figure, above and below. */
static void waivers_whose_figure_is_passed(void **state)
{
    (void)state;
    static const struct {
        const char *check;
        enum limit_bound bound;
        milli cap;
        const char *words;
    } rows[] = {
        {"sets-over", LIMIT_AT_MOST, 7000, NULL},
        {"sets-over", LIMIT_AT_MOST, 6000, "this waives sets-over up to 6, but it comes to 7: nothing is waived"},
        {"sets-under", LIMIT_AT_LEAST, 7000, NULL},
        {"sets-under", LIMIT_AT_LEAST, 8000, "this waives sets-under down to 8, but it comes to 7: nothing is waived"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct bench bench = bench_new();
        plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "sets", rows[i].bound, rows[i].bound == LIMIT_AT_MOST ? 5000 : 9000);
        struct exercise *squat = bench_squat(&bench);
        for (int week = 0; week < 4; week++)
            bench_sets(&bench, bench_place(&bench, 7 * week), squat, 7, 5, UNIT_REPS);
        struct waiver *waiver = bench_waive(&bench, rows[i].check);
        waiver->capped = true;
        waiver->cap = rows[i].cap;
        plan_check(bench.plan);
        const struct finding *finding = plan_finding(bench.plan, "waiver-unused");
        assert_int_equal(finding != NULL, rows[i].words != NULL);
        assert_int_equal(plan_found(bench.plan, rows[i].check) > 0, rows[i].words != NULL);
        if (finding) {
            assert_string_equal(finding->words, rows[i].words);
            assert_string_equal(finding->help, "correct what goes past the figure");
        }
        plan_free(bench.plan);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(how_many_can_be_done),
        cmocka_unit_test(what_is_fast_has_no_tempo),
        cmocka_unit_test(what_kilograms_mean),
        cmocka_unit_test(how_old_a_best_may_be),
        cmocka_unit_test(the_worst_day_of_a_best_is_told),
        cmocka_unit_test(what_has_no_day_is_not_old),
        cmocka_unit_test(a_session_in_no_week),
        cmocka_unit_test(waivers_that_cannot_be),
        cmocka_unit_test(what_is_no_check_but_is_reported),
        cmocka_unit_test(a_waiver_up_to_nothing),
        cmocka_unit_test(waivers_that_nothing_needs),
        cmocka_unit_test(waivers_whose_figure_is_passed),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
