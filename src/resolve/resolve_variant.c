/* Who does a line of a session differently, when, and what. */
#include <stdio.h>
#include <string.h>

#include "model/exercise.h"
#include "resolve/template.h"
#include "resolve/tracking.h"

enum { MOST_WEEKS = 260 };

/* `under 18`, `over 40`, `16-17`: an age group. */
static bool read_age(const char *folded, struct variant *variant)
{
    int from = 0, to = 0, length = 0;
    size_t all = strlen(folded);
    if (sscanf(folded, "under %3d%n", &to, &length) == 1 && (size_t)length == all) {
        variant->age_below = to;
    } else if (sscanf(folded, "over %3d%n", &from, &length) == 1 && (size_t)length == all) {
        variant->age_from = from + 1;
    } else if (sscanf(folded, "%3d-%3d%n", &from, &to, &length) == 2 && (size_t)length == all) {
        variant->age_from = from;
        variant->age_below = to + 1;
    } else {
        return false;
    }
    variant->kind = VARIANT_AGE;
    return true;
}

static bool read_who(struct resolver *r, const struct node *name, struct variant *variant)
{
    const char *folded = resolver_fold(r, name);
    int level = vocabulary_find(&levels, folded);
    if (level >= 0) {
        variant->kind = VARIANT_LEVEL;
        variant->level = (enum level)level;
        return true;
    }
    if (read_age(folded, variant))
        return true;
    variant->kind = VARIANT_ATHLETE;
    variant->athlete = names_find(r->athletes, folded);
    if (variant->athlete)
        return true;
    struct finding *finding = diag_error(r->diag, DIAG_UNKNOWN_ATHLETE, name->span,
                                         "`%s` is not an athlete, lifting age or age group", name->text);
    if (!resolver_propose(r, finding, name, &r->athletes, 1))
        diag_help(r->diag, finding, "novice, intermediate, advanced, under 18, or an athlete's name");
    return false;
}

static bool read_weeks(struct resolver *r, const struct node *node, struct variant *variant)
{
    const struct node *when = node->first, *figure = when->first;
    variant->kind = VARIANT_WEEKS;
    if (when->code != WHEN_WEEKS) {
        diag_error(r->diag, DIAG_WRONG_WEEKS, when->span, "this line takes weeks of the camp: `weeks 3-4`");
        return false;
    }
    return resolver_whole_range(r, figure, MOST_WEEKS, "weeks", &variant->first, &variant->last);
}

static bool read_variant(struct resolver *r, const struct node *node, struct variant *variant)
{
    *variant = (struct variant){.span = node->span};
    const struct node *last = node->last;
    const struct node *dose = last->kind == NODE_DOSE || last->kind == NODE_INTERVALS ? last : NULL;
    if (dose)
        variant->dose = dose_read(r, dose);
    if (node->kind == STATEMENT_WEEKS)
        return read_weeks(r, node, variant);
    if (node->kind == STATEMENT_WITHOUT) {
        variant->kind = VARIANT_KIT;
        variant->kit = resolver_fold(r, node->first);
    } else if (!read_who(r, node->first, variant)) {
        return false;
    }
    const struct node *instead = node->first->next;
    if (instead && instead->kind == NODE_NAME) {
        variant->exercise = resolver_find(r, instead, "exercise", r->exercises);
        return variant->exercise != NULL;
    }
    if (!dose)
        diag_error(r->diag, DIAG_LINE_TOO_SHORT, node->span, "this says who, but not what they do instead");
    return dose != NULL;
}

static bool is_variant(enum node_kind kind)
{
    return kind == STATEMENT_FOR || kind == STATEMENT_WITHOUT || kind == STATEMENT_WEEKS;
}

/* What is done in place of the line's exercise without a piece of kit: a squad may come to share that piece. */
static void keep_substitutes(struct resolver *r, struct template_item *item)
{
    struct substitute *all = arena_alloc(r->arena, (item->variant_count + 1) * sizeof *all);
    item->without = all;
    for (size_t i = 0; i < item->variant_count; i++) {
        const struct variant *variant = &item->variants[i];
        if (variant->kind == VARIANT_KIT && variant->exercise)
            all[item->without_count++] = (struct substitute){.kit = {.shown = variant->kit, .folded = variant->kit},
                                                             .instead = variant->exercise,
                                                             .instead_name = variant->exercise->name};
    }
}

void template_read_variants(struct resolver *r, const struct node *node, struct template_item *item)
{
    enum { MOST_VARIANTS = 60 };
    size_t capacity = 0;
    resolver_single(r, node, STATEMENT_CUE);
    resolver_single(r, node, STATEMENT_AS_TEST);
    resolver_single(r, node, STATEMENT_STOP);
    for (const struct node *child = node->first; child; child = child->next) {
        if (child->kind == STATEMENT_CUE)
            item->cue = resolver_text(child);
        if (child->kind == STATEMENT_AS_TEST)
            item->test = true;
        if (child->kind == STATEMENT_STOP)
            item->stop = resolver_text(child);
        if (!is_variant(child->kind))
            continue;
        if (item->variant_count == MOST_VARIANTS) {
            diag_error(r->diag, DIAG_TOO_MANY_ITEMS, child->span, "a line has at most %d variants", MOST_VARIANTS);
            break;
        }
        item->variants = arena_grow(r->arena, item->variants, item->variant_count, &capacity, sizeof *item->variants);
        if (read_variant(r, child, &item->variants[item->variant_count]))
            item->variant_count++;
    }
    const struct node *next = resolver_single(r, node, STATEMENT_NEXT_TIME);
    if (next)
        item->next = progress_read(r, next, item);
    for (size_t i = 0; i < item->variant_count; i++)
        track_variant(r, &item->variants[i]);
    if (item->variant_count)
        keep_substitutes(r, item);
}
