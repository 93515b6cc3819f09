#include "compare/bouts.h"

#include <string.h>

#include "figures/dates.h"
#include "model/occasion.h"
#include "model/season.h"

/* The days that one line of the old plan makes for one athlete: how many are found unchanged where they were, and
 * how many where the bout would move them. */
struct moving_line {
    const void *place;
    const char *athlete;
    size_t stay, move;
};

struct moving_lines {
    struct moving_line *items;
    size_t count, capacity;
};

/* The camp of PARTS called NAME, or NULL. */
static const struct camp *camp_called(const struct plan_parts *parts, const char *name)
{
    for (size_t i = 0; i < parts->count && parts->items[i].kind <= PART_CAMP; i++)
        if (parts->items[i].kind == PART_CAMP && strcmp(parts->items[i].name, name) == 0)
            return parts->items[i].subject;
    return NULL;
}

int bout_shift(const struct camp *old, const struct camp *now, size_t index)
{
    return old->bout_count == now->bout_count ? now->bouts[index]->day - old->bouts[index]->day : 0;
}

/* Is DAY after BOUT, so that it counts towards the NEXT one? A bout's week is its own to the end, unless the next
 * bout is in it. */
static bool is_behind(const struct bout *bout, const struct bout *next, int day)
{
    return day > bout->last && (date_monday(day) > date_monday(bout->last) || date_monday(next->day) == date_monday(day));
}

size_t bout_of_day(const struct camp *camp, int day)
{
    size_t index = 0;
    while (index + 1 < camp->bout_count && is_behind(camp->bouts[index], camp->bouts[index + 1], day))
        index++;
    return index;
}

/* What the new plan has instead of PART, DAYS later; or NULL. */
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

/* The line of PART. What no line makes, such as the bout itself or a room, counts as a line of its own. */
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

/* Pairs the days of CAMP that count towards its bout at INDEX, which moves by SHIFT days. */
static void pair_days(struct comparison *comparison, const struct camp *camp, size_t index, int shift)
{
    struct plan_parts *old = &comparison->old;
    struct moving_lines lines = {0};
    for (int pass = 0; pass < 3; pass++)
        for (size_t i = 0; i < old->count; i++) {
            struct part_of_plan *part = &old->items[i];
            bool dated = part->kind == PART_OCCASION || part->kind == PART_ROOM;
            if (!dated || strcmp(part->camp, camp->name.shown) != 0 || bout_of_day(camp, part->date) != index)
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
        const struct part_of_plan *part = &comparison->old.items[i];
        const struct camp *camp = part->kind == PART_CAMP ? part->subject : NULL;
        const struct camp *now = camp ? camp_called(&comparison->now, part->name) : NULL;
        for (size_t b = 0; now && b < camp->bout_count; b++) {
            int shift = bout_shift(camp, now, b);
            if (shift)
                pair_days(comparison, camp, b, shift);
        }
    }
}
