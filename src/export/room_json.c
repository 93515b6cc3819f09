/* room_json.c - the timetable of a squad's room for other programs; see share/schema/programme-3.schema.json. */
#include "export/json_text.h"
#include "export/room_view.h"
#include "model/athlete.h"
#include "model/exercise.h"
#include "model/gym.h"
#include "model/occasion.h"
#include "model/season.h"

static json_t *units_json(const struct room *room, const struct room_row *row)
{
    json_t *held = json_array();
    for (size_t i = 0; i < row->unit_count; i++) {
        json_t *unit = json_object();
        json_put_words(unit, "kind", room->kinds[row->units[i].kind].name);
        json_put_number(unit, "number", (size_t)row->units[i].number);
        if (row->units[i].discs)
            json_put_number(unit, "discs", (size_t)row->units[i].discs);
        json_add(held, unit);
    }
    return held;
}

static json_t *row_json(const struct programme_view *view, const struct room_view *room, const struct room_row *row)
{
    const struct squad_task *task = squad_task(room->squad, row);
    json_t *json = json_object();
    json_put_words(json, "athlete", room->squad->members[row->athlete]->athlete->name.shown);
    json_put_words(json, "block", room->squad->room.blocks[row->block].name);
    json_put_number(json, "set", (size_t)row->set + 1);
    json_put_number(json, "item", (size_t)row->item + 1);
    if (task->item) {
        json_put_words(json, "line", squad_line(view->arena, task));
        json_put_words(json, "exercise", task->item->exercise->name.shown);
    }
    if (task->reps)
        json_put_number(json, "warm_up_reps", (size_t)task->reps);
    json_put_number(json, "start", (size_t)row->start);
    json_put_number(json, "end", (size_t)row->end);
    json_put(json, "units", units_json(&room->squad->room, row));
    return json;
}

static json_t *fare_json(const struct room_view *room, size_t athlete)
{
    const struct room_fare *fare = &room->table->fares[athlete];
    json_t *json = json_object();
    json_put_words(json, "athlete", room->squad->members[athlete]->athlete->name.shown);
    json_put_number(json, "arrives", (size_t)room->squad->room.athletes[athlete].arrival);
    json_put_number(json, "alone", (size_t)fare->alone);
    json_put_number(json, "finish", (size_t)fare->finish);
    json_put_number(json, "wait", (size_t)fare->wait);
    if (fare->missed)
        json_put_number(json, "rounds_missed", (size_t)fare->missed);
    return json;
}

static json_t *busy_json(const struct room_view *room, const struct room_busy *busy)
{
    json_t *json = json_object();
    json_put_words(json, "kind", room->squad->room.kinds[busy->kind].name);
    json_put_number(json, "number", (size_t)busy->number);
    json_put_number(json, "seconds", (size_t)busy->seconds);
    return json;
}

static void put_table(const struct programme_view *view, const struct room_view *room, json_t *json)
{
    const struct room_table *table = room->table;
    json_t *fares = json_array(), *rows = json_array(), *busy = json_array();
    json_put_number(json, "finish", (size_t)table->finish);
    json_put_number(json, "bound", (size_t)table->bound);
    json_put_number(json, "wait", (size_t)table->wait);
    json_put_number(json, "discs", (size_t)table->discs);
    if (table->bottleneck != ROOM_NONE)
        json_put_words(json, "bottleneck", room->squad->room.kinds[table->bottleneck].name);
    for (size_t i = 0; i < room->squad->count; i++)
        if (room->seen[i])
            json_add(fares, fare_json(room, i));
    for (size_t i = 0; i < table->row_count; i++)
        if (room->seen[table->rows[i].athlete])
            json_add(rows, row_json(view, room, &table->rows[i]));
    for (size_t i = 0; i < table->busy_count; i++)
        json_add(busy, busy_json(room, &table->busy[i]));
    json_put(json, "athletes", fares);
    json_put(json, "busy", busy);
    json_put(json, "rows", rows);
}

static json_t *room_json(const struct programme_view *view, const struct room_view *room)
{
    const struct occasion *first = room->squad->members[0];
    json_t *json = json_object();
    json_put_words(json, "camp", first->camp->name.shown);
    json_put_words(json, "session", first->session->name.shown);
    json_put_words(json, "day", view_date(view->arena, first->date));
    json_put_words(json, "clock", view_clock(view->arena, first->clock));
    json_put_words(json, "gym", room->squad->gym->name.shown);
    if (room->squad->room.doors != ROOM_NONE)
        json_put_number(json, "doors", (size_t)room->squad->room.doors);
    if (!room->table)
        json_put_words(json, "refused", "too many sets for a timetable");
    else if (room->table->refused)
        json_put_words(json, "refused", room->table->refused);
    else
        put_table(view, room, json);
    return json;
}

json_t *rooms_json(const struct programme_view *view)
{
    struct room_view *rooms;
    size_t count = room_views(view, &rooms);
    json_t *json = json_array();
    for (size_t i = 0; i < count; i++)
        json_add(json, room_json(view, &rooms[i]));
    return json;
}
