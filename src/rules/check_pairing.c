/* What goes with what: supersets, contrast pairs, fillers, and the order of a session. */
#include <string.h>

#include "measure/demand.h"
#include "measure/kit.h"
#include "model/exercise.h"
#include "rules/checks.h"
#include "rules/settings.h"

enum {
    LOADED = 500, /* share from which a region counts as worked: 0.5 */
    CONTRAST_PERCENT =
        75000,      /* where the heavy part of a contrast begins: common practice, no source */
    LONG_HOLD = 20, /* seconds; the same */
    VERY_HARD_RPE = 9000,
    WRAP_SECONDS = 60
};

static bool has_pattern(const struct exercise *exercise, enum pattern pattern)
{
    return exercise->patterns >> pattern & 1u;
}

static struct about about_item(const struct rule *rule, const struct window *window,
                               const struct item *item)
{
    return (struct about){.window = window, .severity = rule_severity(rule), .span = item->span};
}

/* The region that both exercises work at half a share or more, the one that both work most; -1 if none. */
static int shared_region(const struct exercise *a, const struct exercise *b)
{
    int found = -1;
    milli most = 0;
    for (int r = 0; r < REGION_COUNT; r++) {
        milli both = a->loads[r] < b->loads[r] ? a->loads[r] : b->loads[r];
        if (both >= LOADED && both > most) {
            most = both;
            found = r;
        }
    }
    return found;
}

/* --- what is heavy, and what it prepares --- */

enum heaviness { HEAVINESS_UNKNOWN, HEAVINESS_LIGHT, HEAVINESS_HEAVY };

/* Whether a part can stand first in a contrast: at 75 % or RPE 8 and up. */
static enum heaviness heaviness_of(const struct occasion *occasion, const struct item *item)
{
    bool known = false;
    for (size_t r = 0; r < item->run_count; r++) {
        milli percent =
            run_percent(occasion->athlete, item->exercise, &item->runs[r], occasion->date).high;
        milli rpe = run_rpe(&item->runs[r]).high;
        if (percent >= CONTRAST_PERCENT || rpe >= HEAVY_RPE)
            return HEAVINESS_HEAVY;
        known |= percent > 0 || rpe > 0 || item->runs[r].load.effort == EFFORT_EASY;
    }
    return known ? HEAVINESS_LIGHT : HEAVINESS_UNKNOWN;
}

/* Patterns of fast work that heavy work of a pattern prepares: they share the limbs that drive. */
static unsigned prepared_by(enum pattern heavy)
{
    const unsigned hands = 1u << PATTERN_THROW | 1u << PATTERN_STRIKE | 1u << PATTERN_PUSH;
    const unsigned legs = 1u << PATTERN_JUMP | 1u << PATTERN_STRIKE | 1u << PATTERN_THROW |
                          1u << PATTERN_LOCOMOTION | 1u << PATTERN_FOOTWORK;
    switch (heavy) {
    case PATTERN_HINGE:
    case PATTERN_SQUAT:
    case PATTERN_LUNGE:
        return legs | 1u << PATTERN_HINGE | 1u << PATTERN_SQUAT | 1u << PATTERN_LUNGE;
    case PATTERN_PUSH:
        return hands;
    case PATTERN_PULL:
        return hands | 1u << PATTERN_PULL;
    case PATTERN_ROTATE:
    case PATTERN_BRACE:
        return hands | 1u << PATTERN_ROTATE;
    default:
        return ~0u;
    }
}

static unsigned prepared_by_item(const struct exercise *heavy)
{
    unsigned prepared = 0;
    for (int p = 0; p < PATTERN_COUNT; p++)
        if (has_pattern(heavy, (enum pattern)p))
            prepared |= prepared_by((enum pattern)p);
    return prepared;
}

/* Is FIRST heavy and SECOND the fast work that it prepares, as in a contrast? */
static bool may_be_contrast(const struct occasion *occasion, const struct item *first, const struct item *second)
{
    return heaviness_of(occasion, first) == HEAVINESS_HEAVY && second->exercise->ballistic &&
           (second->exercise->patterns & prepared_by_item(first->exercise));
}

/* --- supersets --- */

void check_same_region(struct run *run, const struct rule *rule, const struct window *window)
{
    const struct occasion *occasion = window->occasions[0];
    for (size_t b = 0; b < occasion->block_count; b++) {
        const struct block *block = &occasion->blocks[b];
        if (block->kind != BLOCK_SUPERSET || block->on_purpose)
            continue;
        for (size_t i = 1; i < block->item_count; i++) {
            const struct item *first = &block->items[i - 1], *second = &block->items[i];
            int region = shared_region(first->exercise, second->exercise);
            if (region < 0 || !item_is_hard(occasion, first) || !item_is_hard(occasion, second))
                continue;
            struct about about = about_item(rule, window, second);
            about.subject = first->exercise;
            struct finding *finding =
                run_report(run, rule, &about, "%s and %s both load the %s, and both are hard",
                           item_words(run, first), item_words(run, second), regions.names[region]);
            if (!finding)
                continue;
            diag_note(run->diag, finding, first->span, "%s of a set for the %s here, %s there",
                      counted_amount(run->arena, COUNTED_SETS, first->exercise->loads[region]),
                      regions.names[region],
                      counted_amount(run->arena, COUNTED_SETS, second->exercise->loads[region]));
            diag_remark(run->diag, finding, "hard is RPE 7 and up: common practice, no source");
            diag_help(run->diag, finding,
                      may_be_contrast(occasion, first, second)
                          ? "heavy work and then fast work it prepares is a `contrast`; or pair it with another region, or add "
                            "a line `on purpose` that says why"
                          : "pair it with another region; if you mean it, add a line `on purpose` that says why");
        }
    }
}

/* --- contrast --- */

/* The two parts of a contrast: its first items that are no fillers. */
static bool contrast_parts(const struct block *block, const struct item **first,
                           const struct item **second)
{
    *first = *second = NULL;
    if (block->kind != BLOCK_CONTRAST)
        return false;
    for (size_t i = 0; i < block->item_count && !*second; i++) {
        if (block->items[i].filler)
            continue;
        if (!*first)
            *first = &block->items[i];
        else
            *second = &block->items[i];
    }
    return *second != NULL;
}

void check_contrast_light(struct run *run, const struct rule *rule, const struct window *window)
{
    const struct occasion *occasion = window->occasions[0];
    for (size_t b = 0; b < occasion->block_count; b++) {
        const struct item *first, *second;
        /* A lighter part for the young, say, is meant to be light. */
        if (!contrast_parts(&occasion->blocks[b], &first, &second) || first->own ||
            heaviness_of(occasion, first) != HEAVINESS_LIGHT)
            continue;
        struct about about = about_item(rule, window, first);
        struct finding *finding =
            run_report(run, rule, &about,
                       "%s is not heavy: the first part of a contrast is at 75 %% or RPE 8 "
                       "and up",
                       item_words(run, first));
        if (!finding)
            continue;
        diag_note(run->diag, finding, second->span, "what it should prepare");
        diag_remark(run->diag, finding, "common practice, no source");
    }
}

void check_contrast_slow(struct run *run, const struct rule *rule, const struct window *window)
{
    const struct occasion *occasion = window->occasions[0];
    for (size_t b = 0; b < occasion->block_count; b++) {
        const struct item *first, *second;
        if (!contrast_parts(&occasion->blocks[b], &first, &second) || first->own || second->own)
            continue;
        bool related = second->exercise->patterns & prepared_by_item(first->exercise);
        if (second->exercise->ballistic && related)
            continue;
        struct about about = about_item(rule, window, second);
        about.severity = second->exercise->ballistic ? SEVERITY_INFO : rule_severity(rule);
        struct finding *finding =
            second->exercise->ballistic
                ? run_report(run, rule, &about,
                             "%s does not prepare %s: they drive with "
                             "different limbs",
                             item_words(run, first), item_words(run, second))
                : run_report(run, rule, &about,
                             "%s is not explosive: the second part of a "
                             "contrast is a throw, a jump, a strike or power work",
                             item_words(run, second));
        if (!finding)
            continue;
        diag_note(run->diag, finding, first->span, "the heavy part");
        diag_remark(run->diag, finding, "common practice, no source");
    }
}

/* Only if neither the gap between the parts nor the rest between sets gives the time. */
void check_contrast_rest(struct run *run, const struct rule *rule, const struct window *window)
{
    const struct occasion *occasion = window->occasions[0];
    for (size_t b = 0; b < occasion->block_count; b++) {
        const struct block *block = &occasion->blocks[b];
        const struct item *first, *second;
        if (!contrast_parts(block, &first, &second))
            continue;
        struct setting setting = run_setting(run, window, COUNTED_CONTRAST_REST);
        int gap = second->after > block->rest_low ? second->after : block->rest_low;
        run_margin(run, window, setting.limit, COUNTED_CONTRAST_REST, SIDE_ALL,
                   (milli)gap * 1000 - setting.value);
        if ((milli)gap * 1000 >= setting.value)
            continue;
        struct about about = {
            .window = window, .severity = setting.severity, .span = block->span, .weight = -gap};
        struct finding *finding = run_report(
            run, rule, &about, "contrast %c rests %s; the effect is best after %s and longer",
            block->letter, counted_amount(run->arena, COUNTED_CONTRAST_REST, (milli)gap * 1000),
            counted_amount(run->arena, COUNTED_CONTRAST_REST, setting.value));
        if (finding)
            run_note_setting(run, finding, &setting);
    }
}

/* --- what comes right before --- */

/* Hands that have to be fast: strikes with a hand, and throws. */
static bool is_fast_hands(const struct exercise *exercise)
{
    const unsigned hands = WORKER_LEAD_HAND | WORKER_REAR_HAND | WORKER_HAND;
    if (has_pattern(exercise, PATTERN_THROW))
        return true;
    return has_pattern(exercise, PATTERN_STRIKE) &&
           (exercise->workers & hands || !exercise->workers);
}

static bool is_long_hold(const struct item *item)
{
    for (size_t r = 0; r < item->run_count; r++) {
        const struct set_run *sets = &item->runs[r];
        bool maximal = run_rpe(sets).high >= VERY_HARD_RPE;
        for (size_t p = 0; p < sets->part_count; p++)
            if (sets->parts[p].max || sets->parts[p].amount.high >= LONG_HOLD * 1000)
                if (maximal && (sets->hold || item->exercise->kind == EXERCISE_HOLD))
                    return true;
    }
    return false;
}

/* Whether ITEM tires what a fast hand needs: grip work, or a long maximal hold with the arm. */
static bool tires_hands(const struct item *item)
{
    const struct exercise *exercise = item->exercise;
    if (has_pattern(exercise, PATTERN_GRIP) || exercise->loads[REGION_GRIP] >= 1000)
        return true;
    return is_long_hold(item) &&
           (exercise->loads[REGION_ARM] >= LOADED || exercise->loads[REGION_SHOULDER] >= LOADED ||
            exercise->loads[REGION_GRIP] >= LOADED);
}

void check_grip_before_hands(struct run *run, const struct rule *rule, const struct window *window)
{
    const struct occasion *occasion = window->occasions[0];
    const struct item *before = NULL;
    for (size_t b = 0; b < occasion->block_count; b++)
        for (size_t i = 0; i < occasion->blocks[b].item_count; i++) {
            const struct item *item = &occasion->blocks[b].items[i];
            if (before && is_fast_hands(item->exercise) && tires_hands(before)) {
                struct about about = about_item(rule, window, item);
                about.subject = before->exercise;
                struct finding *finding = run_report(
                    run, rule, &about, "%s comes right after %s, which tires the hand it needs",
                    item_words(run, item), item_words(run, before));
                if (finding) {
                    diag_note(run->diag, finding, before->span, "grip or holding work here");
                    diag_remark(run->diag, finding, "common practice, no source");
                    diag_help(run->diag, finding, "put the fast work first");
                }
            }
            before = item;
        }
}

static bool is_exhausting(const struct item *item)
{
    for (size_t r = 0; r < item->run_count; r++)
        if (run_rpe(&item->runs[r]).high >= VERY_HARD_RPE)
            return item->exercise->kind == EXERCISE_CONDITIONING ||
                   item->exercise->kind == EXERCISE_STRENGTH;
    return false;
}

void check_skill_after_work(struct run *run, const struct rule *rule, const struct window *window)
{
    const struct occasion *occasion = window->occasions[0];
    const struct item *tiring = NULL;
    for (size_t b = 0; b < occasion->block_count; b++)
        for (size_t i = 0; i < occasion->blocks[b].item_count; i++) {
            const struct item *item = &occasion->blocks[b].items[i];
            if (tiring && item->exercise->kind == EXERCISE_SKILL &&
                run_is_new(window, item->exercise, 1)) {
                struct about about = about_item(rule, window, item);
                struct finding *finding =
                    run_report(run, rule, &about, "%s is new, and comes after exhausting work",
                               item_words(run, item));
                if (finding) {
                    diag_note(run->diag, finding, tiring->span, "RPE 9 and up here");
                    diag_remark(run->diag, finding, "common practice, no source");
                    diag_help(run->diag, finding, "learn it fresh: put it first");
                }
            }
            tiring = is_exhausting(item) ? item : tiring;
        }
}

/* --- fillers --- */

void check_filler_load(struct run *run, const struct rule *rule, const struct window *window)
{
    const struct occasion *occasion = window->occasions[0];
    for (size_t b = 0; b < occasion->block_count; b++) {
        const struct block *block = &occasion->blocks[b];
        for (size_t f = 0; f < block->item_count; f++)
            for (size_t i = 0; block->items[f].filler && i < block->item_count; i++) {
                const struct item *filler = &block->items[f], *round = &block->items[i];
                int region = shared_region(filler->exercise, round->exercise);
                if (round->filler || region < 0)
                    continue;
                struct about about = about_item(rule, window, filler);
                struct finding *finding =
                    run_report(run, rule, &about, "%s in the rests loads the %s, which %s needs",
                               filler->exercise->name.shown, regions.names[region],
                               round->exercise->name.shown);
                if (finding) {
                    diag_note(run->diag, finding, round->span, "the round it rests from");
                    diag_remark(run->diag, finding, "common practice, no source");
                }
            }
    }
}

void check_filler_long(struct run *run, const struct rule *rule, const struct window *window)
{
    const struct occasion *occasion = window->occasions[0];
    for (size_t b = 0; b < occasion->block_count; b++) {
        const struct block *block = &occasion->blocks[b];
        int seconds = 0;
        const struct item *longest = NULL;
        for (size_t i = 0; i < block->item_count; i++)
            for (size_t r = 0; block->items[i].filler && r < block->items[i].run_count; r++) {
                seconds += block->items[i].runs[r].seconds;
                if (!longest || block->items[i].runs[r].seconds > longest->runs[0].seconds)
                    longest = &block->items[i];
            }
        int rest = block->rest_high > block->rest_low ? block->rest_high : block->rest_low;
        if (!longest || seconds <= rest)
            continue;
        struct about about = about_item(rule, window, longest);
        about.weight = seconds;
        struct finding *finding =
            run_report(run, rule, &about, "the fillers take %s and the rest is %s",
                       counted_amount(run->arena, COUNTED_CONTRAST_REST, (milli)seconds * 1000),
                       counted_amount(run->arena, COUNTED_CONTRAST_REST, (milli)rest * 1000));
        if (finding)
            diag_note(run->diag, finding, block->span, "the rest is set here");
    }
}

/* --- wraps --- */

void check_wraps(struct run *run, const struct rule *rule, const struct window *window)
{
    const struct occasion *occasion = window->occasions[0];
    for (size_t b = 0; b < occasion->block_count; b++) {
        const struct block *block = &occasion->blocks[b];
        for (size_t i = 1; i < block->item_count; i++) {
            const struct item *lift = &block->items[i - 1], *bag = &block->items[i];
            if (lift->exercise->kind != EXERCISE_STRENGTH ||
                !exercise_needs(bag->exercise, "heavy bag") || bag->filler ||
                bag->after >= WRAP_SECONDS)
                continue;
            struct about about = about_item(rule, window, bag);
            struct finding *finding =
                run_report(run, rule, &about, "no time to wrap the hands between %s and %s",
                           item_words(run, lift), item_words(run, bag));
            if (finding) {
                diag_remark(run->diag, finding, "common practice, no source");
                diag_help(run->diag, finding, "wraps on before the lift");
            }
        }
    }
}
