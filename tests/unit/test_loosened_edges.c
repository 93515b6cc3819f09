/* What a coach allows the young and the novices beyond the lists that apply to them by themselves, which of several such
 * limits is named, and which sets a limit is compared with. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "unit/plan_builder.c"

enum { MOST_LINES = 4 };

/* Oriel is under 18, Nils is grown. */
enum where { NOWHERE, OWN, YOUNG, NOVICES };
enum whom { ALL, UNDER_18, ORIEL, NILS };
enum layers { OWN_ALONE, YOUNG_ABOVE, BASED_ON_YOUNG };

struct line {
    enum where where;
    enum whom whom;
    enum limit_bound bound;
    milli value, top;
    enum force force;
    bool a_side;
    const char *against;
};

struct lines {
    struct line lines[MOST_LINES];
    enum layers layers;
    const char *words; /* of the one finding, behind the name of the coach's set; NULL: nothing is found */
};

static const struct lines loosened[] = {
    {{{OWN, UNDER_18, .value = 9000}, {YOUNG, .value = 8000}}, .words = "sets at 9; under 18, which applies by itself, has 8"},
    {{{OWN, UNDER_18, .value = 8000}, {YOUNG, .value = 8000}}, .words = NULL},
    {{{OWN, ALL, .value = 9000}, {YOUNG, .value = 8000}}, .words = NULL},
    {{{OWN, ORIEL, .value = 9000}, {YOUNG, .value = 8000}}, .words = "sets at 9; under 18, which applies by itself, has 8"},
    {{{OWN, NILS, .value = 9000}, {YOUNG, .value = 8000}}, .words = NULL},
    {{{OWN, UNDER_18, .value = 8000, .force = FORCE_INFO}, {YOUNG, .value = 8000, .force = FORCE_WARN}},
     .words = "sets at 8; under 18, which applies by itself, has 8, warn"},
    {{{OWN, UNDER_18, .value = 8000, .force = FORCE_WARN}, {YOUNG, .value = 8000, .force = FORCE_INFO}}, .words = NULL},
    /* A floor loosens no ceiling, and a side or another count is another thing; the top of a range does. */
    {{{OWN, UNDER_18, LIMIT_AT_LEAST, .value = 12000}, {YOUNG, .value = 8000}}, .words = NULL},
    {{{OWN, UNDER_18, .value = 12000, .a_side = true}, {YOUNG, .value = 8000}}, .words = NULL},
    {{{OWN, UNDER_18, .value = 12000, .against = "push sets"}, {YOUNG, .value = 8000}}, .words = NULL},
    {{{OWN, UNDER_18, LIMIT_WITHIN, .value = 5000, .top = 12000}, {YOUNG, .value = 8000}},
     .words = "sets at 12; under 18, which applies by itself, has 8"},
    {{{OWN, UNDER_18, LIMIT_WITHIN, .value = 5000, .top = 8000}, {YOUNG, .value = 8000}}, .words = NULL},
    /* Of several that apply by themselves the tightest is named, and of two that are equal the nearer. */
    {{{OWN, UNDER_18, .value = 10000}, {YOUNG, .value = 8000}, {NOVICES, .value = 9000}},
     .layers = YOUNG_ABOVE,
     .words = "sets at 10; under 18, which applies by itself, has 8"},
    {{{OWN, UNDER_18, .value = 14000}, {YOUNG, .value = 12000}, {NOVICES, .value = 8000}},
     .words = "sets at 14; novices, which applies by itself, has 8"},
    {{{OWN, UNDER_18, .value = 10000}, {YOUNG, .value = 8000}, {NOVICES, .value = 8000}},
     .words = "sets at 10; under 18, which applies by itself, has 8"},
    /* What is said of all is no list of its own, and a list that the coach's is not based on is not said of the young. */
    {{{OWN, UNDER_18, .value = 10000}, {OWN, ALL, .value = 5000}, {YOUNG, .value = 8000}},
     .words = "sets at 10; under 18, which applies by itself, has 8"},
    {{{OWN, ALL, .value = 14000}, {YOUNG, .value = 12000}, {NOVICES, .value = 8000}},
     .layers = BASED_ON_YOUNG,
     .words = "sets at 14; under 18, which applies by itself, has 12"},
};

static void put_line(struct bench *bench, struct limits *const *sets, const struct line *line, const struct athlete *nils)
{
    struct limit *limit = plan_limit(bench->plan, sets[line->where], LIMIT_WEEK, "sets", line->bound, line->value);
    limit->top = line->top;
    limit->under_age = line->whom == UNDER_18 ? 18 : 0;
    limit->athlete = line->whom == ORIEL ? bench->athlete : line->whom == NILS ? nils : NULL;
    limit->force = line->force;
    limit->a_side = line->a_side;
    limit->against = line->against;
}

static void join_both(struct bench *bench, struct camp *camp, struct athlete *nils, struct limits *above)
{
    if (camp != bench->camp) {
        plan_join(bench->plan, camp, bench->athlete);
        camp->limits[camp->limits_count++] = bench->limits;
    }
    plan_join(bench->plan, camp, nils);
    if (above)
        camp->limits[camp->limits_count++] = above;
}

/* The same set in a second camp is the same fault, met twice. */
static void check_lines(const struct lines *row, int camps)
{
    struct bench bench = bench_new();
    struct athlete *nils = plan_athlete(bench.plan, "Nils Ferrow", STANCE_ORTHODOX);
    struct limits *young = plan_limits(bench.plan, NULL, "under 18"), *novices = plan_limits(bench.plan, NULL, "novices");
    struct limits *const sets[] = {NULL, bench.limits, young, novices};
    bench.athlete->under_age = 18;
    bench.limits->base = row->layers == BASED_ON_YOUNG ? young : NULL;
    join_both(&bench, bench.camp, nils, row->layers == YOUNG_ABOVE ? young : NULL);
    if (camps == 2)
        join_both(&bench, plan_camp(bench.plan, "Second", bench.monday + 28, 4), nils,
                  row->layers == YOUNG_ABOVE ? young : NULL);
    for (size_t i = 0; i < MOST_LINES && row->lines[i].where; i++)
        put_line(&bench, sets, &row->lines[i], nils);
    plan_check(bench.plan);
    assert_int_equal(plan_found(bench.plan, "limit-loosened"), row->words ? 1 : 0);
    const struct finding *finding = plan_finding(bench.plan, "limit-loosened");
    if (finding) {
        assert_non_null(strstr(finding->words, "Slipway house limits sets "));
        assert_non_null(strstr(finding->words, row->words));
        assert_string_equal(finding->notes[0].words, "the limit is set here: common practice, no source");
        assert_int_equal(finding->note_count, camps);
        assert_int_equal(finding->met, camps == 2 ? 2 : 0);
    }
    plan_free(bench.plan);
}

static void what_the_young_are_allowed(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof loosened / sizeof *loosened; i++)
        for (int camps = 1; camps <= 2; camps++)
            check_lines(&loosened[i], camps);
}

/* --- sets and those that they are based on --- */

/* A set is compared with the nearest that it is based on, once, however many camps have it; a set that is merely named
 * below it was put there on purpose. */
static void which_sets_are_compared(void **state)
{
    (void)state;
    enum { CHAIN, CHAIN_IN_TWO, BESIDE, BASED_ON_ANOTHER, ALL_CASES };
    for (int what = CHAIN; what < ALL_CASES; what++) {
        struct bench bench = bench_new();
        struct limits *last = plan_limits(bench.plan, NULL, "last"), *between = plan_limits(bench.plan, NULL, "between");
        bool chain = what == CHAIN || what == CHAIN_IN_TWO;
        struct limits *own = chain ? bench.limits : plan_limits(bench.plan, bench.camp, "above");
        own->base = what == BESIDE ? NULL : between;
        between->base = chain ? last : NULL;
        if (what == CHAIN_IN_TWO) {
            struct camp *second = plan_camp(bench.plan, "Second", bench.monday + 28, 4);
            second->limits[second->limits_count++] = own;
        }
        plan_limit(bench.plan, own, LIMIT_WEEK, "sets", LIMIT_AT_MOST, 10000);
        plan_limit(bench.plan, chain ? between : bench.limits, LIMIT_WEEK, "sets", LIMIT_AT_MOST, 9000);
        plan_limit(bench.plan, last, LIMIT_WEEK, "sets", LIMIT_AT_MOST, 8000);
        plan_check(bench.plan);
        assert_int_equal(plan_found(bench.plan, "limit-loosened"), chain ? 2 : 0); /* and the one between, with the last */
        const struct finding *finding = plan_finding(bench.plan, "limit-loosened");
        if (finding) {
            assert_string_equal(finding->words, "Slipway house limits sets sets at 10; between has 9");
            assert_int_equal(finding->note_count, what == CHAIN ? 1 : 2);
        }
        plan_free(bench.plan);
    }
}

/* Limits on two counts are not compared, whichever of them comes first. */
static void other_counts_are_not_compared(void **state)
{
    (void)state;
    for (int order = 0; order < 2; order++) {
        struct bench bench = bench_new();
        bench.limits->base = plan_limits(bench.plan, NULL, "house");
        plan_limit(bench.plan, bench.limits, LIMIT_WEEK, order ? "sets" : "lifts", LIMIT_AT_MOST, 10000);
        plan_limit(bench.plan, plan_limits(bench.plan, NULL, "idle"), LIMIT_WEEK, "sets", LIMIT_AT_MOST, 1000);
        plan_limit(bench.plan, (struct limits *)bench.limits->base, LIMIT_WEEK, order ? "lifts" : "sets", LIMIT_AT_MOST, 9000);
        bench_expect(&bench, "limit-loosened", 0);
    }
}

/* A heading that is no phase is looked at with the whole programme, and not where only some days are asked for. */
static void headings_are_of_the_whole_programme(void **state)
{
    (void)state;
    struct bench bench = bench_taper(14, 27);
    struct limit *limit = plan_limit(bench.plan, bench.limits, LIMIT_WEEK, "sets", LIMIT_AT_MOST, 9000);
    limit->phase = "tapr";
    limit->heading = limit->span;
    bench_place(&bench, 0);
    plan_check(bench.plan);
    assert_non_null(plan_finding(bench.plan, "limit-never-holds"));
    assert_string_equal(plan_finding(bench.plan, "limit-never-holds")->replacement, "taper");
    bool no_occasions[8] = {false};
    const struct wanted wanted = {.occasions = no_occasions, .left_out = no_occasions};
    bench.plan->diag = diag_new(bench.plan->arena, &bench.plan->sources);
    rules_run_wanted(&bench.plan->programme, &wanted, SEVERITY_INFO, NULL, bench.plan->diag);
    assert_int_equal(plan_found(bench.plan, "limit-never-holds"), 0);
    plan_free(bench.plan);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_the_young_are_allowed),
        cmocka_unit_test(which_sets_are_compared),
        cmocka_unit_test(other_counts_are_not_compared),
        cmocka_unit_test(headings_are_of_the_whole_programme),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
