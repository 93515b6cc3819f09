#include "export/tests_view.h"

#include <math.h>

#include "export/columns.h"
#include "export/json_text.h"
#include "model/programme.h"

/* --- for people --- */

/* How the error of a test is known. */
static const char *origin_words(const struct test_error *error)
{
    static const char *const from[] = {[ERROR_FROM_CLUB] = "by the club's own pairs", [ERROR_FROM_SOURCE] = "by its source",
                                       [ERROR_FROM_PARTS] = "by its parts"};
    if (error->from == ERROR_FROM_SOURCE && !error->test->source)
        return error->test->common_practice ? "common practice, no source" : "no source given";
    return from[error->from];
}

static const char *error_words(const struct programme_view *view, const struct test_error *error, double value)
{
    double typical = test_error_at(error, value);
    if (!(typical > 0))
        return arena_printf(view->arena, "error not known, %zu of %d pairs", error->pairs, (int)PAIRS_NEEDED);
    return arena_printf(view->arena, "typical error %s %s", test_words(view->arena, error->test, typical),
                        origin_words(error));
}

/* "+2.1 cm since 2027-01-11, within the error (up to 6.3 cm)" */
static const char *change_words(const struct programme_view *view, const struct test_error *error,
                                const struct test_value *from, const struct test_value *to)
{
    struct test_change change = test_change(error, from->value, to->value);
    const char *least = change.error > 0
                            ? arena_printf(view->arena, " (up to %s)", test_words(view->arena, error->test, change.least))
                            : "";
    return arena_printf(view->arena, "%s%s since %s, %s%s", change.change < 0 ? "-" : "+",
                        test_words(view->arena, error->test, fabs(change.change)), view_date(view->arena, from->date),
                        test_verdict_words(change.verdict), least);
}

static void add_values(const struct programme_view *view, const struct test_error *error, enum test_side side,
                       const struct test_values *values, struct columns *columns)
{
    const struct test *test = error->test;
    const struct test_value *last = &values->items[values->count - 1];
    int due = test_due(test, last->date);
    const char *name = side ? arena_printf(view->arena, "%s %s", test->name.shown, test_side_words(side)) : test->name.shown;
    const char *const cells[] = {
        name, arena_printf(view->arena, "%s on %s", test_words(view->arena, test, last->value), view_date(view->arena, last->date)),
        error_words(view, error, last->value),
        values->count > 1 ? change_words(view, error, &values->items[values->count - 2], last) : "",
        values->count > 2 ? change_words(view, error, &values->items[0], last) : "",
        due ? arena_printf(view->arena, "again by %s", view_date(view->arena, due)) : ""};
    columns_add(columns, cells, 6);
}

static void add_symmetry(const struct programme_view *view, const struct athlete *athlete, const struct test_error *error,
                         struct text *out)
{
    struct test_symmetry symmetry = test_symmetry(view->arena, athlete, error, view->private);
    if (symmetry.known)
        text_addf(out, "  %s: %s has %.1f %% of the other side on %s; the difference is %s\n", error->test->name.shown,
                  test_side_words(symmetry.lesser), symmetry.share * 100, view_date(view->arena, symmetry.date),
                  test_verdict_words(symmetry.verdict));
}

static void add_athlete(const struct programme_view *view, const struct athlete *athlete, const struct test_error *errors,
                        struct text *out)
{
    struct columns columns = {.arena = view->arena};
    struct text sides = {.arena = view->arena};
    size_t rows = 0;
    for (size_t t = 0; t < view->programme->test_count; t++) {
        const struct test *test = view->programme->tests[t];
        for (enum test_side side = TEST_WHOLE; side <= TEST_RIGHT; side++) {
            struct test_values values = test_values_seen(view->arena, athlete, test, side, view->private);
            if (!values.count)
                continue;
            add_values(view, &errors[t], side, &values, &columns);
            rows++;
        }
        if (test->each_side)
            add_symmetry(view, athlete, &errors[t], &sides);
    }
    if (!rows)
        return;
    text_addf(out, "\n%s, tests\n", athlete->name.shown);
    columns_write(&columns, 2, 1, out);
    text_add(out, text_get(&sides));
}

void tests_text(const struct programme_view *view, struct text *out)
{
    const struct programme *programme = view->programme;
    bool *met = arena_alloc(view->arena, programme->athlete_count + 1);
    const struct test_error *errors = test_errors(view->arena, programme);
    for (size_t i = 0; i < view->count; i++)
        met[view->occasions[i]->athlete->number] = true;
    for (size_t i = 0; i < programme->athlete_count; i++)
        if (met[i] && programme->athletes[i]->result_count)
            add_athlete(view, programme->athletes[i], errors, out);
}

/* --- for programs --- */

/* VALUE to six decimals: more says nothing. */
static void put_figure(json_t *json, const char *key, double value)
{
    json_put(json, key, json_real(round(value * 1e6) / 1e6));
}

static json_t *error_json(const struct test_error *error, double value)
{
    static const char *const from[] = {[ERROR_UNKNOWN] = "unknown", [ERROR_FROM_CLUB] = "club",
                                       [ERROR_FROM_SOURCE] = "source", [ERROR_FROM_PARTS] = "parts"};
    json_t *json = json_object();
    json_put_words(json, "from", from[error->from]);
    json_put_number(json, "pairs", error->pairs);
    json_put_number(json, "athletes", error->athletes);
    if (error->pairs > 1) {
        put_figure(json, "of_pairs", error->club);
        put_figure(json, "of_pairs_detectable", reliability_least_change(error->club));
        put_figure(json, "mean_of_pairs", error->mean);
    }
    if (error->athletes > 1) {
        put_figure(json, "between_athletes", error->deviation);
        put_figure(json, "worthwhile", reliability_worthwhile(error->deviation));
    }
    if (error->from != ERROR_UNKNOWN) {
        put_figure(json, "typical", test_error_at(error, value));
        put_figure(json, "detectable", reliability_least_change(test_error_at(error, value)));
    }
    return json;
}

static json_t *change_json(const struct programme_view *view, const struct test_error *error,
                           const struct test_value *from, const struct test_value *to)
{
    json_t *json = json_object();
    struct test_change change = test_change(error, from->value, to->value);
    json_put_words(json, "since", view_date(view->arena, from->date));
    put_figure(json, "change", change.change);
    json_put_words(json, "verdict", test_verdict_words(change.verdict));
    json_put(json, "better", json_boolean(change.better));
    if (change.error > 0 && change.worthwhile > 0) {
        put_figure(json, "chance_better", change.chances.above);
        put_figure(json, "chance_same", change.chances.within);
        put_figure(json, "chance_worse", change.chances.below);
    }
    return json;
}

static json_t *values_json(const struct programme_view *view, const struct athlete *athlete, const struct test_error *error,
                           enum test_side side, const struct test_values *values)
{
    const struct test *test = error->test;
    const struct test_value *last = &values->items[values->count - 1];
    json_t *json = json_object(), *results = json_array();
    json_put_words(json, "test", test->name.shown);
    json_put_words(json, "unit", test->unit ? test_units.names[test->unit] : NULL);
    json_put_words(json, "side", side ? test_side_words(side) : NULL);
    for (size_t i = 0; i < values->count; i++) {
        json_t *one = json_object();
        json_put_words(one, "day", view_date(view->arena, values->items[i].date));
        put_figure(one, "value", values->items[i].value);
        json_put_number(one, "trials", values->items[i].trials);
        json_add(results, one);
    }
    json_put(json, "results", results);
    json_put(json, "error", error_json(error, last->value));
    if (values->count > 1)
        json_put(json, "since_last", change_json(view, error, &values->items[values->count - 2], last));
    if (values->count > 2)
        json_put(json, "since_first", change_json(view, error, &values->items[0], last));
    if (test_due(test, last->date))
        json_put_words(json, "due", view_date(view->arena, test_due(test, last->date)));
    struct test_symmetry symmetry = test_symmetry(view->arena, athlete, error, view->private);
    if (symmetry.known && side == symmetry.lesser)
        put_figure(json, "percent_of_other_side", symmetry.share * 100);
    return json;
}

json_t *tests_json(const struct programme_view *view, const struct athlete *athlete)
{
    json_t *tests = json_array();
    for (size_t t = 0; athlete->result_count && t < view->programme->test_count; t++) {
        const struct test *test = view->programme->tests[t];
        for (enum test_side side = TEST_WHOLE; side <= TEST_RIGHT; side++) {
            struct test_values values = test_values_seen(view->arena, athlete, test, side, view->private);
            if (!values.count)
                continue;
            struct test_error error = test_error(view->arena, view->programme, test);
            json_add(tests, values_json(view, athlete, &error, side, &values));
        }
    }
    return tests;
}
