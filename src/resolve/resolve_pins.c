/* resolve_pins.c - the phases of closed days are those that the record names, wherever the bout has moved since. */
#include <stdlib.h>
#include <string.h>

#include "resolve/calendar.h"
#include "model/athlete.h"
#include "model/season.h"
#include "resolve/place.h"

/* CAMP's phase called FOLDED, or NULL. */
static const struct phase *phase_called(const struct camp *camp, const char *folded)
{
    for (size_t i = 0; i < camp->phase_count; i++)
        if (strcmp(camp->phases[i].name.folded, folded) == 0)
            return &camp->phases[i];
    return NULL;
}

/* The camp whose phase HELD was in: its own, or, of a squad's, that athlete's with a bout. */
static const struct camp *camp_of(const struct own_camp *own, const struct placed *held)
{
    const struct camp *camp = held->occasion.camp;
    for (; own && !camp->bout_count && !camp->phase_count; own = own->next)
        if (phase_called(own->camp, held->held_phase))
            return own->camp;
    return camp;
}

/* One day of a camp and the phase that the record has it in. */
struct pin {
    const struct camp *camp;
    int date;
    const char *phase; /* folded */
};

static int by_camp_and_day(const void *left, const void *right)
{
    const struct pin *a = left, *b = right;
    if (a->camp != b->camp)
        return a->camp->number < b->camp->number ? -1 : 1;
    return a->date < b->date ? -1 : a->date > b->date;
}

/* Do the phases of PINS' camp, as they are worked out now, say the same of all their days? */
static bool agree(const struct pin *pins, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        const struct phase *phase = camp_phase(pins[i].camp, pins[i].date);
        if (!phase || strcmp(phase->name.folded, pins[i].phase) != 0)
            return false;
    }
    return true;
}

/* A phase of the record, from FIRST on; one that the plan no longer names has no more than its name. */
static struct phase begin(struct resolver *r, const struct camp *camp, const char *folded, int first)
{
    const struct phase *known = phase_called(camp, folded);
    struct phase phase = known ? *known : (struct phase){.name = {folded, folded, camp->name.span}};
    phase.first = first;
    phase.last = r->closed;
    phase.open = false;
    return phase;
}

/* Closed days by PINS, then what is worked out for the days to come. A phase that goes on over both is one. */
static void pin_camp(struct resolver *r, struct camp *camp, const struct pin *pins, size_t count)
{
    struct phase *phases = arena_alloc(r->arena, (count + camp->phase_count + 1) * sizeof *phases);
    size_t made = 0;
    for (size_t i = 0; i < count; i++) {
        if (made && strcmp(phases[made - 1].name.folded, pins[i].phase) == 0)
            continue;
        if (made)
            phases[made - 1].last = pins[i].date - 1;
        phases[made] = begin(r, camp, pins[i].phase, made ? pins[i].date : camp->first);
        made++;
    }
    for (size_t i = 0; i < camp->phase_count; i++) {
        struct phase phase = camp->phases[i];
        if (phase.last <= r->closed)
            continue;
        phase.first = phase.first > r->closed ? phase.first : r->closed + 1;
        if (made && phase.first == r->closed + 1 && strcmp(phases[made - 1].name.folded, phase.name.folded) == 0)
            phases[made - 1].last = phase.last;
        else
            phases[made++] = phase;
    }
    camp->phases = phases;
    camp->phase_count = made;
}

void pin_phases(struct resolver *r, const struct own_camp *const *own)
{
    struct pin *pins = arena_alloc(r->arena, (r->held_count + 1) * sizeof *pins);
    size_t count = 0;
    for (size_t i = 0; i < r->held_count; i++) {
        const struct placed *held = &r->held[i];
        if (held->held_phase)
            pins[count++] = (struct pin){camp_of(own[held->occasion.athlete->number], held), held->occasion.date,
                                         held->held_phase};
    }
    if (count > 1)
        qsort(pins, count, sizeof *pins, by_camp_and_day);
    for (size_t i = 0, end; i < count; i = end) {
        for (end = i; end < count && pins[end].camp == pins[i].camp; end++)
            continue;
        if (!agree(pins + i, end - i))
            pin_camp(r, (struct camp *)pins[i].camp, pins + i, end - i);
    }
}

const struct phase *pinned_phase(struct resolver *r, const struct own_camp *own, const struct placed *held)
{
    if (!held->held_phase)
        return NULL;
    const struct camp *camp = camp_of(own, held);
    const struct phase *phase = camp_phase(camp, held->occasion.date);
    if (phase && strcmp(phase->name.folded, held->held_phase) == 0)
        return phase;
    struct phase *lost = arena_alloc(r->arena, sizeof *lost);
    *lost = begin(r, camp, held->held_phase, held->occasion.date);
    return lost;
}
