#include "room/refuse.h"

/* "block A", "the rounds": rounds without a letter are called by what they are. */
static const char *block_words(struct arena *arena, const struct room_block *block)
{
    return block->name[0] && !block->name[1] ? arena_printf(arena, "block %s", block->name)
                                             : arena_printf(arena, "the %s", block->name);
}

/* --- kit --- */

static const char *item_missing(struct arena *arena, const struct room *room, const struct room_block *block,
                                const struct room_item *item)
{
    for (size_t i = 0; i < item->need_count; i++) {
        const struct room_kind *kind = &room->kinds[item->needs[i].kind];
        if (item->needs[i].count <= kind->count)
            continue;
        if (!kind->count)
            return arena_printf(arena, "%s in %s needs %d x %s, the room has none", item->name,
                                block_words(arena, block), item->needs[i].count, kind->name);
        return arena_printf(arena, "%s in %s needs %d x %s, the room has %d", item->name, block_words(arena, block),
                            item->needs[i].count, kind->name, kind->count);
    }
    return NULL;
}

static const char *load_missing(struct arena *arena, const struct room *room, const struct room_block *block,
                                const struct room_item *item)
{
    const struct room_stack stack = {item->stack, item->stack_count};
    bool one_sleeve = false;
    for (size_t i = 0; i < item->need_count; i++)
        one_sleeve |= room->kinds[item->needs[i].kind].seat && room->kinds[item->needs[i].kind].one_sleeve;
    for (size_t i = 0; i < stack.count; i++) {
        const struct room_stock *stock = &room->stock[stack.parts[i]];
        int wanted = room_parts_in(&stack, stack.parts[i], one_sleeve);
        if (wanted > stock->count)
            return arena_printf(arena, "the load of %s in %s takes %d x %s, the gym has %d", item->name,
                                block_words(arena, block), wanted, stock->name, stock->count);
    }
    return NULL;
}

/* Two items of a contrast at the only seat, whose discs take longer than the gaps between them allow. */
static const char *step_is_tied(struct arena *arena, const struct room_chains *chains, int block,
                                const struct room_step *step, int later)
{
    const struct room *room = chains->room;
    const struct room_item *item = step->tasks[later].item;
    int lag = item->gap_most;
    for (int i = later - 1; i >= 0; i--) {
        const struct room_item *before = step->tasks[i].item;
        int seconds = room->disc * room_moved(chains, step->tasks[i].stack, step->tasks[later].stack);
        for (size_t j = 0; j < item->need_count * before->need_count; j++) {
            int kind = item->needs[j % item->need_count].kind;
            if (kind != before->needs[j / item->need_count].kind || !room->kinds[kind].seat
                || room->kinds[kind].count > 1 || seconds <= lag)
                continue;
            return arena_printf(arena,
                                "between %s and %s in %s the discs take %d s to change, and there are %d s at most",
                                before->name, item->name, block_words(arena, &room->blocks[block]), seconds, lag);
        }
        lag += before->work + (before->gap_most == ROOM_ANY_GAP ? 0 : before->gap_most);
    }
    return NULL;
}

static const char *leg_missing(struct arena *arena, const struct room_chains *chains, const struct room_leg *leg)
{
    const struct room *room = chains->room;
    const struct room_block *block = &room->blocks[leg->block];
    const char *words = NULL;
    for (int i = 0; !words && i < leg->step_count; i++) {
        const struct room_step *step = &leg->steps[i];
        for (int j = 0; !words && j < step->task_count; j++) {
            words = item_missing(arena, room, block, step->tasks[j].item);
            if (!words)
                words = load_missing(arena, room, block, step->tasks[j].item);
            if (!words && j)
                words = step_is_tied(arena, chains, leg->block, step, j);
        }
    }
    return words;
}

/* --- bells --- */

/* What all who answer a bell hold at once. */
static const char *bell_missing(struct arena *arena, const struct room_chains *chains, size_t block)
{
    const struct room *room = chains->room;
    for (size_t kind = 0; kind < room->kind_count; kind++) {
        int wanted = 0;
        for (int i = 0; i < chains->count; i++) {
            const struct room_part *part = &room->athletes[i].parts[block];
            if (!part->set_count || (block == 0 && chains->chains[i].joined == ROOM_NONE))
                continue;
            const struct room_item *item = part->sets[0].items;
            for (size_t j = 0; j < item->need_count; j++)
                wanted += item->needs[j].kind == (int)kind ? item->needs[j].count : 0;
        }
        if (wanted > room->kinds[kind].count)
            return arena_printf(arena, "%s %s %d x %s at one bell, the room has %d",
                                block_words(arena, &room->blocks[block]),
                                room->blocks[block].name[1] ? "want" : "wants", wanted, room->kinds[kind].name,
                                room->kinds[kind].count);
    }
    return NULL;
}

/* --- partners and places --- */

static const char *is_alone(struct arena *arena, const struct room_chains *chains, int athlete)
{
    const struct room_chain *chain = &chains->chains[athlete];
    for (int i = 0; i < chain->leg_count; i++) {
        if (chain->legs[i].partnered && chain->holder == ROOM_NONE)
            return arena_printf(arena, "%s is done with a partner, and %s has none",
                                block_words(arena, &chains->room->blocks[chain->legs[i].block]),
                                chains->room->athletes[athlete].name);
    }
    return NULL;
}

static const char *free_blocks_part(const struct room *room)
{
    bool begun = false, ended = false;
    for (size_t i = 0; room->order != ROOM_AS_WRITTEN && i < room->block_count; i++) {
        bool may_move = room->blocks[i].free;
        if (may_move && (ended || room->blocks[i].bell))
            return "only neighbouring blocks without bells may change places";
        ended |= begun && !may_move;
        begun |= may_move;
    }
    return NULL;
}

const char *room_refusal(struct arena *arena, const struct room_chains *chains, int *block)
{
    const struct room *room = chains->room;
    const char *words = chains->count ? free_blocks_part(room) : "nobody is there";
    *block = ROOM_NONE;
    for (size_t i = 0; !words && i < room->block_count; i++) {
        if (room->blocks[i].bell && (words = bell_missing(arena, chains, i)))
            *block = (int)i;
    }
    for (int i = 0; !words && i < chains->count; i++) {
        words = is_alone(arena, chains, i);
        for (int j = 0; !words && j < chains->chains[i].leg_count; j++)
            words = leg_missing(arena, chains, &chains->chains[i].legs[j]);
    }
    return words;
}

const char *room_refusal_of_ties(void)
{
    return "the kit of a contrast cannot be changed within its gaps";
}
