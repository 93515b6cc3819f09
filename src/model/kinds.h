/* kinds.h - the fixed vocabularies of the trade. Each list is written once, here; its enum, its names and its count are
 * made from it. */
#ifndef BELL_MODEL_KINDS_H
#define BELL_MODEL_KINDS_H

#include <stdbool.h>
#include <stddef.h>

/* What an exercise is for. `explosive` kinds are done as fast as possible: power; skill covers strikes. */
#define EXERCISE_KINDS(ROW)        \
    ROW(STRENGTH, "strength")      \
    ROW(POWER, "power")            \
    ROW(SKILL, "skill")            \
    ROW(HOLD, "hold")              \
    ROW(MOBILITY, "mobility")      \
    ROW(CONDITIONING, "conditioning") \
    ROW(PREHAB, "prehab")          \
    ROW(WARM_UP, "warm-up")

#define PATTERNS(ROW)          \
    ROW(HINGE, "hinge")        \
    ROW(SQUAT, "squat")        \
    ROW(LUNGE, "lunge")        \
    ROW(PUSH, "push")          \
    ROW(PULL, "pull")          \
    ROW(ROTATE, "rotate")      \
    ROW(BRACE, "brace")        \
    ROW(CARRY, "carry")        \
    ROW(JUMP, "jump")          \
    ROW(THROW, "throw")        \
    ROW(STRIKE, "strike")      \
    ROW(NECK, "neck")          \
    ROW(GRIP, "grip")          \
    ROW(SHOULDER_CARE, "shoulder care") \
    ROW(HIP_CARE, "hip care")  \
    ROW(TRUNK_CARE, "trunk care") \
    ROW(FOOTWORK, "footwork")  \
    ROW(LOCOMOTION, "locomotion")

/* Body regions, head to foot. */
#define REGIONS(ROW)               \
    ROW(NECK, "neck")              \
    ROW(SHOULDER, "shoulder")      \
    ROW(CHEST, "chest")            \
    ROW(UPPER_BACK, "upper back")  \
    ROW(ARM, "arm")                \
    ROW(GRIP, "grip")              \
    ROW(TRUNK, "trunk")            \
    ROW(LOW_BACK, "low back")      \
    ROW(HIPS, "hips")              \
    ROW(GROIN, "groin")            \
    ROW(FRONT_THIGH, "front thigh") \
    ROW(BACK_THIGH, "back thigh")  \
    ROW(CALF, "calf")              \
    ROW(FOOT, "foot")

/* Joints and parts that a restriction can name, head to foot. */
#define JOINTS(ROW)        \
    ROW(FACE, "face")          \
    ROW(NECK, "neck")          \
    ROW(SHOULDER, "shoulder")  \
    ROW(ELBOW, "elbow")        \
    ROW(WRIST, "wrist")        \
    ROW(HAND, "hand")          \
    ROW(RIBS, "ribs")          \
    ROW(SPINE, "spine")        \
    ROW(HIP, "hip")            \
    ROW(KNEE, "knee")          \
    ROW(ANKLE, "ankle")        \
    ROW(FOOT, "foot")

/* What work asks of a joint: `deep` is the end of its bend, `impact` a landing or a blow. */
#define DEMANDS(ROW)             \
    ROW(DEEP, "deep")            \
    ROW(OVERHEAD, "overhead")    \
    ROW(LOADED, "loaded")        \
    ROW(TWISTED, "twisted")      \
    ROW(FAST, "fast")            \
    ROW(STRETCHED, "stretched")  \
    ROW(IMPACT, "impact")

/* What one unit of a dose is. */
#define UNITS(ROW)             \
    ROW(REPS, "reps")          \
    ROW(SECONDS, "seconds")    \
    ROW(METRES, "metres")      \
    ROW(CONTACTS, "contacts")  \
    ROW(STRIKES, "strikes")

/* What a kilogram on this exercise means. */
#define WEIGHS(ROW)                            \
    ROW(UNSAID, "")                            \
    ROW(BAR_AND_PLATES, "bar and plates")      \
    ROW(PLATES, "the plates")                  \
    ROW(ONE_HAND, "one hand")                  \
    ROW(BOTH_HANDS, "both hands")              \
    ROW(IMPLEMENT, "the implement")            \
    ROW(ADDED, "added to the body")

/* How a load is given. */
#define LOAD_KINDS(ROW)                                                    \
    ROW(NONE, "none")                                                      \
    ROW(MASS, "mass")       /* kilograms as written */                     \
    ROW(PERCENT, "percent") /* of a best */                                \
    ROW(BAND, "thing")      /* a named band or other thing without a mass */ \
    ROW(BODY, "body")       /* body mass, or a share of it, plus something */ \
    ROW(TEST, "test") /* of the latest result, in its unit: nothing is put on a bar */

#define EFFORT_KINDS(ROW)          \
    ROW(NONE, "")                  \
    ROW(RPE, "rpe")                \
    ROW(RESERVE, "in reserve")     \
    ROW(ALL_OUT, "all-out")        \
    ROW(EASY, "easy")              \
    ROW(REP_MAX, "rep maximum")    \
    ROW(PULSE, "pulse")

#define BLOCK_KINDS(ROW)                         \
    ROW(ROUNDS, "rounds")                        \
    ROW(STRAIGHT, "straight")                    \
    ROW(SUPERSET, "superset")                    \
    ROW(CONTRAST, "contrast")                    \
    ROW(COMPLEX, "complex")                      \
    ROW(CIRCUIT, "circuit")                      \
    ROW(CLUSTER, "cluster")                      \
    ROW(LADDER, "ladder")                        \
    ROW(EVERY, "every")                          \
    ROW(AS_MANY, "as many rounds as possible")   \
    ROW(FOR_TIME, "for time")

/* What a test is measured in. */
#define TEST_UNITS(ROW)        \
    ROW(NONE, "")              \
    ROW(CM, "cm")              \
    ROW(METRES, "m")           \
    ROW(SECONDS, "s")          \
    ROW(REPS, "reps")          \
    ROW(KILOGRAMS, "kg")       \
    ROW(POUNDS, "lb")          \
    ROW(NEWTONS, "N")          \
    ROW(WATTS, "W")            \
    ROW(METRES_A_SECOND, "m/s")

#define LEVELS(ROW)                    \
    ROW(NOVICE, "novice")              \
    ROW(INTERMEDIATE, "intermediate")  \
    ROW(ADVANCED, "advanced")

/* What breaking a limit is: an error, a warning, information. */
#define FORCES(ROW)    \
    ROW(MUST, "must")  \
    ROW(WARN, "warn")  \
    ROW(INFO, "info")

/* The limbs and hips that the stance ledger keeps apart. */
#define LIMBS(ROW)                 \
    ROW(LEFT_HAND, "left hand")    \
    ROW(RIGHT_HAND, "right hand")  \
    ROW(LEFT_LEG, "left leg")      \
    ROW(RIGHT_LEG, "right leg")    \
    ROW(LEFT_HIP, "left hip")      \
    ROW(RIGHT_HIP, "right hip")

#define KIND_ENUM_EXERCISE(id, name) EXERCISE_##id,
#define KIND_ENUM_PATTERN(id, name) PATTERN_##id,
#define KIND_ENUM_REGION(id, name) REGION_##id,
#define KIND_ENUM_JOINT(id, name) JOINT_##id,
#define KIND_ENUM_DEMAND(id, name) DEMAND_##id,
#define KIND_ENUM_UNIT(id, name) UNIT_##id,
#define KIND_ENUM_WEIGH(id, name) WEIGH_##id,
#define KIND_ENUM_LOAD(id, name) LOAD_##id,
#define KIND_ENUM_EFFORT(id, name) EFFORT_##id,
#define KIND_ENUM_BLOCK(id, name) BLOCK_##id,
#define KIND_ENUM_TEST_UNIT(id, name) TEST_IN_##id,
#define KIND_ENUM_LEVEL(id, name) LEVEL_##id,
#define KIND_ENUM_FORCE(id, name) FORCE_##id,
#define KIND_ENUM_LIMB(id, name) LIMB_##id,

enum exercise_kind { EXERCISE_KINDS(KIND_ENUM_EXERCISE) EXERCISE_KIND_COUNT };
enum pattern { PATTERNS(KIND_ENUM_PATTERN) PATTERN_COUNT };
enum region { REGIONS(KIND_ENUM_REGION) REGION_COUNT };
enum joint { JOINTS(KIND_ENUM_JOINT) JOINT_COUNT };
enum demand { DEMANDS(KIND_ENUM_DEMAND) DEMAND_COUNT };
enum unit { UNITS(KIND_ENUM_UNIT) UNIT_COUNT };
enum weigh { WEIGHS(KIND_ENUM_WEIGH) WEIGH_COUNT };
/* These two have no count among their values, so that a switch without default names all of them or does not
 * compile. */
enum load_kind { LOAD_KINDS(KIND_ENUM_LOAD) };
enum effort_kind { EFFORT_KINDS(KIND_ENUM_EFFORT) };
enum block_kind { BLOCK_KINDS(KIND_ENUM_BLOCK) BLOCK_KIND_COUNT };
enum test_unit { TEST_UNITS(KIND_ENUM_TEST_UNIT) TEST_UNIT_COUNT };
enum level { LEVELS(KIND_ENUM_LEVEL) LEVEL_COUNT };
enum force { FORCES(KIND_ENUM_FORCE) FORCE_COUNT };
enum limb { LIMBS(KIND_ENUM_LIMB) LIMB_COUNT };

/* The names of one list, and how many there are. */
struct vocabulary {
    const char *what; /* "pattern" */
    const char *const *names;
    size_t count;
};

extern const struct vocabulary exercise_kinds, patterns, regions, joints, demands, units, weighs, load_kinds, effort_kinds, block_kinds,
    levels, forces, limbs, test_units;

/* The index of NAME (folded) in WORDS, or -1. */
int vocabulary_find(const struct vocabulary *words, const char *name);

/* Are the kilograms of such a load all that is lifted? */
bool load_is_weighed(enum load_kind kind);

#endif
