/* resolve_near.c - which of what is placed a log is of. */
#include <stdlib.h>

#include "figures/dates.h"
#include "model/athlete.h"
#include "resolve/place.h"

/* By athlete, session and day. */
static int by_day(const void *left, const void *right)
{
    const struct occasion *a = &(*(const struct placed *const *)left)->occasion;
    const struct occasion *b = &(*(const struct placed *const *)right)->occasion;
    if (a->athlete != b->athlete)
        return a->athlete->number < b->athlete->number ? -1 : 1;
    if (a->session->first != b->session->first)
        return a->session->first->number < b->session->first->number ? -1 : 1;
    if (a->date != b->date)
        return a->date < b->date ? -1 : 1;
    return a->clock < b->clock ? -1 : a->clock > b->clock;
}

static void put_in_order(struct resolver *r)
{
    r->placed_order = arena_alloc(r->arena, (r->placed_count + 1) * sizeof *r->placed_order);
    for (size_t i = 0; i < r->placed_count; i++)
        if (r->placed[i].occasion.session && r->placed[i].template)
            r->placed_order[r->placed_ordered++] = &r->placed[i];
    if (r->placed_ordered > 1)
        qsort(r->placed_order, r->placed_ordered, sizeof *r->placed_order, by_day);
}

/* Is A nearer to DAY and CLOCK than B? */
static bool is_nearer(const struct placed *a, const struct placed *b, int day, int clock)
{
    int far = abs(a->occasion.date - day), farther = abs(b->occasion.date - day);
    if (far != farther)
        return far < farther;
    return a->occasion.clock == clock && b->occasion.clock != clock;
}

const struct placed *placed_near(struct resolver *r, const struct athlete *athlete, const struct session *session, int day,
                                 int clock)
{
    int monday = date_monday(day);
    const struct placed key = {.occasion = {.athlete = athlete, .session = session, .date = monday, .clock = -1}};
    const struct placed *asked = &key, *best = NULL;
    if (!r->placed_order)
        put_in_order(r);
    size_t low = 0, high = r->placed_ordered;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (by_day(&r->placed_order[middle], &asked) < 0)
            low = middle + 1;
        else
            high = middle;
    }
    for (; low < r->placed_ordered; low++) {
        const struct placed *placed = r->placed_order[low];
        if (placed->occasion.athlete != athlete || placed->occasion.session->first != session->first ||
            placed->occasion.date > monday + 6)
            break;
        if (!best || is_nearer(placed, best, day, clock))
            best = placed;
    }
    return best;
}
