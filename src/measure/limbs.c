#include "measure/limbs.h"

#include "measure/time.h"
#include "model/athlete.h"
#include "model/exercise.h"
#include "model/occasion.h"

/* No plan comes near it, and sums of it do not overflow. */
static const milli MOST = INT64_C(1000000000000000);

/* --- which limbs one repetition lands on --- */

enum { LEFT = 1, RIGHT = 2 }; /* sides, as bits */

/* Sets of limbs are bits 1 << enum limb. */
static unsigned limb_set(unsigned sides, enum limb left, enum limb right)
{
    return (sides & LEFT ? 1u << left : 0u) | (sides & RIGHT ? 1u << right : 0u);
}

/* The sides on which the limb works that BITS of WORKERS name as lead, rear, or neither. */
static unsigned worker_sides(unsigned workers, unsigned lead, unsigned rear, unsigned either,
                             unsigned lead_side, unsigned either_sides)
{
    unsigned sides = 0;

    if (workers & lead)
        sides |= lead_side;
    if (workers & rear)
        sides |= (LEFT | RIGHT) & ~lead_side;
    if (workers & either)
        sides |= either_sides;
    return sides;
}

/* The limbs of WORKERS: lead is LEAD_SIDE, and what is neither lead nor rear works on
 * EITHER_SIDES. */
static unsigned workers_limbs(unsigned workers, unsigned lead_side, unsigned either_sides)
{
    unsigned hands = worker_sides(workers, WORKER_LEAD_HAND, WORKER_REAR_HAND, WORKER_HAND,
                                  lead_side, either_sides);
    unsigned legs = worker_sides(workers, WORKER_LEAD_LEG, WORKER_REAR_LEG, WORKER_LEG, lead_side,
                                 either_sides);
    unsigned hips = worker_sides(workers, WORKER_LEAD_HIP, WORKER_REAR_HIP, WORKER_HIP, lead_side,
                                 either_sides);

    if (hips == 0)
        hips = hands | legs;
    return limb_set(hands, LIMB_LEFT_HAND, LIMB_RIGHT_HAND) |
           limb_set(legs, LIMB_LEFT_LEG, LIMB_RIGHT_LEG) |
           limb_set(hips, LIMB_LEFT_HIP, LIMB_RIGHT_HIP);
}

static const unsigned LEAD_OR_REAR = WORKER_LEAD_HAND | WORKER_REAR_HAND | WORKER_LEAD_LEG |
                                     WORKER_REAR_LEG | WORKER_LEAD_HIP | WORKER_REAR_HIP;

/* The side that leads when SIDE does the work: a dose by side says which limb works, not the
 * stance. */
static unsigned lead_side_of(unsigned workers, unsigned side)
{
    const unsigned rear_limbs = WORKER_REAR_HAND | WORKER_REAR_LEG;
    unsigned other = (LEFT | RIGHT) & ~side;

    if (workers & (WORKER_LEAD_HAND | WORKER_LEAD_LEG))
        return side;
    return workers & (rear_limbs | WORKER_REAR_HIP) ? other : side;
}

/* The limbs of WORKERS in a stance. */
static unsigned limbs_in_stance(unsigned workers, enum stance stance)
{
    return workers_limbs(workers, stance == STANCE_ORTHODOX ? LEFT : RIGHT, LEFT | RIGHT);
}

unsigned part_limbs(const struct exercise *exercise, const struct part *part, enum stance own, unsigned side)
{
    unsigned workers = part->workers ? part->workers : exercise->workers;
    switch (part->side) {
    case DOSE_ORTHODOX:
        return limbs_in_stance(workers, STANCE_ORTHODOX);
    case DOSE_SOUTHPAW:
        return limbs_in_stance(workers, STANCE_SOUTHPAW);
    case DOSE_LEFT:
        return workers_limbs(workers, lead_side_of(workers, LEFT), LEFT);
    case DOSE_RIGHT:
        return workers_limbs(workers, lead_side_of(workers, RIGHT), RIGHT);
    case DOSE_EACH_SIDE:
        return workers_limbs(workers, lead_side_of(workers, side), side);
    case DOSE_EACH_WAY:
        return 0;
    case DOSE_WHOLE:
        break;
    }
    if (!(workers & LEAD_OR_REAR))
        return workers_limbs(workers, lead_side_of(workers, side), side);
    return own == STANCE_UNKNOWN ? 0 : limbs_in_stance(workers, own);
}

/* --- adding up --- */

static struct range range_times(struct range range, int64_t times)
{
    enum { FEW = 1000000, SMALL = 1000000000 }; /* their product is MOST: what plans contain needs no division */
    struct range product = range;

    if (times <= FEW && range.low <= SMALL && range.high <= SMALL)
        return (struct range){range.low * times, range.high * times};
    product.low = times && range.low > MOST / times ? MOST : range.low * times;
    product.high = times && range.high > MOST / times ? MOST : range.high * times;
    return product;
}

static void range_add(struct range *sum, struct range range)
{
    sum->low = sum->low + range.low > MOST ? MOST : sum->low + range.low;
    sum->high = sum->high + range.high > MOST ? MOST : sum->high + range.high;
}

/* What works in one repetition, as bits of enum worker; AGAIN does so a second time. */
struct crew {
    unsigned workers, again;
};

static void add_to_limbs(struct ledger *ledger, enum unit unit, enum stance stance,
                         unsigned limb_bits, struct range amount)
{
    for (int limb = 0; limb_bits >> limb; limb++)
        if (limb_bits >> limb & 1u)
            range_add(&ledger->limbs[unit][limb][stance], amount);
}

static void add_limbs(struct ledger *ledger, enum unit unit, enum stance stance, struct crew crew,
                      unsigned lead_side, unsigned either_sides, struct range amount)
{
    add_to_limbs(ledger, unit, stance, workers_limbs(crew.workers, lead_side, either_sides), amount);
    if (crew.again)
        add_to_limbs(ledger, unit, stance, workers_limbs(crew.again, lead_side, either_sides),
                     amount);
    range_add(&ledger->done[unit][stance], amount);
}

static void add_in_stance(struct ledger *ledger, enum unit unit, enum stance stance,
                          struct crew crew, struct range amount)
{
    unsigned lead_side = stance == STANCE_ORTHODOX ? LEFT : RIGHT;

    add_limbs(ledger, unit, stance, crew, lead_side, LEFT | RIGHT, amount);
}

static void add_on_side(struct ledger *ledger, enum unit unit, unsigned side, struct crew crew,
                        struct range amount)
{
    add_limbs(ledger, unit, STANCE_UNKNOWN, crew, lead_side_of(crew.workers, side), side, amount);
}

/* A dose that names neither stance nor side. */
static void add_whole(struct ledger *ledger, enum unit unit, struct crew crew, struct range amount)
{
    if (!(crew.workers & LEAD_OR_REAR)) {
        add_on_side(ledger, unit, LEFT | RIGHT, crew, amount);
    } else if (ledger->own != STANCE_UNKNOWN) {
        add_in_stance(ledger, unit, ledger->own, crew, amount);
    } else {
        range_add(&ledger->done[unit][STANCE_UNKNOWN], amount);
        range_add(&ledger->unplaced[unit], amount);
    }
}

static void add_part(struct ledger *ledger, const struct exercise *exercise,
                     const struct part *part, struct range amount)
{
    struct crew crew = {exercise->workers, exercise->again};
    if (part->workers)
        crew = (struct crew){part->workers, 0};
    switch (part->side) {
    case DOSE_ORTHODOX:
        add_in_stance(ledger, part->unit, STANCE_ORTHODOX, crew, amount);
        return;
    case DOSE_SOUTHPAW:
        add_in_stance(ledger, part->unit, STANCE_SOUTHPAW, crew, amount);
        return;
    case DOSE_EACH_SIDE:
        add_on_side(ledger, part->unit, LEFT, crew, amount);
        add_on_side(ledger, part->unit, RIGHT, crew, amount);
        return;
    case DOSE_LEFT:
        add_on_side(ledger, part->unit, LEFT, crew, amount);
        return;
    case DOSE_RIGHT:
        add_on_side(ledger, part->unit, RIGHT, crew, amount);
        return;
    case DOSE_EACH_WAY:
        range_add(&ledger->done[part->unit][STANCE_UNKNOWN], range_times(amount, exercise->ways));
        return;
    case DOSE_WHOLE:
        break;
    }
    add_whole(ledger, part->unit, crew, amount);
}

void ledger_add(struct ledger *ledger, const struct item *item, const struct set_run *run,
                int times)
{
    int64_t repeats = run->repeats > 1 ? run->repeats : 1;

    if (times <= 0)
        return;
    ledger->open |= run_is_open(run);
    for (size_t i = 0; i < run->part_count; i++) {
        const struct part *part = &run->parts[i];
        add_part(ledger, item->exercise, part, range_times(part->amount, times * repeats));
    }
}

bool run_is_open(const struct set_run *run)
{
    for (size_t i = 0; i < run->part_count; i++)
        if (run->parts[i].max && run->parts[i].amount.high == 0)
            return true;
    return false;
}

/* How often PART's amount is done: on one side after the other, or in each direction. */
static int64_t part_times(const struct exercise *exercise, const struct part *part)
{
    switch (part->side) {
    case DOSE_EACH_SIDE:
        return 2;
    case DOSE_EACH_WAY:
        return exercise->ways;
    default:
        return 1;
    }
}

struct range run_done(const struct set_run *run, const struct exercise *exercise, enum unit unit,
                      int times)
{
    int64_t repeats = run->repeats > 1 ? run->repeats : 1;
    struct range sum = {0, 0};

    for (size_t i = 0; i < run->part_count; i++) {
        const struct part *part = &run->parts[i];
        if (part->unit == unit)
            range_add(&sum, range_times(part->amount,
                                        times * repeats * part_times(exercise, part)));
    }
    return sum;
}

/* What may be left out adds nothing at the low end: LEDGER's low ends are again those of BEFORE. */
static void restore_lows(struct ledger *ledger, const struct ledger *before)
{
    for (int unit = 0; unit < UNIT_COUNT; unit++) {
        for (int stance = 0; stance < STANCE_COUNT; stance++) {
            for (int limb = 0; limb < LIMB_COUNT; limb++)
                ledger->limbs[unit][limb][stance].low = before->limbs[unit][limb][stance].low;
            ledger->done[unit][stance].low = before->done[unit][stance].low;
        }
        ledger->unplaced[unit].low = before->unplaced[unit].low;
    }
}

void ledger_occasion(struct ledger *ledger, const struct occasion *occasion)
{
    const struct ledger before = *ledger;
    ledger->own = occasion->athlete->stance;
    for (size_t b = 0; b < occasion->block_count; b++) {
        const struct block *block = &occasion->blocks[b];
        if (block->kind == BLOCK_AS_MANY)
            ledger->open = true;
        for (size_t i = 0; i < block->item_count; i++) {
            const struct item *item = &block->items[i];
            for (size_t r = 0; r < item->run_count; r++)
                ledger_add(ledger, item, &item->runs[r],
                           time_run_count(block, item, &item->runs[r]));
        }
    }
    if (occasion->optional)
        restore_lows(ledger, &before);
}

struct range ledger_limb(const struct ledger *ledger, enum unit unit, enum limb limb)
{
    struct range sum = {0, 0};

    for (int stance = 0; stance < STANCE_COUNT; stance++)
        range_add(&sum, ledger->limbs[unit][limb][stance]);
    return sum;
}
