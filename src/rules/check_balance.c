/* Left against right: what each pair of limbs did over a fortnight. Fighters are lopsided by trade, so strikes are only
 * described, and strength work has a wide band. */
#include <stdlib.h>
#include <string.h>

#include "measure/hold.h"
#include "measure/limbs.h"
#include "measure/time.h"
#include "model/athlete.h"
#include "model/exercise.h"
#include "rules/checks.h"
#include "rules/settings.h"
#include "source/span_order.h"

struct pair {
    enum limb left, right;
    const char *name;
};

static const struct pair pairs[] = {
    {LIMB_LEFT_HAND, LIMB_RIGHT_HAND, "hand"},
    {LIMB_LEFT_LEG, LIMB_RIGHT_LEG, "leg"},
    {LIMB_LEFT_HIP, LIMB_RIGHT_HIP, "hip"},
};

enum { PAIR_COUNT = sizeof pairs / sizeof pairs[0] };

/* Which work a check looks at. */
struct kind_of_work {
    enum counted counted; /* of its setting */
    const char *words;
    bool strikes;
    size_t pair_count; /* a strike's hip goes with its hand or leg: it is not reported twice */
};

static const struct kind_of_work strength_work = {COUNTED_STRENGTH_BALANCE, "strength work", false,
                                                  PAIR_COUNT};
static const struct kind_of_work strike_work = {COUNTED_STRIKE_BALANCE, "strikes", true, 2};

static bool is_meant(const struct kind_of_work *work, const struct exercise *exercise)
{
    bool strike = exercise->patterns >> PATTERN_STRIKE & 1u;
    if (work->strikes)
        return strike;
    return !strike && (exercise->kind == EXERCISE_STRENGTH || exercise->kind == EXERCISE_POWER);
}

/* Adds what ITEM does, if it is the right kind of work. */
static void add_item(struct ledger *ledger, const struct kind_of_work *work,
                     const struct block *block, const struct item *item)
{
    if (!is_meant(work, item->exercise))
        return;
    for (size_t r = 0; r < item->run_count; r++)
        ledger_add(ledger, item, &item->runs[r], time_run_count(block, item, &item->runs[r]));
}

/* Repetitions and strikes of one limb: the bottom and the top of its ranges lie on the same side of
 * any fair balance, so that the top speaks for both. */
static milli count_of(const struct ledger *ledger, enum limb limb)
{
    return ledger_limb(ledger, UNIT_REPS, limb).high + ledger_limb(ledger, UNIT_STRIKES, limb).high;
}

static struct week_done add_week(const struct kind_of_work *work, const struct window *week)
{
    struct ledger ledger = {.own = week->athlete->stance};
    for (size_t o = 0; o < week->count; o++)
        for (size_t b = 0; b < week->occasions[o]->block_count; b++) {
            const struct block *block = &week->occasions[o]->blocks[b];
            for (size_t i = 0; i < block->item_count; i++)
                add_item(&ledger, work, block, &block->items[i]);
        }
    struct week_done done = {.week = week};
    for (int limb = 0; limb < LIMB_COUNT; limb++)
        done.limbs[limb] = count_of(&ledger, (enum limb)limb);
    return done;
}

/* --- which lines lean --- */

struct lean {
    struct span span;
    const struct item *item;
    milli amount; /* more on the side that has too much than on the other; below 0 if it leans the other way */
};

struct leans {
    struct lean *items;
    size_t count, capacity;
};

static void add_lean(struct run *run, struct leans *leans, const struct item *item, milli amount)
{
    for (size_t i = 0; i < leans->count; i++)
        if (memcmp(&leans->items[i].span, &item->span, sizeof item->span) == 0) {
            leans->items[i].amount += amount;
            return;
        }
    leans->items =
        arena_grow(run->arena, leans->items, leans->count, &leans->capacity, sizeof *leans->items);
    leans->items[leans->count++] = (struct lean){item->span, item, amount};
}

static void gather_leans(struct run *run, struct leans *leans, const struct kind_of_work *work,
                         const struct window *window, enum limb more, enum limb less)
{
    for (size_t o = 0; o < window->count; o++)
        for (size_t b = 0; b < window->occasions[o]->block_count; b++) {
            const struct block *block = &window->occasions[o]->blocks[b];
            for (size_t i = 0; i < block->item_count; i++) {
                struct ledger ledger = {.own = window->athlete->stance};
                add_item(&ledger, work, block, &block->items[i]);
                milli here = count_of(&ledger, more), there = count_of(&ledger, less);
                if (here || there)
                    add_lean(run, leans, &block->items[i], here - there);
            }
        }
}

static int compare_leans(const void *left, const void *right)
{
    const struct lean *a = left, *b = right;
    if (a->amount != b->amount)
        return a->amount > b->amount ? -1 : 1;
    return span_order(a->span, b->span);
}

static void note_leans(struct run *run, struct finding *finding, const struct leans *leans)
{
    for (size_t i = 0; i < leans->count && leans->items[i].amount > 0; i++)
        diag_summand(run->diag, finding, leans->items[i].span, "%s more on that side from %s",
                     counted_amount(run->arena, COUNTED_STRIKES, leans->items[i].amount),
                     item_words(run, leans->items[i].item));
}

/* --- the checks --- */

/* Whether LEFT of LEFT + RIGHT lies outside the band. */
static bool outside(milli left, milli right, const struct setting *setting)
{
    milli whole = left + right;
    return whole > 0 &&
           (left * 100000 < setting->value * whole || left * 100000 > setting->top * whole);
}

/* Thousandths of a per cent, rounded so that they are below 0 whenever the figure is outside the band. */
static milli balance_left(milli left, milli right, const struct setting *setting)
{
    milli whole = left + right;
    milli above = left * 100000 - setting->value * whole;
    milli below = setting->top * whole - left * 100000;
    milli least = above < below ? above : below;
    return least < 0 ? (least - whole + 1) / whole : least / whole;
}

/* The window of the week of WINDOW and the one before it. */
static struct window fortnight(const struct window *window, size_t index)
{
    const struct window *before = &window->timeline->weeks[index - 1];
    struct window both = *window;
    both.first = before->first;
    both.occasions = before->occasions;
    both.count = before->count + window->count;
    both.at = before->at;
    return both;
}

/* The side that has too much is not always the one that has more: of a band from 60 to 70 % left, 55 % are too many right. */
static void report_pair(struct run *run, const struct rule *rule, const struct window *both,
                        const struct kind_of_work *work, const struct pair *pair, milli left,
                        milli right, const struct setting *setting)
{
    bool leans_left = left * 100000 > setting->top * (left + right);
    struct leans leans = {0};
    gather_leans(run, &leans, work, both, leans_left ? pair->left : pair->right,
                 leans_left ? pair->right : pair->left);
    qsort(leans.items, leans.count, sizeof *leans.items, compare_leans);
    milli most = leans_left ? left : right;
    milli percent = most * 100000 / (left + right);
    milli allowed = leans_left ? setting->top : 100000 - setting->value;
    struct about about = {.window = both,
                          .severity = setting->severity,
                          .span = leans.items[0].span,
                          .subject_number = pair - pairs,
                          .weight = percent,
                          .figure = percent};
    struct finding *finding = run_report(
        run, rule, &about,
        "%s: %s of the %s of the %ss is on the %s in the two weeks from %s (%s of %s), at most %s",
        both->athlete->name.shown, counted_amount(run->arena, work->counted, percent), work->words,
        pair->name, leans_left ? "left" : "right", date_words(run, both->first),
        counted_amount(run->arena, COUNTED_STRIKES, most),
        counted_amount(run->arena, COUNTED_STRIKES, left + right),
        counted_amount(run->arena, work->counted, allowed));
    if (!finding)
        return;
    note_leans(run, finding, &leans);
    run_note_setting(run, finding, setting);
}

static void check_balance(struct run *run, const struct rule *rule, const struct window *window,
                          const struct kind_of_work *work)
{
    size_t index = (size_t)(window->first - window->timeline->weeks[0].first) / 7;
    if (index == 0 || window->count == 0)
        return;
    struct window both = fortnight(window, index);
    const struct window *last = &window->timeline->weeks[index - 1];
    struct week_done *known = work->strikes ? &run->strikes : &run->strength;
    struct week_done before = known->week == last ? *known : add_week(work, last);
    *known = add_week(work, window);
    struct setting setting = run_setting(run, window, work->counted);
    for (size_t p = 0; p < work->pair_count; p++) {
        milli left = before.limbs[pairs[p].left] + known->limbs[pairs[p].left];
        milli right = before.limbs[pairs[p].right] + known->limbs[pairs[p].right];
        if (left + right > 0)
            run_margin(run, window, setting.limit, work->counted, SIDE_ALL,
                       balance_left(left, right, &setting));
        if (outside(left, right, &setting))
            report_pair(run, rule, &both, work, &pairs[p], left, right, &setting);
    }
}

/* Nothing is asked of days away, and no balance of somebody who leaves one side out. */
static bool is_uneven_of_itself(const struct run *run, const struct window *window)
{
    const struct athlete *athlete = window->athlete;
    for (size_t i = 0; i < athlete->avoid_count; i++) {
        const struct avoid *avoid = &athlete->avoids[i];
        if (avoid->sides && avoid->since <= window->last && (!avoid->ended || avoid->ended > window->first))
            return true;
    }
    return athlete_away(run->programme, athlete, window->first, window->last);
}

void check_strength_balance(struct run *run, const struct rule *rule, const struct window *window)
{
    if (is_uneven_of_itself(run, window))
        return;
    check_balance(run, rule, window, &strength_work);
}

void check_strike_balance(struct run *run, const struct rule *rule, const struct window *window)
{
    if (is_uneven_of_itself(run, window))
        return;
    check_balance(run, rule, window, &strike_work);
}
