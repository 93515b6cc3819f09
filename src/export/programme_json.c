/* programme_json.c - a resolved programme for other programs. The form is described by
 * share/schema/programme-3.schema.json. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "export/athlete_json.h"
#include "export/camp_json.h"
#include "export/json_text.h"
#include "export/room_view.h"
#include "export/set_json.h"
#include "export/show_programme.h"
#include "figures/dates.h"
#include "figures/mass.h"
#include "figures/zone.h"
#include "measure/hold.h"
#include "measure/limbs.h"
#include "measure/member.h"
#include "measure/time.h"
#include "model/programme.h"
#include "wording/wording.h"

/* --- small values --- */

static void put_flag(json_t *json, const char *key, bool flag)
{
    if (flag)
        json_put(json, key, json_true());
}

static void put_words(json_t *json, const char *key, const char *words)
{
    if (words && *words)
        json_put_words(json, key, words);
}

static json_t *masses_json(const mass *masses, int count, enum mass_unit unit)
{
    json_t *json = json_array();
    for (int i = 0; i < count; i++)
        json_add(json, json_decimal(mass_to(masses[i], unit)));
    return json;
}

static void put_count(json_t *json, const char *key, int count)
{
    if (count > 0)
        json_put_number(json, key, (size_t)count);
}

static void put_rest(json_t *json, const char *key, int low, int high)
{
    if (high <= 0)
        return;
    json_t *rest = json_object();
    json_put_number(rest, "low", (size_t)low);
    json_put_number(rest, "high", (size_t)high);
    json_put(json, key, rest);
}

static void put_line(const struct programme_view *view, json_t *json, struct span span)
{
    if (view->lines)
        json_put_words(json, "line", view_line(view, span));
}

/* --- loads --- */

static json_t *plating_json(const struct plating *plating)
{
    json_t *json = json_object();
    bool pounds = plating->disc_count > 0;
    if (plating->bar) {
        json_put_words(json, "bar", plating->bar->name.shown);
        json_put_mass(json, "bar_kg", plating->bar->mass);
    }
    json_put_mass(json, "collar_kg", plating->collar);
    json_put(json, "one_sleeve", json_boolean(plating->one_sleeve));
    json_put(json, "discs_kg", masses_json(plating->discs, plating->disc_count, MASS_IN_KG));
    for (int i = 0; i < plating->disc_count; i++)
        pounds = pounds && mass_written_in(plating->discs[i]) == MASS_IN_LB;
    if (pounds)
        json_put(json, "discs_lb", masses_json(plating->discs, plating->disc_count, MASS_IN_LB));
    return json;
}

static json_t *effort_json(const struct load *load)
{
    json_t *json = json_object();
    json_put_words(json, "kind", effort_kinds.names[load->effort]);
    put_range(json, "band", load->effort_band);
    return json;
}

/* What is meant and made in kilograms, and how. For body mass only what is added to it, unless everything was asked
 * for. */
static void put_kilograms(const struct programme_view *view, json_t *json, const struct load *load)
{
    mass body = view->private ? load->body : 0;
    json_put_mass(json, "added_kg", load->added);
    json_put_mass(json, "asked_kg", load->asked + body);
    json_put_mass(json, "asked_high_kg", load->asked_high);
    json_put_mass(json, "made_kg", load->made + body);
    put_flag(json, "rounded_down", load->rounded_down);
    if (load->plating.bar || load->plating.disc_count)
        json_put(json, "plates", plating_json(&load->plating));
}

static json_t *load_json(const struct programme_view *view, const struct load *load)
{
    json_t *json = json_object();
    json_put_words(json, "kind", load_kinds.names[load->kind]);
    put_range(json, "percent", load->percent);
    put_kilograms(view, json, load);
    if (load->pieces > 1)
        put_count(json, "pieces", load->pieces);
    put_words(json, "thing", load->thing);
    if (load->kind == LOAD_TEST) {
        json_put_words(json, "test", load->test->name.shown);
        put_range(json, "target", load->target);
    }
    if (load->best && (view->private || !load->best->private))
        json_put(json, "best", best_json(view, load->best));
    if (load->effort != EFFORT_NONE)
        json_put(json, "effort", effort_json(load));
    return json;
}

/* --- items --- */

static json_t *run_json(const struct programme_view *view, const struct block *block,
                        const struct item *item, const struct set_run *run)
{
    json_t *json = json_object(), *parts = json_array();
    json_put_number(json, "sets", (size_t)run->count);
    json_put_number(json, "done", (size_t)time_run_count(block, item, run));
    for (size_t i = 0; i < run->part_count; i++)
        json_add(parts, part_json(&run->parts[i]));
    json_put(json, "parts", parts);
    put_flag(json, "hold", run->hold);
    put_flag(json, "alternating", run->alternating);
    put_flag(json, "work_up", run->work_up);
    put_flag(json, "cut", run->cut);
    if (run->repeats > 1)
        put_count(json, "repeats", run->repeats);
    put_rest(json, "rest_inside", run->rest_low, run->rest_high);
    put_count(json, "within", run->within);
    put_words(json, "tempo", wording_tempo(view->arena, &run->tempo));
    json_put_number(json, "seconds", (size_t)run->seconds);
    json_put(json, "load", load_json(view, &run->load));
    return json;
}

static json_t *item_json(const struct programme_view *view, const struct block *block,
                         const struct item *item)
{
    json_t *json = json_object(), *runs = json_array();
    put_words(json, "ref", item->ref);
    json_put_words(json, "exercise", item->exercise->name.shown);
    put_flag(json, "filler", item->filler);
    put_count(json, "round", item->round);
    if (item->after >= 0)
        json_put_number(json, "after", (size_t)item->after);
    put_words(json, "sides_out", *wording_sides_out(view->arena, item) ? wording_sides_out(view->arena, item) : NULL);
    put_words(json, "why", item->why);
    put_words(json, "cue", item->cue);
    put_line(view, json, item->span);
    for (size_t i = 0; i < item->run_count; i++)
        json_add(runs, run_json(view, block, item, &item->runs[i]));
    json_put(json, "runs", runs);
    return json;
}

static json_t *block_json(const struct programme_view *view, const struct block *block)
{
    json_t *json = json_object(), *items = json_array();
    if (block->letter)
        json_put_words(json, "letter", arena_printf(view->arena, "%c", block->letter));
    json_put_words(json, "kind", block_kinds.names[block->kind]);
    json_put_number(json, "sets", (size_t)block->sets);
    put_count(json, "work", block->work);
    put_count(json, "interval", block->interval);
    put_rest(json, "rest", block->rest_low, block->rest_high);
    if (block->times > 1) {
        put_count(json, "times", block->times);
        put_count(json, "times_rest", block->times_rest);
    }
    put_count(json, "keep", block->keep);
    put_count(json, "poor_day_sets", block->poor_sets);
    json_put_number(json, "starts", (size_t)block->starts);
    json_put_number(json, "seconds", (size_t)block->seconds);
    put_line(view, json, block->span);
    for (size_t i = 0; i < block->item_count; i++)
        json_add(items, item_json(view, block, &block->items[i]));
    json_put(json, "items", items);
    return json;
}

/* --- occasions --- */

static void put_activity(json_t *json, const struct occasion *occasion)
{
    json_put_words(json, "activity", occasion->activity->name.shown);
    put_count(json, "rounds", occasion->rounds);
    put_count(json, "round_seconds", occasion->round_seconds);
    put_range(json, "metres", occasion->metres);
    put_range(json, "pulse", occasion->pulse);
}

static void put_session(const struct programme_view *view, json_t *json,
                        const struct occasion *occasion)
{
    json_t *blocks = json_array();
    json_put_words(json, "session", occasion->session->name.shown);
    json_put_number(json, "column", (size_t)occasion->column + 1);
    for (size_t i = 0; i < occasion->block_count; i++)
        json_add(blocks, block_json(view, &occasion->blocks[i]));
    json_put(json, "blocks", blocks);
}

/* "+07:00", as ISO 8601 writes it. */
static const char *offset_words(struct arena *arena, int ahead)
{
    int size = ahead < 0 ? -ahead : ahead;
    return arena_printf(arena, "%c%02d:%02d", ahead < 0 ? '-' : '+', size / 3600, size / 60 % 60);
}

static json_t *occasion_json(const struct programme_view *view, const struct occasion *occasion)
{
    json_t *json = json_object();
    json_put_day(view, json, "day", occasion->date);
    json_put_words(json, "weekday", view_weekday(occasion->date));
    if (occasion->clock >= 0)
        json_put_words(json, "clock", view_clock(view->arena, occasion->clock));
    if (occasion->zone)
        json_put_words(json, "zone", zone_name(occasion->zone));
    if (occasion->zone && occasion->clock >= 0)
        json_put_words(json, "utc_offset", offset_words(view->arena, occasion->ahead));
    json_put_words(json, "camp", occasion->camp->name.shown);
    json_put_words(json, "athlete", occasion->athlete->name.shown);
    if (occasion->gym)
        json_put_words(json, "gym", occasion->gym->name.shown);
    json_put_number(json, "week", (size_t)occasion->week);
    if (occasion->weeks_out >= 0)
        json_put_number(json, "weeks_out", (size_t)occasion->weeks_out);
    if (occasion->phase)
        json_put_words(json, "phase", occasion->phase->name.shown);
    json_put_number(json, "seconds", (size_t)occasion->seconds);
    put_range(json, "rpe", occasion->rpe);
    if (occasion->outcome.timed)
        json_put_number(json, "done_seconds", (size_t)occasion->outcome.seconds);
    put_range(json, "done_rpe", occasion->outcome.rpe);
    if (occasion->log)
        json_put(json, "log", log_json(view, occasion->log));
    put_flag(json, "optional", occasion->optional);
    put_flag(json, "deload", occasion->deload != 0);
    if (occasion->zones)
        json_put_words(json, "time_zones", wording_zones_written(view->arena, occasion->zones));
    if (occasion->attendance && occasion->attendance->run_by)
        json_put_words(json, "run_by", occasion->attendance->run_by);
    put_flag(json, "held", occasion->held);
    put_line(view, json, occasion->span);
    if (occasion->session)
        put_session(view, json, occasion);
    else
        put_activity(json, occasion);
    return json;
}

/* --- athletes and camps --- */

static int by_name(const void *left, const void *right)
{
    /* Everything sorted here has its name as the first member. */
    const struct name *a = *(const struct name *const *)left;
    const struct name *b = *(const struct name *const *)right;
    return strcmp(a->folded, b->folded);
}

/* COUNT pointers of ITEMS, sorted by name, in the view's arena. */
static const void **named_order(const struct programme_view *view, const void *items, size_t count)
{
    const void **order = arena_alloc(view->arena, (count + 1) * sizeof *order);
    if (count)
        memcpy(order, items, count * sizeof *order);
    if (count > 1)
        qsort(order, count, sizeof *order, by_name);
    return order;
}

static bool shows_athlete(const struct programme_view *view, const struct athlete *athlete)
{
    for (size_t i = 0; i < view->count; i++)
        if (view->occasions[i]->athlete == athlete)
            return true;
    return false;
}

static bool shows_camp(const struct programme_view *view, const struct camp *camp)
{
    for (size_t i = 0; i < view->count; i++)
        if (view->occasions[i]->camp == camp)
            return true;
    return false;
}

static int by_first_day(const void *left, const void *right)
{
    const struct season *a = *(const struct season *const *)left, *b = *(const struct season *const *)right;
    return (a->first > b->first) - (a->first < b->first);
}

/* The seasons of what is shown, by their days. */
static json_t *seasons_json(const struct programme_view *view)
{
    const struct programme *programme = view->programme;
    json_t *seasons = json_array();
    const struct season **order = arena_alloc(view->arena, (programme->season_count + 1) * sizeof *order);
    for (size_t i = 0; i < programme->season_count; i++)
        order[i] = programme->seasons[i];
    qsort(order, programme->season_count, sizeof *order, by_first_day);
    for (size_t s = 0; s < programme->season_count; s++) {
        bool shown = false;
        for (size_t i = 0; i < view->count && !shown; i++)
            shown = season_has(order[s], view->occasions[i]->date);
        if (!shown)
            continue;
        json_t *json = json_object();
        json_put_words(json, "name", order[s]->name.shown);
        json_put_day(view, json, "first", order[s]->first);
        json_put_day(view, json, "last", order[s]->last);
        json_add(seasons, json);
    }
    return seasons;
}

/* --- stance ledgers --- */

static json_t *limb_json(const struct ledger *ledger, enum unit unit, enum limb limb)
{
    const struct range *amounts = ledger->limbs[unit][limb];
    json_t *json = json_object();
    json_put_words(json, "unit", units.names[unit]);
    json_put_words(json, "limb", limbs.names[limb]);
    json_put(json, "orthodox", range_json(amounts[STANCE_ORTHODOX]));
    json_put(json, "southpaw", range_json(amounts[STANCE_SOUTHPAW]));
    json_put(json, "no_stance", range_json(amounts[STANCE_UNKNOWN]));
    return json;
}

static json_t *ledger_json(const struct ledger *ledger)
{
    json_t *rows = json_array();
    for (int unit = 0; unit < UNIT_COUNT; unit++)
        for (int limb = 0; limb < LIMB_COUNT; limb++)
            if (ledger_limb(ledger, (enum unit)unit, (enum limb)limb).high > 0)
                json_add(rows, limb_json(ledger, (enum unit)unit, (enum limb)limb));
    return rows;
}

/* The camps that the COUNT occasions of a week belong to, each once, with which week of the camp it is. A week of a
 * single camp also has these as members of its own. */
static void put_camps(json_t *json, const struct occasion *const *week, size_t count)
{
    json_t *camps = json_array();
    size_t named = 0;
    for (size_t i = 0; i < count; i++) {
        bool again = false;
        for (size_t before = 0; before < i && !again; before++)
            again = week[before]->camp == week[i]->camp;
        if (again)
            continue;
        json_t *camp = json_object();
        json_put_words(camp, "camp", week[i]->camp->name.shown);
        json_put_number(camp, "week", (size_t)week[i]->week);
        json_add(camps, camp);
        named++;
    }
    if (named == 1) {
        json_put_words(json, "camp", week[0]->camp->name.shown);
        json_put_number(json, "week", (size_t)week[0]->week);
    }
    json_put(json, "camps", camps);
}

/* A ledger for each week of an athlete, whatever camps it includes. */
static json_t *ledgers_json(const struct programme_view *view)
{
    json_t *ledgers = json_array();
    const struct occasion **order = view_order(view, VIEW_BY_ATHLETE);
    for (size_t i = 0, end; i < view->count; i = end) {
        struct ledger ledger = {0};
        for (end = i; end < view->count && view_same_week(order[i], order[end]); end++)
            ledger_occasion(&ledger, order[end]);
        json_t *json = json_object();
        json_put_words(json, "athlete", order[i]->athlete->name.shown);
        put_camps(json, order + i, end - i);
        json_put_words(json, "starts", view_date(view->arena, date_monday(order[i]->date)));
        json_put(json, "limbs", ledger_json(&ledger));
        put_flag(json, "open", ledger.open);
        json_add(ledgers, json);
    }
    return ledgers;
}

/* --- the whole --- */

void programme_json(const struct programme_view *view, struct text *out)
{
    const struct programme *programme = view->programme;
    json_t *json = json_object(), *camps = json_array(), *athletes = json_array();
    json_t *occasions = json_array();
    json_put_words(json, "format", "bellsheet programme");
    json_put_number(json, "version", PROGRAMME_FORM);
    json_put_words(json, "program", view->version);
    const void **order = named_order(view, programme->camps, programme->camp_count);
    for (size_t i = 0; i < programme->camp_count; i++)
        if (shows_camp(view, order[i]))
            json_add(camps, camp_json(view, order[i]));
    json_put(json, "camps", camps);
    if (programme->season_count)
        json_put(json, "seasons", seasons_json(view));
    order = named_order(view, programme->athletes, programme->athlete_count);
    for (size_t i = 0; i < programme->athlete_count; i++)
        if (shows_athlete(view, order[i]))
            json_add(athletes, athlete_json(view, order[i]));
    json_put(json, "athletes", athletes);
    const struct occasion **dated = view_order(view, VIEW_BY_DAY);
    for (size_t i = 0; i < view->count; i++)
        json_add(occasions, occasion_json(view, dated[i]));
    json_put(json, "occasions", occasions);
    if (view->ledgers)
        json_put(json, "ledgers", ledgers_json(view));
    if (view->rooms)
        json_put(json, "rooms", rooms_json(view));
    json_write(json, out);
}
