#include "room/change.h"

#include <string.h>

/* --- copies --- */

/* A copy whose blocks, athletes and their parts may be changed. It has COUNT blocks, ROOM's first. */
static struct room *copy_room(struct arena *arena, const struct room *room, size_t count)
{
    struct room *copy = arena_alloc(arena, sizeof *copy);
    struct room_block *blocks = arena_alloc(arena, (count + 1) * sizeof *blocks);
    struct room_athlete *athletes = arena_alloc(arena, (room->athlete_count + 1) * sizeof *athletes);
    size_t kept = count < room->block_count ? count : room->block_count;
    *copy = *room;
    memcpy(blocks, room->blocks, kept * sizeof *blocks);
    for (size_t i = 0; i < room->athlete_count; i++) {
        struct room_part *parts = arena_alloc(arena, (count + 1) * sizeof *parts);
        memcpy(parts, room->athletes[i].parts, kept * sizeof *parts);
        athletes[i] = room->athletes[i];
        athletes[i].parts = parts;
    }
    copy->blocks = blocks;
    copy->block_count = count;
    copy->athletes = athletes;
    return copy;
}

/* The copy made above is ours to change. */
static struct room_block *block_at(struct room *copy, int block)
{
    return (struct room_block *)&copy->blocks[block];
}

static struct room_part *part_at(struct room *copy, int athlete, int block)
{
    return (struct room_part *)&copy->athletes[athlete].parts[block];
}

/* --- cuts --- */

bool room_may_cut(const struct room *room, int block)
{
    return room->blocks[block].keep > 1 && !room->blocks[block].care;
}

static int sets_of_line(const struct room_part *part, int line)
{
    int count = 0;
    for (size_t i = 0; i < part->set_count; i++)
        count += part->sets[i].line == line && !part->sets[i].ramp;
    return count;
}

static int lines_of(const struct room *room, int block)
{
    int lines = 0;
    for (size_t i = 0; i < room->athlete_count; i++) {
        const struct room_part *part = &room->athletes[i].parts[block];
        for (size_t j = 0; j < part->set_count; j++)
            lines = part->sets[j].line >= lines ? part->sets[j].line + 1 : lines;
    }
    return lines;
}

static int most_sets(const struct room *room, int block, int line)
{
    int most = 0;
    if (room->blocks[block].bell)
        return room->blocks[block].round_count ? (int)room->blocks[block].round_count : 1;
    for (size_t i = 0; i < room->athlete_count; i++) {
        int sets = sets_of_line(&room->athletes[i].parts[block], line);
        most = sets > most ? sets : most;
    }
    return most;
}

struct room_cut room_cut_none(struct arena *arena, const struct room *room)
{
    struct room_cut cut = {0};
    size_t capacity = 0;
    cut.dropped = arena_alloc(arena, (room->block_count + 1) * sizeof *cut.dropped);
    for (int i = 0; i < (int)room->block_count; i++) {
        for (int j = 0; j < lines_of(room, i); j++) {
            cut.lines = arena_grow(arena, cut.lines, cut.line_count, &capacity, sizeof *cut.lines);
            cut.lines[cut.line_count++] = (struct room_line){i, j, most_sets(room, i, j), 0};
        }
    }
    return cut;
}

struct room_cut room_cut_copy(struct arena *arena, const struct room *room, const struct room_cut *cut)
{
    struct room_cut copy = {.line_count = cut->line_count};
    copy.lines = arena_alloc(arena, (cut->line_count + 1) * sizeof *copy.lines);
    copy.dropped = arena_alloc(arena, (room->block_count + 1) * sizeof *copy.dropped);
    memcpy(copy.lines, cut->lines, cut->line_count * sizeof *copy.lines);
    memcpy(copy.dropped, cut->dropped, room->block_count * sizeof *copy.dropped);
    return copy;
}

/* The part without the last OFF sets of a line; at least one set stays. */
static struct room_part without_sets(struct arena *arena, const struct room_part *part, int line, int off)
{
    struct room_set *sets = arena_alloc(arena, (part->set_count + 1) * sizeof *sets);
    struct room_part left = {.sets = sets};
    int keep = sets_of_line(part, line) - off, kept = 0;
    for (size_t i = 0; i < part->set_count; i++) {
        const struct room_set *set = &part->sets[i];
        if (set->line == line && !set->ramp && kept++ >= (keep > 1 ? keep : 1))
            continue;
        sets[left.set_count++] = *set;
    }
    return left;
}

/* The bell without its last OFF rounds. */
static void cut_rounds(struct arena *arena, struct room *copy, int block, int off)
{
    struct room_block *bell = block_at(copy, block);
    if (bell->round_count <= (size_t)off)
        off = (int)bell->round_count - 1;
    if (off < 1)
        return;
    int saved = bell->rounds[bell->round_count - 1] - bell->rounds[bell->round_count - 1 - (size_t)off];
    bell->round_count -= (size_t)off;
    for (size_t i = 0; i < copy->athlete_count; i++) {
        struct room_part *part = part_at(copy, (int)i, block);
        if (!part->set_count)
            continue;
        struct room_item *item = arena_alloc(arena, sizeof *item);
        struct room_set *set = arena_alloc(arena, sizeof *set);
        *item = part->sets[0].items[0];
        item->work -= saved;
        *set = part->sets[0];
        set->items = item;
        part->sets = set;
    }
}

const struct room *room_with_cut(struct arena *arena, const struct room *room, const struct room_cut *cut)
{
    struct room *copy = copy_room(arena, room, room->block_count);
    for (size_t i = 0; i < cut->line_count; i++) {
        const struct room_line *line = &cut->lines[i];
        if (!line->off || cut->dropped[line->block])
            continue;
        if (room->blocks[line->block].bell) {
            cut_rounds(arena, copy, line->block, line->off);
            continue;
        }
        for (size_t j = 0; j < room->athlete_count; j++) {
            struct room_part *part = part_at(copy, (int)j, line->block);
            *part = without_sets(arena, part, line->line, line->off);
        }
    }
    for (size_t i = 0; i < room->block_count; i++) {
        for (size_t j = 0; cut->dropped[i] && j < room->athlete_count; j++)
            *part_at(copy, (int)j, (int)i) = (struct room_part){0};
    }
    return copy;
}

int room_block_seconds(const struct room *room, int athlete, int block)
{
    const struct room_part *part = &room->athletes[athlete].parts[block];
    int seconds = 0;
    for (size_t i = 0; i < part->set_count; i++) {
        const struct room_set *set = &part->sets[i];
        for (size_t j = 0; j < set->item_count; j++)
            seconds += set->items[j].work + (j ? set->items[j].gap_least : 0);
        if (i + 1 < part->set_count)
            seconds += set->rest;
    }
    return seconds;
}

/* --- orders --- */

const struct room *room_with_order(struct arena *arena, const struct room *room, int from, int to,
                                   enum room_order order)
{
    struct room *copy = copy_room(arena, room, room->block_count);
    copy->order = order;
    for (int i = 0; i < (int)room->block_count; i++)
        block_at(copy, i)->free = i >= from && i <= to;
    return copy;
}

/* Where the block that is at AT after the move was before it. */
static int before_move(int at, int from, int to)
{
    if (at == to)
        return from;
    if (from < to)
        return at >= from && at < to ? at + 1 : at;
    return at > to && at <= from ? at - 1 : at;
}

const struct room *room_with_move(struct arena *arena, const struct room *room, int from, int to)
{
    struct room *copy = copy_room(arena, room, room->block_count);
    for (int i = 0; i < (int)room->block_count; i++) {
        int before = before_move(i, from, to);
        *block_at(copy, i) = room->blocks[before];
        for (int j = 0; j < (int)room->athlete_count; j++)
            *part_at(copy, j, i) = room->athletes[j].parts[before];
    }
    return copy;
}

/* --- several bells in place of one --- */

/* Whether the kit that ITEM holds is there beside what is TAKEN; takes it. */
static bool take_needs(const struct room *room, const struct room_item *item, int *taken)
{
    for (size_t i = 0; i < item->need_count; i++) {
        if (taken[item->needs[i].kind] + item->needs[i].count > room->kinds[item->needs[i].kind].count)
            return false;
    }
    for (size_t i = 0; i < item->need_count; i++)
        taken[item->needs[i].kind] += item->needs[i].count;
    return true;
}

/* Which bell each athlete answers, in squad order; returns how many bells there are, or 0 if one athlete alone wants
 * too much. */
static int deal_bells(struct arena *arena, const struct room *room, int block, int *bells)
{
    int *taken = arena_alloc(arena, (room->kind_count + 1) * sizeof *taken), count = 1;
    for (size_t i = 0; i < room->athlete_count; i++) {
        const struct room_part *part = &room->athletes[i].parts[block];
        if (!part->set_count)
            continue;
        if (!take_needs(room, part->sets[0].items, taken)) {
            memset(taken, 0, room->kind_count * sizeof *taken);
            count++;
            if (!take_needs(room, part->sets[0].items, taken))
                return 0;
        }
        bells[i] = count - 1;
    }
    return count;
}

const struct room *room_with_bells(struct arena *arena, const struct room *room, int block)
{
    int *bells = arena_alloc(arena, room->athlete_count * sizeof *bells);
    int count = deal_bells(arena, room, block, bells), blocks = (int)room->block_count;
    if (!count)
        return NULL;
    struct room *copy = copy_room(arena, room, room->block_count + (size_t)count - 1);
    for (int i = blocks - 1; i > block; i--) {
        *block_at(copy, i + count - 1) = room->blocks[i];
        for (int j = 0; j < (int)room->athlete_count; j++)
            *part_at(copy, j, i + count - 1) = room->athletes[j].parts[i];
    }
    for (int i = 0; i < count; i++) {
        *block_at(copy, block + i) = room->blocks[block];
        for (int j = 0; j < (int)room->athlete_count; j++)
            *part_at(copy, j, block + i) = bells[j] == i ? room->athletes[j].parts[block] : (struct room_part){0};
    }
    return copy;
}

/* --- substitutes --- */

const struct room *room_with_substitutes(struct arena *arena, const struct room *room, const bool *taken)
{
    struct room *copy = copy_room(arena, room, room->block_count);
    for (size_t i = 0; i < room->substitute_count; i++) {
        const struct room_substitute *substitute = &room->substitutes[i];
        if (taken[i])
            *part_at(copy, substitute->athlete, substitute->block) = substitute->part;
    }
    return copy;
}
