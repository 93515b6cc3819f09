#include "figures/plates.h"

#include <string.h>

/* A kit's discs, sorted out. */
struct kinds {
    int64_t mass[PLATE_KINDS_MAX]; /* heaviest first */
    int count[PLATE_KINDS_MAX];    /* how many one sleeve can have */
    size_t n;
};

static bool mass_in_range(int64_t mass)
{
    return mass >= 0 && mass <= PLATE_MASS_MAX;
}

static bool kit_is_good(const struct plate_kit *kit)
{
    if (!mass_in_range(kit->bar) || !mass_in_range(kit->collars))
        return false;
    if (kit->sleeves != 1 && kit->sleeves != 2)
        return false;
    if (kit->discs_most < 0 || kit->discs_most > PLATE_DISCS_MAX)
        return false;
    for (size_t i = 0; i < kit->n_stock; i++) {
        if (kit->stock[i].mass < 1 || !mass_in_range(kit->stock[i].mass)
            || kit->stock[i].count < 0)
            return false;
    }
    return true;
}

/* Adds to the kind of that mass, or puts a new one at its place. False where there is none left. */
static bool kinds_add(struct kinds *kinds, int64_t mass, int count)
{
    size_t at = 0;

    while (at < kinds->n && kinds->mass[at] > mass)
        at++;
    if (at < kinds->n && kinds->mass[at] == mass) {
        int left = PLATE_DISCS_MAX * 2 - kinds->count[at];
        kinds->count[at] += count < left ? count : left;
        return true;
    }
    if (kinds->n == PLATE_KINDS_MAX)
        return false;
    memmove(&kinds->mass[at + 1], &kinds->mass[at], (kinds->n - at) * sizeof kinds->mass[0]);
    memmove(&kinds->count[at + 1], &kinds->count[at], (kinds->n - at) * sizeof kinds->count[0]);
    kinds->mass[at] = mass;
    /* More than fills both sleeves is as good as endless, and this keeps the sums small. */
    kinds->count[at] = count < PLATE_DISCS_MAX * 2 ? count : PLATE_DISCS_MAX * 2;
    kinds->n++;
    return true;
}

static enum plate_status kinds_of_kit(struct kinds *kinds, const struct plate_kit *kit)
{
    *kinds = (struct kinds){0};
    if (!kit_is_good(kit))
        return PLATE_BAD_KIT;
    for (size_t i = 0; i < kit->n_stock; i++) {
        if (!kinds_add(kinds, kit->stock[i].mass, kit->stock[i].count))
            return PLATE_TOO_MANY;
    }
    for (size_t i = 0; i < kinds->n; i++) {
        int most = kinds->count[i] / kit->sleeves;
        kinds->count[i] = most < kit->discs_most ? most : kit->discs_most;
    }
    return PLATE_OK;
}

static int64_t common_divisor(int64_t a, int64_t b)
{
    while (b != 0) {
        int64_t rest = a % b;
        a = b;
        b = rest;
    }
    return a;
}

/* The most different sums there can be: by the ways to choose, and by the steps of one mass that all are made of. */
static size_t kinds_bound(const struct kinds *kinds, int discs_most)
{
    int64_t ways = 1, heaviest = 0, divisor = 0;
    int left = discs_most;

    for (size_t i = 0; i < kinds->n; i++) {
        int taken = kinds->count[i] < left ? kinds->count[i] : left;
        if (kinds->count[i] == 0)
            continue;
        if (ways < PLATE_SUMS_MAX)
            ways *= kinds->count[i] + 1;
        heaviest += taken * kinds->mass[i];
        divisor = common_divisor(kinds->mass[i], divisor);
        left -= taken;
    }
    int64_t places = divisor > 0 ? heaviest / divisor + 1 : 1;
    int64_t bound = ways < places ? ways : places;
    return (size_t)(bound < PLATE_SUMS_MAX ? bound : PLATE_SUMS_MAX);
}

size_t plate_rack_room(const struct plate_kit *kit)
{
    struct kinds kinds;

    if (kinds_of_kit(&kinds, kit) != PLATE_OK)
        return 0;
    return 2 * kinds_bound(&kinds, kit->discs_most);
}

/* Of two ways to the same sum: fewer discs, then more of the heaviest kind in which they differ. */
static bool sum_is_better(const struct plate_sum *one, const struct plate_sum *other)
{
    if (one->discs != other->discs)
        return one->discs < other->discs;
    return memcmp(one->count, other->count, sizeof one->count) > 0;
}

static struct plate_sum sum_with_disc(struct plate_sum sum, size_t kind, int64_t mass)
{
    sum.mass += mass;
    sum.discs++;
    sum.count[kind]++;
    return sum;
}

/*
 * One disc more: merges the n sums at `from`, in order, with the same sums each with the disc put
 * on, keeping the better of two ways to one sum. Returns how many there are at `to`, or 0 where
 * `most` is not enough.
 */
static size_t sums_merge_disc(const struct plate_sum *from, size_t n, size_t kind, int64_t mass,
                              int discs_most, struct plate_sum *to, size_t most)
{
    size_t without = 0, with = 0, made = 0;

    while (without < n || with < n) {
        struct plate_sum next;
        if (with < n && from[with].discs >= discs_most) {
            with++; /* no disc more fits on this one */
            continue;
        }
        if (with == n || (without < n && from[without].mass < from[with].mass + mass)) {
            next = from[without++];
        } else {
            next = sum_with_disc(from[with], kind, mass);
            with++;
            if (without < n && from[without].mass == next.mass) {
                if (sum_is_better(&from[without], &next))
                    next = from[without];
                without++;
            }
        }
        if (made == most)
            return 0;
        to[made++] = next;
    }
    return made;
}

/* Every sum of the kinds, for one sleeve, from room[0] on. 0 where room runs out. */
static size_t sums_make(const struct kinds *kinds, int discs_most, struct plate_sum *room,
                        size_t half)
{
    struct plate_sum *from = room, *to = room + half;
    size_t n = 1;

    from[0] = (struct plate_sum){0};
    for (size_t kind = 0; kind < kinds->n; kind++) {
        for (int disc = 0; disc < kinds->count[kind]; disc++) {
            n = sums_merge_disc(from, n, kind, kinds->mass[kind], discs_most, to, half);
            if (n == 0)
                return 0;
            struct plate_sum *made = to;
            to = from;
            from = made;
        }
    }
    if (from != room)
        memcpy(room, from, n * sizeof room[0]);
    return n;
}

enum plate_status plate_rack_build(struct plate_rack *rack, const struct plate_kit *kit,
                                   struct plate_sum *room, size_t n_room)
{
    struct kinds kinds;
    enum plate_status status = kinds_of_kit(&kinds, kit);

    *rack = (struct plate_rack){0};
    if (status != PLATE_OK)
        return status;
    size_t n = n_room < 2 ? 0 : sums_make(&kinds, kit->discs_most, room, n_room / 2);
    if (n == 0)
        return PLATE_TOO_MANY;

    for (size_t i = 0; i < n; i++)
        room[i].mass *= kit->sleeves;
    rack->base = kit->bar + kit->collars;
    memcpy(rack->kind, kinds.mass, sizeof rack->kind);
    rack->n_kinds = kinds.n;
    rack->sums = room;
    rack->n = n;
    return PLATE_OK;
}

/* How many loads are not above a mass of discs. */
static size_t sums_up_to(const struct plate_rack *rack, int64_t mass)
{
    size_t low = 0, high = rack->n;

    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (rack->sums[middle].mass <= mass)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

/* The place of the load for a mass of discs that lies between the lightest and the heaviest. */
static size_t sums_place(const struct plate_rack *rack, int64_t mass, enum plate_rounding rounding)
{
    size_t above = sums_up_to(rack, mass); /* one at least: no disc at all weighs nothing */
    if (rounding == PLATE_DOWN || above == rack->n)
        return above - 1;
    int64_t down = mass - rack->sums[above - 1].mass;
    int64_t up = rack->sums[above].mass - mass;
    return down <= up ? above - 1 : above;
}

enum plate_fit plate_rack_find(const struct plate_rack *rack, int64_t target,
                               enum plate_rounding rounding, struct plate_load *load)
{
    int64_t heaviest = rack->base + rack->sums[rack->n - 1].mass;
    enum plate_fit fit = PLATE_FITS;
    size_t at;

    if (target < rack->base) {
        fit = PLATE_BELOW;
        at = 0;
    } else if (target > heaviest) {
        fit = PLATE_ABOVE;
        at = rack->n - 1;
    } else {
        at = sums_place(rack, target - rack->base, rounding);
    }
    load->sum = &rack->sums[at];
    load->mass = rack->base + load->sum->mass;
    return fit;
}

int plate_load_discs(const struct plate_rack *rack, const struct plate_load *load,
                     int64_t discs[PLATE_DISCS_MAX])
{
    int n = 0;

    for (size_t kind = 0; kind < rack->n_kinds; kind++) {
        for (int i = 0; i < load->sum->count[kind]; i++)
            discs[n++] = rack->kind[kind];
    }
    return n;
}
