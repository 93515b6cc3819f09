/* What is found where only some occasions are asked for, and which of them an error bars. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "figures/dates.h"
#include "plan_reader.h"
#include "rules/margin.h"
#include "rules/rules.h"
#include "unit/plan_builder.c"

enum { MOST_PLACED = 8 };

/* Sparring on days 1, 3 and 5 and 8 to 22 of a camp, ten rounds each; three times in the first week is too much. */
static struct bench bench_of_sparring(enum force force)
{
    static const int days[] = {1, 3, 5, 8, 15, 22};
    struct bench bench = bench_new();
    plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "sparring rounds", LIMIT_AT_MOST, 9000)->force = force;
    for (size_t i = 0; i < sizeof days / sizeof *days; i++)
        bench_spar(&bench, days[i] == 15 ? 9 : 10, days[i]);
    plan_check(bench.plan);
    return bench;
}

static size_t found(struct bench *bench, const struct wanted *wanted, enum severity least, bool *barred)
{
    bench->plan->diag = diag_new(bench->plan->arena, &bench->plan->sources);
    rules_run_wanted(&bench->plan->programme, wanted, least, barred, bench->plan->diag);
    return plan_found(bench->plan, "sparring-over");
}

static void what_is_asked_for(void **state)
{
    (void)state;
    static const struct {
        bool occasions[MOST_PLACED];
        enum force force;
        enum severity least;
        size_t found;
    } rows[] = {
        {{false}, FORCE_MUST, SEVERITY_INFO, 0},
        {{true}, FORCE_MUST, SEVERITY_INFO, 1},
        {{false, true}, FORCE_MUST, SEVERITY_INFO, 1},
        {{false, false, true}, FORCE_MUST, SEVERITY_ERROR, 1},
        {{false, false, false, true}, FORCE_MUST, SEVERITY_ERROR, 1},
        {{false, false, false, false, true}, FORCE_MUST, SEVERITY_INFO, 0},
        {{false, false, false, false, false, true}, FORCE_MUST, SEVERITY_INFO, 1},
        {{true, false, false, true, true, true}, FORCE_MUST, SEVERITY_INFO, 3},
        {{true}, FORCE_WARN, SEVERITY_ERROR, 0},
        {{true}, FORCE_WARN, SEVERITY_WARNING, 1},
        {{true}, FORCE_INFO, SEVERITY_WARNING, 0},
        {{true}, FORCE_INFO, SEVERITY_INFO, 1},
    };
    bool none[MOST_PLACED] = {false};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct bench bench = bench_of_sparring(rows[i].force);
        bool occasions[MOST_PLACED];
        memcpy(occasions, rows[i].occasions, sizeof occasions);
        assert_int_equal(found(&bench, &(struct wanted){.occasions = occasions, .left_out = none}, rows[i].least, NULL), rows[i].found);
        assert_int_equal(found(&bench, NULL, rows[i].least, NULL), 3); /* unless it takes long, all the same */
        plan_free(bench.plan);
    }
}

/* An error in a week bars all that is done in it; a warning bars nothing. */
static void what_an_error_bars(void **state)
{
    (void)state;
    static const bool by_error[MOST_PLACED] = {true, true, true, true, false, true}, by_warning[MOST_PLACED] = {false};
    for (int warns = 0; warns < 2; warns++) {
        struct bench bench = bench_of_sparring(warns ? FORCE_WARN : FORCE_MUST);
        bool all[MOST_PLACED] = {true, true, true, true, true, true}, barred[MOST_PLACED] = {false};
        assert_int_equal(found(&bench, &(struct wanted){.occasions = all, .left_out = all}, SEVERITY_INFO, barred), 3);
        assert_memory_equal(barred, warns ? by_warning : by_error, sizeof barred);
        plan_free(bench.plan);
    }
}

/* A plan without an error, read on the day on which its camps start. */
static void read_plan(struct plan_reader *reader, const char *text)
{
    plan_reader_open(reader);
    plan_reader_text(reader, "plan.bell", text, strlen(text));
    plan_reader_resolve(reader);
    reader->programme->today = date_from_ymd(2027, 3, 1);
    assert_int_equal(diag_count(reader->diag, SEVERITY_ERROR), 0);
}

/* What is not planned, because its gym is closed, may be asked for alone, the first of it and the last. */
static void what_is_left_out(void **state)
{
    (void)state;
    static const char text[] = "gym Quay\n    closed 2027-03-08 to 2027-03-13 because spring clean\n"
                               "activity run\n    counts minutes\n    contact none\n    common practice\n"
                               "athlete Nils Ferrow\n    trains at Quay\nathlete Oriel Tamsin\n    trains at Quay\n"
                               "camp Spring\n    for Nils Ferrow\n    starts 2027-03-01\n    weeks 1-2\n"
                               "        monday 18:00 run : 30 min RPE 4\n        saturday 18:00 run : 30 min RPE 6\n"
                               "camp Other\n    for Oriel Tamsin\n    starts 2027-03-01\n    weeks 1-2\n"
                               "        friday 18:00 run : 30 min RPE 4\n";
    struct plan_reader reader;
    read_plan(&reader, text);
    assert_int_equal(reader.programme->left_out_count, 3);
    assert_true(reader.programme->occasion_count <= MOST_PLACED);
    for (unsigned asked = 0; asked < 8; asked++) {
        bool none[MOST_PLACED] = {false}, left_out[3];
        for (unsigned i = 0; i < 3; i++)
            left_out[i] = asked >> i & 1;
        struct diag *diag = diag_new(reader.arena, &reader.sources);
        rules_run_wanted(reader.programme, &(struct wanted){.occasions = none, .left_out = left_out}, SEVERITY_INFO, NULL, diag);
        size_t closed = 0;
        for (size_t i = 0; i < diag->count; i++)
            closed += strcmp(diagnostic_name(diag->items[i]->diagnostic), "gym-closed") == 0;
        assert_int_equal(closed, left_out[0] + left_out[1] + left_out[2]);
        assert_int_equal(diag->count, closed);
    }
    plan_reader_close(&reader);
}

/* An athlete in two camps in one week has the limits of both, and one that both have once; a camp of one day of the week
 * counts, the day before and the day after do not. */
static void the_limits_of_a_week(void **state)
{
    (void)state;
    enum { ITS_OWN, SHARED, BEGINS_AFTER, BEGINS_ON_SUNDAY, ENDED_BEFORE, ENDED_ON_MONDAY, NOT_IN_IT, WITHOUT_LIMITS, ALL };
    static const int begins[] = {0, 0, 7, 6, -28, -27, 0, 0}; /* days from the Monday; it lasts 28 */
    for (int what = ITS_OWN; what < ALL; what++) {
        struct bench bench = bench_new();
        struct camp *second = plan_camp(bench.plan, "Second", bench.monday + begins[what], 4);
        if (what != NOT_IN_IT)
            plan_join(bench.plan, second, bench.athlete);
        struct limits *own = what == SHARED ? bench.limits : plan_limits(bench.plan, NULL, "other");
        if (what != WITHOUT_LIMITS)
            second->limits[second->limits_count++] = own;
        plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "sparring rounds", LIMIT_AT_MOST, 9000);
        if (what != SHARED)
            plan_limit(bench.plan, own, LIMIT_WEEK, "sparring rounds", LIMIT_AT_MOST, 8000);
        bench_spar(&bench, 10, 5);
        plan_check(bench.plan);
        size_t of_both = what == ITS_OWN || what == BEGINS_ON_SUNDAY || what == ENDED_ON_MONDAY ? 2 : 1;
        assert_int_equal(plan_found(bench.plan, "sparring-over"), of_both);
        struct margins margins = {0};
        rules_measure(&bench.plan->programme, &margins);
        size_t this_week = 0;
        for (size_t i = 0; i < margins.count; i++)
            this_week += margins.items[i].first == bench.monday;
        assert_int_equal(this_week, of_both);
        plan_free(bench.plan);
    }
}

/* What would help a squad that its room cannot take is searched for where somebody reads it. */
static void what_would_help(void **state)
{
    (void)state;
    static const char text[] = "gym Quay\n    stations heavy bag\n"
                               "exercise bag work\n    kind skill\n    pattern strike\n    side per stance\n    needs heavy bag\n"
                               "    counts strikes\n"
                               "athlete Nils Ferrow\n    stance orthodox\n    trains at Quay\n"
                               "athlete Oriel Tamsin\n    stance orthodox\n    trains at Quay\n"
                               "session Bags\n    rounds A 3 x 2:00 rest 1:00\n        bag work : 20 own + 20 switched\n"
                               "camp Spring\n    for Nils Ferrow, Oriel Tamsin\n    starts 2027-03-01\n    week 1\n"
                               "        monday 18:00 Bags\n";
    struct plan_reader reader;
    read_plan(&reader, text);
    assert_int_equal(reader.programme->occasion_count, 2);
    for (int unhelped = 0; unhelped < 2; unhelped++) {
        bool all[] = {true, true}, none[1] = {false};
        struct diag *diag = diag_new(reader.arena, &reader.sources);
        rules_run_wanted(reader.programme, &(struct wanted){all, none, unhelped}, SEVERITY_ERROR, NULL, diag);
        assert_int_equal(diag->count, 1);
        assert_string_equal(diagnostic_name(diag->items[0]->diagnostic), "room-refused");
        assert_int_equal(diag->items[0]->help == NULL, unhelped);
    }
    plan_reader_close(&reader);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_is_asked_for),
        cmocka_unit_test(what_an_error_bars),
        cmocka_unit_test(what_is_left_out),
        cmocka_unit_test(the_limits_of_a_week),
        cmocka_unit_test(what_would_help),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
