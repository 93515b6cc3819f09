/* recall.h - what the checks found of one athlete, kept from one run to the next. While nothing changes that an
 * athlete's sessions depend on, the checks would find the same again: their findings are put among those of the others
 * without looking again, as if they had just been met. */
#ifndef BELL_RULES_RECALL_H
#define BELL_RULES_RECALL_H

#include "source/diag.h"
#include "source/shift.h"

struct athlete;
struct programme;

struct recall; /* of one athlete; lives in the arena that it was kept in */

/* What a run takes over from the last, and what it leaves for the next. */
struct recalls {
    const bool *wanted;                 /* by athlete: whoever is checked now */
    const struct recall *const *before; /* by athlete: what was kept of the others; NULL: they are in doubt */
    struct shift shift;                 /* where what stands in BEFORE is now */
    struct recall **after;              /* by athlete, set: of those that were checked */
    /* Gives the arena that what is kept of athlete NUMBER is to live in. */
    struct arena *(*arena_for)(void *with, size_t number);
    void *with;
};

struct run;

/* For run.identities: what several athletes' findings can be about, and what it is called from one run to the next. */
void recall_identify(struct run *run);

/* What the run found of one athlete, whose findings and waivers alone it has, in ARENA. */
struct recall *recall_keep(const struct run *run, struct arena *arena);

/* Moves all places in RECALL. */
void recall_move(const struct shift *shift, struct recall *recall);

/* Puts what is kept of ATHLETE, with its places moved, among what the run has found. */
void recall_put(struct run *run, const struct recall *recall, const struct shift *shift, const struct athlete *athlete);

/* As rules_run, but only for those who are wanted: the findings are those of rules_run, in the same order. */
void rules_run_recalling(const struct programme *programme, const struct recalls *recalls, struct diag *diag);

#endif
