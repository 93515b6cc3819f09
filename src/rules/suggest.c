#include "rules/suggest.h"

#include <limits.h>
#include <string.h>

#include "figures/dates.h"
#include "measure/kit.h"
#include "measure/time.h"
#include "model/activity.h"
#include "model/exercise.h"

/* Of a stretch with more occasions only those of its largest lines are tried. */
enum { MOST_FEWER = 3, WHOLE, MOST_OCCASIONS = 14, MOST_TRIED = 5, MINUTES = 5 };

/* What may be left out first when time is short. */
enum { KEEP_LEAST = 3, KEEP_UNSAID = 2 };

/* One line done less often, on one day, or a block left out. */
struct edit {
    const struct occasion *occasion;
    const struct block *block; /* NULL: an activity */
    const struct item *item;   /* NULL: rounds of the block */
    int fewer;  /* sets or rounds; of an activity without rounds, times five minutes; WHOLE: the block is left out */
    milli left; /* what the count then comes to */
};

/* --- applying --- */

/* Takes FEWER sets off the end of ITEM, and keeps one at least. */
static bool drop_sets(struct run *run, struct item *item, int fewer)
{
    struct set_run *runs = arena_alloc(run->arena, item->run_count * sizeof *runs);
    memcpy(runs, item->runs, item->run_count * sizeof *runs);
    if (item->sets <= fewer)
        return false;
    item->sets -= fewer;
    for (size_t r = item->run_count; r-- > 0 && fewer > 0;) {
        int taken = runs[r].count < fewer ? runs[r].count : fewer;
        runs[r].count -= taken;
        fewer -= taken;
    }
    item->runs = runs;
    return fewer == 0;
}

/* Takes rounds off an activity, or minutes where it has none; half of those stay. */
static bool shorten(const struct edit *edit, struct occasion *after)
{
    if (after->rounds > 0) {
        int shorter = (int)((int64_t)after->seconds * edit->fewer / after->rounds);
        after->rounds -= edit->fewer;
        after->seconds -= shorter;
        return after->rounds > 0;
    }
    after->seconds -= edit->fewer * MINUTES * 60;
    return after->seconds * 2 >= edit->occasion->seconds;
}

/* Leaves BLOCK out of the COUNT that AFTER has. */
static bool leave_out(struct block *blocks, struct block *block, struct occasion *after)
{
    size_t behind = after->block_count - (size_t)(block - blocks) - 1;
    memmove(block, block + 1, behind * sizeof *block);
    return --after->block_count > 0;
}

/* Takes sets off a line of BLOCK, a copy of EDIT's, or rounds off the whole of it. */
static bool thin_out(struct run *run, const struct edit *edit, struct block *block)
{
    if (!edit->item) {
        block->sets -= edit->fewer;
        return block->sets >= 1;
    }
    struct item *items = arena_alloc(run->arena, block->item_count * sizeof *items);
    memcpy(items, block->items, block->item_count * sizeof *items);
    block->items = items;
    return drop_sets(run, &items[edit->item - edit->block->items], edit->fewer) && block->sets >= 1;
}

/* EDIT's occasion as it would be; false if the edit cannot be made. */
static bool apply(struct run *run, const struct edit *edit, struct occasion *after)
{
    *after = *edit->occasion;
    if (!edit->block)
        return shorten(edit, after);
    struct block *blocks = arena_alloc(run->arena, after->block_count * sizeof *blocks);
    memcpy(blocks, after->blocks, after->block_count * sizeof *blocks);
    struct block *block = &blocks[edit->block - edit->occasion->blocks];
    after->blocks = blocks;
    if (edit->fewer == WHOLE ? !leave_out(blocks, block, after) : !thin_out(run, edit, block))
        return false;
    after->seconds =
        time_session(blocks, after->block_count, after->athlete, occasion_gym(after), after->date, &time_usual);
    return true;
}

/* --- trying --- */

static const struct range *counted_of(const struct tally *tally, enum counted counted,
                                      enum side side)
{
    return side == SIDE_ALL ? &tally->sum[counted] : &tally->side[counted][side];
}

/* The sums of the days from FIRST to LAST, with AFTER in place of BEFORE. */
static void sum_again(const struct window *window, int first, int last,
                      const struct occasion *before, const struct occasion *after,
                      struct tally *sum)
{
    *sum = (struct tally){0};
    for (size_t i = 0; i < window->count; i++) {
        const struct occasion *occasion = window->occasions[i];
        if (occasion->date < first || occasion->date > last)
            continue;
        if (occasion == before)
            tally_occasion(sum, after);
        else
            tally_add(sum, timeline_tally(window->timeline, window->at + i));
    }
}

/* Whether a floor of the window that was met with BEFORE is broken with AFTER. */
static bool breaks_floor(const struct window *window, const struct occasion *before,
                         const struct occasion *after)
{
    struct tally sum;
    sum_again(window, INT_MIN, INT_MAX, before, after, &sum);
    for (size_t i = 0; i < window->limit_count; i++) {
        const struct layered *layered = window->limits[i].layered;
        const struct limit *limit = layered->limit;
        if (layered->kind == GROUP_MEASURED || limit->bound == LIMIT_AT_MOST)
            continue;
        milli was = window_tally(window)->sum[layered->counted].low, is = sum.sum[layered->counted].low;
        if (is < was && (layered->against != COUNTED_NONE || is < limit->value))
            return true;
    }
    return false;
}

/* The same for the window itself and for the week of the edit. */
static bool breaks_any_floor(const struct window *window, const struct occasion *before,
                             const struct occasion *after)
{
    const struct timeline *timeline = window->timeline;
    size_t week = (size_t)(before->date - timeline->weeks[0].first) / 7;
    return breaks_floor(window, before, after) ||
           (window->scope != SCOPE_WEEK && breaks_floor(&timeline->weeks[week], before, after));
}

/* How little it matters what EDIT takes from, as the plan says: 3 least, 1 most. */
static int keep_of(const struct edit *edit)
{
    return edit->block && edit->block->keep ? edit->block->keep : KEEP_UNSAID;
}

/* Whether EDIT should be suggested rather than BEST: it takes from what matters least, then it takes least, then it
 * leaves most. */
static bool is_better(const struct edit *edit, const struct edit *best)
{
    if (!best->fewer || keep_of(edit) != keep_of(best))
        return !best->fewer || keep_of(edit) > keep_of(best);
    return edit->fewer < best->fewer || (edit->fewer == best->fewer && edit->left > best->left);
}

/* Whether EDIT can be made, suffices and breaks no floor; *ENOUGH says whether more of it is of no use. */
static bool suffices(struct run *run, const struct window *window, const struct suggestion_aim *aim,
                     struct edit *edit, bool *enough)
{
    struct occasion after;
    struct tally sum;
    *enough = !apply(run, edit, &after);
    if (*enough)
        return false;
    sum_again(window, aim->first, aim->last, edit->occasion, &after, &sum);
    edit->left = counted_of(&sum, aim->counted, aim->side)->high;
    *enough = edit->left <= aim->most;
    return *enough && !breaks_any_floor(window, edit->occasion, &after);
}

static void try_edit(struct run *run, const struct window *window, const struct suggestion_aim *aim,
                     struct edit *edit, struct edit *best)
{
    bool enough = false;
    for (edit->fewer = 1; edit->fewer <= MOST_FEWER && !enough; edit->fewer++) {
        if (best->fewer && keep_of(edit) <= keep_of(best) && edit->fewer > best->fewer)
            return;
        struct edit tried = *edit;
        if (suffices(run, window, aim, &tried, &enough) && is_better(&tried, best))
            *best = tried;
    }
}

/* Where time is short, what matters least may be left out whole. */
static void try_without(struct run *run, const struct window *window, const struct suggestion_aim *aim,
                        struct edit *edit, struct edit *best)
{
    bool enough;
    edit->item = NULL;
    edit->fewer = WHOLE;
    if (aim->counted == COUNTED_TIME && edit->block->keep == KEEP_LEAST &&
        suffices(run, window, aim, edit, &enough) && is_better(edit, best))
        *best = *edit;
}

static bool is_care(const struct exercise *exercise)
{
    const unsigned care = 1u << PATTERN_NECK | 1u << PATTERN_SHOULDER_CARE;
    return exercise->patterns & care || exercise->loads[REGION_NECK] > 0;
}

/* Taking rounds off a block shortens all that is done in it. */
static bool holds_care(const struct block *block)
{
    for (size_t i = 0; i < block->item_count; i++)
        if (is_care(block->items[i].exercise))
            return true;
    return false;
}

static void try_occasion(struct run *run, const struct window *window, const struct suggestion_aim *aim,
                         const struct occasion *occasion, struct edit *best)
{
    struct edit edit = {.occasion = occasion};
    /* What asks for no effort is a weigh-in, a journey, a doctor's visit. */
    if (occasion->activity && occasion->rpe.high > 0)
        try_edit(run, window, aim, &edit, best);
    for (size_t b = 0; b < occasion->block_count; b++) {
        edit.block = &occasion->blocks[b];
        edit.item = NULL;
        bool care = holds_care(edit.block), rounds = edit.block->kind == BLOCK_ROUNDS;
        if (rounds && !care)
            try_edit(run, window, aim, &edit, best);
        for (size_t i = 0; !rounds && i < edit.block->item_count; i++) {
            edit.item = &edit.block->items[i];
            if (!is_care(edit.item->exercise))
                try_edit(run, window, aim, &edit, best);
        }
        if (!care)
            try_without(run, window, aim, &edit, best);
    }
}

/* --- telling --- */

static const char *what_words(struct run *run, const struct edit *edit)
{
    if (!edit->block)
        return edit->occasion->activity->name.shown;
    if (edit->item)
        return item_words(run, edit->item);
    if (edit->block->letter)
        return arena_printf(run->arena, "block %c", edit->block->letter);
    return edit->block->item_count ? edit->block->items[0].exercise->name.shown : "the rounds";
}

/* "two sets fewer of A.1 back squat", "10 min less of roadwork" */
static const char *edit_words(struct run *run, const struct edit *edit)
{
    static const char *const counts[] = {"", "one", "two", "three"};
    const char *what = what_words(run, edit);
    if (edit->fewer == WHOLE)
        return arena_printf(run->arena, "leaving out %s (`keep 3`)", what);
    if (!edit->block && edit->occasion->rounds == 0)
        return arena_printf(run->arena, "%d min less of %s", edit->fewer * MINUTES, what);
    return arena_printf(run->arena, "%s %s%s fewer of %s", counts[edit->fewer],
                        edit->item ? "set" : "round", edit->fewer == 1 ? "" : "s", what);
}

static const char *suggestion_words(struct run *run, const struct window *window, const struct edit *edit,
                                    enum counted counted)
{
    static const char *const days[] = {"Monday", "Tuesday",  "Wednesday", "Thursday",
                                       "Friday", "Saturday", "Sunday"};
    int day = edit->occasion->date;
    bool many = edit->fewer > 1 && edit->fewer != WHOLE && (edit->block || edit->occasion->rounds > 0);
    return arena_printf(run->arena, "%s on %s %s %s it to %s", edit_words(run, edit),
                        days[day - date_monday(day)], date_words(run, day),
                        many ? "bring" : "brings", run_amount(run, window, counted, edit->left));
}

/* --- looking --- */

static bool is_among(const struct occasion *occasion, const struct share *shares, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (shares[i].occasion == occasion)
            return true;
    return false;
}

const char *suggest_over(struct run *run, const struct window *window, const struct suggestion_aim *aim)
{
    struct edit best = {0};
    struct share *shares = NULL;
    bool all = window->count <= MOST_OCCASIONS;
    size_t count = all ? 0
                       : tally_shares(run->arena, window->occasions, window->count, aim->counted,
                                      aim->side, &shares);
    count = count < MOST_TRIED ? count : MOST_TRIED;
    for (size_t i = 0; i < window->count; i++) {
        const struct occasion *occasion = window->occasions[i];
        if (occasion->date >= aim->first && occasion->date <= aim->last &&
            (all || is_among(occasion, shares, count)))
            try_occasion(run, window, aim, occasion, &best);
    }
    return best.fewer ? suggestion_words(run, window, &best, aim->counted) : NULL;
}
