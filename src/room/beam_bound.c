#include <limits.h>

#include "room/beam_parts.h"

static int *first_step(const struct room_beam *beam, int athlete, int leg)
{
    return &beam->from_step[(size_t)athlete * beam->chains->room->block_count + (size_t)leg];
}

void room_beam_left(const struct room_beam *beam, const struct room_state *state)
{
    const struct room_decoder *decoder = beam->search->decoder;
    for (int i = 0; i < beam->chains->count; i++) {
        const struct room_turn *turn = &state->turns[i];
        for (int j = decoder->piece->from[i]; j < decoder->piece->to[i]; j++)
            *first_step(beam, i, room_leg_at(decoder, i, j)) = j < turn->leg ? INT_MAX : j > turn->leg ? 0 : turn->step;
    }
}

/* When COUNT pieces, which come free at the times FREE (sorted), have done WORK seconds of work. */
static int done_by(const int *free, int count, long work)
{
    long sum = 0;
    for (int m = 1; m <= count; m++) {
        sum += free[m - 1];
        long end = (work + sum + m - 1) / m;
        if (m == count || end <= free[m])
            return (int)end;
    }
    return 0;
}

/* When the units of KIND are free, sorted, none before START less the gap between two uses. */
static void sort_free(const struct room_beam *beam, const struct room_state *state, int kind, int start, int *free)
{
    int count = beam->chains->room->kinds[kind].count, gap = beam->bodies.gaps[kind];
    const struct room_use *uses = &state->uses[beam->chains->first_unit[kind]];
    for (int i = 0; i < count; i++) {
        int at = i, when = uses[i].last == USED_NEVER || uses[i].free < start - gap ? start - gap : uses[i].free;
        while (at > 0 && free[at - 1] > when) {
            free[at] = free[at - 1];
            at--;
        }
        free[at] = when;
    }
}

/* The bound from the bodies still to do that use KIND. */
static int kind_ends(const struct room_beam *beam, const struct room_state *state, int kind)
{
    const struct room *room = beam->chains->room;
    const struct room_body *bodies = &beam->bodies.items[beam->kind_from[kind]];
    int n = beam->kind_from[kind + 1] - beam->kind_from[kind], start = INT_MAX, ends = 0;
    long work = 0;
    for (int i = 0; i < beam->chains->count; i++)
        beam->wants[(size_t)i * room->kind_count + (size_t)kind] = false;
    for (int i = 0; i < n; i++) {
        int athlete = bodies[i].athlete;
        if (bodies[i].step < *first_step(beam, athlete, bodies[i].leg))
            continue;
        beam->wants[(size_t)athlete * room->kind_count + (size_t)kind] = true;
        if (state->turns[athlete].ready < start)
            start = state->turns[athlete].ready;
    }
    if (start == INT_MAX)
        return 0;
    sort_free(beam, state, kind, start, beam->sorted);
    for (int i = 0; i < n; i++) {
        if (bodies[i].step < *first_step(beam, bodies[i].athlete, bodies[i].leg))
            continue;
        work += bodies[i].work + beam->bodies.gaps[kind];
        int end = done_by(beam->sorted, room->kinds[kind].count, work) + bodies[i].tail;
        ends = end > ends ? end : ends;
    }
    return ends;
}

/* What follows the last use of kit, up to the end of the piece. */
static int piece_tail(const struct room_beam *beam)
{
    const struct room_piece *piece = beam->search->decoder->piece;
    return piece->last ? 0 : beam->chains->room->between + beam->chains->chains[0].legs[piece->to[0] - 1].length;
}

struct room_score room_beam_score(const struct room_beam *beam, const struct room_state *state)
{
    struct room_score score = state->score;
    for (int k = 0; k < (int)beam->chains->room->kind_count; k++) {
        int ends = kind_ends(beam, state, k);
        if (ends && ends + piece_tail(beam) > score.finish)
            score.finish = ends + piece_tail(beam);
    }
    return score;
}
