/* check_logs.c - what logs say of a plan: a week's monotony and strain, as planned or as it turned out, and what was
 * done of what was planned. They are compared only with limits that a coach has set: none comes with the program. */
#include <string.h>

#include "done/adherence.h"
#include "done/next.h"
#include "done/week_load.h"
#include "measure/limbs.h"
#include "model/athlete.h"
#include "model/exercise.h"
#include "model/occasion.h"
#include "model/season.h"
#include "model/set.h"
#include "rules/checks.h"
#include "rules/run.h"
#include "wording/wording.h"

/* What a limit on COUNTED is compared with: AT_MOST with the high end of what it can be, the rest with the other. */
struct compared {
    enum counted counted;
    struct range at_most, at_least;
    const char *help;
};

static bool is_limited(const struct window *window, enum counted counted)
{
    for (size_t i = 0; i < window->limit_count; i++)
        if (window->limits[i].layered->counted == counted)
            return true;
    return false;
}

static void report(struct run *run, const struct rule *rule, const struct window *window, const struct in_force *in_force,
                   const struct compared *compared, bool over)
{
    const struct limit *limit = in_force->layered->limit;
    milli value = over ? compared->at_most.high : compared->at_least.low;
    milli bound = over && limit->bound == LIMIT_WITHIN ? limit->top : limit->value;
    struct about about = {.window = window,
                          .severity = limit_severity(limit, over),
                          .span = in_force->camp->name.span,
                          .subject = limit,
                          .subject_number = (int64_t)window->first * 2 + over,
                          .weight = over ? value : -value,
                          .figure = value,
                          .floor = !over};
    struct finding *finding =
        run_report(run, rule, &about, "%s: %s in %s, %s %s", window->athlete->name.shown,
                   compared->counted == COUNTED_ADHERENCE
                       ? arena_printf(run->arena, "%s of the sessions done", run_amount(run, window, compared->counted, value))
                       : run_figure(run, window, compared->counted, value),
                   window_words(run, window), over ? "at most" : "at least",
                   run_amount(run, window, compared->counted, bound));
    if (!finding)
        return;
    if (compared->counted != COUNTED_ADHERENCE)
        run_note_lines(run, finding, window, COUNTED_SESSION_LOAD, SIDE_ALL, &finding->span);
    run_note_limit(run, finding, limit);
    diag_help(run->diag, finding, "%s", compared->help);
}

static void compare(struct run *run, const struct rule *rule, const struct window *window, const struct compared *compared)
{
    for (size_t i = 0; i < window->limit_count; i++) {
        const struct in_force *in_force = &window->limits[i];
        const struct limit *limit = in_force->layered->limit;
        if (in_force->layered->counted != compared->counted)
            continue;
        milli top = limit->bound == LIMIT_WITHIN ? limit->top : limit->value;
        milli to_top = top - compared->at_most.high, to_bottom = compared->at_least.low - limit->value;
        bool has_top = limit->bound != LIMIT_AT_LEAST, has_bottom = limit->bound != LIMIT_AT_MOST;
        run_margin(run, window, limit, compared->counted, SIDE_ALL,
                   !has_bottom || (has_top && to_top < to_bottom) ? to_top : to_bottom);
        if (has_top && to_top < 0)
            report(run, rule, window, in_force, compared, true);
        if (has_bottom && to_bottom < 0)
            report(run, rule, window, in_force, compared, false);
    }
}

/* A week with logs is taken as it turned out, and what has none as planned; one whose load is not all known is not
 * compared. */
static bool read_week(const struct window *window, struct week_load *week)
{
    *week = week_load_from(window->occasions, window->count, window->first, LOAD_AS_DONE);
    return week->counted && !week->even;
}

void check_monotony(struct run *run, const struct rule *rule, const struct window *window)
{
    struct week_load week;
    if (is_limited(window, COUNTED_MONOTONY) && read_week(window, &week))
        compare(run, rule, window,
                &(struct compared){COUNTED_MONOTONY, week.monotony, week.monotony,
                                   "make hard and easy days differ more: ease the light days, or move work from "
                                   "them to a hard one"});
}

void check_strain(struct run *run, const struct rule *rule, const struct window *window)
{
    struct week_load week;
    if (is_limited(window, COUNTED_STRAIN) && read_week(window, &week))
        compare(run, rule, window,
                &(struct compared){COUNTED_STRAIN, week.strain, week.strain,
                                   "shorten or ease the sessions listed, or make hard and easy days differ more"});
}

/* What may be left out is asked of nobody. */
void check_adherence(struct run *run, const struct rule *rule, const struct window *window)
{
    if (!is_limited(window, COUNTED_ADHERENCE))
        return;
    struct adherence adherence = adherence_of(window->occasions, window->count,
                                              adherence_last(run->programme, window->athlete));
    struct range share;
    if (!kept_share(&adherence.of[ADHERENCE_SESSIONS], &share))
        return;
    struct range asked = {share.high, share.high};
    compare(run, rule, window,
            &(struct compared){COUNTED_ADHERENCE, asked, asked,
                               "ask why, and plan what there is time for; `missed because` in a log keeps the reason"});
}

/* --- what comes next --- */

static const char *load_words(struct run *run, const struct proposal *proposal)
{
    mass load = proposal->load;
    const char *words = wording_mass(run->arena, load, mass_written_in(load), false);
    return proposal->reps ? arena_printf(run->arena, "%d repetitions @ %s", proposal->reps, words) : words;
}

/* For each line, its next day is compared with its rule: later days depend on what is done there. */
void check_next_behind(struct run *run, const struct rule *rule, const struct window *window)
{
    struct proposal *proposals;
    size_t count = next_of(run->arena, run->programme, 0, window->athlete, &proposals);
    for (size_t i = 0; i < count; i++) {
        const struct proposal *one = &proposals[i];
        struct about about = {.window = window, .severity = rule_severity(rule), .span = one->item->span,
                              .other = one->item->next->span, .subject_number = one->occasion->date};
        struct finding *finding =
            run_report(run, rule, &about, "%s: %s is planned with %s, and its rule says %s",
                       occasion_words(run, one->occasion), item_words(run, one->item),
                       wording_load_mass(run->arena, &one->item->runs[0].load, false), load_words(run, one));
        if (!finding)
            continue;
        for (size_t k = 0; k < one->ground_count; k++)
            diag_note(run->diag, finding, one->grounds[k].line ? one->grounds[k].line->span : one->grounds[k].log->span,
                      "%s", one->why);
        diag_note(run->diag, finding, one->item->next->span, "the rule");
        diag_help(run->diag, finding, "`bellsheet next --week %d --apply` writes it into the plan", one->occasion->week);
    }
}

/* --- sums of both sides --- */

static const struct item *planned_at(const struct occasion *occasion, const char *ref)
{
    for (size_t b = 0; b < occasion->block_count; b++)
        for (size_t i = 0; i < occasion->blocks[b].item_count; i++)
            if (strcmp(occasion->blocks[b].items[i].ref, ref) == 0)
                return &occasion->blocks[b].items[i];
    return NULL;
}

/* What SET comes to over both sides or all ways, where its log names none and gives what ITEM's sets come to over all of
 * theirs; else 0. `8` of a planned `4 each stance` is that: eight in each stance, or both together? */
static milli sum_meant(const struct item *item, const struct logged_set *set)
{
    if (!set->part_count || !set->parts[0].assumed_each)
        return 0;
    const struct part *part = &set->parts[0];
    struct set_run logged = {.parts = set->parts, .part_count = set->part_count};
    milli all = run_done(&logged, item->exercise, part->unit, 1).high;
    for (size_t i = 0; i < item->run_count; i++)
        if (run_done(&item->runs[i], item->exercise, part->unit, 1).high == part->amount.high && all > part->amount.high)
            return all;
    return 0;
}

static const char *each_of(const struct exercise *exercise)
{
    switch (exercise->side) {
    case SIDE_EACH_SIDE: return "each side";
    case SIDE_EACH_WAY: return "each way";
    default: return "each stance";
    }
}

static void report_sides(struct run *run, const struct rule *rule, const struct window *window, const struct item *item,
                         const struct logged_set *set, milli all)
{
    struct about about = {.window = window, .severity = rule_severity(rule), .span = set->span};
    const char *each = each_of(item->exercise);
    milli logged = set->parts[0].amount.high;
    const char *figure = wording_number(run->arena, logged);
    struct finding *finding =
        run_report(run, rule, &about, "%s: %s without a side is %s %s, %s in all, and %s in all were planned",
                   item_words(run, item), figure, figure, each, wording_number(run->arena, all), figure);
    if (!finding)
        return;
    diag_note(run->diag, finding, item->span, "planned here");
    diag_help(run->diag, finding, "write `%s %s` if it was done as planned, or `%s %s` if it was that much",
              wording_number(run->arena, logged * logged / all), each, figure, each);
}

void check_log_sides(struct run *run, const struct rule *rule, const struct window *window)
{
    const struct occasion *occasion = window->occasions[0];
    for (size_t i = 0; occasion->log && i < occasion->log->line_count; i++) {
        const struct logged_line *line = &occasion->log->lines[i];
        const struct item *item = line->set_count ? planned_at(occasion, line->ref) : NULL;
        for (size_t s = 0; item && s < line->set_count; s++) {
            milli all = sum_meant(item, &line->sets[s]);
            if (all)
                report_sides(run, rule, window, item, &line->sets[s], all);
        }
    }
}
