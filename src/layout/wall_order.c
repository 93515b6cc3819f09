/* wall_order.c - the order in which a block is gone through, in one line that is read from as far as the doses. */
#include "base/text.h"
#include "language/language.h"
#include "layout/wall.h"
#include "model/block.h"
#include "wording/wording.h"

#define ARROW " \342\206\222 " /* → */

/* The lanes of LANE's block, as FIRST up to END. */
static void lanes_of(const struct group *group, size_t lane, size_t *first, size_t *end)
{
    const struct block *block = group->lanes[lane].block;
    for (*first = lane; *first > 0 && group->lanes[*first - 1].block == block; (*first)--)
        continue;
    for (*end = lane + 1; *end < group->lane_count && group->lanes[*end].block == block; (*end)++)
        continue;
}

/* Whether the lines of BLOCK follow on one another in each set. */
static bool goes_round(const struct block *block, size_t lines)
{
    switch (block->kind) {
    case BLOCK_ROUNDS:
    case BLOCK_EVERY:
    case BLOCK_AS_MANY:
        return false;
    default:
        return lines > 1 && block->letter && block->times <= 1;
    }
}

bool wall_in_turn(const struct group *group, size_t lane)
{
    size_t first, end;
    const struct block *block = group->lanes[lane].block;
    lanes_of(group, lane, &first, &end);
    bool each_round = block->kind == BLOCK_EVERY || block->kind == BLOCK_AS_MANY;
    return goes_round(block, end - first) || (each_round && end - first > 1 && block->letter);
}

const char *wall_order(struct arena *arena, const struct group *group, size_t lane)
{
    size_t first, end;
    const struct block *block = group->lanes[lane].block;
    struct text out = {.arena = arena};
    lanes_of(group, lane, &first, &end);
    if (!goes_round(block, end - first))
        return wording_block(arena, block);
    if (block->sets > 1)
        text_addf(&out, "%d" WORDING_GAP WORDING_TIMES WORDING_GAP "(", block->sets);
    for (size_t l = first; l < end; l++) {
        const struct item *item = group->lanes[l].item;
        text_add(&out, l > first ? ARROW : "");
        if (l > first && item->after > 0)
            text_addf(&out, "%s" ARROW, wording_time(arena, item->after));
        text_addf(&out, "%c%d", block->letter, item->index + 1);
    }
    const char *rest = wording_rest(arena, block);
    if (*rest)
        text_addf(&out, said(arena, " \u2192 rest\u00a0%s"), rest);
    text_add(&out, block->sets > 1 ? ")" : "");
    if (block->kind == BLOCK_FOR_TIME && block->work)
        text_addf(&out, said(arena, " in\u00a0%s"), wording_clock(arena, block->work));
    return text_keep(arena, &out);
}

const char *wall_order_aside(struct arena *arena, const struct group *group, size_t lane)
{
    size_t first, end;
    const struct block *block = group->lanes[lane].block;
    lanes_of(group, lane, &first, &end);
    size_t lines = end - first;
    const char *kind = goes_round(block, lines) ? said_as(arena, "block", block_kinds.names[block->kind]) : "";
    switch (block->kind) {
    case BLOCK_EVERY:
        return lines == 1 ? "" : lines == 2 ? said(arena, "both at each start") : said(arena, "all at each start");
    case BLOCK_AS_MANY:
        return lines == 1 ? "" : lines == 2 ? said(arena, "both in each round") : said(arena, "all in each round");
    case BLOCK_CIRCUIT:
    case BLOCK_FOR_TIME:
        return *kind ? arena_printf(arena, said(arena, "%s, each round"), kind) : "";
    default:
        return kind;
    }
}
