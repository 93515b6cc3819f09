#include "room/bodies.h"

#include <stdlib.h>

struct room_collector {
    struct arena *arena;
    const struct room_chains *chains;
    const struct room_piece *piece;
    struct room_bodies bodies;
    size_t capacity;
    int *last; /* of each kind: when it was let go in this leg; ROOM_NONE */
};

int room_legs_end(const struct room_piece *piece, int athlete)
{
    return piece->to[athlete] - (piece->last ? 0 : 1);
}

static void add_body(struct room_collector *to, const struct room_body *body)
{
    struct room_bodies *bodies = &to->bodies;
    bodies->items = arena_grow(to->arena, bodies->items, bodies->count, &to->capacity, sizeof *bodies->items);
    bodies->items[bodies->count] = *body;
    bodies->items[bodies->count].place = (int)bodies->count;
    bodies->count++;
}

/* Adds a body for each kind that ITEM needs, at PLACE with its head and tail, and lowers the kind's gap to the one
 * after the athlete's previous use. */
static void add_item(struct room_collector *to, const struct room_item *item, struct room_body place)
{
    place.work = item->work;
    for (size_t i = 0; i < item->need_count; i++) {
        place.kind = item->needs[i].kind;
        int *last = &to->last[place.kind], *gap = &to->bodies.gaps[place.kind];
        if (*last != ROOM_NONE && place.head - *last < *gap)
            *gap = place.head - *last;
        *last = place.head + item->work;
        for (int j = 0; j < item->needs[i].count; j++)
            add_body(to, &place);
    }
}

/* --- one athlete's uses --- */

static bool may_swap(const struct room *room, int a, int b)
{
    return room->order != ROOM_AS_WRITTEN && room->blocks[a].free && room->blocks[b].free;
}

/* Least seconds of the piece's legs that always come before (or after) LEG. */
static int beside(const struct room_collector *to, int athlete, int leg, bool before)
{
    const struct room_leg *legs = to->chains->chains[athlete].legs;
    int from = before ? to->piece->from[athlete] : leg + 1, end = before ? leg : room_legs_end(to->piece, athlete);
    int seconds = 0;
    for (int i = from; i < end; i++) {
        if (!may_swap(to->chains->room, legs[i].block, legs[leg].block))
            seconds += to->chains->room->between + legs[i].length;
    }
    return seconds;
}

static void add_leg(struct room_collector *to, int athlete, int index, int base)
{
    const struct room_leg *leg = &to->chains->chains[athlete].legs[index];
    int head = base + beside(to, athlete, index, true);
    int end = head + leg->length + beside(to, athlete, index, false);
    for (int i = 0; i < leg->step_count; i++) {
        const struct room_step *step = &leg->steps[i];
        head += step->lead;
        for (int j = 0; j < step->task_count; j++) {
            const struct room_item *item = step->tasks[j].item;
            head += j ? item->gap_least : 0;
            add_item(to, item, (struct room_body){.head = head, .tail = end - head - item->work,
                                                  .athlete = athlete, .leg = index, .step = i});
            head += item->work;
        }
    }
}

/* Kit of bells is left out: it is there at once. */
static void add_athlete(struct room_collector *to, int athlete, int base)
{
    size_t kinds = to->chains->room->kind_count;
    int between = to->chains->room->between;
    bool *used = arena_alloc(to->arena, (kinds + 1) * sizeof *used);
    for (int i = to->piece->from[athlete]; i < room_legs_end(to->piece, athlete); i++) {
        for (size_t k = 0; k < kinds; k++)
            to->last[k] = ROOM_NONE;
        if (to->chains->chains[athlete].legs[i].bell)
            continue;
        add_leg(to, athlete, i, base);
        for (size_t k = 0; k < kinds; k++) {
            if (to->last[k] == ROOM_NONE)
                continue;
            if (used[k] && between < to->bodies.gaps[k])
                to->bodies.gaps[k] = between;
            used[k] = true;
        }
    }
}

static int by_tail(const void *a, const void *b)
{
    const struct room_body *x = a, *y = b;
    if (x->tail != y->tail)
        return x->tail > y->tail ? -1 : 1;
    return x->place - y->place;
}

struct room_bodies room_bodies_of(struct arena *arena, const struct room_chains *chains,
                                  const struct room_piece *piece, const int *bases)
{
    size_t kinds = chains->room->kind_count;
    struct room_collector to = {.arena = arena, .chains = chains, .piece = piece};
    to.last = arena_alloc(arena, (kinds + 1) * sizeof *to.last);
    to.bodies.gaps = arena_alloc(arena, (kinds + 1) * sizeof *to.bodies.gaps);
    for (size_t k = 0; k < kinds; k++)
        to.bodies.gaps[k] = chains->room->changeover;
    for (int i = 0; i < chains->count; i++)
        add_athlete(&to, i, bases[i]);
    if (to.bodies.count)
        qsort(to.bodies.items, to.bodies.count, sizeof *to.bodies.items, by_tail);
    return to.bodies;
}
