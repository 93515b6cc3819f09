#include "measure/tally.h"

#include "figures/load.h"
#include "measure/member.h"
#include "measure/sums.h"
#include "model/activity.h"
#include "model/occasion.h"

/* --- blocks, sessions, activities --- */

/* What belongs to a block as a whole. */
void add_block(struct tally *tally, const struct block *block)
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

void add_load(struct tally *tally, const struct occasion *occasion)
{
    if (occasion_is_rest(occasion))
        return;
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
void add_whole(struct tally *tally, const struct occasion *occasion, struct worked worked)
{
    if (occasion_is_rest(occasion))
        return;
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

void tally_load_alone(struct tally *tally, const struct occasion *occasion)
{
    struct tally alone = {0};
    add_load(&alone, occasion);
    if (occasion->optional)
        make_optional(&alone);
    tally_add(tally, &alone);
}

/* The same of an amount that is such a sum itself; most of a session's are 0. */
static void add_sum(struct range *sum, const struct range *other)
{
    if (other->high == 0)
        return;
    sum->low = least(sum->low + other->low, MOST);
    sum->high = least(sum->high + other->high, MOST);
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
