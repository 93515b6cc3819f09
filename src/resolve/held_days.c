/* held_days.c - the record as a whole: no day of it twice, found by who and when, and put in place of what the plan would have
 * placed on closed days. */
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "model/athlete.h"
#include "model/season.h"
#include "resolve/calendar.h"
#include "resolve/place.h"
#include "resolve/resolver.h"
#include "source/span_order.h"

static int by_person(const struct occasion *a, const struct occasion *b)
{
    if (a->athlete != b->athlete)
        return a->athlete->number < b->athlete->number ? -1 : 1;
    return a->date != b->date ? (a->date < b->date ? -1 : 1) : 0;
}

static int by_key(const void *left, const void *right)
{
    const struct occasion *a = &((const struct placed *)left)->occasion, *b = &((const struct placed *)right)->occasion;
    int person = by_person(a, b);
    if (person)
        return person;
    size_t s = a->session ? a->session->first->number : 0, t = b->session ? b->session->first->number : 0;
    if (s != t)
        return s < t ? -1 : 1;
    if (a->activity != b->activity)
        return (uintptr_t)a->activity < (uintptr_t)b->activity ? -1 : 1;
    if (a->clock != b->clock)
        return a->clock < b->clock ? -1 : 1;
    return span_order(a->span, b->span);
}

static bool same_key(const struct occasion *a, const struct occasion *b)
{
    bool session = a->session && b->session ? a->session->first == b->session->first : a->session == b->session;
    return a->athlete == b->athlete && a->date == b->date && session && a->activity == b->activity;
}

static void look_at(struct resolver *r, const struct occasion *occasion, const struct occasion *before)
{
    struct finding *finding = NULL;
    if (before && same_key(occasion, before) && occasion->clock == before->clock) {
        finding = diag_error(r->diag, DIAG_HELD_TWICE, occasion->span, "this is in the record twice");
        diag_note(r->diag, finding, before->span, "the first is here");
        diag_help(r->diag, finding, "leave one out; if there were two that day, give each its hour");
    } else if (occasion->date > r->closed) {
        finding = diag_error(r->diag, DIAG_HELD_OPEN, occasion->span, "this day is not closed");
        diag_help(r->diag, finding, "`held until` has to reach it; `bellsheet close` writes both");
    }
}

void check_held(struct resolver *r)
{
    if (r->held_count > 1)
        qsort(r->held, r->held_count, sizeof *r->held, by_key);
    size_t kept = 0;
    for (size_t i = 0; i < r->held_count; i++) {
        size_t errors = resolver_errors(r);
        look_at(r, &r->held[i].occasion, kept ? &r->held[kept - 1].occasion : NULL);
        if (resolver_errors(r) == errors)
            r->held[kept++] = r->held[i];
    }
    r->held_count = kept;
}

/* The first of the record that is of KEY's athlete and day or comes behind. */
static size_t find_first(const struct resolver *r, const struct occasion *key)
{
    size_t low = 0, high = r->held_count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (by_person(&r->held[middle].occasion, key) < 0)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

static struct placed *find_held(const struct resolver *r, const struct occasion *key)
{
    for (size_t i = find_first(r, key); i < r->held_count && by_person(&r->held[i].occasion, key) == 0; i++) {
        const struct occasion *held = &r->held[i].occasion;
        if (same_key(held, key) && (key->clock < 0 || held->clock < 0 || held->clock == key->clock))
            return &r->held[i];
    }
    return NULL;
}

const struct occasion *held_session(const struct resolver *r, const struct athlete *athlete,
                                    const struct session *session, int day, int clock)
{
    const struct occasion key = {.athlete = athlete, .session = session, .date = day, .clock = clock};
    const struct placed *held = day <= r->closed ? find_held(r, &key) : NULL;
    return held ? &held->occasion : NULL;
}

const struct occasion *held_of(const struct resolver *r, const struct occasion *planned)
{
    const struct placed *held = find_held(r, planned);
    return held ? &held->occasion : NULL;
}

static void append(struct resolver *r, struct placed **list, size_t *count, size_t *capacity, struct placed placed)
{
    *list = arena_grow(r->arena, *list, *count, capacity, sizeof **list);
    (*list)[(*count)++] = placed;
}

/* A camp keeps whoever was in it on a closed day, and reaches as far as that. One that is lost is made of its days. */
static void join_camp(struct resolver *r, const struct occasion *held)
{
    struct camp *camp = (struct camp *)held->camp;
    bool in = false;
    for (size_t i = 0; i < camp->athlete_count; i++)
        in = in || camp->athletes[i] == held->athlete;
    if (!in) {
        const struct athlete **athletes = arena_alloc(r->arena, (camp->athlete_count + 1) * sizeof *athletes);
        if (camp->athlete_count)
            memcpy(athletes, camp->athletes, camp->athlete_count * sizeof *athletes);
        athletes[camp->athlete_count++] = held->athlete;
        camp->athletes = athletes;
    }
    camp->first = camp->first && camp->first <= held->date ? camp->first : held->date;
    camp->last = camp->last >= held->date ? camp->last : held->date;
    camp->weeks = camp_week(camp, camp->last);
    if (!camp->limits_count)
        camp_take_house_limits(r, camp);
}

void close_placed(struct resolver *r)
{
    size_t kept = 0;
    for (size_t i = 0; i < r->placed_count; i++) {
        struct placed placed = r->placed[i];
        if (placed.occasion.date > r->closed) {
            r->placed[kept++] = placed;
            continue;
        }
        struct placed *held = find_held(r, &placed.occasion);
        if (held)
            held->occasion.place = placed.occasion.place; /* so that what is waived below that line stays waived */
        append(r, &r->overtaken, &r->overtaken_count, &r->overtaken_capacity, placed);
    }
    r->placed_count = kept;
    for (size_t i = 0; i < r->held_count; i++) {
        join_camp(r, &r->held[i].occasion);
        append(r, &r->placed, &r->placed_count, &r->placed_capacity, r->held[i]);
    }
}
