/* What cannot be meant as written. */
#include <string.h>

#include "figures/dates.h"
#include "figures/effort.h"
#include "measure/demand.h"
#include "model/programme.h"
#include "wording/wording.h"
#include "rules/checks.h"
#include "rules/settings.h"

typedef void (*look_at)(struct run *run, const struct rule *rule, const struct window *window,
                        const struct block *block, const struct item *item,
                        const struct set_run *sets);

/* Calls LOOK for every run of every item of an occasion. */
static void each_run(struct run *run, const struct rule *rule, const struct window *window,
                     look_at look)
{
    const struct occasion *occasion = window->occasions[0];
    for (size_t b = 0; b < occasion->block_count; b++)
        for (size_t i = 0; i < occasion->blocks[b].item_count; i++) {
            const struct item *item = &occasion->blocks[b].items[i];
            for (size_t r = 0; r < item->run_count; r++)
                look(run, rule, window, &occasion->blocks[b], item, &item->runs[r]);
        }
}

/* --- repetitions against the load --- */

enum { REPS_LET_PASS = 3000 };

/* Individuals vary widely, so more than three above the table is a warning, and fewer are shown only when asked for.
 * Clusters rest inside the set, and their repetitions do not add up to one. */
static void look_at_reps(struct run *run, const struct rule *rule, const struct window *window,
                         const struct block *block, const struct item *item,
                         const struct set_run *sets)
{
    if (block->kind == BLOCK_CLUSTER || item->exercise->kind != EXERCISE_STRENGTH)
        return;
    milli percent = run_percent(window->athlete, item->exercise, sets, window->first).low;
    milli reps = run_reps(sets).low;
    int64_t possible;
    if (percent <= 0 || reps <= 0 || effort_reps_at(percent, &possible) != EFFORT_REPS_KNOWN || reps <= possible)
        return;
    struct about about = {.window = window,
                          .severity =
                              reps - possible > REPS_LET_PASS ? rule_severity(rule) : SEVERITY_INFO,
                          .span = sets->span,
                          .weight = reps - possible};
    struct finding *finding =
        run_report(run, rule, &about, "%s: %s asks for %s reps at %s; about %s can be done",
                   window->athlete->name.shown, item_words(run, item),
                   counted_amount(run->arena, COUNTED_SETS, reps),
                   counted_amount(run->arena, COUNTED_INTENSITY, percent),
                   counted_amount(run->arena, COUNTED_SETS, possible / 1000 * 1000));
    if (!finding)
        return;
    diag_remark(run->diag, finding,
                "source: Haff and Triplett 2016, NSCA Essentials, 4th ed., ch. 17, quoted from "
                "memory; people vary widely");
    if (sets->load.kind == LOAD_MASS) {
        const struct best *best =
            sets->load.best ? sets->load.best : athlete_best(window->athlete, item->exercise, window->first);
        diag_note(run->diag, finding, best->span, "of this best");
    }
}

void check_reps_exceed(struct run *run, const struct rule *rule, const struct window *window)
{
    each_run(run, rule, window, look_at_reps);
}

/* --- tempo --- */

static void look_at_tempo(struct run *run, const struct rule *rule, const struct window *window,
                          const struct block *block, const struct item *item,
                          const struct set_run *sets)
{
    (void)block;
    if (!sets->tempo.given || !item->exercise->ballistic)
        return;
    struct about about = {.window = window, .severity = rule_severity(rule), .span = item->span};
    struct finding *finding =
        run_report(run, rule, &about, "%s is done as fast as possible, but has a tempo",
                   item->exercise->name.shown);
    if (finding)
        diag_help(run->diag, finding, "leave the tempo out");
}

void check_tempo_ballistic(struct run *run, const struct rule *rule, const struct window *window)
{
    each_run(run, rule, window, look_at_tempo);
}

/* --- kilograms --- */

static void look_at_kilograms(struct run *run, const struct rule *rule, const struct window *window,
                              const struct block *block, const struct item *item,
                              const struct set_run *sets)
{
    (void)block;
    if (sets->load.kind != LOAD_MASS || item->exercise->weigh != WEIGH_UNSAID)
        return;
    struct about about = {.window = window, .severity = rule_severity(rule), .span = sets->span};
    struct finding *finding =
        run_report(run, rule, &about,
                   "%s does not say what its kilograms mean: one hand or both, the plates alone or with the bar",
                   item->exercise->name.shown);
    if (!finding)
        return;
    diag_note(run->diag, finding, item->exercise->name.span, "the exercise is declared here");
    diag_help(run->diag, finding, "add a line `weigh one hand`, or whichever it is, to the exercise");
}

void check_kilograms_open(struct run *run, const struct rule *rule, const struct window *window)
{
    each_run(run, rule, window, look_at_kilograms);
}

/* --- the age of a best --- */

enum { DAYS_OF_WEEK = 7, OLD_AND_HEAVY = 85000 };

struct old_best {
    const struct best *best;
    const struct item *item;
    const struct athlete *athlete;
    int day;
    milli percent; /* that is asked for */
    struct setting setting;
};

static void say_old_best(struct run *run, struct finding *finding, const void *what)
{
    const struct old_best *old = what;
    run_say(run, finding, "%s: the best in %s is %d weeks old on %s, when %s of it is asked for",
            old->athlete->name.shown, old->best->exercise->name.shown,
            (old->day - old->best->date) / DAYS_OF_WEEK, date_words(run, old->day),
            counted_amount(run->arena, COUNTED_INTENSITY, old->percent));
    diag_note(run->diag, finding, old->item->span, "asked for here");
    run_note_setting(run, finding, &old->setting);
}

static void look_at_best(struct run *run, const struct rule *rule, const struct window *window,
                         const struct block *block, const struct item *item,
                         const struct set_run *sets)
{
    (void)block;
    const struct best *best = sets->load.best;
    if (!best || !best->date)
        return;
    struct setting setting = run_setting(run, window, COUNTED_AGE_OF_BEST);
    int days = window->first - best->date;
    run_margin(run, window, setting.limit, COUNTED_AGE_OF_BEST, SIDE_ALL,
               (setting.value * DAYS_OF_WEEK - (milli)days * 1000) / DAYS_OF_WEEK);
    if ((milli)days * 1000 <= setting.value * DAYS_OF_WEEK)
        return;
    bool heavy = sets->load.percent.high >= OLD_AND_HEAVY;
    bool informs = setting.limit && setting.limit->force == FORCE_INFO;
    bool warn = heavy && !informs && (milli)days * 1000 > setting.top * DAYS_OF_WEEK;
    struct about about = {.window = window,
                          .severity = warn ? SEVERITY_WARNING : setting.severity,
                          .span = best->span,
                          .subject = window->athlete,
                          .weight = warn ? 1000000 + days : days};
    if (!run_meet(run, rule, &about))
        return;
    /* It gets worse each day, so only the last is worth reporting. */
    struct old_best old = {best, item, window->athlete, window->first, sets->load.percent.high, setting};
    run_say_last(run, say_old_best, &old, sizeof old);
}

void check_best_old(struct run *run, const struct rule *rule, const struct window *window)
{
    each_run(run, rule, window, look_at_best);
}

/* --- sessions and waivers that do nothing --- */

void check_never_placed(struct run *run, const struct rule *rule, const struct window *window)
{
    for (size_t i = 0; i < run->programme->session_count; i++) {
        const struct session *session = run->programme->sessions[i];
        if (session->placed > 0 || session->is_base)
            continue;
        struct about about = {
            .window = window, .severity = rule_severity(rule), .span = session->name.span};
        run_report(run, rule, &about, "%s is in no week of any camp", session->name.shown);
    }
}

static bool was_reported(const struct diag *diag, const char *name)
{
    for (size_t i = 0; i < diag->count; i++)
        if (strcmp(diagnostic_name(diag->items[i]->diagnostic), name) == 0)
            return true;
    return false;
}

void check_waiver_unknown(struct run *run, const struct rule *rule, const struct window *window)
{
    for (size_t i = 0; i < run->programme->waiver_count; i++) {
        const struct waiver *waiver = &run->programme->waivers[i];
        const struct rule *waived = rule_find(waiver->check);
        struct about about = {.window = window, .severity = rule_severity(rule), .span = waiver->span};
        if (!waived && was_reported(run->diag, waiver->check)) {
            struct finding *finding =
                run_report(run, rule, &about,
                           "%s cannot be waived: it says that the plan cannot be done as it "
                           "is written",
                           waiver->check);
            if (finding)
                diag_help(run->diag, finding, "correct what it points at, and leave this line out");
        } else if (!waived) {
            struct finding *finding =
                run_report(run, rule, &about, "there is no check %s", waiver->check);
            const char *near = rule_nearest(waiver->check);
            if (finding && near)
                diag_help(run->diag, finding, "`waive %s`", near);
        } else if (waived->marks & FIRM) {
            struct finding *finding =
                run_report(run, rule, &about, "%s cannot be waived", waiver->check);
            if (finding && waived->marks & HEALTH)
                diag_set_neutral(finding, "");
        }
    }
}

/* A waiver whose figure is passed keeps nothing quiet, but that is no reason to leave it out. */
static void report_passed(struct run *run, const struct rule *rule, const struct window *window,
                          const struct waiver *waiver, const struct waived *waived)
{
    struct about about = {.window = window, .severity = rule_severity(rule), .span = waiver->span};
    if (waived->figureless) {
        struct finding *finding = run_report(run, rule, &about,
                                             "this waives %s up to %s, but its message has no figure",
                                             waiver->check, wording_number(run->arena, waiver->cap));
        if (finding)
            diag_help(run->diag, finding, "leave out `up to` and the figure");
        return;
    }
    const char *bound = waived->worst > waiver->cap ? "up to" : "down to";
    struct finding *finding = run_report(run, rule, &about, "this waives %s %s %s, but it comes to %s: nothing is "
                                                            "waived",
                                         waiver->check, bound, wording_number(run->arena, waiver->cap),
                                         wording_number(run->arena, waived->worst));
    if (finding)
        diag_help(run->diag, finding, "correct what goes past the figure");
}

/* Is something left out of the plan that WAIVER may be for? Then it may still be needed. */
static bool may_be_needed(const struct run *run, const struct waiver *waiver)
{
    for (size_t i = 0; i < run->programme->left_out_count; i++) {
        const struct occasion *occasion = &run->programme->left_out[i].occasion;
        if (occasion->camp == waiver->camp && occasion->date >= date_monday(waiver->first) &&
            date_monday(occasion->date) <= waiver->last)
            return true;
    }
    return false;
}

/* Runs last, when every other check has asked for its waivers. */
void check_waiver_unused(struct run *run, const struct rule *rule, const struct window *window)
{
    for (size_t i = 0; i < run->programme->waiver_count; i++) {
        const struct waiver *waiver = &run->programme->waivers[i];
        const struct rule *waived = rule_find(waiver->check);
        if (run->waived[i].used || !waived || waived->marks & FIRM)
            continue;
        if (run->waived[i].passed) {
            report_passed(run, rule, window, waiver, &run->waived[i]);
            continue;
        }
        if (may_be_needed(run, waiver))
            continue;
        struct about about = {.window = window, .severity = rule_severity(rule), .span = waiver->span};
        struct finding *finding = run_report(
            run, rule, &about, "this waives %s, but nothing here needs it", waiver->check);
        if (finding)
            diag_help(run->diag, finding, "leave the line out");
    }
}
