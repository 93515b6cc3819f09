/* resolve_test.c - tests as they are declared. */
#include <string.h>

#include "base/text.h"
#include "model/test.h"
#include "resolve/resolver.h"

static void report_bad(struct resolver *r, struct span span, const char *what, const char *help)
{
    struct finding *finding = diag_error(r->diag, DIAG_BAD_TEST, span, "%s", what);
    diag_help(r->diag, finding, "%s", help);
}

/* The unit that NAME names, capitals aside (`n` is the newton); reports and returns TEST_IN_NONE where it is none. */
static enum test_unit read_unit(struct resolver *r, const struct node *name)
{
    const char *folded = resolver_fold(r, name);
    struct text all = {.arena = r->arena};
    for (size_t i = 1; i < test_units.count; i++) {
        const char *unit = test_units.names[i];
        if (strcmp(text_fold(r->arena, unit, strlen(unit)), folded) == 0)
            return (enum test_unit)i;
        text_addf(&all, "%s%s", all.length ? ", " : "", unit);
    }
    struct finding *finding = diag_error(r->diag, DIAG_UNKNOWN_WORD, name->span, "`%s` is not a unit that a test can have", name->text);
    diag_help(r->diag, finding, "one of: %s; a test without a unit needs no line", text_get(&all));
    return TEST_IN_NONE;
}

milli test_measure(const struct test *test, enum measure measure, milli value)
{
    switch (test->unit) {
    case TEST_IN_CM:
        if (measure == MEASURE_METRE)
            return value * 100;
        return measure == MEASURE_CM ? value : -1;
    case TEST_IN_METRES:
        if (measure == MEASURE_CM)
            return (value + 50) / 100;
        return measure == MEASURE_METRE ? value : -1;
    case TEST_IN_SECONDS:
        if (measure == MEASURE_MINUTE)
            return value * 60;
        return measure == MEASURE_SECOND || measure == MEASURE_CLOCK ? value : -1;
    case TEST_IN_REPS: return measure == MEASURE_REPS || measure == MEASURE_NONE ? value : -1;
    case TEST_IN_KILOGRAMS: return measure == MEASURE_KG ? value : -1;
    case TEST_IN_POUNDS: return measure == MEASURE_LB ? value : -1;
    case TEST_IN_NEWTONS: return measure == MEASURE_NEWTON ? value : -1;
    case TEST_IN_WATTS: return measure == MEASURE_WATT ? value : -1;
    case TEST_IN_METRES_A_SECOND: return measure == MEASURE_METRE_A_SECOND ? value : -1;
    case TEST_IN_NONE:
    case TEST_UNIT_COUNT: break;
    }
    return measure == MEASURE_NONE ? value : -1;
}

/* `typical error 5.8%`, `typical error 0.6 cm`. */
static void read_error(struct resolver *r, const struct node *statement, struct test *test)
{
    const struct figures *figures = figures_alone(r, statement->first);
    if (figures && figures->cut)
        return;
    milli value = figures ? figures->values[0].low : 0;
    if (value > 0 && figures->measure == MEASURE_PERCENT) {
        test->error = (struct typical_error){.share = value};
        return;
    }
    milli figure = value > 0 ? test_measure(test, figures->measure, value) : -1;
    if (figure > 0)
        test->error = (struct typical_error){.figure = figure};
    else
        report_bad(r, statement->span, "a typical error is one figure above 0, in the test's unit or in per cent",
                   "write it like `typical error 5.8%`");
}

static void read_takes(struct resolver *r, const struct node *statement, struct test *test)
{
    const char *folded = resolver_fold(r, statement->first);
    test->mean = strcmp(folded, "mean") == 0;
    if (!test->mean && strcmp(folded, "best") != 0)
        report_bad(r, statement->first->span, "a test takes the best of the day's trials or their mean",
                   "write `takes best` or `takes mean`");
}

static void read_side(struct resolver *r, const struct node *statement, struct test *test)
{
    test->each_side = !statement->first->next && strcmp(resolver_fold(r, statement->first), "each side") == 0;
    if (!test->each_side)
        report_bad(r, statement->first->span, "of a test each side is measured, or the whole",
                   "write `side each side`, or leave the line out");
}

static void read_retest(struct resolver *r, const struct node *statement, struct test *test)
{
    const struct node *figure = node_find(statement->first, NODE_FIGURE);
    enum { DAYS_OF_WEEK = 7, MOST_DAYS = 730 };
    milli value = figure && figure->first->kind == NODE_NUMBER ? figure->first->number : 0;
    int64_t days = value / 1000 * (figure && figure->code == MEASURE_WEEKS ? DAYS_OF_WEEK : 1);
    if (value % 1000 == 0 && days > 0 && days <= MOST_DAYS)
        test->retest = (int)days;
    else
        report_bad(r, statement->span, "a retest comes after whole days or weeks, two years at most",
                   "write it like `retest every 6 weeks`");
}

/* The test that NAME names, of which another is worked out: measured itself. */
static const struct test *read_part(struct resolver *r, const struct node *name, const struct test *test)
{
    const struct test *part = resolver_find(r, name, "test", r->tests);
    if (part != test)
        return part;
    report_bad(r, name->span, "a test is not worked out of itself", "name a test that is measured");
    return NULL;
}

static void read_ratio(struct resolver *r, const struct node *statement, struct test *test)
{
    const struct node *first = statement->first, *second = first->next;
    if (!second || second->kind != NODE_NAME || second->next) {
        report_bad(r, statement->span, "a ratio is of two tests", "write it like `ratio of jump peak force, isometric pull`");
        return;
    }
    const struct test *upper = read_part(r, first, test), *lower = read_part(r, second, test);
    if (upper && lower) {
        test->ratio[0] = upper;
        test->ratio[1] = lower;
    }
}

/* What NODE says of TEST counts; of a test of the shelf the rest stays as it is there. */
void resolve_test(struct resolver *r, const struct node *node, struct test *test)
{
    const struct said said = resolver_said(node);
    const struct node *line = resolver_said_once(r, &said, STATEMENT_UNIT);
    if (line)
        test->unit = read_unit(r, line->first);
    if ((line = resolver_said_once(r, &said, STATEMENT_HIGHER_IS_BETTER)))
        test->lower = false;
    const struct node *lower = resolver_said_once(r, &said, STATEMENT_LOWER_IS_BETTER);
    if (lower && line)
        report_bad(r, lower->span, "either higher is better or lower", "leave one of the two lines out");
    else if (lower)
        test->lower = true;
    if ((line = resolver_said_once(r, &said, STATEMENT_TAKES)))
        read_takes(r, line, test);
    if ((line = resolver_said_once(r, &said, STATEMENT_SIDE)))
        read_side(r, line, test);
    if ((line = resolver_said_once(r, &said, STATEMENT_TYPICAL_ERROR)))
        read_error(r, line, test);
    if ((line = resolver_said_once(r, &said, STATEMENT_RETEST)))
        read_retest(r, line, test);
    if ((line = resolver_said_once(r, &said, STATEMENT_RATIO_OF)))
        read_ratio(r, line, test);
    if ((line = resolver_said_once(r, &said, STATEMENT_HEIGHT_FROM)))
        test->flight = read_part(r, line->first, test);
    const char *source = resolver_text(resolver_said_once(r, &said, STATEMENT_SOURCE));
    test->source = source ? source : test->source;
    test->common_practice = test->common_practice || said.first[STATEMENT_COMMON_PRACTICE];
    if (!test->exercise)
        test->exercise = names_find(r->exercises, test->name.folded);
}

/* What is worked out is so of what is measured, or of a height worked out of that: no chain leads back. */
static bool is_worked_out(const struct test *test)
{
    return test->ratio[0] || test->flight;
}

static void check_flight(struct resolver *r, const struct node *node, struct test *test)
{
    const struct node *line = node_find(node, STATEMENT_HEIGHT_FROM);
    if (!test->flight || !line)
        return;
    bool fits = test->unit == TEST_IN_CM || test->unit == TEST_IN_METRES;
    if (!fits || test->flight->unit != TEST_IN_SECONDS || is_worked_out(test->flight) || test->ratio[0] ||
        test->each_side != test->flight->each_side) {
        report_bad(r, line->span, "a height in cm or m is worked out from a measured time in the air, in seconds",
                   "name a test with `unit s`, of the same sides");
        test->flight = NULL;
    }
}

/* Once all are read. */
void check_test(struct resolver *r, const struct node *node, struct test *test)
{
    check_flight(r, node, test);
    const struct node *line = node_find(node, STATEMENT_RATIO_OF);
    if (!test->ratio[0] || !line)
        return;
    bool alike = true;
    for (size_t i = 0; i < 2; i++)
        alike = alike && !test->ratio[i]->ratio[0] && test->ratio[i]->each_side == test->each_side;
    if (alike && test->unit == TEST_IN_NONE)
        return;
    report_bad(r, line->span,
               test->unit == TEST_IN_NONE ? "a ratio compares two tests of the same sides, neither of them a ratio itself"
                                          : "a ratio has no unit: its two tests are taken in metres, seconds, newtons and kilograms",
               test->unit == TEST_IN_NONE ? "name tests that are measured" : "leave the line `unit` out");
    test->ratio[0] = test->ratio[1] = NULL;
}
