/* resolve_outcome.c - results of an athlete's tests: the lines below `tests` and `bests` that are no lifts. */
#include <stdlib.h>

#include "model/athlete.h"
#include "model/test.h"
#include "resolve/resolver.h"
#include "source/span_order.h"

enum { MOST_RESULTS = 2000, MOST_TRIALS = 12 };

int results_day(const struct node *line)
{
    bool below = line->parent->kind == STATEMENT_RESULTS;
    return below ? (int)node_find(line->parent, NODE_DATE)->number : 0;
}

/* What is wrong AT a line or a part of it. */
static bool report_bad(struct resolver *r, const struct node *at, const struct test *test, const char *what)
{
    struct finding *finding = diag_error(r->diag, DIAG_BAD_RESULT, at->span, "%s", what);
    const char *unit = test_units.names[test->unit];
    const struct node *line = at;
    while (line->kind != STATEMENT_BEST)
        line = line->parent;
    diag_help(r->diag, finding, "write it like `%s : 38%s%s%s%s`", test->name.shown, *unit ? " " : "", unit,
              test->each_side ? " left" : "", results_day(line) ? "" : " on 2027-02-22");
    return false;
}

/* The one part of the dose of LINE, if it is that, and a day, which is the line's own or stands above it. */
static const struct node *find_part(const struct node *line, const struct node **on)
{
    const struct node *dose = node_find(line, NODE_DOSE), *amount = dose ? node_find(dose, NODE_AMOUNT) : NULL;
    *on = dose ? node_find(dose, NODE_ON) : NULL;
    if (!amount || (!*on == !results_day(line)) || amount->number || amount->first->next || node_next_alike(amount) ||
        (*on && node_next_alike(*on)))
        return NULL;
    for (const struct node *clause = dose->first; clause; clause = clause->next)
        if (clause != amount && clause != *on)
            return NULL;
    return amount->first;
}

static bool read_trials(struct resolver *r, const struct node *part, struct test_result *result)
{
    const struct test *test = result->test;
    struct figures *figures = figures_read(r, part->first);
    if (figures->cut)
        return false;
    if (figures->series || figures->count > MOST_TRIALS)
        return report_bad(r, part, test, "the trials of a day are separated by commas, twelve at most");
    milli *trials = arena_alloc(r->arena, (size_t)figures->count * sizeof *trials);
    for (int i = 0; i < figures->count; i++) {
        trials[i] = figures->max[i] || figures->values[i].low != figures->values[i].high
                        ? -1
                        : test_measure(test, figures->measure, figures->values[i].low);
        if (trials[i] < 0)
            return report_bad(r, part, test,
                              arena_printf(r->arena, "%s is measured in %s, one figure for each trial", test->name.shown,
                                           test->unit ? test_units.names[test->unit] : "figures without a unit"));
    }
    result->trials = trials;
    result->trial_count = (size_t)figures->count;
    return true;
}

static bool read_side(struct resolver *r, const struct node *part, struct test_result *result)
{
    bool sided = part->code == SIDE_WORD_LEFT || part->code == SIDE_WORD_RIGHT;
    result->side = part->code == SIDE_WORD_LEFT ? TEST_LEFT : part->code == SIDE_WORD_RIGHT ? TEST_RIGHT : TEST_WHOLE;
    if (part->code && !sided)
        return report_bad(r, part, result->test, "a side of a result is `left` or `right`");
    if (sided && !result->test->each_side)
        return report_bad(r, part, result->test,
                          arena_printf(r->arena, "%s is not measured side by side", result->test->name.shown));
    if (!sided && result->test->each_side)
        return report_bad(r, part, result->test,
                          arena_printf(r->arena, "which side? %s is measured on each", result->test->name.shown));
    return true;
}

bool read_outcome(struct resolver *r, const struct node *line, const struct test *test, struct test_result *result)
{
    const struct node *on, *part = find_part(line, &on);
    *result = (struct test_result){.test = test, .span = line->span};
    if (test->ratio[0] || test->flight) {
        struct finding *finding = diag_error(r->diag, DIAG_BAD_RESULT, line->span, "%s is worked out, not entered",
                                             test->name.shown);
        diag_help(r->diag, finding, "enter what it is worked out from: %s",
                  test->flight ? test->flight->name.shown : test->ratio[0]->name.shown);
        return false;
    }
    if (!part && results_day(line)) {
        diag_error(r->diag, DIAG_BAD_RESULT, line->span, "below `results` a result is a figure for each trial and their unit; "
                                                         "the day stands above");
        return false;
    }
    if (!part)
        return report_bad(r, line, test, "a result is a figure for each trial, their unit and the day");
    result->date = on ? (int)on->number : results_day(line);
    return read_side(r, part, result) && read_trials(r, part, result);
}

bool best_as_result(struct resolver *r, const struct best *best, const struct test *test, struct test_result *result)
{
    bool pounds = test->unit == TEST_IN_POUNDS;
    if (best->estimated || test->each_side || (!pounds && test->unit != TEST_IN_KILOGRAMS))
        return false;
    milli *trial = arena_alloc(r->arena, sizeof *trial);
    *trial = mass_to(best->load, pounds ? MASS_IN_LB : MASS_IN_KG);
    *result = (struct test_result){.test = test, .trials = trial, .trial_count = 1, .date = best->date, .best = true,
                                   .private = best->private, .span = best->span};
    return true;
}

/* Two lines of one test, side and day: the trials of one day stand in one line. */
static void report_twice(struct resolver *r, const struct test_result *first, const struct test_result *second)
{
    struct finding *finding = diag_error(r->diag, DIAG_BAD_RESULT, second->span, "%s has two lines for this day",
                                         second->test->name.shown);
    diag_note(r->diag, finding, first->span, "the other is here");
    diag_help(r->diag, finding, "put all trials of a day on one line, separated by commas");
}

void keep_result(struct resolver *r, struct athlete *athlete, const struct test_result *result, size_t *capacity)
{
    if (resolver_is_full(r, &athlete->results, athlete->result_count, MOST_RESULTS, result->span, "an athlete", "results"))
        return;
    for (size_t i = 0; i < athlete->result_count; i++) {
        const struct test_result *other = &athlete->results[i];
        if (other->test == result->test && other->date == result->date && other->side == result->side && !other->best &&
            !result->best) {
            report_twice(r, other, result);
            return;
        }
    }
    athlete->results = arena_grow(r->arena, athlete->results, athlete->result_count, capacity, sizeof *athlete->results);
    athlete->results[athlete->result_count++] = *result;
}

static int in_order(const void *left, const void *right)
{
    const struct test_result *a = left, *b = right;
    if (a->test != b->test)
        return a->test->number < b->test->number ? -1 : 1;
    if (a->date != b->date)
        return a->date < b->date ? -1 : 1;
    if (a->side != b->side)
        return a->side < b->side ? -1 : 1;
    return span_order(a->span, b->span);
}

void order_results(struct athlete *athlete)
{
    if (athlete->result_count > 1)
        qsort(athlete->results, athlete->result_count, sizeof *athlete->results, in_order);
}
