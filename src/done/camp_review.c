#include "done/camp_review.h"

#include <limits.h>

#include "figures/dates.h"
#include "measure/hold.h"
#include "model/programme.h"

struct reviewing {
    struct arena *arena;
    const struct programme *programme;
    struct camp_review *review;
    const struct test_error *errors; /* of each test */
    bool private;
};

/* --- planned and done --- */

static void add_share(struct done_share *sum, const struct done_share *more)
{
    sum->done += more->done;
    sum->planned.low += more->planned.low;
    sum->planned.high += more->planned.high;
}

/* Adds what was PLANNED on a day, and how much of it was KEPT. */
static void add_day(struct review_days *days, const struct adherence *planned, const struct adherence *kept)
{
    days->planned += planned->known;
    days->load += planned->of[ADHERENCE_LOAD].planned.high;
    days->kept.known |= kept->known;
    for (int of = 0; of < ADHERENCE_COUNT; of++)
        add_share(&days->kept.of[of], &kept->of[of]);
}

static void add_occasion(struct camp_review *review, struct review_athlete *own, const struct occasion *occasion, int until)
{
    struct adherence planned = adherence_of(&occasion, 1, INT_MAX), kept = adherence_of(&occasion, 1, until);
    size_t week = (size_t)(occasion->date - date_monday(review->camp->first)) / 7;
    add_day(&review->all, &planned, &kept);
    add_day(&own->all, &planned, &kept);
    if (week < review->week_count) {
        add_day(&review->weeks[week], &planned, &kept);
        add_day(&own->weeks[week], &planned, &kept);
    }
    for (size_t i = 0; i < review->phase_count; i++)
        if (occasion->date >= review->phases[i].first && occasion->date <= review->phases[i].last)
            add_day(&review->phases[i], &planned, &kept);
}

static struct review_days *weeks_of(struct arena *arena, const struct camp *camp, size_t count)
{
    struct review_days *weeks = arena_alloc(arena, (count + 1) * sizeof *weeks);
    for (size_t i = 0; i < count; i++) {
        int monday = date_monday(camp->first) + 7 * (int)i;
        weeks[i] = (struct review_days){.first = monday, .last = monday + 6};
    }
    return weeks;
}

static void take_phases(const struct reviewing *reviewing)
{
    struct camp_review *review = reviewing->review;
    const struct camp *camp = review->camp;
    review->phases = arena_alloc(reviewing->arena, (camp->phase_count + 1) * sizeof *review->phases);
    review->shorter = arena_alloc(reviewing->arena, (camp->phase_count + 1) * sizeof(struct phase *));
    for (size_t i = 0; i < camp->phase_count; i++) {
        const struct phase *phase = &camp->phases[i];
        if (phase->open || phase->last < phase->first)
            continue;
        review->phases[review->phase_count++] =
            (struct review_days){.name = phase->name.shown, .first = phase->first, .last = phase->last};
        if (phase->last - phase->first + 1 < phase->longest)
            review->shorter[review->shorter_count++] = phase;
    }
}

/* --- one athlete --- */

/* VALUES of the camp: from two weeks before it to two weeks after. */
static void add_test(const struct reviewing *reviewing, struct review_athlete *own, const struct test_error *error,
                     enum test_side side)
{
    const struct camp *camp = reviewing->review->camp;
    struct test_values values = test_values_seen(reviewing->arena, own->athlete, error->test, side, reviewing->private);
    const struct test_value *first = NULL, *last = NULL;
    for (size_t i = 0; i < values.count; i++) {
        const struct test_value *one = &values.items[i];
        if (one->date < camp->first - REVIEW_DAYS_AROUND || one->date > camp->last + REVIEW_DAYS_AROUND)
            continue;
        first = first ? first : one;
        last = one;
    }
    if (!first)
        return;
    struct review_test *test = &own->tests[own->test_count++];
    *test = (struct review_test){.test = error->test, .side = side, .first = *first, .last = *last};
    if (last != first)
        test->change = test_change(error, first->value, last->value);
}

static void take_tests(const struct reviewing *reviewing, struct review_athlete *own)
{
    size_t most = own->athlete->result_count ? reviewing->programme->test_count * 3 : 0;
    own->tests = arena_alloc(reviewing->arena, (most + 1) * sizeof *own->tests);
    for (size_t t = 0; most && t < reviewing->programme->test_count; t++)
        for (enum test_side side = TEST_WHOLE; side <= TEST_RIGHT; side++)
            add_test(reviewing, own, &reviewing->errors[t], side);
}

static void take_holds(const struct reviewing *reviewing, struct review_athlete *own)
{
    const struct athlete *athlete = own->athlete;
    const struct camp *camp = reviewing->review->camp;
    own->holds = arena_alloc(reviewing->arena, (athlete->hold_count + 1) * sizeof *own->holds);
    for (size_t i = 0; reviewing->private && i < athlete->hold_count; i++) {
        const struct hold *hold = &athlete->holds[i];
        struct hold_state state = hold_on(hold, athlete, DATE_LAST, reviewing->programme->today, HOLD_ALL);
        if (hold->since <= camp->last && !(state.ended && state.began < camp->first))
            own->holds[own->hold_count++] = (struct review_hold){hold->since, state.ended ? state.began : 0};
    }
}

/* For each athlete with work in the camp: what was done of it, lifted and measured. */
static void take_athletes(const struct reviewing *reviewing)
{
    struct camp_review *review = reviewing->review;
    const struct programme *programme = reviewing->programme;
    struct review_athlete **by_number = arena_alloc(reviewing->arena, (programme->athlete_count + 1) * sizeof(void *));
    int *until = arena_alloc(reviewing->arena, (programme->athlete_count + 1) * sizeof *until);
    struct review_athlete *all = arena_alloc(reviewing->arena, (review->camp->athlete_count + 1) * sizeof *all);
    for (size_t a = 0; a < review->camp->athlete_count; a++) {
        const struct athlete *athlete = review->camp->athletes[a];
        all[a] = (struct review_athlete){.athlete = athlete, .weeks = weeks_of(reviewing->arena, review->camp, review->week_count)};
        by_number[athlete->number] = &all[a];
        until[athlete->number] = adherence_last(programme, athlete);
    }
    for (size_t i = 0; i < programme->occasion_count; i++) {
        const struct occasion *occasion = &programme->occasions[i];
        struct review_athlete *own = by_number[occasion->athlete->number];
        if (occasion->camp == review->camp && own)
            add_occasion(review, own, occasion, until[occasion->athlete->number]);
    }
    review->athletes = all;
    for (size_t a = 0; a < review->camp->athlete_count; a++) {
        struct review_athlete *own = &all[review->athlete_count];
        if (!all[a].all.planned)
            continue;
        *own = all[a];
        own->estimate_count = estimates_between(reviewing->arena, programme, own->athlete, review->camp->first,
                                                review->camp->last, &own->estimates);
        take_tests(reviewing, own);
        take_holds(reviewing, own);
        review->athlete_count++;
    }
}

static void take_waivers(const struct reviewing *reviewing)
{
    struct camp_review *review = reviewing->review;
    const struct programme *programme = reviewing->programme;
    review->waivers = arena_alloc(reviewing->arena, (programme->waiver_count + 1) * sizeof(struct waiver *));
    for (size_t i = 0; i < programme->waiver_count; i++)
        if (programme->waivers[i].camp == review->camp)
            review->waivers[review->waiver_count++] = &programme->waivers[i];
}

struct camp_review review_of(struct arena *arena, const struct programme *programme, const struct camp *camp, bool private)
{
    struct camp_review review = {.camp = camp, .all = {.first = camp->first, .last = camp->last},
                                 .week_count = (size_t)camp->weeks};
    const struct reviewing reviewing = {arena, programme, &review, test_errors(arena, programme), private};
    review.weeks = weeks_of(arena, camp, review.week_count);
    take_phases(&reviewing);
    take_athletes(&reviewing);
    take_waivers(&reviewing);
    return review;
}
