/* After time off: for four weeks the volume stays below a share of the highest of the four weeks before it. */
#include "figures/dates.h"
#include "model/athlete.h"
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
            week->tally->sum[counted].high > highest)
            highest = week->tally->sum[counted].high;
    }
    return highest;
}

static void look_at(struct run *run, const struct rule *rule, const struct window *window, const struct out *out, int week,
                    const struct volume *volume)
{
    static const char *const names[WEEKS_AFTER] = {"first", "second", "third", "fourth"};
    milli before = highest_before(window, out, volume->counted), now = window->tally->sum[volume->counted].high;
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
        window->athlete->name.shown, run_figure(run, window, volume->counted, now), window_words(run, window), names[week],
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
