/* Bells that all do cut the session into pieces, and the pieces are searched one after the other. */
#include <limits.h>

#include "room/refuse.h"
#include "room/search.h"
#include "room/starts.h"
#include "room/timetable.h"

/* How a room is solved. */
struct solving {
    bool queue;                       /* first come, first served, and nothing is searched */
    const struct room_enough *enough; /* NULL: only the best is good enough */
};

/* No list of the piece is better than this. */
static struct room_score goal_of(struct arena *arena, const struct room_chains *chains, const struct room_piece *piece,
                                 const struct room_state *state)
{
    struct room_score goal = {0};
    int *bases = arena_alloc(arena, (size_t)chains->count * sizeof *bases);
    for (int i = 0; i < chains->count; i++) {
        const struct room_turn *turn = &state->turns[i];
        int end = turn->ready;
        bases[i] = turn->ready;
        for (int j = piece->from[i]; j < piece->to[i]; j++)
            end += chains->chains[i].legs[j].length + (j + 1 < piece->to[i] ? chains->room->between : 0);
        goal.wait += piece->from[i] < piece->to[i] ? end : turn->done;
    }
    goal.finish = room_piece_bound(arena, chains, piece, bases);
    if (!piece->last)
        goal.wait = (long)goal.finish * chains->count;
    return goal;
}

/* Finds a list for one piece, and brings STATE to its end. False: nobody can go on. */
static bool solve_piece(struct arena *arena, struct room_decoder *decoder, const struct room_orders *orders,
                        struct room_state *state, struct room_table *table, struct solving way, struct room_log *log)
{
    const struct room_chains *chains = decoder->chains;
    struct room_search search = {.arena = arena, .decoder = decoder, .orders = orders, .start = state,
                                 .enough = decoder->piece->last ? way.enough : NULL};
    search.goal = goal_of(arena, chains, decoder->piece, state);
    long least = room_rule_cost(&search); /* of each piece, whatever its share */
    long shared = ROOM_DECODES - least * chains->piece_count;
    if (decoder->piece->steps)
        search.cap = (int)(least + shared * decoder->piece->steps / chains->steps);
    const struct room_list *list = way.queue ? room_queue_list(&search) : room_search_best(&search);
    table->decodes += search.tried;
    if (list->score.finish == INT_MAX)
        return false;
    decoder->orders = list->legs;
    decoder->log = log;
    room_piece_start(decoder, state);
    for (int i = 0; i < list->length; i++)
        room_take_turn(decoder, state, list->turns[i]);
    decoder->log = NULL;
    return true;
}

static bool solve_pieces(struct arena *arena, const struct room_chains *chains, struct room_table *table, struct solving way,
                         struct room_log *log)
{
    struct room_decoder *decoder = room_decoder_new(arena, chains);
    const struct room_orders *orders = room_orders_new(arena, chains);
    struct room_state *state = room_state_new(arena, chains);
    room_state_start(chains, state);
    for (int i = 0; i < chains->piece_count; i++) {
        decoder->piece = &chains->pieces[i];
        if (!solve_piece(arena, decoder, orders, state, table, way, log))
            return false;
    }
    return true;
}

/* SCRATCH holds what only the work needs. */
static void solve_into(struct arena *arena, struct arena *scratch, const struct room *room, struct solving way,
                       struct room_table *table)
{
    const struct room_chains *chains = room_chains_new(scratch, room);
    struct room_log log = {.arena = scratch};
    table->refused = room_refusal(arena, chains, &table->refused_block);
    if (table->refused)
        return;
    if (!solve_pieces(scratch, chains, table, way, &log)) {
        table->refused = room_refusal_of_ties();
        return;
    }
    struct room_bound bound = room_bound_of(scratch, chains);
    room_table_fill(arena, chains, &log, &bound, table);
}

static const struct room_table *solve(struct arena *arena, const struct room *room, struct solving way)
{
    struct room_table *table = arena_alloc(arena, sizeof *table);
    struct arena *scratch = arena_new();
    table->refused_block = table->bottleneck = ROOM_NONE;
    solve_into(arena, scratch, room, way, table);
    arena_free(scratch);
    return table;
}

const struct room_table *room_solve(struct arena *arena, const struct room *room)
{
    return solve(arena, room, (struct solving){0});
}

const struct room_table *room_solve_until(struct arena *arena, const struct room *room, struct room_enough enough)
{
    return solve(arena, room, (struct solving){.enough = &enough});
}

const struct room_table *room_queue(struct arena *arena, const struct room *room)
{
    return solve(arena, room, (struct solving){.queue = true});
}
