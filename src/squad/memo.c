/* Days that are alike are solved once. Rooms are compared by everything that is in them. */
#include <string.h>

#include "base/text.h"
#include "squad/squad.h"

struct solved {
    const char *key;
    size_t length;
    uint64_t hash;
    const struct room_table *table;
    const struct solved *next;
};

enum { BUCKETS = 256 };

struct squad_memo {
    pthread_mutex_t *held; /* by whoever looks or solves; NULL: one thread alone asks */
    struct arena *arena;
    const struct solved *buckets[BUCKETS];
};

struct squad_memo *squad_memo_new(struct arena *arena)
{
    struct squad_memo *memo = arena_alloc(arena, sizeof *memo);
    memo->arena = arena;
    return memo;
}

struct squad_memo *squad_memo_shared(struct arena *arena, pthread_mutex_t *held)
{
    struct squad_memo *memo = squad_memo_new(arena);
    memo->held = held;
    return memo;
}

static void hold(const struct squad_memo *memo)
{
    if (memo->held)
        pthread_mutex_lock(memo->held);
}

static void let_go(const struct squad_memo *memo)
{
    if (memo->held)
        pthread_mutex_unlock(memo->held);
}

static void put(struct text *key, int value)
{
    text_add_bytes(key, (const char *)&value, sizeof value);
}

static void put_item(struct text *key, const struct room_item *item)
{
    text_add(key, item->name);
    put(key, item->work);
    put(key, item->gap_least);
    put(key, item->gap_most);
    put(key, item->partner);
    put(key, (int)item->need_count);
    for (size_t i = 0; i < item->need_count; i++) {
        put(key, item->needs[i].kind);
        put(key, item->needs[i].count);
    }
    put(key, (int)item->stack_count);
    text_add_bytes(key, (const char *)item->stack, item->stack_count * sizeof *item->stack);
}

static void put_part(struct text *key, const struct room_part *part)
{
    put(key, (int)part->set_count);
    for (size_t i = 0; i < part->set_count; i++) {
        const struct room_set *set = &part->sets[i];
        put(key, set->rest);
        put(key, set->ramp);
        put(key, (int)set->item_count);
        for (size_t k = 0; k < set->item_count; k++)
            put_item(key, &set->items[k]);
    }
}

static void put_blocks(struct text *key, const struct room *room)
{
    put(key, (int)room->order);
    put(key, (int)room->block_count);
    for (size_t i = 0; i < room->block_count; i++) {
        const struct room_block *block = &room->blocks[i];
        text_add(key, block->name);
        put(key, block->bell);
        put(key, block->free);
        put(key, (int)block->round_count);
        text_add_bytes(key, (const char *)block->rounds, block->round_count * sizeof *block->rounds);
    }
}

static void put_kit(struct text *key, const struct room *room)
{
    put(key, (int)room->kind_count);
    for (size_t i = 0; i < room->kind_count; i++) {
        text_add(key, room->kinds[i].name);
        put(key, room->kinds[i].count);
        put(key, room->kinds[i].seat);
        put(key, room->kinds[i].one_sleeve);
    }
    put(key, (int)room->stock_count);
    for (size_t i = 0; i < room->stock_count; i++)
        put(key, room->stock[i].count);
    put(key, room->changeover);
    put(key, room->disc);
    put(key, room->between);
    put(key, room->doors);
}

/* ENOUGH: what ends the search, or NULL. */
static const char *key_of(struct arena *arena, const struct room *room, const struct room_enough *enough, size_t *length)
{
    struct text key = {.arena = arena};
    put(&key, enough ? enough->finish : ROOM_NONE);
    put(&key, enough ? enough->wait : ROOM_NONE);
    put_kit(&key, room);
    put_blocks(&key, room);
    put(&key, (int)room->athlete_count);
    for (size_t i = 0; i < room->athlete_count; i++) {
        text_add(&key, room->athletes[i].name);
        put(&key, room->athletes[i].arrival);
        for (size_t b = 0; b < room->block_count; b++)
            put_part(&key, &room->athletes[i].parts[b]);
    }
    put(&key, (int)room->group_count);
    for (size_t i = 0; i < room->group_count; i++) {
        put(&key, (int)room->groups[i].count);
        text_add_bytes(&key, (const char *)room->groups[i].members, room->groups[i].count * sizeof(int));
    }
    *length = key.length;
    return text_keep(arena, &key);
}

/* What was kept of the room with KEY, or NULL. */
static const struct room_table *find(const struct squad_memo *memo, const char *key, size_t length, uint64_t hash)
{
    for (const struct solved *one = memo->buckets[hash % BUCKETS]; one; one = one->next)
        if (one->hash == hash && one->length == length && memcmp(one->key, key, length) == 0)
            return one->table;
    return NULL;
}

const struct room_table *squad_solved(struct squad_memo *memo, const struct squad *squad, struct room_enough enough)
{
    size_t length;
    hold(memo);
    const char *key = key_of(memo->arena, &squad->room, &enough, &length);
    const struct room_table *known = find(memo, key, length, text_hash(0, key, length));
    let_go(memo);
    return known;
}

static const struct room_table *solve_fresh(struct squad_memo *memo, const struct squad *squad,
                                            const struct room_enough *enough)
{
    size_t length;
    const char *key = key_of(memo->arena, &squad->room, enough, &length);
    uint64_t hash = text_hash(0, key, length);
    const struct room_table *known = find(memo, key, length, hash);
    if (known)
        return known;
    struct solved *fresh = arena_alloc(memo->arena, sizeof *fresh);
    *fresh = (struct solved){key, length, hash, NULL, memo->buckets[hash % BUCKETS]};
    fresh->table = enough ? room_solve_until(memo->arena, &squad->room, *enough) : room_solve(memo->arena, &squad->room);
    memo->buckets[hash % BUCKETS] = fresh;
    return fresh->table;
}

/* Whoever else asks waits: it is most likely the same room that is asked for. */
static const struct room_table *solve(struct squad_memo *memo, const struct squad *squad, const struct room_enough *enough)
{
    if (squad->too_large)
        return NULL;
    hold(memo);
    const struct room_table *table = solve_fresh(memo, squad, enough);
    let_go(memo);
    return table;
}

const struct room_table *squad_solve(struct squad_memo *memo, const struct squad *squad)
{
    return solve(memo, squad, NULL);
}

const struct room_table *squad_solve_until(struct squad_memo *memo, const struct squad *squad, struct room_enough enough)
{
    return solve(memo, squad, &enough);
}
