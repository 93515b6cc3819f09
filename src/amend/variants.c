#include "amend/variants.h"

#include <string.h>

#include "amend/placed.h"
#include "base/text.h"
#include "measure/kit.h"
#include "measure/loads.h"
#include "model/block.h"
#include "model/exercise.h"
#include "model/occasion.h"

struct finding_variants {
    struct arena *arena;
    const struct project *project;
    const struct squad *squad;
    const struct block *block;
    const struct item *item;
    const struct node *line;
    struct variant_line *variants;
    size_t count, capacity;
};

static const struct node *dose_of(const struct node *statement)
{
    const struct node *last = NULL;
    for (const struct node *child = statement->first; child && !node_is_statement(child); child = child->next)
        last = child;
    return last && last->kind == NODE_DOSE ? last : NULL;
}

static void add_variant(struct finding_variants *finding, const char *instead, const struct node *dose)
{
    const struct item *item = finding->item;
    const char *bytes = finding->project->sources.items[dose->span.file].text;
    for (size_t i = 0; i < finding->count; i++)
        if (strstr(finding->variants[i].words, instead) == finding->variants[i].words)
            return; /* the line names it itself */
    finding->variants = arena_grow(finding->arena, finding->variants, finding->count, &finding->capacity,
                                   sizeof *finding->variants);
    finding->variants[finding->count++] = (struct variant_line){
        arena_printf(finding->arena, "drop %s\nadd %c %s : %.*s", item->ref, finding->block->letter, instead,
                     (int)(dose->span.end - dose->span.start), bytes + dose->span.start),
        arena_printf(finding->arena, "%s instead of %s", instead, item->exercise->name.shown)};
}

/* Is there nothing below the line but `without` and the coach's remarks? An athlete with a line of their own would
 * lose it. */
static bool is_for_all(const struct node *line)
{
    for (const struct node *child = line->first; child; child = child->next)
        if (node_is_statement(child) && child->kind != STATEMENT_WITHOUT && child->kind != STATEMENT_CUE
            && child->kind != STATEMENT_STOP)
            return false;
    return true;
}

/* Does the whole squad do it as written, and would `add` put the new line in its place? */
static bool can_be_said(const struct finding_variants *finding)
{
    const struct item *item = finding->item;
    const struct squad *squad = finding->squad;
    if (item->filler || item->test || item->round || item->after >= 0 || !finding->line
        || finding->line->kind != STATEMENT_ITEM || !is_for_all(finding->line) || !dose_of(finding->line))
        return false;
    for (size_t i = 0; i < squad->count; i++) {
        const struct occasion *member = squad->members[i];
        for (size_t b = 0; b < member->block_count; b++)
            for (size_t k = 0; k < member->blocks[b].item_count && member->blocks[b].letter == finding->block->letter; k++) {
                const struct item *other = &member->blocks[b].items[k];
                if (other->index > item->index || (other->index == item->index && other->exercise != item->exercise))
                    return false;
            }
    }
    return true;
}

static bool has_load(const struct item *item)
{
    for (size_t i = 0; i < item->run_count; i++)
        if (item->runs[i].load.kind != LOAD_NONE)
            return true;
    return false;
}

static void find_written(struct finding_variants *finding)
{
    for (const struct node *child = finding->line->first; child; child = child->next) {
        const struct node *dose = child->kind == STATEMENT_WITHOUT ? dose_of(child) : NULL;
        const struct node *name = child->kind == STATEMENT_WITHOUT ? child->first->next : NULL;
        if (name && name->kind == NODE_NAME && dose)
            add_variant(finding, name->text, dose);
    }
}

static void find_on_shelf(struct finding_variants *finding)
{
    const struct exercise *planned = finding->item->exercise;
    for (size_t i = 0; i < planned->without_count; i++) {
        const struct exercise *instead = planned->without[i].instead;
        if (instead && (!has_load(finding->item) || loads_alike(finding->squad->gym, planned, instead)))
            add_variant(finding, instead->name.shown, dose_of(finding->line));
    }
}

size_t variants_of(struct arena *arena, const struct project *project, const struct squad *squad, const struct block *block,
                   const struct item *item, struct variant_line **variants)
{
    struct finding_variants finding = {.arena = arena, .project = project, .squad = squad, .block = block, .item = item,
                                       .line = placed_statement(project, item->span)};
    if (block->letter && can_be_said(&finding)) {
        find_written(&finding);
        find_on_shelf(&finding);
    }
    *variants = finding.variants;
    return finding.count;
}
