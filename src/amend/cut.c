#include "amend/cut.h"

#include <string.h>

#include "amend/placed.h"
#include "base/text.h"
#include "measure/deload.h"
#include "model/block.h"
#include "model/kinds.h"
#include "wording/wording.h"

struct cutting {
    struct arena *arena;
    const struct project *project;
    const struct squad *squad;
    const struct room_cut *cut;
    struct text out;
};

const struct block *cut_block(const struct squad *squad, size_t b)
{
    size_t part = b; /* of the first member; a block that nobody does is in no room */
    while (!squad->parts[part].block)
        part += squad->room.block_count;
    return squad->parts[part].block;
}

static void begin_line(struct cutting *cutting, const char *words)
{
    text_addf(&cutting->out, "%s%s", cutting->out.length ? "\n" : "", words);
}

/* The figure that a line must give for SETS to be done, because a lighter week takes its share of that figure. */
static int written(const struct cutting *cutting, int sets)
{
    milli share = cutting->squad->members[0]->deload;
    return share ? deload_before(sets, share) : sets;
}

static void add_count(struct cutting *cutting, int sets)
{
    text_addf(&cutting->out, "%d set%s", sets, sets == 1 ? "" : "s");
}

/* --- blocks that ring --- */

static void add_time(struct cutting *cutting, const char *word, int low, int high)
{
    if (high <= 0)
        return;
    text_addf(&cutting->out, " %s %d:%02d", word, low / 60, low % 60);
    if (high > low)
        text_addf(&cutting->out, "-%d:%02d", high / 60, high % 60);
}

static bool add_bell(struct cutting *cutting, const struct block *block, int off)
{
    char letter[] = {block->letter, '\0'};
    if (block->kind == BLOCK_ROUNDS && block->times <= 1 && block->work) {
        begin_line(cutting, "change ");
        text_addf(&cutting->out, "%s : %d x %d:%02d", letter, block->sets - off, block->work / 60, block->work % 60);
        add_time(cutting, "rest", block->rest_low, block->rest_high);
        return true;
    }
    if (block->kind != BLOCK_EVERY || !block->interval)
        return false;
    int work = block->work - off * block->interval;
    begin_line(cutting, "change ");
    text_addf(&cutting->out, "%s : %d:%02d for %d:%02d", letter, block->interval / 60, block->interval % 60,
              work / 60, work % 60);
    return true;
}

/* --- doses --- */

static const struct node *find_dose(const struct node *statement, struct span span)
{
    for (const struct node *child = statement->first; child; child = child->next)
        if ((child->kind == NODE_DOSE || child->kind == NODE_INTERVALS) && child->span.start == span.start)
            return child;
    return NULL;
}

/* Adds the bytes of NODE from *AT on, with SETS figures of each of its lists. */
static void add_listed(struct cutting *cutting, const char *bytes, const struct node *node, int sets, size_t *at)
{
    for (const struct node *child = node->first; child; child = child->next) {
        const struct node *figure = child->kind == NODE_LIST ? child->first : NULL;
        for (int i = 1; figure && i < sets; i++)
            figure = figure->next;
        if (figure && figure->next) {
            text_add_bytes(&cutting->out, bytes + *at, figure->span.end - *at);
            *at = child->last->span.end;
        }
        add_listed(cutting, bytes, child, sets, at);
    }
}

static bool has_list(const struct node *node)
{
    for (const struct node *child = node->first; child; child = child->next)
        if (child->kind == NODE_LIST || has_list(child))
            return true;
    return false;
}

/* Adds ITEM's dose for SETS sets. False where a line cannot say it. */
static bool add_item(struct cutting *cutting, const struct item *item, int sets, bool listed_only)
{
    const struct span span = item->run_count ? item->runs[0].span : item->span;
    const struct node *statement = placed_statement(cutting->project, span);
    const struct node *dose = find_dose(statement, span);
    if (!dose || dose->kind == NODE_INTERVALS)
        return listed_only && !dose;
    bool list = has_list(dose);
    sets = written(cutting, sets);
    if (listed_only && !list)
        return true;
    begin_line(cutting, "change ");
    text_addf(&cutting->out, "%s : ", item->ref);
    if (!list) {
        add_count(cutting, sets);
        return true;
    }
    const char *bytes = cutting->project->sources.items[span.file].text;
    size_t at = dose->span.start;
    add_listed(cutting, bytes, dose, sets, &at);
    text_add_bytes(&cutting->out, bytes + at, dose->span.end - at);
    return true;
}

/* Does the first line of BLOCK say how many sets there are? The word is no part of another: not that of `superset`. */
static bool says_sets(const struct cutting *cutting, const struct block *block)
{
    const struct source *source = &cutting->project->sources.items[block->span.file];
    for (size_t at = block->span.start + 1; at + 3 <= block->span.end; at++) {
        bool begins = strchr(" \t0123456789", source->text[at - 1]) != NULL;
        if (begins && (strncmp(source->text + at, "set", 3) == 0 || strncmp(source->text + at, "round", 5) == 0))
            return true;
    }
    return false;
}

/* --- blocks --- */

/* Lines that are done in turn have one number of sets for all. */
static bool add_turns(struct cutting *cutting, const struct block *block, int off)
{
    int sets = block->sets - off;
    bool head = says_sets(cutting, block);
    if (head) {
        begin_line(cutting, "change ");
        text_addf(&cutting->out, "%c : ", block->letter);
        add_count(cutting, written(cutting, sets));
    }
    for (size_t i = 0; i < block->item_count; i++)
        if (block->items[i].sets > sets && !add_item(cutting, &block->items[i], sets, head))
            return false;
    return true;
}

static bool add_line(struct cutting *cutting, const struct block *block, const struct room_line *line)
{
    for (size_t i = 0; i < block->item_count; i++)
        if (block->items[i].index == line->line)
            return add_item(cutting, &block->items[i], block->items[i].sets - line->off, false);
    return false;
}

static bool add_cut(struct cutting *cutting, const struct room_line *line)
{
    const struct block *block = cut_block(cutting->squad, (size_t)line->block);
    if (!block->letter)
        return false;
    if (cutting->squad->room.blocks[line->block].bell)
        return add_bell(cutting, block, line->off);
    if (block->kind == BLOCK_STRAIGHT || block->kind == BLOCK_CLUSTER || block->kind == BLOCK_LADDER)
        return add_line(cutting, block, line);
    return add_turns(cutting, block, line->off);
}

static bool add_drops(struct cutting *cutting, int *block)
{
    bool begun = false;
    for (size_t b = 0; b < cutting->squad->room.block_count; b++) {
        if (!cutting->cut->dropped[b])
            continue;
        const struct block *dropped = cut_block(cutting->squad, b);
        *block = (int)b;
        if (!dropped->letter)
            return false;
        if (!begun)
            begin_line(cutting, "drop ");
        text_addf(&cutting->out, "%s%c", begun ? ", " : "", dropped->letter);
        begun = true;
    }
    return true;
}

const char *cut_lines(struct arena *arena, const struct project *project, const struct squad *squad,
                      const struct room_cut *cut, int *block)
{
    struct cutting cutting = {arena, project, squad, cut, {.arena = arena}};
    for (size_t i = 0; i < cut->line_count; i++) {
        const struct room_line *line = &cut->lines[i];
        *block = line->block;
        if (line->off && !cut->dropped[line->block] && !add_cut(&cutting, line))
            return NULL;
    }
    return add_drops(&cutting, block) ? text_keep(arena, &cutting.out) : NULL;
}
