#include "room/search.h"

#include <limits.h>
#include <string.h>

#include "room/beam.h"
#include "room/starts.h"

enum {
    PATIENCE = 400, /* changes in vain before it goes back to the best */
    STRIDE = 16     /* turns between two states that are kept of the present list */
};

struct room_seeker {
    struct room_search *search;
    struct room_maker maker;
    struct room_state *state; /* borrowed from the maker */
    struct room_state **kept; /* of the present list, before every STRIDE-th turn */
    struct room_list *present, *trial, *best;
    struct room_cause *causes; /* of the present list's turns */
    int *links;                /* turns that waited for kit on the way to the last end, the last first */
    int link_count;
    unsigned chance;
};

/* --- trying a changed list --- */

static bool is_over(const struct room_seeker *seeker)
{
    const struct room_search *search = seeker->search;
    return search->tried >= search->cap || room_list_is_enough(search, seeker->best);
}

/* Works out the trial, which equals the present list up to the turn FROM. False: it is worse than the present list. */
static bool evaluate(struct room_seeker *seeker, int from)
{
    struct room_search *search = seeker->search;
    struct room_list *trial = seeker->trial;
    struct room_state *state = seeker->state;
    search->tried++;
    search->decoder->orders = trial->legs;
    from -= from % STRIDE;
    if (from)
        room_state_copy(search->decoder->chains, state, seeker->kept[from / STRIDE]);
    else
        room_list_begin(search, state, trial);
    for (int i = from; i < trial->length; i++) {
        if (!room_take_turn(search->decoder, state, trial->turns[i])
            || room_compare(&state->score, &seeker->present->score) > 0)
            return false;
    }
    if (state->queue_count)
        return false; /* partners wait for each other */
    room_list_score(search, trial, state);
    return true;
}

/* Decodes the present list from the turn FROM on, and keeps its states and causes. */
static void decode_present(struct room_seeker *seeker, int from)
{
    struct room_search *search = seeker->search;
    struct room_state *state = seeker->state;
    struct room_list *present = seeker->present;
    search->decoder->orders = present->legs;
    search->decoder->causes = seeker->causes;
    from -= from % STRIDE;
    if (from)
        room_state_copy(search->decoder->chains, state, seeker->kept[from / STRIDE]);
    else
        room_list_begin(search, state, present);
    for (int i = from; i < present->length; i++) {
        if (i % STRIDE == 0)
            room_state_copy(search->decoder->chains, seeker->kept[i / STRIDE], state);
        room_take_turn(search->decoder, state, present->turns[i]);
    }
    search->decoder->causes = NULL;
}

/* Walks back from the last end, from each turn to the earlier one that it waited for. A turn that rings for several
 * may name itself: it waited for nobody else. */
static void find_links(struct room_seeker *seeker)
{
    const struct room_turn *turns = seeker->state->turns;
    int last = 0;
    for (int i = 1; i < seeker->search->decoder->chains->count; i++)
        last = turns[i].done > turns[last].done ? i : last;
    seeker->link_count = 0;
    for (int at = turns[last].by; at != ROOM_NONE;) {
        const struct room_cause *cause = &seeker->causes[at];
        if (cause->kit != ROOM_NONE)
            seeker->links[seeker->link_count++] = at;
        int before = cause->kit != ROOM_NONE ? cause->kit : cause->own;
        at = before < at ? before : ROOM_NONE;
    }
}

/* Brings all that is kept of the present list up to date; it differs from the turn FROM on. Turns that were put off are
 * moved to where they were taken. */
static void keep_states(struct room_seeker *seeker, int from)
{
    struct room_list *present = seeker->present;
    int first = ROOM_NONE;
    decode_present(seeker, from);
    for (int i = present->length - 1; i >= 0; i--) {
        if (present->turns[i] != seeker->causes[i].turn)
            first = i;
        present->turns[i] = seeker->causes[i].turn;
    }
    if (first != ROOM_NONE)
        decode_present(seeker, first);
    find_links(seeker);
}

/* The trial, which differs from the turn FROM on, becomes the present list. */
static void accept(struct room_seeker *seeker, int from)
{
    struct room_list *list = seeker->present;
    seeker->present = seeker->trial;
    seeker->trial = list;
    keep_states(seeker, from);
    if (room_list_compare(seeker->search, seeker->present, seeker->best) < 0)
        room_list_copy(seeker->search, seeker->best, seeker->present);
}

static void go_on_from(struct room_seeker *seeker, const struct room_list *list)
{
    room_list_copy(seeker->search, seeker->present, list);
    keep_states(seeker, 0);
}

static void move_turn(int *turns, int from, int to)
{
    int athlete = turns[from];
    if (to < from)
        memmove(&turns[to + 1], &turns[to], (size_t)(from - to) * sizeof *turns);
    else
        memmove(&turns[from], &turns[from + 1], (size_t)(to - from) * sizeof *turns);
    turns[to] = athlete;
}

static void turn_order(struct room_seeker *seeker, int athlete, int first, int second)
{
    struct room_list *trial = seeker->trial;
    room_orders_turn(seeker->search->orders, trial->perms, athlete, first, second);
    room_orders_legs(seeker->search->orders, trial->perms, trial->legs);
}

/* --- shaking --- */

static int draw(struct room_seeker *seeker, int below)
{
    seeker->chance = seeker->chance * 1664525U + 1013904223U;
    return (int)((seeker->chance >> 8) % (unsigned)below);
}

/* Lets TURN overtake the one that it waited for, or puts that one after it; returns the first turn that moves. */
static int overtake(struct room_seeker *seeker, int turn)
{
    int before = seeker->causes[turn].kit;
    if (draw(seeker, 2))
        move_turn(seeker->trial->turns, before, turn);
    else if (draw(seeker, 2) && seeker->causes[before].kit != ROOM_NONE)
        move_turn(seeker->trial->turns, turn, before = seeker->causes[before].kit);
    else
        move_turn(seeker->trial->turns, turn, before);
    return before;
}

/* Makes the trial anew by some rule from the turn FROM on. */
static bool rebuild(struct room_seeker *seeker, int from)
{
    from -= from % STRIDE;
    if (from)
        room_state_copy(seeker->search->decoder->chains, seeker->state, seeker->kept[from / STRIDE]);
    if (seeker->search->tried + room_rule_cost(seeker->search) > seeker->search->cap)
        seeker->search->tried = seeker->search->cap; /* what is left of the cap is too little for it */
    if (is_over(seeker))
        return false;
    return room_list_by_rule(&seeker->maker, seeker->trial, from, draw(seeker, RULE_COUNT), &seeker->present->score);
}

/* Lets somebody take the blocks in another order, with the same list or a new one. */
static bool shake_orders(struct room_seeker *seeker)
{
    int blocks = seeker->search->orders->count, athlete = draw(seeker, seeker->search->decoder->chains->count);
    int first = draw(seeker, blocks);
    turn_order(seeker, athlete, first, draw(seeker, blocks));
    return draw(seeker, 2) ? rebuild(seeker, 0) : evaluate(seeker, 0);
}

/* Makes somebody wait for the best seat, or no longer wait for it. */
static int change_patience(struct room_seeker *seeker, int turn)
{
    int *at = &seeker->trial->turns[turn], athlete = room_turn_athlete(seeker->search->decoder, *at);
    *at = *at == athlete ? athlete + seeker->search->decoder->chains->count : athlete;
    return turn;
}

/* Half of the changes are made on the way to the last end, a quarter wherever somebody waits for kit. */
static bool shake_turns(struct room_seeker *seeker, int *from)
{
    struct room_list *trial = seeker->trial;
    int kind = draw(seeker, seeker->search->decoder->chains->seats_differ ? 9 : 8);
    int a = draw(seeker, trial->length), b = draw(seeker, trial->length);
    *from = a < b ? a : b;
    if (kind < 4 && seeker->link_count) {
        *from = overtake(seeker, seeker->links[draw(seeker, seeker->link_count)]);
    } else if (kind < 6 && seeker->causes[a].kit != ROOM_NONE) {
        *from = overtake(seeker, a);
    } else if (kind == 8) {
        *from = change_patience(seeker, a);
    } else if (kind < 7) {
        int athlete = trial->turns[a];
        trial->turns[a] = trial->turns[b];
        trial->turns[b] = athlete;
    } else {
        move_turn(trial->turns, a, b);
    }
    return evaluate(seeker, *from);
}

/* Makes one small change of the present list. False: that made it worse; else the trial differs from the turn FROM
 * on. */
static bool shake_once(struct room_seeker *seeker, int *from)
{
    room_list_copy(seeker->search, seeker->trial, seeker->present);
    *from = 0;
    if (seeker->search->orders->count > 1 && draw(seeker, 9) == 0)
        return shake_orders(seeker);
    if (draw(seeker, 5) == 0)
        return rebuild(seeker, *from = draw(seeker, seeker->present->length));
    return shake_turns(seeker, from);
}

/* A change that makes nothing worse is taken, so that the search drifts; it goes back to the best list when that
 * leads nowhere. */
static void shake(struct room_seeker *seeker, int end)
{
    int vain = 0;
    while (!is_over(seeker) && seeker->search->tried < end) {
        struct room_score best = seeker->best->score;
        int from;
        if (shake_once(seeker, &from))
            accept(seeker, from);
        vain = room_compare(&seeker->best->score, &best) < 0 ? 0 : vain + 1;
        if (vain == PATIENCE) {
            go_on_from(seeker, seeker->best);
            vain = 0;
        }
    }
}

/* --- the search --- */

static void seeker_open(struct room_seeker *seeker, struct room_search *search)
{
    const struct room_chains *chains = search->decoder->chains;
    size_t kept = (size_t)search->decoder->piece->steps / STRIDE + 1;
    *seeker = (struct room_seeker){.search = search, .chance = 1};
    seeker->maker = room_maker_new(search);
    seeker->state = seeker->maker.state;
    seeker->present = room_list_new(search);
    seeker->trial = room_list_new(search);
    seeker->best = room_list_new(search);
    seeker->kept = arena_alloc(search->arena, kept * sizeof *seeker->kept);
    seeker->causes = arena_alloc(search->arena, ((size_t)seeker->best->length + 1) * sizeof *seeker->causes);
    seeker->links = arena_alloc(search->arena, ((size_t)seeker->best->length + 1) * sizeof *seeker->links);
    for (size_t i = 0; i < kept; i++)
        seeker->kept[i] = room_state_new(search->arena, chains);
}

const struct room_list *room_search_best(struct room_search *search)
{
    struct room_seeker seeker;
    struct room_list *starts[START_LISTS];
    seeker_open(&seeker, search);
    for (int i = 0; i < START_LISTS; i++)
        starts[i] = room_list_new(search);
    room_start_lists(&seeker.maker, starts);
    room_list_copy(search, seeker.best, starts[0]);
    if (!is_over(&seeker) && seeker.best->score.finish != INT_MAX)
        room_beam(search, seeker.best);
    for (int i = 0; i < START_LISTS && starts[i]->score.finish != INT_MAX && !is_over(&seeker); i++) {
        go_on_from(&seeker, starts[i]);
        shake(&seeker, search->tried + (search->cap - search->tried) / (START_LISTS + 1 - i));
    }
    if (seeker.best->length && seeker.best->score.finish != INT_MAX) {
        go_on_from(&seeker, seeker.best);
        shake(&seeker, search->cap);
    }
    return seeker.best;
}
