/* The load of a week against the weeks before it, a session against the time it promised, and a limit that is looser
 * than the one it replaces. */
#include <string.h>

#include "rules/checks.h"
#include "limits/heading.h"
#include "model/programme.h"
#include "rules/suggest.h"
#include "rules/run.h"

/* --- load rise --- */

enum { WEEKS_BACK = 4 };

/* The load that week INDEX may rise from. */
static milli best_before(const struct timeline *timeline, size_t index)
{
    const struct tally *before[WEEKS_BACK];
    size_t count = 0;
    for (; count < WEEKS_BACK && count < index; count++)
        before[count] = window_tally(&timeline->weeks[index - count - 1]);
    return tally_highest_done(before, count);
}

/* A week after a light one is compared with the highest of the last four, so that coming back from a deload is not a
 * rise. */
void check_load_rise(struct run *run, const struct rule *rule, const struct window *window)
{
    size_t index = (size_t)(window->first - window->timeline->weeks[0].first) / 7;
    for (size_t i = 0; i < window->limit_count; i++) {
        const struct layered *layered = window->limits[i].layered;
        if (layered->counted != COUNTED_LOAD_RISE || layered->limit->bound != LIMIT_AT_MOST)
            continue;
        milli before = best_before(window->timeline, index);
        milli now = tally_load(window_tally(window)).high;
        if (before == 0)
            continue;
        milli past = (now - before) * 100000 - layered->limit->value * before;
        run_margin(run, window, layered->limit, COUNTED_LOAD_RISE, SIDE_ALL,
                   past > 0 ? -((past + before - 1) / before) : -past / before);
        if (past <= 0)
            continue;
        struct about about = {.window = window,
                              .severity = limit_severity(layered->limit, true),
                              .span = window->limits[i].camp->name.span,
                              .subject = layered->limit,
                              .subject_number = window->first,
                              .weight = (now - before) * 100000 / before,
                              .figure = (now - before) * 100000 / before};
        struct finding *finding = run_report(
            run, rule, &about, "%s: %s in %s, %s over the highest of the last four weeks; at most %s",
            window->athlete->name.shown, counted_figure(run->arena, COUNTED_SESSION_LOAD, now),
            window_words(run, window), counted_amount(run->arena, COUNTED_LOAD_RISE, about.weight),
            counted_amount(run->arena, COUNTED_LOAD_RISE, layered->limit->value));
        if (!finding)
            continue;
        diag_remark(run->diag, finding, "the highest of the last four weeks is %s",
                    counted_amount(run->arena, COUNTED_SESSION_LOAD, before));
        run_note_lines(run, finding, window, COUNTED_SESSION_LOAD, SIDE_ALL, &finding->span);
        int64_t uncounted = tally_load_uncounted(window_tally(window));
        if (uncounted > 0)
            diag_remark(run->diag, finding, "and %lld min without an effort for the whole session",
                        (long long)((uncounted + 59) / 60));
        run_note_limit(run, finding, layered->limit);
        struct suggestion_aim aim = {COUNTED_SESSION_LOAD, SIDE_ALL,
                                     before + layered->limit->value * before / 100000, window->first,
                                     window->last};
        const char *suggestion = window_tally(window)->logged ? NULL : suggest_over(run, window, &aim);
        if (suggestion)
            diag_help(run->diag, finding, "%s", suggestion);
    }
}

/* --- a session's own promise --- */

/* `under 70 min`, with 5 % let pass. Reported once for a session, at its longest. */
void check_overtime(struct run *run, const struct rule *rule, const struct window *window)
{
    const struct occasion *occasion = window->occasions[0];
    const struct session *session = occasion->session;
    if (!session || session->under <= 0 ||
        (int64_t)occasion->seconds * 20 <= (int64_t)session->under * 21)
        return;
    struct about about = {.window = window,
                          .severity = rule_severity(rule),
                          .span = session->name.span,
                          .weight = occasion->seconds,
                          .figure = (milli)occasion->seconds * 1000 / 60};
    struct finding *finding = run_report(
        run, rule, &about, "%s takes %s on %s, and should stay under %s", session->name.shown,
        counted_amount(run->arena, COUNTED_TIME, (milli)occasion->seconds * 1000),
        date_words(run, occasion->date),
        counted_amount(run->arena, COUNTED_TIME, (milli)session->under * 1000));
    if (!finding)
        return;
    struct span largest;
    run_note_lines(run, finding, window, COUNTED_TIME, SIDE_ALL, &largest);
    struct suggestion_aim aim = {COUNTED_TIME, SIDE_ALL, (milli)session->under * 1000, window->first,
                                 window->last};
    const char *suggestion = suggest_over(run, window, &aim);
    if (suggestion)
        diag_help(run->diag, finding, "%s", suggestion);
}

/* --- limits that loosen, or never hold --- */

static bool has_phase(const struct camp *camp, const char *folded)
{
    for (size_t i = 0; i < camp->phase_count; i++)
        if (strcmp(camp->phases[i].name.folded, folded) == 0)
            return true;
    for (size_t i = 0; i < camp->left_phase_count; i++)
        if (strcmp(camp->left_phases[i].folded, folded) == 0)
            return true;
    return false;
}

/* Phases that limits name and no camp has, each once. */
struct strays {
    const struct limit **items;
    size_t count, capacity;
};

static bool is_known(const struct strays *strays, const struct limit *limit)
{
    for (size_t i = 0; i < strays->count; i++)
        if (memcmp(&strays->items[i]->heading, &limit->heading, sizeof limit->heading) == 0)
            return true;
    return false;
}

/* The shelf's own limits name phases that a camp need not have. */
static bool is_stray(const struct run *run, const struct limit *limit)
{
    const struct programme *programme = run->programme;
    bool met = !limit->phase || programme->sources->items[limit->span.file].shelf;
    for (size_t i = 0; !met && i < programme->camp_count; i++)
        met = has_phase(programme->camps[i], limit->phase);
    return !met;
}

void check_never_holds(struct run *run, const struct rule *rule, const struct window *window)
{
    struct strays strays = {0};
    for (size_t c = 0; c < run->programme->camp_count; c++)
        for (size_t i = 0; i < run->tables[c].count; i++) {
            const struct limit *limit = run->tables[c].items[i].limit;
            if (!is_stray(run, limit) || is_known(&strays, limit))
                continue;
            strays.items = arena_grow(run->arena, strays.items, strays.count, &strays.capacity,
                                      sizeof *strays.items);
            strays.items[strays.count++] = limit;
            struct about about = {
                .window = window, .severity = rule_severity(rule), .span = limit->heading};
            struct finding *finding = run_report(
                run, rule, &about,
                "`%s` is not a phase of any camp, so what is below it never applies", limit->phase);
            const char *near = heading_nearest(run->arena, run->programme, limit->phase);
            if (finding && near)
                diag_fix(run->diag, finding, limit->heading, near);
        }
}

static bool same_holders(const struct limit *a, const struct limit *b)
{
    bool same_phase = a->phase && b->phase ? strcmp(a->phase, b->phase) == 0 : a->phase == b->phase;
    return same_phase && a->level == b->level && a->athlete == b->athlete &&
           a->under_age == b->under_age && a->stretch == b->stretch &&
           a->stretch_days == b->stretch_days;
}

static bool looser(const struct limit *near, const struct limit *far)
{
    if (near->force > far->force)
        return true;
    switch (near->bound) {
    case LIMIT_AT_MOST:
        return near->value > far->value;
    case LIMIT_AT_LEAST:
        return near->value < far->value;
    case LIMIT_WITHIN:
        break;
    }
    return near->value < far->value || near->top > far->top;
}

/* "24", and how grave it is to break it if the other limit differs: "24, info". */
static const char *figure_words(struct run *run, const struct layered *layered,
                                const struct limit *other)
{
    const struct limit *limit = layered->limit;
    const char *figure = counted_amount(run->arena, layered->counted, limit->value);
    return limit->force == other->force
               ? figure
               : arena_printf(run->arena, "%s, %s", figure, forces.names[limit->force]);
}

/* Whether SET is based on BASE, directly or not. */
static bool takes_over(const struct limits *set, const struct limits *base)
{
    for (set = set->base; set; set = set->base)
        if (set == base)
            return true;
    return false;
}

static milli most_of(const struct limit *limit)
{
    return limit->bound == LIMIT_WITHIN ? limit->top : limit->value;
}

/* Whether ITSELF would apply to those of whom the coach says NAMED. */
static bool is_met(const struct limit_table *table, const struct layered *named, const struct layered *itself)
{
    const struct athlete *athlete = named->limit->athlete;
    if (athlete && !(limit_for_whom(athlete, table->camp->first) & itself->for_whom))
        return false;
    return itself->for_whom && limit_is_said_of_them(named, itself);
}

/* Whether one of those that apply by themselves is reported instead of ITSELF: a tighter one, or the nearer of two
 * equals. */
static bool is_outdone(const struct limit_table *table, const struct layered *named, const struct layered *itself)
{
    for (size_t i = 0; i < table->count; i++)
        if (table->items[i].group == itself->group && is_met(table, named, &table->items[i]) &&
            (limit_is_tighter(table->items[i].limit, itself->limit) ||
             (table->items[i].layer < itself->layer && !limit_is_tighter(itself->limit, table->items[i].limit))))
            return true;
    return false;
}

/* What the coach allows the young or the novices beyond what applies to them by itself. */
static void check_loosened_for(struct run *run, const struct rule *rule, const struct window *window,
                               const struct limit_table *table, const struct layered *itself)
{
    for (size_t i = 0; itself->for_whom && i < table->count; i++) {
        const struct layered *named = &table->items[i];
        bool about = named->named && named->counted == itself->counted && named->against == COUNTED_NONE &&
                     named->limit->a_side == itself->limit->a_side && named->limit->bound != LIMIT_AT_LEAST;
        if (!about || !is_met(table, named, itself) || is_outdone(table, named, itself) ||
            (most_of(named->limit) <= most_of(itself->limit) && named->limit->force <= itself->limit->force))
            continue;
        struct about mention = {.window = window,
                                .severity = rule_severity(rule),
                                .span = named->limit->span,
                                .subject = itself->limit};
        struct finding *finding =
            run_report(run, rule, &mention, "%s sets %s at %s; %s, which applies by itself, has "
                                            "%s", named->set->name.shown,
                       counted_name(run->arena, named->counted),
                       counted_amount(run->arena, named->counted, most_of(named->limit)), itself->set->name.shown,
                       figure_words(run, itself, named->limit));
        if (finding)
            run_note_limit(run, finding, itself->limit);
    }
}

/* A set may allow more than the one that it is based on; whoever reads the plan is shown both. Two `limits` lines of a
 * camp were put one above the other on purpose. */
void check_loosened(struct run *run, const struct rule *rule, const struct window *window)
{
    for (size_t c = 0; c < run->programme->camp_count; c++) {
        const struct limit_table *table = &run->tables[c];
        for (size_t i = 0; i < table->count; i++)
            check_loosened_for(run, rule, window, table, &table->items[i]);
        for (size_t i = 0; i < table->count; i++)
            for (size_t k = i + 1;
                 k < table->count && table->items[k].group == table->items[i].group; k++) {
                const struct layered *near = &table->items[i], *far = &table->items[k];
                if (far->for_whom || !takes_over(near->set, far->set) || !same_holders(near->limit, far->limit) ||
                    !looser(near->limit, far->limit))
                    continue;
                struct about about = {.window = window,
                                      .severity = rule_severity(rule),
                                      .span = near->limit->span,
                                      .subject = far->limit};
                struct finding *finding = run_report(
                    run, rule, &about, "%s sets %s at %s; %s has %s", near->set->name.shown,
                    counted_name(run->arena, near->counted), figure_words(run, near, far->limit),
                    far->set->name.shown, figure_words(run, far, near->limit));
                if (finding)
                    run_note_limit(run, finding, far->limit);
                break;
            }
    }
}
