#include "room/orders.h"

#include <string.h>

static bool has_ramp(const struct room *room, int block)
{
    for (size_t i = 0; i < room->athlete_count; i++) {
        const struct room_part *part = &room->athletes[i].parts[block];
        for (size_t j = 0; j < part->set_count; j++) {
            if (part->sets[j].ramp)
                return true;
        }
    }
    return false;
}

static bool shares_free_block(const struct room_chains *chains, int athlete)
{
    const struct room_chain *chain = &chains->chains[athlete];
    for (int i = 0; i < chain->leg_count; i++) {
        if (chain->legs[i].partnered && chains->room->blocks[chain->legs[i].block].free)
            return true;
    }
    return false;
}

static void find_leaders(const struct room_orders *orders)
{
    const struct room_chains *chains = orders->chains;
    for (int i = 0; i < chains->count; i++)
        orders->leaders[i] = i;
    for (int i = 0; i < chains->group_count; i++) {
        const struct room_group *group = &chains->groups[i];
        bool shared = false;
        int first = group->members[0];
        for (size_t j = 0; j < group->count; j++) {
            shared |= shares_free_block(chains, group->members[j]);
            first = group->members[j] < first ? group->members[j] : first;
        }
        for (size_t j = 0; shared && j < group->count; j++) {
            orders->leaders[group->members[j]] = first;
            orders->shared[group->members[j]] = true;
        }
    }
}

struct room_orders *room_orders_new(struct arena *arena, const struct room_chains *chains)
{
    const struct room *room = chains->room;
    struct room_orders *orders = arena_alloc(arena, sizeof *orders);
    *orders = (struct room_orders){.chains = chains};
    orders->blocks = arena_alloc(arena, (room->block_count + 1) * sizeof *orders->blocks);
    orders->heavy = arena_alloc(arena, (room->block_count + 1) * sizeof *orders->heavy);
    orders->leaders = arena_alloc(arena, (size_t)chains->count * sizeof *orders->leaders);
    orders->shared = arena_alloc(arena, (size_t)chains->count * sizeof *orders->shared);
    for (size_t i = 0; room->order != ROOM_AS_WRITTEN && i < room->block_count; i++) {
        if (!room->blocks[i].free || room->blocks[i].bell)
            continue;
        orders->heavy[orders->count] = room->order == ROOM_ANY_ORDER && has_ramp(room, (int)i);
        orders->blocks[orders->count++] = (int)i;
    }
    find_leaders(orders);
    return orders;
}

/* Heavy blocks keep their places, and in these their written order. */
static void repair_heavy(const struct room_orders *orders, int *perm)
{
    int next = 0;
    for (int i = 0; i < orders->count; i++) {
        if (!orders->heavy[perm[i]])
            continue;
        while (!orders->heavy[next])
            next++;
        perm[i] = next++;
    }
}

static void rotate(const struct room_orders *orders, int *perm, int first)
{
    for (int i = 0; i < orders->count; i++)
        perm[i] = (first + i) % orders->count;
    repair_heavy(orders, perm);
}

static int first_block(const struct room_orders *orders, enum room_split split, int athlete)
{
    int count = orders->count, group = athlete * count / orders->chains->count;
    switch (split) {
    case SPLIT_IN_TURN:
        return athlete % count;
    case SPLIT_IN_GROUPS:
        return group;
    case SPLIT_BACKWARDS:
        return count - 1 - group;
    default:
        return 0;
    }
}

void room_orders_split(const struct room_orders *orders, enum room_split split, int *perms)
{
    for (int i = 0; orders->count && i < orders->chains->count; i++)
        rotate(orders, &perms[i * orders->count], first_block(orders, split, orders->leaders[i]));
}

void room_orders_turn(const struct room_orders *orders, int *perms, int athlete, int first, int second)
{
    for (int i = 0; i < orders->chains->count; i++) {
        int *perm = &perms[i * orders->count];
        if (orders->leaders[i] != orders->leaders[athlete])
            continue;
        if (orders->chains->room->order == ROOM_WAVES) {
            rotate(orders, perm, first);
            continue;
        }
        int block = perm[first];
        perm[first] = perm[second];
        perm[second] = block;
        repair_heavy(orders, perm);
    }
}

static bool does_free(const struct room_orders *orders, int athlete, int block)
{
    return room_leg_of_block(&orders->chains->chains[athlete], orders->blocks[block]) != NULL;
}

/* Whether the block at CHOSEN may come next, of those from AT on: heavy ones come as written. */
static bool may_be_next(const struct room_orders *orders, const int *perm, int at, int chosen)
{
    for (int i = at; orders->heavy[perm[chosen]] && i < chosen; i++) {
        if (orders->heavy[perm[i]])
            return false;
    }
    return true;
}

bool room_orders_choose(const struct room_orders *orders, int *perms, int athlete, int at, int chosen)
{
    const int *own = &perms[athlete * orders->count];
    int block = own[chosen];
    bool waves = orders->chains->room->order == ROOM_WAVES;
    if (!does_free(orders, athlete, block) || (!waves && !may_be_next(orders, own, at, chosen)))
        return false;
    for (int i = 0; i < orders->chains->count; i++) {
        int *perm = &perms[i * orders->count];
        if (orders->leaders[i] != orders->leaders[athlete])
            continue;
        if (waves) {
            rotate(orders, perm, block);
            continue;
        }
        memmove(&perm[at + 1], &perm[at], (size_t)(chosen - at) * sizeof *perm);
        perm[at] = block;
    }
    return true;
}

void room_orders_legs(const struct room_orders *orders, const int *perms, int *legs)
{
    size_t blocks = orders->chains->room->block_count;
    for (int i = 0; i < orders->chains->count; i++) {
        const struct room_chain *chain = &orders->chains->chains[i];
        int *own = &legs[(size_t)i * blocks], at = 0;
        for (int j = 0; j < chain->leg_count; j++)
            own[j] = j;
        if (!orders->count)
            continue;
        while (at < chain->leg_count && chain->legs[at].block < orders->blocks[0])
            at++;
        for (int j = 0; j < orders->count; j++) {
            const struct room_leg *leg = room_leg_of_block(chain, orders->blocks[perms[i * orders->count + j]]);
            if (leg)
                own[at++] = (int)(leg - chain->legs);
        }
    }
}
