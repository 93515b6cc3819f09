/* parts.h - what one athlete does in one block, as the sets of a room. */
#ifndef BELL_SQUAD_PARTS_H
#define BELL_SQUAD_PARTS_H

#include "measure/time.h"
#include "squad/squad_kit.h"
#include "squad/squad.h"

struct squad_maker {
    struct arena *arena;
    struct squad_kit *kit;
    const struct occasion *occasion;
    bool coached;         /* the athlete lifts with a coach beside them */
    struct squad_part part;
    struct room_set *sets;
    struct squad_task *tasks;
    size_t *first;
    size_t set_count, set_capacity, first_capacity, task_count, task_capacity;
};

/* Does the block ring for all who do it? */
bool block_has_bell(const struct block *block);

/* Starts the part of a block. */
void squad_part_begin(struct squad_maker *maker, const struct block *block);
/* Adds the warm-up sets of RAMP. */
void squad_part_ramp(struct squad_maker *maker, const struct time_ramp *ramp);
/* Adds the block's own sets. HOLDS: whether the athlete brings the kit that a pair shares at a bell. */
void squad_part_sets(struct squad_maker *maker, const struct block *block, bool in_pairs, bool holds);

/* Does any line of the block need a partner? */
bool block_needs_partner(const struct block *block);

#endif
