/* Where a step would go: which units it takes, and when. */
#include "room/decode.h"

#include <limits.h>
#include <string.h>

/* A contrast's items are shifted until their gaps are kept; after this many shifts they never will be. */
enum { SHIFTS_MOST = 64 };

enum room_pass { PASS_DONE, PASS_AGAIN, PASS_NEVER };

static const struct room_chain *chain_of(const struct room_decoder *decoder, int athlete)
{
    return &decoder->chains->chains[athlete];
}

/* --- bars and discs --- */

static int wanted_at(const struct room_decoder *decoder, int part, int time)
{
    int wanted = 0;
    for (int i = 0; i < decoder->near_count; i++) {
        const struct room_loaded *loaded = decoder->near[i];
        if (loaded->start <= time && time < loaded->end)
            wanted += room_parts_in(&decoder->chains->stacks[loaded->stack], part, loaded->one_sleeve);
    }
    return wanted;
}

/* Whether there is enough at TIME of everything that NEW wants; if not, when the next of those seats is left. */
static bool is_there(const struct room_decoder *decoder, const struct room_loaded *new, int time, int *next)
{
    const struct room_chains *chains = decoder->chains;
    const struct room_stack *stack = &chains->stacks[new->stack];
    for (size_t i = 0; i < stack->count; i++) {
        int part = stack->parts[i], own = room_parts_in(stack, part, new->one_sleeve);
        if (wanted_at(decoder, part, time) + own <= chains->room->stock[part].count)
            continue;
        *next = INT_MAX;
        for (int j = 0; j < decoder->near_count; j++) {
            const struct room_loaded *other = decoder->near[j];
            if (other->start <= time && time < other->end && other->end < *next
                && room_parts_in(&chains->stacks[other->stack], part, other->one_sleeve))
                *next = other->end;
        }
        return false;
    }
    return true;
}

/* The earliest start, from NEW's own on, at which its bar and discs are available until its end. What was put back before
 * does not matter, which late in a session is nearly all that was ever loaded. */
static int start_with_stack(struct room_decoder *decoder, const struct room_state *state, struct room_loaded new)
{
    int length = new.end - new.start, next = 0;
    decoder->near_count = 0;
    for (int i = 0; i < state->loaded_count; i++)
        if (state->loaded[i].end > new.start)
            decoder->near[decoder->near_count++] = &state->loaded[i];
    for (bool fits = false; !fits;) {
        fits = is_there(decoder, &new, new.start, &next);
        for (int i = 0; fits && i < decoder->near_count; i++) {
            const struct room_loaded *other = decoder->near[i];
            if (other->start > new.start && other->start < new.start + length)
                fits = is_there(decoder, &new, other->start, &next);
        }
        if (!fits)
            new.start = next;
    }
    return new.start;
}

/* --- units --- */

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

/* The most discs that a patient athlete will change: the fewest that any of the seats needs. */
static int discs_at_most(const struct room_decoder *decoder, const struct room_state *state, int stack,
                         const struct room_need *need)
{
    const struct room_chains *chains = decoder->chains;
    const struct room_use *uses = &state->uses[chains->first_unit[need->kind]];
    int fewest = INT_MAX;
    if (!decoder->patient || need->count > 1)
        return INT_MAX;
    for (int i = 0; i < chains->room->kinds[need->kind].count; i++) {
        int discs = room_unit_discs(chains, &uses[i], need->kind, stack);
        fewest = discs < fewest ? discs : fewest;
    }
    return fewest;
}

int room_need_ready(const struct room_decoder *decoder, const struct room_state *state, int athlete, int stack,
                      const struct room_need *need, int latest)
{
    const struct room_chains *chains = decoder->chains;
    int first = chains->first_unit[need->kind], count = chains->room->kinds[need->kind].count;
    if (count == 1)
        return room_unit_ready(chains, &state->uses[first], need->kind, athlete, stack);
    int ready = INT_MIN, taken = 0, most = discs_at_most(decoder, state, stack, need);
    while (taken < need->count) {
        int next = INT_MAX, times = 0;
        for (int unit = first; unit < first + count; unit++) {
            int at = room_unit_ready(chains, &state->uses[unit], need->kind, athlete, stack);
            if (most != INT_MAX && room_unit_discs(chains, &state->uses[unit], need->kind, stack) > most)
                continue;
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

/* Of the units that are ready by START, those with the fewest discs to change, then with the lowest numbers. */
int room_take_units(const struct room_decoder *decoder, const struct room_state *state, int athlete, int stack,
                      const struct room_need *need, int start, int latest, int *taken)
{
    const struct room_chains *chains = decoder->chains;
    int first = chains->first_unit[need->kind], end = first + chains->room->kinds[need->kind].count, discs = 0;
    if (end - first == 1) {
        taken[0] = first;
        return room_unit_discs(chains, &state->uses[first], need->kind, stack);
    }
    for (int i = 0; i < need->count; i++) {
        int best = ROOM_NONE, fewest = INT_MAX;
        for (int unit = first; unit < end; unit++) {
            const struct room_use *use = &state->uses[unit];
            int ready = room_unit_ready(chains, use, need->kind, athlete, stack);
            int moved = room_unit_discs(chains, use, need->kind, stack);
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

void room_use_units(const struct room_decoder *decoder, struct room_state *state, int athlete,
                      const struct room_task *task, const int *units, int end)
{
    for (size_t i = 0; i < task->item->need_count; i++) {
        const struct room_need *need = &task->item->needs[i];
        for (int j = 0; j < need->count; j++, units++) {
            struct room_use *use = &state->uses[*units];
            use->free = end;
            use->last = athlete;
            use->by = state->placed;
            if (decoder->chains->room->kinds[need->kind].seat)
                use->stack = task->stack;
        }
    }
}

/* --- one step --- */

int room_units_of(const struct room_item *item)
{
    int count = 0;
    for (size_t i = 0; i < item->need_count; i++)
        count += item->needs[i].count;
    return count;
}

/* Whether TASK puts a stack in use where bars or discs can run short. */
bool room_is_watched(const struct room_chains *chains, const struct room_task *task, bool *one_sleeve)
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

/* The start of one task, not before START; INT_MAX if the step's own earlier items tie up its kit. */
static int try_task(struct room_decoder *decoder, const struct room_state *state, int athlete,
                    const struct room_task *task, int index, int start, int latest)
{
    const struct room_item *item = task->item;
    int holder = item->partner ? chain_of(decoder, athlete)->holder : ROOM_NONE;
    bool one_sleeve = false;
    if (holder != ROOM_NONE && state->turns[holder].hold > start)
        start = state->turns[holder].hold;
    for (size_t i = 0; i < item->need_count; i++) {
        int ready = room_need_ready(decoder, state, athlete, task->stack, &item->needs[i], latest);
        start = ready > start ? ready : start;
    }
    if (start == INT_MAX)
        return start;
    if (room_is_watched(decoder->chains, task, &one_sleeve))
        start = start_with_stack(decoder, state,
                                 (struct room_loaded){start, start + item->work, task->stack, one_sleeve});
    int *units = decoder->trial.units[index], discs = 0;
    for (size_t i = 0; i < item->need_count; i++) {
        discs += room_take_units(decoder, state, athlete, task->stack, &item->needs[i], start, latest, units);
        units += item->needs[i].count;
    }
    decoder->trial.starts[index] = start;
    decoder->trial.discs[index] = discs;
    return start;
}

/* Keeps the state of the units of task INDEX, and takes them for the items after it. */
static void take_for_now(struct room_decoder *decoder, struct room_state *state, int athlete,
                         const struct room_task *task, int index)
{
    const int *units = decoder->trial.units[index];
    for (int i = 0; i < room_units_of(task->item); i++)
        decoder->undone[decoder->undone_count++] = (struct room_undone){units[i], state->uses[units[i]]};
    room_use_units(decoder, state, athlete, task, units, decoder->trial.starts[index] + task->item->work);
}

static void give_back(struct room_decoder *decoder, struct room_state *state)
{
    while (decoder->undone_count) {
        const struct room_undone *undone = &decoder->undone[--decoder->undone_count];
        state->uses[undone->unit] = undone->use;
    }
}

/* Makes one pass over a step's tasks, none before its least start. If a gap would be too long, the item before it
 * has to start later: its least start is raised, and another pass is needed. */
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
