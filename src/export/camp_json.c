#include "export/camp_json.h"

#include "figures/dates.h"
#include "model/athlete.h"
#include "model/limit.h"

static void put_day(const struct programme_view *view, json_t *json, const char *key, int day)
{
    if (day && day != DATE_LAST)
        json_put_words(json, key, view_date(view->arena, day));
}

static json_t *phase_json(const struct programme_view *view, const struct phase *phase)
{
    json_t *json = json_object();
    json_put_words(json, "name", phase->name.shown);
    put_day(view, json, "first", phase->first);
    if (!phase->open)
        put_day(view, json, "last", phase->last);
    if (phase->after_bout)
        json_put(json, "after_bout", json_true());
    return json;
}

/* From when to when each athlete is in it; only if somebody joins late or leaves early. */
static json_t *members_json(const struct programme_view *view, const struct camp *camp)
{
    json_t *members = json_array();
    for (size_t i = 0; i < camp->athlete_count; i++) {
        json_t *member = json_object();
        json_put_words(member, "athlete", camp->athletes[i]->name.shown);
        put_day(view, member, "from", camp->members[i].first);
        put_day(view, member, "until", camp->members[i].last);
        json_add(members, member);
    }
    return members;
}

static void put_bout(const struct programme_view *view, json_t *json, const struct bout *bout, const char *day)
{
    put_day(view, json, day, bout->day);
    if (bout->words)
        json_put_words(json, "bout_words", bout->words);
    if (bout->day_count > 1) {
        json_t *days = json_array();
        for (size_t i = 0; i < bout->day_count; i++)
            json_add(days, json_words(view_date(view->arena, bout->days[i])));
        json_put(json, "bout_days", days);
    }
    if (bout->moved_on) {
        json_t *postponed = json_object();
        put_day(view, postponed, "from", bout->planned);
        put_day(view, postponed, "on", bout->moved_on);
        json_put(json, "postponed", postponed);
    }
    put_day(view, json, "cancelled", bout->cancelled);
}

/* The first bout is with the camp itself; if there are several, a list has all of them. */
static void put_bouts(const struct programme_view *view, json_t *json, const struct camp *camp)
{
    json_t *bouts = json_array();
    if (camp->bout_count)
        put_bout(view, json, camp->bouts[0], "bout");
    for (size_t i = 0; i < camp->bout_count; i++) {
        json_t *bout = json_object();
        put_bout(view, bout, camp->bouts[i], "day");
        json_add(bouts, bout);
    }
    if (camp->bout_count > 1)
        json_put(json, "bouts", bouts);
    else
        json_decref(bouts);
}

json_t *camp_json(const struct programme_view *view, const struct camp *camp)
{
    json_t *json = json_object(), *athletes = json_array(), *phases = json_array(), *limits = json_array();
    json_put_words(json, "name", camp->name.shown);
    for (size_t i = 0; i < camp->athlete_count; i++)
        json_add(athletes, json_words(camp->athletes[i]->name.shown));
    json_put(json, "athletes", athletes);
    if (camp->members)
        json_put(json, "members", members_json(view, camp));
    put_day(view, json, "first", camp->first);
    put_day(view, json, "last", camp->last);
    json_put_number(json, "weeks", (size_t)camp->weeks);
    put_bouts(view, json, camp);
    for (size_t i = 0; i < camp->phase_count; i++)
        json_add(phases, phase_json(view, &camp->phases[i]));
    json_put(json, "phases", phases);
    if (camp->left_phase_count) {
        json_t *left = json_array();
        for (size_t i = 0; i < camp->left_phase_count; i++)
            json_add(left, json_words(camp->left_phases[i].shown));
        json_put(json, "left_out_phases", left);
    }
    for (size_t i = 0; i < camp->limits_count; i++)
        json_add(limits, json_words(camp->limits[i]->name.shown));
    json_put(json, "limits", limits);
    return json;
}
