/* Tests: whether one is due again, and whether what was done before it spoils it. */
#include "measure/clocks.h"
#include "measure/demand.h"
#include "measure/tests.h"
#include "model/programme.h"
#include "rules/checks.h"
#include "rules/run.h"

enum { FRESH_HOURS = 48 }; /* 48 h of rest: common practice, no source */

/* --- due again --- */

static void look_at_test(struct run *run, const struct rule *rule, const struct window *window, const struct test *test)
{
    const struct test_value *last = test_latest(run->arena, window->athlete, test, run->programme->today);
    int due = last ? test_due(test, last->date) : 0;
    if (!due || due >= run->programme->today)
        return;
    struct about about = {.window = window, .severity = rule_severity(rule), .span = last->span, .subject = test};
    run_report(run, rule, &about, "%s: %s was due again by %s", window->athlete->name.shown, test->name.shown,
               date_words(run, due));
}

void check_retest_due(struct run *run, const struct rule *rule, const struct window *window)
{
    for (size_t i = 0; i < run->programme->test_count && window->athlete->result_count; i++)
        if (run->programme->tests[i]->retest)
            look_at_test(run, rule, window, run->programme->tests[i]);
}

/* --- fresh --- */

/* The first line of OCCASION that is done as a test (TEST), or that is heavy; of the lines before END, or NULL. */
static const struct item *find_item(const struct occasion *occasion, bool test, const struct item *end)
{
    for (size_t b = 0; b < occasion->block_count; b++)
        for (size_t i = 0; i < occasion->blocks[b].item_count; i++) {
            const struct item *item = &occasion->blocks[b].items[i];
            if (item == end)
                return NULL;
            if (test ? item->test : !item->test && item_is_heavy(occasion, item))
                return item;
        }
    return NULL;
}

/* Hours from the end of EARLIER to LATER; by whole days where an hour is not given. */
static int hours_between(const struct occasion *earlier, const struct occasion *later)
{
    return (int)(seconds_from_end(earlier, later, NULL) / 3600);
}

/* The last heavy line before TEST, a line of the occasion of WINDOW, within the hours that it should be fresh; or NULL. */
static const struct item *heavy_before(const struct window *window, const struct item *test, const struct occasion **when)
{
    *when = window->occasions[0];
    const struct item *item = find_item(*when, false, test);
    for (size_t i = window->at; !item && i-- > 0;) {
        *when = window->timeline->occasions[i];
        if (hours_between(*when, window->occasions[0]) >= FRESH_HOURS)
            return NULL;
        item = find_item(*when, false, NULL);
    }
    return item;
}

void check_test_fresh(struct run *run, const struct rule *rule, const struct window *window)
{
    const struct occasion *occasion = window->occasions[0], *when;
    const struct item *test = find_item(occasion, true, NULL);
    const struct item *heavy = test ? heavy_before(window, test, &when) : NULL;
    if (!heavy)
        return;
    struct about about = {.window = window, .severity = rule_severity(rule), .span = test->span, .subject = heavy->exercise};
    struct finding *finding = run_report(run, rule, &about, "%s is a test on %s, within %d h of heavy %s",
                                         item_words(run, test), day_words(run, occasion), (int)FRESH_HOURS,
                                         heavy->exercise->name.shown);
    if (!finding)
        return;
    diag_note(run->diag, finding, heavy->span, "heavy on %s", date_words(run, when->date));
    diag_help(run->diag, finding, "test first, or two days later: a tired result is compared with fresh ones");
}
