#include "measure/time.h"

#include "measure/demand.h"
#include "model/athlete.h"
#include "model/block.h"
#include "model/exercise.h"

const struct time_settings time_usual = {
    .tempo = {.lower = 2, .lift = 1},
    .ballistic_rep = 2,
    .strike = 1,
    .contact = 1,
    .stance_change = 1,
    .pace = 150,
    .max_reps = 10,
    .max_seconds = 60,
    .change_over = 20,
    .between_blocks = 120,
    .ramp_rest = 60,
    .work_up_sets = 5,
    .work_up_rest = 180,
};

/* More than any plan contains, and small enough that nothing computed from it here can overflow. */
enum { COUNT_LIMIT = 1000000, AMOUNT_LIMIT = 1000 * COUNT_LIMIT };

static int seconds_cut(int64_t seconds)
{
    return seconds < 0 ? 0 : seconds > CLOCK_LIMIT ? CLOCK_LIMIT : (int)seconds;
}

static int64_t count_cut(int64_t count)
{
    return count < 0 ? 0 : count > COUNT_LIMIT ? COUNT_LIMIT : count;
}

/* The seconds of COUNT pieces of WORK with REST between them. */
static int seconds_of(int64_t count, int work, int rest)
{
    count = count_cut(count);
    return count == 0 ? 0 : seconds_cut(count * work + (count - 1) * rest);
}

milli range_middle(struct range range)
{
    return range.low + (range.high - range.low + 1) / 2;
}

static int middle_seconds(int low, int high)
{
    return seconds_cut(((int64_t)low + high + 1) / 2);
}

static int rest_middle(const struct block *block)
{
    return middle_seconds(block->rest_low, block->rest_high);
}

/* --- one set --- */

static int rep_seconds(const struct set_run *run, const struct exercise *exercise,
                       const struct time_settings *settings)
{
    const struct item_tempo *given = &run->tempo;

    if (!given->given) {
        if (exercise->ballistic)
            return exercise->pattern == PATTERN_STRIKE ? settings->strike : settings->ballistic_rep;
        return seconds_cut(tempo_seconds(&settings->tempo));
    }
    struct tempo tempo = {given->lower, given->low_pause, given->lift, given->high_pause, 0};
    tempo.fast =
        (given->lower_fast ? TEMPO_LOWER : 0u) | (given->low_pause_fast ? TEMPO_PAUSE_LOW : 0u) |
        (given->lift_fast ? TEMPO_LIFT : 0u) | (given->high_pause_fast ? TEMPO_PAUSE_HIGH : 0u);
    return seconds_cut(tempo_seconds(&tempo));
}

/* Thousandths of a second that PART takes on one side. */
static int64_t part_milli(const struct part *part, const struct set_run *run,
                          const struct exercise *exercise, const struct time_settings *settings)
{
    bool clock = part->unit == UNIT_SECONDS;
    int64_t most = (int64_t)(clock ? settings->max_seconds : settings->max_reps) * 1000;
    int64_t amount = part->max && part->amount.high == 0 ? most : range_middle(part->amount);

    if (amount < 0)
        amount = 0;
    if (amount > AMOUNT_LIMIT)
        amount = AMOUNT_LIMIT;
    if (clock)
        return amount;
    switch (part->unit) {
    case UNIT_METRES:
        return amount * 100 / settings->pace;
    case UNIT_CONTACTS:
        return amount * settings->contact;
    case UNIT_STRIKES:
        return amount * settings->strike;
    default:
        return amount * rep_seconds(run, exercise, settings);
    }
}

static int part_sides(const struct part *part, const struct exercise *exercise)
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

/* Thousandths of a second for the changes between repetitions that alternate; by the clock they are part of the
 * time. */
static int64_t changes_milli(const struct set_run *run, const struct time_settings *settings)
{
    int64_t reps = 0;

    if (!run->alternating || !run->part_count || run->parts[0].unit == UNIT_SECONDS)
        return 0;
    for (size_t i = 0; i < run->part_count; i++)
        reps += run->parts[i].max ? 0 : count_cut(range_middle(run->parts[i].amount) / 1000);
    if (run->parts[0].max)
        reps = settings->max_reps;
    return reps > 1 ? (reps - 1) * settings->stance_change * 1000 : 0;
}

int time_run(struct set_run *run, const struct exercise *exercise,
             const struct time_settings *settings)
{
    int64_t once = changes_milli(run, settings);

    for (size_t i = 0; i < run->part_count; i++) {
        const struct part *part = &run->parts[i];
        if (run->alternating && part->max && i > 0)
            break; /* as many as possible of both together */
        once += part_milli(part, run, exercise, settings) * part_sides(part, exercise);
    }
    int seconds = run->within > 0 ? seconds_cut(run->within) : seconds_cut((once + 500) / 1000);
    int rest = middle_seconds(run->rest_low, run->rest_high);
    if (run->work_up)
        run->seconds = seconds_of(settings->work_up_sets, seconds, settings->work_up_rest);
    else if (run->repeats > 1)
        run->seconds = seconds_of(run->repeats, seconds, rest);
    else if (run->part_count > 1)
        run->seconds = seconds_cut(seconds + (count_cut((int64_t)run->part_count) - 1) * rest);
    else
        run->seconds = seconds;
    return run->seconds;
}

/* --- one block --- */

static int block_times(const struct block *block)
{
    return block->times > 1 ? block->times : 1;
}

int time_run_count(const struct block *block, const struct item *item, const struct set_run *run)
{
    int64_t rounds = 1;

    if (block->kind == BLOCK_ROUNDS) {
        rounds = item->filler ? block->sets - 1 : block->sets;
        if (item->round > 0)
            rounds = item->round <= rounds ? 1 : 0;
    }
    return (int)count_cut(count_cut(run->count) * count_cut(rounds) * block_times(block));
}

/* Seconds from the previous item to ITEM, or USUAL if the plan gives none. */
static int item_lead(const struct item *item, int usual)
{
    return item->after >= 0 ? seconds_cut(item->after) : usual;
}

static int item_seconds(const struct item *item)
{
    int64_t total = 0;

    for (size_t i = 0; i < item->run_count; i++)
        total += count_cut(item->runs[i].count) * item->runs[i].seconds;
    return seconds_cut(total);
}

/* Sets of one exercise before those of the next, a rest after every set but the last. */
static int64_t straight_seconds(const struct block *block)
{
    int64_t total = 0;
    int rest = rest_middle(block);
    bool first = true;

    for (size_t i = 0; i < block->item_count; i++) {
        const struct item *item = &block->items[i];
        if (item->filler || item->sets <= 0)
            continue;
        if (!first)
            total += item_lead(item, rest);
        total += item_seconds(item) + (count_cut(item->sets) - 1) * rest;
        first = false;
    }
    return total;
}

/* One set of every exercise in turn, then the rest. An item with fewer sets than the others is done in the first of
 * them; the way to it counts in each of its sets that follows something. */
static int64_t turns_seconds(const struct block *block, const struct time_settings *settings)
{
    /* In a complex the implement stays in the hand. */
    int change_over = block->kind == BLOCK_COMPLEX ? 0 : settings->change_over;
    int64_t total = 0, most = 0;

    for (size_t i = 0; i < block->item_count; i++) {
        const struct item *item = &block->items[i];
        int64_t sets = count_cut(item->sets);
        if (item->filler)
            continue;
        total += item_seconds(item);
        total += (sets < most ? sets : most) * item_lead(item, change_over);
        if (sets > most)
            most = sets;
    }
    return total + (most > 1 ? (most - 1) * rest_middle(block) : 0);
}

/* Rounds without a clock last as long as what is in them. */
static int64_t rounds_seconds(const struct block *block, const struct time_settings *settings)
{
    int64_t total = 0, most = 0;

    for (size_t i = 0; i < block->item_count; i++) {
        const struct item *item = &block->items[i];
        int64_t rounds = item->round > 0 ? 1 : count_cut(block->sets);
        if (item->filler)
            continue;
        total += item_seconds(item) * rounds;
        total += (rounds < most ? rounds : most) * item_lead(item, settings->change_over);
        if (rounds > most)
            most = rounds;
    }
    return total + (count_cut(block->sets) - 1) * rest_middle(block);
}

static int64_t block_once(const struct block *block, const struct time_settings *settings)
{
    switch (block->kind) {
    case BLOCK_ROUNDS:
        if (block->work > 0)
            return seconds_of(block->sets, seconds_cut(block->work), rest_middle(block));
        return rounds_seconds(block, settings);
    case BLOCK_EVERY:
    case BLOCK_AS_MANY:
    case BLOCK_FOR_TIME:
        return block->work > 0 ? block->work : turns_seconds(block, settings);
    case BLOCK_STRAIGHT:
    case BLOCK_CLUSTER:
    case BLOCK_LADDER:
        return straight_seconds(block);
    default:
        return turns_seconds(block, settings);
    }
}

int time_block(struct block *block, const struct time_settings *settings)
{
    int once = seconds_cut(block_once(block, settings));

    block->seconds = seconds_of(block_times(block), once, seconds_cut(block->times_rest));
    return block->seconds;
}

/* --- a session --- */

/* One warm-up set for each side or stance of the working set. */
static int run_sides(const struct set_run *run)
{
    int sides = 1;

    for (size_t i = 0; i < run->part_count; i++) {
        if (run->parts[i].side == DOSE_EACH_SIDE || run->parts[i].side != run->parts[0].side)
            sides = 2;
    }
    return sides;
}

int time_ramp_set(const struct time_ramp *ramp, int step, const struct time_settings *settings)
{
    int rep = rep_seconds(ramp->run, ramp->item->exercise, settings);
    return seconds_of((int64_t)ramp->steps[step].reps * run_sides(ramp->run), rep, 0);
}

static int ramp_seconds(const struct time_ramp *ramp, const struct time_settings *settings)
{
    int64_t total = 0;

    for (int i = 0; i < ramp->count; i++)
        total += time_ramp_set(ramp, i, settings) + settings->ramp_rest;
    return seconds_cut(total);
}

/* Something is warmed up to: strength work, and power work with a bar (a ball needs no ramp). */
static bool run_is_lift(const struct item *item, const struct set_run *run)
{
    if (item->filler || run->load.made <= 0)
        return false;
    return item->exercise->kind == EXERCISE_STRENGTH || run->load.plating.bar;
}

/* The run of BLOCK that is the first heavy lift in it, or NULL; *LIFT is set to its item. */
static const struct set_run *block_heavy_run(const struct block *block,
                                             const struct athlete *athlete, int day,
                                             const struct item **lift)
{
    for (size_t i = 0; i < block->item_count; i++) {
        const struct item *item = &block->items[i];
        for (size_t r = 0; r < item->run_count; r++) {
            const struct set_run *run = &item->runs[r];
            if (run_is_lift(item, run) && run_is_heavy(athlete, item->exercise, run, day)) {
                *lift = item;
                return run;
            }
        }
    }
    return NULL;
}

bool time_ramp_find(const struct block *blocks, size_t count, const struct athlete *athlete, const struct gym *gym,
                    int day, struct time_ramp *ramp)
{
    for (size_t i = 0; i < count; i++) {
        ramp->run = block_heavy_run(&blocks[i], athlete, day, &ramp->item);
        if (!ramp->run)
            continue;
        ramp->block = i;
        ramp->count = load_ramp(gym, ramp->item->exercise, &ramp->run->load, ramp->steps);
        return true;
    }
    return false;
}

int time_session(struct block *blocks, size_t count, const struct athlete *athlete, const struct gym *gym, int day,
                 const struct time_settings *settings)
{
    struct time_ramp ramp;
    bool heavy = time_ramp_find(blocks, count, athlete, gym, day, &ramp);
    int64_t now = 0;

    for (size_t i = 0; i < count; i++) {
        if (i > 0)
            now += settings->between_blocks;
        if (heavy && ramp.block == i)
            now += ramp_seconds(&ramp, settings);
        blocks[i].starts = seconds_cut(now);
        now += time_block(&blocks[i], settings);
    }
    return seconds_cut(now);
}
