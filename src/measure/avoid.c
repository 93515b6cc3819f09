#include "measure/avoid.h"
#include "model/athlete.h"
#include "model/exercise.h"
#include "model/set.h"

#include <string.h>

enum { HALF = 500, NEAR_ALL_OUT = 9000 };

bool avoid_stands(const struct avoid *avoid, int day)
{
    return day >= avoid->since && (!avoid->ended || day < avoid->ended);
}

static bool can_do(const struct avoid *avoid, const struct exercise *exercise)
{
    if (avoid->can_do_patterns & exercise->patterns)
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

bool avoid_bars(const struct avoid *avoid, const struct exercise *exercise)
{
    if (can_do(avoid, exercise))
        return false;
    if (avoid->exercise) /* whoever named what is done instead has seen that it is a form of what is barred */
        return avoid->exercise == exercise || (avoid->instead != exercise && is_form_of(exercise, avoid->exercise));
    if (avoid->pattern >= 0)
        return exercise->patterns >> avoid->pattern & 1;
    if (avoid->region >= 0)
        return exercise->loads[avoid->region] >= HALF;
    if (avoid->kind >= 0)
        return (int)exercise->kind == avoid->kind;
    return avoid->position && in_position(exercise, avoid->position);
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
