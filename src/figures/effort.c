#include "figures/effort.h"

enum { MILLI = 1000 };

struct reps_row {
    int reps;
    int percent;
};

static const struct reps_row reps_table[] = {
    {1, 100}, {2, 95}, {3, 93}, {4, 90},  {5, 87},  {6, 85},  {7, 83},
    {8, 80},  {9, 77}, {10, 75}, {11, 70}, {12, 67}, {15, 65},
};

enum { REPS_ROWS = sizeof reps_table / sizeof reps_table[0] };

enum effort_reps effort_reps_at(int64_t percent, int64_t *reps)
{
    *reps = 0;
    if (percent <= 0)
        return EFFORT_REPS_REFUSED;
    if (percent > reps_table[0].percent * MILLI)
        return EFFORT_REPS_KNOWN;

    for (int i = 1; i < REPS_ROWS; i++) {
        const struct reps_row *heavy = &reps_table[i - 1];
        const struct reps_row *light = &reps_table[i];
        if (percent < light->percent * MILLI)
            continue;
        /* Thousandths over thousandths leave whole percents below the line. */
        int64_t beyond = heavy->percent * MILLI - percent;
        *reps = heavy->reps * MILLI
                + beyond * (light->reps - heavy->reps) / (heavy->percent - light->percent);
        return EFFORT_REPS_KNOWN;
    }
    *reps = reps_table[REPS_ROWS - 1].reps * MILLI;
    return EFFORT_REPS_AT_LEAST;
}

int64_t effort_percent_for(int64_t reps)
{
    for (int i = 1; i < REPS_ROWS; i++) {
        const struct reps_row *heavy = &reps_table[i - 1];
        const struct reps_row *light = &reps_table[i];
        if (reps < heavy->reps * MILLI || reps > light->reps * MILLI)
            continue;
        int64_t wide = light->reps - heavy->reps;
        return heavy->percent * MILLI
               - ((reps - heavy->reps * MILLI) * (heavy->percent - light->percent) + wide / 2) / wide;
    }
    return 0;
}

bool effort_reserve(int64_t rpe, int64_t *least, int64_t *most)
{
    *least = *most = 0;
    if (rpe < 5 * MILLI || rpe > 10 * MILLI)
        return false;
    if (rpe < 7 * MILLI) {
        *least = 4 * MILLI;
        *most = 6 * MILLI;
        return true;
    }
    int64_t left = 10 * MILLI - rpe;
    *least = left / MILLI * MILLI;
    /* Up to 9.5 a half point is a repetition in doubt; above it there is no repetition left, only weight that might be
     * added. */
    *most = rpe >= 9 * MILLI + 500 ? 0 : (left + MILLI - 1) / MILLI * MILLI;
    return true;
}

enum effort_zone effort_zone_of(int64_t percent)
{
    if (percent < 70 * MILLI)
        return EFFORT_BELOW_70;
    if (percent < 80 * MILLI)
        return EFFORT_70_TO_80;
    if (percent < 90 * MILLI)
        return EFFORT_80_TO_90;
    return EFFORT_FROM_90;
}
