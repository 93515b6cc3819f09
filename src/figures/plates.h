#ifndef BELL_FIGURES_PLATES_H
#define BELL_FIGURES_PLATES_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "figures/mass.h"

/*
 * Loads that a gym can build. Every mass is a whole number (figures/mass.h), and whole numbers decide: the same kit and
 * the same target always give the same discs, whether they are marked in kilograms, in pounds or in both.
 */

enum {
    PLATE_KINDS_MAX = 16,   /* different discs in one kit */
    PLATE_DISCS_MAX = 16,   /* discs on one sleeve */
    PLATE_SUMS_MAX = 65536  /* different loads of one kit */
};

#define PLATE_MASS_MAX (10000 * MASS_KG) /* 10 t: the heaviest disc, bar or pair of collars that is accepted */

struct plate_stock {
    int64_t mass;
    int count; /* single discs that the gym has */
};

struct plate_kit {
    int64_t bar;     /* 0 if the kilograms mean the plates alone */
    int64_t collars; /* all that are put on together: a pair of 2.5 kg is 5 kg */
    int sleeves;     /* 2: every disc needs its twin; 1: one end of a bar, as in a landmine */
    int discs_most;  /* on one sleeve, 0 to PLATE_DISCS_MAX */
    const struct plate_stock *stock; /* in any order; a mass may come more than once */
    size_t n_stock;
};

/* One load that can be built, and the discs on each sleeve for it. */
struct plate_sum {
    int64_t mass;                   /* of the discs on all sleeves; neither bar nor collars */
    uint8_t discs;                  /* on one sleeve */
    uint8_t count[PLATE_KINDS_MAX]; /* on one sleeve, by kind, in the rack's order of kinds */
};

/* All loads of a kit, lightest first. Lives as long as the room that it was built in. */
struct plate_rack {
    int64_t base;                   /* bar and collars */
    int64_t kind[PLATE_KINDS_MAX];  /* mass of each kind of disc, heaviest first */
    size_t n_kinds;
    const struct plate_sum *sums;
    size_t n;
};

enum plate_status {
    PLATE_OK,
    PLATE_BAD_KIT, /* a mass or number in the kit is out of its range */
    PLATE_TOO_MANY /* too many kinds, too many different loads, or too little room */
};

/*
 * How many plate_sum a rack of this kit needs as room: twice the most loads there can be (one half
 * for working), at most twice PLATE_SUMS_MAX; 0 where the kit is not good.
 */
size_t plate_rack_room(const struct plate_kit *kit);

/*
 * Works out every load of the kit, each with the fewest discs and, among as few, with the heavier
 * ones; not by taking the largest disc that fits, which misses loads when the stock is small.
 * `room` holds n_room sums, is the caller's, and must outlive the rack. The rack is empty unless
 * the result is PLATE_OK.
 */
enum plate_status plate_rack_build(struct plate_rack *rack, const struct plate_kit *kit,
                                   struct plate_sum *room, size_t n_room);

enum plate_rounding {
    PLATE_NEAREST, /* the nearest load, or the lighter of two that are equally near */
    PLATE_DOWN     /* the heaviest load that is not above the target */
};

enum plate_fit {
    PLATE_FITS,
    PLATE_BELOW, /* the target is lighter than the empty bar: that is the load given */
    PLATE_ABOVE  /* the target is heavier than anything that can be built: the heaviest is given */
};

struct plate_load {
    int64_t mass; /* everything: bar, collars and discs */
    const struct plate_sum *sum;
};

/*
 * The load for a target, by binary search in a rack that was built. Whether PLATE_FITS hits the
 * target is for the caller to see from the mass.
 */
enum plate_fit plate_rack_find(const struct plate_rack *rack, int64_t target,
                               enum plate_rounding rounding, struct plate_load *load);

/*
 * The discs of one sleeve in the order in which they go on, heaviest innermost (International
 * Weightlifting Federation, technical and competition rules). Returns how many.
 */
int plate_load_discs(const struct plate_rack *rack, const struct plate_load *load,
                     int64_t discs[PLATE_DISCS_MAX]);

#endif
