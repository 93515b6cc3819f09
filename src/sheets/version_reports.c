/* version_reports.c - what sheets that report show: reviews, the head coach's page, results of tests. */
#include "sheets/version_parts.h"

#include <math.h>

#include "done/camp_review.h"
#include "layout/sheet.h"
#include "measure/facts.h"
#include "measure/hold.h"
#include "measure/person.h"
#include "model/athlete.h"
#include "model/exercise.h"
#include "model/log.h"
#include "model/occasion.h"
#include "model/season.h"

static void add_range(struct digest *digest, struct range range)
{
    digest_number(digest, range.low);
    digest_number(digest, range.high);
}

static void add_kept(struct digest *digest, const struct review_days *days)
{
    digest_words(digest, days->name);
    digest_number(digest, days->first);
    digest_number(digest, days->last);
    digest_number(digest, (int64_t)days->planned);
    digest_number(digest, days->load);
    digest_number(digest, days->kept.known);
    for (int of = 0; of < ADHERENCE_COUNT; of++) {
        digest_number(digest, days->kept.of[of].done);
        add_range(digest, days->kept.of[of].planned);
    }
}

/* A figure as it can be seen. */
static void add_value(struct digest *digest, double value)
{
    digest_number(digest, (int64_t)llround(value * 1e6));
}

static void add_reviewed(struct digest *digest, const struct review_athlete *own)
{
    digest_words(digest, own->athlete->name.shown);
    add_kept(digest, &own->all);
    for (size_t i = 0; i < own->estimate_count; i++) {
        const struct lift_estimate *one = &own->estimates[i];
        digest_words(digest, one->exercise->name.shown);
        digest_number(digest, one->maximum);
        digest_number(digest, one->low);
        digest_number(digest, one->high);
        digest_number(digest, one->line->log->date);
        digest_number(digest, one->first);
        digest_number(digest, one->first_day);
    }
    for (size_t i = 0; i < own->test_count; i++) {
        const struct review_test *one = &own->tests[i];
        digest_words(digest, one->test->name.shown);
        digest_number(digest, one->test->unit);
        digest_number(digest, one->side);
        digest_number(digest, one->first.date);
        digest_number(digest, one->last.date);
        add_value(digest, one->first.value);
        add_value(digest, one->last.value);
        add_value(digest, one->change.least);
        digest_number(digest, one->change.verdict | (unsigned)(one->first.private | one->last.private) << 4);
    }
    for (size_t i = 0; i < own->hold_count; i++) {
        digest_number(digest, own->holds[i].since);
        digest_number(digest, own->holds[i].ended);
    }
}

static void add_review(struct digest *digest, const struct camp_review *review)
{
    version_camp(digest, review->camp);
    add_kept(digest, &review->all);
    for (size_t i = 0; i < review->phase_count; i++)
        add_kept(digest, &review->phases[i]);
    for (size_t i = 0; i < review->week_count; i++)
        add_kept(digest, &review->weeks[i]);
    for (size_t i = 0; i < review->shorter_count; i++)
        digest_number(digest, review->shorter[i]->longest);
    for (size_t i = 0; i < review->athlete_count; i++)
        add_reviewed(digest, &review->athletes[i]);
    for (size_t i = 0; i < review->waiver_count; i++) {
        digest_words(digest, review->waivers[i]->check);
        digest_words(digest, review->waivers[i]->because);
        digest_number(digest, review->waivers[i]->first);
        digest_number(digest, review->waivers[i]->last);
    }
}

static void add_briefs(struct digest *digest, const struct sheet_request *request)
{
    for (size_t i = 0; i < request->brief_count; i++) {
        const struct brief *brief = &request->briefs[i];
        digest_words(digest, brief->athlete->name.shown);
        digest_words(digest, brief->last);
        digest_words(digest, brief->next);
        digest_number(digest, (int64_t)brief->decision_count);
        for (size_t d = 0; d < brief->decision_count; d++)
            digest_words(digest, brief->decisions[d]);
    }
}

/* Results as they are known today: a retest falls due by itself. */
static void add_results(struct digest *digest, const struct sheet_request *request)
{
    const struct athlete *athlete = request->occasions[0]->athlete;
    const struct test_error *errors = test_errors(request->arena, request->programme);
    digest_words(digest, athlete->name.shown);
    digest_number(digest, request->occasions[0]->camp->last);
    for (size_t t = 0; t < programme_test_count(request->programme); t++)
        for (enum test_side side = TEST_WHOLE; side <= TEST_RIGHT; side++) {
            const struct test *test = errors[t].test;
            struct test_values values = test_values_seen(request->arena, athlete, test, side, request->private);
            for (size_t i = 0; i < values.count; i++) {
                digest_words(digest, test->name.shown);
                digest_number(digest, (int64_t)test->unit << 8 | (int64_t)side << 4 | errors[t].from);
                digest_number(digest, values.items[i].date | (int64_t)values.items[i].private << 40);
                add_value(digest, values.items[i].value);
                add_value(digest, test_error_at(&errors[t], values.items[i].value));
                digest_number(digest, test->retest);
                digest_number(digest, test->retest && test_due(test, values.items[i].date) < programme_today(request->programme));
            }
        }
}

void version_report(struct digest *digest, const struct sheet_request *request)
{
    if (request->review)
        add_review(digest, request->review);
    else if (request->briefs)
        add_briefs(digest, request);
    else
        add_results(digest, request);
}
