/* What is placed for an athlete and then not planned: all of it while the athlete is out, and what a hold's step does
 * not name. What a log covers was done, and stays. */
#include <stdlib.h>

#include "measure/hold.h"
#include "measure/kit.h"
#include "measure/time.h"
#include "model/activity.h"
#include "model/athlete.h"
#include "resolve/template.h"
#include "source/span_order.h"

static void leave_out(struct resolver *r, struct left_out left_out)
{
    const struct occasion *occasion = &left_out.occasion;
    left_out.out = athlete_out(occasion->athlete, occasion->date);
    r->left_out = arena_grow(r->arena, r->left_out, r->left_out_count, &r->left_out_capacity, sizeof *r->left_out);
    r->left_out[r->left_out_count++] = left_out;
}

/* Days on which the gym of OCCASION is closed; NULL: nothing keeps it from being done there. */
static const struct closure *closed_for(const struct occasion *occasion)
{
    bool outside = occasion->activity && occasion->activity->outside;
    return outside ? NULL : gym_closed(occasion_gym(occasion), occasion->date);
}

/* Is nothing at all of PLACED planned, and why? If some step of a hold allows a part of a session, its items decide
 * later. */
static bool is_barred(const struct resolver *r, const struct placed *placed, struct left_out *left_out)
{
    const struct occasion *occasion = &placed->occasion;
    left_out->why = LEFT_ABSENT;
    if (placed->absent)
        return true;
    left_out->why = LEFT_OUT;
    if (athlete_said_away(occasion->athlete, occasion->date))
        return true;
    left_out->closure = closed_for(occasion);
    left_out->why = LEFT_CLOSED;
    if (left_out->closure)
        return true;
    bool held = occasion->athlete->hold_count && hold_reaches(occasion->athlete, occasion, r->today, NULL);
    left_out->why = held ? LEFT_HELD : LEFT_OUT;
    if (!held)
        return athlete_out(occasion->athlete, occasion->date);
    return occasion->activity ? !hold_allows_activity(occasion, r->today) : hold_allows_nothing(occasion, r->today);
}

/* The series and variants that PLACED would use may be meant for weeks that do not count now, so what seems to be
 * unused is not reported. */
static void keep_quiet(const struct placed *placed)
{
    if (placed->template)
        placed->template->reported = true;
    if (placed->rpe)
        placed->rpe->reported = true;
}

/* Before columns are counted: a week in which nothing was done is not one in which loads rise. */
void leave_out_placed(struct resolver *r)
{
    size_t kept = 0;
    for (size_t i = 0; i < r->placed_count; i++) {
        struct placed placed = r->placed[i];
        const struct athlete *athlete = placed.occasion.athlete;
        struct left_out left_out = {.occasion = placed.occasion, .whole = true};
        bool barred = !placed.occasion.held && is_barred(r, &placed, &left_out) &&
                      !occasion_is_logged(r, &placed.occasion);
        bool still = athlete->hold_count && athlete_stands_still(athlete, placed.occasion.date, r->today);
        if (barred || (still && !placed.occasion.held))
            keep_quiet(&placed);
        if (barred)
            leave_out(r, left_out);
        else
            r->placed[kept++] = placed;
    }
    r->placed_count = kept;
}

/* BLOCK with what is allowed of it; false if that is nothing. */
static bool allowed_block(struct resolver *r, const struct occasion *occasion, const struct block *block,
                          struct block *out)
{
    struct item *items = arena_alloc(r->arena, (block->item_count + 1) * sizeof *items);
    size_t count = 0, work = 0;
    for (size_t i = 0; i < block->item_count; i++) {
        const struct item *item = &block->items[i];
        if (!hold_allows_item(occasion, block, item, r->today))
            continue;
        work += !item->filler;
        items[count++] = *item;
    }
    *out = *block;
    out->items = items;
    out->item_count = work ? count : 0;
    bool paired = block->kind == BLOCK_SUPERSET || block->kind == BLOCK_CONTRAST || block->kind == BLOCK_COMPLEX;
    if (paired && count == 1)
        out->kind = BLOCK_STRAIGHT;
    return work > 0;
}

/* Leaves out of OCCASION what is barred; false if nothing remains. */
static bool keep_allowed(struct resolver *r, struct occasion *occasion)
{
    struct occasion whole = *occasion;
    struct block *blocks = arena_alloc(r->arena, (whole.block_count + 1) * sizeof *blocks);
    size_t count = 0, items = 0, all = 0;
    for (size_t i = 0; i < whole.block_count; i++) {
        count += allowed_block(r, &whole, &whole.blocks[i], &blocks[count]);
        all += whole.blocks[i].item_count;
    }
    for (size_t i = 0; i < count; i++)
        items += blocks[i].item_count;
    if (items == all)
        return true;
    leave_out(r, (struct left_out){.occasion = whole, .whole = !count, .why = LEFT_HELD});
    occasion->blocks = blocks;
    occasion->block_count = count;
    occasion->seconds = time_session(blocks, count, whole.athlete, occasion_gym(&whole), whole.date, &time_usual);
    return count > 0;
}

static int by_athlete_and_place(const void *left, const void *right)
{
    const struct occasion *a = &((const struct left_out *)left)->occasion;
    const struct occasion *b = &((const struct left_out *)right)->occasion;
    if (a->athlete != b->athlete)
        return a->athlete->number < b->athlete->number ? -1 : 1;
    if (a->date != b->date)
        return a->date < b->date ? -1 : 1;
    return span_order(a->span, b->span);
}

void leave_out_items(struct resolver *r, struct occasion *occasions, size_t *count)
{
    size_t kept = 0;
    for (size_t i = 0; i < *count; i++) {
        struct occasion *occasion = &occasions[i];
        bool held = occasion->session && !occasion->held && !occasion->logged && occasion->athlete->hold_count &&
                    hold_reaches(occasion->athlete, occasion, r->today, NULL);
        if (!held || keep_allowed(r, occasion))
            occasions[kept++] = *occasion;
    }
    *count = kept;
    if (r->left_out_count > 1)
        qsort(r->left_out, r->left_out_count, sizeof *r->left_out, by_athlete_and_place);
}
