/* group.h - a squad on one session: which line of it each athlete does, and with what.
 *
 * Lines are paired by the header line of their block and their place in it, as declared; a variant or a change
 * makes another exercise, dose or load of the same line. */
#ifndef BELL_LAYOUT_GROUP_H
#define BELL_LAYOUT_GROUP_H

#include <stdbool.h>
#include <stddef.h>

#include "model/quantity.h"

struct athlete;
struct block;
struct item;
struct occasion;

struct lane {
    const struct block *block;      /* of the athlete whose item is shown */
    const struct item *item;        /* what most do; the first of those */
    const struct athlete *athlete;  /* whose item that is */
    const struct item **by_member;  /* NULL if an athlete leaves it out */
    bool loads_differ;              /* among those who do it as ITEM */
    bool loads_personal;            /* or among all: no load may stand there without a name */
    bool efforts_differ;
    bool varies;                    /* somebody does another exercise or dose, or leaves it out */
    int last_round;                 /* it is done the same from item->round up to here; 0: in every round */
    bool first;                     /* of its block */
};

struct group {
    const struct occasion *const *members;
    size_t count;
    struct lane *lanes;
    size_t lane_count;
};

/* MEMBERS: occasions of one session, date and hour, one an athlete, COUNT of them (1 or more). */
struct group group_make(struct arena *arena, const struct occasion *const *members, size_t count);

/* How many items of BLOCK from FIRST on are one line done the same in round after round; 1 if it names no round. */
size_t group_rounds_alike(struct arena *arena, const struct block *block, size_t first);

/* Whether some do LANE with another load or in another way. */
bool lane_differs(const struct lane *lane);

/* The dose of another athlete differs from the lane's, beside exercise and load. */
bool lane_dose_differs(struct arena *arena, const struct lane *lane, const struct item *other);

#endif
