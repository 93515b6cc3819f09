/* What a phase asks of its work: intensity and repetitions inside a band, volume below the peak week, and nothing new.
 * Each applies only if a limit says so. */
#include <stdlib.h>

#include "figures/taper.h"
#include "measure/demand.h"
#include "measure/hold.h"
#include "measure/member.h"
#include "model/athlete.h"
#include "model/exercise.h"
#include "model/season.h"
#include "wording/wording.h"
#include "rules/checks.h"
#include "rules/settings.h"

enum { DAYS_OF_WEEK = 7, SLOW_LOWERING = 4 };

/* --- inside a band --- */

struct band {
    milli low, high; /* high 0: none */
};

static struct band band_of(const struct limit *limit)
{
    switch (limit->bound) {
    case LIMIT_AT_MOST:
        return (struct band){0, limit->value};
    case LIMIT_AT_LEAST:
        return (struct band){limit->value, 0};
    case LIMIT_WITHIN:
        break;
    }
    return (struct band){limit->value, limit->top};
}

static void report_band(struct run *run, const struct rule *rule, const struct window *window,
                        const struct item *item, const struct limit *limit, enum counted counted,
                        milli figure, bool by_effort)
{
    struct band band = band_of(limit);
    bool over = band.high > 0 && figure > band.high;
    const char *asked =
        band.low > 0 && band.high > 0
            ? arena_printf(run->arena, "%s to %s", counted_amount(run->arena, counted, band.low),
                           counted_amount(run->arena, counted, band.high))
        : over
            ? arena_printf(run->arena, "at most %s", counted_amount(run->arena, counted, band.high))
            : arena_printf(run->arena, "at least %s",
                           counted_amount(run->arena, counted, band.low));
    struct about about = {.window = window,
                          .severity = limit_severity(limit, over),
                          .span = item->span,
                          .subject = limit,
                          .weight = over ? figure - band.high : band.low - figure};
    struct finding *finding = run_report(
        run, rule, &about, "%s %s %s on %s%s%s, %s", item_words(run, item),
        by_effort ? "is, by its effort, at about" : counted == COUNTED_REPS ? "is done for" : "is done at",
        counted_figure(run->arena, counted, figure), date_words(run, window->first),
        window->phase ? ", in " : "", window->phase ? window->phase->name.shown : "", asked);
    if (finding)
        run_note_limit(run, finding, limit);
}

typedef milli (*figure_of)(const struct window *window, const struct item *item,
                           const struct set_run *sets);

static milli percent_of(const struct window *window, const struct item *item,
                        const struct set_run *sets)
{
    return run_percent(window->athlete, item->exercise, sets, window->first).high;
}

/* A ceiling is also compared with what the effort comes to, because otherwise it would be passed where no best is
 * known. */
static milli percent_met(const struct window *window, const struct item *item,
                         const struct set_run *sets)
{
    return run_percent_met(window->athlete, item->exercise, sets, window->first);
}

static milli reps_of(const struct window *window, const struct item *item,
                     const struct set_run *sets)
{
    (void)window;
    (void)item;
    return run_reps(sets).high;
}

/* Strength work is compared with a band; power work has its own, of which only the ceiling counts. */
static bool is_held_to(const struct exercise *exercise, const struct limit *limit)
{
    return exercise->kind == EXERCISE_STRENGTH ||
           (exercise->kind == EXERCISE_POWER && limit->bound == LIMIT_AT_MOST);
}

/* One set above the band is too many; below it is only an item none of whose sets reaches it, for
 * the sets on the way up are lighter. */
static void check_band(struct run *run, const struct rule *rule, const struct window *window,
                       const struct limit *limit, enum counted counted, figure_of figure_of_run)
{
    const struct occasion *occasion = window->occasions[0];
    for (size_t b = 0; limit && b < occasion->block_count; b++)
        for (size_t i = 0; i < occasion->blocks[b].item_count; i++) {
            const struct item *item = &occasion->blocks[b].items[i];
            struct band band = band_of(limit);
            const struct set_run *top = NULL;
            milli most = 0;
            for (size_t r = 0; r < item->run_count; r++) {
                milli figure = figure_of_run(window, item, &item->runs[r]);
                if (figure > most) {
                    top = &item->runs[r];
                    most = figure;
                }
            }
            if (!is_held_to(item->exercise, limit) || !top)
                continue;
            run_margin(run, window, limit, counted, SIDE_ALL,
                       margin_within(most, band.low, band.high > 0 ? band.high : INT32_MAX));
            if (most < band.low || (band.high > 0 && most > band.high))
                report_band(run, rule, window, item, limit, counted, most,
                            counted == COUNTED_INTENSITY && percent_of(window, item, top) == 0);
        }
}

void check_intensity(struct run *run, const struct rule *rule, const struct window *window)
{
    const struct limit *limit = run_limit(run, window, COUNTED_INTENSITY);
    const struct limit *beside = run_limit_beside(run, window, COUNTED_INTENSITY);
    bool ceiling = limit && limit->bound == LIMIT_AT_MOST;
    check_band(run, rule, window, limit, COUNTED_INTENSITY, ceiling ? percent_met : percent_of);
    check_band(run, rule, window, beside, COUNTED_INTENSITY, percent_met);
}

void check_reps_outside(struct run *run, const struct rule *rule, const struct window *window)
{
    check_band(run, rule, window, run_limit(run, window, COUNTED_REPS), COUNTED_REPS, reps_of);
    check_band(run, rule, window, run_limit_beside(run, window, COUNTED_REPS), COUNTED_REPS, reps_of);
}

/* --- volume below the peak week --- */

/* The largest week of COUNTED among those of the camp, since a bout before it, that end before DAY. */
static milli peak_before(const struct window *window, enum counted counted, int day)
{
    milli peak = 0;
    int first = camp_towards_from(window->camp, day);
    for (size_t i = 0; i < window->timeline->week_count; i++) {
        const struct window *week = &window->timeline->weeks[i];
        if (week->last >= first && week->last < day && window_tally(week)->sum[counted].high > peak)
            peak = window_tally(week)->sum[counted].high;
    }
    return peak;
}

static milli sum_since(const struct window *window, enum counted counted, int first)
{
    milli sum = 0;
    for (size_t i = 0; i < window->count; i++)
        if (window->occasions[i]->date >= first)
            sum += timeline_tally(window->timeline, window->at + i)->sum[counted].high;
    return sum;
}

static const char *band_words(struct run *run, struct band band)
{
    const char *low = counted_amount(run->arena, COUNTED_VOLUME, band.low);
    const char *high = counted_amount(run->arena, COUNTED_VOLUME, band.high);
    if (band.high == 0)
        return arena_printf(run->arena, "at least %s", low);
    return band.low == 0 ? arena_printf(run->arena, "at most %s", high)
                         : arena_printf(run->arena, "%s to %s", low, high);
}

/* A cut to tenths, or to as many places as distinguish it from the LIMIT that it breaks. */
static const char *cut_words(struct run *run, int64_t cut, milli limit)
{
    int64_t size = llabs(cut);
    bool alike = size - size % 100 == limit;
    return alike ? arena_printf(run->arena, "%s %%", wording_number(run->arena, size))
                 : counted_amount(run->arena, COUNTED_VOLUME, size);
}

static void judge_volume(struct run *run, const struct rule *rule, const struct window *window,
                         const struct limit *limit, enum counted counted)
{
    int days = window->last - window->first + 1;
    milli peak = peak_before(window, counted, window->first);
    milli total = sum_since(window, counted, window->first);
    /* Seven days' share of the phase against the peak: total x 7 / days, without dividing. */
    struct taper mean = {peak, total * DAYS_OF_WEEK, days};
    struct band band = band_of(limit);
    if (!taper_is_valid(&mean))
        return;
    int64_t cut = taper_cut(&mean);
    milli left = margin_within(cut, band.low, band.high > 0 ? band.high : INT32_MAX);
    bool under = taper_compare(&mean, band.low) < 0;
    bool over = band.high > 0 && taper_compare(&mean, band.high) > 0;
    bool holds = !under && !over;
    /* A cut that misses by less than its own rounding misses all the same. */
    run_margin(run, window, limit, counted, SIDE_ALL, holds || left < 0 ? left : -1);
    if (holds)
        return;
    struct about about = {.window = window,
                          .severity = limit_severity(limit, false), /* never an error, so that it may tell of the body */
                          .span = window->phase->name.span,
                          .subject = window->athlete,
                          .subject_number = counted,
                          .figure = cut,
                          .floor = under};
    struct finding *finding = run_report(
        run, rule, &about,
        "%s: %s in an average week of %s, %s %s the peak week's %s; the limit asks for %s below",
        window->athlete->name.shown,
        run_figure(run, window, counted, total * DAYS_OF_WEEK / days), window->phase->name.shown,
        cut_words(run, cut, over ? band.high : band.low),
        cut < 0 ? "above" : "below", run_amount(run, window, counted, peak),
        band_words(run, band));
    if (!finding)
        return;
    if (counted_tells_body(counted))
        diag_set_private(run->diag, finding);
    struct taper last = {peak, sum_since(window, counted, window->last - DAYS_OF_WEEK + 1), 1};
    if (days > DAYS_OF_WEEK)
        diag_remark(run->diag, finding, "its last seven days alone are %s below the peak week",
                    counted_amount(run->arena, COUNTED_VOLUME, taper_cut(&last)));
    struct span largest;
    run_note_lines(run, finding, window, counted, SIDE_ALL, &largest);
    run_note_limit(run, finding, limit);
}

/* Whether every session of the phase and of the camp's weeks before it has an effort: otherwise part of the load would
 * be compared with another part. */
static bool load_is_counted(const struct window *window)
{
    bool counted = window_tally(window)->uncounted[UNCOUNTED_LOAD] == 0;
    int first = camp_towards_from(window->camp, window->first);
    for (size_t i = 0; counted && i < window->timeline->week_count; i++) {
        const struct window *week = &window->timeline->weeks[i];
        if (week->last >= first && week->last < window->first)
            counted = window_tally(week)->uncounted[UNCOUNTED_LOAD] == 0;
    }
    return counted;
}

/* A limit such as `tonnage 40-60% below the peak week` is about that count alone. */
static void judge_named_accounts(struct run *run, const struct rule *rule,
                                 const struct window *window)
{
    const struct limit_table *table = run_table(run, window->camp);
    struct holder holder = {window->athlete, window->phase, window->first, window->last};
    for (int counted = 0; counted < COUNTED_COUNT; counted++) {
        const struct layered *found = limit_table_find_peak(table, (enum counted)counted, &holder);
        if (found && found->limit->phase)
            judge_volume(run, rule, window, found->limit, (enum counted)counted);
    }
}

void check_taper_volume(struct run *run, const struct rule *rule, const struct window *window)
{
    if (athlete_away(run->programme, window->athlete, window->first, window->last))
        return;
    const struct limit *limit = run_limit(run, window, COUNTED_VOLUME);
    judge_named_accounts(run, rule, window);
    if (!limit || !limit->phase)
        return;
    judge_volume(run, rule, window, limit, COUNTED_SETS);
    judge_volume(run, rule, window, limit, COUNTED_TONNAGE);
    if (load_is_counted(window))
        judge_volume(run, rule, window, limit, COUNTED_SESSION_LOAD);
}

/* --- too short to be one --- */

void check_phase_short(struct run *run, const struct rule *rule, const struct window *window)
{
    const struct phase *phase = window->phase;
    const struct limit *limit = run_limit(run, window, COUNTED_PHASE_DAYS);
    milli days = (milli)(phase->last - phase->first + 1) * 1000;
    if (!limit || limit->bound != LIMIT_AT_LEAST || phase->after_bout || phase->open)
        return;
    run_margin(run, window, limit, COUNTED_PHASE_DAYS, SIDE_ALL, days - limit->value);
    if (days >= limit->value)
        return;
    struct about about = {.window = window,
                          .severity = limit_severity(limit, false),
                          .span = phase->name.span,
                          .subject = limit,
                          .figure = days,
                          .floor = true};
    struct finding *finding = run_report(
        run, rule, &about, "%s has %s %s, too few to be a phase; at least %s", window_words(run, window),
        counted_amount(run->arena, COUNTED_PHASE_DAYS, days), days == 1000 ? "day" : "days",
        counted_amount(run->arena, COUNTED_PHASE_DAYS, limit->value));
    if (!finding)
        return;
    diag_help(run->diag, finding, "make it longer, or leave it out and let its neighbour last longer");
    run_note_limit(run, finding, limit);
}

/* --- nothing new --- */

/* Items that a limit counts, each exercise once. */
struct fresh_items {
    const struct item **items;
    size_t count, capacity;
};

static void count_item(struct run *run, struct fresh_items *fresh, const struct item *item)
{
    for (size_t i = 0; i < fresh->count; i++)
        if (fresh->items[i]->exercise == item->exercise)
            return;
    fresh->items = arena_grow(run->arena, fresh->items, fresh->count, &fresh->capacity,
                                sizeof(struct item *));
    fresh->items[fresh->count++] = item;
}

static bool is_first_met(const struct window *window, const struct occasion *occasion,
                         const struct item *item)
{
    const struct exercise *exercise = item->exercise;
    return exercise->kind != EXERCISE_MOBILITY && exercise->kind != EXERCISE_WARM_UP &&
           run_first_seen(window, exercise) == occasion->date && run_is_new(window, exercise, 1);
}

static bool is_slow_lowering(const struct window *window, const struct occasion *occasion,
                             const struct item *item)
{
    (void)window;
    (void)occasion;
    for (size_t r = 0; r < item->run_count; r++)
        if (item->exercise->kind == EXERCISE_STRENGTH && item->runs[r].tempo.given &&
            item->runs[r].tempo.lower >= SLOW_LOWERING)
            return true;
    return false;
}

typedef bool (*counts)(const struct window *window, const struct occasion *occasion,
                       const struct item *item);

/* Counts the exercises for which COUNTS is true in a phase and compares them with the limit on COUNTED. */
static void check_none_of(struct run *run, const struct rule *rule, const struct window *window,
                          enum counted counted, counts counts_item, const char *what)
{
    const struct limit *limit = run_limit(run, window, counted);
    if (!limit || !limit->phase || limit->bound != LIMIT_AT_MOST)
        return;
    struct fresh_items fresh = {0};
    for (size_t o = 0; o < window->count; o++)
        for (size_t b = 0; b < window->occasions[o]->block_count; b++) {
            const struct block *block = &window->occasions[o]->blocks[b];
            for (size_t i = 0; i < block->item_count; i++)
                if (counts_item(window, window->occasions[o], &block->items[i]))
                    count_item(run, &fresh, &block->items[i]);
        }
    run_margin(run, window, limit, counted, SIDE_ALL, limit->value - (milli)fresh.count * 1000);
    if ((milli)fresh.count * 1000 <= limit->value)
        return;
    struct about about = {.window = window,
                          .severity = limit_severity(limit, true),
                          .span = fresh.items[0]->span,
                          .subject = limit,
                          .weight = (milli)fresh.count};
    struct finding *finding = run_report(
        run, rule, &about, "%s: %zu %s %s in %s, at most %s", window->athlete->name.shown,
        fresh.count, fresh.count == 1 ? "exercise" : "exercises", what,
        window_words(run, window), counted_amount(run->arena, counted, limit->value));
    if (!finding)
        return;
    for (size_t i = 0; i < fresh.count; i++)
        diag_summand(run->diag, finding, fresh.items[i]->span, "%s",
                     fresh.items[i]->exercise->name.shown);
    run_note_limit(run, finding, limit);
}

void check_new_exercise(struct run *run, const struct rule *rule, const struct window *window)
{
    if (athlete_away(run->programme, window->athlete, window->first, window->last))
        return;
    check_none_of(run, rule, window, COUNTED_NEW_EXERCISES, is_first_met, "done for the first time");
}

void check_lowering(struct run *run, const struct rule *rule, const struct window *window)
{
    if (athlete_away(run->programme, window->athlete, window->first, window->last))
        return;
    check_none_of(run, rule, window, COUNTED_LOWERING_WORK, is_slow_lowering, "lowered slowly");
}
