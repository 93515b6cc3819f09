/* resolve_choice.c - who does what of a line: the variant that applies, what takes the place of what an athlete has to
 * avoid, and what is done if the gym lacks the kit. */
#include <string.h>

#include "measure/avoid.h"
#include "measure/demand.h"
#include "measure/kit.h"
#include "measure/loads.h"
#include "measure/person.h"
#include "measure/facts.h"
#include "model/athlete.h"
#include "model/exercise.h"
#include "resolve/template.h"
#include "resolve/tracking.h"

/* --- the variant --- */

static bool variant_holds(const struct variant *variant, const struct occasion *occasion)
{
    const struct athlete *athlete = occasion->athlete;
    switch (variant->kind) {
    case VARIANT_ATHLETE: return variant->athlete == athlete;
    case VARIANT_KIT: return occasion_gym(occasion) && gym_count(occasion_gym(occasion), variant->kit) == 0;
    case VARIANT_AGE: return athlete_is_aged(athlete, occasion->date, variant->age_from, variant->age_below);
    case VARIANT_LEVEL: return athlete_level_on(athlete, occasion->date) == variant->level;
    case VARIANT_WEEKS: break;
    }
    return occasion->week >= variant->first && occasion->week <= variant->last;
    return false;
}

/* Weeks first narrow the line itself; of the others the most specific wins: athlete, kit, age, lifting age. */
static bool more_specific(const struct variant *a, const struct variant *b)
{
    if (a->kind == VARIANT_WEEKS)
        return a->last - a->first < b->last - b->first;
    return a->kind < b->kind;
}

static void report_tie(struct resolver *r, const struct variant *a, const struct variant *b,
                       const struct occasion *occasion)
{
    struct finding *finding = diag_error(r->diag, DIAG_VARIANTS_TIE, b->span,
                                         "two variants of one line apply to %s", occasion->athlete->name.shown);
    diag_note(r->diag, finding, a->span, "the other is here");
    diag_help(r->diag, finding, "make one of them narrower, or name the athlete");
}

/* The variant of the line that applies: among its weeks, or among the others. */
static struct variant *most_specific(const struct template_item *item, const struct occasion *occasion, bool weeks)
{
    struct variant *best = NULL;
    for (size_t i = 0; i < item->variant_count; i++) {
        struct variant *variant = &item->variants[i];
        if ((variant->kind == VARIANT_WEEKS) == weeks && variant_holds(variant, occasion) &&
            (!best || more_specific(variant, best)))
            best = variant;
    }
    return best;
}

/* VARIANT applies: so does the one of the session that it is made of. */
static void meet(struct resolver *r, struct variant *variant)
{
    while (variant->of)
        variant = variant->of;
    variant->met = true;
    track_met(r, variant);
}

/* The same for the athlete whose sessions are worked out: notes that it was met, and reports what else applies as well. */
static struct variant *choose(struct resolver *r, const struct template_item *item,
                              const struct occasion *occasion, bool weeks)
{
    struct variant *best = most_specific(item, occasion, weeks);
    if (!best)
        return NULL;
    meet(r, best);
    for (size_t i = 0; i < item->variant_count; i++) {
        struct variant *variant = &item->variants[i];
        if (variant == best || (variant->kind == VARIANT_WEEKS) != weeks || !variant_holds(variant, occasion) ||
            more_specific(best, variant))
            continue;
        meet(r, variant);
        report_tie(r, best, variant, occasion);
    }
    return best;
}

static const char *variant_reason(struct resolver *r, const struct variant *variant, const struct occasion *occasion)
{
    switch (variant->kind) {
    case VARIANT_ATHLETE: return arena_printf(r->arena, "for %s", occasion->athlete->name.shown);
    case VARIANT_KIT: return arena_printf(r->arena, "no %s at %s", variant->kit, occasion_gym(occasion)->name.shown);
    case VARIANT_AGE: return "for the age group";
    case VARIANT_LEVEL: return arena_printf(r->arena, "for %s", levels.names[variant->level]);
    case VARIANT_WEEKS: break;
    }
    return "for these weeks";
}

/* --- what becomes of the load --- */

/* Is THING, with which TO would be loaded, something that it needs? `light band` is a band. */
static bool is_needed(struct resolver *r, const struct exercise *to, const char *thing)
{
    const char *folded = resolver_folded(r, thing);
    size_t length = strlen(folded);
    bool band = length > 5 && strcmp(folded + length - 5, " band") == 0;
    return exercise_needs(to, folded) || (band && exercise_needs(to, "band"));
}

/* Body mass alone carries over to whatever the body does without an implement. */
static bool body_goes_over(const struct dose_load *load, const struct exercise *from, const struct exercise *to,
                           const struct gym *gym)
{
    bool plain = load->word == LOAD_WORD_BODY && !load->extra;
    return plain ? to->weigh == WEIGH_UNSAID || to->weigh == WEIGH_ADDED : loads_alike(gym, from, to);
}

/* Does the load written for FROM mean the same for TO? Kilograms do if both use the same kit and mean the same by them;
 * a share of a best does if there is one; `last` refers to TO itself. */
static bool load_goes_over(struct resolver *r, const struct dose *dose, const struct exercise *from,
                           const struct exercise *to, const struct occasion *occasion)
{
    const struct dose_load *load = &dose->load;
    switch (load->word) {
    case LOAD_WORD_FIGURE:
        if (load->figures->measure == MEASURE_PERCENT)
            return athlete_best(occasion->athlete, to->base, occasion->date);
        if (load->figures->measure == MEASURE_RM)
            return true;
        break;
    case LOAD_WORD_BODY: case LOAD_WORD_SHARE_BODY:
        return body_goes_over(load, from, to, occasion_gym(occasion));
    case LOAD_WORD_THING: return is_needed(r, to, load->thing);
    case LOAD_WORD_LAST: return true;
    case LOAD_WORD_SHARE_TEST: return false;
    case LOAD_WORD_PIECES: case LOAD_WORD_SHARE_REF: break;
    }
    return loads_alike(occasion_gym(occasion), from, to);
}

/* Exchanges the exercise; the dose stays, and its load only if it means the same for the other. */
static void exchange(struct resolver *r, struct choice *choice, const struct exercise *exercise,
                     enum exchange kind, const struct occasion *occasion)
{
    const struct dose *dose = choice->dose;
    if (dose && dose->load.given && !load_goes_over(r, dose, choice->exercise, exercise, occasion)) {
        struct dose *without = dose_merge(r, dose, NULL);
        without->load = (struct dose_load){0};
        choice->dose = without;
        choice->left = &dose->load;
    }
    choice->exercise = exercise;
    choice->exchange = kind;
}

/* What the line asks for, as written: "4 each stance". */
static const char *amount_words(struct resolver *r, const struct dose *dose)
{
    if (!dose->part_count)
        return "8";
    struct span span = dose->parts[0].span;
    span.end = dose->parts[dose->part_count - 1].span.end;
    return resolver_written(r, span);
}

/* A load is never guessed: if neither it nor an effort is left, the coach is asked. */
static void report_load_gone(struct resolver *r, const struct template_item *item, const struct occasion *occasion,
                             const struct choice *choice)
{
    const struct athlete *athlete = occasion->athlete;
    const struct gym *gym = choice->exchange == EXCHANGE_KIT ? occasion_gym(occasion) : NULL;
    if ((gym && resolver_is_poisoned(r, gym)) || resolver_is_poisoned(r, athlete))
        return;
    struct finding *finding =
        diag_error(r->diag, DIAG_LOAD_GONE, item->span, "%s does %s here (%s), but `%s` is a load for "
                                                        "%s", athlete->name.shown,
                   choice->exercise->name.shown, choice->why, resolver_written(r, choice->left->span),
                   item->exercise->name.shown);
    if (gym)
        diag_note(r->diag, finding, gym->name.span, "the kit of %s", gym->name.shown);
    diag_help(r->diag, finding, "below the line, say how much: `for %s, %s : %s @ RPE 7`%s", athlete->name.shown,
              choice->exercise->name.shown, amount_words(r, choice->dose), gym ? ", or correct the gym's list" : "");
}

/* --- in place of what cannot or must not be done --- */

/* gym_missing, worked out once for each gym and exercise. */
static const struct need *find_missing(struct resolver *r, const struct gym *gym, const struct exercise *exercise)
{
    struct missing_need **missing = &r->missing[gym->number];
    if (!*missing)
        *missing = arena_alloc(r->arena, programme_exercise_count(r->programme) * sizeof **missing);
    struct missing_need *one = &(*missing)[exercise->number];
    if (!one->known)
        *one = (struct missing_need){true, gym_missing(gym, exercise)};
    return one->need;
}

/* What the shelf says replaces an exercise whose kit the gym lacks. */
static const struct exercise *without_kit(struct resolver *r, const struct exercise *exercise,
                                          const struct gym *gym, const char **why)
{
    enum { LONGEST_CHAIN = 8 };
    for (int i = 0; i < LONGEST_CHAIN && gym; i++) {
        const struct need *missing = find_missing(r, gym, exercise);
        const struct exercise *instead = NULL;
        for (size_t k = 0; missing && k < exercise->without_count && !instead; k++)
            if (strcmp(exercise->without[k].kit.folded, missing->name.folded) == 0)
                instead = exercise->without[k].instead;
        if (!instead)
            return exercise;
        if (i == 0) /* what the coach asked for, not what a substitute would need */
            *why = arena_printf(r->arena, "no %s at %s", missing->name.shown, gym->name.shown);
        exercise = instead;
    }
    return exercise;
}

/* What a standing restriction says is done in place of what it bars. It is shown like a line of the athlete's own: that
 * there is a restriction is for the coach alone. */
static const struct exercise *instead_of_avoided(struct resolver *r, const struct exercise *exercise,
                                                 const struct occasion *occasion, const char **why)
{
    const struct athlete *athlete = occasion->athlete;
    for (size_t i = 0; i < athlete->avoid_count; i++) {
        const struct avoid *avoid = &athlete->avoids[i];
        if (avoid->instead && avoid_stands(avoid, occasion->date) && avoid_bars(avoid, exercise)) {
            *why = arena_printf(r->arena, "for %s", athlete->name.shown);
            return avoid->instead;
        }
    }
    return exercise;
}

/* A restriction comes before what the gym lacks: a missing bench must not undo what a physiotherapist chose. */
static void keep_from_avoided(struct resolver *r, struct choice *choice, const struct occasion *occasion)
{
    const struct exercise *instead = instead_of_avoided(r, choice->exercise, occasion, &choice->why);
    if (instead == choice->exercise)
        return;
    choice->own = true;
    exchange(r, choice, instead, EXCHANGE_AVOID, occasion);
}

struct choice choose_work(struct resolver *r, const struct template_item *item, const struct occasion *occasion)
{
    struct choice choice = {.exercise = item->exercise, .dose = item->dose, .span = item->span};
    struct variant *weeks = choose(r, item, occasion, true);
    if (weeks) {
        choice.dose = dose_merge(r, choice.dose, weeks->dose);
        choice.span = weeks->span;
        choice.why = variant_reason(r, weeks, occasion);
    }
    struct variant *variant = choose(r, item, occasion, false);
    if (variant) {
        if (variant->exercise && variant->exercise != choice.exercise)
            exchange(r, &choice, variant->exercise, EXCHANGE_WRITTEN, occasion);
        if (variant->dose && variant->dose->part_count)
            choice.left = NULL; /* its own amount: the coach thought of what is done */
        choice.dose = dose_merge(r, choice.dose, variant->dose);
        choice.span = variant->span;
        choice.own = variant->kind != VARIANT_KIT;
        choice.why = variant_reason(r, variant, occasion);
    }
    keep_from_avoided(r, &choice, occasion);
    const struct exercise *there = without_kit(r, choice.exercise, occasion_gym(occasion), &choice.why);
    if (there != choice.exercise) {
        exchange(r, &choice, there, EXCHANGE_KIT, occasion);
        keep_from_avoided(r, &choice, occasion);
    }
    if (choice.left && choice.dose->load.given)
        choice.left = NULL; /* another load was given */
    if (choice.left && !choice.dose->effort.given)
        report_load_gone(r, item, occasion, &choice);
    return choice;
}

const struct exercise *exercise_done(struct resolver *r, const struct template_item *item, const struct occasion *occasion)
{
    const char *why;
    const struct variant *variant = most_specific(item, occasion, false);
    const struct exercise *exercise = variant && variant->exercise ? variant->exercise : item->exercise;
    exercise = instead_of_avoided(r, exercise, occasion, &why);
    const struct exercise *there = without_kit(r, exercise, occasion_gym(occasion), &why);
    return there == exercise ? there : instead_of_avoided(r, there, occasion, &why);
}
