#include "room/chains.h"

#include <string.h>

/* --- stacks --- */

static bool same_parts(const struct room_stack *stack, const struct room_item *item)
{
    return stack->count == item->stack_count
           && (stack->count == 0 || memcmp(stack->parts, item->stack, stack->count * sizeof *stack->parts) == 0);
}

static int stack_of(struct arena *arena, struct room_chains *chains, size_t *capacity, const struct room_item *item)
{
    for (int i = 0; i < chains->stack_count; i++) {
        if (same_parts(&chains->stacks[i], item))
            return i;
    }
    chains->stacks =
        arena_grow(arena, chains->stacks, (size_t)chains->stack_count, capacity, sizeof *chains->stacks);
    chains->stacks[chains->stack_count] = (struct room_stack){item->stack, item->stack_count};
    return chains->stack_count++;
}

static int moved_between(const struct room_stack *a, const struct room_stack *b)
{
    size_t same = 0;
    while (same < a->count && same < b->count && a->parts[same] == b->parts[same])
        same++;
    return (int)(a->count + b->count - 2 * same);
}

int room_discs_between(const struct room_item *from, const struct room_item *to)
{
    return moved_between(&(const struct room_stack){from->stack, from->stack_count},
                         &(const struct room_stack){to->stack, to->stack_count});
}

static void compare_stacks(struct arena *arena, struct room_chains *chains)
{
    int n = chains->stack_count;
    chains->moved = arena_alloc(arena, (size_t)n * (size_t)n * sizeof *chains->moved);
    for (int i = 0; i < n; i++) {
        for (int j = 0; j < n; j++)
            chains->moved[i * n + j] = moved_between(&chains->stacks[i], &chains->stacks[j]);
    }
}

/* --- steps and legs --- */

static struct room_step step_of(const struct room_task *tasks, int count, int lead)
{
    struct room_step step = {.tasks = tasks, .task_count = count, .lead = lead};
    for (int i = 0; i < count; i++)
        step.length += tasks[i].item->work + (i ? tasks[i].item->gap_least : 0);
    return step;
}

static bool tied(const struct room_set *set, size_t item)
{
    return item < set->item_count && set->items[item].gap_most != ROOM_ANY_GAP;
}

/* Adds the steps of one set; LEAD is the rest before it. */
static void add_set(struct room_chains *chains, struct room_leg *leg, struct room_step *steps, struct room_task *tasks,
                    const struct room_set *set, int lead)
{
    for (size_t i = 0; i < set->item_count;) {
        size_t end = i + 1;
        while (tied(set, end))
            end++;
        struct room_step step = step_of(&tasks[i], (int)(end - i), i ? set->items[i].gap_least : lead);
        steps[leg->step_count++] = step;
        leg->length += step.lead + step.length;
        if (step.task_count > chains->longest_tie)
            chains->longest_tie = step.task_count;
        i = end;
    }
}

static size_t items_in(const struct room_part *part)
{
    size_t count = 0;
    for (size_t i = 0; i < part->set_count; i++)
        count += part->sets[i].item_count;
    return count;
}

static void note_item(struct room_chains *chains, struct room_leg *leg, const struct room_item *item)
{
    int units = 0;
    for (size_t i = 0; i < item->need_count; i++)
        units += item->needs[i].count;
    if (units > chains->most_units)
        chains->most_units = units;
    leg->partnered |= item->partner && !leg->bell;
}

static struct room_leg leg_of(struct arena *arena, struct room_chains *chains, size_t *stacks, int block,
                              const struct room_part *part)
{
    struct room_leg leg = {.block = block, .bell = chains->room->blocks[block].bell};
    size_t most = items_in(part), at = 0;
    struct room_task *tasks = arena_alloc(arena, most * sizeof *tasks);
    struct room_step *steps = arena_alloc(arena, most * sizeof *steps);
    for (size_t i = 0; i < part->set_count; i++) {
        const struct room_set *set = &part->sets[i];
        for (size_t j = 0; j < set->item_count; j++) {
            const struct room_item *item = &set->items[j];
            tasks[at + j] =
                (struct room_task){item, (int)i, (int)j, stack_of(arena, chains, stacks, item)};
            note_item(chains, &leg, item);
        }
        add_set(chains, &leg, steps, &tasks[at], set, i ? part->sets[i - 1].rest : 0);
        at += set->item_count;
    }
    for (int i = leg.step_count - 1, left = 0; i >= 0; i--) {
        steps[i].left = left;
        left += steps[i].length + steps[i].lead;
    }
    leg.steps = steps;
    return leg;
}

/* --- the opening bell --- */

static int earliest_arrival(const struct room *room)
{
    int earliest = room->athletes[0].arrival;
    for (size_t i = 1; i < room->athlete_count; i++) {
        if (room->athletes[i].arrival < earliest)
            earliest = room->athletes[i].arrival;
    }
    return earliest;
}

static const struct room_part *part_of(const struct room *room, int athlete, size_t block)
{
    return &room->athletes[athlete].parts[block];
}

static void find_opening(struct room_chains *chains)
{
    const struct room *room = chains->room;
    chains->opening = ROOM_NONE;
    if (!room->block_count || !room->blocks[0].bell)
        return;
    for (int i = 0; i < chains->count; i++) {
        const struct room_part *part = part_of(room, i, 0);
        if (!part->set_count)
            continue;
        chains->opening = earliest_arrival(room);
        chains->opening_ends = chains->opening + part->sets[0].items[0].work;
    }
}

/* A late athlete joins at the first round that has not started yet. */
static void join_opening(const struct room_chains *chains, int athlete, struct room_chain *chain)
{
    const struct room_block *block = &chains->room->blocks[0];
    int arrival = chains->room->athletes[athlete].arrival;
    if (arrival == chains->opening) {
        chain->joined = chains->opening;
    } else {
        size_t round = 0;
        while (round < block->round_count && chains->opening + block->rounds[round] < arrival)
            round++;
        chain->missed = (int)round;
        if (round < block->round_count)
            chain->joined = chains->opening + block->rounds[round];
    }
    if (chain->joined == ROOM_NONE)
        return;
    chain->ready = chains->opening_ends + chains->room->between;
    chain->alone = chains->opening_ends - chain->joined;
}

/* --- chains --- */

static void make_chain(struct arena *arena, struct room_chains *chains, size_t *stacks, int athlete)
{
    const struct room *room = chains->room;
    struct room_chain *chain = &chains->chains[athlete];
    *chain = (struct room_chain){.ready = room->athletes[athlete].arrival,
                                 .joined = ROOM_NONE,
                                 .holder = ROOM_NONE,
                                 .group = ROOM_NONE};
    struct room_leg *legs = arena_alloc(arena, (room->block_count + 1) * sizeof *legs);
    for (size_t i = 0; i < room->block_count; i++) {
        const struct room_part *part = part_of(room, athlete, i);
        if (!part->set_count)
            continue;
        if (i == 0 && room->blocks[0].bell) {
            join_opening(chains, athlete, chain);
            continue;
        }
        struct room_leg leg = leg_of(arena, chains, stacks, (int)i, part);
        if (chain->leg_count || chain->joined != ROOM_NONE)
            chain->alone += room->between;
        chain->alone += leg.length;
        if (!leg.bell)
            chains->steps += leg.step_count;
        legs[chain->leg_count++] = leg;
    }
    chain->legs = legs;
}

static void number_units(struct arena *arena, struct room_chains *chains)
{
    const struct room *room = chains->room;
    chains->first_unit = arena_alloc(arena, (room->kind_count + 1) * sizeof *chains->first_unit);
    for (size_t i = 0; i < room->kind_count; i++) {
        chains->first_unit[i] = chains->unit_count;
        chains->unit_count += room->kinds[i].count;
    }
}

static void count_doing(struct arena *arena, struct room_chains *chains)
{
    chains->doing = arena_alloc(arena, (chains->room->block_count + 1) * sizeof *chains->doing);
    for (int i = 0; i < chains->count; i++) {
        const struct room_chain *chain = &chains->chains[i];
        for (int j = 0; j < chain->leg_count; j++)
            chains->doing[chain->legs[j].block]++;
        if (chain->joined != ROOM_NONE)
            chains->doing[0]++;
    }
}

struct room_leg *room_leg_of_block(const struct room_chain *chain, int block)
{
    for (int i = 0; i < chain->leg_count; i++) {
        if (chain->legs[i].block == block)
            return &chain->legs[i];
    }
    return NULL;
}

/* --- groups of partners --- */

static bool does_partner_work(const struct room_chain *chain)
{
    for (int i = 0; i < chain->leg_count; i++) {
        if (chain->legs[i].partnered)
            return true;
    }
    return false;
}

/* Pairs those who do partner work, in squad order; an odd last one makes a group of three. */
static void make_pairs(struct arena *arena, struct room_chains *chains)
{
    int *members = arena_alloc(arena, (size_t)chains->count * sizeof *members);
    int count = 0;
    for (int i = 0; i < chains->count; i++) {
        if (does_partner_work(&chains->chains[i]))
            members[count++] = i;
    }
    struct room_group *groups = arena_alloc(arena, (size_t)(count / 2 + 1) * sizeof *groups);
    for (int i = 0; i + 1 < count; i += 2)
        groups[chains->group_count++] = (struct room_group){&members[i], 2};
    if (count % 2 && chains->group_count)
        groups[chains->group_count - 1].count = 3;
    chains->groups = groups;
}

static void find_groups(struct arena *arena, struct room_chains *chains)
{
    const struct room *room = chains->room;
    if (room->group_count) {
        chains->groups = room->groups;
        chains->group_count = (int)room->group_count;
    } else {
        make_pairs(arena, chains);
    }
    for (int i = 0; i < chains->group_count; i++) {
        const struct room_group *group = &chains->groups[i];
        for (size_t j = 0; j < group->count; j++) {
            struct room_chain *chain = &chains->chains[group->members[j]];
            chain->group = i;
            chain->holder = group->count > 1 ? group->members[(j + 1) % group->count] : ROOM_NONE;
        }
    }
}

/* If one of a group works with a partner in a block, the block is the whole group's: they come to it and leave it
 * together. */
static void share_blocks(const struct room_chains *chains)
{
    for (int i = 0; i < chains->group_count; i++) {
        const struct room_group *group = &chains->groups[i];
        for (size_t j = 0; j < group->count * group->count; j++) {
            const struct room_chain *chain = &chains->chains[group->members[j / group->count]];
            const struct room_chain *other = &chains->chains[group->members[j % group->count]];
            for (int k = 0; k < chain->leg_count; k++) {
                struct room_leg *shared = room_leg_of_block(other, chain->legs[k].block);
                if (shared && chain->legs[k].partnered)
                    shared->partnered = true;
            }
        }
    }
}

/* --- bars and discs --- */

int room_parts_in(const struct room_stack *stack, int part, bool one_sleeve)
{
    int times = 0;
    for (size_t i = 0; i < stack->count; i++) {
        if (stack->parts[i] == part)
            times += i == 0 || one_sleeve ? 1 : 2;
    }
    return times;
}

/* Whether all seats together can want more of some part than there is, if each holds the stack that takes most of
 * it. */
static bool can_run_short(const struct room_chains *chains)
{
    const struct room *room = chains->room;
    for (size_t part = 0; part < room->stock_count; part++) {
        int wanted = 0;
        for (size_t k = 0; k < room->kind_count; k++) {
            int most = 0;
            for (int i = 0; room->kinds[k].seat && i < chains->stack_count; i++) {
                int times = room_parts_in(&chains->stacks[i], (int)part, room->kinds[k].one_sleeve);
                most = times > most ? times : most;
            }
            wanted += most * (room->kinds[k].count < chains->count ? room->kinds[k].count : chains->count);
        }
        if (wanted > room->stock[part].count)
            return true;
    }
    return false;
}

/* --- pieces --- */

static int leg_behind(const struct room_chain *chain, int block)
{
    int leg = 0;
    while (leg < chain->leg_count && chain->legs[leg].block <= block)
        leg++;
    return leg;
}

static void add_piece(struct arena *arena, struct room_chains *chains, int block, bool last)
{
    size_t count = (size_t)chains->count;
    struct room_piece *piece = &chains->pieces[chains->piece_count];
    *piece = (struct room_piece){arena_alloc(arena, count * sizeof *piece->from),
                                 arena_alloc(arena, count * sizeof *piece->to), last, 0};
    for (int i = 0; i < chains->count; i++) {
        const struct room_chain *chain = &chains->chains[i];
        piece->from[i] = chains->piece_count ? chains->pieces[chains->piece_count - 1].to[i] : 0;
        piece->to[i] = last ? chain->leg_count : leg_behind(chain, block);
        for (int j = piece->from[i]; j < piece->to[i]; j++)
            piece->steps += chain->legs[j].bell ? 0 : chain->legs[j].step_count;
    }
    chains->piece_count++;
}

static bool seats_can_differ(const struct room_chains *chains)
{
    for (size_t i = 0; i < chains->room->kind_count; i++) {
        if (chains->room->kinds[i].seat && chains->room->kinds[i].count > 1)
            return chains->stack_count > 2;
    }
    return false;
}

static void cut_pieces(struct arena *arena, struct room_chains *chains)
{
    const struct room *room = chains->room;
    chains->pieces = arena_alloc(arena, (room->block_count + 1) * sizeof *chains->pieces);
    for (size_t i = 1; i < room->block_count; i++) {
        if (room->blocks[i].bell && chains->doing[i] == chains->count)
            add_piece(arena, chains, (int)i, false);
    }
    add_piece(arena, chains, (int)room->block_count, true);
}

struct room_chains *room_chains_new(struct arena *arena, const struct room *room)
{
    struct room_chains *chains = arena_alloc(arena, sizeof *chains);
    size_t stacks = 0;
    *chains = (struct room_chains){.room = room, .count = (int)room->athlete_count};
    stack_of(arena, chains, &stacks, &(const struct room_item){0});
    chains->chains = arena_alloc(arena, (size_t)chains->count * sizeof *chains->chains);
    number_units(arena, chains);
    find_opening(chains);
    for (int i = 0; i < chains->count; i++)
        make_chain(arena, chains, &stacks, i);
    compare_stacks(arena, chains);
    count_doing(arena, chains);
    find_groups(arena, chains);
    share_blocks(chains);
    chains->scarce = can_run_short(chains);
    chains->seats_differ = seats_can_differ(chains);
    cut_pieces(arena, chains);
    return chains;
}
