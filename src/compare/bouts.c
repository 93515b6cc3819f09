#include "compare/bouts.h"

#include <string.h>

#include "model/occasion.h"

/* The days that one line of the old plan makes for one athlete: how many are found as they were, where they were and where
 * the bout would move them. */
struct moving_line {
    const void *place;
    const char *athlete;
    size_t stay, move;
};

struct moving_lines {
    struct moving_line *items;
    size_t count, capacity;
};

/* By how many days the bout of the camp called NAME moves; 0 where it does not. */
static int shift_of(const struct comparison *comparison, const char *name)
{
    const struct plan_parts *const sides[] = {&comparison->old, &comparison->now};
    int bouts[2] = {0};
    for (size_t s = 0; s < 2; s++)
        for (size_t i = 0; i < sides[s]->count && sides[s]->items[i].kind <= PART_CAMP; i++)
            if (sides[s]->items[i].kind == PART_CAMP && strcmp(sides[s]->items[i].name, name) == 0)
                bouts[s] = sides[s]->items[i].bout;
    return bouts[0] && bouts[1] ? bouts[1] - bouts[0] : 0;
}

/* What the new plan has in the place of PART, DAYS later; or NULL. */
static struct part_of_plan *find(const struct comparison *comparison, const struct part_of_plan *part, int days)
{
    const struct plan_parts *now = &comparison->now;
    struct part_of_plan wanted = *part;
    size_t low = 0, high = now->count;
    wanted.date += days;
    while (low < high) {
        size_t middle = (low + high) / 2;
        int order = parts_order(&now->items[middle], &wanted);
        if (order == 0)
            return &now->items[middle];
        if (order < 0)
            low = middle + 1;
        else
            high = middle;
    }
    return NULL;
}

static bool is_as_it_was(const struct part_of_plan *part, const struct part_of_plan *other)
{
    return other && other->digest == part->digest;
}

/* The line of PART. What no line makes, as the bout itself, and a room, are each a line of their own. */
static struct moving_line *line_of(struct comparison *comparison, struct moving_lines *lines, const struct part_of_plan *part)
{
    const void *place = part->occasion && part->occasion->place ? part->occasion->place : part;
    for (size_t i = lines->count; i > 0; i--)
        if (lines->items[i - 1].place == place && strcmp(lines->items[i - 1].athlete, part->athlete) == 0)
            return &lines->items[i - 1];
    lines->items = arena_grow(comparison->arena, lines->items, lines->count, &lines->capacity, sizeof *lines->items);
    lines->items[lines->count] = (struct moving_line){.place = place, .athlete = part->athlete};
    return &lines->items[lines->count++];
}

static void pair_camp(struct comparison *comparison, const char *camp, int shift)
{
    struct plan_parts *old = &comparison->old;
    struct moving_lines lines = {0};
    for (int pass = 0; pass < 3; pass++)
        for (size_t i = 0; i < old->count; i++) {
            struct part_of_plan *part = &old->items[i];
            bool dated = part->kind == PART_OCCASION || part->kind == PART_ROOM;
            if (!dated || strcmp(part->camp, camp) != 0)
                continue;
            struct moving_line *line = line_of(comparison, &lines, part);
            struct part_of_plan *stays = find(comparison, part, 0), *moved = find(comparison, part, shift);
            if (pass == 0) {
                line->stay += is_as_it_was(part, stays);
                line->move += is_as_it_was(part, moved);
            } else if (!part->pair && moved && !moved->pair &&
                       (pass == 1 ? line->move > line->stay : stays && stays->pair)) { /* another has moved to its place */
                part->pair = moved;
                moved->pair = part;
            }
        }
}

void bouts_pair(struct comparison *comparison)
{
    for (size_t i = 0; i < comparison->old.count && comparison->old.items[i].kind <= PART_CAMP; i++) {
        const struct part_of_plan *camp = &comparison->old.items[i];
        int shift = camp->kind == PART_CAMP ? shift_of(comparison, camp->name) : 0;
        if (shift)
            pair_camp(comparison, camp->name, shift);
    }
}
