/* counts.h - what a limit can be about: its name in a coach's words, and how its figures read.
 *
 * Most counts are sums over the lines of a plan and are worked out in model/tally.h. The others
 * are compared or measured by one check of its own ("load rise", "intensity") and are not summed.
 */
#ifndef BELL_MEASURE_ACCOUNTS_H
#define BELL_MEASURE_ACCOUNTS_H

#include <stdbool.h>
#include <stddef.h>

#include "base/arena.h"
#include "model/kinds.h"
#include "model/quantity.h"

/* The sums come first, and of them the ones that are kept apart for left and right. */
enum counted {
    COUNTED_NONE = -1,

    COUNTED_STRIKES,
    COUNTED_HAND_STRIKES,
    COUNTED_LEG_STRIKES,
    COUNTED_ALL_OUT_STRIKES,
    COUNTED_THROWS,
    COUNTED_CONTACTS,
    COUNTED_SIDED_COUNT,

    COUNTED_ROPE_CONTACTS = COUNTED_SIDED_COUNT,
    COUNTED_TIME,
    COUNTED_SESSION_LOAD,
    COUNTED_SPARRING_ROUNDS,
    COUNTED_SPARRING_TIME,
    COUNTED_BAG_ROUNDS,
    COUNTED_CLOCK_ROUNDS,
    COUNTED_HOLD_SECONDS,
    COUNTED_METRES,
    COUNTED_LIFTS,
    COUNTED_LIFTS_BELOW_70, /* the four zones lie side by side, lightest first */
    COUNTED_LIFTS_70_TO_80,
    COUNTED_LIFTS_80_TO_90,
    COUNTED_LIFTS_FROM_90,
    COUNTED_HEAVY_LIFTS,
    COUNTED_ONE_REP_TESTS,
    COUNTED_TONNAGE,
    COUNTED_TONNAGE_WITH_THROWS,
    COUNTED_TONNAGE_WITH_BODY, /* this and the next reveal what somebody weighs: counted_tells_body */
    COUNTED_TONNAGE_WITH_ALL,
    COUNTED_SETS,
    COUNTED_SESSIONS,

    /* One count for each word of a vocabulary. */
    COUNTED_PATTERN_SETS,
    COUNTED_REGION_SETS = COUNTED_PATTERN_SETS + PATTERN_COUNT,
    COUNTED_KIND_SETS = COUNTED_REGION_SETS + REGION_COUNT,
    COUNTED_PATTERN_SESSIONS = COUNTED_KIND_SETS + EXERCISE_KIND_COUNT,
    COUNTED_REGION_SESSIONS = COUNTED_PATTERN_SESSIONS + PATTERN_COUNT,
    COUNTED_KIND_SESSIONS = COUNTED_REGION_SESSIONS + REGION_COUNT,
    COUNTED_COUNT = COUNTED_KIND_SESSIONS + EXERCISE_KIND_COUNT, /* how many are sums */

    /* Not sums. */
    COUNTED_LOAD_RISE = COUNTED_COUNT,
    COUNTED_INTENSITY,
    COUNTED_REPS,
    COUNTED_VOLUME,
    COUNTED_NEW_EXERCISES,
    COUNTED_LOWERING_WORK,
    COUNTED_EFFORT,
    COUNTED_STRENGTH_BALANCE,
    COUNTED_STRIKE_BALANCE,
    COUNTED_DAYS_BETWEEN_HEAVY,
    COUNTED_LEGS_BEFORE_SPARRING,
    COUNTED_NECK_BEFORE_SPARRING,
    COUNTED_CONTRAST_REST,
    COUNTED_AGE_OF_BEST,
    COUNTED_PHASE_DAYS,
    COUNTED_MONOTONY,
    COUNTED_STRAIN,
    COUNTED_ADHERENCE,
    COUNTED_END
};

/* What kind of figure a count is; a check of a group is about all its counts. */
enum counted_group {
    GROUP_STRIKES,
    GROUP_THROWS,
    GROUP_CONTACTS,
    GROUP_TIME,
    GROUP_LOAD,
    GROUP_SPARRING,
    GROUP_ROUNDS,
    GROUP_HOLDS,
    GROUP_DISTANCE,
    GROUP_LIFTS,
    GROUP_TONNAGE,
    GROUP_SETS,
    GROUP_SESSIONS,
    GROUP_MEASURED /* not a sum */
};

/* The count of a folded name, or COUNTED_NONE. A word that is both a pattern and a region
 * ("neck", "grip") means the region, whose sets count what loads it, directly or not. */
enum counted counted_find(const char *folded);

/* Its name as a limit gives it: "pull sets". Never NULL. */
const char *counted_name(struct arena *arena, enum counted counted);

/* Up to MOST names close to FOLDED, the nearest first; returns how many were put into NAMES. */
size_t counted_nearest(struct arena *arena, const char *folded, const char **names, size_t most);

enum counted_group counted_group(enum counted counted);

/* Whether figures of the count reveal what somebody weighs: they are for the coach alone. */
bool counted_tells_body(enum counted counted);

/* Whether left and right are kept apart, so that a limit may say `a side`. */
bool counted_is_sided(enum counted counted);

/* One sentence on how the count is worked out, for explaining it. */
const char *counted_meaning(enum counted counted);

/* VALUE with its unit and no name: "24", "78 min", "1520 kg", "15 %". VALUE is in thousandths, time
 * in seconds x 1000, mass in kilograms x 1000. */
const char *counted_amount(struct arena *arena, enum counted counted, milli value);
/* The same with mass in UNIT; pounds are shown whole. */
const char *counted_amount_in(struct arena *arena, enum counted counted, milli value, enum mass_unit unit);

/* The same with the name, in the number that fits: "1 neck session", "30 sparring rounds", "1520 kg
 * of tonnage", "78 min". */
const char *counted_figure(struct arena *arena, enum counted counted, milli value);
const char *counted_figure_in(struct arena *arena, enum counted counted, milli value, enum mass_unit unit);

#endif
