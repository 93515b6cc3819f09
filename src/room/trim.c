/* How the least loss is found. For one athlete alone the seconds of the blocks add up, so the least loss that saves
 * enough is worked out block by block; that is a bound for the squad. Then the cuts on the front of loss against the
 * squad's seconds are tried as timetables. If there are few cuts with less loss than the best of them, each of those
 * is tried too. */
#include "room/trim.h"

#include <stdlib.h>
#include <string.h>

#include "room/bound.h"

enum {
    CUTS_MOST = 20000, /* at most this many are looked at one by one */
    SOLVED_MOST = 40,  /* and at most this many of them worked out, fewer in a large room: */
    STEPS_MOST = 4000, /* this many steps in all, or four cuts */
    SQUAD = -1         /* all athletes' seconds together */
};

/* One way to cut a block. */
struct room_option {
    const int *off; /* of each of its lines */
    bool dropped;
    uint64_t loss;
    const int *seconds; /* of each athlete, with the pause before the block */
};

struct room_options {
    struct room_option *items;
    size_t count, capacity;
};

/* A way to cut the blocks up to a certain one: an option for each. */
struct room_choice {
    uint64_t loss;
    long seconds;
    int order;
    const int *options;
};

struct room_choices {
    struct room_choice *items;
    size_t count, capacity;
};

struct room_trimmer {
    struct arena *arena;
    struct arena *work;    /* of all cuts */
    struct arena *scratch; /* of the cut that is looked at */
    const struct room *room;
    const struct room *within; /* the same room, with doors that close when the time is up */
    struct room_cut whole;     /* nothing cut */
    struct room_options *options; /* of each block */
    int seconds;
    struct room_trim *best;
};

/* --- loss --- */

/* Digits of the loss, the most important first: blocks and sets of keep 2, then of keep 3, then how early they came. */
static uint64_t digits(uint64_t blocks, uint64_t sets, int keep, uint64_t early)
{
    unsigned place = keep == 2 ? 38 : 20;
    return (blocks << (place + 12)) + (sets << place) + early;
}

uint64_t room_loss(const struct room *room, const struct room_cut *cut)
{
    uint64_t loss = 0;
    for (size_t i = 0; i < cut->line_count; i++) {
        const struct room_line *line = &cut->lines[i];
        int sets = cut->dropped[line->block] ? line->sets : line->off;
        uint64_t early = (uint64_t)sets * (room->block_count - (size_t)line->block);
        loss += digits(0, (uint64_t)sets, room->blocks[line->block].keep, early);
    }
    for (size_t i = 0; i < room->block_count; i++)
        loss += cut->dropped[i] ? digits(1, 0, room->blocks[i].keep, 0) : 0;
    return loss;
}

/* --- options of a block --- */

/* The lines of BLOCK in the cut: they start at *FIRST; returns how many there are. */
static size_t lines_in(const struct room_cut *cut, int block, size_t *first)
{
    size_t at = 0, count = 0;
    while (at < cut->line_count && cut->lines[at].block < block)
        at++;
    *first = at;
    while (at + count < cut->line_count && cut->lines[at + count].block == block)
        count++;
    return count;
}

static void add_option(struct room_trimmer *trimmer, const struct room_cut *cut, int block)
{
    struct arena *arena = trimmer->work;
    arena_reset(trimmer->scratch);
    const struct room *room = trimmer->room, *left = room_with_cut(trimmer->scratch, room, cut);
    struct room_options *to = &trimmer->options[block];
    int *seconds = arena_alloc(arena, room->athlete_count * sizeof *seconds);
    size_t first, count = lines_in(cut, block, &first);
    int *off = arena_alloc(arena, (count + 1) * sizeof *off);
    bool cuts = cut->dropped[block];
    for (size_t i = 0; i < count; i++) {
        off[i] = cut->lines[first + i].off;
        cuts |= off[i] > 0;
    }
    for (int i = 0; i < (int)room->athlete_count; i++) {
        seconds[i] = room_block_seconds(left, i, block);
        if (cuts && room->athletes[i].parts[block].set_count && seconds[i] < room->blocks[block].least)
            return;
        seconds[i] += left->athletes[i].parts[block].set_count ? room->between : 0;
    }
    to->items = arena_grow(arena, to->items, to->count, &to->capacity, sizeof *to->items);
    to->items[to->count++] = (struct room_option){off, cut->dropped[block], room_loss(room, cut), seconds};
}

static int by_loss(const void *a, const void *b)
{
    const struct room_option *x = a, *y = b;
    return (x->loss > y->loss) - (x->loss < y->loss);
}

/* The next combination of sets off the block's lines; false: that was the last. */
static bool next_off(struct room_cut *cut, size_t first, size_t count)
{
    for (size_t i = first; i < first + count; i++) {
        if (++cut->lines[i].off < cut->lines[i].sets)
            return true;
        cut->lines[i].off = 0;
    }
    return false;
}

static void find_options(struct room_trimmer *trimmer, int block)
{
    struct room_cut cut = room_cut_copy(trimmer->work, trimmer->room, &trimmer->whole);
    size_t first, count = lines_in(&cut, block, &first);
    bool may = room_may_cut(trimmer->room, block);
    do
        add_option(trimmer, &cut, block);
    while (may && next_off(&cut, first, count));
    cut.dropped[block] = may && count;
    if (cut.dropped[block])
        add_option(trimmer, &cut, block);
    qsort(trimmer->options[block].items, trimmer->options[block].count, sizeof(struct room_option), by_loss);
}

/* --- the front of loss against seconds --- */

static long option_seconds(const struct room_trimmer *trimmer, const struct room_option *option, int athlete)
{
    long sum = 0;
    if (athlete != SQUAD)
        return option->seconds[athlete];
    for (size_t i = 0; i < trimmer->room->athlete_count; i++)
        sum += option->seconds[i];
    return sum;
}

static void add_choice(struct room_trimmer *trimmer, struct room_choices *to, const struct room_choice *from, int block,
                       int option, int athlete)
{
    const struct room_option *added = &trimmer->options[block].items[option];
    int *options = arena_alloc(trimmer->work, trimmer->room->block_count * sizeof *options);
    memcpy(options, from->options, (size_t)block * sizeof *options);
    options[block] = option;
    to->items = arena_grow(trimmer->work, to->items, to->count, &to->capacity, sizeof *to->items);
    to->items[to->count] = (struct room_choice){from->loss + added->loss,
                                                from->seconds + option_seconds(trimmer, added, athlete),
                                                (int)to->count, options};
    to->count++;
}

static int by_loss_and_seconds(const void *a, const void *b)
{
    const struct room_choice *x = a, *y = b;
    if (x->loss != y->loss)
        return x->loss < y->loss ? -1 : 1;
    if (x->seconds != y->seconds)
        return x->seconds < y->seconds ? -1 : 1;
    return x->order - y->order;
}

/* Sorts by loss, and leaves those that gain seconds against all before them. */
static void keep_front(struct room_choices *choices)
{
    size_t kept = 0;
    qsort(choices->items, choices->count, sizeof *choices->items, by_loss_and_seconds);
    for (size_t i = 0; i < choices->count; i++) {
        if (!kept || choices->items[i].seconds < choices->items[kept - 1].seconds)
            choices->items[kept++] = choices->items[i];
    }
    choices->count = kept;
}

static struct room_choices front_of(struct room_trimmer *trimmer, int athlete)
{
    static const int none;
    struct room_choice *start = arena_alloc(trimmer->work, sizeof *start);
    start->options = &none;
    struct room_choices front = {start, 1, 1};
    for (int i = 0; i < (int)trimmer->room->block_count; i++) {
        struct room_choices next = {0};
        for (size_t j = 0; j < front.count; j++) {
            for (size_t k = 0; k < trimmer->options[i].count; k++)
                add_choice(trimmer, &next, &front.items[j], i, (int)k, athlete);
        }
        keep_front(&next);
        front = next;
    }
    return front;
}

/* --- trying a cut --- */

static struct room_cut cut_of(const struct room_trimmer *trimmer, struct arena *arena, const struct room_choice *choice)
{
    struct room_cut cut = room_cut_copy(arena, trimmer->room, &trimmer->whole);
    for (int i = 0; i < (int)trimmer->room->block_count; i++) {
        const struct room_option *option = &trimmer->options[i].items[choice->options[i]];
        size_t first, count = lines_in(&cut, i, &first);
        for (size_t j = 0; j < count && !option->dropped; j++)
            cut.lines[first + j].off = option->off[j];
        cut.dropped[i] = option->dropped;
    }
    return cut;
}

static bool may_fit(struct room_trimmer *trimmer, const struct room_choice *choice)
{
    struct arena *scratch = trimmer->scratch;
    arena_reset(scratch);
    const struct room_cut cut = cut_of(trimmer, scratch, choice);
    const struct room *room = room_with_cut(scratch, trimmer->within, &cut);
    return room_bound_of(scratch, room_chains_new(scratch, room)).finish <= trimmer->seconds;
}

/* Works the choice out; keeps it if it fits, or if there is nothing yet. */
static bool try_choice(struct room_trimmer *trimmer, const struct room_choice *choice)
{
    struct room_cut cut = cut_of(trimmer, trimmer->arena, choice);
    const struct room *room = room_with_cut(trimmer->arena, trimmer->within, &cut);
    const struct room_table *table = room_solve(trimmer->arena, room);
    bool fits = !table->refused && !table->over;
    if (fits || !trimmer->best->table)
        *trimmer->best = (struct room_trim){cut, choice->loss, room, table, fits, false};
    return fits;
}

/* The least cut of the front that fits, found by halving, because a greater cut takes less time as a rule. The
 * greatest cut is tried first. */
static bool try_front(struct room_trimmer *trimmer, uint64_t least)
{
    struct room_choices front = front_of(trimmer, SQUAD);
    size_t low = 0, high = front.count - 1;
    if (!try_choice(trimmer, &front.items[high]))
        return false;
    while (low < high) {
        size_t middle = (low + high) / 2;
        const struct room_choice *choice = &front.items[middle];
        if (choice->loss >= least && may_fit(trimmer, choice) && try_choice(trimmer, choice))
            high = middle;
        else
            low = middle + 1;
    }
    return true;
}

/* --- all lesser cuts --- */

/* All cuts whose loss is at least LEAST and below that of the best; false if they are too many. */
static bool all_lesser(struct room_trimmer *trimmer, uint64_t least, struct room_choices *all)
{
    static const int none;
    struct room_choice start = {.options = &none};
    struct room_choices now = {&start, 1, 1};
    for (int i = 0; i < (int)trimmer->room->block_count; i++) {
        struct room_choices next = {0};
        for (size_t j = 0; j < now.count; j++) {
            for (size_t k = 0; k < trimmer->options[i].count; k++) {
                if (now.items[j].loss + trimmer->options[i].items[k].loss < trimmer->best->loss)
                    add_choice(trimmer, &next, &now.items[j], i, (int)k, SQUAD);
            }
            if (next.count > CUTS_MOST)
                return false;
        }
        now = next;
    }
    for (size_t i = 0; i < now.count; i++) {
        if (now.items[i].loss >= least)
            now.items[all->count++] = now.items[i];
    }
    all->items = now.items;
    if (all->count)
        qsort(all->items, all->count, sizeof *all->items, by_loss_and_seconds);
    return true;
}

static int solved_most(struct room_trimmer *trimmer)
{
    arena_reset(trimmer->scratch);
    int steps = room_chains_new(trimmer->scratch, trimmer->room)->steps, most = 4 + STEPS_MOST / (steps + 1);
    return most < SOLVED_MOST ? most : SOLVED_MOST;
}

/* Tries them, the least first; the result is proven if none of those passed over could have fitted. */
static void try_lesser(struct room_trimmer *trimmer, uint64_t least)
{
    struct room_choices all = {0};
    int solved = 0, most = solved_most(trimmer);
    bool proven = true;
    if (!all_lesser(trimmer, least, &all))
        return;
    for (size_t i = 0; i < all.count; i++) {
        if (!may_fit(trimmer, &all.items[i]))
            continue;
        if (solved++ == most) {
            proven = false;
            break;
        }
        if (try_choice(trimmer, &all.items[i]))
            break;
        proven = false;
    }
    trimmer->best->proven = proven;
}

/* --- the trim --- */

/* The least loss by which ATHLETE alone is in time: no squad loses less. A late athlete may join a bell after its
 * first round, and so gives no bound. */
static uint64_t least_alone(struct room_trimmer *trimmer, int athlete)
{
    const struct room *room = trimmer->room;
    struct room_choices front = front_of(trimmer, athlete);
    bool late = room->blocks[0].bell && room->athletes[athlete].arrival > 0;
    for (size_t i = 0; !late && i < front.count; i++) {
        if (room->athletes[athlete].arrival + front.items[i].seconds <= trimmer->seconds + room->between)
            return front.items[i].loss;
    }
    return 0;
}

static uint64_t least_loss(struct room_trimmer *trimmer)
{
    uint64_t least = 0;
    for (int i = 0; i < (int)trimmer->room->athlete_count; i++) {
        uint64_t alone = least_alone(trimmer, i);
        least = alone > least ? alone : least;
    }
    return least;
}

static void cut_to_fit(struct room_trimmer *trimmer)
{
    const struct room *room = trimmer->room;
    trimmer->options = arena_alloc(trimmer->work, (room->block_count + 1) * sizeof *trimmer->options);
    for (int i = 0; i < (int)room->block_count; i++)
        find_options(trimmer, i);
    uint64_t least = least_loss(trimmer);
    if (!try_front(trimmer, least))
        return;
    if (trimmer->best->loss == least)
        trimmer->best->proven = true;
    else
        try_lesser(trimmer, least);
}

const struct room_trim *room_trim(struct arena *arena, const struct room *room, int seconds)
{
    struct room *within = arena_alloc(arena, sizeof *within);
    struct room_trim *best = arena_alloc(arena, sizeof *best);
    *within = *room;
    within->doors = seconds;
    const struct room_table *table = room_solve(arena, within);
    if (table->refused)
        return NULL;
    struct room_trimmer trimmer = {.arena = arena, .work = arena_new(), .scratch = arena_new(), .room = room,
                                   .within = within, .whole = room_cut_none(arena, room), .seconds = seconds,
                                   .best = best};
    if (table->over)
        cut_to_fit(&trimmer);
    else
        *best = (struct room_trim){trimmer.whole, 0, within, table, true, true};
    arena_free(trimmer.work);
    arena_free(trimmer.scratch);
    return best;
}
