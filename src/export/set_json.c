/* set_json.c - see set_json.h. */
#include "export/set_json.h"

#include "export/json_text.h"
#include "figures/mass.h"
#include "model/exercise.h"

json_t *range_json(struct range range)
{
    json_t *json = json_object();
    json_put(json, "low", json_decimal(range.low));
    json_put(json, "high", json_decimal(range.high));
    return json;
}

void put_range(json_t *json, const char *key, struct range range)
{
    if (range.high > 0)
        json_put(json, key, range_json(range));
}

json_t *part_json(const struct part *part)
{
    static const char *const sides[] = {"whole",    "each side", "each way", "orthodox",
                                        "southpaw", "left",      "right"};
    static const struct {
        unsigned worker;
        const char *name;
    } limb_names[] = {{WORKER_LEAD_HAND, "lead hand"}, {WORKER_REAR_HAND, "rear hand"},
                      {WORKER_LEAD_LEG, "lead leg"},   {WORKER_REAR_LEG, "rear leg"},
                      {WORKER_LEAD_HIP, "lead hip"},   {WORKER_REAR_HIP, "rear hip"}};
    json_t *json = json_object();
    if (part->max)
        json_put(json, "max", json_true());
    else
        json_put(json, "amount", range_json(part->amount));
    json_put_words(json, "unit", units.names[part->unit]);
    json_put_words(json, "side", sides[part->side]);
    for (size_t i = 0; i < sizeof limb_names / sizeof *limb_names; i++)
        if (part->workers == limb_names[i].worker)
            json_put_words(json, "limb", limb_names[i].name);
    if (part->assumed_each)
        json_put(json, "assumed_each", json_true());
    return json;
}

/* --- logs --- */

static json_t *lifted_json(const struct logged_set *set)
{
    json_t *json = json_object();
    json_put_words(json, "kind", load_kinds.names[set->kind]);
    json_put_mass(json, set->kind == LOAD_BODY ? "added_kg" : "kg", set->load);
    if (set->pieces > 1)
        json_put_number(json, "pieces", (size_t)set->pieces);
    json_put_words(json, "thing", set->thing);
    if (set->effort != EFFORT_NONE) {
        json_t *effort = json_object();
        json_put_words(effort, "kind", effort_kinds.names[set->effort]);
        put_range(effort, "band", set->effort_band);
        json_put(json, "effort", effort);
    }
    return json;
}

static json_t *logged_set_json(const struct logged_set *set)
{
    json_t *json = json_object(), *parts = json_array();
    json_put_number(json, "sets", (size_t)set->count);
    for (size_t i = 0; i < set->part_count; i++)
        json_add(parts, part_json(&set->parts[i]));
    json_put(json, "parts", parts);
    json_put(json, "load", lifted_json(set));
    if (set->speed > 0)
        json_put(json, "speed", json_decimal(set->speed));
    return json;
}

static json_t *logged_line_json(const struct programme_view *view, const struct logged_line *line)
{
    json_t *json = json_object(), *sets = json_array();
    json_put_words(json, "ref", line->ref);
    if (line->exercise)
        json_put_words(json, "exercise", line->exercise->name.shown);
    for (size_t i = 0; i < line->set_count; i++)
        json_add(sets, logged_set_json(&line->sets[i]));
    json_put(json, "sets", sets);
    if (line->skipped)
        json_put(json, "skipped", json_true());
    if (view->private)
        json_put_words(json, "because", line->because);
    return json;
}

json_t *log_json(const struct programme_view *view, const struct done *log)
{
    json_t *json = json_object(), *lines = json_array();
    if (log->as_planned)
        json_put(json, "as_planned", json_true());
    if (log->missed)
        json_put(json, "missed", json_true());
    if (view->private) {
        json_put_words(json, "because", log->because);
        json_put_words(json, "note", log->note);
    }
    for (size_t i = 0; i < log->line_count; i++)
        json_add(lines, logged_line_json(view, &log->lines[i]));
    json_put(json, "lines", lines);
    return json;
}
