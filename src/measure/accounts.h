/* accounts.h - what a limit can be about: its name in a coach's words, and how a figure of it
 * reads.
 *
 * Most accounts are sums over the lines of a plan and are worked out in model/tally.h. The others
 * are compared or measured by one check of its own ("load rise", "intensity") and are not summed.
 * */
#ifndef BELL_MEASURE_ACCOUNTS_H
#define BELL_MEASURE_ACCOUNTS_H

#include <stdbool.h>
#include <stddef.h>

#include "base/arena.h"
#include "model/programme.h"

/* The sums come first, and of them the ones that are kept apart for left and right. */
enum account {
    ACCOUNT_NONE = -1,

    ACCOUNT_STRIKES,
    ACCOUNT_HAND_STRIKES,
    ACCOUNT_LEG_STRIKES,
    ACCOUNT_ALL_OUT_STRIKES,
    ACCOUNT_THROWS,
    ACCOUNT_CONTACTS,
    ACCOUNT_SIDED_COUNT,

    ACCOUNT_ROPE_CONTACTS = ACCOUNT_SIDED_COUNT,
    ACCOUNT_TIME,
    ACCOUNT_SESSION_LOAD,
    ACCOUNT_SPARRING_ROUNDS,
    ACCOUNT_SPARRING_TIME,
    ACCOUNT_BAG_ROUNDS,
    ACCOUNT_CLOCK_ROUNDS,
    ACCOUNT_HOLD_SECONDS,
    ACCOUNT_METRES,
    ACCOUNT_LIFTS,
    ACCOUNT_LIFTS_BELOW_70, /* the four zones lie side by side, lightest first */
    ACCOUNT_LIFTS_70_TO_80,
    ACCOUNT_LIFTS_80_TO_90,
    ACCOUNT_LIFTS_FROM_90,
    ACCOUNT_HEAVY_LIFTS,
    ACCOUNT_ONE_REP_TESTS,
    ACCOUNT_TONNAGE,
    ACCOUNT_TONNAGE_WITH_THROWS,
    ACCOUNT_TONNAGE_WITH_BODY, /* this and the next tell what somebody weighs: account_tells_body */
    ACCOUNT_TONNAGE_WITH_ALL,
    ACCOUNT_SETS,
    ACCOUNT_SESSIONS,

    /* One account for each word of a vocabulary. */
    ACCOUNT_PATTERN_SETS,
    ACCOUNT_REGION_SETS = ACCOUNT_PATTERN_SETS + PATTERN_COUNT,
    ACCOUNT_KIND_SETS = ACCOUNT_REGION_SETS + REGION_COUNT,
    ACCOUNT_PATTERN_SESSIONS = ACCOUNT_KIND_SETS + EXERCISE_KIND_COUNT,
    ACCOUNT_REGION_SESSIONS = ACCOUNT_PATTERN_SESSIONS + PATTERN_COUNT,
    ACCOUNT_KIND_SESSIONS = ACCOUNT_REGION_SESSIONS + REGION_COUNT,
    ACCOUNT_COUNT = ACCOUNT_KIND_SESSIONS + EXERCISE_KIND_COUNT, /* how many are sums */

    /* Not sums. */
    ACCOUNT_LOAD_RISE = ACCOUNT_COUNT,
    ACCOUNT_INTENSITY,
    ACCOUNT_REPS,
    ACCOUNT_VOLUME,
    ACCOUNT_NEW_EXERCISES,
    ACCOUNT_LOWERING_WORK,
    ACCOUNT_EFFORT,
    ACCOUNT_STRENGTH_BALANCE,
    ACCOUNT_STRIKE_BALANCE,
    ACCOUNT_HEAVY_DAYS_APART,
    ACCOUNT_LEGS_BEFORE_SPARRING,
    ACCOUNT_NECK_BEFORE_SPARRING,
    ACCOUNT_CONTRAST_REST,
    ACCOUNT_AGE_OF_BEST,
    ACCOUNT_PHASE_DAYS,
    ACCOUNT_END
};

/* What kind of figure an account is; a check of a group is about all its accounts. */
enum account_group {
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

/* The account of a folded name, or ACCOUNT_NONE. A word that is both a pattern and a region
 * ("neck", "grip") means the region, whose sets count what loads it, directly or not. */
enum account account_find(const char *folded);

/* Its name as a limit says it: "pull sets". Never NULL. */
const char *account_name(struct arena *arena, enum account account);

/* Up to MOST names close to FOLDED, the nearest first; returns how many were put into NAMES. */
size_t account_nearest(struct arena *arena, const char *folded, const char **names, size_t most);

enum account_group account_group(enum account account);

/* Whether figures of the account tell what somebody weighs: they are for the coach alone. */
bool account_tells_body(enum account account);

/* Whether left and right are kept apart, so that a limit may say `a side`. */
bool account_is_sided(enum account account);

/* One sentence on how the account is worked out, for explaining it. */
const char *account_meaning(enum account account);

/* VALUE with its unit and no name: "24", "78 min", "1520 kg", "15 %". VALUE is in thousandths, time
 * in seconds x 1000, mass in kilograms x 1000. */
const char *account_amount(struct arena *arena, enum account account, milli value);
/* The same with mass in UNIT; pounds are told whole. */
const char *account_amount_in(struct arena *arena, enum account account, milli value, enum mass_unit unit);

/* The same with the name, in the number that fits: "1 neck session", "30 sparring rounds", "1520 kg
 * of tonnage", "78 min". */
const char *account_figure(struct arena *arena, enum account account, milli value);
const char *account_figure_in(struct arena *arena, enum account account, milli value, enum mass_unit unit);

#endif
