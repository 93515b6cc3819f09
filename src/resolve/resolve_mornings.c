/* resolve_mornings.c - how an athlete slept and feels, which stands below `private` alone. */
#include <stdlib.h>

#include "base/text.h"
#include "figures/dates.h"
#include "model/athlete.h"
#include "resolve/resolver.h"

static const char *const item_names[MORNING_ITEMS] = {"sleep", "soreness", "fatigue", "stress", "mood"};

static int item_of(const char *folded)
{
    for (int i = 0; i < MORNING_ITEMS; i++)
        if (text_same(item_names[i], folded))
            return i;
    return -1;
}

/* False: an item is missing, unknown or no score, which is reported. */
static bool read_scores(struct resolver *r, const struct node *line, struct morning *morning)
{
    size_t errors = resolver_errors(r);
    for (const struct node *score = node_find(line, NODE_SHARE); score; score = node_next_alike(score)) {
        int item = item_of(resolver_fold(r, score->first));
        const struct node *number = score->last;
        if (item < 0) {
            struct finding *finding = diag_error(r->diag, DIAG_UNKNOWN_WORD, score->first->span,
                                                 "`%s` is not asked for in the morning", score->first->text);
            diag_help(r->diag, finding, "sleep, soreness, fatigue, stress and mood");
        } else if (number->number % 1000 || number->number < 1000 || number->number > 5000) {
            diag_error(r->diag, DIAG_BAD_COUNT, number->span, "a score is 1, 2, 3, 4 or 5, and 5 is best");
        } else if (morning->scores[item]) {
            diag_error(r->diag, DIAG_SAID_TWICE, score->span, "this morning gives its %s twice", item_names[item]);
        } else {
            morning->scores[item] = (int)(number->number / 1000);
        }
    }
    morning->sum = 0;
    for (int i = 0; i < MORNING_ITEMS; i++) {
        morning->sum += morning->scores[i];
        if (morning->scores[i] || resolver_errors(r) > errors)
            continue;
        struct finding *finding = diag_error(r->diag, DIAG_LINE_TOO_SHORT, line->span, "this morning has no %s", item_names[i]);
        diag_help(r->diag, finding, "write it like `morning 2027-03-01 : sleep 4, soreness 3, fatigue 4, stress 5, mood 4`");
    }
    return resolver_errors(r) == errors;
}

static int by_day(const void *left, const void *right)
{
    const struct morning *a = left, *b = right;
    return a->day < b->day ? -1 : a->day > b->day;
}

static bool is_doubled(struct resolver *r, const struct athlete *athlete, const struct morning *morning, struct span span)
{
    for (size_t i = 0; i < athlete->morning_count; i++)
        if (athlete->mornings[i].day == morning->day) {
            struct finding *finding = diag_error(r->diag, DIAG_SAID_TWICE, span, "this morning is entered twice");
            diag_note(r->diag, finding, athlete->mornings[i].span, "the other is here");
            return true;
        }
    return false;
}

void resolve_mornings(struct resolver *r, const struct node *node, struct athlete *athlete)
{
    enum { MOST_MORNINGS = 4000 };
    size_t capacity = arena_room(athlete->morning_count);
    for (const struct node *line = node_find(node, STATEMENT_MORNING); line; line = node_next_alike(line)) {
        struct morning morning = {.day = (int)line->first->number, .span = line->span};
        if (node->kind != STATEMENT_PRIVATE) {
            struct finding *finding = diag_error(r->diag, DIAG_HEALTH_REASON, line->span,
                                                 "how somebody feels does not belong in a plan that others read");
            diag_help(r->diag, finding, "move the line below `private %s`", athlete->name.shown);
            diag_set_neutral(finding, "");
            continue;
        }
        if (r->today && morning.day > r->today) {
            diag_error(r->diag, DIAG_FUTURE_ENTRY, line->span, "an entry for a day in the future does not count");
            continue;
        }
        if (!read_scores(r, line, &morning) || is_doubled(r, athlete, &morning, line->span))
            continue;
        if (resolver_is_full(r, &athlete->mornings, athlete->morning_count, MOST_MORNINGS, line->span, "an athlete", "mornings"))
            break;
        athlete->mornings = arena_grow(r->arena, athlete->mornings, athlete->morning_count, &capacity,
                                       sizeof *athlete->mornings);
        athlete->mornings[athlete->morning_count++] = morning;
    }
}

void order_mornings(struct athlete *athlete)
{
    if (athlete->morning_count > 1)
        qsort(athlete->mornings, athlete->morning_count, sizeof *athlete->mornings, by_day);
}
