/* chains.h - a room as the search reads it: each athlete's chain of steps, block by block, and stacks by number.
 *
 * * A step is placed as a whole: it is one item, or the items of a contrast that must follow within a longest gap. A
 * leg is an athlete's steps in one block. Bells that everybody answers cut the session into pieces, which are
 * searched one after the other: what came before such a bell only decides when it rings. */
#ifndef BELL_ROOM_CHAINS_H
#define BELL_ROOM_CHAINS_H

#include "room/room.h"

/* The stack of a seat that nobody has used yet: its first load is set up before the session. */
enum { STACK_UNSET = -1, STACK_BARE = 0 };

struct room_task {
    const struct room_item *item;
    int set, place; /* from 0: the set in its block, the item in that set */
    int stack;      /* place in room_chains.stacks */
};

struct room_step {
    const struct room_task *tasks;
    int task_count;
    int lead;   /* least seconds since the step before it in its block */
    int length; /* with every gap at its least */
    int left;   /* from its end to the leg's end, likewise */
};

struct room_leg {
    int block;
    bool bell;
    bool partnered; /* the group comes to it and leaves it together */
    const struct room_step *steps;
    int step_count;
    int length; /* alone */
};

struct room_chain {
    struct room_leg *legs; /* all but an opening bell */
    int leg_count;
    int ready;             /* when the first leg may start */
    int alone;             /* seconds of the whole session alone */
    int joined;            /* when the opening bell is joined; ROOM_NONE */
    int missed;            /* rounds of it */
    int holder;            /* who holds for this athlete, or ROOM_NONE */
    int group;             /* ROOM_NONE */
};

struct room_stack {
    const int *parts;
    size_t count;
};

/* A stretch of the session up to and including a bell that everybody answers, or up to the end. */
struct room_piece {
    int *from, *to; /* legs of each athlete */
    bool last;
    int steps;      /* of all athletes, bells not counted */
};

struct room_chains {
    const struct room *room;
    struct room_chain *chains; /* one an athlete */
    int count;
    int *first_unit;           /* of each kind; units of all kinds stand in one row */
    int unit_count;
    struct room_stack *stacks; /* each once; STACK_BARE is the first */
    int stack_count;
    int *moved;                /* discs between two stacks, stack_count x stack_count */
    const struct room_group *groups;
    int group_count;
    int *doing;                /* of each block: how many do it; of an opening bell, how many join it */
    int opening;               /* when the opening bell rings; ROOM_NONE */
    int opening_ends;
    struct room_piece *pieces;
    int piece_count;
    bool scarce;               /* bars or discs can run short */
    bool seats_differ;         /* some seats of one kind can bear different stacks */
    int steps;                 /* of all athletes */
    int longest_tie;           /* tasks of the longest step */
    int most_units;            /* that one item needs */
};

struct room_chains *room_chains_new(struct arena *arena, const struct room *room);

/* Discs that go off and on between two stacks, on one side. */
static inline int room_moved(const struct room_chains *chains, int from, int to)
{
    return from == STACK_UNSET ? 0 : chains->moved[from * chains->stack_count + to];
}

/* The discs that go off and on between the stacks of two items. */
int room_discs_between(const struct room_item *from, const struct room_item *to);

/* The leg of the chain's athlete in BLOCK; NULL if there is none or BLOCK is an opening bell. */
struct room_leg *room_leg_of_block(const struct room_chain *chain, int block);

/* How many of PART the stack uses of what the gym has. */
int room_parts_in(const struct room_stack *stack, int part, bool one_sleeve);

/* The kit of a bell's leg: what its only item needs. */
static inline const struct room_item *room_leg_item(const struct room_leg *leg)
{
    return leg->steps[0].tasks[0].item;
}

#endif
