/* Every limit that comes with the program, at its figure and one unit beyond it.
 *
 * The limits are read from share/limits, so that a new one is tested the day it is written: where
 * no maker below makes its count, the test fails. A limit fires when a finding has a note at its
 * line; what is left up to it must then be below 0, and else not. The plans are one athlete's; what a maker makes lies in the last week of the camp. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "measure/counts.h"
#include "plan_reader.h"
#include "rules/margin.h"
#include "rules/rules.h"
#include "unit/plan_builder.c"

/* Makes a plan with FIGURE, in the limit's own unit, in the week from day FROM. */
typedef void (*maker)(struct bench *bench, const struct limit *limit, milli figure, int from);

struct making {
    maker make;
    int weeks;   /* of the camp */
    milli unit;  /* the least that the figure can be over or under */
    bool phased; /* the limit's phase is the last two weeks, after a base; else the whole camp */
};

static int whole(milli figure)
{
    assert_true(figure >= 0 && figure % 1000 == 0);
    return (int)(figure / 1000);
}

static struct exercise *squat_of(struct bench *bench)
{
    struct exercise *squat = bench_squat(bench);
    squat->weigh = WEIGH_BAR_AND_PLATES;
    return squat;
}

static void make_sparring(struct bench *bench, const struct limit *limit, milli figure, int from)
{
    (void)limit;
    bench_spar(bench, whole(figure), from);
}

/* Jabs from orthodox land on the left hand. */
static void make_strikes(struct bench *bench, const struct limit *limit, milli figure, int from)
{
    (void)limit;
    struct exercise *jab = plan_exercise(bench->plan, "jab", EXERCISE_SKILL, PATTERN_STRIKE);
    jab->side = SIDE_PER_STANCE;
    jab->workers = WORKER_LEAD_HAND;
    struct set_run *run =
        bench_sets(bench, bench_place(bench, from), jab, 1, whole(figure), UNIT_STRIKES);
    plan_part(run, 0)->side = DOSE_ORTHODOX;
    plan_effort(run, EFFORT_ALL_OUT, 0);
}

static void make_contacts(struct bench *bench, const struct limit *limit, milli figure, int from)
{
    (void)limit;
    struct exercise *pogo = plan_exercise(bench->plan, "pogo jump", EXERCISE_POWER, PATTERN_JUMP);
    bench_sets(bench, bench_place(bench, from), pogo, 1, whole(figure), UNIT_CONTACTS);
}

/* A twentieth more than the limit is let pass. */
static void make_time(struct bench *bench, const struct limit *limit, milli figure, int from)
{
    int grace = whole(limit->value) / 20;
    bench_place(bench, from)->seconds = whole(figure) + grace;
}

/* RPE 10 for 1000 minutes, and the week after it so much more. */
static void make_load_rise(struct bench *bench, const struct limit *limit, milli figure, int from)
{
    (void)limit;
    for (int week = 0; week < 2; week++) {
        struct occasion *occasion = bench_place(bench, from - 7 + 7 * week);
        occasion->rpe = (struct range){10000, 10000};
        occasion->seconds = 60000 + (week ? (int)(figure * 60000 / 100000) : 0);
    }
}

static struct exercise *worker_of(struct bench *bench, const char *counted, const char *suffix)
{
    size_t length = strlen(counted) - strlen(suffix);
    char word[32] = "";
    memcpy(word, counted, length);
    int region = vocabulary_find(&regions, word), pattern = vocabulary_find(&patterns, word);
    assert_true(region >= 0 || pattern >= 0);
    struct exercise *exercise = plan_exercise(bench->plan, "the work", EXERCISE_STRENGTH,
                                              pattern >= 0 ? (enum pattern)pattern : PATTERN_CARRY);
    if (region >= 0)
        exercise->loads[region] = 1000;
    return exercise;
}

static void make_sets(struct bench *bench, const struct limit *limit, milli figure, int from)
{
    struct exercise *exercise = worker_of(bench, limit->counted, " sets");
    bench_sets(bench, bench_place(bench, from), exercise, whole(figure), 5, UNIT_REPS);
}

static void make_sessions(struct bench *bench, const struct limit *limit, milli figure, int from)
{
    struct exercise *exercise = worker_of(bench, limit->counted, " sessions");
    for (int i = 0; i < whole(figure); i++)
        bench_sets(bench, bench_place(bench, from + i), exercise, 1, 5, UNIT_REPS);
}

static void make_heavy(struct bench *bench, const struct limit *limit, milli figure, int from)
{
    (void)limit;
    plan_percent(bench_sets(bench, bench_place(bench, from), squat_of(bench), 1, whole(figure),
                            UNIT_REPS), 85);
}

/* Against ten sets of the other. */
static void make_ratio(struct bench *bench, const struct limit *limit, milli figure, int from)
{
    struct occasion *occasion = bench_place(bench, from);
    bench_sets(bench, occasion, worker_of(bench, limit->against, " sets"), 10, 5, UNIT_REPS);
    bench_sets(bench, occasion, worker_of(bench, limit->counted, " sets"), whole(figure * 10), 5,
               UNIT_REPS);
}

/* A peak week of 100 sets, then the phase's fortnight. */
static void make_volume(struct bench *bench, const struct limit *limit, milli figure, int from)
{
    (void)limit;
    struct exercise *squat = squat_of(bench);
    bench_sets(bench, bench_place(bench, 0), squat, 100, 5, UNIT_REPS);
    bench_sets(bench, bench_place(bench, from), squat, whole(200000 - 2 * figure), 5, UNIT_REPS);
}

static void make_new(struct bench *bench, const struct limit *limit, milli figure, int from)
{
    (void)limit;
    bench_sets(bench, bench_place(bench, 0), squat_of(bench), 3, 5, UNIT_REPS);
    struct occasion *occasion = bench_place(bench, from);
    bench_sets(bench, occasion, bench->plan->programme.exercises[0], 3, 5, UNIT_REPS);
    for (int i = 0; i < whole(figure); i++)
        bench_sets(bench, occasion, bench_press(bench), 3, 5, UNIT_REPS);
}

static void make_lowering(struct bench *bench, const struct limit *limit, milli figure, int from)
{
    (void)limit;
    for (int i = 0; i < whole(figure) + 1; i++) {
        struct set_run *run =
            bench_sets(bench, bench_place(bench, from), bench_press(bench), 3, 5, UNIT_REPS);
        run->tempo = (struct item_tempo){.lower = i < whole(figure) ? 4 : 3, .given = true};
    }
}

static void make_intensity(struct bench *bench, const struct limit *limit, milli figure, int from)
{
    (void)limit;
    struct set_run *run =
        bench_sets(bench, bench_place(bench, from), squat_of(bench), 3, 1, UNIT_REPS);
    run->load.kind = LOAD_PERCENT;
    run->load.percent = (struct range){figure, figure};
}

static void make_effort(struct bench *bench, const struct limit *limit, milli figure, int from)
{
    (void)limit;
    struct set_run *run =
        bench_sets(bench, bench_place(bench, from), squat_of(bench), 3, 10, UNIT_REPS);
    run->load.effort = EFFORT_RPE;
    run->load.effort_band = (struct range){figure, figure};
}

static void make_one_rep(struct bench *bench, const struct limit *limit, milli figure, int from)
{
    (void)limit;
    struct exercise *squat = squat_of(bench);
    bench_sets(bench, bench_place(bench, from), squat, 3, 1, UNIT_REPS); /* easy ones, which are no tests */
    for (int i = 0; i < whole(figure); i++)
        plan_percent(bench_sets(bench, bench_place(bench, from), squat, 1, 1, UNIT_REPS), 95);
}

static void make_reps(struct bench *bench, const struct limit *limit, milli figure, int from)
{
    (void)limit;
    bench_sets(bench, bench_place(bench, from), squat_of(bench), 3, whole(figure), UNIT_REPS);
}

/* The phase that the limit names, or any, of so many days. */
static void make_phase(struct bench *bench, const struct limit *limit, milli figure, int from)
{
    (void)from;
    if (!limit->phase)
        plan_phase(bench->plan, bench->camp, "strength", bench->monday, bench->monday);
    struct phase *phase = &bench->camp->phases[bench->camp->phase_count - 1];
    phase->last = phase->first + whole(figure) - 1;
    bench_sets(bench, bench_place(bench, 0), squat_of(bench), 3, 5, UNIT_REPS);
}

/* How LIMIT is tried; no maker where nobody has thought of its count. */
static struct making making_of(const struct limit *limit)
{
    enum counted counted = counted_find(limit->counted);
    if (limit->against)
        return (struct making){make_ratio, 1, 100, false};
    switch (counted) {
    case COUNTED_SPARRING_ROUNDS: return (struct making){make_sparring, 1, 1000, false};
    case COUNTED_ALL_OUT_STRIKES: return (struct making){make_strikes, 1, 1000, false};
    case COUNTED_CONTACTS: return (struct making){make_contacts, 1, 1000, false};
    case COUNTED_TIME: return (struct making){make_time, 1, 1000, false};
    case COUNTED_HEAVY_LIFTS: return (struct making){make_heavy, 1, 1000, false};
    /* 60000 s a week: a second more is a 600th of a per cent. */
    case COUNTED_ONE_REP_TESTS: return (struct making){make_one_rep, 1, 1000, false};
    case COUNTED_REPS: return (struct making){make_reps, 1, 1000, false};
    case COUNTED_PHASE_DAYS: return (struct making){make_phase, 2, 1000, false};
    case COUNTED_LOAD_RISE: return (struct making){make_load_rise, 2, 5, false};
    case COUNTED_VOLUME: return (struct making){make_volume, 4, 500, true};
    case COUNTED_NEW_EXERCISES: return (struct making){make_new, 4, 1000, true};
    case COUNTED_LOWERING_WORK: return (struct making){make_lowering, 4, 1000, true};
    case COUNTED_INTENSITY: return (struct making){make_intensity, 1, 1, false};
    case COUNTED_EFFORT: return (struct making){make_effort, 1, 500, false};
    default: break;
    }
    switch (counted_group(counted)) {
    case GROUP_SETS: return (struct making){make_sets, 1, 1000, false};
    case GROUP_SESSIONS: return (struct making){make_sessions, 1, 1000, false};
    default: return (struct making){NULL, 0, 0, false};
    }
}

static bool points_at(const struct finding *finding, struct span span)
{
    for (size_t i = 0; i < finding->note_count; i++)
        if (finding->notes[i].placed && finding->notes[i].span.start == span.start)
            return true;
    return false;
}

/* What is left up to LIMIT at the least, which must have been measured. */
static milli least_left(const struct plan *plan, const struct limit *limit)
{
    struct margins margins = {0};
    rules_measure(&plan->programme, &margins);
    bool any = false;
    milli least = INT64_MAX;
    for (size_t i = 0; i < margins.count; i++)
        if (margins.items[i].limit == limit) {
            any = true;
            least = margins.items[i].left < least ? margins.items[i].left : least;
        }
    if (!any)
        fail_msg("%s: nobody measures what is left", limit->counted);
    return least;
}

/* Whether LIMIT, alone, fires in a plan with FIGURE. */
static bool fires(const struct limit *limit, const struct making *making, milli figure)
{
    struct bench bench = bench_new();
    int days = making->weeks * 7, from = days - 7;
    bench.camp->last = bench.monday + days - 1;
    bench.camp->weeks = making->weeks;
    struct limit *copy = plan_limit(bench.plan, bench.limits, limit->scope, limit->counted,
                                    limit->bound, limit->value);
    struct span span = copy->span;
    *copy = *limit;
    copy->span = span;
    if (limit->level >= 0)
        bench.athlete->level = (enum level)limit->level;
    if (limit->under_age)
        bench.athlete->born = bench.monday - 365 * (limit->under_age - 1);
    if (limit->phase && making->phased)
        plan_phase(bench.plan, bench.camp, "base", bench.monday, bench.monday + days - 15);
    if (limit->phase)
        plan_phase(bench.plan, bench.camp, limit->phase,
                   bench.monday + (making->phased ? days - 14 : 0), bench.monday + days - 1);
    making->make(&bench, limit, figure, from);
    plan_check(bench.plan);
    bool fired = false;
    for (size_t i = 0; i < bench.plan->diag->count; i++)
        fired = fired || points_at(bench.plan->diag->items[i], copy->span);
    /* A twentieth of a session's time is let pass, and is past the limit all the same. */
    bool graced = counted_find(limit->counted) == COUNTED_TIME && limit->scope == LIMIT_SESSION;
    milli left = least_left(bench.plan, copy);
    if (!graced && (left < 0) != fired)
        fail_msg("%s: %lld thousandths left, and it %s", limit->counted, (long long)left,
                 fired ? "fires" : "does not fire");
    plan_free(bench.plan);
    return fired;
}

static void expect(const char *set, const struct limit *limit, const struct making *making,
                   milli figure, bool wanted)
{
    if (fires(limit, making, figure) != wanted)
        fail_msg("%s, %s: at %lld thousandths it %s", set, limit->counted, (long long)figure,
                 wanted ? "does not fire" : "fires");
}

static void try_limit(const char *set, const struct limit *limit)
{
    struct making making = making_of(limit);
    if (!making.make)
        fail_msg("%s, %s: nothing here makes a plan for it", set, limit->counted);
    expect(set, limit, &making, limit->value, false);
    if (limit->bound == LIMIT_AT_MOST)
        expect(set, limit, &making, limit->value + making.unit, true);
    else
        expect(set, limit, &making, limit->value - making.unit, true);
    if (limit->bound != LIMIT_WITHIN)
        return;
    expect(set, limit, &making, limit->top, false);
    expect(set, limit, &making, limit->top + making.unit, true);
}

static void open_shelf(struct plan_reader *reader)
{
    plan_reader_open(reader);
    plan_reader_shelf(reader);
    plan_reader_resolve(reader);
    assert_int_equal(diag_count(reader->diag, SEVERITY_ERROR), 0);
}

static void every_limit_holds_at_its_figure_and_breaks_beyond_it(void **state)
{
    (void)state;
    struct plan_reader reader;
    open_shelf(&reader);
    const struct programme *programme = reader.programme;
    size_t tried = 0;
    assert_true(programme->limits_count >= 3);
    for (size_t s = 0; s < programme->limits_count; s++)
        for (size_t i = 0; i < programme->limits[s]->count; i++, tried++)
            try_limit(programme->limits[s]->name.shown, &programme->limits[s]->items[i]);
    print_message("%zu limits tried\n", tried);
    assert_true(tried > 0);
    plan_reader_close(&reader);
}

/* Each says where it comes from. */
static void every_limit_has_a_source(void **state)
{
    (void)state;
    struct plan_reader reader;
    open_shelf(&reader);
    const struct programme *programme = reader.programme;
    for (size_t s = 0; s < programme->limits_count; s++)
        for (size_t i = 0; i < programme->limits[s]->count; i++)
            if (!programme->limits[s]->items[i].source)
                fail_msg("%s, %s: no source", programme->limits[s]->name.shown,
                         programme->limits[s]->items[i].counted);
    plan_reader_close(&reader);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_limit_holds_at_its_figure_and_breaks_beyond_it),
        cmocka_unit_test(every_limit_has_a_source),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
