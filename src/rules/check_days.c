/* What does not go together with its day: a gym that is closed. No published source: what a coach looks up in the year's
 * calendar. */
#include "measure/hold.h"
#include "measure/kit.h"
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
                          .subject = closure, .left_out = left_out};
    struct finding *finding = run_report(run, rule, &about, "%s is closed on %s: %s is not planned there",
                                         occasion_gym(occasion)->name.shown, date_words(run, occasion->date), what);
    if (!finding)
        return;
    diag_note(run->diag, finding, closure->span, "closed %s%s%s", closure_words(run, closure),
              closure->because ? ", " : "", closure->because ? closure->because : "");
    diag_help(run->diag, finding, "below the line, `at` and another gym; or clear the day with `off`");
}

void check_gym_closed(struct run *run, const struct rule *rule, const struct window *window)
{
    size_t count;
    const struct left_out *left_out = athlete_left_out(run->programme, window->athlete, &count);
    for (size_t i = 0; i < count; i++)
        if (left_out[i].why == LEFT_CLOSED && !run_is_past(run, left_out[i].occasion.date))
            report_closed(run, rule, window, &left_out[i]);
}
