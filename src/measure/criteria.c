#include "measure/criteria.h"

#include <math.h>

#include "measure/tests.h"
#include "model/athlete.h"
#include "model/recovery.h"

/* The latest value on SIDE up to DAY; false: there is none. */
static bool latest(struct arena *arena, const struct athlete *athlete, const struct test *test, enum test_side side, int day,
                   struct test_value *found)
{
    struct test_values values = test_values(arena, athlete, test, side);
    bool any = false;
    for (size_t i = 0; i < values.count && values.items[i].date <= day; i++) {
        *found = values.items[i];
        any = true;
    }
    return any;
}

/* In thousandths, so that 153 of 170 is nine tenths to the last digit and no more than that. */
static int64_t thousandths(double value)
{
    return (int64_t)llround(value * 1000);
}

struct criterion_state criterion_on(struct arena *arena, const struct athlete *athlete, const struct recovery *recovery,
                                    const struct criterion *criterion, int day)
{
    struct criterion_state state = {.figure = criterion->test != NULL, .words = ""};
    enum test_side side = recovery->sides == BARRED_RIGHT ? TEST_RIGHT : TEST_LEFT;
    struct test_value own, other;
    if (!criterion->test || !latest(arena, athlete, criterion->test, side, day, &own) ||
        !latest(arena, athlete, criterion->test, side == TEST_LEFT ? TEST_RIGHT : TEST_LEFT, day, &other) ||
        thousandths(other.value) <= 0)
        return state;
    int64_t left = thousandths(own.value) * 100000, right = thousandths(other.value) * criterion->share;
    state.known = true;
    state.met = criterion->strict ? left > right : left >= right;
    state.date = own.date > other.date ? own.date : other.date;
    state.words = arena_printf(arena, "%s of %s is %.1f %%", test_figure(arena, criterion->test, own.value),
                               test_words(arena, criterion->test, other.value), 100 * own.value / other.value);
    return state;
}
