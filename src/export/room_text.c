/* room_text.c - the timetable of a squad's room for people: athlete by athlete, and station by station. */
#include "export/columns.h"
#include "export/room_view.h"
#include "model/athlete.h"
#include "model/exercise.h"
#include "model/gym.h"
#include "model/occasion.h"
#include "wording/wording.h"

#define DOT " " WORDING_DOT " "

static const char *hour(const struct programme_view *view, const struct room_view *room, int seconds)
{
    int at = room->squad->members[0]->clock + seconds;
    return arena_printf(view->arena, "%02d:%02d:%02d", at / 3600 % 24, at / 60 % 60, at % 60);
}

/* "set 2", "warm up, 5 reps"; "" at a bell. */
static const char *set_words(const struct programme_view *view, const struct room_view *room, const struct room_row *row,
                             const struct squad_task *task)
{
    const struct room *plan = &room->squad->room;
    const struct room_part *part = &plan->athletes[row->athlete].parts[row->block];
    int number = 0;
    if (!task->item)
        return "";
    if (task->reps)
        return arena_printf(view->arena, "warm up " WORDING_TIMES " %d", task->reps);
    for (int i = 0; i <= row->set; i++)
        number += !part->sets[i].ramp && part->sets[i].line == part->sets[row->set].line;
    return arena_printf(view->arena, "set %d", number);
}

static const char *unit_words(const struct programme_view *view, const struct room_view *room, const struct room_row *row)
{
    struct text out = {.arena = view->arena};
    for (size_t i = 0; i < row->unit_count; i++) {
        const struct room_kind *kind = &room->squad->room.kinds[row->units[i].kind];
        text_addf(&out, "%s%s", i ? ", " : "", kind->name);
        if (kind->count > 1)
            text_addf(&out, " %d", row->units[i].number);
        if (row->units[i].discs)
            text_addf(&out, " (%d disc%s to change)", row->units[i].discs, row->units[i].discs == 1 ? "" : "s");
    }
    return text_keep(view->arena, &out);
}

static const char *exercise_words(const struct squad_task *task)
{
    return task->item ? task->item->exercise->name.shown : "the bell";
}

static void add_athlete(const struct programme_view *view, const struct room_view *room, int athlete, struct text *out)
{
    struct columns columns = {.arena = view->arena};
    const struct room_fare *fare = &room->table->fares[athlete];
    text_addf(out, "    %s" DOT "done at %s", room->squad->members[athlete]->athlete->name.shown,
              hour(view, room, fare->finish));
    if (fare->missed)
        text_addf(out, ", %d round%s missed", fare->missed, fare->missed == 1 ? "" : "s");
    text_add_char(out, '\n');
    for (size_t i = 0; i < room->table->row_count; i++) {
        const struct room_row *row = &room->table->rows[i];
        if (row->athlete != athlete)
            continue;
        const struct squad_task *task = squad_task(room->squad, row);
        const char *const cells[] = {hour(view, room, row->start), squad_line(view->arena, task),
                                     exercise_words(task), set_words(view, room, row, task),
                                     room_row_load(view, task), unit_words(view, room, row)};
        columns_add(&columns, cells, sizeof cells / sizeof *cells);
    }
    columns_write(&columns, 6, MOST_COLUMNS, out);
}

static const struct room_unit *unit_of(const struct room_row *row, int kind, int number)
{
    for (size_t i = 0; i < row->unit_count; i++)
        if (row->units[i].kind == kind && row->units[i].number == number)
            return &row->units[i];
    return NULL;
}

static void add_station(const struct programme_view *view, const struct room_view *room, const struct room_busy *busy,
                        struct text *out)
{
    struct columns columns = {.arena = view->arena};
    const struct room_kind *kind = &room->squad->room.kinds[busy->kind];
    text_addf(out, "    %s", kind->name);
    if (kind->count > 1)
        text_addf(out, " %d", busy->number);
    text_addf(out, DOT "busy %s\n", wording_clock(view->arena, busy->seconds));
    for (size_t i = 0; i < room->table->row_count; i++) {
        const struct room_row *row = &room->table->rows[i];
        const struct room_unit *unit = unit_of(row, busy->kind, busy->number);
        if (!unit)
            continue;
        const struct squad_task *task = squad_task(room->squad, row);
        const char *discs = unit->discs ? arena_printf(view->arena, "%d disc%s to change", unit->discs,
                                                       unit->discs == 1 ? "" : "s")
                                        : "";
        const char *const cells[] = {hour(view, room, row->start), room->squad->room.athletes[row->athlete].name,
                                     squad_line(view->arena, task), set_words(view, room, row, task),
                                     room_row_load(view, task), discs};
        columns_add(&columns, cells, sizeof cells / sizeof *cells);
    }
    columns_write(&columns, 6, MOST_COLUMNS, out);
}

/* When everything ends, how long one athlete alone takes, and what decides the end. */
static void add_verdict(const struct programme_view *view, const struct room_view *room, struct text *out)
{
    const struct room_table *table = room->table;
    const struct room *plan = &room->squad->room;
    int longest = 0;
    for (size_t i = 0; i < room->squad->count; i++)
        longest = table->fares[i].alone > longest ? table->fares[i].alone : longest;
    text_addf(out, "  all are done at %s, %s from the start; one alone takes %s\n", hour(view, room, table->finish),
              wording_clock(view->arena, table->finish), wording_clock(view->arena, longest));
    text_addf(out, "  %s; %s\n", room_bottleneck_words(view->arena, plan, table), room_bound_words(view->arena, table));
    for (size_t i = 0; i < room->squad->count; i++) {
        const char *waits = room->seen[i] ? room_wait_words(view->arena, plan, table, (int)i) : NULL;
        if (waits)
            text_addf(out, "  %s\n", waits);
    }
}

static void add_room(const struct programme_view *view, const struct room_view *room, struct text *out)
{
    const struct occasion *first = room->squad->members[0];
    text_addf(out, "\nThe room" DOT "%s %s %s" DOT "%s" DOT "%s\n", view_weekday(first->date),
              view_date(view->arena, first->date), view_clock(view->arena, first->clock),
              first->session->name.shown, room->squad->gym->name.shown);
    if (!room->table) {
        text_add(out, "  too many sets for a timetable\n");
        return;
    }
    if (room->table->refused) {
        text_addf(out, "  there is no timetable: %s\n", room->table->refused);
        return;
    }
    add_verdict(view, room, out);
    for (size_t i = 0; i < room->squad->count; i++)
        if (room->seen[i])
            add_athlete(view, room, (int)i, out);
    for (size_t i = 0; room->all_seen && i < room->table->busy_count; i++)
        add_station(view, room, &room->table->busy[i], out);
}

void rooms_text(const struct programme_view *view, struct text *out)
{
    struct room_view *rooms;
    size_t count = room_views(view, &rooms);
    for (size_t i = 0; i < count; i++)
        add_room(view, &rooms[i], out);
}
