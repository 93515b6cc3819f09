#include "room/timetable.h"

#include <stdlib.h>

#include "room/tidy.h"

/* --- rows --- */

static int kind_of_unit(const struct room_chains *chains, int unit)
{
    int kind = (int)chains->room->kind_count - 1;
    while (chains->first_unit[kind] > unit || !chains->room->kinds[kind].count)
        kind--;
    return kind;
}

static struct room_unit *name_units(struct arena *arena, const struct room_chains *chains, const int *units,
                                          int count)
{
    struct room_unit *names = arena_alloc(arena, (size_t)(count + 1) * sizeof *names);
    for (int i = 0; i < count; i++) {
        int kind = kind_of_unit(chains, units[i]);
        names[i] = (struct room_unit){kind, units[i] - chains->first_unit[kind] + 1, 0};
    }
    return names;
}

static struct room_row row_of(struct arena *arena, const struct room_chains *chains, const struct room_placed *placed)
{
    const struct room_leg *leg = &chains->chains[placed->athlete].legs[placed->leg];
    const struct room_task *task = &leg->steps[placed->step].tasks[placed->task];
    return (struct room_row){.athlete = placed->athlete,
                             .block = leg->block,
                             .set = task->set,
                             .item = task->place,
                             .start = placed->start,
                             .end = placed->start + task->item->work,
                             .what = task->item,
                             .units = name_units(arena, chains, placed->units, placed->unit_count),
                             .unit_count = (size_t)placed->unit_count};
}

/* Those who answer the opening bell, with its kit dealt out by number in squad order. */
static size_t opening_rows(struct arena *arena, const struct room_chains *chains, struct room_row *rows)
{
    const struct room *room = chains->room;
    int *given = arena_alloc(arena, (room->kind_count + 1) * sizeof *given);
    size_t count = 0;
    for (int i = 0; i < chains->count; i++) {
        if (chains->chains[i].joined == ROOM_NONE)
            continue;
        const struct room_item *item = room->athletes[i].parts[0].sets[0].items;
        struct room_unit *units = arena_alloc(arena, (size_t)(chains->unit_count + 1) * sizeof *units);
        size_t taken = 0;
        for (size_t j = 0; j < item->need_count; j++) {
            for (int k = 0; k < item->needs[j].count; k++)
                units[taken++] = (struct room_unit){item->needs[j].kind, ++given[item->needs[j].kind], 0};
        }
        rows[count++] = (struct room_row){.athlete = i, .start = chains->chains[i].joined, .end = chains->opening_ends,
                                          .what = item, .units = units, .unit_count = taken};
    }
    return count;
}

static int by_start(const void *a, const void *b)
{
    const struct room_row *x = a, *y = b;
    const int keys[][2] = {{x->start, y->start}, {x->athlete, y->athlete}, {x->end, y->end}, {x->item, y->item}};
    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++) {
        if (keys[i][0] != keys[i][1])
            return keys[i][0] < keys[i][1] ? -1 : 1;
    }
    return 0;
}

static struct room_row *make_rows(struct arena *arena, const struct room_chains *chains, const struct room_log *log,
                                  struct room_table *table)
{
    struct room_row *rows = arena_alloc(arena, (log->count + (size_t)chains->count + 1) * sizeof *rows);
    size_t count = opening_rows(arena, chains, rows);
    for (size_t i = 0; i < log->count; i++)
        rows[count++] = row_of(arena, chains, &log->items[i]);
    if (count)
        qsort(rows, count, sizeof *rows, by_start);
    if (!chains->scarce)
        room_tidy(log->arena, chains, rows, count);
    if (count)
        qsort(rows, count, sizeof *rows, by_start);
    table->rows = rows;
    table->row_count = count;
    return rows;
}

/* --- figures --- */

/* Seconds that are planned between two rows of one athlete. */
static int planned_between(const struct room *room, const struct room_row *a, const struct room_row *b)
{
    const struct room_part *part = &room->athletes[b->athlete].parts[b->block];
    if (a->block != b->block)
        return room->between;
    return a->set == b->set ? part->sets[b->set].items[b->item].gap_least : part->sets[a->set].rest;
}

static struct room_fare fare_of(const struct room_chains *chains, const struct room_table *table, int athlete)
{
    const struct room *room = chains->room;
    const struct room_chain *chain = &chains->chains[athlete];
    const struct room_row *last = NULL;
    struct room_fare fare = {.alone = chain->alone, .finish = room->athletes[athlete].arrival,
                             .missed = chain->missed, .before = ROOM_NONE};
    int most = 0;
    for (size_t i = 0; i < table->row_count; i++) {
        const struct room_row *row = &table->rows[i];
        if (row->athlete != athlete)
            continue;
        int wait = row->start - fare.finish - (last ? planned_between(room, last, row) : 0);
        if (wait > most) {
            most = wait;
            fare.before = (int)i;
        }
        fare.wait += wait;
        fare.finish = row->end;
        last = row;
    }
    if (2 * most <= fare.wait)
        fare.before = ROOM_NONE;
    return fare;
}

static void make_fares(struct arena *arena, const struct room_chains *chains, struct room_table *table)
{
    struct room_fare *fares = arena_alloc(arena, (size_t)chains->count * sizeof *fares);
    for (int i = 0; i < chains->count; i++) {
        fares[i] = fare_of(chains, table, i);
        table->wait += fares[i].wait;
    }
    for (size_t i = 0; i < table->row_count; i++) {
        if (table->rows[i].end > table->finish)
            table->finish = table->rows[i].end;
    }
    table->fares = fares;
}

/* Adds one turn at a unit, after the turn LAST, if any. The pauses around bells are long enough for any change. */
static void add_turn(const struct room *room, struct room_busy *busy, struct room_unit *unit, const struct room_row *row,
                     const struct room_row *last)
{
    busy->seconds += row->end - row->start;
    if (!last || room->blocks[row->block].bell)
        return;
    if (room->kinds[unit->kind].seat)
        unit->discs = room_discs_between(last->what, row->what);
    busy->seconds += (last->athlete != row->athlete ? room->changeover : 0) + room->disc * unit->discs;
}

/* Adds up the turns of each unit and the time between them; rows are sorted by start. */
static void make_busy(struct arena *arena, struct arena *scratch, const struct room_chains *chains,
                      struct room_row *rows, struct room_table *table)
{
    size_t units = (size_t)chains->unit_count + 1;
    struct room_busy *busy = arena_alloc(arena, units * sizeof *busy);
    const struct room_row **last = arena_alloc(scratch, units * sizeof(*last));
    for (size_t i = 0; i < table->row_count; i++) {
        for (size_t j = 0; j < rows[i].unit_count; j++) {
            struct room_unit *unit = &rows[i].units[j];
            int at = chains->first_unit[unit->kind] + unit->number - 1;
            busy[at].kind = unit->kind;
            busy[at].number = unit->number;
            add_turn(chains->room, &busy[at], unit, &rows[i], last[at]);
            table->discs += unit->discs;
            if (!chains->room->blocks[rows[i].block].bell)
                last[at] = &rows[i];
        }
    }
    for (size_t i = 0; i < units; i++) {
        if (busy[i].seconds)
            busy[table->busy_count++] = busy[i];
    }
    table->busy = busy;
}

static int find_bottleneck(const struct room *room, const struct room_table *table)
{
    long most = 0;
    int bottleneck = ROOM_NONE;
    for (int kind = 0; kind < (int)room->kind_count; kind++) {
        long sum = 0;
        for (size_t i = 0; i < table->busy_count; i++)
            sum += table->busy[i].kind == kind ? table->busy[i].seconds : 0;
        /* sum / count > most / count of the bottleneck */
        if (sum && (bottleneck == ROOM_NONE || sum * room->kinds[bottleneck].count > most * room->kinds[kind].count)) {
            most = sum;
            bottleneck = kind;
        }
    }
    return bottleneck;
}

void room_table_fill(struct arena *arena, const struct room_chains *chains, const struct room_log *log,
                     const struct room_bound *bound, struct room_table *table)
{
    const struct room *room = chains->room;
    table->bound = bound->finish;
    table->longest = bound->longest;
    struct room_row *rows = make_rows(arena, chains, log, table);
    make_fares(arena, chains, table);
    make_busy(arena, log->arena, chains, rows, table);
    if (table->finish > bound->longest)
        table->bottleneck = find_bottleneck(room, table);
    if (room->doors != ROOM_NONE && table->finish > room->doors)
        table->over = table->finish - room->doors;
}
