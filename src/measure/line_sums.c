/* line_sums.c - what one line of a block adds to a tally. */
#include "figures/effort.h"
#include "measure/demand.h"
#include "measure/kit.h"
#include "measure/limbs.h"
#include "measure/sums.h"
#include "measure/time.h"
#include "model/athlete.h"
#include "model/exercise.h"
#include "model/occasion.h"

static bool has_pattern(const struct exercise *exercise, enum pattern pattern)
{
    return exercise->patterns >> pattern & 1u;
}

/* --- what counts of a set --- */

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
    struct ledger ledger = {.own = occasion->athlete->stance};
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

/* --- a line --- */

int block_times(const struct block *block)
{
    return block->times > 1 ? block->times : 1;
}

void add_item(struct tally *tally, const struct occasion *occasion, const struct block *block, const struct item *item,
              struct worked *worked)
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
