/* check_overlap.c - two things of one athlete at one hour, in one camp or in two. */
#include "measure/clocks.h"
#include "model/activity.h"
#include "model/athlete.h"
#include "model/season.h"
#include "rules/checks.h"
#include "rules/run.h"
#include "wording/wording.h"

enum { LOOK_BACK_DAYS = 4 };

/* What is placed at an hour, and was not left out. */
static bool takes_an_hour(const struct occasion *occasion)
{
    return occasion->clock >= 0 && !(occasion->outcome.timed && occasion->outcome.seconds == 0);
}

/* Whether EARLIER still goes on when LATER starts. A session's time is worked out, so 5 % of it is let pass, as for a
 * session that should stay `under` a time. */
static bool overlaps(const struct occasion *earlier, const struct occasion *later)
{
    int64_t gap = seconds_from_start(earlier, later);
    int grace = earlier->session ? 21 : 20;
    return gap == 0 || gap * grace < (int64_t)earlier->seconds * 20;
}

/* "17:30", and where the clocks of OTHER are different ones "17:30 London time". */
static const char *clock_words(struct run *run, int clock, const struct occasion *by, const struct occasion *other)
{
    const char *zone = clocks_differ(by, other) ? wording_local_time(run->arena, by->zone) : "";
    return arena_printf(run->arena, "%02d:%02d%s%s", clock / 3600, clock / 60 % 60, *zone ? " " : "", zone);
}

static const char *what_words(const struct occasion *occasion)
{
    return occasion->session ? occasion->session->name.shown : occasion->activity->name.shown;
}

/* When EARLIER is over, by the clocks of LATER: "19:00", "01:00 of the next day". */
static const char *end_words(struct run *run, const struct occasion *earlier, const struct occasion *later)
{
    int date, clock;
    occasion_end(earlier, later, &date, &clock);
    const char *hour = clock_words(run, clock, later, earlier);
    if (date == later->date)
        return hour;
    return date == later->date + 1 ? arena_printf(run->arena, "%s of the next day", hour)
                                   : arena_printf(run->arena, "%s on %s", hour, date_words(run, date));
}

static void report(struct run *run, const struct rule *rule, const struct window *window,
                   const struct occasion *earlier)
{
    const struct occasion *later = window->occasions[0];
    bool may_be_left_out = earlier->optional || later->optional;
    int64_t gap = seconds_from_start(earlier, later);
    const char *hour = clock_words(run, later->clock, later, earlier);
    struct about about = {.window = window,
                          .severity = may_be_left_out ? SEVERITY_WARNING : rule_severity(rule),
                          .span = later->span,
                          .other = earlier->span,
                          .weight = earlier->seconds - gap};
    struct finding *finding =
        gap == 0 ? run_report(run, rule, &about, "%s: %s and %s both start at %s on %s",
                              window->athlete->name.shown, what_words(earlier), what_words(later), hour, day_words(run, later))
                 : run_report(run, rule, &about, "%s: %s starts at %s on %s, and %s goes on until %s",
                              window->athlete->name.shown, what_words(later), hour, day_words(run, later),
                              what_words(earlier), end_words(run, earlier, later));
    if (!finding)
        return;
    diag_note(run->diag, finding, earlier->span, "%s is placed here, in %s", what_words(earlier),
              earlier->camp->name.shown);
    diag_help(run->diag, finding, "give one of them another hour, or clear it on that day with `off`");
}

void check_overlap(struct run *run, const struct rule *rule, const struct window *window)
{
    const struct occasion *later = window->occasions[0];
    for (size_t o = window->at; takes_an_hour(later) && o-- > 0;) {
        const struct occasion *earlier = window->timeline->occasions[o];
        if (later->date - earlier->date > LOOK_BACK_DAYS)
            return;
        if (takes_an_hour(earlier) && overlaps(earlier, later))
            report(run, rule, window, earlier);
    }
}
