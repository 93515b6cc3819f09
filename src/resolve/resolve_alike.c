/* resolve_alike.c - sets that come out the same for many. Most of a session is the same for all who train at one gym,
 * and week after week; such sets are made once, and the occasions share them. */
#include "resolve/dose.h"
#include "model/athlete.h"
#include "model/exercise.h"
#include "resolve/tracking.h"

/* Everything the sets depend on, except what stops them from being shared. */
struct alike {
    const struct dose *dose;
    const struct exercise *exercise;
    const struct gym *gym;  /* of loads */
    bool down;              /* of loads */
    enum stance stance;     /* of exercises done from a stance */
    int column;             /* of series */
    enum block_kind block;
    int sets, work;
    bool alternates;        /* by the block's words */
};

struct shared {
    struct shared *next; /* in its bucket */
    uint64_t hash;
    struct alike alike;
    const struct set_run *runs; /* NULL: not made yet, or not to be shared as something was found in them */
    size_t run_count;
    int sets;
    const struct touch *touched; /* the series that they are taken from */
    size_t touched_count;
};

/* --- what can be shared --- */

static bool is_series(const struct figures *figures)
{
    return figures && figures->series;
}

static bool has_series(const struct dose *dose)
{
    for (int i = 0; i < dose->part_count; i++)
        if (dose->parts[i].figures->series)
            return true;
    return is_series(dose->sets) || is_series(dose->times) || is_series(dose->outer_times) ||
           is_series(dose->load.figures) || is_series(dose->effort.figures) || is_series(dose->within) ||
           is_series(dose->work_up);
}

/* Is the load the same for everybody, unlike a share of a best? */
static bool is_common(const struct dose_load *load)
{
    if (!load->given)
        return true;
    switch (load->word) {
    case LOAD_WORD_THING: return true;
    case LOAD_WORD_FIGURE: case LOAD_WORD_PIECES: return load->figures->measure != MEASURE_PERCENT;
    case LOAD_WORD_BODY: case LOAD_WORD_SHARE_BODY: case LOAD_WORD_SHARE_REF: case LOAD_WORD_SHARE_TEST:
    case LOAD_WORD_LAST: break;
    }
    return false;
}

/* A rest in the line is given to its block afterwards, which changes the sets. */
static bool can_be_shared(const struct dose *dose, const struct dose_setting *setting, const struct exercise *exercise)
{
    bool no_stance = exercise->side == SIDE_PER_STANCE && setting->athlete->stance == STANCE_UNKNOWN;
    return dose && !dose->next && !dose->rest && !setting->poisoned && !no_stance && is_common(&dose->load);
}

static struct alike alike_of(const struct dose *dose, const struct dose_setting *setting, const struct exercise *exercise)
{
    const struct athlete *athlete = setting->athlete;
    return (struct alike){.dose = dose,
                          .exercise = exercise,
                          .gym = dose->load.given ? setting->gym : NULL,
                          .down = dose->load.given && setting->down,
                          .stance = exercise->side == SIDE_PER_STANCE ? athlete->stance : STANCE_UNKNOWN,
                          .column = has_series(dose) ? setting->column : 0,
                          .block = setting->block,
                          .sets = setting->sets,
                          .work = setting->work,
                          .alternates = setting->alternates};
}

static bool same(const struct alike *a, const struct alike *b)
{
    return a->dose == b->dose && a->exercise == b->exercise && a->gym == b->gym && a->down == b->down &&
           a->stance == b->stance && a->column == b->column && a->block == b->block && a->sets == b->sets &&
           a->work == b->work && a->alternates == b->alternates;
}

/* --- the table --- */

static uint64_t hash_of(const struct alike *alike)
{
    uint64_t hash = (uintptr_t)alike->dose / sizeof(max_align_t) * 31 + (uint64_t)alike->column;
    hash = hash * 31 + alike->exercise->number;
    hash = hash * 31 + (uint64_t)alike->stance * 2 + alike->down;
    hash = (hash * 31 + (uint64_t)alike->sets) * UINT64_C(0x9e3779b97f4a7c15);
    return hash >> 32;
}

static void grow(struct resolver *r)
{
    size_t room = r->shared_room ? 2 * r->shared_room : 256;
    struct shared **buckets = arena_alloc(r->arena, room * sizeof(struct shared *));
    for (size_t i = 0; i < r->shared_room; i++)
        for (struct shared *one = r->shared[i], *next; one; one = next) {
            next = one->next;
            one->next = buckets[one->hash & (room - 1)];
            buckets[one->hash & (room - 1)] = one;
        }
    r->shared = buckets;
    r->shared_room = room;
}

static struct shared *find(struct resolver *r, const struct alike *alike)
{
    uint64_t hash = hash_of(alike);
    if (r->shared_count == r->shared_room)
        grow(r);
    struct shared **bucket = &r->shared[hash & (r->shared_room - 1)];
    for (struct shared *one = *bucket; one; one = one->next)
        if (one->hash == hash && same(&one->alike, alike))
            return one;
    struct shared *fresh = arena_alloc(r->arena, sizeof *fresh);
    *fresh = (struct shared){.next = *bucket, .hash = hash, .alike = *alike};
    *bucket = fresh;
    r->shared_count++;
    return fresh;
}

/* Whoever shares sets uses the series that they come from. */
static void use_touched(struct resolver *r, const struct shared *shared)
{
    for (size_t i = 0; i < shared->touched_count; i++)
        track_used(r, shared->touched[i].figures, shared->touched[i].used);
}

/* What was touched since there were BEFORE. */
static void keep_touched(struct resolver *r, struct shared *shared, size_t before)
{
    const struct tracking *tracking = r->tracking;
    size_t count = tracking ? tracking->touched_count - before : 0;
    if (!count)
        return;
    struct touch *touched = arena_alloc(r->arena, count * sizeof *touched);
    memcpy(touched, tracking->touched + before, count * sizeof *touched);
    shared->touched = touched;
    shared->touched_count = count;
}

void dose_settle_alike(struct resolver *r, const struct dose *dose, const struct dose_setting *setting, struct item *item)
{
    if (!can_be_shared(dose, setting, item->exercise)) {
        dose_settle(r, dose, setting, item);
        return;
    }
    const struct alike alike = alike_of(dose, setting, item->exercise);
    struct shared *shared = find(r, &alike);
    if (shared->runs) {
        item->runs = shared->runs;
        item->run_count = shared->run_count;
        item->sets = shared->sets;
        use_touched(r, shared);
        return;
    }
    size_t findings = r->diag->count, touched = r->tracking ? r->tracking->touched_count : 0;
    dose_settle(r, dose, setting, item);
    if (r->diag->count > findings)
        return; /* it is found again for the next, who may be another athlete */
    shared->runs = item->runs;
    shared->run_count = item->run_count;
    shared->sets = item->sets;
    keep_touched(r, shared, touched);
}
