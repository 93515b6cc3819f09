/* What a coach lets pass: which check, for how much, on which days, and why. */
#include "model/programme.h"
#include "resolve/calendar.h"
#include "resolve/place.h"
#include "resolve/resolver.h"

static void keep_waiver(struct resolver *r, const struct waiver *waiver)
{
    r->waivers = arena_grow(r->arena, r->waivers, r->waiver_count, &r->waiver_capacity, sizeof *r->waivers);
    r->waivers[r->waiver_count++] = *waiver;
}

/* Keeps WAIVER for the days of NAMED. Phases and weeks out come once for each bout, and not in between. */
static void keep_waiver_on(struct resolver *r, struct waiver waiver, const struct days_covered *named)
{
    bool parted = named->phase || named->back;
    for (int day = named->first, last; day <= named->last; day = last + 1) {
        last = parted ? day : named->last;
        if (parted && !covers_day(named, waiver.camp, day))
            continue;
        while (last < named->last && covers_day(named, waiver.camp, last + 1))
            last++;
        waiver.first = day;
        waiver.last = last;
        keep_waiver(r, &waiver);
    }
}

void waiver_read(struct resolver *r, const struct node *node, const struct camp *camp,
                 const struct days_covered *covered, const void *place)
{
    const struct node *when = node_find(node, NODE_WHEN);
    const struct node *because = node_find(node, STATEMENT_BECAUSE);
    struct waiver waiver = {.check = resolver_fold(r, node->first), .because = resolver_text(because),
                            .camp = camp, .place = place, .span = node->span};
    const struct node *cap = node_find(node, NODE_UP_TO);
    waiver.capped = cap != NULL;
    waiver.cap = cap ? cap->number : 0;
    struct days_covered named;
    bool until = false;
    if (when && when->code == WHEN_UNTIL && when->first->kind == NODE_DATE) {
        waiver.first = covered ? covered->first : camp->first;
        waiver.last = (int)when->first->number;
        until = true;
    } else if (when && camp_covers(r, camp, when, &named)) {
        if (named.left_out)
            return;
    } else if (!when) {
        struct finding *finding = diag_error(r->diag, DIAG_WAIVER_WITHOUT_END, node->span,
                                             "a waiver names its week or the day on which it ends");
        diag_help(r->diag, finding, "add `in week 3`, or `until` with a day");
        return;
    } else {
        return;
    }
    if (!waiver.because) {
        struct finding *finding = diag_error(r->diag, DIAG_WAIVER_WITHOUT_REASON, node->span, "a waiver says why");
        diag_help(r->diag, finding, "add a line `because ...` below it");
        return;
    }
    if (until)
        keep_waiver(r, &waiver);
    else
        keep_waiver_on(r, waiver, &named);
}
