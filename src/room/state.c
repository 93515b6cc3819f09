#include "room/decode.h"

#include <string.h>

size_t room_loaded_most(const struct room_chains *chains)
{
    return chains->scarce ? (size_t)chains->steps * (size_t)chains->longest_tie : 0;
}

struct room_state *room_state_new(struct arena *arena, const struct room_chains *chains)
{
    struct room_state *state = arena_alloc(arena, sizeof *state);
    size_t athletes = (size_t)chains->count, blocks = chains->room->block_count;
    size_t groups = (size_t)chains->group_count, steps = (size_t)chains->steps;
    *state = (struct room_state){
        .turns = arena_alloc(arena, athletes * sizeof *state->turns),
        .uses = arena_alloc(arena, (size_t)(chains->unit_count + 1) * sizeof *state->uses),
        .come = arena_alloc(arena, (blocks + 1) * sizeof *state->come),
        .through = arena_alloc(arena, (groups * blocks + 1) * sizeof *state->through),
        .queue = arena_alloc(arena, (steps + 1) * sizeof *state->queue),
        .loaded = arena_alloc(arena, (room_loaded_most(chains) + 1) * sizeof *state->loaded),
    };
    return state;
}

void room_state_copy(const struct room_chains *chains, struct room_state *to, const struct room_state *from)
{
    size_t blocks = chains->room->block_count;
    memcpy(to->turns, from->turns, (size_t)chains->count * sizeof *to->turns);
    memcpy(to->uses, from->uses, (size_t)chains->unit_count * sizeof *to->uses);
    memcpy(to->come, from->come, blocks * sizeof *to->come);
    memcpy(to->through, from->through, (size_t)chains->group_count * blocks * sizeof *to->through);
    memcpy(to->queue, from->queue, (size_t)from->queue_count * sizeof *to->queue);
    memcpy(to->loaded, from->loaded, (size_t)from->loaded_count * sizeof *to->loaded);
    to->queue_count = from->queue_count;
    to->loaded_count = from->loaded_count;
    to->placed = from->placed;
    to->score = from->score;
    to->news = from->news;
}

/* Takes the kit of an opening bell while others, who do not answer it, already train. */
static void claim_opening(const struct room_chains *chains, struct room_state *state)
{
    const struct room *room = chains->room;
    for (int i = 0; i < chains->count; i++) {
        if (chains->chains[i].joined == ROOM_NONE)
            continue;
        const struct room_item *item = room->athletes[i].parts[0].sets[0].items;
        for (size_t j = 0; j < item->need_count; j++) {
            struct room_use *use = &state->uses[chains->first_unit[item->needs[j].kind]];
            for (int left = item->needs[j].count; left; use++) {
                if (use->last == USED_AT_BELL)
                    continue;
                *use = (struct room_use){chains->opening_ends, USED_AT_BELL, STACK_UNSET, ROOM_NONE};
                left--;
            }
        }
    }
}

void room_state_start(const struct room_chains *chains, struct room_state *state)
{
    const struct room *room = chains->room;
    for (int i = 0; i < chains->count; i++) {
        const struct room_chain *chain = &chains->chains[i];
        struct room_turn *turn = &state->turns[i];
        *turn = (struct room_turn){.ready = chain->ready, .hold = room->athletes[i].arrival};
        if (chain->joined != ROOM_NONE) {
            turn->done = chains->opening_ends;
            turn->hold = chains->opening_ends + room->changeover;
        }
    }
    for (int i = 0; i < chains->unit_count; i++)
        state->uses[i] = (struct room_use){0, USED_NEVER, STACK_UNSET, ROOM_NONE};
    memset(state->come, 0, room->block_count * sizeof *state->come);
    memset(state->through, 0, (size_t)chains->group_count * room->block_count * sizeof *state->through);
    state->queue_count = state->loaded_count = 0;
    if (chains->opening != ROOM_NONE && chains->doing[0] < chains->count)
        claim_opening(chains, state);
}
