/* squad_kit.h - a gym as a room sees it: kinds of kit, each with its count, and what one line of work holds of them.
 *
 * * Every name of the gym is a kind, and so is each mass of bar, dumbbell, kettlebell, ball and weight plate;
 * coaches are a kind too. Kinds are in the gym's order. A load on a bar lies on a seat: the rack, landmine or sled
 * that the exercise needs, else the bar itself. Work without a load in kilograms finds its seat bare. */
#ifndef BELL_SQUAD_SQUAD_KIT_H
#define BELL_SQUAD_SQUAD_KIT_H

#include "model/quantity.h"
#include "room/room.h"

struct exercise;
struct gym;
struct load;

struct squad_kind {
    struct room_kind kind;
    const char *folded; /* of kit that its name identifies; else NULL */
    mass mass;          /* of kit that its mass identifies; else 0 */
    bool used;
    bool later;         /* used by what could be done instead, but by nothing that is planned */
    int number;         /* among those used: those planned first */
};

struct squad_kit {
    struct arena *arena;
    const struct gym *gym;
    struct squad_kind *kinds;
    size_t count, capacity;
    size_t bars, dumbbells, kettlebells, balls, discs; /* where these begin */
    size_t coach;
    bool later;         /* what is held from now on is not planned */
};

/* All that GYM has, and COACHES. */
struct squad_kit squad_kit_of(struct arena *arena, const struct gym *gym, int coaches);

/* What a set of EXERCISE with LOAD (which may be NULL) holds; kinds are numbered by their place in KIT. Several
 * lines done as one add to the same ITEM, which gets the most of each kind that any of them needs. */
void squad_kit_hold(struct squad_kit *kit, const struct exercise *exercise, const struct load *load,
                    struct room_item *item);

/* COUNT of a kind, for all of ITEM. */
void squad_kit_need(struct squad_kit *kit, struct room_item *item, size_t kind, int count);

/* The place of the kind called FOLDED, or KIT->count if there is none. */
size_t squad_kit_named(const struct squad_kit *kit, const char *folded);

/* Puts the kinds that are used, in the gym's order, and the gym's bars and discs into ROOM. Needs refer to kinds by
 * squad_kind.number. */
void squad_kit_list(const struct squad_kit *kit, struct room *room);

#endif
