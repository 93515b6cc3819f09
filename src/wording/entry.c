#include "wording/entry.h"

#include "base/text.h"
#include "model/exercise.h"
#include "wording/wording.h"

const char *const entry_workers[] = {"lead hand", "rear hand", "lead leg", "rear leg", "lead hip",
                                     "rear hip",  "hand",      "leg",      "hip"};
const size_t entry_worker_count = sizeof entry_workers / sizeof *entry_workers;

static void add_listed(struct text *out, const char *words)
{
    text_addf(out, "%s%s", out->length ? ", " : "", words);
}

const char *entry_patterns(struct arena *arena, const struct exercise *exercise)
{
    struct text out = {.arena = arena};
    if (!exercise->patterns)
        return "";
    add_listed(&out, patterns.names[exercise->pattern]);
    for (int i = 0; i < PATTERN_COUNT; i++)
        if ((exercise->patterns >> i & 1) && i != (int)exercise->pattern)
            add_listed(&out, patterns.names[i]);
    return text_keep(arena, &out);
}

const char *entry_side(struct arena *arena, const struct exercise *exercise)
{
    static const char *const rules[] = {"both sides at once", "each side", "each way", "from a stance"};
    struct text who = {.arena = arena};
    for (size_t i = 0; i < entry_worker_count; i++)
        if (exercise->workers >> i & 1) {
            add_listed(&who, entry_workers[i]);
            if (exercise->again >> i & 1)
                text_add(&who, " twice");
        }
    const char *rule = exercise->ways == 4 ? "four ways" : rules[exercise->side];
    if (exercise->side == SIDE_BOTH && exercise->workers)
        rule = "both sides"; /* a split jump is not done with both legs at once */
    const char *words = who.length ? arena_printf(arena, "%s: %s", rule, text_get(&who)) : rule;
    return words;
}

const char *entry_counts(const struct exercise *exercise)
{
    return exercise->counts == UNIT_CONTACTS ? "landings" : units.names[exercise->counts];
}

const char *entry_aliases(struct arena *arena, const struct exercise *exercise)
{
    struct text out = {.arena = arena};
    for (size_t i = 0; i < exercise->alias_count; i++)
        add_listed(&out, exercise->aliases[i].shown);
    return text_keep(arena, &out);
}

const char *entry_needs(struct arena *arena, const struct exercise *exercise)
{
    struct text out = {.arena = arena};
    for (size_t i = 0; i < exercise->need_count; i++)
        add_listed(&out, exercise->needs[i].name.shown);
    return text_keep(arena, &out);
}

const char *entry_positions(struct arena *arena, const struct exercise *exercise)
{
    struct text out = {.arena = arena};
    for (size_t i = 0; i < exercise->position_count; i++)
        add_listed(&out, exercise->positions[i]);
    return text_keep(arena, &out);
}

const char *entry_joints(struct arena *arena, const struct exercise *exercise, bool both)
{
    struct text out = {.arena = arena};
    for (size_t i = 0; i < exercise->strains.count; i++) {
        const struct strain *strain = &exercise->strains.items[i];
        const char *joint = joints.names[strain->joint];
        if (strain->both == both)
            add_listed(&out, strain->demand == DEMAND_NONE
                                 ? joint
                                 : arena_printf(arena, "%s %s", joint, demands.names[strain->demand]));
    }
    return text_keep(arena, &out);
}

/* The largest share below BELOW; 0 where there is none. */
static milli next_share(const struct exercise *exercise, milli below)
{
    milli largest = 0;
    for (int i = 0; i < REGION_COUNT; i++)
        if (exercise->loads[i] < below && exercise->loads[i] > largest)
            largest = exercise->loads[i];
    return largest;
}

const char *entry_loads(struct arena *arena, const struct exercise *exercise)
{
    struct text out = {.arena = arena};
    for (milli share = next_share(exercise, 1001); share; share = next_share(exercise, share)) {
        for (int i = 0; i < REGION_COUNT; i++) {
            if (exercise->loads[i] != share)
                continue;
            add_listed(&out, regions.names[i]);
            if (share != 1000)
                text_addf(&out, WORDING_GAP "%s", wording_number(arena, share));
        }
    }
    return text_keep(arena, &out);
}

const char *entry_without(struct arena *arena, const struct exercise *exercise, size_t i)
{
    struct text out = {.arena = arena};
    const struct exercise *instead = exercise->without[i].instead;
    for (size_t k = 0; k < exercise->without_count; k++) {
        if (exercise->without[k].instead != instead)
            continue;
        if (k < i)
            return "";
        add_listed(&out, exercise->without[k].kit.shown);
    }
    text_addf(&out, ": %s", instead->name.shown);
    return text_keep(arena, &out);
}

const char *entry_base(struct arena *arena, const struct exercise *exercise)
{
    if (exercise->base == exercise)
        return "";
    if (exercise->factor == 1000)
        return exercise->base->name.shown;
    return arena_printf(arena, "%s " WORDING_TIMES WORDING_GAP "%s", exercise->base->name.shown,
                        wording_number(arena, exercise->factor));
}

const char *entry_age(const struct exercise *exercise)
{
    static const char *const words[] = {"", "from intermediate on", "for the advanced"};
    return words[exercise->level];
}
