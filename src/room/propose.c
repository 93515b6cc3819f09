#include "room/propose.h"

#include <stdlib.h>

#include "base/text.h"
#include "room/bound.h"
#include "room/change.h"

/* At most this many orders of the blocks are worked out. */
enum { MOVES_TRIED = 24 };

struct room_proposer {
    struct arena *arena, *scratch; /* the second for bounds */
    const struct room *room;
    const struct room_table *table;
    struct room_proposal *found;
    unsigned tried; /* bits 1 << enum room_remedy */
};

/* --- trying --- */

static bool can_fit(const struct room_proposer *proposer, const struct room *room)
{
    arena_reset(proposer->scratch);
    return room_bound_of(proposer->scratch, room_chains_new(proposer->scratch, room)).finish <= room->doors;
}

/* Keeps the change if it fits. */
static bool fits(struct room_proposer *proposer, enum room_remedy remedy, const struct room *room, const char *words)
{
    proposer->tried |= 1U << remedy;
    if (!can_fit(proposer, room))
        return false;
    const struct room_table *table = room_solve(proposer->arena, room);
    if (table->refused || table->over)
        return false;
    proposer->found = arena_alloc(proposer->arena, sizeof *proposer->found);
    *proposer->found = (struct room_proposal){remedy, words, room, table};
    return true;
}

static const char *block_names(const struct room_proposer *proposer, int from, int to)
{
    struct text text = {.arena = proposer->arena};
    for (int i = from; i <= to; i++)
        room_add_name(&text, proposer->room->blocks[i].name, i == from, i == to);
    return text_keep(proposer->arena, &text);
}

/* --- nothing lost: waves, any order --- */

static bool may_move(const struct room_block *block)
{
    return !block->bell && !block->fixed;
}

/* Blocks that stand together and may move, from *FROM on; false: there are no two any more. */
static bool next_run(const struct room *room, int *from, int *to)
{
    int count = (int)room->block_count;
    for (int i = *from; i < count; i = *to + 1) {
        *from = *to = i;
        while (may_move(&room->blocks[i]) && *to + 1 < count && may_move(&room->blocks[*to + 1]))
            ++*to;
        if (*to > i)
            return true;
    }
    return false;
}

static bool by_order(struct room_proposer *proposer, enum room_order order)
{
    const struct room *room = proposer->room;
    if (room->order != ROOM_AS_WRITTEN)
        return false; /* the coach has said already what may move */
    for (int from = 0, to = 0; next_run(room, &from, &to); from = to + 1) {
        const char *names = block_names(proposer, from, to);
        const struct room *changed = room_with_order(proposer->arena, room, from, to, order);
        bool waves = order == ROOM_WAVES;
        if (fits(proposer, waves ? REMEDY_WAVES : REMEDY_ANY_ORDER, changed,
                 arena_printf(proposer->arena, "%s in %s", names, waves ? "waves" : "any order")))
            return true;
    }
    return false;
}

/* --- another written order --- */

/* May the block at FROM move to TO? All between must be free to move up. */
static bool may_go(const struct room *room, int from, int to)
{
    if (from == to)
        return false;
    for (int i = from < to ? from : to; i <= (from < to ? to : from); i++) {
        if (!may_move(&room->blocks[i]))
            return false;
    }
    return true;
}

static bool by_move(struct room_proposer *proposer)
{
    const struct room *room = proposer->room;
    int count = (int)room->block_count, tried = 0;
    for (int far = 1; far < count; far++) {
        for (int i = 0; i < 2 * (count - far); i++) {
            int from = i % 2 ? i / 2 : i / 2 + far, to = i % 2 ? i / 2 + far : i / 2;
            if (!may_go(room, from, to) || (far == 1 && i % 2) || tried == MOVES_TRIED)
                continue;
            tried++;
            if (fits(proposer, REMEDY_MOVE, room_with_move(proposer->arena, room, from, to),
                     arena_printf(proposer->arena, "%s %s %s", room->blocks[from].name, from < to ? "after" : "before",
                                  room->blocks[to].name)))
                return true;
        }
    }
    return false;
}

/* --- fewer sets --- */

/* The line of BLOCK with most sets left, the last of those; NULL: all have one. */
static struct room_line *longest_line(const struct room_cut *cut, int block)
{
    struct room_line *longest = NULL;
    for (size_t i = 0; i < cut->line_count; i++) {
        struct room_line *line = &cut->lines[i];
        int left = line->sets - line->off;
        if (line->block == block && left > 1 && (!longest || left >= longest->sets - longest->off))
            longest = line;
    }
    return longest;
}

/* Whether BLOCK still has as much as it must keep. */
static bool is_enough(const struct room *room, const struct room *cut, int block)
{
    for (int i = 0; i < (int)room->athlete_count; i++) {
        if (room->athletes[i].parts[block].set_count && room_block_seconds(cut, i, block) < room->blocks[block].least)
            return false;
    }
    return true;
}

/* Takes one set off BLOCK, or all of it if only one is left. False: no more may go. */
static bool cut_one(const struct room_proposer *proposer, struct room_cut *cut, int block)
{
    struct room_line *line = longest_line(cut, block);
    if (cut->dropped[block])
        return false;
    if (line)
        line->off++;
    else
        cut->dropped[block] = true;
    if (is_enough(proposer->room, room_with_cut(proposer->arena, proposer->room, cut), block))
        return true;
    if (line)
        line->off--;
    else
        cut->dropped[block] = false;
    return false;
}

static bool by_cuts(struct room_proposer *proposer)
{
    const struct room *room = proposer->room;
    struct room_cut cut = room_cut_none(proposer->arena, room);
    for (int keep = 3; keep > 1; keep--) {
        for (int i = (int)room->block_count - 1; i >= 0; i--) {
            while (room->blocks[i].keep == keep && room_may_cut(room, i) && cut_one(proposer, &cut, i)) {
                if (fits(proposer, REMEDY_FEWER, room_with_cut(proposer->arena, room, &cut),
                         room_cut_words(proposer->arena, room, &cut)))
                    return true;
            }
        }
    }
    return false;
}

/* --- substitutes --- */

/* Of the substitutes for the bottleneck that are not taken, the one for the athlete who waits longest; or ROOM_NONE. */
static int next_substitute(const struct room_proposer *proposer, const bool *taken)
{
    const struct room *room = proposer->room;
    int best = ROOM_NONE;
    for (int i = 0; proposer->table->bottleneck != ROOM_NONE && i < (int)room->substitute_count; i++) {
        if (taken[i] || room->substitutes[i].kind != proposer->table->bottleneck)
            continue;
        if (best == ROOM_NONE
            || proposer->table->fares[room->substitutes[i].athlete].wait
                   > proposer->table->fares[room->substitutes[best].athlete].wait)
            best = i;
    }
    return best;
}

static bool by_substitutes(struct room_proposer *proposer)
{
    const struct room *room = proposer->room;
    bool *taken = arena_alloc(proposer->arena, (room->substitute_count + 1) * sizeof *taken);
    const char *words = NULL;
    for (int next; (next = next_substitute(proposer, taken)) != ROOM_NONE;) {
        const struct room_substitute *substitute = &room->substitutes[next];
        const char *one = arena_printf(proposer->arena, "%s does %s",
                                       room->athletes[substitute->athlete].name, substitute->words);
        words = words ? arena_printf(proposer->arena, "%s, %s", words, one) : one;
        taken[next] = true;
        if (fits(proposer, REMEDY_SUBSTITUTE, room_with_substitutes(proposer->arena, room, taken), words))
            return true;
    }
    return false;
}

/* --- several bells --- */

/* "Ama and Bram, then Cosima": who answers each of COUNT bells from BLOCK on. */
static const char *shifts_words(const struct room_proposer *proposer, const struct room *changed, int block, int count)
{
    struct text text = {.arena = proposer->arena};
    for (int i = block; i < block + count; i++) {
        int members = 0, said = 0;
        text_add(&text, i > block ? ", then " : "");
        for (size_t j = 0; j < changed->athlete_count; j++)
            members += changed->athletes[j].parts[i].set_count > 0;
        for (size_t j = 0; j < changed->athlete_count; j++) {
            if (!changed->athletes[j].parts[i].set_count)
                continue;
            room_add_name(&text, changed->athletes[j].name, said == 0, said + 1 == members);
            said++;
        }
    }
    return text_keep(proposer->arena, &text);
}

static void by_bells(struct room_proposer *proposer, int block)
{
    const struct room *changed = room_with_bells(proposer->arena, proposer->room, block);
    if (!changed)
        return;
    int count = (int)(changed->block_count - proposer->room->block_count) + 1;
    const struct room_table *table = room_solve(proposer->arena, changed);
    if (table->refused)
        return;
    proposer->found = arena_alloc(proposer->arena, sizeof *proposer->found);
    *proposer->found = (struct room_proposal){
        REMEDY_BELLS,
        arena_printf(proposer->arena, "%s bells of %s, one after the other: %s",
                     room_number_words(proposer->arena, count), proposer->room->blocks[block].name,
                     shifts_words(proposer, changed, block, count)),
        changed, table};
}

static void propose(struct room_proposer *proposer)
{
    const struct room_table *table = proposer->table;
    if (table->refused && table->refused_block != ROOM_NONE)
        by_bells(proposer, table->refused_block);
    if (table->refused || !table->over)
        return;
    if (by_order(proposer, ROOM_WAVES) || by_order(proposer, ROOM_ANY_ORDER) || by_move(proposer))
        return;
    if (!by_substitutes(proposer))
        by_cuts(proposer);
}

const char *room_tried_words(struct arena *arena, unsigned tried)
{
    static const char *const words[REMEDY_COUNT] = {
        "more bells", "waves", "any order", "another order of blocks", "other exercises for the scarce kit",
        "fewer sets of what has `keep` 2 or 3"};
    struct text text = {.arena = arena};
    for (int i = 0; i < REMEDY_COUNT; i++)
        if (tried >> i & 1)
            text_addf(&text, "%s%s", text.length ? ", " : "", words[i]);
    return tried ? text_keep(arena, &text) : NULL;
}

const struct room_proposal *room_propose(struct arena *arena, const struct room *room, const struct room_table *table,
                                         unsigned *tried)
{
    struct room_proposer proposer = {arena, arena_new(), room, table, NULL, 0};
    propose(&proposer);
    *tried = proposer.tried;
    arena_free(proposer.scratch);
    return proposer.found;
}
