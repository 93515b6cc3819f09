/* orders.h - in which order each athlete takes the blocks that may change places.
 *
 * An order is one of all free blocks, for those of a group of partners the same one: who waits for a partner in one
 * block must not be waited for in another. Each athlete takes from it what is to be done. */
#ifndef BELL_ROOM_ORDERS_H
#define BELL_ROOM_ORDERS_H

#include "room/chains.h"

struct room_orders {
    const struct room_chains *chains;
    int *blocks;  /* the free ones, as written; none where the order is as written */
    int count;
    bool *heavy;  /* of each free block: has warm-up sets, so that these keep their order */
    int *leaders; /* of each athlete: the first whose order is the same */
    bool *shared; /* of each athlete: others have the same */
};

/* How athletes are spread over the free blocks. */
enum room_split { SPLIT_NONE, SPLIT_IN_TURN, SPLIT_IN_GROUPS, SPLIT_BACKWARDS, SPLIT_COUNT };

struct room_orders *room_orders_new(struct arena *arena, const struct room_chains *chains);

/* PERMS holds an order an athlete, orders->count apart: places in orders->blocks. */
void room_orders_split(const struct room_orders *orders, enum room_split split, int *perms);
/* Brings ATHLETE, and whoever goes along, to the order that starts at another block (waves), or with the free blocks
 * at FIRST and SECOND in each other's place (any order). */
void room_orders_turn(const struct room_orders *orders, int *perms, int athlete, int first, int second);
/* ATHLETE, and whoever goes along, have done the blocks before place AT of their order (in waves: none), and take the one
 * at place CHOSEN next. False, and nothing is changed: that is not allowed, or ATHLETE does not do it. */
bool room_orders_choose(const struct room_orders *orders, int *perms, int athlete, int at, int chosen);
/* The legs of all athletes in these orders, room.block_count apart, by place in their chains. */
void room_orders_legs(const struct room_orders *orders, const int *perms, int *legs);

#endif
