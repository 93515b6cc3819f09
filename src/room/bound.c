/* There are two bounds, and the greater one counts: the time of the athlete who takes longest alone, and that of the
 * busiest kit. The second is the bound of heads, bodies and tails for one machine or several identical ones
 * (Carlier, The one-machine sequencing problem, European Journal of Operational Research 11, 1982); a body includes
 * the least gap between two uses of a piece of kit. The source is named from memory. */
#include "room/bound.h"

#include "room/bodies.h"

#include <stdlib.h>

/* --- one kind --- */

/* The COUNT least of what was added. */
struct room_least {
    int *items;
    int count, held;
    long sum;
};

static void add_least(struct room_least *least, int value)
{
    int at = least->held;
    if (least->held == least->count) {
        if (value >= least->items[least->count - 1])
            return;
        least->sum -= least->items[--at];
        least->held--;
    }
    while (at > 0 && least->items[at - 1] > value) {
        least->items[at] = least->items[at - 1];
        at--;
    }
    least->items[at] = value;
    least->sum += value;
    least->held++;
}

/* The bound over all sets {head >= HEAD, tail >= some tail} of at least COUNT uses. BODIES starts with the longest
 * tail. */
static int bound_from(const struct room_body *bodies, size_t n, int head, int gap, struct room_least *heads,
                      struct room_least *tails)
{
    long work = 0;
    int used = 0, best = 0, count = heads->count;
    heads->held = tails->held = 0;
    heads->sum = tails->sum = 0;
    for (size_t i = 0; i < n; i++) {
        if (bodies[i].head < head)
            continue;
        work += bodies[i].work;
        used++;
        add_least(heads, bodies[i].head);
        add_least(tails, bodies[i].tail);
        long all = heads->sum + work + (long)(used - count) * gap + tails->sum;
        if (used >= count && (all + count - 1) / count > best)
            best = (int)((all + count - 1) / count);
    }
    return best;
}

static int by_number(const void *a, const void *b)
{
    int x = *(const int *)a, y = *(const int *)b;
    return (x > y) - (x < y);
}

static int kind_bound(struct arena *arena, const struct room_body *bodies, size_t n, int count, int gap)
{
    int *heads = arena_alloc(arena, (n + 1) * sizeof *heads), best = 0;
    struct room_least least[2] = {{.count = count}, {.count = count}};
    for (int i = 0; i < 2; i++)
        least[i].items = arena_alloc(arena, (size_t)count * sizeof *least[i].items);
    for (size_t i = 0; i < n; i++)
        heads[i] = bodies[i].head;
    qsort(heads, n, sizeof *heads, by_number);
    for (size_t i = 0; i < n; i++) {
        if (i && heads[i] == heads[i - 1])
            continue;
        int bound = bound_from(bodies, n, heads[i], gap, &least[0], &least[1]);
        best = bound > best ? bound : best;
    }
    return best;
}

/* The earliest end of the last use of kit and of what its athlete still has to do after it. */
static int busiest_kit(struct arena *arena, const struct room_chains *chains, const struct room_piece *piece,
                       const int *bases)
{
    const struct room *room = chains->room;
    struct room_bodies bodies = room_bodies_of(arena, chains, piece, bases);
    int best = 0;
    struct room_body *own = arena_alloc(arena, (bodies.count + 1) * sizeof *own);
    for (int k = 0; k < (int)room->kind_count; k++) {
        size_t n = 0;
        for (size_t i = 0; i < bodies.count; i++) {
            if (bodies.items[i].kind == k)
                own[n++] = bodies.items[i];
        }
        int bound = n ? kind_bound(arena, own, n, room->kinds[k].count, bodies.gaps[k]) : 0;
        best = bound > best ? bound : best;
    }
    return best;
}

/* --- pieces --- */

static int longest_of(const struct room_chains *chains)
{
    int longest = 0;
    for (int i = 0; i < chains->count; i++) {
        const struct room_chain *chain = &chains->chains[i];
        int from = chain->joined != ROOM_NONE ? chain->joined : chains->room->athletes[i].arrival;
        if (chain->alone && from + chain->alone > longest)
            longest = from + chain->alone;
    }
    return longest;
}

/* The earliest end of the piece, without its bell, for an athlete who starts at BASE. */
static int alone_until(const struct room_chains *chains, const struct room_piece *piece, int athlete, int base)
{
    int end = base;
    for (int i = piece->from[athlete]; i < room_legs_end(piece, athlete); i++)
        end += chains->chains[athlete].legs[i].length + chains->room->between;
    return end;
}

/* The bell of a piece that is not the last. */
static int bell_seconds(const struct room_chains *chains, const struct room_piece *piece)
{
    return chains->chains[0].legs[piece->to[0] - 1].length;
}

int room_piece_bound(struct arena *arena, const struct room_chains *chains, const struct room_piece *piece,
                     const int *bases)
{
    int between = chains->room->between, kit = busiest_kit(arena, chains, piece, bases);
    int ready = kit ? kit + between : 0;
    for (int i = 0; i < chains->count; i++) {
        int until = alone_until(chains, piece, i, bases[i]);
        if (until > ready && (!piece->last || piece->from[i] < piece->to[i]))
            ready = until;
    }
    if (!piece->last)
        return ready + bell_seconds(chains, piece);
    return ready ? ready - between : 0;
}

struct room_bound room_bound_of(struct arena *arena, const struct room_chains *chains)
{
    struct room_bound bound = {.longest = longest_of(chains)};
    int *bases = arena_alloc(arena, (size_t)chains->count * sizeof *bases);
    for (int i = 0; i < chains->count; i++)
        bases[i] = chains->chains[i].ready;
    for (int i = 0; i < chains->piece_count; i++) {
        int end = room_piece_bound(arena, chains, &chains->pieces[i], bases);
        bound.finish = end > bound.finish ? end : bound.finish;
        for (int j = 0; j < chains->count; j++)
            bases[j] = end + chains->room->between;
    }
    if (bound.longest > bound.finish)
        bound.finish = bound.longest;
    return bound;
}
