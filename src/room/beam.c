#include "room/beam.h"

#include <limits.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "room/beam_parts.h"

enum {
    MOST_TRIES = 60000, /* turns to try in all */
    LEAST_WIDTH = 20,   /* a narrower beam gains nothing */
    MOST_BLOCKS = 31    /* as bits of an int */
};

/* --- from one level to the next --- */

static size_t perm_count(const struct room_beam *beam)
{
    return (size_t)beam->chains->count * (size_t)beam->search->orders->count;
}

/* Brings beam->state and the orders to NODE. */
static void stand_at(struct room_beam *beam, const struct room_node *node)
{
    room_state_copy(beam->chains, beam->state, node->state);
    memcpy(beam->perms, node->perms, perm_count(beam) * sizeof *beam->perms);
    memcpy(beam->legs, node->legs, (size_t)beam->chains->count * beam->chains->room->block_count * sizeof *beam->legs);
    beam->search->decoder->orders = beam->legs;
}

static int next_length(const struct room_beam *beam, int athlete)
{
    const struct room_leg *leg = room_next_leg(beam->search->decoder, beam->state, athlete);
    return leg ? leg->length : 0;
}

/* Makes the block at PLACE of the order the next one of ATHLETE and of whoever goes along; ROOM_NONE leaves the
 * order alone. */
static bool choose(struct room_beam *beam, int athlete, int at, int place)
{
    const struct room_orders *orders = beam->search->orders;
    if (place == ROOM_NONE)
        return true;
    for (int i = 0; i < beam->chains->count; i++)
        beam->slots[i] = next_length(beam, i);
    if (!room_orders_choose(orders, beam->perms, athlete, at, place))
        return false;
    room_orders_legs(orders, beam->perms, beam->legs);
    for (int i = 0; i < beam->chains->count; i++)
        beam->state->turns[i].ahead += beam->slots[i] - next_length(beam, i);
    return true;
}

/* Whether ATHLETE, who stands before a free block, has done another before it. */
static bool has_begun(const struct room_beam *beam, int athlete)
{
    const struct room_decoder *decoder = beam->search->decoder;
    int leg = beam->state->turns[athlete].leg;
    if (leg == decoder->piece->from[athlete])
        return false;
    int before = room_leg_at(decoder, athlete, leg - 1);
    return beam->chains->room->blocks[beam->chains->chains[athlete].legs[before].block].free;
}

/* The place in the order of ATHLETE's next block, if that block is free and has not begun; otherwise ROOM_NONE. */
static int place_of_next(const struct room_beam *beam, int athlete)
{
    const struct room_orders *orders = beam->search->orders;
    const struct room_leg *leg = room_next_leg(beam->search->decoder, beam->state, athlete);
    const struct room_turn *turn = &beam->state->turns[athlete];
    if (!leg || turn->step || turn->holds || turn->at_bell)
        return ROOM_NONE;
    for (int i = 0; i < orders->count; i++) {
        if (orders->blocks[beam->perms[athlete * orders->count + i]] == leg->block)
            return beam->chains->room->order == ROOM_WAVES && has_begun(beam, athlete) ? ROOM_NONE : i;
    }
    return ROOM_NONE;
}

/* The same, but only if another block may be chosen there, which means that all who go along stand at the same
 * place. */
static int place_of_choice(const struct room_beam *beam, int athlete)
{
    const struct room_orders *orders = beam->search->orders;
    int place = place_of_next(beam, athlete);
    for (int i = 0; place != ROOM_NONE && i < beam->chains->count; i++) {
        if (orders->leaders[i] == orders->leaders[athlete] && place_of_next(beam, i) != place)
            place = ROOM_NONE;
    }
    return place;
}

static bool is_no_worse(const struct room_beam *beam, const struct room_child *a, const struct room_child *b)
{
    for (int i = beam->key_length; i < beam->face_length; i++) {
        if (a->face[i] > b->face[i])
            return false;
    }
    return true;
}

/* Adds the child, whose face is beam->face, unless another is at least as good; marks those that it equals or beats. */
static void add_child(struct room_beam *beam, struct room_child child)
{
    size_t key = (size_t)beam->key_length * sizeof *beam->face;
    child.face = beam->face;
    child.hash = text_hash(0, (const char *)beam->face, key);
    int *bucket = &beam->buckets[child.hash % (uint64_t)beam->bucket_count];
    for (int i = *bucket; i != ROOM_NONE; i = beam->children[i].next) {
        struct room_child *other = &beam->children[i];
        if (other->beaten || other->hash != child.hash || memcmp(other->face, child.face, key) != 0)
            continue;
        if (is_no_worse(beam, other, &child))
            return;
        other->beaten = is_no_worse(beam, &child, other);
    }
    int *face = arena_alloc(beam->arena, (size_t)beam->face_length * sizeof *face);
    memcpy(face, beam->face, (size_t)beam->face_length * sizeof *face);
    child.face = face;
    child.next = *bucket;
    child.order = (int)beam->child_count;
    *bucket = (int)beam->child_count;
    beam->children = arena_grow(beam->arena, beam->children, beam->child_count, &beam->child_capacity,
                                sizeof *beam->children);
    beam->children[beam->child_count++] = child;
}

/* Takes ATHLETE's turn after beam->state, where room_try found a place for it. */
static void grow(struct room_beam *beam, struct room_child child)
{
    struct room_decoder *decoder = beam->search->decoder;
    room_put(decoder, beam->state, child.athlete);
    beam->state->news = false;
    room_beam_left(beam, beam->state);
    child.score = room_beam_score(beam, beam->state);
    if (room_compare(&child.score, &beam->limit) >= 0)
        return;
    room_beam_face(beam, beam->state, child.time);
    add_child(beam, child);
}

/* The start by which turns are ordered: that of the step's last item, because the items before it may have to wait. */
static int time_of_trial(const struct room_decoder *decoder, const struct room_state *state, int athlete)
{
    const struct room_leg *leg = room_next_leg(decoder, state, athlete);
    return decoder->trial.starts[leg->steps[state->turns[athlete].step].task_count - 1];
}

/* Tries the child, whose turn comes after its parent's; AT is the place from which its block is chosen. */
static void try_child(struct room_beam *beam, const struct room_level *level, struct room_child child, int at)
{
    struct room_decoder *decoder = beam->search->decoder;
    const struct room_node *parent = &level->nodes[child.parent];
    int ways = beam->chains->seats_differ ? 2 : 1;
    for (int patient = 0; patient < ways; patient++) {
        stand_at(beam, parent);
        if (!choose(beam, child.athlete, at, child.place) || !room_can_go(decoder, beam->state, child.athlete))
            return;
        beam->tries++;
        child.patient = decoder->patient = patient;
        if (!room_try(decoder, beam->state, child.athlete))
            continue;
        child.time = time_of_trial(decoder, beam->state, child.athlete);
        if (child.time >= parent->time)
            grow(beam, child);
    }
}

static void try_children(struct room_beam *beam, const struct room_level *level, int parent)
{
    bool waves = beam->chains->room->order == ROOM_WAVES;
    for (int i = 0; i < beam->chains->count; i++) {
        stand_at(beam, &level->nodes[parent]);
        int at = place_of_choice(beam, i);
        if (at == ROOM_NONE) {
            try_child(beam, level, (struct room_child){.parent = parent, .athlete = i, .place = ROOM_NONE}, at);
            continue;
        }
        for (int place = waves ? 0 : at; place < beam->search->orders->count; place++)
            try_child(beam, level, (struct room_child){.parent = parent, .athlete = i, .place = place}, at);
    }
}

/* Whether somebody could only go on before TIME. Turns come in the order of their starts, so that one never can. */
static bool is_stuck(struct room_beam *beam, int time)
{
    struct room_decoder *decoder = beam->search->decoder;
    decoder->patient = beam->chains->seats_differ; /* whoever waits for a seat may still be in time */
    for (int i = 0; i < beam->chains->count; i++) {
        if (place_of_choice(beam, i) == ROOM_NONE && room_can_go(decoder, beam->state, i)
            && room_try(decoder, beam->state, i) && time_of_trial(decoder, beam->state, i) < time)
            return true;
    }
    return false;
}

static int by_promise(const void *a, const void *b)
{
    const struct room_child *x = a, *y = b;
    int order = room_compare(&x->score, &y->score);
    return order ? order : x->order - y->order;
}

/* Collects those that were not beaten, the most promising first; returns how many there are. */
static size_t sort_children(struct room_beam *beam)
{
    size_t count = 0;
    for (size_t i = 0; i < beam->child_count; i++) {
        if (!beam->children[i].beaten)
            beam->children[count++] = beam->children[i];
    }
    if (count)
        qsort(beam->children, count, sizeof *beam->children, by_promise);
    return count;
}

/* Makes the child a node of NEXT, unless it is stuck. */
static void keep_child(struct room_beam *beam, const struct room_level *level, struct room_level *next,
                       const struct room_child *child)
{
    struct room_decoder *decoder = beam->search->decoder;
    struct room_node *node = &next->nodes[next->count];
    stand_at(beam, &level->nodes[child->parent]);
    choose(beam, child->athlete, place_of_choice(beam, child->athlete), child->place);
    decoder->patient = child->patient;
    room_try(decoder, beam->state, child->athlete);
    room_put(decoder, beam->state, child->athlete);
    beam->state->news = false;
    if (is_stuck(beam, child->time))
        return;
    node->parent = child->parent;
    node->turn = child->athlete + (child->patient ? beam->chains->count : 0);
    node->time = child->time;
    room_state_copy(beam->chains, node->state, beam->state);
    memcpy(node->perms, beam->perms, perm_count(beam) * sizeof *node->perms);
    memcpy(node->legs, beam->legs, (size_t)beam->chains->count * beam->chains->room->block_count * sizeof *node->legs);
    next->count++;
}

/* Each level still to come gets the same share of the turns that may be tried. */
static void next_level(struct room_beam *beam, const struct room_level *level, struct room_level *next, int levels)
{
    int end = beam->tries + (beam->most_tries - beam->tries) / levels;
    arena_reset(beam->arena);
    beam->children = NULL;
    beam->child_count = beam->child_capacity = 0;
    for (int i = 0; i < beam->bucket_count; i++)
        beam->buckets[i] = ROOM_NONE;
    for (int i = 0; i < level->count && beam->tries < end; i++)
        try_children(beam, level, i);
    size_t count = sort_children(beam);
    for (size_t i = 0; i < count && next->count < beam->width; i++)
        keep_child(beam, level, next, &beam->children[i]);
}

/* --- the beam --- */

static void open_levels(struct room_beam *beam, struct arena *arena, int length)
{
    size_t athletes = (size_t)beam->chains->count, width = (size_t)beam->width;
    size_t legs = athletes * beam->chains->room->block_count + 1;
    beam->levels = arena_alloc(arena, (size_t)(length + 1) * sizeof *beam->levels);
    for (int i = 0; i <= length; i++) {
        beam->levels[i].nodes = arena_alloc(arena, width * sizeof *beam->levels[i].nodes);
        for (size_t j = 0; j < width; j++) {
            struct room_node *node = &beam->levels[i].nodes[j];
            if (i > 1) { /* only two levels are in use at a time */
                *node = beam->levels[i - 2].nodes[j];
                continue;
            }
            node->state = room_state_new(arena, beam->chains);
            node->perms = arena_alloc(arena, (perm_count(beam) + 1) * sizeof *node->perms);
            node->legs = arena_alloc(arena, legs * sizeof *node->legs);
        }
    }
}

static void open_faces(struct room_beam *beam, struct arena *arena)
{
    const struct room_chains *chains = beam->chains;
    size_t athletes = (size_t)chains->count, units = (size_t)chains->unit_count;
    beam->key_length = 4 * chains->count + 2 * chains->unit_count;
    beam->face_length = beam->key_length + 2 * chains->count + chains->unit_count + 4;
    beam->face = arena_alloc(arena, (size_t)beam->face_length * sizeof *beam->face);
    beam->sorted = arena_alloc(arena, (5 * athletes + units + 1) * sizeof *beam->sorted);
    beam->slots = arena_alloc(arena, athletes * sizeof *beam->slots);
    beam->classes = arena_alloc(arena, athletes * sizeof *beam->classes);
    beam->wants = arena_alloc(arena, (athletes * chains->room->kind_count + 1) * sizeof *beam->wants);
    beam->from_step = arena_alloc(arena, (athletes * chains->room->block_count + 1) * sizeof *beam->from_step);
    beam->bucket_count = 4 * beam->width * chains->count + 1;
    beam->buckets = arena_alloc(arena, (size_t)beam->bucket_count * sizeof *beam->buckets);
    room_beam_classes(beam);
}

/* The uses of kit, kind by kind. */
static void open_bodies(struct room_beam *beam, struct arena *arena)
{
    const struct room_chains *chains = beam->chains;
    size_t kinds = chains->room->kind_count, count = 0;
    int *bases = arena_alloc(arena, (size_t)chains->count * sizeof *bases);
    struct room_bodies all = room_bodies_of(arena, chains, beam->search->decoder->piece, bases);
    beam->bodies = all;
    beam->bodies.items = arena_alloc(arena, (all.count + 1) * sizeof *all.items);
    beam->kind_from = arena_alloc(arena, (kinds + 1) * sizeof *beam->kind_from);
    for (size_t k = 0; k < kinds; k++) {
        beam->kind_from[k] = (int)count;
        for (size_t i = 0; i < all.count; i++) {
            if (all.items[i].kind == (int)k)
                beam->bodies.items[count++] = all.items[i];
        }
    }
    beam->kind_from[kinds] = (int)count;
}

/* How long kit must have been free to count as kit that was always free: the longest change and step together. */
static int slack_of(const struct room_chains *chains)
{
    int discs = 0, longest = 0;
    for (int i = 0; i < chains->stack_count * chains->stack_count; i++)
        discs = chains->moved[i] > discs ? chains->moved[i] : discs;
    for (int i = 0; i < chains->count; i++) {
        for (int j = 0; j < chains->chains[i].leg_count; j++) {
            const struct room_leg *leg = &chains->chains[i].legs[j];
            for (int k = 0; k < leg->step_count; k++) {
                int length = 0;
                for (int m = 0; m < leg->steps[k].task_count; m++) {
                    const struct room_item *item = leg->steps[k].tasks[m].item;
                    length += item->work + (m ? item->gap_most : 0);
                }
                longest = length > longest ? length : longest;
            }
        }
    }
    return chains->room->changeover + chains->room->disc * discs + longest;
}

static void begin(struct room_beam *beam, struct room_list *best)
{
    struct room_search *search = beam->search;
    struct room_node *root = &beam->levels[0].nodes[0];
    memcpy(root->perms, best->perms, perm_count(beam) * sizeof *root->perms);
    room_orders_legs(search->orders, root->perms, root->legs);
    room_state_copy(beam->chains, root->state, search->start);
    search->decoder->orders = root->legs;
    room_piece_start(search->decoder, root->state);
    root->state->news = false;
    root->time = INT_MIN;
    beam->levels[0].count = 1;
}

/* The best of the last level, as a list. */
static void take_list(const struct room_beam *beam, struct room_list *best)
{
    const struct room_level *last = &beam->levels[best->length];
    int at = 0;
    for (int i = 1; i < last->count; i++) {
        if (room_compare(&last->nodes[i].state->score, &last->nodes[at].state->score) < 0)
            at = i;
    }
    if (!last->count || room_compare(&last->nodes[at].state->score, &best->score) >= 0)
        return;
    const struct room_node *node = &last->nodes[at];
    memcpy(best->perms, node->perms, perm_count(beam) * sizeof *best->perms);
    room_orders_legs(beam->search->orders, best->perms, best->legs);
    best->score = node->state->score;
    for (int i = 0; i < beam->chains->count; i++)
        best->ends[i] = node->state->turns[i].ends;
    for (int i = best->length; i > 0; i--) {
        best->turns[i - 1] = beam->levels[i].nodes[at].turn;
        at = beam->levels[i].nodes[at].parent;
    }
}

void room_beam(struct room_search *search, struct room_list *best)
{
    const struct room_chains *chains = search->decoder->chains;
    struct room_beam beam = {.search = search, .chains = chains, .limit = best->score};
    long most = (long)(search->cap - search->tried) * best->length / 2;
    if (!best->length || chains->room->block_count > MOST_BLOCKS)
        return;
    beam.most_tries = (int)(most < MOST_TRIES ? most : MOST_TRIES);
    beam.width = beam.most_tries / (best->length * chains->count * (chains->seats_differ ? 2 : 1));
    if (beam.width < LEAST_WIDTH)
        return;
    beam.arena = arena_new();
    open_levels(&beam, search->arena, best->length);
    open_faces(&beam, search->arena);
    open_bodies(&beam, search->arena);
    beam.slack = slack_of(chains);
    beam.state = room_state_new(search->arena, chains);
    beam.perms = arena_alloc(search->arena, (perm_count(&beam) + 1) * sizeof *beam.perms);
    beam.legs = arena_alloc(search->arena, ((size_t)chains->count * chains->room->block_count + 1) * sizeof *beam.legs);
    begin(&beam, best);
    for (int i = 0; i < best->length && beam.levels[i].count; i++)
        next_level(&beam, &beam.levels[i], &beam.levels[i + 1], best->length - i);
    search->tried += beam.tries / best->length;
    take_list(&beam, best);
    arena_free(beam.arena);
}
