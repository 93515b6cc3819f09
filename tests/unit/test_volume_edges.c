/* What is said of a sum past its limit: what was not counted, whose share of a week holds, and what one count is to another. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "model/athlete.h"
#include "unit/plan_builder.c"

static bool is_noted(const struct finding *finding, const char *words)
{
    for (size_t i = 0; i < finding->note_count; i++)
        if (strstr(finding->notes[i].words, words))
            return true;
    return false;
}

/* Whether a note of FINDING is just WORDS. */
static bool is_said(const struct finding *finding, const char *words)
{
    for (size_t i = 0; i < finding->note_count; i++)
        if (strcmp(finding->notes[i].words, words) == 0)
            return true;
    return false;
}

/* Sets of as many as possible have no number: of what is counted in repetitions it is said how many there are. */
static void sets_without_a_number(void **state)
{
    (void)state;
    static const struct {
        const char *counted, *check;
        bool of_reps;
    } rows[] = {
        {"lifts", "lifts-under", true},     {"tonnage", "tonnage-under", true},   {"strikes", "strikes-under", true},
        {"throws", "throws-under", true},   {"contacts", "contacts-under", true}, {"hold seconds", "holds-under", true},
        {"sets", "sets-under", false},      {"time", "time-under", false},        {"metres", "distance-under", false},
        {"sessions", "sessions-under", false},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        for (int open = 0; open < 3; open++) {
            struct bench bench = bench_new();
            plan_limit(bench.plan, bench.limits, LIMIT_WEEK, rows[i].counted, LIMIT_AT_LEAST, 9999000);
            struct exercise *squat = bench_squat(&bench);
            for (int week = 0; week < 4; week++) {
                struct occasion *occasion = bench_place(&bench, 7 * week);
                bench_sets(&bench, occasion, squat, 1, 5, UNIT_REPS);
                if (open)
                    *plan_part(bench_sets(&bench, occasion, squat, open, 5, UNIT_REPS), 0) =
                        (struct part){.unit = UNIT_REPS, .max = true};
            }
            plan_check(bench.plan);
            const struct finding *finding = plan_finding(bench.plan, rows[i].check);
            assert_non_null(finding);
            assert_int_equal(is_noted(finding, "as many as possible"), rows[i].of_reps && open > 0);
            if (rows[i].of_reps && open)
                assert_true(is_said(finding, open == 1 ? "and 1 set of as many as possible not counted"
                                                       : "and 2 sets of as many as possible not counted"));
            plan_free(bench.plan);
        }
}

/* Minutes begun of work whose strikes nobody counts. */
static void time_without_a_count(void **state)
{
    (void)state;
    static const struct {
        int seconds;
        const char *note;
    } rows[] = {{0, NULL},
                {1, "and 1 min not counted"},
                {60, "and 1 min not counted"},
                {61, "and 2 min not counted"},
                {3600, "and 60 min not counted"}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct bench bench = bench_new();
        plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "strikes", LIMIT_AT_LEAST, 1000);
        bench_sets(&bench, bench_place(&bench, 0), bench_squat(&bench), 1, 5, UNIT_REPS);
        struct activity *bag = plan_activity(bench.plan, "bag work");
        bag->bag = true;
        if (rows[i].seconds)
            plan_do(bench.plan, bench.camp, bench.athlete, bag, bench.monday + 1)->seconds = rows[i].seconds;
        plan_check(bench.plan);
        const struct finding *finding = plan_finding(bench.plan, "strikes-under");
        assert_non_null(finding);
        assert_int_equal(is_noted(finding, "not counted"), rows[i].note != NULL);
        assert_true(!rows[i].note || is_said(finding, rows[i].note));
        plan_free(bench.plan);
    }
}

/* A camp that begins on a Wednesday has five days of its first week: floors and ceilings of a week come down with them. */
static void a_week_that_is_cut(void **state)
{
    (void)state;
    static const struct {
        int sets;
        enum limit_bound bound;
        milli value;
        const char *words, *note; /* NULL: nothing is found, or nothing is said of days */
    } rows[] = {
        {4, LIMIT_AT_LEAST, 7000, "4 sets in week 1 of Harbour final (from 2027-03-01), at least 5",
         "5 of the week's 7 days count: 5 of the 7 for a whole week"},
        {5, LIMIT_AT_LEAST, 7000, NULL, NULL},
        {5, LIMIT_AT_MOST, 7000, NULL, NULL},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct bench bench = bench_new();
        bench.camp->first = bench.monday + 2;
        plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "sets", rows[i].bound, rows[i].value);
        struct exercise *squat = bench_squat(&bench);
        for (int week = 0; week < 4; week++)
            bench_sets(&bench, bench_place(&bench, 7 * week + 3), squat, week ? 7 : rows[i].sets, 5, UNIT_REPS);
        plan_check(bench.plan);
        const struct finding *finding = plan_finding(bench.plan, rows[i].bound == LIMIT_AT_LEAST ? "sets-under" : "sets-over");
        assert_int_equal(finding != NULL, rows[i].words != NULL);
        if (finding) {
            assert_non_null(strstr(finding->words, rows[i].words));
            assert_true(is_said(finding, rows[i].note));
        }
        plan_free(bench.plan);
    }
}

/* Of a limit on the first days of a camp only their share of the week holds; what passes the whole is reported as that. */
static void the_share_of_the_first_days(void **state)
{
    (void)state;
    static const struct {
        int sets;
        const char *words, *note;
    } rows[] = {
        {5, NULL, NULL},
        {6, "6 sets in week 1 of Harbour final (from 2027-03-01), at most 5",
         "5 of the week's 7 days count: 5 of the 7 for a whole week"},
        {8, "8 sets in week 1 of Harbour final (from 2027-03-01), at most 7", NULL},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct bench bench = bench_new();
        struct limit *limit = plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "sets", LIMIT_AT_MOST, 7000);
        limit->stretch = STRETCH_FIRST;
        limit->stretch_days = 5;
        bench_sets(&bench, bench_place(&bench, 0), bench_squat(&bench), rows[i].sets, 5, UNIT_REPS);
        bench_sets(&bench, bench_place(&bench, 6), bench_squat(&bench), 9, 5, UNIT_REPS);
        plan_check(bench.plan);
        const struct finding *finding = plan_finding(bench.plan, "sets-over");
        assert_int_equal(finding != NULL, rows[i].words != NULL);
        if (finding) {
            assert_non_null(strstr(finding->words, rows[i].words));
            assert_int_equal(is_noted(finding, "days count"), rows[i].note != NULL);
            assert_true(!rows[i].note || is_said(finding, rows[i].note));
        }
        plan_free(bench.plan);
    }
}

/* Too much is reported week by week, too little once, where it is least; of sessions the largest. */
static void which_week_is_told(void **state)
{
    (void)state;
    static const struct {
        enum limit_scope scope;
        enum limit_bound bound;
        milli value;
        int sets[4];
        size_t found;
        const char *words;
    } rows[] = {
        {LIMIT_WEEK, LIMIT_AT_MOST, 5000, {6, 8, 7, 5}, 3, "6 sets in week 1 of Harbour final (from 2027-03-01), at most 5"},
        {LIMIT_WEEK, LIMIT_AT_LEAST, 9000, {7, 5, 6, 9}, 1, "5 sets in week 2 of Harbour final (from 2027-03-08), at least 9"},
        {LIMIT_SESSION, LIMIT_AT_MOST, 5000, {6, 8, 7, 5}, 1, "8 sets in Hips before hands on 2027-03-08, at most 5"},
        {LIMIT_SESSION, LIMIT_AT_LEAST, 9000, {7, 5, 6, 9}, 1, "5 sets in Hips before hands on 2027-03-08, at least 9"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        for (int source = 0; source < 3; source++) {
            static const char *const sources[] = {"common practice", NULL, "Foster 1998, J Sports Sci (from memory)"};
            static const char *const shown[] = {"common practice", "no source", "Foster 1998"};
            struct bench bench = bench_new();
            plan_limit(bench.plan, bench.limits, rows[i].scope, "sets", rows[i].bound, rows[i].value)->source = sources[source];
            struct exercise *squat = bench_squat(&bench);
            for (int week = 0; week < 4; week++)
                bench_sets(&bench, bench_place(&bench, 7 * week), squat, rows[i].sets[week], 5, UNIT_REPS);
            plan_check(bench.plan);
            const char *check = rows[i].bound == LIMIT_AT_MOST ? "sets-over" : "sets-under";
            const struct finding *finding = plan_finding(bench.plan, check);
            assert_int_equal(plan_found(bench.plan, check), rows[i].found);
            assert_non_null(strstr(finding->words, rows[i].words));
            assert_false(is_noted(finding, "days count"));
            assert_false(finding->private);
            assert_null(finding->neutral);
            bool row = rows[i].bound == LIMIT_AT_LEAST && rows[i].scope == LIMIT_WEEK;
            assert_int_equal(finding->row != NULL, row);
            if (row) {
                assert_string_equal(finding->row->is, "5 sets");
                assert_string_equal(finding->row->least, "at least 9");
                assert_string_equal(finding->row->source, shown[source]);
            }
            plan_free(bench.plan);
        }
}

/* What reveals body mass is for the coach alone. */
static void what_tells_body_mass_is_private(void **state)
{
    (void)state;
    static const char *const counted[] = {"tonnage", "tonnage with body mass"};
    for (int body = 0; body < 2; body++)
        for (int ratio = 0; ratio < 2; ratio++) {
            struct bench bench = bench_new();
            struct limit *limit = plan_limit(bench.plan, bench.limits, LIMIT_WEEK, counted[body], LIMIT_AT_MOST, 1000);
            limit->against = ratio ? "sets" : NULL;
            plan_kilograms(bench_sets(&bench, bench_place(&bench, 0), bench_squat(&bench), 3, 5, UNIT_REPS), 100);
            plan_check(bench.plan);
            const struct finding *finding = plan_finding(bench.plan, ratio ? "ratio-outside" : "tonnage-over");
            assert_non_null(finding);
            assert_int_equal(finding->private, body);
            plan_free(bench.plan);
        }
}

/* Pulls to pushes, at least, at most and within: on each side of the border. */
static void one_count_to_another(void **state)
{
    (void)state;
    static const struct {
        enum limit_bound bound;
        milli value, top;
        int pulls, pushes;
        milli left;
        const char *words;
    } rows[] = {
        {LIMIT_AT_LEAST, 1000, 0, 10, 10, 0, NULL},
        {LIMIT_AT_LEAST, 1000, 0, 9, 10, -100, "9 pull sets to 10 push sets in week 1 of Harbour final (from 2027-03-01), at least 1 to 1"},
        {LIMIT_AT_LEAST, 1000, 0, 12, 10, 200, NULL},
        {LIMIT_AT_MOST, 1000, 0, 10, 10, 0, NULL},
        {LIMIT_AT_MOST, 1000, 0, 11, 10, -100, "11 pull sets to 10 push sets in week 1 of Harbour final (from 2027-03-01), at most 1 to 1"},
        {LIMIT_AT_MOST, 1000, 0, 8, 10, 200, NULL},
        {LIMIT_WITHIN, 1000, 1500, 10, 10, 0, NULL},
        {LIMIT_WITHIN, 1000, 1500, 15, 10, 0, NULL},
        {LIMIT_WITHIN, 1000, 1500, 12, 10, 200, NULL},
        {LIMIT_WITHIN, 1000, 1500, 14, 10, 100, NULL},
        {LIMIT_WITHIN, 1000, 1500, 9, 10, -100, "9 pull sets to 10 push sets in week 1 of Harbour final (from 2027-03-01), at least 1 to 1"},
        {LIMIT_WITHIN, 1000, 1500, 16, 10, -100, "16 pull sets to 10 push sets in week 1 of Harbour final (from 2027-03-01), at most 1.5 to 1"},
        {LIMIT_AT_LEAST, 1000, 0, 5, 0, PLAN_NOTHING_LEFT, NULL},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        for (int waived = 0; waived < 2; waived++) {
            struct bench bench = bench_new();
            struct limit *limit = plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "pull sets", rows[i].bound, rows[i].value);
            limit->top = rows[i].top;
            limit->against = "push sets";
            struct exercise *row = plan_exercise(bench.plan, "row", EXERCISE_STRENGTH, PATTERN_PULL);
            bench_sets(&bench, bench_place(&bench, 0), row, rows[i].pulls, 5, UNIT_REPS);
            if (rows[i].pushes)
                bench_sets(&bench, bench_place(&bench, 1), bench_press(&bench), rows[i].pushes, 5, UNIT_REPS);
            if (waived)
                bench_waive(&bench, "ratio-outside");
            plan_check(bench.plan);
            const struct finding *finding = plan_finding(bench.plan, "ratio-outside");
            assert_int_equal(finding != NULL, rows[i].words && !waived);
            if (finding) {
                assert_string_equal(finding->words, arena_printf(bench.plan->arena, "Oriel Tamsin: %s", rows[i].words));
                assert_int_equal(finding->span.start, bench.plan->occasions[0]->blocks[0].items[0].span.start);
                assert_true(is_noted(finding, "A.1 row"));
                assert_true(is_noted(finding, "A.1 bench press"));
                assert_true(is_said(finding, "the limit is set here: common practice, no source"));
            }
            assert_int_equal(plan_left(bench.plan, limit, COUNTED_PATTERN_SETS + (int)PATTERN_PULL), rows[i].left);
            plan_free(bench.plan);
        }
}

/* A rule looks at its own limits: of the other bound, of other counts, or of a proportion none is a sum's. */
static void each_rule_has_its_own_limits(void **state)
{
    (void)state;
    static const char *const checks[] = {"sets-over", "sets-under", "ratio-outside", "lifts-over", "lifts-under"};
    static const struct {
        const char *counted, *against;
        enum limit_bound bound;
        const char *check;
    } rows[] = {
        {"sets", NULL, LIMIT_AT_MOST, "sets-over"},     {"sets", NULL, LIMIT_AT_LEAST, "sets-under"},
        {"sets", NULL, LIMIT_WITHIN, "sets-over"},      {"squat sets", "push sets", LIMIT_AT_MOST, "ratio-outside"},
        {"lifts", NULL, LIMIT_AT_MOST, "lifts-over"},   {"lifts", NULL, LIMIT_AT_LEAST, "lifts-under"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct bench bench = bench_new();
        struct limit *limit = plan_limit(bench.plan, bench.limits, LIMIT_WEEK, rows[i].counted, rows[i].bound,
                                         rows[i].bound == LIMIT_AT_LEAST ? 9999000
                                         : rows[i].bound == LIMIT_WITHIN ? 0
                                                                         : 1000);
        limit->top = rows[i].bound == LIMIT_WITHIN ? 2000 : 0;
        limit->against = rows[i].against;
        struct occasion *occasion = bench_place(&bench, 0);
        plan_percent(bench_sets(&bench, occasion, bench_squat(&bench), 6, 5, UNIT_REPS), 75);
        bench_sets(&bench, occasion, bench_press(&bench), 3, 5, UNIT_REPS);
        plan_check(bench.plan);
        for (size_t k = 0; k < sizeof checks / sizeof *checks; k++)
            assert_int_equal(plan_found(bench.plan, checks[k]) > 0, strcmp(checks[k], rows[i].check) == 0);
        plan_free(bench.plan);
    }
}

/* Left and right each by itself, and what is found names the side. */
static void a_side_by_itself(void **state)
{
    (void)state;
    static const struct {
        int left, right;
        enum limit_bound bound;
        const char *words;
    } rows[] = {
        {10, 10, LIMIT_AT_MOST, NULL},
        {11, 10, LIMIT_AT_MOST, "11 strikes on the left in week 1 of Harbour final (from 2027-03-01), at most 10 a side"},
        {10, 11, LIMIT_AT_MOST, "11 strikes on the right in week 1 of Harbour final (from 2027-03-01), at most 10 a side"},
        {10, 10, LIMIT_AT_LEAST, NULL},
        {9, 10, LIMIT_AT_LEAST, "9 strikes on the left in week 1 of Harbour final (from 2027-03-01), at least 10 a side"},
        {10, 9, LIMIT_AT_LEAST, "9 strikes on the right in week 1 of Harbour final (from 2027-03-01), at least 10 a side"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct bench bench = bench_new();
        plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "strikes", rows[i].bound, 10000)->a_side = true;
        struct exercise *jab = plan_exercise(bench.plan, "jab", EXERCISE_SKILL, PATTERN_STRIKE);
        jab->workers = WORKER_HAND;
        for (int week = 0; week < 4; week++) {
            struct occasion *occasion = bench_place(&bench, 7 * week);
            plan_part(bench_sets(&bench, occasion, jab, 1, week ? 10 : rows[i].left, UNIT_STRIKES), 0)->side = DOSE_LEFT;
            plan_part(bench_sets(&bench, occasion, jab, 1, week ? 10 : rows[i].right, UNIT_STRIKES), 0)->side = DOSE_RIGHT;
        }
        plan_check(bench.plan);
        const char *check = rows[i].bound == LIMIT_AT_MOST ? "strikes-over" : "strikes-under";
        const struct finding *finding = plan_finding(bench.plan, check);
        assert_int_equal(plan_found(bench.plan, check), rows[i].words ? 1 : 0);
        if (finding)
            assert_string_equal(finding->words, arena_printf(bench.plan->arena, "Oriel Tamsin: %s", rows[i].words));
        plan_free(bench.plan);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(sets_without_a_number),
        cmocka_unit_test(time_without_a_count),
        cmocka_unit_test(a_week_that_is_cut),
        cmocka_unit_test(the_share_of_the_first_days),
        cmocka_unit_test(which_week_is_told),
        cmocka_unit_test(what_tells_body_mass_is_private),
        cmocka_unit_test(one_count_to_another),
        cmocka_unit_test(each_rule_has_its_own_limits),
        cmocka_unit_test(a_side_by_itself),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
