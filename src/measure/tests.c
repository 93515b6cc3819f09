#include "measure/tests.h"

#include <math.h>
#include <stdlib.h>

#include "language/language.h"
#include "model/athlete.h"
#include "model/programme.h"

enum { DAYS_BETWEEN = 7 }; /* that the two tests of a ratio, or two sides, may lie apart: common practice, no source */

/* --- values --- */

/* One trial in the unit of TEST, of which RESULT is, or from which it is worked out. */
static double trial_of(const struct test *test, milli trial)
{
    double value = (double)trial / 1000;
    if (!test->flight)
        return value;
    return jump_height(value) * (test->unit == TEST_IN_CM ? 100 : 1);
}

static double day_value(const struct test *test, const struct test_result *result)
{
    double best = trial_of(test, result->trials[0]), sum = 0;
    for (size_t i = 0; i < result->trial_count; i++) {
        double trial = trial_of(test, result->trials[i]);
        best = (trial > best) != test->lower ? trial : best;
        sum += trial;
    }
    return test->mean ? sum / (double)result->trial_count : best;
}

static struct test_values measured(struct arena *arena, const struct athlete *athlete, const struct test *test,
                                   enum test_side side)
{
    const struct test *of = test->flight ? test->flight : test;
    struct test_value *values = arena_alloc(arena, (athlete->result_count + 1) * sizeof *values);
    size_t count = 0;
    for (size_t i = 0; i < athlete->result_count; i++) {
        const struct test_result *result = &athlete->results[i];
        if (result->test != of || result->side != side)
            continue;
        values[count++] = (struct test_value){.date = result->date, .value = day_value(test, result),
                                              .trials = result->trial_count, .private = result->private,
                                              .span = result->span};
    }
    return (struct test_values){values, count};
}

/* What a unit is of a metre, a second, a newton, a kilogram. */
static double base_unit(enum test_unit unit)
{
    return unit == TEST_IN_CM ? 0.01 : unit == TEST_IN_POUNDS ? 0.45359237 : 1;
}

/* The one of VALUES nearest to DAY, at most a week off; NULL: none. */
static const struct test_value *nearest(const struct test_values *values, int day)
{
    const struct test_value *near = NULL;
    for (size_t i = 0; i < values->count; i++) {
        const struct test_value *one = &values->items[i];
        if (abs(one->date - day) <= DAYS_BETWEEN && (!near || abs(one->date - day) <= abs(near->date - day)))
            near = one;
    }
    return near;
}

static struct test_values ratios(struct arena *arena, const struct athlete *athlete, const struct test *test,
                                 enum test_side side)
{
    struct test_values upper = measured(arena, athlete, test->ratio[0], side);
    struct test_values lower = measured(arena, athlete, test->ratio[1], side);
    double scale = base_unit(test->ratio[0]->unit) / base_unit(test->ratio[1]->unit);
    struct test_value *values = arena_alloc(arena, (upper.count + 1) * sizeof *values);
    size_t count = 0;
    for (size_t i = 0; i < upper.count; i++) {
        const struct test_value *one = &upper.items[i], *other = nearest(&lower, one->date);
        if (!other || !(other->value > 0))
            continue;
        values[count++] = (struct test_value){.date = one->date > other->date ? one->date : other->date,
                                              .value = one->value / other->value * scale,
                                              .trials = one->trials < other->trials ? one->trials : other->trials,
                                              .private = one->private || other->private, .span = one->span};
    }
    return (struct test_values){values, count};
}

struct test_values test_values(struct arena *arena, const struct athlete *athlete, const struct test *test,
                               enum test_side side)
{
    return test->ratio[0] ? ratios(arena, athlete, test, side) : measured(arena, athlete, test, side);
}

struct test_values test_values_seen(struct arena *arena, const struct athlete *athlete, const struct test *test,
                                    enum test_side side, bool private)
{
    const struct test_values all = test_values(arena, athlete, test, side);
    struct test_value *kept = arena_alloc(arena, (all.count + 1) * sizeof *kept);
    size_t count = 0;
    for (size_t i = 0; i < all.count; i++)
        if (private || !all.items[i].private)
            kept[count++] = all.items[i];
    return (struct test_values){kept, count};
}

static const struct test_value *latest_by(const struct test_values *values, int day)
{
    const struct test_value *latest = NULL;
    for (size_t i = 0; i < values->count && values->items[i].date <= day; i++)
        latest = &values->items[i];
    return latest;
}

const struct test_value *test_latest(struct arena *arena, const struct athlete *athlete, const struct test *test, int day)
{
    const struct test_values whole = test_values(arena, athlete, test, test->each_side ? TEST_LEFT : TEST_WHOLE);
    const struct test_value *one = latest_by(&whole, day);
    if (!test->each_side)
        return one;
    const struct test_values right = test_values(arena, athlete, test, TEST_RIGHT);
    const struct test_value *other = latest_by(&right, day);
    if (!one || !other)
        return one ? one : other;
    return (one->value < other->value) != test->lower ? one : other;
}

/* --- the error --- */

struct sample {
    double *differences, *means, *latest;
    size_t pairs, athletes;
};

/* Adds what ATHLETE's trials say of the error of TEST. */
static void add_pairs(struct sample *sample, const struct athlete *athlete, const struct test *test)
{
    const struct test *of = test->flight ? test->flight : test;
    const struct test_result *last = NULL;
    for (size_t i = 0; i < athlete->result_count; i++) {
        const struct test_result *result = &athlete->results[i];
        if (result->test != of || result->private)
            continue;
        last = result;
        if (result->trial_count < 2)
            continue;
        double first = trial_of(test, result->trials[0]), second = trial_of(test, result->trials[1]);
        sample->differences[sample->pairs] = second - first;
        sample->means[sample->pairs++] = (first + second) / 2;
    }
    if (!last)
        return;
    double sum = 0;
    for (size_t i = 0; i < last->trial_count; i++)
        sum += trial_of(test, last->trials[i]);
    sample->latest[sample->athletes++] = sum / (double)last->trial_count;
}

static struct sample sample_of(struct arena *arena, const struct programme *programme, const struct test *test)
{
    size_t most = 0;
    for (size_t i = 0; i < programme->athlete_count; i++)
        most += programme->athletes[i]->result_count;
    struct sample sample = {.differences = arena_alloc(arena, (most + 1) * sizeof(double)),
                            .means = arena_alloc(arena, (most + 1) * sizeof(double)),
                            .latest = arena_alloc(arena, (programme->athlete_count + 1) * sizeof(double))};
    for (size_t i = 0; i < programme->athlete_count; i++)
        add_pairs(&sample, programme->athletes[i], test);
    return sample;
}

/* The share of its value that the error of what TEST is worked out of comes to, of 1; 0: not known. */
static double share_of(const struct test_error *error)
{
    if (error->from == ERROR_UNKNOWN)
        return 0;
    return error->share > 0 ? error->share : error->mean > 0 ? error->figure / error->mean : 0;
}

/* Independent errors add up as their squares do. */
static void take_ratio(struct arena *arena, const struct programme *programme, struct test_error *error)
{
    const struct test *test = error->test;
    struct test_error upper = test_error(arena, programme, test->ratio[0]);
    struct test_error lower = test_error(arena, programme, test->ratio[1]);
    double one = share_of(&upper), other = share_of(&lower);
    if (!(one > 0) || !(other > 0))
        return;
    error->share = sqrt(one * one + other * other);
    error->from = ERROR_FROM_PARTS;
}

/* The height goes by the square of the time. */
static void take_flight(struct arena *arena, const struct programme *programme, struct test_error *error)
{
    struct test_error time = test_error(arena, programme, error->test->flight);
    error->share = 2 * share_of(&time);
    error->from = error->share > 0 ? ERROR_FROM_PARTS : ERROR_UNKNOWN;
}

static void take_sample(struct arena *arena, const struct programme *programme, struct test_error *error)
{
    struct sample sample = sample_of(arena, programme, error->test);
    error->pairs = sample.pairs;
    error->athletes = sample.athletes;
    error->club = reliability_typical_error(sample.differences, sample.pairs);
    error->mean = reliability_mean(sample.pairs ? sample.means : sample.latest, sample.pairs ? sample.pairs : sample.athletes);
    error->deviation = reliability_deviation(sample.latest, sample.athletes);
}

/* Between athletes, of a ratio. */
static void take_spread(struct arena *arena, const struct programme *programme, struct test_error *error)
{
    double *latest = arena_alloc(arena, (programme->athlete_count + 1) * sizeof *latest);
    for (size_t i = 0; i < programme->athlete_count; i++) {
        struct test_values values = ratios(arena, programme->athletes[i], error->test, TEST_WHOLE);
        if (values.count && !values.items[values.count - 1].private)
            latest[error->athletes++] = values.items[values.count - 1].value;
    }
    error->deviation = reliability_deviation(latest, error->athletes);
    error->mean = reliability_mean(latest, error->athletes);
}

struct test_error test_error(struct arena *arena, const struct programme *programme, const struct test *test)
{
    struct test_error error = {.test = test};
    if (test->ratio[0])
        take_spread(arena, programme, &error);
    else
        take_sample(arena, programme, &error);
    if (error.pairs >= PAIRS_NEEDED && error.club > 0) {
        error.from = ERROR_FROM_CLUB;
        error.figure = error.club;
    } else if (test->error.share > 0 || test->error.figure > 0) {
        error.from = ERROR_FROM_SOURCE;
        error.share = (double)test->error.share / 100000;
        error.figure = (double)test->error.figure / 1000;
    } else if (test->ratio[0]) {
        take_ratio(arena, programme, &error);
    } else if (test->flight) {
        take_flight(arena, programme, &error);
    }
    return error;
}

const struct test_error *test_errors(struct arena *arena, const struct programme *programme)
{
    struct test_error *errors = arena_alloc(arena, (programme->test_count + 1) * sizeof *errors);
    for (size_t t = 0; t < programme->test_count; t++)
        errors[t] = test_error(arena, programme, programme->tests[t]);
    return errors;
}

double test_error_at(const struct test_error *error, double value)
{
    if (error->from == ERROR_UNKNOWN)
        return 0;
    return error->share > 0 ? error->share * fabs(value) : error->figure;
}

/* --- changes --- */

struct test_change test_change(const struct test_error *error, double from, double to)
{
    struct test_change change = {.change = to - from, .error = test_error_at(error, (from + to) / 2),
                                 .worthwhile = error->athletes > 1 ? reliability_worthwhile(error->deviation) : 0};
    change.least = reliability_least_change(change.error);
    change.better = (change.change > 0) != error->test->lower && change.change != 0;
    if (change.error > 0)
        change.verdict = fabs(change.change) > change.least ? TEST_BEYOND_ERROR : TEST_WITHIN_ERROR;
    if (change.error > 0 && change.worthwhile > 0)
        change.chances = reliability_chances(error->test->lower ? -change.change : change.change, change.error,
                                             change.worthwhile);
    return change;
}

const char *test_verdict_words(enum test_verdict verdict)
{
    switch (verdict) {
    case TEST_BEYOND_ERROR: return "more than the error";
    case TEST_WITHIN_ERROR: return "within the error";
    case TEST_TOO_FEW: break;
    }
    return "too few to tell";
}

struct test_symmetry test_symmetry(struct arena *arena, const struct athlete *athlete, const struct test_error *error,
                                   bool private)
{
    struct test_symmetry symmetry = {0};
    const struct test *test = error->test;
    if (!test->each_side)
        return symmetry;
    struct test_values left = test_values_seen(arena, athlete, test, TEST_LEFT, private);
    struct test_values right = test_values_seen(arena, athlete, test, TEST_RIGHT, private);
    for (size_t i = left.count; i > 0 && !symmetry.known; i--) {
        const struct test_value *one = &left.items[i - 1], *other = nearest(&right, one->date);
        if (!other || !(one->value > 0) || !(other->value > 0))
            continue;
        bool less = one->value < other->value;
        symmetry = (struct test_symmetry){
            .known = true, .date = one->date > other->date ? one->date : other->date, .left = one->value,
            .right = other->value, .lesser = less ? TEST_LEFT : TEST_RIGHT,
            .share = less ? one->value / other->value : other->value / one->value,
            .verdict = test_change(error, one->value, other->value).verdict};
    }
    return symmetry;
}

struct test_values test_values_between(struct test_values values, int first, int last)
{
    while (values.count && values.items[0].date < first) {
        values.items++;
        values.count--;
    }
    while (values.count && values.items[values.count - 1].date > last)
        values.count--;
    return values;
}

bool tests_shown(struct arena *arena, const struct programme *programme, const struct athlete *athlete, int day, bool private)
{
    bool shown = false;
    for (size_t t = 0; athlete->result_count && t < programme->test_count && !shown; t++)
        for (enum test_side side = TEST_WHOLE; side <= TEST_RIGHT && !shown; side++) {
            struct test_values values = test_values_seen(arena, athlete, programme->tests[t], side, private);
            shown = test_values_between(values, day - TEST_DAYS_SHOWN, day + TEST_DAYS_AFTER).count > 0;
        }
    return shown;
}

int test_due(const struct test *test, int last)
{
    return test->retest && last ? last + test->retest : 0;
}

/* --- words --- */

/* How many decimals a unit is shown with: as many as its instruments give. */
static int decimals_of(enum test_unit unit)
{
    switch (unit) {
    case TEST_IN_CM: case TEST_IN_KILOGRAMS: case TEST_IN_POUNDS: case TEST_IN_REPS: return 1;
    case TEST_IN_METRES: case TEST_IN_SECONDS: case TEST_IN_METRES_A_SECOND: return 2;
    case TEST_IN_NONE: return 3;
    case TEST_IN_NEWTONS: case TEST_IN_WATTS: case TEST_UNIT_COUNT: break;
    }
    return 0;
}

const char *test_side_words(enum test_side side)
{
    return side == TEST_LEFT ? "left" : side == TEST_RIGHT ? "right" : "";
}

const char *test_figure(struct arena *arena, const struct test *test, double value)
{
    char *text = arena_printf(arena, "%.*f", decimals_of(test->unit), value);
    char *point = NULL, *end = text;
    for (; *end; end++)
        point = *end == '.' ? end : point;
    while (point && end > point && (end[-1] == '0' || end[-1] == '.'))
        *--end = '\0';
    return said_figures(arena, text);
}

const char *test_words(struct arena *arena, const struct test *test, double value)
{
    const char *unit = said_as(arena, "unit", test_units.names[test->unit]);
    return arena_printf(arena, "%s%s%s", test_figure(arena, test, value), *unit ? " " : "", unit);
}
