#include "measure/stand_in.h"

#include "base/text.h"
#include "measure/avoid.h"
#include "measure/hold.h"
#include "measure/kit.h"
#include "measure/person.h"
#include "model/athlete.h"
#include "model/exercise.h"
#include "model/programme.h"

enum {
    HALF = 500,
    MAIN_PATTERN = 400,
    A_PATTERN = 200,
    ALL_REGIONS = 350,
    SAME_KIND = 120,
    SAME_LIMBS = 80,
    SAME_KILOGRAMS = 50,
    LEAST_KEPT = 300 /* with less in common it is other work */
};

/* --- who may do what --- */

/* Whether a restriction bars any of what EXERCISE would ask for: of one side, that it works that side at all. */
static bool is_touched(const struct avoid *avoid, const struct exercise *exercise)
{
    struct avoid whole = *avoid;
    whole.sides = 0;
    return avoid_bars(&whole, exercise);
}

static bool may_do(const struct stand_in_for *asked, const struct exercise *exercise)
{
    const struct athlete *athlete = asked->athlete;
    if (exercise->replaced || exercise->lost || (asked->gym && gym_missing(asked->gym, exercise)))
        return false;
    for (size_t i = 0; athlete && !asked->freely && i < athlete->avoid_count; i++)
        if (avoid_stands(&athlete->avoids[i], asked->day) && is_touched(&athlete->avoids[i], exercise))
            return false;
    return !athlete || exercise->level <= athlete_level_on(athlete, asked->day);
}

/* --- how near --- */

static int pattern_kept(const struct exercise *from, const struct exercise *to)
{
    if (from->pattern == to->pattern)
        return MAIN_PATTERN;
    return from->patterns & to->patterns ? A_PATTERN : 0;
}

/* The share of both exercises' regions that they have in common. */
static int regions_kept(const struct exercise *from, const struct exercise *to)
{
    milli common = 0, all = 0;
    for (int i = 0; i < REGION_COUNT; i++) {
        milli a = from->loads[i], b = to->loads[i];
        common += a < b ? a : b;
        all += a < b ? b : a;
    }
    return all ? (int)(ALL_REGIONS * common / all) : ALL_REGIONS;
}

static bool same_limbs(const struct exercise *from, const struct exercise *to)
{
    return from->side == to->side && from->workers == to->workers;
}

static int kept_of(const struct exercise *from, const struct exercise *to)
{
    int kept = pattern_kept(from, to) + regions_kept(from, to);
    kept += from->kind == to->kind ? SAME_KIND : 0;
    kept += same_limbs(from, to) ? SAME_LIMBS : 0;
    return kept + (from->weigh == to->weigh ? SAME_KILOGRAMS : 0);
}

/* What is lifted or held becomes neither a jump nor a throw nor a strike. */
static bool is_faster(const struct exercise *from, const struct exercise *to)
{
    return (to->ballistic && !from->ballistic) || (to->counts == UNIT_CONTACTS && from->counts != UNIT_CONTACTS);
}

static bool reads_same_dose(const struct exercise *from, const struct exercise *to)
{
    return from->counts == to->counts && from->side == to->side && from->ways == to->ways &&
           (from->kind == EXERCISE_HOLD) == (to->kind == EXERCISE_HOLD);
}

/* Puts ONE in its place among the COUNT found, the best first; of equals the shelf's order decides. */
static size_t put(struct stand_in found[STAND_INS_MOST], size_t count, struct stand_in one)
{
    size_t at = count;
    while (at > 0 && found[at - 1].kept < one.kept)
        at--;
    if (at == STAND_INS_MOST)
        return count;
    count += count < STAND_INS_MOST;
    for (size_t i = count - 1; i > at; i--)
        found[i] = found[i - 1];
    found[at] = one;
    return count;
}

size_t stand_ins_find(const struct stand_in_for *asked, struct stand_in found[STAND_INS_MOST])
{
    const struct programme *programme = asked->programme;
    size_t count = 0;
    if (asked->athlete && athlete_held(asked->athlete, asked->day, programme->today))
        return 0;
    for (size_t i = 0; i < programme->exercise_count; i++) {
        const struct exercise *exercise = programme->exercises[i];
        if (exercise == asked->exercise || !may_do(asked, exercise) || is_faster(asked->exercise, exercise) ||
            (asked->same_dose && !reads_same_dose(asked->exercise, exercise)))
            continue;
        struct stand_in one = {exercise, kept_of(asked->exercise, exercise)};
        if (one.kept >= LEAST_KEPT)
            count = put(found, count, one);
    }
    return count;
}

/* --- in words --- */

static void add_word(struct text *out, const char *lead, const char *word)
{
    text_addf(out, "%s%s", out->length ? ", " : lead, word);
}

const char *stand_in_words(struct arena *arena, const struct exercise *from, const struct exercise *to)
{
    struct text kept = {.arena = arena}, lost = {.arena = arena};
    if (from->patterns)
        add_word(from->patterns & to->patterns ? &kept : &lost, from->patterns & to->patterns ? "keeps " : "loses ",
                 patterns.names[from->pattern]);
    for (int i = 0; i < REGION_COUNT; i++) {
        if (from->loads[i] < HALF)
            continue;
        bool keeps = to->loads[i] >= HALF;
        add_word(keeps ? &kept : &lost, keeps ? "keeps " : "loses ", regions.names[i]);
    }
    if (from->kind != to->kind)
        add_word(&lost, "loses ", exercise_kinds.names[from->kind]);
    bool other = from->weigh != WEIGH_UNSAID && from->weigh != to->weigh;
    return arena_printf(arena, "%s%s%s%s", text_get(&kept), kept.length && lost.length ? "; " : "", text_get(&lost),
                        other ? "; another load" : "");
}

/* --- what is left of a region --- */

enum left_of region_left(const struct stand_in_for *asked, int region)
{
    enum left_of left = LEFT_NOTHING;
    for (size_t i = 0; i < asked->programme->exercise_count; i++) {
        const struct exercise *exercise = asked->programme->exercises[i];
        if (exercise->loads[region] < 1000 || exercise->kind == EXERCISE_MOBILITY || exercise->kind == EXERCISE_WARM_UP ||
            !may_do(asked, exercise))
            continue;
        if (exercise->kind != EXERCISE_HOLD)
            return LEFT_WORK;
        left = LEFT_HOLDS;
    }
    return left;
}
