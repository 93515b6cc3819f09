/* What one athlete must not or should not do: restrictions, and the first weeks of an exercise.
 *
 * The plan gives the restriction and never its reason, and so do these messages. */
#include "measure/avoid.h"
#include "measure/demand.h"
#include "measure/person.h"
#include "model/programme.h"
#include "rules/checks.h"
#include "rules/settings.h"

/* --- restrictions --- */

/* Is DAY to come, and the restriction expected to be over by then? It may be ended in time, so that is planned for and
 * warned of; when the day has come, or a sheet of it is to be printed, nobody's hope lifts it. */
static bool may_be_over(const struct run *run, const struct avoid *avoid, int day)
{
    return avoid->expected && day > avoid->expected && day > run->programme->today && !run->barred;
}

/* ASKED, at SPAN, is an exercise or an activity. */
static struct finding *report_broken(struct run *run, const struct rule *rule, const struct window *window,
                                     const struct avoid *avoid, const char *asked, struct span span)
{
    bool over = may_be_over(run, avoid, window->first);
    struct about about = {
        .window = window, .severity = over ? SEVERITY_WARNING : rule_severity(rule), .span = span, .subject = avoid};
    struct finding *finding =
        run_report(run, rule, &about, "%s has to avoid %s, but %s asks for it on %s",
                   window->athlete->name.shown, avoid->shown, asked, date_words(run, window->first));
    if (!finding)
        return NULL;
    diag_note(run->diag, finding, avoid->span, "in force until somebody ends it, on a date");
    if (avoid->expected && window->first > avoid->expected)
        diag_remark(run->diag, finding, "it is expected to last until %s, but that lifts nothing: only a line `ended "
                                        "by` does",
                    date_words(run, avoid->expected));
    return finding;
}

static void report_item(struct run *run, const struct rule *rule, const struct window *window,
                        const struct avoid *avoid, const struct item *item)
{
    struct finding *finding = report_broken(run, rule, window, avoid, item_words(run, item), item->span);
    if (!finding)
        return;
    const char *instead = avoid->instead ? avoid->instead->name.shown : NULL;
    if (instead)
        diag_help(run->diag, finding, "below the line, write `for %s, %s`", window->athlete->name.shown,
                  instead);
    else
        diag_help(run->diag, finding, "below the line, write `for %s, ` and what takes its place",
                  window->athlete->name.shown);
}

static void report_activity(struct run *run, const struct rule *rule, const struct window *window,
                            const struct avoid *avoid, const struct occasion *occasion)
{
    struct finding *finding =
        report_broken(run, rule, window, avoid, occasion->activity->name.shown, occasion->span);
    if (finding)
        diag_help(run->diag, finding, "below the line, write `absent %s`, or place other work for this athlete",
                  window->athlete->name.shown);
}

void check_avoid_broken(struct run *run, const struct rule *rule, const struct window *window)
{
    const struct athlete *athlete = window->athlete;
    const struct occasion *occasion = window->occasions[0];
    for (size_t a = 0; a < athlete->avoid_count; a++) {
        const struct avoid *avoid = &athlete->avoids[a];
        if (!avoid_stands(avoid, occasion->date))
            continue;
        for (size_t b = 0; b < occasion->block_count; b++)
            for (size_t i = 0; i < occasion->blocks[b].item_count; i++)
                if (avoid_bars_item(avoid, &occasion->blocks[b].items[i], athlete->stance))
                    report_item(run, rule, window, avoid, &occasion->blocks[b].items[i]);
        if (occasion->activity && avoid_bars_activity(avoid, occasion->activity))
            report_activity(run, rule, window, avoid, occasion);
    }
}

void check_review_due(struct run *run, const struct rule *rule, const struct window *window)
{
    const struct athlete *athlete = window->athlete;
    int today = run->programme->today;
    for (size_t a = 0; a < athlete->avoid_count; a++) {
        const struct avoid *avoid = &athlete->avoids[a];
        if (!avoid->review || !today || today < avoid->review || !avoid_stands(avoid, today))
            continue;
        struct about about = {.window = window, .severity = rule_severity(rule), .span = avoid->span};
        struct finding *finding =
            run_report(run, rule, &about, "%s: the review of `avoid %s` was due on %s",
                       athlete->name.shown, avoid->shown, date_words(run, avoid->review));
        if (finding)
            diag_remark(run->diag, finding,
                        "it stays in force until the review sets a new date or ends it");
    }
}

/* --- the first weeks of an exercise --- */

static bool is_training(const struct exercise *exercise)
{
    return exercise->kind == EXERCISE_STRENGTH || exercise->kind == EXERCISE_POWER ||
           exercise->kind == EXERCISE_HOLD || exercise->kind == EXERCISE_CONDITIONING;
}

static void look_at_effort(struct run *run, const struct rule *rule, const struct window *window,
                           const struct item *item, const struct setting *setting)
{
    for (size_t r = 0; r < item->run_count; r++) {
        milli rpe = run_rpe(&item->runs[r]).high;
        if (rpe > 0)
            run_margin(run, window, setting->limit, COUNTED_EFFORT, SIDE_ALL, setting->value - rpe);
        if (rpe <= setting->value)
            continue;
        struct about about = {.window = window,
                              .severity = setting->severity,
                              .span = item->runs[r].span,
                              .subject = window->athlete,
                              .weight = rpe};
        struct finding *finding = run_meet(run, rule, &about);
        if (!finding)
            continue;
        run_say(run, finding, "%s: %s is new on %s and asks for %s, at most %s in its first %d %s",
                window->athlete->name.shown, item_words(run, item),
                date_words(run, window->first), counted_amount(run->arena, COUNTED_EFFORT, rpe),
                counted_amount(run->arena, COUNTED_EFFORT, setting->value), setting->first_weeks,
                setting->first_weeks == 1 ? "week" : "weeks");
        run_note_setting(run, finding, setting);
    }
}

/* For novices, and for whomever a limit on the first weeks names. */
void check_first_weeks_effort(struct run *run, const struct rule *rule, const struct window *window)
{
    const struct occasion *occasion = window->occasions[0];
    struct setting setting = run_setting(run, window, COUNTED_EFFORT);
    if (!setting.limit && athlete_level_on(window->athlete, window->first) != LEVEL_NOVICE)
        return;
    if (setting.first_weeks <= 0)
        return;
    for (size_t b = 0; b < occasion->block_count; b++)
        for (size_t i = 0; i < occasion->blocks[b].item_count; i++) {
            const struct item *item = &occasion->blocks[b].items[i];
            if (is_training(item->exercise) &&
                run_is_new(window, item->exercise, setting.first_weeks))
                look_at_effort(run, rule, window, item, &setting);
        }
}
