#include "export/review.h"

#include <math.h>
#include <string.h>

#include "done/adherence.h"
#include "done/estimates.h"
#include "export/tests_view.h"
#include "figures/dates.h"
#include "measure/hold.h"
#include "model/programme.h"
#include "wording/wording.h"

enum { DAYS_AROUND = 14 }; /* a camp's tests may lie before its first day and after its last; common practice, no source */

struct review {
    const struct programme_view *view;
    const struct camp *camp;
    const struct occasion **occasions; /* of the camp, by date */
    size_t count;
    struct text *out;
};

/* NAME with what Markdown would take for its own signs told as it is. */
static const char *plain(const struct review *review, const char *name)
{
    struct text out = {.arena = review->view->arena};
    for (; *name; name++) {
        if (strchr("\\`*_[]<>|#&", *name))
            text_add_char(&out, '\\');
        text_add_char(&out, *name);
    }
    return text_keep(review->view->arena, &out);
}

static const char *day_words(const struct review *review, int day)
{
    return view_date(review->view->arena, day);
}

/* --- planned and done --- */

static struct done_share add_share(struct done_share sum, struct done_share more)
{
    return (struct done_share){sum.done + more.done,
                               {sum.planned.low + more.planned.low, sum.planned.high + more.planned.high}};
}

/* What was done of what was planned between FIRST and LAST, of ATHLETE or of all. */
static struct adherence sum_between(const struct review *review, const struct athlete *athlete, int first, int last)
{
    struct adherence sum = {0};
    const struct occasion **mine = arena_alloc(review->view->arena, (review->count + 1) * sizeof *mine);
    for (size_t a = 0; a < review->camp->athlete_count; a++) {
        const struct athlete *one = review->camp->athletes[a];
        size_t count = 0;
        for (size_t i = 0; i < review->count; i++) {
            const struct occasion *occasion = review->occasions[i];
            if (occasion->athlete == one && occasion->date >= first && occasion->date <= last)
                mine[count++] = occasion;
        }
        int until = adherence_last(review->view->programme, one);
        if ((athlete && one != athlete) || !count || !until)
            continue;
        struct adherence here = adherence_of(mine, count, until);
        sum.known = sum.known || here.known;
        for (int of = 0; here.known && of < ADHERENCE_COUNT; of++)
            sum.of[of] = add_share(sum.of[of], here.of[of]);
    }
    return sum;
}

/* "12 of 14 (85.7 %)" */
static const char *share_words(const struct review *review, const struct done_share *share)
{
    struct arena *arena = review->view->arena;
    struct range percent;
    if (!kept_share(share, &percent))
        return "none planned";
    return arena_printf(arena, "%s of %s (%s %%)", wording_number(arena, share->done),
                        wording_number(arena, share->planned.high),
                        wording_number(arena, (percent.low + 50) / 100 * 100));
}

static void add_row(const struct review *review, const char *name, int first, int last)
{
    struct adherence sum = sum_between(review, NULL, first, last);
    size_t planned = 0;
    for (size_t i = 0; i < review->count; i++)
        planned += review->occasions[i]->date >= first && review->occasions[i]->date <= last;
    text_addf(review->out, "| %s | %s to %s | %zu | ", plain(review, name), day_words(review, first),
              day_words(review, last), planned);
    if (!sum.known)
        text_add(review->out, "no log | no log |\n");
    else
        text_addf(review->out, "%s | %s |\n", share_words(review, &sum.of[ADHERENCE_SESSIONS]),
                  share_words(review, &sum.of[ADHERENCE_LOAD]));
}

static void add_phases(const struct review *review)
{
    const struct camp *camp = review->camp;
    text_add(review->out, "\n## Planned and done\n\n| | days | planned | sessions done | session load done |\n"
                          "|---|---|---:|---:|---:|\n");
    for (size_t i = 0; i < camp->phase_count; i++)
        if (!camp->phases[i].open)
            add_row(review, camp->phases[i].name.shown, camp->phases[i].first, camp->phases[i].last);
    add_row(review, "whole camp", camp->first, camp->last);
    for (size_t i = 0; i < camp->left_phase_count; i++)
        text_addf(review->out, "\nThe days before the bout did not reach for %s, which was left out.\n",
                  plain(review, camp->left_phases[i].shown));
}

/* --- one athlete --- */

static void add_estimates(const struct review *review, const struct athlete *athlete)
{
    struct lift_estimate *estimates;
    struct arena *arena = review->view->arena;
    size_t count = estimates_of(arena, review->view->programme, athlete, &estimates);
    for (size_t i = 0; i < count; i++) {
        const struct lift_estimate *one = &estimates[i];
        int day = one->line->log->date;
        enum mass_unit unit = mass_written_in(one->maximum);
        if (day < review->camp->first || day > review->camp->last)
            continue;
        text_addf(review->out, "- %s: estimated maximum %s, %s to %s, by the log of %s\n",
                  plain(review, one->exercise->name.shown), wording_mass(arena, one->maximum, unit, false),
                  wording_mass(arena, one->low, unit, false), wording_mass(arena, one->high, unit, false),
                  day_words(review, day));
    }
}

/* The values of a camp: from two weeks before it to two weeks after. */
static void add_test(const struct review *review, const struct test *test, enum test_side side,
                     const struct test_values *values)
{
    struct arena *arena = review->view->arena;
    const struct test_value *first = NULL, *last = NULL;
    for (size_t i = 0; i < values->count; i++) {
        const struct test_value *one = &values->items[i];
        if (one->date < review->camp->first - DAYS_AROUND || one->date > review->camp->last + DAYS_AROUND)
            continue;
        first = first ? first : one;
        last = one;
    }
    if (!first)
        return;
    struct test_error error = test_error(arena, review->view->programme, test);
    text_addf(review->out, "- %s%s%s: %s on %s", plain(review, test->name.shown), side ? " " : "", test_side_words(side),
              test_words(arena, test, first->value), day_words(review, first->date));
    if (last != first) {
        struct test_change change = test_change(&error, first->value, last->value);
        text_addf(review->out, ", %s on %s: %s", test_words(arena, test, last->value), day_words(review, last->date),
                  test_verdict_words(change.verdict));
        if (change.error > 0)
            text_addf(review->out, " (up to %s)", test_words(arena, test, change.least));
    }
    text_add_char(review->out, '\n');
}

static void add_tests(const struct review *review, const struct athlete *athlete)
{
    for (size_t t = 0; athlete->result_count && t < review->view->programme->test_count; t++)
        for (enum test_side side = TEST_WHOLE; side <= TEST_RIGHT; side++) {
            struct test_values values = view_test_values(review->view, athlete, review->view->programme->tests[t], side);
            add_test(review, review->view->programme->tests[t], side, &values);
        }
}

/* The coach's own copy alone says who was held, and since when. */
static void add_holds(const struct review *review, const struct athlete *athlete)
{
    for (size_t i = 0; review->view->private && i < athlete->hold_count; i++) {
        const struct hold *hold = &athlete->holds[i];
        struct hold_state state = hold_on(hold, athlete, DATE_LAST, review->view->programme->today, HOLD_ALL);
        if (hold->since > review->camp->last || (state.ended && state.began < review->camp->first))
            continue;
        text_addf(review->out, "- held from %s%s%s\n", day_words(review, hold->since), state.ended ? " to " : ", not ended",
                  state.ended ? day_words(review, state.began) : "");
    }
}

static void add_athlete(const struct review *review, const struct athlete *athlete)
{
    struct adherence sum = sum_between(review, athlete, review->camp->first, review->camp->last);
    text_addf(review->out, "\n### %s\n\n", plain(review, athlete->name.shown));
    if (sum.known)
        text_addf(review->out, "- sessions done: %s; sets: %s; session load: %s\n",
                  share_words(review, &sum.of[ADHERENCE_SESSIONS]), share_words(review, &sum.of[ADHERENCE_SETS]),
                  share_words(review, &sum.of[ADHERENCE_LOAD]));
    else
        text_add(review->out, "- no log\n");
    add_estimates(review, athlete);
    add_tests(review, athlete);
    add_holds(review, athlete);
}

/* --- the whole --- */

static void add_waivers(const struct review *review)
{
    const struct programme *programme = review->view->programme;
    bool any = false;
    for (size_t i = 0; i < programme->waiver_count; i++) {
        const struct waiver *waiver = &programme->waivers[i];
        if (waiver->camp != review->camp)
            continue;
        text_add(review->out, any ? "" : "\n## Waived\n\n");
        any = true;
        text_addf(review->out, "- %s, %s to %s", plain(review, waiver->check), day_words(review, waiver->first),
                  day_words(review, waiver->last));
        if (waiver->athlete)
            text_addf(review->out, ", for %s", plain(review, waiver->athlete->name.shown));
        text_addf(review->out, ": %s\n", waiver->because ? plain(review, waiver->because) : "no reason given");
    }
}

static void add_camp(const struct review *review)
{
    const struct camp *camp = review->camp;
    text_addf(review->out, "# %s\n\n%s to %s, %d %s, %zu %s.", plain(review, camp->name.shown),
              day_words(review, camp->first), day_words(review, camp->last), camp->weeks, camp->weeks == 1 ? "week" : "weeks",
              camp->athlete_count, camp->athlete_count == 1 ? "athlete" : "athletes");
    if (camp->bout)
        text_addf(review->out, " Bout on %s%s%s%s.", day_words(review, camp->bout), camp->bout_words ? ": " : "",
                  camp->bout_words ? plain(review, camp->bout_words) : "", camp->cancelled ? ", cancelled" : "");
    text_add_char(review->out, '\n');
    add_phases(review);
    text_add(review->out, "\n## Athletes\n");
    for (size_t i = 0; i < camp->athlete_count; i++)
        for (size_t k = 0; k < review->count; k++)
            if (review->occasions[k]->athlete == camp->athletes[i]) {
                add_athlete(review, camp->athletes[i]);
                break;
            }
    add_waivers(review);
    text_add(review->out, "\nEstimates are estimates. What is within the error of a test may be no change at all.\n");
}

void review_markdown(const struct programme_view *view, struct text *out)
{
    const struct occasion **order = view_order(view, VIEW_BY_DAY);
    const struct occasion **own = arena_alloc(view->arena, (view->count + 1) * sizeof *own);
    bool any = false;
    for (size_t c = 0; c < view->programme->camp_count; c++) {
        struct review review = {.view = view, .camp = view->programme->camps[c], .occasions = own, .out = out};
        for (size_t i = 0; i < view->count; i++)
            if (order[i]->camp == review.camp)
                own[review.count++] = order[i];
        if (!review.count)
            continue;
        text_add(out, any ? "\n" : "");
        any = true;
        add_camp(&review);
    }
}
