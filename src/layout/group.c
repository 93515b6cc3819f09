#include "layout/group.h"
#include "model/occasion.h"

#include <string.h>

#include "wording/wording.h"

struct maker {
    struct arena *arena;
    struct group *group;
    size_t capacity;
};

static bool same_block(const struct block *a, const struct block *b)
{
    return a->span.file == b->span.file && a->span.start == b->span.start && a->kind == b->kind;
}

/* The item at the place of ITEM in BLOCK in what MEMBER does, or NULL. */
static const struct item *find_item(const struct occasion *member, const struct block *block,
                                    const struct item *item)
{
    for (size_t b = 0; b < member->block_count; b++) {
        const struct block *other = &member->blocks[b];
        for (size_t i = 0; same_block(other, block) && i < other->item_count; i++)
            if (other->items[i].index == item->index && other->items[i].round == item->round)
                return &other->items[i];
    }
    return NULL;
}

static bool same_way(struct arena *arena, const struct block *block, const struct item *a,
                     const struct item *b)
{
    return a->exercise == b->exercise &&
           strcmp(wording_dose(arena, block, a), wording_dose(arena, block, b)) == 0;
}

static bool same_loads(struct arena *arena, const struct lane *lane, const struct item *item)
{
    return strcmp(wording_loads(arena, lane->block, lane->item, false), wording_loads(arena, lane->block, item, false)) == 0;
}

static void compare_loads(struct arena *arena, struct lane *lane, const struct item *item)
{
    if (same_loads(arena, lane, item))
        return;
    lane->loads_differ = true;
    const struct load *ours = &lane->item->runs[0].load, *theirs = &item->runs[0].load;
    if (strcmp(wording_effort(arena, ours), wording_effort(arena, theirs)) != 0)
        lane->efforts_differ = true;
}

/* Settles on the item that most members do in the same way, and what differs from it. */
static void settle(struct arena *arena, const struct group *group, struct lane *lane)
{
    size_t most = 0;
    for (size_t i = 0; i < group->count; i++) {
        size_t alike = 0;
        for (size_t j = 0; lane->by_member[i] && j < group->count; j++)
            alike += lane->by_member[j] &&
                     same_way(arena, lane->block, lane->by_member[i], lane->by_member[j]);
        if (alike <= most)
            continue;
        most = alike;
        lane->item = lane->by_member[i];
        lane->athlete = group->members[i]->athlete;
    }
    for (size_t i = 0; i < group->count; i++) {
        const struct item *item = lane->by_member[i];
        if (!item || !same_way(arena, lane->block, lane->item, item)) {
            lane->varies = true;
            lane->loads_personal = lane->loads_personal || (item && !same_loads(arena, lane, item));
        } else {
            compare_loads(arena, lane, item);
        }
    }
    lane->loads_personal = lane->loads_personal || lane->loads_differ;
}

static bool known(const struct group *group, const struct block *block, const struct item *item)
{
    for (size_t i = 0; i < group->lane_count; i++) {
        const struct lane *lane = &group->lanes[i];
        if (same_block(lane->block, block) && lane->item->index == item->index &&
            lane->item->round <= item->round && item->round <= lane->last_round)
            return true;
    }
    return false;
}

size_t group_rounds_alike(struct arena *arena, const struct block *block, size_t first)
{
    const struct item *item = &block->items[first];
    size_t n = 1;
    while (item->round > 0 && first + n < block->item_count) {
        const struct item *next = &item[n];
        if (next->index != item->index || next->round != item->round + (int)n ||
            !same_way(arena, block, item, next) ||
            strcmp(wording_loads(arena, block, item, false),
                   wording_loads(arena, block, next, false)) != 0)
            break;
        n++;
    }
    return n;
}

static void add_lane(struct maker *maker, const struct block *block, size_t index, bool first)
{
    const struct item *item = &block->items[index];
    struct group *group = maker->group;
    group->lanes = arena_grow(maker->arena, group->lanes, group->lane_count, &maker->capacity,
                              sizeof *group->lanes);
    struct lane *lane = &group->lanes[group->lane_count++];
    *lane = (struct lane){.block = block, .item = item, .first = first};
    if (item->round > 0)
        lane->last_round = item->round + (int)group_rounds_alike(maker->arena, block, index) - 1;
    lane->by_member = arena_alloc(maker->arena, group->count * sizeof(struct item *));
    for (size_t i = 0; i < group->count; i++)
        lane->by_member[i] = find_item(group->members[i], block, item);
    settle(maker->arena, group, lane);
}

/* Lanes for what MEMBER does and nobody before did: it goes after the rest of its block, or at the end. */
static void add_lanes_of(struct maker *maker, const struct occasion *member)
{
    for (size_t b = 0; b < member->block_count; b++) {
        const struct block *block = &member->blocks[b];
        bool first = true;
        for (size_t i = 0; i < block->item_count; i++) {
            if (known(maker->group, block, &block->items[i]))
                continue;
            add_lane(maker, block, i, first);
            first = false;
        }
    }
}

struct group group_make(struct arena *arena, const struct occasion *const *members, size_t count)
{
    struct group group = {.members = members, .count = count};
    struct maker maker = {.arena = arena, .group = &group};
    for (size_t i = 0; i < count; i++)
        add_lanes_of(&maker, members[i]);
    return group;
}

bool lane_differs(const struct lane *lane)
{
    return lane->loads_differ || lane->varies;
}

bool lane_dose_differs(struct arena *arena, const struct lane *lane, const struct item *other)
{
    return strcmp(wording_dose(arena, lane->block, lane->item),
                  wording_dose(arena, lane->block, other)) != 0;
}
