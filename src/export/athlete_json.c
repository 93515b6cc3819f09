#include "export/athlete_json.h"

#include <string.h>

#include "export/morning_view.h"
#include "export/pain_view.h"
#include "export/tests_view.h"
#include "figures/dates.h"
#include "done/estimates.h"
#include "measure/hold.h"
#include "measure/facts.h"
#include "model/athlete.h"
#include "model/exercise.h"
#include "model/gym.h"
#include "model/occasion.h"

static const char *const stances[] = {"unknown", "orthodox", "southpaw"};

void json_put_day(const struct programme_view *view, json_t *json, const char *key, int day)
{
    if (day)
        json_put_words(json, key, view_date(view->arena, day));
}

json_t *best_json(const struct programme_view *view, const struct best *best)
{
    json_t *json = json_object();
    json_put_words(json, "exercise", best->exercise->name.shown);
    json_put(json, "reps", json_decimal(best->reps));
    json_put_mass(json, "kg", best->load);
    json_put_mass(json, "one_rep_maximum_kg", best->one_max);
    json_put(json, "estimated", json_boolean(best->estimated));
    json_put_day(view, json, "day", best->date);
    return json;
}

static json_t *restrictions_json(const struct programme_view *view, const struct athlete *athlete)
{
    json_t *restrictions = json_array();
    for (size_t i = 0; i < athlete->avoid_count; i++) {
        const struct avoid *avoid = &athlete->avoids[i];
        json_t *json = json_object();
        json_put_words(json, "what", avoid->shown);
        json_put_day(view, json, "since", avoid->since);
        json_put_day(view, json, "expected_until", avoid->expected);
        json_put_day(view, json, "review", avoid->review);
        json_put_day(view, json, "ended", avoid->ended);
        if (avoid->instead)
            json_put_words(json, "instead", avoid->instead->name.shown);
        json_add(restrictions, json);
    }
    return restrictions;
}

/* Maxima that the logs point to, each with the set that it comes from. */
static json_t *estimates_json(const struct programme_view *view, const struct athlete *athlete)
{
    struct lift_estimate *estimates;
    size_t count = estimates_of(view->arena, view->programme, athlete, &estimates);
    json_t *list = json_array();
    for (size_t i = 0; i < count; i++) {
        const struct lift_estimate *one = &estimates[i];
        json_t *json = json_object();
        json_put_words(json, "exercise", one->exercise->name.shown);
        json_put_words(json, "by", one->way == ESTIMATE_BY_REPS ? "repetitions" : "bar speed");
        json_put_mass(json, "one_rep_maximum_kg", one->maximum);
        json_put_mass(json, "low_kg", one->low);
        json_put_mass(json, "high_kg", one->high);
        json_put_day(view, json, "day", one->line->log->date);
        if (one->way == ESTIMATE_BY_REPS) {
            json_put(json, "reps", json_decimal(logged_reps(one->set)));
            json_put_mass(json, "kg", one->set->load);
            json_put(json, "rpe", json_decimal(logged_rpe(one->set)));
            json_put(json, "percent", json_decimal(one->share));
        } else {
            json_put_number(json, "sets", one->points);
        }
        json_put_mass(json, "before_kg", one->before);
        json_put_day(view, json, "before_day", one->before_day);
        json_add(list, json);
    }
    return list;
}

/* The state of a hold, from everything that is entered. */
static json_t *hold_json(const struct programme_view *view, const struct athlete *athlete, const struct hold *hold)
{
    json_t *json = json_object();
    struct hold_state state = hold_on(hold, athlete, DATE_LAST, programme_today(view->programme), HOLD_ALL);
    json_put_day(view, json, "since", hold->since);
    if (hold->protocol && (size_t)state.step < hold->protocol->step_count)
        json_put_words(json, "step", hold->protocol->steps[state.step].name);
    json_put_day(view, json, "ended", state.ended ? state.began : 0);
    return json;
}

static json_t *private_json(const struct programme_view *view, const struct athlete *athlete)
{
    json_t *json = json_object(), *masses = json_array(), *holds = json_array();
    json_put_day(view, json, "born", athlete->born ? athlete->born : athlete->born_private);
    for (size_t i = 0; i < athlete->mass_count; i++) {
        json_t *one = json_object();
        json_put_mass(one, "kg", athlete->masses[i].mass);
        json_put_day(view, one, "day", athlete->masses[i].date);
        json_add(masses, one);
    }
    json_put(json, "body_masses", masses);
    json_put(json, "avoids", restrictions_json(view, athlete));
    for (size_t i = 0; i < athlete->hold_count; i++)
        json_add(holds, hold_json(view, athlete, &athlete->holds[i]));
    json_put(json, "holds", holds);
    if (athlete->morning_count)
        json_put(json, "mornings", mornings_json(view, athlete));
    if (athlete->pain_count)
        json_put(json, "pains", pains_json(view, athlete));
    return json;
}

/* Days for which nothing is planned, without a reason. */
static json_t *out_json(const struct programme_view *view, const struct athlete *athlete)
{
    json_t *days = json_array();
    for (size_t i = 0; i < athlete->out_count; i++) {
        json_t *one = json_object();
        json_put_day(view, one, "first", athlete->outs[i].first);
        if (athlete->outs[i].last != DATE_LAST)
            json_put_day(view, one, "last", athlete->outs[i].last);
        json_add(days, one);
    }
    return days;
}

json_t *athlete_json(const struct programme_view *view, const struct athlete *athlete)
{
    json_t *json = json_object(), *bests = json_array();
    json_put_words(json, "name", athlete->name.shown);
    json_put_words(json, "called", athlete->called);
    json_put_words(json, "stance", stances[athlete->stance]);
    json_put_words(json, "lifting_age", levels.names[athlete->level]);
    if (athlete->under_age)
        json_put(json, "under_age", json_integer(athlete->under_age));
    if (athlete->gym)
        json_put_words(json, "gym", athlete->gym->name.shown);
    for (size_t i = 0; i < athlete->best_count; i++)
        if (view->private || !athlete->bests[i].private)
            json_add(bests, best_json(view, &athlete->bests[i]));
    json_put(json, "bests", bests);
    json_t *estimates = estimates_json(view, athlete);
    if (json_array_size(estimates))
        json_put(json, "estimates", estimates);
    else
        json_decref(estimates);
    json_t *tests = tests_json(view, athlete);
    if (json_array_size(tests))
        json_put(json, "tests", tests);
    else
        json_decref(tests);
    if (athlete->out_count)
        json_put(json, "out", out_json(view, athlete));
    if (view->private)
        json_put(json, "private", private_json(view, athlete));
    return json;
}
