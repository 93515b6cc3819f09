/* What one athlete must not or should not do: restrictions, and the first weeks of an exercise.
 *
 * The plan gives the restriction and never its reason, and so do these messages. */
#include "base/text.h"
#include "measure/avoid.h"
#include "measure/demand.h"
#include "measure/kit.h"
#include "measure/person.h"
#include "measure/criteria.h"
#include "measure/stand_in.h"
#include "model/activity.h"
#include "model/athlete.h"
#include "model/exercise.h"
#include "model/recovery.h"
#include "model/season.h"
#include "rules/checks.h"
#include "rules/settings.h"

/* --- restrictions --- */

/* Is DAY to come, and the restriction expected to be over by then? It may be ended in time, so that is planned for and
 * warned of; when the day has come, or a sheet of it is to be printed, nobody's hope lifts it. */
static bool may_be_over(const struct run *run, const struct avoid *avoid, int day)
{
    return avoid->expected && day > avoid->expected && day > run_today(run) && !run->barred;
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

/* The first that may stand in, each of them tried: the gym has it, and nothing bars it. */
static void help_instead(struct run *run, struct finding *finding, const struct avoid *avoid,
                         const struct stand_in_for *asked)
{
    struct stand_in found[STAND_INS_MOST];
    const char *name = asked->athlete->name.shown;
    size_t count = avoid->instead ? 0 : stand_ins_find(asked, found);
    struct text others = {.arena = run->arena};
    for (size_t i = 1; i < count && i < 3; i++)
        text_addf(&others, "%s%s", i > 1 ? " or " : ", or with ", found[i].exercise->name.shown);
    if (avoid->instead)
        diag_help(run->diag, finding, "below the line, write `for %s, %s`", name, avoid->instead->name.shown);
    else if (count == 0)
        diag_help(run->diag, finding, "below the line, write `for %s, ` and what takes its place", name);
    else
        diag_help(run->diag, finding, "below the line, write `for %s, %s`%s", name, found[0].exercise->name.shown,
                  text_get(&others));
}

static void report_item(struct run *run, const struct rule *rule, const struct window *window,
                        const struct avoid *avoid, const struct item *item)
{
    struct finding *finding = report_broken(run, rule, window, avoid, item_words(run, item), item->span);
    if (!finding)
        return;
    const struct occasion *occasion = window->occasions[0];
    const struct stand_in_for asked = {.programme = run->programme,
                                       .exercise = item->exercise,
                                       .athlete = window->athlete,
                                       .gym = occasion_gym(occasion),
                                       .day = occasion->date,
                                       .same_dose = true};
    help_instead(run, finding, avoid, &asked);
}

static void report_activity(struct run *run, const struct rule *rule, const struct window *window,
                            const struct avoid *avoid, const struct occasion *occasion)
{
    struct finding *finding =
        report_broken(run, rule, window, avoid, occasion->activity->name.shown, occasion->span);
    const char *who = window->athlete->name.shown;
    if (finding && occasion->activity->bout && occasion->camp->athlete_count > 1)
        diag_help(run->diag, finding, "end the restriction first, if whoever set it does, or let %s leave before the bout, with "
                                      "`until` and a date behind the name in the camp's `for`; the others keep theirs", who);
    else if (finding && occasion->activity->bout)
        diag_help(run->diag, finding, "end the restriction first, if whoever set it does, or write `cancelled` or "
                                      "`postponed` below the bout");
    else if (finding)
        diag_help(run->diag, finding, "below the line, write `absent %s`, or place other work for this athlete", who);
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

/* After a fever or chest symptoms a doctor comes first. Who has trained for so long since is past it. */
void check_illness(struct run *run, const struct rule *rule, const struct window *window)
{
    enum { PAST = 28 }; /* days; common practice, no source */
    const struct occasion *occasion = window->occasions[0];
    int day = occasion->date;
    for (size_t i = 0; i < window->athlete->illness_count; i++) {
        const struct illness *illness = &window->athlete->illnesses[i];
        bool rest = occasion->activity && occasion->activity->rest;
        if (rest || day <= illness->last || day > illness->last + PAST || (illness->seen && illness->seen <= day))
            continue;
        struct about about = {.window = window,
                              .severity = rule_severity(rule),
                              .span = illness->span,
                              .subject = illness};
        struct finding *finding =
            run_report(run, rule, &about, "%s: a fever or chest symptoms are entered up to %s, and no doctor is entered before "
                                          "training on %s",
                       window->athlete->name.shown, date_words(run, illness->last), date_words(run, day));
        if (finding)
            diag_help(run->diag, finding, "below the line, write `seen by doctor` with the name and the day; until then "
                                          "make the days `away` longer, in the plan too");
    }
}

static void look_at_stage(struct run *run, const struct rule *rule, const struct window *window,
                          const struct recovery *recovery, const struct recovery_stage *stage)
{
    const struct recovery_step *step = stage->step >= 0 && stage->by ? &recovery->steps[stage->step] : NULL;
    for (size_t i = 0; step && i < step->criterion_count; i++) {
        struct criterion_state state =
            criterion_on(run->arena, window->athlete, recovery, &step->criteria[i], stage->first);
        struct about about = {.window = window,
                              .severity = rule_severity(rule),
                              .span = step->criteria[i].span,
                              .subject = stage};
        if (!state.figure || state.met)
            continue;
        struct finding *finding =
            run_report(run, rule, &about, "%s: step %s of `return %s` is entered as reached on %s, but its condition is not "
                                          "met: %s%s%s",
                       window->athlete->name.shown, step->name, recovery->shown, date_words(run, stage->first),
                       step->criteria[i].words, state.known ? ", and " : " is not tested on both sides", state.words);
        if (finding)
            diag_remark(run->diag, finding, "whoever treats the athlete decides; talk to %s", stage->by);
    }
}

/* A person enters that a step was reached; a figure that speaks against it is reported. */
void check_return_unmet(struct run *run, const struct rule *rule, const struct window *window)
{
    for (size_t i = 0; i < window->athlete->recovery_count; i++) {
        const struct recovery *recovery = window->athlete->recoveries[i];
        for (size_t k = 0; k < recovery->stage_count; k++)
            look_at_stage(run, rule, window, recovery, &recovery->stages[k]);
    }
}

/* "front thigh by holds alone, calf": what nobody can train under the restrictions, though the gym has the kit. */
static const char *regions_left_out(struct run *run, const struct window *window)
{
    struct text out = {.arena = run->arena};
    struct stand_in_for asked = {
        .programme = run->programme, .athlete = window->athlete, .gym = window->athlete->gym, .day = window->first};
    struct stand_in_for freely = asked;
    freely.freely = true;
    for (int region = 0; region < REGION_COUNT; region++) {
        enum left_of left = region_left(&asked, region);
        if (left < region_left(&freely, region))
            text_addf(&out, "%s%s%s", out.length ? ", " : "", regions.names[region],
                      left == LEFT_HOLDS ? " but holds" : "");
    }
    return text_keep(run->arena, &out);
}

/* The coach hears what a week cannot train at all, before a floor is asked for in vain. */
void check_region_left_out(struct run *run, const struct rule *rule, const struct window *window)
{
    if (!window->count || !athlete_restricted(window->athlete, window->first))
        return;
    const char *left = regions_left_out(run, window);
    if (!*left)
        return;
    struct about about = {.window = window,
                          .severity = rule_severity(rule),
                          .span = window->athlete->avoids[0].span,
                          .subject = window->athlete};
    struct finding *finding = run_report(run, rule, &about, "%s: what has to be avoided leaves nothing for the %s in the week from %s",
                                         window->athlete->name.shown, left, date_words(run, window->first));
    if (!finding)
        return;
    diag_set_private(run->diag, finding);
    diag_remark(run->diag, finding, "`bellsheet find instead of EXERCISE for %s` lists what comes nearest",
                    window->athlete->name.shown);
}

void check_review_due(struct run *run, const struct rule *rule, const struct window *window)
{
    const struct athlete *athlete = window->athlete;
    int today = run_today(run);
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
    for (size_t b = 0; b < occasion->block_count; b++)
        for (size_t i = 0; i < occasion->blocks[b].item_count; i++) {
            const struct item *item = &occasion->blocks[b].items[i];
            if (is_training(item->exercise) &&
                run_is_new(window, item->exercise, setting.first_weeks))
                look_at_effort(run, rule, window, item, &setting);
        }
}
