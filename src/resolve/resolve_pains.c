/* resolve_pains.c - where it hurt and how much, `pain left knee 3 of 10 on DATE`, which belongs below `private`. */
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "model/athlete.h"
#include "resolve/resolver.h"
#include "source/span_order.h"

enum { PAIN_MOST = 10 };

/* "left knee 3 of 10" is a place and a score; false: it is not, which is reported. */
static bool read_pain(struct resolver *r, const struct node *name, struct pain *pain)
{
    static const char end[] = " of 10";
    const char *folded = resolver_fold(r, name);
    size_t length = strlen(folded), tail = strlen(end);
    struct avoid place = {.region = -1, .joint = -1, .demand = -1};
    char *after = NULL;
    if (length > tail && strcmp(folded + length - tail, end) == 0) {
        const char *words = arena_copy(r->arena, folded, length - tail), *space = strrchr(words, ' ');
        long score = space ? strtol(space + 1, &after, 10) : -1;
        if (space && after > space + 1 && !*after && score >= 0 && score <= PAIN_MOST) {
            pain->score = (int)score;
            pain->shown = arena_copy(r->arena, words, (size_t)(space - words));
        }
    }
    if (!pain->shown) {
        struct finding *finding = diag_error(r->diag, DIAG_BAD_COUNT, name->span, "pain is a whole number out of 10");
        diag_help(r->diag, finding, "write it like `pain left knee 3 of 10 on 2027-03-01`");
        return false;
    }
    if (!read_avoided_joint(r, name, pain->shown, &place)) {
        struct finding *finding = diag_error(r->diag, DIAG_UNKNOWN_WORD, name->span, "`%s` is not a joint or a body region",
                                             pain->shown);
        const char *near = nearest_joint(r, pain->shown);
        diag_help(r->diag, finding, near ? "did you mean `%s`?" : "name a joint or a region: left knee, neck, lower back", near);
        return false;
    }
    pain->joint = place.joint;
    pain->region = place.region;
    pain->sides = place.sides;
    return true;
}

/* Those of one day are kept as written, so that the last is what was entered last. */
static int by_day(const void *left, const void *right)
{
    const struct pain *a = left, *b = right;
    if (a->day != b->day)
        return a->day < b->day ? -1 : 1;
    return span_order(a->span, b->span);
}

void resolve_pains(struct resolver *r, const struct node *node, struct athlete *athlete)
{
    enum { MOST_PAINS = 4000 };
    size_t capacity = arena_room(athlete->pain_count);
    for (const struct node *line = node_find(node, STATEMENT_PAIN); line; line = node_next_alike(line)) {
        struct pain pain = {.span = line->span};
        if (!read_pain(r, line->first, &pain) || !(pain.day = entered_on(r, line)))
            continue;
        if (node->kind != STATEMENT_PRIVATE)
            report_shared(r, line, athlete->name.shown);
        if (resolver_is_full(r, &athlete->pains, athlete->pain_count, MOST_PAINS, line->span, "an athlete", "pains"))
            break;
        athlete->pains = arena_grow(r->arena, athlete->pains, athlete->pain_count, &capacity, sizeof *athlete->pains);
        athlete->pains[athlete->pain_count++] = pain;
    }
}

void order_pains(struct athlete *athlete)
{
    if (athlete->pain_count > 1)
        qsort(athlete->pains, athlete->pain_count, sizeof *athlete->pains, by_day);
}
