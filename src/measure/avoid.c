#include "measure/avoid.h"
#include "measure/demand.h"
#include "measure/hold.h"
#include "measure/limbs.h"
#include "model/activity.h"
#include "model/athlete.h"
#include "model/block.h"
#include "model/exercise.h"
#include "model/recovery.h"
#include "model/set.h"

#include <string.h>

enum { HALF = 500, NEAR_ALL_OUT = 9000 };

/* --- days and names --- */

bool avoid_stands(const struct avoid *avoid, int day)
{
    return day >= avoid->since && (!avoid->ended || day < avoid->ended);
}

/* The step so far that names EXERCISE, the latest first; NULL: none does. */
static const struct recovery_step *step_naming(const struct avoid *avoid, const struct exercise *exercise)
{
    for (int i = avoid->recovery ? avoid->recovery_step : -1; i >= 0; i--)
        if (permits_name(&avoid->recovery->steps[i].allows, exercise))
            return &avoid->recovery->steps[i];
    return NULL;
}

static bool can_do(const struct avoid *avoid, const struct exercise *exercise)
{
    if (avoid->can_do_patterns & exercise->patterns || step_naming(avoid, exercise))
        return true;
    for (size_t i = 0; i < avoid->can_do_count; i++)
        if (avoid->can_do[i] == exercise)
            return true;
    return false;
}

static const struct exercise *one_on(const struct exercise *exercise, bool harder)
{
    return harder ? exercise->harder : exercise->easier;
}

/* Can OTHER be reached from EXERCISE by going easier, or by going harder? The chain may come back to itself: the search
 * ends when it meets a slower one that goes half as fast. */
static bool leads_to(const struct exercise *exercise, const struct exercise *other, bool harder)
{
    const struct exercise *slow = exercise, *at = one_on(exercise, harder);
    for (bool second = false; at && at != other && at != slow; second = !second) {
        at = one_on(at, harder);
        if (second)
            slow = one_on(slow, harder);
    }
    return at == other;
}

static bool is_form_of(const struct exercise *exercise, const struct exercise *barred)
{
    return leads_to(barred, exercise, false) || leads_to(barred, exercise, true);
}

static bool in_position(const struct exercise *exercise, const char *position)
{
    for (size_t i = 0; i < exercise->position_count; i++)
        if (strcmp(exercise->positions[i], position) == 0)
            return true;
    return false;
}

/* --- joints and sides --- */

enum limb_class { CLASS_NONE, CLASS_ARM, CLASS_LEG };

static enum limb_class class_of_joint(int joint)
{
    switch (joint) {
    case JOINT_SHOULDER: case JOINT_ELBOW: case JOINT_WRIST: case JOINT_HAND: return CLASS_ARM;
    case JOINT_HIP: case JOINT_KNEE: case JOINT_ANKLE: case JOINT_FOOT: return CLASS_LEG;
    default: return CLASS_NONE;
    }
}

static enum limb_class class_of_region(int region)
{
    switch (region) {
    case REGION_SHOULDER: case REGION_CHEST: case REGION_UPPER_BACK: case REGION_ARM: case REGION_GRIP: return CLASS_ARM;
    case REGION_HIPS: case REGION_GROIN: case REGION_FRONT_THIGH: case REGION_BACK_THIGH: case REGION_CALF:
    case REGION_FOOT: return CLASS_LEG;
    default: return CLASS_NONE;
    }
}

bool region_has_sides(enum region region)
{
    return class_of_region((int)region) != CLASS_NONE;
}

bool joint_has_sides(enum joint joint)
{
    return class_of_joint((int)joint) != CLASS_NONE;
}

/* Who bears what a restriction bars. */
enum bearer { BEARER_NOBODY, BEARER_WORKING_LIMB, BEARER_BOTH };

static enum bearer bearer_of(const struct avoid *avoid, const struct strains *strains)
{
    enum bearer bearer = BEARER_NOBODY;
    if (avoid->joint < 0 && avoid->demand < 0)
        return bearer;
    for (size_t i = 0; i < strains->count; i++) {
        const struct strain *strain = &strains->items[i];
        if ((avoid->joint >= 0 && avoid->joint != (int)strain->joint) ||
            (avoid->demand >= 0 && avoid->demand != strain->demand))
            continue;
        if (strain->both)
            return BEARER_BOTH;
        bearer = BEARER_WORKING_LIMB;
    }
    return bearer;
}

static enum bearer bearer_in(const struct avoid *avoid, const struct exercise *exercise)
{
    if (avoid->region >= 0 && exercise->loads[avoid->region] >= HALF)
        return BEARER_WORKING_LIMB;
    return bearer_of(avoid, &exercise->strains);
}

static const unsigned ARM_WORKERS = WORKER_LEAD_HAND | WORKER_REAR_HAND | WORKER_HAND;
static const unsigned LEG_WORKERS = WORKER_LEAD_LEG | WORKER_REAR_LEG | WORKER_LEG | WORKER_LEAD_HIP | WORKER_REAR_HIP |
                                    WORKER_HIP;

/* Whether the limbs in question take turns in EXERCISE. Where the arms do and a knee is meant, both knees work. */
static bool takes_sides(const struct avoid *avoid, const struct exercise *exercise, unsigned workers)
{
    enum limb_class class = avoid->joint >= 0 ? class_of_joint(avoid->joint) : class_of_region(avoid->region);
    bool sided = exercise->side == SIDE_EACH_SIDE || exercise->side == SIDE_PER_STANCE;
    return sided && (workers & (class == CLASS_ARM ? ARM_WORKERS : LEG_WORKERS));
}

/* Does the limb of SIDE that AVOID means work in WORKING, a set of enum limb? */
static bool limb_works(const struct avoid *avoid, unsigned working, unsigned side)
{
    enum limb_class class = avoid->joint >= 0 ? class_of_joint(avoid->joint) : class_of_region(avoid->region);
    unsigned left = class == CLASS_ARM ? 1u << LIMB_LEFT_HAND : 1u << LIMB_LEFT_LEG | 1u << LIMB_LEFT_HIP;
    unsigned right = class == CLASS_ARM ? 1u << LIMB_RIGHT_HAND : 1u << LIMB_RIGHT_LEG | 1u << LIMB_RIGHT_HIP;
    return working & ((side & BARRED_LEFT ? left : 0u) | (side & BARRED_RIGHT ? right : 0u));
}

unsigned avoid_bars_part(const struct avoid *avoid, const struct exercise *exercise, const struct part *part,
                         enum stance own)
{
    if (avoid_bars(avoid, exercise))
        return BARRED_ALL;
    if (!avoid->sides || can_do(avoid, exercise) || bearer_in(avoid, exercise) == BEARER_NOBODY)
        return 0;
    if (!takes_sides(avoid, exercise, part->workers ? part->workers : exercise->workers))
        return BARRED_ALL;
    bool each = part->side == DOSE_EACH_SIDE || (part->side == DOSE_WHOLE && exercise->side == SIDE_EACH_SIDE);
    unsigned barred = 0;
    for (unsigned side = BARRED_LEFT; side <= BARRED_RIGHT; side++) {
        unsigned working = part_limbs(exercise, part, own, side);
        if (working == 0 || limb_works(avoid, working, avoid->sides))
            barred |= each ? side : BARRED_ALL;
    }
    return barred;
}

/* Is RUN within the RPE that the step which names EXERCISE caps it at? Where there is a cap the line must give it. */
static bool is_over_cap(const struct avoid *avoid, const struct exercise *exercise, const struct set_run *run)
{
    const struct recovery_step *step = step_naming(avoid, exercise);
    milli cap = step && bearer_in(avoid, exercise) != BEARER_NOBODY ? permits_cap(&step->allows, exercise) : 0;
    milli asked = run_rpe(run).high;
    bool open = run->work_up;
    for (size_t i = 0; i < run->part_count; i++)
        open |= run->parts[i].max;
    return cap && (open || asked == 0 || asked > cap);
}

bool avoid_bars_item(const struct avoid *avoid, const struct item *item, enum stance own)
{
    if (avoid_bars(avoid, item->exercise))
        return true;
    for (size_t r = 0; r < item->run_count; r++) {
        const struct set_run *run = &item->runs[r];
        if (avoid_bars_effort(avoid, run) || is_over_cap(avoid, item->exercise, run))
            return true;
        for (size_t i = 0; i < run->part_count; i++)
            if (avoid_bars_part(avoid, item->exercise, &run->parts[i], own))
                return true;
    }
    return false;
}

static bool names_activity(const struct avoid *avoid, const struct activity *activity)
{
    for (int step = avoid->recovery ? avoid->recovery_step : -1; step >= 0; step--) {
        const struct permits *allows = &avoid->recovery->steps[step].allows;
        for (size_t i = 0; i < allows->count; i++)
            if (allows->items[i].training || allows->items[i].activity == activity)
                return true;
    }
    return false;
}

bool avoid_bars_activity(const struct avoid *avoid, const struct activity *activity)
{
    if (names_activity(avoid, activity))
        return false;
    return bearer_of(avoid, &activity->strains) != BEARER_NOBODY ||
           (avoid->pattern == PATTERN_STRIKE && activity->strikes);
}

/* --- exercises --- */

bool avoid_bars(const struct avoid *avoid, const struct exercise *exercise)
{
    if (can_do(avoid, exercise))
        return false;
    if (avoid->exercise) /* whoever named what is done instead has seen that it is a form of what is barred */
        return avoid->exercise == exercise || (avoid->instead != exercise && is_form_of(exercise, avoid->exercise));
    if (avoid->pattern >= 0)
        return exercise->patterns >> avoid->pattern & 1;
    if (avoid->kind >= 0)
        return (int)exercise->kind == avoid->kind;
    if (avoid->position && in_position(exercise, avoid->position))
        return true;
    enum bearer bearer = bearer_in(avoid, exercise);
    if (!avoid->sides)
        return bearer != BEARER_NOBODY;
    return bearer == BEARER_BOTH ||
           (bearer == BEARER_WORKING_LIMB && !takes_sides(avoid, exercise, exercise->workers));
}

bool avoid_bars_effort(const struct avoid *avoid, const struct set_run *run)
{
    const struct load *load = &run->load;
    if (!avoid->all_out)
        return false;
    return load->effort == EFFORT_ALL_OUT || load->effort == EFFORT_REP_MAX ||
           (load->effort == EFFORT_RPE && load->effort_band.high >= NEAR_ALL_OUT) ||
           (load->effort == EFFORT_RESERVE && load->effort_band.low <= 1000);
}

bool athlete_restricted(const struct athlete *athlete, int day)
{
    for (size_t i = 0; i < athlete->avoid_count; i++)
        if (avoid_stands(&athlete->avoids[i], day))
            return true;
    return false;
}
