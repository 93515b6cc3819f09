#include "measure/tally.h"

#include <stdlib.h>
#include <string.h>

#include "figures/effort.h"
#include "figures/load.h"
#include "measure/demand.h"
#include "measure/kit.h"
#include "measure/limbs.h"
#include "measure/time.h"
#include "model/activity.h"
#include "model/athlete.h"
#include "model/exercise.h"
#include "model/occasion.h"

/* No plan comes near it, and neither sums nor products of it overflow. */
static const milli MOST = INT64_C(1000000000000000);
static const milli MOST_FACTOR = 1000000000;

static milli least(milli a, milli b)
{
    return a < b ? a : b;
}

static void add(struct range *sum, struct range amount)
{
    if (amount.low == 0 && amount.high == 0)
        return;
    sum->low = least(sum->low + least(amount.low, MOST), MOST);
    sum->high = least(sum->high + least(amount.high, MOST), MOST);
}

/* The same of an amount that is such a sum itself; most of a session's are 0. */
static void add_sum(struct range *sum, const struct range *other)
{
    if (other->high == 0)
        return;
    sum->low = least(sum->low + other->low, MOST);
    sum->high = least(sum->high + other->high, MOST);
}

static void add_same(struct tally *tally, int counted, milli amount)
{
    add(&tally->sum[counted], (struct range){amount, amount});
}

static bool has_pattern(const struct exercise *exercise, enum pattern pattern)
{
    return exercise->patterns >> pattern & 1u;
}

/* --- one run of an item --- */

static struct range done(const struct ledger *ledger, enum unit unit)
{
    struct range sum = {0, 0};
    for (int stance = 0; stance < STANCE_COUNT; stance++)
        add(&sum, ledger->done[unit][stance]);
    return sum;
}

static struct range limb_sum(const struct ledger *ledger, enum limb limb)
{
    struct range sum = ledger_limb(ledger, UNIT_STRIKES, limb);
    add(&sum, ledger_limb(ledger, UNIT_REPS, limb));
    return sum;
}

/* Adds strikes: each limb that a combination uses is one. What lands on no known limb is counted without a side. */
static void add_strikes(struct tally *tally, const struct ledger *ledger, bool all_out)
{
    struct range left_hand = limb_sum(ledger, LIMB_LEFT_HAND);
    struct range right_hand = limb_sum(ledger, LIMB_RIGHT_HAND);
    struct range left_leg = limb_sum(ledger, LIMB_LEFT_LEG);
    struct range right_leg = limb_sum(ledger, LIMB_RIGHT_LEG);
    struct range hands = left_hand, legs = left_leg, left = left_hand, right = right_hand;
    add(&hands, right_hand);
    add(&legs, right_leg);
    add(&left, left_leg);
    add(&right, right_leg);
    struct range all = hands;
    add(&all, legs);
    if (all.high == 0) {
        all = done(ledger, UNIT_STRIKES);
        add(&all, done(ledger, UNIT_REPS));
    }
    const struct {
        int counted;
        struct range sum, left, right;
    } sums[] = {
        {COUNTED_STRIKES, all, left, right},
        {COUNTED_HAND_STRIKES, hands, left_hand, right_hand},
        {COUNTED_LEG_STRIKES, legs, left_leg, right_leg},
        {COUNTED_ALL_OUT_STRIKES, all, left, right},
    };
    for (size_t i = 0; i < (all_out ? 4u : 3u); i++) {
        add(&tally->sum[sums[i].counted], sums[i].sum);
        add(&tally->side[sums[i].counted][SIDE_LEFT], sums[i].left);
        add(&tally->side[sums[i].counted][SIDE_RIGHT], sums[i].right);
    }
}

/* Adds AMOUNT of throws or landings, with its limbs' sides. */
static void add_sided(struct tally *tally, int counted, const struct ledger *ledger, enum unit unit,
                      enum limb left, enum limb right)
{
    add(&tally->sum[counted], done(ledger, unit));
    add(&tally->side[counted][SIDE_LEFT], ledger_limb(ledger, unit, left));
    add(&tally->side[counted][SIDE_RIGHT], ledger_limb(ledger, unit, right));
}

static void add_contacts(struct tally *tally, const struct exercise *exercise,
                         const struct ledger *ledger)
{
    if (exercise_needs(exercise, "rope")) {
        add(&tally->sum[COUNTED_ROPE_CONTACTS], done(ledger, UNIT_CONTACTS));
        return;
    }
    add_sided(tally, COUNTED_CONTACTS, ledger, UNIT_CONTACTS, LIMB_LEFT_LEG, LIMB_RIGHT_LEG);
    if (has_pattern(exercise, PATTERN_JUMP))
        add_sided(tally, COUNTED_CONTACTS, ledger, UNIT_REPS, LIMB_LEFT_LEG, LIMB_RIGHT_LEG);
}

static void add_tonnage(struct tally *tally, const struct tonnage *tonnage)
{
    struct range with_throws = tonnage->lifted, with_body = tonnage->lifted;
    add(&with_throws, tonnage->thrown);
    add(&with_body, tonnage->body);
    add(&tally->sum[COUNTED_TONNAGE], tonnage->lifted);
    add(&tally->sum[COUNTED_TONNAGE_WITH_THROWS], with_throws);
    add(&tally->sum[COUNTED_TONNAGE_WITH_BODY], with_body);
    add(&with_throws, tonnage->body);
    add(&tally->sum[COUNTED_TONNAGE_WITH_ALL], with_throws);
    for (int gap = 0; gap < GAP_COUNT; gap++)
        tally->left_out[gap] += tonnage->left_out[gap];
    tally->body_unknown += tonnage->body_unknown;
}

static void add_lifts(struct tally *tally, const struct occasion *occasion,
                      const struct exercise *exercise, const struct set_run *run, struct range reps)
{
    add(&tally->sum[COUNTED_LIFTS], reps);
    struct range percent = run_percent(occasion->athlete, exercise, run, occasion->date);
    if (percent.high > 0) {
        add(&tally->sum[COUNTED_LIFTS_BELOW_70 + (int)effort_zone_of(percent.high)], reps);
        tally->zoned += least(reps.high, MOST_FACTOR) * least(range_middle(percent), MOST_FACTOR) / 1000;
    }
    if (run_is_heavy(occasion->athlete, exercise, run, occasion->date))
        add(&tally->sum[COUNTED_HEAVY_LIFTS], reps);
    if (run_is_one_rep_test(occasion->athlete, exercise, run, occasion->date))
        add_same(tally, COUNTED_ONE_REP_TESTS, (milli)run->count * 1000);
}

/* Words of the vocabularies that a session has worked on, as bits. */
struct worked {
    unsigned patterns, regions, kinds;
};

/* What trains a body region. A burst on the bag and a round with the rope load it too, but no source that counts sets
 * of a region counts those. */
static bool trains_regions(const struct exercise *exercise)
{
    return exercise->kind != EXERCISE_SKILL && exercise->kind != EXERCISE_CONDITIONING;
}

static void add_sets(struct tally *tally, const struct exercise *exercise, milli sets,
                     struct worked *worked)
{
    add_same(tally, COUNTED_KIND_SETS + (int)exercise->kind, sets);
    worked->kinds |= 1u << exercise->kind;
    for (int p = 0; exercise->patterns >> p; p++)
        if (has_pattern(exercise, (enum pattern)p))
            add_same(tally, COUNTED_PATTERN_SETS + p,
                     p == (int)exercise->pattern ? sets : sets / 2);
    worked->patterns |= exercise->patterns;
    if (!trains_regions(exercise))
        return;
    add_same(tally, COUNTED_SETS, sets);
    for (int r = 0; r < REGION_COUNT; r++) {
        if (exercise->loads[r] == 0)
            continue;
        add_same(tally, COUNTED_REGION_SETS + r, sets * exercise->loads[r] / 1000);
        if (exercise->loads[r] >= 1000)
            worked->regions |= 1u << r;
    }
}

static bool is_timed(const struct set_run *run)
{
    return run->part_count > 0 && run->parts[0].unit == UNIT_SECONDS && !run->hold;
}

/* Whether sets of RUN land on limbs that a tally keeps apart, or are contacts with the ground. */
static bool lands_on_limbs(const struct exercise *exercise, const struct set_run *run)
{
    const unsigned wanted = 1u << PATTERN_STRIKE | 1u << PATTERN_THROW | 1u << PATTERN_JUMP;
    bool lands = exercise->patterns & wanted;
    for (size_t i = 0; i < run->part_count && !lands; i++)
        lands = run->parts[i].unit == UNIT_CONTACTS;
    return lands;
}

static void add_by_limb(struct tally *tally, const struct occasion *occasion,
                        const struct item *item, const struct set_run *run, int times)
{
    const struct exercise *exercise = item->exercise;
    struct ledger ledger = {.own = occasion->athlete ? occasion->athlete->stance : STANCE_UNKNOWN};
    ledger_add(&ledger, item, run, times);
    if (has_pattern(exercise, PATTERN_STRIKE)) {
        add_strikes(tally, &ledger, run->load.effort == EFFORT_ALL_OUT);
        if (is_timed(run))
            tally->uncounted[UNCOUNTED_STRIKES] += (int64_t)times * run->seconds;
    }
    if (has_pattern(exercise, PATTERN_THROW))
        add_sided(tally, COUNTED_THROWS, &ledger, UNIT_REPS, LIMB_LEFT_HAND, LIMB_RIGHT_HAND);
    add_contacts(tally, exercise, &ledger);
}

static void add_run(struct tally *tally, const struct occasion *occasion, const struct block *block,
                    const struct item *item, const struct set_run *run, struct worked *worked)
{
    const struct exercise *exercise = item->exercise;
    int times = time_run_count(block, item, run);
    if (times <= 0)
        return;
    tally->open += run_is_open(run) || block->kind == BLOCK_AS_MANY ? times : 0;
    if (lands_on_limbs(exercise, run))
        add_by_limb(tally, occasion, item, run, times);
    if (run->hold || exercise->kind == EXERCISE_HOLD)
        add(&tally->sum[COUNTED_HOLD_SECONDS], run_done(run, exercise, UNIT_SECONDS, times));
    add(&tally->sum[COUNTED_METRES], run_done(run, exercise, UNIT_METRES, times));

    struct range reps = run_done(run, exercise, UNIT_REPS, times);
    struct tonnage tonnage = tonnage_of(exercise, run, times);
    add_tonnage(tally, &tonnage);
    if (exercise->kind == EXERCISE_STRENGTH)
        add_lifts(tally, occasion, exercise, run, reps);
    bool working = exercise->kind != EXERCISE_MOBILITY && exercise->kind != EXERCISE_WARM_UP &&
                   run->load.effort != EFFORT_EASY;
    if (working)
        add_sets(tally, exercise, (milli)times * 1000, worked);
}

/* --- blocks, sessions, activities --- */

static int block_times(const struct block *block)
{
    return block->times > 1 ? block->times : 1;
}

static void add_item(struct tally *tally, const struct occasion *occasion,
                     const struct block *block, const struct item *item, struct worked *worked)
{
    for (size_t i = 0; i < item->run_count; i++)
        add_run(tally, occasion, block, item, &item->runs[i], worked);
    /* A round on the bag is one round, however many exercises share it: the first of them counts
     * it. */
    if (block->kind != BLOCK_ROUNDS || item->filler || !exercise_needs(item->exercise, "heavy bag"))
        return;
    for (const struct item *other = block->items; other < item; other++)
        if (!other->filler && other->round == item->round && exercise_needs(other->exercise, "heavy bag"))
            return;
    add_same(tally, COUNTED_BAG_ROUNDS,
             (milli)(item->round ? 1 : block->sets) * block_times(block) * 1000);
}

/* What belongs to a block as a whole. */
static void add_block(struct tally *tally, const struct block *block)
{
    if (block->kind == BLOCK_ROUNDS)
        add_same(tally, COUNTED_CLOCK_ROUNDS, (milli)block->sets * block_times(block) * 1000);
}

static void add_words(struct tally *tally, int first, size_t count, unsigned bits)
{
    for (size_t i = 0; i < count; i++)
        if (bits >> i & 1u)
            add_same(tally, first + (int)i, 1000);
}

/* Session load of both ends. */
static struct range load_of(struct range rpe, int seconds)
{
    return (struct range){load_session(least(rpe.low, MOST_FACTOR), seconds),
                          load_session(least(rpe.high, MOST_FACTOR), seconds)};
}

static void add_load(struct tally *tally, const struct occasion *occasion)
{
    const struct outcome *outcome = &occasion->outcome;
    struct range rpe = outcome->rpe.high > 0 ? outcome->rpe : occasion->rpe;
    int seconds = outcome->timed ? outcome->seconds : occasion->seconds;
    if (occasion->rpe.low > 0)
        add(&tally->sum[COUNTED_SESSION_LOAD], load_of(occasion->rpe, occasion->seconds));
    else
        tally->uncounted[UNCOUNTED_LOAD] += occasion->seconds;
    if (rpe.low > 0)
        add(&tally->done, load_of(rpe, seconds));
    else
        tally->done_uncounted += seconds;
    tally->logged |= outcome->logged;
}

/* What belongs to an occasion as a whole. */
static void add_whole(struct tally *tally, const struct occasion *occasion, struct worked worked)
{
    const struct activity *activity = occasion->activity;
    milli rounds = (milli)occasion->rounds * 1000;
    milli seconds = (milli)occasion->seconds * 1000;
    add_same(tally, COUNTED_TIME, seconds);
    add_load(tally, occasion);
    if (!activity) {
        add_same(tally, COUNTED_SESSIONS, 1000);
        add_words(tally, COUNTED_PATTERN_SESSIONS, PATTERN_COUNT, worked.patterns);
        add_words(tally, COUNTED_REGION_SESSIONS, REGION_COUNT, worked.regions);
        add_words(tally, COUNTED_KIND_SESSIONS, EXERCISE_KIND_COUNT, worked.kinds);
        return;
    }
    add(&tally->sum[COUNTED_METRES], occasion->metres);
    add_same(tally, COUNTED_CLOCK_ROUNDS, rounds);
    if (activity->bag)
        add_same(tally, COUNTED_BAG_ROUNDS, rounds);
    if (activity->sparring) {
        add_same(tally, COUNTED_SPARRING_ROUNDS, rounds);
        add_same(tally, COUNTED_SPARRING_TIME, seconds);
        if (!rounds)
            tally->uncounted[UNCOUNTED_SPARRING] += occasion->seconds;
    }
    if (activity->strikes || activity->sparring || activity->bag)
        tally->uncounted[UNCOUNTED_STRIKES] += occasion->seconds;
}

/* What may be left out adds nothing at the low end. */
static void make_optional(struct tally *tally)
{
    for (int i = 0; i < COUNTED_COUNT; i++)
        tally->sum[i].low = 0;
    for (int i = 0; i < COUNTED_SIDED_COUNT; i++)
        tally->side[i][SIDE_LEFT].low = tally->side[i][SIDE_RIGHT].low = 0;
    if (!tally->logged)
        tally->done.low = 0;
}

static void tally_all(struct tally *tally, const struct occasion *occasion)
{
    struct worked worked = {0};
    for (size_t b = 0; b < occasion->block_count; b++) {
        const struct block *block = &occasion->blocks[b];
        add_block(tally, block);
        for (size_t i = 0; i < block->item_count; i++)
            add_item(tally, occasion, block, &block->items[i], &worked);
    }
    add_whole(tally, occasion, worked);
}

void tally_item(struct tally *tally, const struct occasion *occasion, const struct block *block,
                const struct item *item)
{
    struct worked worked = {0};
    add_item(tally, occasion, block, item, &worked);
}

void tally_occasion(struct tally *tally, const struct occasion *occasion)
{
    if (!occasion->optional) {
        tally_all(tally, occasion);
        return;
    }
    struct tally alone = {0};
    tally_all(&alone, occasion);
    make_optional(&alone);
    tally_add(tally, &alone);
}

void tally_add(struct tally *tally, const struct tally *other)
{
    for (int i = 0; i < COUNTED_COUNT; i++)
        add_sum(&tally->sum[i], &other->sum[i]);
    for (int i = 0; i < COUNTED_SIDED_COUNT; i++) {
        add_sum(&tally->side[i][SIDE_LEFT], &other->side[i][SIDE_LEFT]);
        add_sum(&tally->side[i][SIDE_RIGHT], &other->side[i][SIDE_RIGHT]);
    }
    for (int i = 0; i < UNCOUNTED_COUNT; i++)
        tally->uncounted[i] += other->uncounted[i];
    for (int i = 0; i < GAP_COUNT; i++)
        tally->left_out[i] += other->left_out[i];
    tally->body_unknown += other->body_unknown;
    tally->zoned += other->zoned;
    tally->open += other->open;
    add_sum(&tally->done, &other->done);
    tally->done_uncounted += other->done_uncounted;
    tally->logged |= other->logged;
}

struct range tally_load(const struct tally *tally)
{
    return tally->logged ? tally->done : tally->sum[COUNTED_SESSION_LOAD];
}

milli tally_intensity(const struct tally *tally)
{
    milli lifts = 0;
    for (int zone = COUNTED_LIFTS_BELOW_70; zone <= COUNTED_LIFTS_FROM_90; zone++)
        lifts += tally->sum[zone].high;
    return lifts >= 1000 ? (tally->zoned + lifts / 2000) / (lifts / 1000) : 0;
}

int64_t tally_load_uncounted(const struct tally *tally)
{
    return tally->logged ? tally->done_uncounted : tally->uncounted[UNCOUNTED_LOAD];
}

milli tally_highest_done(const struct tally *const *weeks, size_t count)
{
    milli most = 0;
    for (size_t i = 0; i < count; i++) {
        if (weeks[i]->done_uncounted > 0)
            return 0;
        most = weeks[i]->done.high > most ? weeks[i]->done.high : most;
    }
    return most;
}

int64_t tally_uncounted(const struct tally *tally, enum counted counted)
{
    switch (counted_group(counted)) {
    case GROUP_STRIKES:
        return tally->uncounted[UNCOUNTED_STRIKES];
    case GROUP_LOAD:
        return tally->uncounted[UNCOUNTED_LOAD];
    case GROUP_SPARRING:
        return counted == COUNTED_SPARRING_ROUNDS ? tally->uncounted[UNCOUNTED_SPARRING] : 0;
    default:
        return 0;
    }
}

/* --- which lines add up --- */

struct shares {
    struct arena *arena;
    struct share *items;
    size_t count, capacity;
    enum counted counted;
    enum side side;
    bool done; /* the session load as it turned out */
};

static void add_share(struct shares *shares, const struct tally *tally,
                      const struct occasion *occasion, const struct block *block,
                      const struct item *item)
{
    struct span span = item ? item->span : block ? block->span : occasion->span;
    struct range amount = shares->done               ? tally->done
                          : shares->side == SIDE_ALL ? tally->sum[shares->counted]
                                                     : tally->side[shares->counted][shares->side];
    if (amount.high == 0)
        return;
    if (occasion->optional && !(shares->done && tally->logged))
        amount.low = 0;
    for (size_t i = 0; i < shares->count; i++) {
        struct share *share = &shares->items[i];
        if (memcmp(&share->span, &span, sizeof span) != 0)
            continue;
        add(&share->amount, amount);
        share->times++;
        return;
    }
    shares->items = arena_grow(shares->arena, shares->items, shares->count, &shares->capacity,
                               sizeof *shares->items);
    shares->items[shares->count++] = (struct share){.span = span,
                                                    .amount = amount,
                                                    .occasion = occasion,
                                                    .block = block,
                                                    .item = item,
                                                    .times = 1};
}

/* Time is the blocks' if one session is asked about, otherwise the occasions'. */
static void share_time(struct shares *shares, const struct occasion *occasion, bool alone)
{
    if (!alone || !occasion->block_count) {
        struct tally tally = {0};
        add_same(&tally, COUNTED_TIME, (milli)occasion->seconds * 1000);
        add_share(shares, &tally, occasion, NULL, NULL);
        return;
    }
    for (size_t b = 0; b < occasion->block_count; b++) {
        struct tally tally = {0};
        add_same(&tally, COUNTED_TIME, (milli)occasion->blocks[b].seconds * 1000);
        add_share(shares, &tally, occasion, &occasion->blocks[b], NULL);
    }
}

static void share_lines(struct shares *shares, const struct occasion *occasion)
{
    struct worked worked = {0};
    for (size_t b = 0; b < occasion->block_count; b++) {
        const struct block *block = &occasion->blocks[b];
        struct tally heading = {0};
        add_block(&heading, block);
        add_share(shares, &heading, occasion, block, NULL);
        for (size_t i = 0; i < block->item_count; i++) {
            struct tally line = {0};
            add_item(&line, occasion, block, &block->items[i], &worked);
            add_share(shares, &line, occasion, block, &block->items[i]);
        }
    }
    struct tally whole = {0};
    add_whole(&whole, occasion, worked);
    add_share(shares, &whole, occasion, NULL, NULL);
}

static int compare_shares(const void *left, const void *right)
{
    const struct share *a = left, *b = right;
    if (a->amount.high != b->amount.high)
        return a->amount.high > b->amount.high ? -1 : 1;
    if (a->span.file != b->span.file)
        return a->span.file < b->span.file ? -1 : 1;
    return a->span.start < b->span.start ? -1 : a->span.start > b->span.start;
}

static size_t sort_shares(struct shares *found, struct share **shares)
{
    if (found->count > 1)
        qsort(found->items, found->count, sizeof *found->items, compare_shares);
    *shares = found->items;
    return found->count;
}

size_t tally_shares(struct arena *arena, const struct occasion *const *occasions, size_t count,
                    enum counted counted, enum side side, struct share **shares)
{
    struct shares found = {.arena = arena, .counted = counted, .side = side};
    for (size_t i = 0; i < count; i++) {
        if (counted == COUNTED_TIME)
            share_time(&found, occasions[i], count == 1);
        else
            share_lines(&found, occasions[i]);
    }
    return sort_shares(&found, shares);
}

size_t tally_shares_done(struct arena *arena, const struct occasion *const *occasions, size_t count,
                         struct share **shares)
{
    struct shares found = {.arena = arena, .counted = COUNTED_SESSION_LOAD, .side = SIDE_ALL, .done = true};
    for (size_t i = 0; i < count; i++) {
        struct tally whole = {0};
        add_load(&whole, occasions[i]);
        add_share(&found, &whole, occasions[i], NULL, NULL);
    }
    return sort_shares(&found, shares);
}
