#include "measure/criteria.h"

#include <math.h>

#include "figures/dates.h"
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

/* The last that ATHLETE told up to DAY of what RECOVERY is about; NULL: nothing. */
static const struct pain *last_pain(const struct athlete *athlete, const struct recovery *recovery, int day)
{
    const struct pain *last = NULL;
    for (size_t i = 0; i < athlete->pain_count && athlete->pains[i].day <= day; i++) {
        const struct pain *pain = &athlete->pains[i];
        bool there = recovery->joint >= 0 ? pain->joint == recovery->joint : pain->region == recovery->region;
        if (there && (!pain->sides || !recovery->sides || (pain->sides & recovery->sides)))
            last = pain;
    }
    return last;
}

/* Where nobody wrote it down, it stays words for a person. */
static struct criterion_state pain_state(struct arena *arena, const struct athlete *athlete, const struct recovery *recovery,
                                         const struct criterion *criterion, int day)
{
    char date[DATE_TEXT_SIZE];
    const struct pain *pain = last_pain(athlete, recovery, day);
    if (!pain)
        return (struct criterion_state){.words = ""};
    return (struct criterion_state){.figure = true, .known = true, .met = pain->score <= criterion->most, .date = pain->day,
                                    .words = arena_printf(arena, "it was %d of 10 on %s", pain->score,
                                                          date_format(pain->day, date))};
}

struct criterion_state criterion_on(struct arena *arena, const struct athlete *athlete, const struct recovery *recovery,
                                    const struct criterion *criterion, int day)
{
    struct criterion_state state = {.figure = criterion->test != NULL, .words = ""};
    enum test_side side = recovery->sides == BARRED_RIGHT ? TEST_RIGHT : TEST_LEFT;
    struct test_value own, other;
    if (criterion->pain)
        return pain_state(arena, athlete, recovery, criterion, day);
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
