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

/* Days out without a gap: lines that meet are one time off. OUT is the line that ends it. */
struct time_off {
    const struct out *out;
    int first, back; /* its first day, and the one after its last */
};

static int days_off(const struct time_off *off)
{
    return off->back - off->first;
}

static struct time_off time_off_until(const struct athlete *athlete, const struct out *out)
{
    struct time_off off = {out, out->first, out->last + 1};
    for (bool earlier = true; earlier;) {
        earlier = false;
        for (size_t i = 0; i < athlete->out_count; i++) {
            const struct out *other = &athlete->outs[i];
            if (other->first >= off.first || other->last + 1 < off.first)
                continue;
            off.first = other->first;
            earlier = true;
        }
    }
    return off;
}

/* The latest time off after which the athlete was back by the end of WINDOW, and no more than MOST days before it begins.
 * False: none. */
static bool find_time_off(const struct window *window, int most, struct time_off *found)
{
    const struct athlete *athlete = window->athlete;
    *found = (struct time_off){0};
    for (size_t i = 0; i < athlete->out_count; i++) {
        int back = athlete->outs[i].last + 1;
        if (back > window->last || window->first - back > most || back < found->back)
            continue;
        struct time_off off = time_off_until(athlete, &athlete->outs[i]);
        if (days_off(&off) >= LEAST_OFF)
            *found = off;
    }
    return found->out;
}

static milli highest_before(const struct window *window, const struct time_off *off, enum counted counted)
{
    milli highest = 0;
    for (size_t i = 0; i < window->timeline->week_count; i++) {
        const struct window *week = &window->timeline->weeks[i];
        if (week->last < off->first && week->first >= off->first - (WEEKS_BEFORE + 1) * DAYS_OF_WEEK + 1 &&
            window_tally(week)->sum[counted].high > highest)
            highest = window_tally(week)->sum[counted].high;
    }
    return highest;
}

/* Without going over what a plan's figures may come to. */
static milli share_of(milli figure, milli share)
{
    return figure / 1000 * share + figure % 1000 * share / 1000;
}

static void look_at(struct run *run, const struct rule *rule, const struct window *window, const struct time_off *off,
                    const struct volume *volume)
{
    /* The week in which the athlete comes back is the first. */
    int week = (window->first - off->back + DAYS_OF_WEEK - 1) / DAYS_OF_WEEK;
    milli before = highest_before(window, off, volume->counted), now = window_tally(window)->sum[volume->counted].high;
    milli most = share_of(before, SHARES[week]);
    if (before == 0 || now <= most)
        return;
    struct about about = {.window = window,
                          .severity = rule_severity(rule),
                          .span = off->out->span,
                          .subject = window->athlete,
                          .subject_number = (int64_t)window->first * COUNTED_COUNT + volume->counted,
                          .figure = now};
    struct finding *finding = run_report(
        run, rule, &about, "%s: %s in %s, the %s week after %d days off; at most %s, %lld %% of %s",
        window->athlete->name.shown, run_figure(run, window, volume->counted, now), window_words(run, window), NAMES[week],
        days_off(off), run_figure(run, window, volume->counted, most), (long long)SHARES[week] / 10,
        run_figure(run, window, volume->counted, before));
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
    struct time_off off;
    bool after = find_time_off(window, (WEEKS_AFTER - 1) * DAYS_OF_WEEK, &off);
    for (size_t i = 0; after && i < sizeof VOLUMES / sizeof *VOLUMES; i++)
        look_at(run, rule, window, &off, &VOLUMES[i]);
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

static void look_at_lift(struct run *run, const struct rule *rule, const struct window *window, const struct time_off *off,
                         const struct item *item)
{
    milli volume = relative_volume(window, item);
    if (item->exercise->kind != EXERCISE_STRENGTH || volume <= MOST_OF_A_LIFT)
        return;
    struct about about = {.window = window,
                          .severity = rule_severity(rule),
                          .span = item->runs[0].span,
                          .weight = volume,
                          .figure = volume};
    struct finding *finding = run_report(
        run, rule, &about, "%s: %s asks for %s of sets x reps x share of the best, in the %s week after %d days off; at most %s",
        window->athlete->name.shown, item_words(run, item), counted_amount(run->arena, COUNTED_SETS, volume),
        NAMES[(window->first - off->back) / DAYS_OF_WEEK], days_off(off),
        counted_amount(run->arena, COUNTED_SETS, MOST_OF_A_LIFT));
    if (!finding)
        return;
    diag_note(run->diag, finding, off->out->span, "the time off");
    diag_remark(run->diag, finding, "source: Caterisano et al. 2019, Strength Cond J 41(3):1-23, from memory");
}

void check_time_off_lifting(struct run *run, const struct rule *rule, const struct window *window)
{
    const struct occasion *occasion = window->occasions[0];
    struct time_off off;
    bool after = find_time_off(window, WEEKS_AFTER * DAYS_OF_WEEK - 1, &off);
    for (size_t b = 0; after && b < occasion->block_count; b++)
        for (size_t i = 0; i < occasion->blocks[b].item_count; i++)
            look_at_lift(run, rule, window, &off, &occasion->blocks[b].items[i]);
}
