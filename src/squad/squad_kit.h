/* squad_kit.h - a gym as a room sees it: kinds of kit, each with its count, and what one line of work holds of them.
 *
 * Every name of the gym is a kind, and so is each mass of bar, dumbbell, kettlebell, ball and weight plate; coaches are one
 * too. Kinds stand in the gym's order. A load on a bar lies on a seat: the rack, landmine or sled that the exercise
 * needs, else the bar itself. Work without a load in kilograms finds its seat bare. */
#ifndef BELL_SQUAD_SQUAD_KIT_H
#define BELL_SQUAD_SQUAD_KIT_H

#include "model/quantity.h"
#include "room/room.h"

struct exercise;
struct gym;
struct load;

struct squad_kind {
    struct room_kind kind;
    const char *folded; /* of what is known by its name; else NULL */
    mass mass;          /* of what is known by that; else 0 */
    bool used;
    bool later;         /* by what could be done instead, and by nothing that is planned */
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

/* What a set of EXERCISE with LOAD (which may be NULL) holds; kinds are numbered by their place in KIT. Of several lines done
 * as one, each adds to the same ITEM: of a kind the most that any of them needs. */
void squad_kit_hold(struct squad_kit *kit, const struct exercise *exercise, const struct load *load,
                    struct room_item *item);

/* COUNT of a kind, for all of ITEM. */
void squad_kit_need(struct squad_kit *kit, struct room_item *item, size_t kind, int count);

/* The place of the kind that is called FOLDED; KIT->count: there is none. */
size_t squad_kit_named(const struct squad_kit *kit, const char *folded);

/* The kinds that are used, in the gym's order, and its bars and discs, into ROOM. Needs are told by squad_kind.number. */
void squad_kit_list(const struct squad_kit *kit, struct room *room);

#endif
