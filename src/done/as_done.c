#include "done/as_done.h"

#include <string.h>

#include "model/occasion.h"

bool occasion_done(const struct occasion *occasion)
{
    const struct outcome *outcome = &occasion->outcome;
    return occasion->log && !occasion->log->missed && !(outcome->timed && outcome->seconds == 0);
}

const struct logged_line *logged_line_of(const struct done *log, const char *ref)
{
    for (size_t i = 0; i < log->line_count; i++) {
        const struct logged_line *line = &log->lines[i];
        bool block = !strchr(line->ref, '.');
        if (block ? *line->ref == *ref : strcmp(line->ref, ref) == 0)
            return line;
    }
    return NULL;
}

/* PLANNED with what SET says of it. */
static struct set_run run_of(const struct set_run *planned, const struct logged_set *set)
{
    struct set_run run = *planned;
    run.count = set->count;
    run.work_up = false;
    run.parts = set->parts;
    run.part_count = set->part_count;
    run.alternating = false;
    if (set->kind != LOAD_NONE) {
        run.load = (struct load){.kind = set->kind,
                                 .asked = set->load,
                                 .made = set->load,
                                 .added = set->load,
                                 .unit = planned->load.unit,
                                 .pieces = set->pieces,
                                 .thing = set->thing};
    }
    if (set->effort != EFFORT_NONE) {
        run.load.effort = set->effort;
        run.load.effort_band = set->effort_band;
    }
    return run;
}

/* The sets that LINE tells in place of those of ITEM, each like the planned one in its place. */
static void put_sets(struct arena *arena, struct item *item, const struct logged_line *line)
{
    struct set_run *runs = arena_alloc(arena, line->set_count * sizeof *runs);
    int sets = 0;
    for (size_t i = 0; i < line->set_count; i++) {
        size_t like = i < item->run_count ? i : item->run_count - 1;
        runs[i] = run_of(&item->runs[like], &line->sets[i]);
        sets += runs[i].count;
    }
    item->runs = runs;
    item->run_count = line->set_count;
    item->sets = sets;
}

/* The same sets, but no more than MOST of them. */
static void cut_sets(struct arena *arena, struct item *item, int most)
{
    struct set_run *runs = arena_alloc(arena, item->run_count * sizeof *runs);
    size_t count = 0;
    int left = most < item->sets ? most : item->sets;
    item->sets = left;
    for (size_t i = 0; i < item->run_count && left > 0; i++) {
        runs[count] = item->runs[i];
        runs[count].count = runs[count].count < left ? runs[count].count : left;
        left -= runs[count++].count;
    }
    item->runs = runs;
    item->run_count = count;
}

/* How many sets or rounds BLOCK has as LOG tells of it: on a poor day, those that it has then. */
static int block_sets(const struct block *block, const struct done *log)
{
    for (size_t i = 0; i < log->line_count && block->poor_sets; i++)
        if (log->lines[i].poor && *log->lines[i].ref == block->letter && block->poor_sets < block->sets)
            return block->poor_sets;
    return block->sets;
}

/* ITEM of BLOCK as LOG tells of it; false where it was not done. Rounds are counted by their block. */
static bool do_item(struct arena *arena, const struct block *block, struct item *item, const struct done *log)
{
    const struct logged_line *line = logged_line_of(log, item->ref);
    if (!line)
        return true;
    if (line->skipped)
        return false;
    if (block->kind == BLOCK_ROUNDS || item->run_count == 0)
        return true;
    if (line->poor && block->poor_sets)
        cut_sets(arena, item, block->poor_sets);
    else if (line->set_count)
        put_sets(arena, item, line);
    return true;
}

struct occasion occasion_as_done(struct arena *arena, const struct occasion *occasion)
{
    struct occasion done = *occasion;
    struct block *blocks = arena_alloc(arena, (occasion->block_count + 1) * sizeof *blocks);
    done.blocks = blocks;
    done.block_count = 0;
    for (size_t b = 0; b < occasion->block_count; b++) {
        struct block block = occasion->blocks[b];
        struct item *items = arena_alloc(arena, (block.item_count + 1) * sizeof *items);
        size_t count = 0;
        for (size_t i = 0; i < block.item_count; i++) {
            items[count] = block.items[i];
            count += do_item(arena, &block, &items[count], occasion->log);
        }
        block.items = items;
        block.item_count = count;
        block.sets = block_sets(&block, occasion->log);
        if (count)
            blocks[done.block_count++] = block;
    }
    const struct outcome *outcome = &occasion->outcome;
    done.seconds = outcome->timed ? outcome->seconds : occasion->seconds;
    done.rpe = outcome->rpe.high > 0 ? outcome->rpe : occasion->rpe;
    done.optional = false;
    return done;
}
