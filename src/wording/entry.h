/* entry.h - what an exercise is, in a coach's words, for whoever shows an entry of the shelf. Texts live in the arena
 * given; each is "" if there is nothing to say. */
#ifndef BELL_WORDING_ENTRY_H
#define BELL_WORDING_ENTRY_H

#include "model/quantity.h"

struct exercise;

/* "lead hand" ... "hip" in the order of enum worker's bits. */
extern const char *const entry_workers[];
extern const size_t entry_worker_count;

/* "push, rotate": the main one first. */
const char *entry_patterns(struct arena *arena, const struct exercise *exercise);
/* "from a stance: lead hand twice, rear hand", "each side: leg", "four ways". */
const char *entry_side(struct arena *arena, const struct exercise *exercise);
/* "in reps", "in landings": what a dose counts. */
const char *entry_counts(const struct exercise *exercise);
const char *entry_aliases(struct arena *arena, const struct exercise *exercise);
const char *entry_needs(struct arena *arena, const struct exercise *exercise);
const char *entry_positions(struct arena *arena, const struct exercise *exercise);
/* What is asked of the joints of the limb that works, or of both sides whatever limb works: "knee deep, hip deep". */
const char *entry_joints(struct arena *arena, const struct exercise *exercise, bool both);
/* "hips, back thigh 0.5", the largest first: a whole set counts where no share stands. */
const char *entry_loads(struct arena *arena, const struct exercise *exercise);
/* "bench, partner: prone back hold", the missing kit for which exchange I is meant; "" if an earlier one said so. */
const char *entry_without(struct arena *arena, const struct exercise *exercise, size_t i);
/* "back squat × 0.9" where percentages are of another lift's best. */
const char *entry_base(struct arena *arena, const struct exercise *exercise);
/* "from intermediate on" where it is not for everybody. */
const char *entry_age(const struct exercise *exercise);

#endif
