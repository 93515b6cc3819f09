/* What does not go together with its day: a gym that is closed, weeks that nobody has planned. No published source: what a coach looks up in the year's
 * calendar. */
#include "figures/dates.h"
#include "measure/demand.h"
#include "measure/hold.h"
#include "measure/kit.h"
#include "measure/member.h"
#include "model/programme.h"
#include "rules/checks.h"
#include "rules/run.h"

/* --- closed gyms --- */

static const char *closure_words(struct run *run, const struct closure *closure)
{
    const char *first = date_words(run, closure->first);
    return closure->last == closure->first
               ? first
               : arena_printf(run->arena, "from %s to %s", first, date_words(run, closure->last));
}

static void report_closed(struct run *run, const struct rule *rule, const struct window *whole,
                          const struct left_out *left_out)
{
    const struct occasion *occasion = &left_out->occasion;
    const struct closure *closure = left_out->closure;
    const char *what = occasion->session ? occasion->session->name.shown : occasion->activity->name.shown;
    struct window window = {.scope = SCOPE_OCCASION, .timeline = whole->timeline, .athlete = whole->athlete,
                            .camp = occasion->camp, .first = occasion->date, .last = occasion->date};
    struct about about = {.window = &window, .severity = rule_severity(rule), .span = occasion->span,
                          .other = closure->span, .left_out = left_out};
    struct finding *finding = run_report(run, rule, &about, "%s is closed on %s: %s is not planned there",
                                         occasion_gym(occasion)->name.shown, date_words(run, occasion->date), what);
    if (!finding)
        return;
    diag_note(run->diag, finding, closure->span, "closed %s%s%s", closure_words(run, closure),
              closure->because ? ", " : "", closure->because ? closure->because : "");
    diag_help(run->diag, finding, "below the line, write `at` and another gym, or clear the day with `off`");
}

void check_gym_closed(struct run *run, const struct rule *rule, const struct window *window)
{
    size_t count;
    const struct left_out *left_out = athlete_left_out(run->programme, window->athlete, &count);
    for (size_t i = 0; i < count; i++)
        if (left_out[i].why == LEFT_CLOSED && !run_is_past(run, left_out[i].occasion.date))
            report_closed(run, rule, window, &left_out[i]);
}

/* --- the day of a bout --- */

static bool is_heavy(const struct occasion *occasion)
{
    for (size_t b = 0; b < occasion->block_count; b++)
        for (size_t i = 0; i < occasion->blocks[b].item_count; i++) {
            const struct item *item = &occasion->blocks[b].items[i];
            for (size_t k = 0; k < item->run_count; k++)
                if (run_is_heavy(occasion->athlete, item->exercise, &item->runs[k], occasion->date))
                    return true;
        }
    return false;
}

/* Sparring and heavy lifts on a day on which the athlete boxes: common practice, no source. */
void check_bout_day(struct run *run, const struct rule *rule, const struct window *window)
{
    const struct occasion *occasion = window->occasions[0];
    bool spars = occasion->activity && occasion->activity->sparring;
    for (size_t i = 0; i < window->timeline->camp_count; i++) {
        const struct camp *camp = window->timeline->camps[i];
        const struct bout *bout = camp_bout_on(camp, occasion->date);
        if (!bout || !camp_has(camp, window->athlete, occasion->date) ||
            (!spars && !is_heavy(occasion)))
            continue;
        struct about about = {.window = window, .severity = rule_severity(rule), .span = occasion->span, .subject = camp,
                              .subject_number = bout->day};
        struct finding *finding = run_report(
            run, rule, &about, "%s of %s is on %s, the day of the bout of `%s`",
            spars ? "sparring" : "heavy work", window->athlete->name.shown, date_words(run, occasion->date), camp->name.shown);
        if (!finding)
            return;
        diag_note(run->diag, finding, bout->span, "the bout");
        diag_help(run->diag, finding, "clear the hour in that week with `off`, or put it on another day");
        return;
    }
}

/* --- nothing planned --- */

/* The camp of WINDOW's athlete that lasts longest among those begun by DAY (LAST), and the next camp to begin after
 * it (NEXT). */
static void camps_around(const struct window *window, int day, int *last, const struct camp **next, int *begins)
{
    const struct timeline *timeline = window->timeline;
    *last = 0;
    *next = NULL;
    *begins = DATE_LAST;
    for (size_t i = 0; i < timeline->camp_count; i++) {
        const struct camp *camp = timeline->camps[i];
        for (size_t a = 0; a < camp->athlete_count; a++) {
            if (camp->athletes[a] != window->athlete)
                continue;
            int from = camp->members && camp->members[a].first > camp->first ? camp->members[a].first : camp->first;
            int to = camp->members && camp->members[a].last < camp->last ? camp->members[a].last : camp->last;
            if (from <= day && to > *last)
                *last = to;
            if (from > day && from < *begins) {
                *begins = from;
                *next = camp;
            }
        }
    }
}

/* Whole weeks between one camp of an athlete and the next, but for those in which the athlete is out anyway. */
void check_weeks_empty(struct run *run, const struct rule *rule, const struct window *window)
{
    int last, begins;
    const struct camp *next;
    camps_around(window, window->first + 6, &last, &next, &begins);
    for (; next; camps_around(window, begins, &last, &next, &begins)) {
        int monday = date_monday(last + 7), end = date_monday(begins) - 1;
        if (!last || monday > end || !athlete_not_out(window->athlete, monday, end))
            continue; /* before whoever joins a camp late there is none that has ended */
        struct about about = {.window = window, .severity = rule_severity(rule), .span = next->name.span, .subject = next,
                              .subject_number = monday};
        int weeks = (end - monday + 1) / 7;
        run_report(run, rule, &about, "%s has no camp in the %s from %s, before this one", window->athlete->name.shown,
                   weeks == 1 ? "week" : arena_printf(run->arena, "%d weeks", weeks), date_words(run, monday));
    }
}

void check_without_camp(struct run *run, const struct rule *rule, const struct window *window)
{
    if (window->timeline->camp_count || !run->programme->camp_count)
        return;
    struct about about = {.window = window, .severity = rule_severity(rule), .span = window->athlete->name.span,
                          .subject = window->athlete};
    run_report(run, rule, &about, "%s is in no camp", window->athlete->name.shown);
}

/* --- seasons --- */

/* The first of the days FIRST to LAST that no season has; 0: none. */
static int first_without_season(const struct programme *programme, int first, int last)
{
    for (bool moved = true; moved && first <= last;) {
        moved = false;
        for (size_t i = 0; i < programme->season_count; i++) {
            const struct season *season = programme->seasons[i];
            if (!season->first)
                return 0;
            if (season->first > first || first > season->last)
                continue;
            first = season->last + 1;
            moved = true;
        }
    }
    return first <= last ? first : 0;
}

void check_camp_season(struct run *run, const struct rule *rule, const struct window *window)
{
    const struct programme *programme = run->programme;
    for (size_t i = 0; i < programme->camp_count && programme->season_count; i++) {
        const struct camp *camp = programme->camps[i];
        int day = camp->first ? first_without_season(programme, camp->first, camp->last) : 0;
        if (!day)
            continue;
        struct about about = {.window = window, .severity = rule_severity(rule), .span = camp->name.span, .subject = camp};
        struct finding *finding = run_report(run, rule, &about, "%s, a day of `%s`, is in no season", date_words(run, day),
                                             camp->name.shown);
        if (finding)
            diag_help(run->diag, finding, "move the season's `from` or `to`, or declare the season that this camp belongs to");
    }
}
