#include "room/decode.h"

#include <limits.h>
#include <string.h>

struct room_decoder *room_decoder_new(struct arena *arena, const struct room_chains *chains)
{
    struct room_decoder *decoder = arena_alloc(arena, sizeof *decoder);
    size_t tasks = (size_t)chains->longest_tie + 1, units = (size_t)chains->most_units + 1;
    *decoder = (struct room_decoder){.chains = chains, .arena = arena};
    struct room_trial *trial = &decoder->trial;
    trial->starts = arena_alloc(arena, tasks * sizeof *trial->starts);
    trial->least = arena_alloc(arena, tasks * sizeof *trial->least);
    trial->discs = arena_alloc(arena, tasks * sizeof *trial->discs);
    trial->units = arena_alloc(arena, tasks * sizeof *trial->units);
    for (size_t i = 0; i < tasks; i++)
        trial->units[i] = arena_alloc(arena, units * sizeof **trial->units);
    decoder->undone = arena_alloc(arena, tasks * units * sizeof *decoder->undone);
    decoder->near = arena_alloc(arena, (room_loaded_most(chains) + 1) * sizeof *decoder->near);
    decoder->wanted = arena_alloc(arena, (chains->room->kind_count + 1) * sizeof *decoder->wanted);
    return decoder;
}

static const struct room_chain *chain_of(const struct room_decoder *decoder, int athlete)
{
    return &decoder->chains->chains[athlete];
}

/* --- from block to block --- */

static void raise_end(struct room_state *state, int athlete, int ends)
{
    struct room_turn *turn = &state->turns[athlete];
    if (ends <= turn->ends)
        return;
    state->score.wait += ends - turn->ends;
    turn->ends = ends;
    if (ends > state->score.finish)
        state->score.finish = ends;
}

static void log_placed(struct room_decoder *decoder, const struct room_placed *placed)
{
    struct room_log *log = decoder->log;
    if (!log)
        return;
    log->items = arena_grow(log->arena, log->items, log->count, &log->capacity, sizeof *log->items);
    int *units = arena_alloc(log->arena, (size_t)(placed->unit_count + 1) * sizeof *units);
    memcpy(units, placed->units, (size_t)placed->unit_count * sizeof *units);
    log->items[log->count] = *placed;
    log->items[log->count++].units = units;
}

/* --- bells --- */

static void arrive(struct room_decoder *decoder, struct room_state *state, int athlete);

static bool stands_at(const struct room_decoder *decoder, const struct room_state *state, int athlete, int block)
{
    const struct room_leg *leg = room_next_leg(decoder, state, athlete);
    return state->turns[athlete].at_bell && leg && leg->block == block;
}

/* When all who answer the bell are ready and, if others go on training beside it, its kit is free. */
static int bell_start(const struct room_decoder *decoder, const struct room_state *state, int block, bool beside)
{
    const struct room *room = decoder->chains->room;
    int start = 0;
    for (size_t k = 0; k <= room->kind_count; k++)
        decoder->wanted[k] = 0;
    for (int i = 0; i < decoder->chains->count; i++) {
        if (!stands_at(decoder, state, i, block))
            continue;
        const struct room_item *item = room_leg_item(room_next_leg(decoder, state, i));
        for (size_t j = 0; j < item->need_count; j++)
            decoder->wanted[item->needs[j].kind] += item->needs[j].count;
        if (state->turns[i].ready > start)
            start = state->turns[i].ready;
    }
    for (int k = 0; beside && k < (int)room->kind_count; k++) {
        const struct room_need need = {k, decoder->wanted[k]};
        int ready = need.count ? room_need_ready(decoder, state, CALLED_BY_BELL, STACK_BARE, &need, INT_MAX) : 0;
        start = ready > start ? ready : start;
    }
    return start;
}

/* Hands the kit to one who answers a bell. When everybody answers, nobody holds any kit, and it is dealt out by
 * number: decoder->wanted counts what was given. */
static void take_at_bell(const struct room_decoder *decoder, struct room_state *state, const struct room_task *task,
                         bool beside, int start, int *units)
{
    const struct room_chains *chains = decoder->chains;
    int *at = units;
    for (size_t i = 0; i < task->item->need_count; i++) {
        const struct room_need *need = &task->item->needs[i];
        if (beside)
            room_take_units(decoder, state, CALLED_BY_BELL, STACK_BARE, need, start, INT_MAX, at);
        for (int j = 0; !beside && j < need->count; j++)
            at[j] = chains->first_unit[need->kind] + decoder->wanted[need->kind]++;
        at += need->count;
    }
    if (beside)
        room_use_units(decoder, state, USED_AT_BELL, task, units, start + task->item->work);
}

static void ring(struct room_decoder *decoder, struct room_state *state, int block)
{
    const struct room_chains *chains = decoder->chains;
    bool beside = chains->doing[block] < chains->count;
    decoder->patient = false;
    int start = bell_start(decoder, state, block, beside);
    memset(decoder->wanted, 0, chains->room->kind_count * sizeof *decoder->wanted);
    for (int i = 0; i < chains->count; i++) {
        if (!stands_at(decoder, state, i, block))
            continue;
        const struct room_leg *leg = room_next_leg(decoder, state, i);
        struct room_turn *turn = &state->turns[i];
        int *units = decoder->trial.units[0], end = start + leg->length;
        take_at_bell(decoder, state, leg->steps[0].tasks, beside, start, units);
        log_placed(decoder, &(struct room_placed){.athlete = i, .leg = room_leg_at(decoder, i, turn->leg),
                                                  .start = start, .units = units, .unit_count = room_units_of(room_leg_item(leg))});
        turn->done = end;
        turn->hold = end + chains->room->changeover;
        turn->ready = end + chains->room->between;
        raise_end(state, i, end + turn->ahead);
    }
    for (int i = 0; i < chains->count; i++) {
        if (!stands_at(decoder, state, i, block))
            continue;
        state->turns[i].at_bell = false;
        state->turns[i].leg++;
        arrive(decoder, state, i);
    }
}

/* --- from block to block --- */

/* ATHLETE has come to the next leg, if any is left. The last to come to a bell rings it. */
static void arrive(struct room_decoder *decoder, struct room_state *state, int athlete)
{
    struct room_turn *turn = &state->turns[athlete];
    const struct room_leg *leg = room_next_leg(decoder, state, athlete);
    state->news = true;
    if (!leg)
        return;
    turn->ahead -= decoder->chains->room->between + leg->length;
    raise_end(state, athlete, turn->ready + leg->length + turn->ahead);
    if (!leg->bell)
        return;
    turn->at_bell = true;
    if (++state->come[leg->block] == decoder->chains->doing[leg->block])
        ring(decoder, state, leg->block);
}

static const struct room_group *group_of(const struct room_decoder *decoder, int athlete)
{
    return &decoder->chains->groups[chain_of(decoder, athlete)->group];
}

static bool does(const struct room_decoder *decoder, int athlete, int block)
{
    return decoder->chains->room->athletes[athlete].parts[block].set_count > 0;
}

/* ATHLETE has finished a block of partners, and goes on once the whole group has. */
static void leave_group(struct room_decoder *decoder, struct room_state *state, int athlete, int block)
{
    const struct room *room = decoder->chains->room;
    const struct room_group *group = group_of(decoder, athlete);
    int *through = &state->through[(size_t)chain_of(decoder, athlete)->group * room->block_count + (size_t)block];
    int members = 0, end = 0;
    state->turns[athlete].holds = true;
    ++*through;
    for (size_t i = 0; i < group->count; i++) {
        int member = group->members[i];
        if (!does(decoder, member, block))
            continue;
        members++;
        if (state->turns[member].done > end)
            end = state->turns[member].done;
    }
    if (*through < members)
        return;
    for (size_t i = 0; i < group->count; i++) {
        struct room_turn *turn = &state->turns[group->members[i]];
        if (!does(decoder, group->members[i], block))
            continue;
        turn->holds = false;
        if (end + room->between > turn->ready)
            turn->ready = end + room->between;
        arrive(decoder, state, group->members[i]);
    }
}

/* Whether all of the group stand before the block, or it has begun. */
static bool group_is_there(const struct room_decoder *decoder, const struct room_state *state, int athlete, int block)
{
    const struct room_group *group = group_of(decoder, athlete);
    bool all = true;
    for (size_t i = 0; i < group->count; i++) {
        int member = group->members[i];
        const struct room_turn *turn = &state->turns[member];
        const struct room_leg *leg = room_next_leg(decoder, state, member);
        if (!does(decoder, member, block))
            continue;
        bool there = leg && leg->block == block && !turn->holds;
        if (there && turn->step)
            return true;
        all &= there;
    }
    return all || state->through[(size_t)chain_of(decoder, athlete)->group * decoder->chains->room->block_count
                                 + (size_t)block] > 0;
}

bool room_can_go(const struct room_decoder *decoder, const struct room_state *state, int athlete)
{
    const struct room_turn *turn = &state->turns[athlete];
    const struct room_leg *leg = room_next_leg(decoder, state, athlete);
    if (!leg || turn->holds || turn->at_bell)
        return false;
    return turn->step || !leg->partnered || group_is_there(decoder, state, athlete, leg->block);
}

/* --- turns --- */

static void put_task(struct room_decoder *decoder, struct room_state *state, int athlete, const struct room_step *step,
                     int index)
{
    const struct room_chains *chains = decoder->chains;
    const struct room_task *task = &step->tasks[index];
    const struct room_trial *trial = &decoder->trial;
    int start = trial->starts[index], end = start + task->item->work;
    int holder = task->item->partner ? chain_of(decoder, athlete)->holder : ROOM_NONE;
    bool one_sleeve = false;
    room_use_units(decoder, state, athlete, task, trial->units[index], end);
    if (room_is_watched(chains, task, &one_sleeve))
        state->loaded[state->loaded_count++] = (struct room_loaded){start, end, task->stack, one_sleeve};
    if (holder != ROOM_NONE) {
        struct room_turn *turn = &state->turns[holder];
        turn->ready = end + chains->room->changeover > turn->ready ? end + chains->room->changeover : turn->ready;
        turn->hold = end > turn->hold ? end : turn->hold;
    }
    state->score.discs += trial->discs[index];
    log_placed(decoder, &(struct room_placed){.athlete = athlete,
                                              .leg = room_leg_at(decoder, athlete, state->turns[athlete].leg),
                                              .step = state->turns[athlete].step, .task = index,
                                              .start = start, .units = trial->units[index],
                                              .unit_count = room_units_of(task->item)});
}

/* Notes whose kit the turn waited for, before the turn takes that kit over. */
static void note_cause(struct room_decoder *decoder, const struct room_state *state, int athlete,
                       const struct room_step *step)
{
    const struct room_chains *chains = decoder->chains;
    const struct room_trial *trial = &decoder->trial;
    struct room_cause *cause = &decoder->causes[state->placed];
    int own = state->turns[athlete].ready;
    *cause = (struct room_cause){athlete + (decoder->patient ? chains->count : 0), state->turns[athlete].by, ROOM_NONE};
    for (int i = 0; i < step->task_count; i++) {
        const struct room_item *item = step->tasks[i].item;
        const int *unit = trial->units[i];
        if (i)
            own = trial->starts[i - 1] + step->tasks[i - 1].item->work + item->gap_least;
        for (size_t j = 0; trial->starts[i] > own && j < item->need_count; j++) {
            for (int k = 0; k < item->needs[j].count; k++, unit++) {
                const struct room_use *use = &state->uses[*unit];
                int stack = step->tasks[i].stack;
                if (room_unit_ready(chains, use, item->needs[j].kind, athlete, stack) == trial->starts[i])
                    cause->kit = use->by;
            }
        }
    }
}

void room_put(struct room_decoder *decoder, struct room_state *state, int athlete)
{
    struct room_turn *turn = &state->turns[athlete];
    const struct room_leg *leg = room_next_leg(decoder, state, athlete);
    const struct room_step *step = &leg->steps[turn->step];
    int end = decoder->trial.end;
    if (decoder->causes)
        note_cause(decoder, state, athlete, step);
    for (int i = 0; i < step->task_count; i++)
        put_task(decoder, state, athlete, step, i);
    turn->done = end;
    turn->by = state->placed++;
    if (end + decoder->chains->room->changeover > turn->hold)
        turn->hold = end + decoder->chains->room->changeover;
    raise_end(state, athlete, end + step->left + turn->ahead);
    if (++turn->step < leg->step_count) {
        turn->ready = end + step[1].lead;
        state->news |= leg->partnered && turn->step == 1;
        return;
    }
    turn->step = 0;
    turn->leg++;
    turn->ready = end + decoder->chains->room->between;
    if (leg->partnered)
        leave_group(decoder, state, athlete, leg->block);
    else
        arrive(decoder, state, athlete);
}

static bool go(struct room_decoder *decoder, struct room_state *state, int turn)
{
    int athlete = room_turn_athlete(decoder, turn);
    decoder->patient = turn != athlete;
    if (!room_try(decoder, state, athlete))
        return false;
    room_put(decoder, state, athlete);
    return true;
}

/* Takes the turns that were put off, first come first. */
static bool serve_queue(struct room_decoder *decoder, struct room_state *state)
{
    while (state->news) {
        state->news = false;
        for (int i = 0; i < state->queue_count; i++) {
            int turn = state->queue[i];
            if (!room_can_go(decoder, state, room_turn_athlete(decoder, turn)))
                continue;
            state->queue_count--;
            memmove(&state->queue[i], &state->queue[i + 1], (size_t)(state->queue_count - i) * sizeof *state->queue);
            if (!go(decoder, state, turn))
                return false;
            state->news = true;
            break;
        }
    }
    return true;
}

bool room_take_turn(struct room_decoder *decoder, struct room_state *state, int turn)
{
    if (!room_can_go(decoder, state, room_turn_athlete(decoder, turn))) {
        state->queue[state->queue_count++] = turn;
        return true;
    }
    return go(decoder, state, turn) && serve_queue(decoder, state);
}

void room_piece_start(struct room_decoder *decoder, struct room_state *state)
{
    const struct room_chains *chains = decoder->chains;
    const struct room_piece *piece = decoder->piece;
    state->score = (struct room_score){0};
    state->queue_count = state->placed = 0;
    for (int i = 0; i < chains->unit_count; i++)
        state->uses[i].by = ROOM_NONE;
    for (int i = 0; i < chains->count; i++) {
        struct room_turn *turn = &state->turns[i];
        turn->by = ROOM_NONE;
        turn->leg = piece->from[i];
        turn->ahead = turn->ends = 0;
        for (int j = piece->from[i]; j < piece->to[i]; j++)
            turn->ahead += chains->room->between + chains->chains[i].legs[j].length;
        raise_end(state, i, turn->done);
    }
    for (int i = 0; i < chains->count; i++)
        arrive(decoder, state, i);
}
