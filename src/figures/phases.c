#include "figures/phases.h"

/* Can PHASE become shorter than it asks to be? */
static bool gives_way(const struct phase_length *phase)
{
    bool may_go = phase->keep > 0 && phase->shortest > 0;
    return !phase->open && !phase->out && (may_go || phase->days > phase->shortest);
}

static bool any_gives_way(const struct phase_length *phases, int count)
{
    for (int i = 0; i < count; i++)
        if (!phases[i].open && (phases[i].keep > 0 || phases[i].longest > phases[i].shortest))
            return true;
    return false;
}

/* The next phase to give way, or NULL. */
static struct phase_length *next_to_give(struct phase_length *phases, int count)
{
    struct phase_length *next = 0;
    for (int i = 0; i < count; i++)
        if (gives_way(&phases[i]) && (!next || phases[i].keep > next->keep))
            next = &phases[i];
    return next;
}

/* The phase nearest before the one at INDEX that is not left out, or else after it. NULL where none is left but what has
 * no length of its own: a base does not go on up to the bout because there is no time for a taper. */
static struct phase_length *neighbour(struct phase_length *phases, int count, int index)
{
    bool left = false;
    for (int i = 0; i < count; i++)
        left |= !phases[i].out && !phases[i].open;
    if (!left)
        return 0;
    for (int i = index - 1; i >= 0; i--)
        if (!phases[i].out)
            return &phases[i];
    for (int i = index + 1; i < count; i++)
        if (!phases[i].out)
            return &phases[i];
    return 0;
}

/* PHASE gives what it can of the OVER days that are too many: returns how many still are, below 0 if it gave more. */
static int give(struct phase_length *phase, int over)
{
    int can = phase->days - phase->shortest;
    if (over <= can) {
        phase->days -= over;
        return 0;
    }
    phase->out = phase->keep > 0 && phase->shortest > 0;
    int had = phase->out ? phase->days : can;
    phase->days -= had;
    return over - had;
}

int phases_fit(struct phase_length *phases, int count, int days)
{
    bool bends = any_gives_way(phases, count);
    int over = -days, open = -1;
    for (int i = 0; i < count; i++) {
        open = phases[i].open ? i : open;
        phases[i].days = phases[i].open ? 0 : phases[i].longest;
        phases[i].out = false;
        over += phases[i].open ? !bends : phases[i].longest;
    }
    struct phase_length *last = 0;
    for (struct phase_length *next; over > 0 && (next = next_to_give(phases, count)); last = next->out ? next : last)
        over = give(next, over);
    if (over > 0)
        return -1;
    struct phase_length *takes = last ? neighbour(phases, count, (int)(last - phases)) : open >= 0 ? &phases[open] : 0;
    if (open >= 0 && !bends)
        phases[open].days++;
    if (takes)
        takes->days -= over;
    if (open >= 0)
        phases[open].out = phases[open].days == 0;
    return takes ? 0 : -over;
}

int phases_least(const struct phase_length *phases, int count)
{
    int least = 0;
    bool bends = any_gives_way(phases, count);
    for (int i = 0; i < count; i++)
        least += phases[i].open ? !bends : phases[i].keep > 0 ? 0 : phases[i].shortest;
    return least;
}
