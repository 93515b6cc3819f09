#include "room/decode.h"

#include <limits.h>
#include <string.h>

/* A contrast's items are shifted until their gaps hold; after so many shifts they never will. */
enum { SHIFTS_MOST = 64 };

enum room_pass { PASS_DONE, PASS_AGAIN, PASS_NEVER };

/* --- the state --- */

struct room_state *room_state_new(struct arena *arena, const struct room_chains *chains)
{
    struct room_state *state = arena_alloc(arena, sizeof *state);
    size_t athletes = (size_t)chains->count, blocks = chains->room->block_count;
    size_t groups = (size_t)chains->group_count, steps = (size_t)chains->steps;
    size_t loaded = chains->scarce ? steps * (size_t)chains->longest_tie : 0;
    *state = (struct room_state){
        .turns = arena_alloc(arena, athletes * sizeof *state->turns),
        .uses = arena_alloc(arena, (size_t)(chains->unit_count + 1) * sizeof *state->uses),
        .come = arena_alloc(arena, (blocks + 1) * sizeof *state->come),
        .through = arena_alloc(arena, (groups * blocks + 1) * sizeof *state->through),
        .queue = arena_alloc(arena, (steps + 1) * sizeof *state->queue),
        .loaded = arena_alloc(arena, (loaded + 1) * sizeof *state->loaded),
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
    to->score = from->score;
    to->news = from->news;
}

/* What an opening bell takes, while others who do not answer it train already. */
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
                *use = (struct room_use){chains->opening_ends, USED_AT_BELL, STACK_UNSET};
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
        state->uses[i] = (struct room_use){0, USED_NEVER, STACK_UNSET};
    memset(state->come, 0, room->block_count * sizeof *state->come);
    memset(state->through, 0, (size_t)chains->group_count * room->block_count * sizeof *state->through);
    state->queue_count = state->loaded_count = 0;
    if (chains->opening != ROOM_NONE && chains->doing[0] < chains->count)
        claim_opening(chains, state);
}

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
    decoder->wanted = arena_alloc(arena, (chains->room->kind_count + 1) * sizeof *decoder->wanted);
    return decoder;
}

static const struct room_chain *chain_of(const struct room_decoder *decoder, int athlete)
{
    return &decoder->chains->chains[athlete];
}

const struct room_leg *room_next_leg(const struct room_decoder *decoder, const struct room_state *state, int athlete)
{
    int leg = state->turns[athlete].leg;
    if (leg == decoder->piece->to[athlete])
        return NULL;
    return &chain_of(decoder, athlete)->legs[room_leg_at(decoder, athlete, leg)];
}

/* --- bars and discs --- */

static int wanted_at(const struct room_chains *chains, const struct room_state *state, int part, int time)
{
    int wanted = 0;
    for (int i = 0; i < state->loaded_count; i++) {
        const struct room_loaded *loaded = &state->loaded[i];
        if (loaded->start <= time && time < loaded->end)
            wanted += room_parts_in(&chains->stacks[loaded->stack], part, loaded->one_sleeve);
    }
    return wanted;
}

/* Whether there is enough of all that NEW wants at TIME; else when the next of those seats is left. */
static bool is_there(const struct room_chains *chains, const struct room_state *state, const struct room_loaded *new,
                     int time, int *next)
{
    const struct room_stack *stack = &chains->stacks[new->stack];
    for (size_t i = 0; i < stack->count; i++) {
        int part = stack->parts[i], own = room_parts_in(stack, part, new->one_sleeve);
        if (wanted_at(chains, state, part, time) + own <= chains->room->stock[part].count)
            continue;
        *next = INT_MAX;
        for (int j = 0; j < state->loaded_count; j++) {
            const struct room_loaded *other = &state->loaded[j];
            if (other->start <= time && time < other->end && other->end < *next
                && room_parts_in(&chains->stacks[other->stack], part, other->one_sleeve))
                *next = other->end;
        }
        return false;
    }
    return true;
}

/* The earliest start from NEW's own on at which its bar and discs are there until its end. */
static int start_with_stack(const struct room_chains *chains, const struct room_state *state, struct room_loaded new)
{
    int length = new.end - new.start, next = 0;
    for (bool fits = false; !fits;) {
        fits = is_there(chains, state, &new, new.start, &next);
        for (int i = 0; fits && i < state->loaded_count; i++) {
            const struct room_loaded *other = &state->loaded[i];
            if (other->start > new.start && other->start < new.start + length)
                fits = is_there(chains, state, &new, other->start, &next);
        }
        if (!fits)
            new.start = next;
    }
    return new.start;
}

/* --- units --- */

static int unit_discs(const struct room_chains *chains, const struct room_use *use, int kind, int stack)
{
    return chains->room->kinds[kind].seat ? room_moved(chains, use->stack, stack) : 0;
}

static int unit_ready(const struct room_chains *chains, const struct room_use *use, int kind, int athlete, int stack)
{
    if (use->last == USED_NEVER)
        return use->free;
    int turn = use->last == athlete ? 0 : chains->room->changeover;
    return use->free + turn + chains->room->disc * unit_discs(chains, use, kind, stack);
}

/* Whether UNIT was taken by an earlier item of the step that is tried, and cannot be changed within its gap. */
static bool is_tied_up(const struct room_decoder *decoder, int unit, int ready, int latest)
{
    if (ready <= latest)
        return false;
    for (int i = 0; i < decoder->undone_count; i++) {
        if (decoder->undone[i].unit == unit)
            return true;
    }
    return false;
}

/* When COUNT units of a kind are ready for ATHLETE. */
static int need_ready(const struct room_decoder *decoder, const struct room_state *state, int athlete, int stack,
                      const struct room_need *need, int latest)
{
    const struct room_chains *chains = decoder->chains;
    int first = chains->first_unit[need->kind], count = chains->room->kinds[need->kind].count;
    if (count == 1)
        return unit_ready(chains, &state->uses[first], need->kind, athlete, stack);
    int ready = INT_MIN, taken = 0;
    while (taken < need->count) {
        int next = INT_MAX, times = 0;
        for (int unit = first; unit < first + count; unit++) {
            int at = unit_ready(chains, &state->uses[unit], need->kind, athlete, stack);
            if ((taken && at <= ready) || at > next || is_tied_up(decoder, unit, at, latest))
                continue;
            times = at == next ? times + 1 : 1;
            next = at;
        }
        if (!times)
            return INT_MAX; /* the earlier items of the step have them */
        ready = next;
        taken += times;
    }
    return ready;
}

/* Of those that are ready by START, the units with the fewest discs to change, then the lowest numbers. */
static int take_units(const struct room_decoder *decoder, const struct room_state *state, int athlete, int stack,
                      const struct room_need *need, int start, int latest, int *taken)
{
    const struct room_chains *chains = decoder->chains;
    int first = chains->first_unit[need->kind], end = first + chains->room->kinds[need->kind].count, discs = 0;
    for (int i = 0; i < need->count; i++) {
        int best = ROOM_NONE, fewest = INT_MAX;
        for (int unit = first; unit < end; unit++) {
            const struct room_use *use = &state->uses[unit];
            int ready = unit_ready(chains, use, need->kind, athlete, stack);
            int moved = unit_discs(chains, use, need->kind, stack);
            bool is_taken = false;
            for (int j = 0; j < i; j++)
                is_taken |= taken[j] == unit;
            if (is_taken || ready > start || moved >= fewest || is_tied_up(decoder, unit, ready, latest))
                continue;
            best = unit;
            fewest = moved;
        }
        taken[i] = best;
        discs += fewest;
    }
    return discs;
}

static void use_units(const struct room_decoder *decoder, struct room_state *state, int athlete,
                      const struct room_task *task, const int *units, int end)
{
    for (size_t i = 0; i < task->item->need_count; i++) {
        const struct room_need *need = &task->item->needs[i];
        for (int j = 0; j < need->count; j++, units++) {
            struct room_use *use = &state->uses[*units];
            use->free = end;
            use->last = athlete;
            if (decoder->chains->room->kinds[need->kind].seat)
                use->stack = task->stack;
        }
    }
}

/* --- one step --- */

static int units_of(const struct room_item *item)
{
    int count = 0;
    for (size_t i = 0; i < item->need_count; i++)
        count += item->needs[i].count;
    return count;
}

/* Whether TASK puts a stack in use where bars or discs can run short. */
static bool is_watched(const struct room_chains *chains, const struct room_task *task, bool *one_sleeve)
{
    for (size_t i = 0; chains->scarce && task->stack != STACK_BARE && i < task->item->need_count; i++) {
        const struct room_kind *kind = &chains->room->kinds[task->item->needs[i].kind];
        if (kind->seat) {
            *one_sleeve = kind->one_sleeve;
            return true;
        }
    }
    return false;
}

/* The start of one task, not before START; INT_MAX: its kit is tied up by the step's own earlier items. */
static int try_task(struct room_decoder *decoder, const struct room_state *state, int athlete,
                    const struct room_task *task, int index, int start, int latest)
{
    const struct room_item *item = task->item;
    int holder = item->partner ? chain_of(decoder, athlete)->holder : ROOM_NONE;
    bool one_sleeve = false;
    if (holder != ROOM_NONE && state->turns[holder].hold > start)
        start = state->turns[holder].hold;
    for (size_t i = 0; i < item->need_count; i++) {
        int ready = need_ready(decoder, state, athlete, task->stack, &item->needs[i], latest);
        start = ready > start ? ready : start;
    }
    if (start == INT_MAX)
        return start;
    if (is_watched(decoder->chains, task, &one_sleeve))
        start = start_with_stack(decoder->chains, state,
                                 (struct room_loaded){start, start + item->work, task->stack, one_sleeve});
    int *units = decoder->trial.units[index], discs = 0;
    for (size_t i = 0; i < item->need_count; i++) {
        discs += take_units(decoder, state, athlete, task->stack, &item->needs[i], start, latest, units);
        units += item->needs[i].count;
    }
    decoder->trial.starts[index] = start;
    decoder->trial.discs[index] = discs;
    return start;
}

/* Keeps how the units of task INDEX stand, and takes them for the items behind it. */
static void take_for_now(struct room_decoder *decoder, struct room_state *state, int athlete,
                         const struct room_task *task, int index)
{
    const int *units = decoder->trial.units[index];
    for (int i = 0; i < units_of(task->item); i++)
        decoder->undone[decoder->undone_count++] = (struct room_undone){units[i], state->uses[units[i]]};
    use_units(decoder, state, athlete, task, units, decoder->trial.starts[index] + task->item->work);
}

static void give_back(struct room_decoder *decoder, struct room_state *state)
{
    while (decoder->undone_count) {
        const struct room_undone *undone = &decoder->undone[--decoder->undone_count];
        state->uses[undone->unit] = undone->use;
    }
}

/* One pass over a step's tasks, none before its least start. Where a gap would be too long the item before it is to
 * start later: its least start is raised, and the pass is for nothing. */
static enum room_pass try_pass(struct room_decoder *decoder, struct room_state *state, int athlete,
                               const struct room_step *step)
{
    struct room_trial *trial = &decoder->trial;
    int end = 0;
    for (int i = 0; i < step->task_count; i++) {
        const struct room_task *task = &step->tasks[i];
        int earliest = trial->least[i], latest = INT_MAX;
        if (i) {
            latest = end + task->item->gap_most;
            if (end + task->item->gap_least > earliest)
                earliest = end + task->item->gap_least;
        }
        int start = try_task(decoder, state, athlete, task, i, earliest, latest);
        if (start == INT_MAX)
            return PASS_NEVER;
        if (start > latest) {
            trial->least[i - 1] = start - task->item->gap_most - step->tasks[i - 1].item->work;
            return PASS_AGAIN;
        }
        end = start + task->item->work;
        if (i + 1 < step->task_count)
            take_for_now(decoder, state, athlete, task, i);
    }
    trial->end = end;
    return PASS_DONE;
}

/* All of a group have come before one of them starts. */
static int start_of_leg(const struct room_decoder *decoder, const struct room_state *state, int athlete,
                        const struct room_leg *leg)
{
    int start = state->turns[athlete].ready;
    if (!leg->partnered || state->turns[athlete].step)
        return start;
    const struct room_group *group = &decoder->chains->groups[chain_of(decoder, athlete)->group];
    for (size_t i = 0; i < group->count; i++) {
        const struct room_turn *turn = &state->turns[group->members[i]];
        const struct room_leg *other = room_next_leg(decoder, state, group->members[i]);
        if (other && other->block == leg->block && !turn->step && turn->ready > start)
            start = turn->ready;
    }
    return start;
}

bool room_try(struct room_decoder *decoder, struct room_state *state, int athlete)
{
    const struct room_leg *leg = room_next_leg(decoder, state, athlete);
    const struct room_step *step = &leg->steps[state->turns[athlete].step];
    struct room_trial *trial = &decoder->trial;
    memset(trial->least, 0, (size_t)step->task_count * sizeof *trial->least);
    trial->least[0] = start_of_leg(decoder, state, athlete, leg);
    enum room_pass pass = PASS_AGAIN;
    for (int i = 0; pass == PASS_AGAIN && i < SHIFTS_MOST; i++) {
        pass = try_pass(decoder, state, athlete, step);
        give_back(decoder, state);
    }
    return pass == PASS_DONE;
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

/* When all who answer the bell are ready and, where others go on training beside it, when its kit is free. */
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
        int ready = need.count ? need_ready(decoder, state, USED_AT_BELL, STACK_BARE, &need, INT_MAX) : 0;
        start = ready > start ? ready : start;
    }
    return start;
}

/* Hands one who answers a bell the kit for it. Where all do, nobody holds any, and it is dealt out by number:
 * decoder->wanted counts what was given. */
static void take_at_bell(const struct room_decoder *decoder, struct room_state *state, const struct room_task *task,
                         bool beside, int start, int *units)
{
    const struct room_chains *chains = decoder->chains;
    int *at = units;
    for (size_t i = 0; i < task->item->need_count; i++) {
        const struct room_need *need = &task->item->needs[i];
        if (beside)
            take_units(decoder, state, USED_AT_BELL, STACK_BARE, need, start, INT_MAX, at);
        for (int j = 0; !beside && j < need->count; j++)
            at[j] = chains->first_unit[need->kind] + decoder->wanted[need->kind]++;
        at += need->count;
    }
    if (beside)
        use_units(decoder, state, USED_AT_BELL, task, units, start + task->item->work);
}

static void ring(struct room_decoder *decoder, struct room_state *state, int block)
{
    const struct room_chains *chains = decoder->chains;
    bool beside = chains->doing[block] < chains->count;
    int start = bell_start(decoder, state, block, beside);
    memset(decoder->wanted, 0, chains->room->kind_count * sizeof *decoder->wanted);
    for (int i = 0; i < chains->count; i++) {
        if (!stands_at(decoder, state, i, block))
            continue;
        const struct room_leg *leg = room_next_leg(decoder, state, i);
        struct room_turn *turn = &state->turns[i];
        int *units = decoder->trial.units[0], end = start + leg->length;
        take_at_bell(decoder, state, leg->steps[0].tasks, beside, start, units);
        log_placed(decoder, &(struct room_placed){.athlete = i, .leg = room_leg_at(decoder, i, turn->leg), .start = start,
                                                  .units = units, .unit_count = units_of(room_leg_item(leg))});
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

/* ATHLETE is through with a block of partners, and goes on once all of the group are. */
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
    use_units(decoder, state, athlete, task, trial->units[index], end);
    if (is_watched(chains, task, &one_sleeve))
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
                                              .unit_count = units_of(task->item)});
}

void room_put(struct room_decoder *decoder, struct room_state *state, int athlete)
{
    struct room_turn *turn = &state->turns[athlete];
    const struct room_leg *leg = room_next_leg(decoder, state, athlete);
    const struct room_step *step = &leg->steps[turn->step];
    int end = decoder->trial.end;
    for (int i = 0; i < step->task_count; i++)
        put_task(decoder, state, athlete, step, i);
    turn->done = end;
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

static bool go(struct room_decoder *decoder, struct room_state *state, int athlete)
{
    if (!room_try(decoder, state, athlete))
        return false;
    room_put(decoder, state, athlete);
    return true;
}

/* Those whose turn was put off, first come first. */
static bool serve_queue(struct room_decoder *decoder, struct room_state *state)
{
    while (state->news) {
        state->news = false;
        for (int i = 0; i < state->queue_count; i++) {
            int athlete = state->queue[i];
            if (!room_can_go(decoder, state, athlete))
                continue;
            state->queue_count--;
            memmove(&state->queue[i], &state->queue[i + 1], (size_t)(state->queue_count - i) * sizeof *state->queue);
            if (!go(decoder, state, athlete))
                return false;
            state->news = true;
            break;
        }
    }
    return true;
}

bool room_take_turn(struct room_decoder *decoder, struct room_state *state, int athlete)
{
    if (!room_can_go(decoder, state, athlete)) {
        state->queue[state->queue_count++] = athlete;
        return true;
    }
    return go(decoder, state, athlete) && serve_queue(decoder, state);
}

void room_piece_start(struct room_decoder *decoder, struct room_state *state)
{
    const struct room_chains *chains = decoder->chains;
    const struct room_piece *piece = decoder->piece;
    state->score = (struct room_score){0};
    state->queue_count = 0;
    for (int i = 0; i < chains->count; i++) {
        struct room_turn *turn = &state->turns[i];
        turn->leg = piece->from[i];
        turn->ahead = turn->ends = 0;
        for (int j = piece->from[i]; j < piece->to[i]; j++)
            turn->ahead += chains->room->between + chains->chains[i].legs[j].length;
        raise_end(state, i, turn->done);
    }
    for (int i = 0; i < chains->count; i++)
        arrive(decoder, state, i);
}
