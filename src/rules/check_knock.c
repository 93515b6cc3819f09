/* What has to start a hold, and what a commission bars: knocks, bouts lost by blows, suspensions. The days of a
 * suspension are entered as the commission gives them and never worked out; its end does not end a hold. */
#include "figures/dates.h"
#include "measure/hold.h"
#include "measure/member.h"
#include "measure/facts.h"
#include "model/activity.h"
#include "model/athlete.h"
#include "rules/checks.h"
#include "rules/run.h"

/* --- what has to open a hold --- */

/* Is there a hold that begins on DAY, no later than CLOCK (-1: no hour)? An earlier one is not enough: its steps were
 * reached without this. */
static bool begins_hold(const struct athlete *athlete, int day, int clock)
{
    for (size_t i = 0; i < athlete->hold_count; i++) {
        const struct hold *hold = &athlete->holds[i];
        if (hold->since == day && (hold->clock < 0 || clock < 0 || hold->clock <= clock))
            return true;
    }
    return false;
}

/* If the plan says that the athlete is out from then on, the hold may be in a private file that is not at hand. */
static enum severity severity_without(const struct run *run, const struct rule *rule, const struct athlete *athlete,
                                      int day)
{
    bool out = !athlete_not_out(athlete, day + 1, DATE_LAST);
    return out && !programme_has_private(run->programme) ? SEVERITY_WARNING : rule_severity(rule);
}

static void help_hold(struct run *run, struct finding *finding, int day, int clock)
{
    const char *hour = clock < 0 ? "" : arena_printf(run->arena, " %02d:%02d", clock / 3600, clock / 60 % 60);
    diag_remark(run->diag, finding, "suspicion is enough, with or without symptoms; what comes next is for the commission's rules "
                                    "and a physician to say");
    diag_help(run->diag, finding, "below the athlete, write `hold head`, and below that `since "
                                  "%s%s`", date_words(run, day), hour);
}

void check_knock(struct run *run, const struct rule *rule, const struct window *window)
{
    const struct athlete *athlete = window->athlete;
    for (size_t i = 0; i < athlete->knock_count; i++) {
        const struct knock *knock = &athlete->knocks[i];
        if (begins_hold(athlete, knock->day, knock->clock))
            continue;
        struct about about = {.window = window, .span = knock->span, .subject = athlete,
                              .severity = severity_without(run, rule, athlete, knock->day)};
        struct finding *finding = run_report(run, rule, &about, "%s: a head knock on %s, but no hold from then on",
                                             athlete->name.shown, date_words(run, knock->day));
        if (finding)
            help_hold(run, finding, knock->day, knock->clock);
    }
}

static void look_at_result(struct run *run, const struct rule *rule, const struct window *window, const struct bout *bout)
{
    const struct athlete *athlete = window->athlete;
    int day = bout->stopped_on;
    if (!bout->stopped || begins_hold(athlete, day, -1))
        return;
    struct about about = {.window = window, .span = bout->result_span, .subject = athlete,
                          .severity = severity_without(run, rule, athlete, day)};
    struct finding *finding =
        run_report(run, rule, &about, "%s %s on %s, and there is no hold from then on", athlete->name.shown,
                   bout->lost ? "lost by knockout or stoppage" : "had a bout stopped without a winner",
                   date_words(run, day));
    if (!finding)
        return;
    diag_remark(run->diag, finding, "if the head was not hit, write `to the body`, `to the legs`, or `seen by doctor "
                                    "NAME on DATE`");
    help_hold(run, finding, day, -1);
}

void check_stopped(struct run *run, const struct rule *rule, const struct window *window)
{
    for (size_t i = 0; i < window->camp->bout_count; i++)
        look_at_result(run, rule, window, window->camp->bouts[i]);
}

/* --- suspensions --- */

static void report_suspended(struct run *run, const struct rule *rule, const struct about *about,
                             const struct suspension *suspension, const char *what, int day, int first)
{
    struct finding *finding =
        run_report(run, rule, about, "%s is suspended by %s, but has %s on %s", about->window->athlete->name.shown,
                   suspension->by, what, date_words(run, day));
    if (!finding)
        return;
    if (first == DATE_LAST)
        diag_note(run->diag, finding, suspension->span, "until further notice");
    else
        diag_note(run->diag, finding, suspension->span, "not before %s", date_words(run, first));
    diag_remark(run->diag, finding, "this cannot be waived: only whoever suspended the athlete can end it; a hold is "
                                    "ended separately");
}

static bool bars_on(const struct run *run, const struct suspension *suspension, int first, int day)
{
    return day < first && day >= suspension->since && !run_is_past(run, day);
}

static int later_of(int a, int b)
{
    return a > b ? a : b;
}

/* A bout is contact too. Each day of a tournament is reported. */
static void look_at_bout_days(struct run *run, const struct rule *rule, const struct window *window,
                              const struct suspension *suspension, const struct bout *bout)
{
    int first = later_of(suspension->bout, suspension->contact);
    for (size_t d = 0; d < bout->day_count; d++) {
        int day = bout->days[d];
        if (!bout_is_on(bout, day) || !camp_has(window->camp, window->athlete, day) || !bars_on(run, suspension, first, day))
            continue;
        struct window of_bout = *window;
        of_bout.first = of_bout.last = day;
        struct about about = {.window = &of_bout, .severity = rule_severity(rule), .subject = suspension, .span = bout->span};
        report_suspended(run, rule, &about, suspension, "a bout", day, first);
    }
}

void check_suspension(struct run *run, const struct rule *rule, const struct window *window)
{
    const struct athlete *athlete = window->athlete;
    const struct occasion *occasion = window->scope == SCOPE_OCCASION ? window->occasions[0] : NULL;
    const struct activity *activity = occasion ? occasion->activity : NULL;
    bool contact = activity && (activity->sparring || activity->contact || activity->head) && !occasion_bout(occasion);
    for (size_t i = 0; i < athlete->suspension_count; i++) {
        const struct suspension *suspension = &athlete->suspensions[i];
        struct about about = {.window = window, .severity = rule_severity(rule), .subject = suspension};
        if (contact && !occasion->logged && bars_on(run, suspension, suspension->contact, occasion->date)) {
            about.span = occasion->span;
            report_suspended(run, rule, &about, suspension, activity->name.shown, occasion->date,
                             suspension->contact);
        }
        for (size_t b = 0; !occasion && b < window->camp->bout_count; b++)
            look_at_bout_days(run, rule, window, suspension, window->camp->bouts[b]);
    }
}
