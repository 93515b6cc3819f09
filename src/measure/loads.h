/* loads.h - which load a gym's kit makes for the mass that is meant, and what goes on the bar for it.
 *
 * What a kilogram means is the exercise's own (enum weigh):
 *   bar and plates     the whole bar; on two sleeves, or on one where a landmine is needed
 *   the plates         the discs of one sleeve or pile; neither bar nor collar
 *   one hand           each implement, however many are held
 *   both hands         the two together of a pair, unless the pieces are written (`2 x 16 kg`)
 *   the implement      a kettlebell, a dumbbell, a ball, one disc, or a sled's pile of discs
 *   added to the body  what a belt or the hands add: discs, or a dumbbell */
#ifndef BELL_MEASURE_LOADS_H
#define BELL_MEASURE_LOADS_H

#include "figures/plates.h"
#include "model/gym.h"
#include "model/set.h"

struct exercise;

/* Every load of a gym's discs, without bar and collars. A gym has two: loadings[0] for pairs on two sleeves,
 * loadings[1] for single discs on one. rack.n is 0 where its status is not PLATE_OK. */
struct loading {
    enum plate_status status;
    struct plate_rack rack;
};

enum load_made {
    MADE_EXACTLY,
    MADE_NEAREST,     /* off by made - asked */
    MADE_LIGHTEST,    /* less was asked than the empty bar or lightest implement: it is given */
    MADE_HEAVIEST,    /* more was asked than all there is: the heaviest is given */
    MADE_TOO_FEW,     /* there are such things, but not enough of one mass; made is left as asked */
    MADE_UNWEIGHED,   /* made with kit whose weights the gym does not give (a cable): as asked */
    MADE_FROM_NOTHING /* the gym has nothing to make it from; made is left as asked */
};

/* Works out the tables behind load_make, once for a gym; they live in ARENA. The worse status of
 * the two. */
enum plate_status gym_prepare(struct arena *arena, struct gym *gym);

/* What GYM (prepared, or NULL: nothing there) makes of ASKED for EXERCISE, held in PIECES (1
 * where none are written). Sets asked, made, unit, pieces, rounded_down and plating of OUT and leaves
 * the rest alone.
 *
 * The nearest load, or the lighter of two that are equally near; with ROUND_DOWN the heaviest that is not above ASKED.
 * Of several bars with the name needed, it takes the heaviest that is no heavier than ASKED, or the next one up if that
 * is nearer. */
enum load_made load_make(const struct gym *gym, const struct exercise *exercise, mass asked,
                         int pieces, bool round_down, struct load *out);

/* Whether a kilogram on A means the same on B: both use the same kit, and mean the same by it. GYM, which knows its
 * bars, may be NULL. */
bool loads_alike(const struct gym *gym, const struct exercise *a, const struct exercise *b);

/* LOAD, which load_make made of discs on a bar, made on BAR instead; false, and nothing changed, where that is not the very
 * same load. */
bool load_move(const struct gym *gym, const struct exercise *exercise, const struct kit *bar, struct load *load);

struct ramp_step {
    struct load load;
    int reps;
};

/* The warm-up sets before WORKING, lightest first: those that the gym names or else about 40 % x 5, 60 % x 3, 75 % x 2
 * and 85 % x 1 of it (common practice, no source), each as the gym makes it; in a landmine half the
 * bar counts as lifted; steps that are no lighter than WORKING or no heavier than the step before are left out. Returns how many; 0 where WORKING has
 * no mass, nothing can be made, or the body is part of the load (a share of what is added says
 * little). */
int load_ramp(const struct gym *gym, const struct exercise *exercise, const struct load *working,
              struct ramp_step out[RAMP_STEPS]);

#endif
