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
    return a->span.file == b->span.file && a->span.start == b->span.start;
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

/* The lane of the line of BLOCK that ITEM is; the number of lanes where there is none yet. */
static size_t find_lane(const struct group *group, const struct block *block, const struct item *item)
{
    size_t at = 0;
    for (; at < group->lane_count; at++) {
        const struct lane *lane = &group->lanes[at];
        if (same_block(lane->block, block) && lane->item->index == item->index &&
            lane->item->round <= item->round && item->round <= lane->last_round)
            break;
    }
    return at;
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

/* A lane before the one that is AT its place now. */
static void add_lane(struct maker *maker, const struct block *block, size_t index, size_t at)
{
    const struct item *item = &block->items[index];
    struct group *group = maker->group;
    group->lanes = arena_grow(maker->arena, group->lanes, group->lane_count, &maker->capacity,
                              sizeof *group->lanes);
    struct lane *lane = &group->lanes[at];
    memmove(lane + 1, lane, (group->lane_count++ - at) * sizeof *lane);
    *lane = (struct lane){.block = block, .item = item};
    if (item->round > 0)
        lane->last_round = item->round + (int)group_rounds_alike(maker->arena, block, index) - 1;
    lane->by_member = arena_alloc(maker->arena, group->count * sizeof(struct item *));
    for (size_t i = 0; i < group->count; i++)
        lane->by_member[i] = find_item(group->members[i], block, item);
    settle(maker->arena, group, lane);
}

/* Where the lanes of BLOCK begin; if it has none, behind the whole of the block of the lane before AT. */
static size_t begin_block(const struct group *group, const struct block *block, size_t at)
{
    for (size_t i = 0; i < group->lane_count; i++)
        if (same_block(group->lanes[i].block, block))
            return i;
    while (at > 0 && at < group->lane_count && same_block(group->lanes[at].block, group->lanes[at - 1].block))
        at++;
    return at;
}

/* Lanes for what MEMBER does and nobody before did, each behind the line that MEMBER does before it: a session has one
 * order, whoever leaves out what. */
static void add_lanes_of(struct maker *maker, const struct occasion *member)
{
    struct group *group = maker->group;
    for (size_t b = 0, at = 0; b < member->block_count; b++) {
        const struct block *block = &member->blocks[b];
        at = begin_block(group, block, at);
        for (size_t i = 0; i < block->item_count; i++) {
            size_t lane = find_lane(group, block, &block->items[i]);
            if (lane == group->lane_count)
                add_lane(maker, block, i, lane = at);
            at = lane + 1;
        }
    }
}

struct group group_make(struct arena *arena, const struct occasion *const *members, size_t count)
{
    struct group group = {.members = members, .count = count};
    struct maker maker = {.arena = arena, .group = &group};
    for (size_t i = 0; i < count; i++)
        add_lanes_of(&maker, members[i]);
    for (size_t l = 0; l < group.lane_count; l++)
        group.lanes[l].first = l == 0 || !same_block(group.lanes[l].block, group.lanes[l - 1].block);
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
