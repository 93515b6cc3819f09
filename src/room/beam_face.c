#include <string.h>

#include "room/beam_parts.h"

/* --- athletes with the same session --- */

static bool same_task(const struct room_task *a, const struct room_task *b)
{
    const struct room_item *x = a->item, *y = b->item;
    bool same = x->work == y->work && x->gap_least == y->gap_least && x->gap_most == y->gap_most
                && a->stack == b->stack && x->need_count == y->need_count;
    for (size_t i = 0; same && i < x->need_count; i++)
        same = x->needs[i].kind == y->needs[i].kind && x->needs[i].count == y->needs[i].count;
    return same;
}

static bool same_leg(const struct room_leg *a, const struct room_leg *b)
{
    bool same = a->block == b->block && a->step_count == b->step_count && !a->partnered && !b->partnered;
    for (int i = 0; same && i < a->step_count; i++) {
        same = a->steps[i].lead == b->steps[i].lead && a->steps[i].task_count == b->steps[i].task_count;
        for (int j = 0; same && j < a->steps[i].task_count; j++)
            same = same_task(&a->steps[i].tasks[j], &b->steps[i].tasks[j]);
    }
    return same;
}

static bool same_chain(const struct room_chain *a, const struct room_chain *b)
{
    bool same = a->leg_count == b->leg_count && a->group == ROOM_NONE && b->group == ROOM_NONE;
    for (int i = 0; same && i < a->leg_count; i++)
        same = same_leg(&a->legs[i], &b->legs[i]);
    return same;
}

void room_beam_classes(struct room_beam *beam)
{
    const struct room_chains *chains = beam->chains;
    for (int i = 0; i < chains->count; i++) {
        beam->classes[i] = i;
        for (int j = 0; j < i && beam->classes[i] == i; j++) {
            if (same_chain(&chains->chains[i], &chains->chains[j]))
                beam->classes[i] = beam->classes[j];
        }
    }
}

/* --- beginnings that can be compared --- */

static int done_mask(const struct room_beam *beam, const struct room_state *state, int athlete)
{
    const struct room_decoder *decoder = beam->search->decoder;
    unsigned mask = 0;
    for (int i = decoder->piece->from[athlete]; i < state->turns[athlete].leg; i++)
        mask |= 1U << room_leg_at(decoder, athlete, i);
    return (int)mask;
}

/* Turns come in the order of their starts, so ready times before the last start make no difference: they are all
 * made equal. */
static int ready_from(const struct room_beam *beam, const struct room_state *state, int athlete, int time)
{
    const struct room_turn *turn = &state->turns[athlete];
    const struct room_leg *leg = room_next_leg(beam->search->decoder, state, athlete);
    if (!leg)
        return 0;
    return turn->ready > time || leg->steps[turn->step].task_count > 1 ? turn->ready : time;
}

/* Whether ATHLETE stands before a block for which another may be chosen. */
static bool may_choose(const struct room_beam *beam, const struct room_state *state, int athlete)
{
    const struct room *room = beam->chains->room;
    const struct room_leg *leg = room_next_leg(beam->search->decoder, state, athlete);
    return room->order == ROOM_ANY_ORDER && leg && room->blocks[leg->block].free && !state->turns[athlete].step
           && !beam->search->orders->shared[athlete];
}

/* Where ATHLETE stands: four ints. */
static void face_of_turn(const struct room_beam *beam, const struct room_state *state, int athlete, int *face)
{
    const struct room_turn *turn = &state->turns[athlete];
    const struct room_leg *leg = room_next_leg(beam->search->decoder, state, athlete);
    face[0] = done_mask(beam, state, athlete);
    face[1] = !leg ? ROOM_NONE : may_choose(beam, state, athlete) ? beam->search->orders->blocks[0] : leg->block;
    face[2] = turn->step;
    face[3] = turn->holds * 2 + turn->at_bell;
}

static int compare_ints(const int *a, const int *b, int count)
{
    for (int i = 0; i < count; i++) {
        if (a[i] != b[i])
            return a[i] < b[i] ? -1 : 1;
    }
    return 0;
}

/* Puts athletes with the same session in an order that does not depend on who is who: slots[athlete]. FACES holds
 * five ints for each athlete, by which they are sorted. */
static void assign_slots(const struct room_beam *beam, const int *faces)
{
    for (int i = 0; i < beam->chains->count; i++) {
        int slot = 0;
        for (int j = 0; j < beam->chains->count; j++) {
            if (beam->classes[j] != beam->classes[i]) {
                slot += beam->classes[j] < beam->classes[i];
                continue;
            }
            int order = compare_ints(&faces[j * 5], &faces[i * 5], 5);
            slot += order < 0 || (order == 0 && j < i);
        }
        beam->slots[i] = slot;
    }
}

/* A unit as others see it: whose it was, if that athlete comes back to it; its stack; when it is free. */
static void face_of_unit(const struct room_beam *beam, const struct room_state *state, int kind, int unit, int time,
                         int *face)
{
    const struct room_use *use = &state->uses[unit];
    size_t kinds = beam->chains->room->kind_count;
    bool back = use->last >= 0 && beam->wants[(size_t)use->last * kinds + (size_t)kind];
    face[0] = use->last == USED_NEVER ? -1 : back ? beam->slots[use->last] : -2;
    face[1] = use->stack;
    face[2] = use->last == USED_NEVER ? 0 : use->free > time - beam->slack ? use->free : time - beam->slack;
}

/* The units of one kind, sorted, into KEY (two ints each) and REST (one each). */
static void face_of_kind(const struct room_beam *beam, const struct room_state *state, int kind, int time, int *key,
                         int *rest)
{
    int first = beam->chains->first_unit[kind], count = beam->chains->room->kinds[kind].count;
    bool wanted = false;
    for (int i = 0; i < beam->chains->count; i++)
        wanted |= beam->wants[(size_t)i * beam->chains->room->kind_count + (size_t)kind];
    for (int i = 0; i < count; i++) {
        int face[3] = {0, 0, 0}, at = i;
        if (wanted)
            face_of_unit(beam, state, kind, first + i, time, face);
        for (; at > 0; at--) {
            const int before[3] = {key[2 * at - 2], key[2 * at - 1], rest[at - 1]};
            if (compare_ints(before, face, 3) <= 0)
                break;
            key[2 * at] = before[0];
            key[2 * at + 1] = before[1];
            rest[at] = before[2];
        }
        key[2 * at] = face[0];
        key[2 * at + 1] = face[1];
        rest[at] = face[2];
    }
}

void room_beam_face(const struct room_beam *beam, const struct room_state *state, int time)
{
    const struct room_chains *chains = beam->chains;
    int n = chains->count, *key = beam->face, *rest = &beam->face[beam->key_length], *faces = beam->sorted;
    int finish = 0, wait = 0;
    for (int i = 0; i < n; i++) {
        face_of_turn(beam, state, i, &faces[5 * i]);
        faces[5 * i + 4] = ready_from(beam, state, i, time);
    }
    assign_slots(beam, faces);
    for (int i = 0; i < n; i++) {
        int slot = beam->slots[i];
        memcpy(&key[4 * slot], &faces[5 * i], 4 * sizeof *key);
        rest[2 * slot] = faces[5 * i + 4];
        rest[2 * slot + 1] = chains->group_count && state->turns[i].hold > time ? state->turns[i].hold : 0;
        if (room_next_leg(beam->search->decoder, state, i))
            continue;
        wait += state->turns[i].ends;
        finish = state->turns[i].ends > finish ? state->turns[i].ends : finish;
    }
    key += 4 * n;
    rest += 2 * n;
    for (int k = 0; k < (int)chains->room->kind_count; k++) {
        face_of_kind(beam, state, k, time, key, rest);
        key += 2 * chains->room->kinds[k].count;
        rest += chains->room->kinds[k].count;
    }
    rest[0] = time;
    rest[1] = finish;
    rest[2] = wait;
    rest[3] = state->score.discs;
}
