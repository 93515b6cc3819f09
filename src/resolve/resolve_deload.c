/* resolve_deload.c - a week of fewer sets and less effort, made of what its days hold anyway. */
#include <string.h>

#include "measure/deload.h"
#include "measure/kit.h"
#include "measure/time.h"
#include "model/occasion.h"
#include "resolve/calendar.h"
#include "resolve/place.h"

enum { LEAST_RPE = 1000, MOST_LOWER = 5000 };

static bool report(struct resolver *r, const struct node *node, const char *words)
{
    struct finding *finding = diag_error(r->diag, DIAG_BAD_DELOAD, node->span, "%s", words);
    diag_help(r->diag, finding, "write it like `deload 60%% of the sets, RPE 2 lower`");
    return false;
}

bool deload_read(struct resolver *r, const struct node *node, const struct days_covered *covered, struct deload *deload)
{
    *deload = (struct deload){.covered = covered, .share = DELOAD_WHOLE};
    bool sets = false;
    for (const struct node *part = node->first; part; part = part->next) {
        if (part->kind == NODE_OF_SETS ? sets : deload->lower > 0)
            return report(r, part, "this says twice what a deload leaves");
        if (part->kind == NODE_OF_SETS) {
            sets = true;
            deload->share = part->number;
            if (part->number < DELOAD_WHOLE / 10 || part->number >= DELOAD_WHOLE)
                return report(r, part, "a deload leaves from 10% of the sets to less than all of them");
        } else {
            deload->lower = part->number;
            if (part->number < 500 || part->number > MOST_LOWER || part->number % 500)
                return report(r, part, "a deload lowers RPE by 0.5 to 5, in halves");
        }
    }
    return true;
}

const struct deload *deload_on(const struct deload *deloads, size_t count, const struct camp *camp, int day)
{
    const struct deload *found = NULL;
    for (size_t i = 0; i < count; i++)
        if (covers_day(deloads[i].covered, camp, day) &&
            (!found || deloads[i].covered->count <= found->covered->count))
            found = &deloads[i];
    return found;
}

static struct range lowered(struct range rpe, milli lower)
{
    if (rpe.low <= 0)
        return rpe;
    rpe.low = rpe.low - lower > LEAST_RPE ? rpe.low - lower : LEAST_RPE;
    rpe.high = rpe.high - lower > LEAST_RPE ? rpe.high - lower : LEAST_RPE;
    return rpe;
}

static void ease(struct load *load, milli lower)
{
    if (load->effort == EFFORT_RPE) {
        load->effort_band = lowered(load->effort_band, lower);
    } else if (load->effort == EFFORT_RESERVE) {
        load->effort_band.low += lower;
        load->effort_band.high += lower;
    }
}

/* Are its sets rounds of a clock? Those stay. */
static bool goes_by_clock(const struct block *block)
{
    return block->kind == BLOCK_ROUNDS || block->kind == BLOCK_EVERY || block->kind == BLOCK_AS_MANY;
}

/* The first sets of ITEM, as many as are left; others may share its runs, so it gets its own. */
static void lighten(struct resolver *r, const struct deload *deload, bool clock, struct item *item)
{
    struct set_run *runs = arena_alloc(r->arena, (item->run_count + 1) * sizeof *runs);
    int left = clock ? item->sets : deload_leaves(item->sets, deload->share);
    size_t count = 0;
    item->sets = left;
    for (size_t i = 0; i < item->run_count && (clock || left > 0); i++) {
        runs[count] = item->runs[i];
        if (!clock && runs[count].count > left)
            runs[count].count = left;
        left -= runs[count].count;
        ease(&runs[count].load, deload->lower);
        count++;
    }
    item->runs = runs;
    item->run_count = count;
}

void deload_apply(struct resolver *r, const struct deload *deload, struct occasion *occasion)
{
    struct block *blocks = arena_alloc(r->arena, (occasion->block_count + 1) * sizeof *blocks);
    for (size_t b = 0; b < occasion->block_count; b++) {
        struct block *block = &blocks[b];
        *block = occasion->blocks[b];
        bool clock = goes_by_clock(block);
        block->sets = clock ? block->sets : deload_leaves(block->sets, deload->share);
        struct item *items = arena_alloc(r->arena, (block->item_count + 1) * sizeof *items);
        for (size_t i = 0; i < block->item_count; i++) {
            items[i] = block->items[i];
            lighten(r, deload, clock, &items[i]);
        }
        block->items = items;
    }
    occasion->blocks = blocks;
    occasion->rpe = lowered(occasion->rpe, deload->lower);
    occasion->deload = deload->share;
    occasion->seconds = time_session(blocks, occasion->block_count, occasion->athlete, occasion_gym(occasion), occasion->date,
                                     &time_usual);
}
