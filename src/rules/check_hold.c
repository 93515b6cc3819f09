/* Holds for a suspected concussion: work that they bar, and what is entered below them.
 *
 * How long anything lasts is never worked out here: days and steps are what somebody entered. */
#include "measure/hold.h"

#include <string.h>

#include "figures/dates.h"
#include "measure/member.h"
#include "measure/person.h"
#include "model/programme.h"
#include "rules/checks.h"
#include "rules/run.h"

static const char HOW_LONG[] = "how long it lasts is for the commission's rules and a physician to say";

/* --- work that a hold bars --- */

/* The step that is in force at the time of OCCASION, in words for the coach. */
static const char *step_words(struct run *run, const struct hold *hold, const struct occasion *occasion)
{
    struct hold_state state = hold_on(hold, occasion->athlete, occasion->date, run->programme->today, HOLD_ALL);
    const struct protocol_step *step = hold_step(hold, state.step);
    if (!step || occasion->date < state.began)
        return "nothing is allowed on this day";
    return arena_printf(run->arena, "entered so far: step %s, %s; what it does not name is barred", step->name,
                        step->title);
}

/* What would make ITEM allowed: an effort in its line, a doctor's word; or "" if neither would. */
static const char *item_missing(struct run *run, const struct hold *hold, const struct occasion *occasion,
                                const struct item *item)
{
    const char *name = item->exercise->name.shown;
    struct hold_state state = hold_on(hold, occasion->athlete, occasion->date, run->programme->today, HOLD_ALL);
    const struct protocol_step *step = hold_step(hold, state.step);
    if (!step)
        return "";
    if (!state.agreed && permits_name(&step->if_agreed, item->exercise) && !permits_name(&step->bars, item->exercise))
        return arena_printf(run->arena, "%s needs a line `agreed by doctor NAME on DATE` below the hold", name);
    milli cap = permits_name(&step->bars, item->exercise) ? 0 : permits_cap(&step->allows, item->exercise);
    return cap ? arena_printf(run->arena, "%s is allowed at %s at most, and its line has to say so", name,
                              counted_amount(run->arena, COUNTED_EFFORT, cap))
               : "";
}

/* The same for the first line of OCCASION that lacks something, each by the hold that bars it; for an activity, "". */
static const char *session_missing(struct run *run, const struct occasion *occasion)
{
    const char *missing = "";
    for (size_t b = 0; b < occasion->block_count; b++)
        for (size_t i = 0; i < occasion->blocks[b].item_count && !*missing; i++) {
            const struct item *item = &occasion->blocks[b].items[i];
            const struct hold *hold = hold_bars_item(occasion, &occasion->blocks[b], item, run->programme->today);
            missing = hold ? item_missing(run, hold, occasion, item) : "";
        }
    return missing;
}

/* The hold that bars the whole of OCCASION: of several the one that bars its first line. */
static const struct hold *barring_whole(const struct run *run, const struct occasion *occasion)
{
    int today = run->programme->today;
    const struct hold *hold = occasion->activity ? hold_bars_activity(occasion, today) : NULL;
    for (size_t b = 0; !hold && b < occasion->block_count; b++)
        for (size_t i = 0; !hold && i < occasion->blocks[b].item_count; i++)
            hold = hold_bars_item(occasion, &occasion->blocks[b], &occasion->blocks[b].items[i], today);
    if (!hold)
        hold_reaches(occasion->athlete, occasion, today, &hold);
    return hold;
}

/* A line ITEM of OCCASION, or the whole where ITEM is NULL, which HOLD bars. */
static void report_held(struct run *run, const struct rule *rule, const struct about *about,
                        const struct occasion *occasion, const struct item *item, const struct hold *hold)
{
    if (!hold)
        return;
    const char *what = item                ? item->exercise->name.shown
                       : occasion->session ? occasion->session->name.shown
                                           : occasion->activity->name.shown;
    struct finding *finding = run_report(run, rule, about, "%s is on hold, but has %s on %s",
                                         occasion->athlete->name.shown, what, date_words(run, occasion->date));
    if (!finding)
        return;
    /* Worded without the line of the hold: a log of a check is no place to read why. */
    diag_remark(run->diag, finding, "%s", step_words(run, hold, occasion));
    diag_remark(run->diag, finding, "this cannot be waived; %s", HOW_LONG);
    const char *missing = item ? item_missing(run, hold, occasion, item) : session_missing(run, occasion);
    if (*missing)
        diag_help(run->diag, finding, "%s", missing);
    else
        diag_help(run->diag, finding, "below `athlete %s`, write `out since %s`: then only what the hold allows is "
                                      "planned",
                  occasion->athlete->name.shown, date_words(run, hold->since));
}

static void look_at_items(struct run *run, const struct rule *rule, const struct about *like,
                          const struct occasion *occasion)
{
    for (size_t b = 0; b < occasion->block_count; b++)
        for (size_t i = 0; i < occasion->blocks[b].item_count; i++) {
            const struct item *item = &occasion->blocks[b].items[i];
            struct about about = *like;
            about.span = item->span;
            report_held(run, rule, &about, occasion, item,
                        hold_bars_item(occasion, &occasion->blocks[b], item, run->programme->today));
        }
}

/* What was left out of the plan, except where the plan itself says that the athlete is out. */
static void look_at_left_out(struct run *run, const struct rule *rule, const struct window *whole)
{
    size_t count;
    const struct left_out *first = athlete_left_out(run->programme, whole->athlete, &count);
    for (size_t i = 0; i < count; i++) {
        const struct left_out *left_out = &first[i];
        const struct occasion *occasion = &left_out->occasion;
        if (left_out->why != LEFT_HELD || left_out->out || run_is_past(run, occasion->date) || occasion_bout(occasion))
            continue;
        struct window window = {.scope = SCOPE_OCCASION, .timeline = whole->timeline, .athlete = whole->athlete,
                                .camp = occasion->camp, .first = occasion->date, .last = occasion->date};
        struct about about = {.window = &window, .severity = rule_severity(rule), .span = occasion->span,
                              .subject = whole->athlete, .left_out = left_out};
        if (left_out->whole)
            report_held(run, rule, &about, occasion, NULL, barring_whole(run, occasion));
        else
            look_at_items(run, rule, &about, occasion);
    }
}

/* What the resolver did not leave out. */
static void look_at_planned(struct run *run, const struct rule *rule, const struct window *window)
{
    const struct occasion *occasion = window->occasions[0];
    if (!window->athlete->hold_count || occasion->logged || run_is_past(run, occasion->date) || occasion_bout(occasion))
        return;
    struct about about = {.window = window, .severity = rule_severity(rule), .span = occasion->span,
                          .subject = window->athlete};
    if (occasion->activity)
        report_held(run, rule, &about, occasion, NULL, hold_bars_activity(occasion, run->programme->today));
    look_at_items(run, rule, &about, occasion);
}

static void report_bout_held(struct run *run, const struct rule *rule, const struct window *window, struct span span, int day)
{
    const struct athlete *athlete = window->athlete;
    struct window bout = *window;
    bout.first = bout.last = day;
    bout.count = 0; /* no sheet of a session shows it */
    struct about about = {.window = &bout, .span = span, .subject = athlete,
                          .severity = athlete_out(athlete, day) ? SEVERITY_WARNING : rule_severity(rule)};
    struct finding *finding = run_report(run, rule, &about, "%s is on hold, but has a bout on %s",
                                         athlete->name.shown, date_words(run, day));
    if (finding)
        diag_remark(run->diag, finding, "no bout before a doctor has ended the hold; %s", HOW_LONG);
}

/* A bout on a day on which a hold is in force, each day of a tournament. For those who are already out it is only a
 * warning: no session is planned for them. */
static void look_at_bout(struct run *run, const struct rule *rule, const struct window *window, const struct bout *bout)
{
    const struct camp *camp = window->camp;
    const struct athlete *athlete = window->athlete;
    for (size_t i = 0; i < athlete->hold_count; i++)
        for (size_t d = 0; d < bout->day_count; d++) {
            const struct hold *hold = &athlete->holds[i];
            int day = bout->days[d];
            if (bout_is_on(bout, day) && camp_has(camp, athlete, day) && day > hold->since && !run_is_past(run, day) &&
                hold_stands(hold, athlete, day, run->programme->today))
                report_bout_held(run, rule, window, bout->span, day);
        }
}

static void look_at_bouts(struct run *run, const struct rule *rule, const struct window *window)
{
    for (size_t b = 0; b < window->camp->bout_count; b++)
        look_at_bout(run, rule, window, window->camp->bouts[b]);
}

void check_hold_broken(struct run *run, const struct rule *rule, const struct window *window)
{
    if (window->scope == SCOPE_OCCASION)
        look_at_planned(run, rule, window);
    else if (window->scope == SCOPE_CAMP)
        look_at_bouts(run, rule, window);
    else
        look_at_left_out(run, rule, window);
}

/* --- days gone by --- */

/* Breaches of one hold. */
struct breaches {
    int count, first;
    struct span span;
};

static void add_breach(struct breaches *breaches, int day, struct span span)
{
    if (!breaches->count || day < breaches->first) {
        breaches->first = day;
        breaches->span = span;
    }
    breaches->count++;
}

/* Did OCCASION, which a log covers, have work that the holds of its day bar? */
static bool is_barred(const struct occasion *occasion, int today)
{
    if (occasion->activity)
        return !hold_allows_activity(occasion, today);
    for (size_t b = 0; b < occasion->block_count; b++)
        for (size_t i = 0; i < occasion->blocks[b].item_count; i++)
            if (!hold_allows_item(occasion, &occasion->blocks[b], &occasion->blocks[b].items[i], today))
                return true;
    return false;
}

static bool is_planned(const struct window *window, const struct done *done)
{
    for (size_t i = 0; i < window->count; i++) {
        const struct occasion *occasion = window->occasions[i];
        if (occasion->logged && occasion->date == done->date && occasion->session == done->session &&
            occasion->activity == done->activity)
            return true;
    }
    return false;
}

/* What logs cover that was not planned, as far as can be known without its lines. */
static void add_unplanned(const struct run *run, const struct window *window, const struct hold *hold,
                          struct breaches *breaches)
{
    int today = run->programme->today;
    for (size_t i = 0; i < run->programme->log_count; i++) {
        const struct done *done = &run->programme->logs[i];
        if (done->athlete != window->athlete || is_planned(window, done))
            continue;
        const struct occasion occasion = {.athlete = done->athlete, .session = done->session,
                                          .activity = done->activity, .date = done->date, .clock = done->clock,
                                          .rpe = done->outcome.rpe, .logged = true};
        bool barred = done->activity ? !hold_allows_activity(&occasion, today) : hold_allows_nothing(&occasion, today);
        if (barred && hold_stands(hold, done->athlete, done->date, today))
            add_breach(breaches, done->date, done->span);
    }
}

static struct breaches breaches_of(const struct run *run, const struct window *window, const struct hold *hold)
{
    struct breaches breaches = {0};
    const struct programme *programme = run->programme;
    for (size_t i = 0; i < window->count; i++) {
        const struct occasion *occasion = window->occasions[i];
        if (occasion->logged && occasion->date >= hold->since && is_barred(occasion, programme->today))
            add_breach(&breaches, occasion->date, occasion->span);
    }
    size_t count;
    const struct left_out *first = athlete_left_out(programme, window->athlete, &count);
    for (size_t i = 0; i < count; i++) {
        const struct left_out *left_out = &first[i];
        const struct occasion *occasion = &left_out->occasion;
        if (left_out->why == LEFT_HELD && !left_out->out && run_is_past(run, occasion->date) &&
            occasion->date >= hold->since)
            add_breach(&breaches, occasion->date, occasion->span);
    }
    add_unplanned(run, window, hold, &breaches);
    return breaches;
}

/* What is done cannot be undone: it is reported once for each hold, while that is in force, and does not make the check
 * fail. */
void check_hold_breached(struct run *run, const struct rule *rule, const struct window *window)
{
    int today = run->programme->today;
    for (size_t i = 0; i < window->athlete->hold_count; i++) {
        const struct hold *hold = &window->athlete->holds[i];
        if (!hold_stands(hold, window->athlete, today, today))
            continue;
        struct breaches breaches = breaches_of(run, window, hold);
        if (!breaches.count)
            continue;
        struct about about = {.window = window, .severity = rule_severity(rule), .span = breaches.span, .subject = hold};
        struct finding *finding =
            run_report(run, rule, &about, "%s: the plan or a log has work on %s that the hold of that day barred",
                       window->athlete->name.shown, date_words(run, breaches.first));
        if (finding && breaches.count > 1)
            diag_remark(run->diag, finding, "and %d more since", breaches.count - 1);
        if (finding)
            diag_remark(run->diag, finding, "tell whoever looks after the athlete; this is shown until the hold ends");
    }
}

/* --- entries --- */

/* The step before the end is the one that is missing. */
static const char *too_few_words(struct run *run, const struct protocol *protocol)
{
    if (!protocol || protocol->step_count < 2)
        return "no step is entered as reached";
    return arena_printf(run->arena, "step %s is not entered as reached", protocol->steps[protocol->step_count - 2].name);
}

static const char *fault_words(struct run *run, enum hold_fault fault, const struct hold_state *state,
                               const struct hold *hold, const struct hold_entry *entry, bool young)
{
    switch (fault) {
    case HOLD_FUTURE: return arena_printf(run->arena, "%s is still to come", date_words(run, entry->day));
    case HOLD_BEFORE: return "its day is too early for this hold, and no step begins on the day of the knock";
    case HOLD_OVER: return "the hold had already ended";
    case HOLD_SKIPS: return "the step before it is not entered as reached";
    case HOLD_EARLY:
        return arena_printf(run->arena, "the step before it has to last until %s at least",
                            date_words(run, hold_next_day(state, hold, young) - 1));
    case HOLD_NO_DOCTOR: return "under 18 a doctor enters each step: `by doctor NAME`";
    case HOLD_UNAGREED: return "no doctor has agreed to it since the last symptoms: `agreed by doctor NAME on DATE`";
    case HOLD_IS_END: return "the last step is entered as the end of the hold: `ended by doctor NAME on DATE`";
    case HOLD_TOO_FEW: case HOLD_FINE: break; /* of an entry that is fine nobody asks */
    }
    return too_few_words(run, hold->protocol);
}

void check_hold_entry(struct run *run, const struct rule *rule, const struct window *window)
{
    int today = run->programme->today;
    for (size_t h = 0; h < window->athlete->hold_count; h++) {
        const struct hold *hold = &window->athlete->holds[h];
        struct hold_state state = hold_begin(hold);
        for (size_t i = 0; i < hold->entry_count; i++) {
            const struct hold_entry *entry = &hold->entries[i];
            bool young = athlete_is_young(window->athlete, entry->day);
            enum hold_fault fault = hold_enter(&state, hold, entry, young, today);
            struct about about = {.window = window, .severity = rule_severity(rule), .span = entry->span, .subject = hold};
            struct finding *finding =
                fault == HOLD_FINE ? NULL
                                   : run_report(run, rule, &about, "%s: this entry does not count: %s",
                                                window->athlete->name.shown,
                                                fault_words(run, fault, &state, hold, entry, young));
            if (finding)
                diag_remark(run->diag, finding, "%s", HOW_LONG);
        }
    }
}

/* --- what a copy without the private file would plan --- */

/* Would a copy without the private file plan more on DAY than HOLD allows? */
static bool copy_plans_more(const struct run *run, const struct athlete *athlete, const struct hold *hold, int day)
{
    int today = run->programme->today;
    if (!hold_stands(hold, athlete, day, today))
        return false;
    if (hold->private)
        return true;
    struct hold_state full = hold_on(hold, athlete, day, today, HOLD_ALL);
    struct hold_state copy = hold_on(hold, athlete, day, today, HOLD_SHARED);
    return copy.ended || copy.step > full.step || (day < full.began && day >= copy.began) ||
           (copy.agreed && !full.agreed);
}

/* The next day after DAY on which HOLD may change, DATE_LAST where there is none. */
static int next_change(const struct hold *hold, int day)
{
    int next = DATE_LAST;
    for (size_t i = 0; i < hold->entry_count; i++)
        for (int k = 0; k < 2; k++) { /* what symptoms change changes again on the next day */
            int change = hold->entries[i].day + k;
            if (change > day && change < next)
                next = change;
        }
    return next;
}

/* The first day from which the plan has to say that the athlete is out, but does not; 0: none. */
static int first_unsaid(const struct run *run, const struct athlete *athlete, const struct hold *hold)
{
    int start = 0; /* of the consecutive days on which a copy plans more */
    for (int day = hold->since, next; day < DATE_LAST; day = next) {
        next = next_change(hold, day);
        if (!copy_plans_more(run, athlete, hold, day)) {
            start = 0;
            continue;
        }
        start = start ? start : day;
        int last = next == DATE_LAST ? DATE_LAST : next - 1;
        int from = run_is_past(run, day) ? run->programme->today : day;
        int found = athlete_not_out(athlete, from, last);
        if (found)
            return found == from ? start : found;
    }
    return 0;
}

void check_out_missing(struct run *run, const struct rule *rule, const struct window *window)
{
    const struct athlete *athlete = window->athlete;
    for (size_t i = 0; i < athlete->hold_count; i++) {
        int day = first_unsaid(run, athlete, &athlete->holds[i]);
        if (!day)
            continue;
        struct about about = {.window = window, .severity = rule_severity(rule), .span = athlete->name.span};
        struct finding *finding =
            run_report(run, rule, &about, "%s: the plan has to say `out since %s`", athlete->name.shown,
                       date_words(run, day));
        if (!finding)
            return;
        diag_remark(run->diag, finding,
                    "a copy without the private file would plan what is barred; the line gives no reason");
        diag_help(run->diag, finding, "below `athlete %s`, write `out since %s`", athlete->name.shown,
                  date_words(run, day));
        return;
    }
}

/* The first day on which every hold of ATHLETE has ended that ended later than it; 0 while one stands, or where none
 * ended. */
static int all_ended_on(const struct run *run, const struct athlete *athlete)
{
    int ended = 0;
    for (size_t i = 0; i < athlete->hold_count; i++) {
        struct hold_state state = hold_on(&athlete->holds[i], athlete, DATE_LAST, run->programme->today, HOLD_ALL);
        if (!state.ended)
            return 0;
        ended = state.began > ended ? state.began : ended;
    }
    return ended;
}

/* `out since` that was written for a hold and goes on after its end: nothing is planned, and nobody says why. */
void check_out_outlasts(struct run *run, const struct rule *rule, const struct window *window)
{
    const struct athlete *athlete = window->athlete;
    int ended = all_ended_on(run, athlete);
    for (size_t i = 0; i < athlete->out_count; i++) {
        const struct out *out = &athlete->outs[i];
        if (out->last != DATE_LAST || out->first >= ended)
            continue;
        struct about about = {.window = window, .severity = rule_severity(rule), .span = out->span, .subject = athlete};
        struct finding *finding = run_report(run, rule, &about, "%s: the hold ended on %s, but still nothing is "
                                                                "planned",
                                             athlete->name.shown, date_words(run, ended));
        if (finding)
            diag_help(run->diag, finding, "below this line, write `until %s`", date_words(run, ended - 1));
    }
}
