#include "figures/estimate.h"

#include <math.h>

static const double SPEED_ERROR = 0.037;

bool estimate_from_reps(enum onerm_equation equation, double load, int64_t reps, int64_t rpe, struct estimate *estimate)
{
    int64_t all = reps + 10000 - rpe;
    if (reps < 1000 || rpe < ESTIMATE_RPE_LEAST || rpe > 10000 || all > ESTIMATE_REPS_MOST)
        return false;
    estimate->maximum = onerm_at(equation, load, (double)all / 1000);
    estimate->low = onerm_at(equation, load, (double)(all > 2000 ? all - 1000 : 1000) / 1000);
    estimate->high = onerm_at(equation, load, (double)(all + 1000) / 1000);
    return estimate->maximum > 0;
}

/* --- the line --- */

struct speed_line {
    double slope, start;
    double off; /* standard deviation of the points from it */
};

static size_t different_loads(const struct speed_point *points, size_t count)
{
    size_t different = 0;
    for (size_t i = 0; i < count; i++) {
        bool met = false;
        for (size_t k = 0; k < i && !met; k++)
            met = points[k].load == points[i].load;
        different += !met;
    }
    return different;
}

/* Of load over speed in metres a second; false where all are equally fast. */
static bool fit(const struct speed_point *points, size_t count, struct speed_line *line)
{
    double n = (double)count, speeds = 0, loads = 0, squares = 0, products = 0, off = 0;
    for (size_t i = 0; i < count; i++) {
        double speed = (double)points[i].speed / 1000;
        speeds += speed;
        loads += points[i].load;
        squares += speed * speed;
        products += speed * points[i].load;
    }
    double spread = n * squares - speeds * speeds;
    if (spread <= 1e-9)
        return false;
    line->slope = (n * products - speeds * loads) / spread;
    line->start = (loads - line->slope * speeds) / n;
    for (size_t i = 0; i < count; i++) {
        double away = points[i].load - line->start - line->slope * (double)points[i].speed / 1000;
        off += away * away;
    }
    line->off = sqrt(off / (n - 2));
    return true;
}

bool estimate_from_speed(const struct speed_point *points, size_t count, int64_t slowest, struct estimate *estimate)
{
    struct speed_line line;
    if (slowest <= 0 || different_loads(points, count) < SPEED_LOADS_LEAST || !fit(points, count, &line) || line.slope >= 0)
        return false;
    double maximum = line.start + line.slope * (double)slowest / 1000;
    double error = line.off > maximum * SPEED_ERROR ? line.off : maximum * SPEED_ERROR;
    *estimate = (struct estimate){maximum, maximum - error, maximum + error};
    return maximum > 0;
}
