/* After time off: for four weeks the volume stays below a share of the highest of the four weeks before it, and no lift
 * asks for much at once. */
#include "figures/dates.h"
#include "measure/counts.h"
#include "measure/demand.h"
#include "model/athlete.h"
#include "model/exercise.h"
#include "model/occasion.h"
#include "rules/checks.h"
#include "rules/run.h"

enum {
    DAYS_OF_WEEK = 7,
    LEAST_OFF = 14, /* days */
    WEEKS_AFTER = 4,
    WEEKS_BEFORE = 4
};

/* Thousandths of the volume before, week by week: Caterisano et al. 2019, Strength Cond J 41(3):1-23, for conditioning
 * volume (50, 30, 20 and 10 % below; the meaning of the rule from memory). For strength work the same is common practice,
 * no source. */
static const milli SHARES[WEEKS_AFTER] = {500, 700, 800, 900};

static const char *const NAMES[WEEKS_AFTER] = {"first", "second", "third", "fourth"};

struct volume {
    enum counted counted;
    bool conditioning;
};

static const struct volume VOLUMES[] = {
    {COUNTED_STRIKES, true},     {COUNTED_CONTACTS, true},        {COUNTED_METRES, true},
    {COUNTED_BAG_ROUNDS, true},  {COUNTED_SPARRING_ROUNDS, true}, {COUNTED_SETS, false},
    {COUNTED_TONNAGE, false},
};

/* Which week after OUT the window is, from 0: that in which the athlete comes back is the first. -1: none of the four. */
static int week_after(const struct window *window, const struct out *out)
{
    int back = out->last + 1;
    if (out->last == DATE_LAST || out->last - out->first + 1 < LEAST_OFF || window->last < back)
        return -1;
    int week = window->first <= back ? 0 : (window->first - back + DAYS_OF_WEEK - 1) / DAYS_OF_WEEK;
    return week < WEEKS_AFTER ? week : -1;
}

/* The latest time off that the window comes after; *WEEK as above. NULL: none. */
static const struct out *time_off(const struct window *window, int *week)
{
    const struct athlete *athlete = window->athlete;
    const struct out *latest = NULL;
    for (size_t i = 0; i < athlete->out_count; i++) {
        int after = week_after(window, &athlete->outs[i]);
        if (after < 0 || (latest && latest->last > athlete->outs[i].last))
            continue;
        latest = &athlete->outs[i];
        *week = after;
    }
    return latest;
}

static milli highest_before(const struct window *window, const struct out *out, enum counted counted)
{
    milli highest = 0;
    for (size_t i = 0; i < window->timeline->week_count; i++) {
        const struct window *week = &window->timeline->weeks[i];
        if (week->last < out->first && week->first >= out->first - (WEEKS_BEFORE + 1) * DAYS_OF_WEEK + 1 &&
            window_tally(week)->sum[counted].high > highest)
            highest = window_tally(week)->sum[counted].high;
    }
    return highest;
}

static void look_at(struct run *run, const struct rule *rule, const struct window *window, const struct out *out, int week,
                    const struct volume *volume)
{
    milli before = highest_before(window, out, volume->counted), now = window_tally(window)->sum[volume->counted].high;
    if (before == 0 || now <= before / 1000 * SHARES[week] + before % 1000 * SHARES[week] / 1000)
        return;
    struct about about = {.window = window,
                          .severity = rule_severity(rule),
                          .span = out->span,
                          .subject = window->athlete,
                          .subject_number = window->first * 1000 + (int)volume->counted,
                          .figure = now};
    struct finding *finding = run_report(
        run, rule, &about, "%s: %s in %s, the %s week after %d days off; at most %s, %lld %% of %s",
        window->athlete->name.shown, run_figure(run, window, volume->counted, now), window_words(run, window), NAMES[week],
        out->last - out->first + 1, run_figure(run, window, volume->counted, before * SHARES[week] / 1000),
        (long long)SHARES[week] / 10, run_figure(run, window, volume->counted, before));
    if (!finding)
        return;
    struct span largest;
    diag_remark(run->diag, finding, "%s is the highest week of the four before",
                run_figure(run, window, volume->counted, before));
    run_note_lines(run, finding, window, volume->counted, SIDE_ALL, &largest);
    diag_remark(run->diag, finding, "%s",
                volume->conditioning ? "source: Caterisano et al. 2019, Strength Cond J 41(3):1-23, for conditioning volume"
                                     : "for strength work common practice, no source");
}

void check_time_off(struct run *run, const struct rule *rule, const struct window *window)
{
    int week = 0;
    const struct out *out = window->count ? time_off(window, &week) : NULL;
    for (size_t i = 0; out && i < sizeof VOLUMES / sizeof *VOLUMES; i++)
        look_at(run, rule, window, out, week, &VOLUMES[i]);
}

/* --- one lift --- */

/* Sets x repetitions x share of the best: Caterisano et al. 2019 keep a lift between 11 and 30 (from memory). */
static const milli MOST_OF_A_LIFT = 30000;

static milli relative_volume(const struct window *window, const struct item *item)
{
    int64_t sum = 0;
    for (size_t r = 0; r < item->run_count; r++) {
        const struct set_run *sets = &item->runs[r];
        milli percent = run_percent(window->athlete, item->exercise, sets, window->first).high;
        sum += sets->count * (int64_t)run_reps(sets).high * percent / 100000;
    }
    return sum;
}

/* The time off whose four weeks the day is in. NULL: none. */
static const struct out *time_off_before(const struct athlete *athlete, int day)
{
    const struct out *latest = NULL;
    for (size_t i = 0; i < athlete->out_count; i++) {
        const struct out *out = &athlete->outs[i];
        bool counts = out->last != DATE_LAST && out->last - out->first + 1 >= LEAST_OFF && day > out->last &&
                      day <= out->last + WEEKS_AFTER * DAYS_OF_WEEK;
        if (counts && (!latest || out->last > latest->last))
            latest = out;
    }
    return latest;
}

static void look_at_lift(struct run *run, const struct rule *rule, const struct window *window, const struct out *out,
                         const struct item *item)
{
    milli volume = item->exercise->kind == EXERCISE_STRENGTH ? relative_volume(window, item) : 0;
    if (volume <= MOST_OF_A_LIFT)
        return;
    struct about about = {.window = window,
                          .severity = rule_severity(rule),
                          .span = item->runs[0].span,
                          .weight = volume,
                          .figure = volume};
    struct finding *finding = run_report(
        run, rule, &about, "%s: %s asks for %s of sets x reps x share of the best, in the %s week after %d days off; at most %s",
        window->athlete->name.shown, item_words(run, item), counted_amount(run->arena, COUNTED_SETS, volume),
        NAMES[(window->first - out->last - 1) / DAYS_OF_WEEK], out->last - out->first + 1, counted_amount(run->arena, COUNTED_SETS, MOST_OF_A_LIFT));
    if (!finding)
        return;
    diag_note(run->diag, finding, out->span, "the time off");
    diag_remark(run->diag, finding, "source: Caterisano et al. 2019, Strength Cond J 41(3):1-23, from memory");
}

void check_time_off_lifting(struct run *run, const struct rule *rule, const struct window *window)
{
    const struct occasion *occasion = window->occasions[0];
    const struct out *out = time_off_before(window->athlete, window->first);
    for (size_t b = 0; out && b < occasion->block_count; b++)
        for (size_t i = 0; i < occasion->blocks[b].item_count; i++)
            look_at_lift(run, rule, window, out, &occasion->blocks[b].items[i]);
}
