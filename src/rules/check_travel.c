/* check_travel.c - heavy, maximal and hard work in the first days after a flight over many time zones.
 *
 * Published: Janse van Rensburg et al. 2021, Sports Med 51:2029-2050: jet lag when more than three zones are crossed, often
 * worse on the second to fourth day, and harder eastward. That hard work waits for those days is our reading of it. */
#include "measure/clocks.h"
#include "measure/demand.h"
#include "model/activity.h"
#include "model/athlete.h"
#include "rules/checks.h"
#include "rules/run.h"
#include "wording/wording.h"

enum { DAY = 86400, HOUR = 3600, MOST_ZONES = 3000 /* thousandths */, LAST_DAY = 4 };

/* Most days from leaving to arriving: 24 hours and 14 time zones are all that a plan may write. */
enum { LONGEST_TRAVEL = 2 };

/* The day on which TRAVEL arrives, by the clocks there: those of OCCASION, which follows it, where they are known. */
static int arrival(const struct occasion *travel, const struct occasion *occasion)
{
    if (travel->clock < 0)
        return travel->date;
    if (clocks_differ(travel, occasion)) {
        int date, clock;
        occasion_end(travel, occasion, &date, &clock);
        return date;
    }
    int64_t seconds = travel->clock + travel->seconds + travel->zones * HOUR / 1000;
    return travel->date + (int)(seconds >= 0 ? seconds / DAY : -1);
}

static bool crosses_many(const struct occasion *travel)
{
    return travel->zones > MOST_ZONES || travel->zones < -MOST_ZONES;
}

/* Which day after its arrival is that of OCCASION, which follows TRAVEL? */
static bool is_soon_after(const struct occasion *travel, const struct occasion *occasion)
{
    int days = occasion->date - arrival(travel, occasion);
    return days >= 0 && days <= LAST_DAY;
}

/* What of OCCASION is too much in these days, or NULL. */
static const char *hard_words(const struct occasion *occasion, struct span *span)
{
    const char *heavy = NULL;
    *span = occasion->span;
    if (occasion->activity && occasion->activity->sparring && occasion->rpe.high >= HARD_RPE)
        return "hard sparring";
    for (size_t b = 0; b < occasion->block_count; b++)
        for (size_t i = 0; i < occasion->blocks[b].item_count; i++) {
            const struct item *item = &occasion->blocks[b].items[i];
            for (size_t k = 0; k < item->run_count; k++) {
                bool test = item->test || run_is_one_rep_test(occasion->athlete, item->exercise, &item->runs[k], occasion->date);
                if (!test && (heavy || !run_is_heavy(occasion->athlete, item->exercise, &item->runs[k], occasion->date)))
                    continue;
                *span = item->span;
                if (test)
                    return "a test";
                heavy = "heavy work";
            }
        }
    return heavy;
}

static void report(struct run *run, const struct rule *rule, const struct window *window, const struct occasion *travel,
                   const char *what, struct span span)
{
    const struct occasion *occasion = window->occasions[0];
    int day = occasion->date - arrival(travel, occasion);
    const char *zones = wording_zones(run->arena, travel->zones);
    struct about about = {.window = window, .severity = rule_severity(rule), .span = span, .other = travel->span,
                          .subject_number = travel->date};
    struct finding *finding =
        day == 0 ? run_report(run, rule, &about, "%s of %s is on %s, the day on which a journey over %s ends", what,
                              window->athlete->name.shown, date_words(run, occasion->date), zones)
                 : run_report(run, rule, &about, "%s of %s is on %s, %d day%s after a journey over %s", what,
                              window->athlete->name.shown, date_words(run, occasion->date), day, day == 1 ? "" : "s", zones);
    if (!finding)
        return;
    diag_note(run->diag, finding, travel->span, "the journey");
    diag_help(run->diag, finding, "let the first four days be easy, or travel earlier");
}

void check_after_travel(struct run *run, const struct rule *rule, const struct window *window)
{
    const struct occasion *occasion = window->occasions[0];
    struct span span;
    const char *what = NULL;
    for (size_t o = window->at; o-- > 0;) {
        const struct occasion *earlier = window->timeline->occasions[o];
        if (occasion->date - earlier->date > LAST_DAY + LONGEST_TRAVEL)
            return;
        if (!crosses_many(earlier) || !is_soon_after(earlier, occasion))
            continue;
        what = hard_words(occasion, &span);
        if (what)
            report(run, rule, window, earlier, what, span);
        return;
    }
}
