#include "figures/step.h"

#include <stddef.h>

enum { SHARE_A_POINT = 4000 /* thousandths of a per cent */ };

int64_t progress_by_effort(int64_t rpe, int64_t low, int64_t high)
{
    int64_t outside = rpe > high ? high - rpe : rpe < low ? low - rpe : 0;
    return outside * SHARE_A_POINT / 1000;
}

struct row {
    int from; /* repetitions */
    struct progress_pounds change;
};

enum { ROWS = 5 };

/* The last row whose repetitions were reached counts. */
static const struct {
    int of;
    struct row rows[ROWS];
} tables[] = {
    {3, {{0, {-10, -5}}, {3, {0, 0}}, {5, {5, 10}}, {7, {10, 15}}, {7, {10, 15}}}},
    {6, {{0, {-10, -5}}, {3, {-5, 0}}, {5, {0, 0}}, {8, {5, 10}}, {13, {10, 15}}}},
    {10, {{0, {-10, -5}}, {7, {-5, 0}}, {9, {0, 0}}, {12, {5, 10}}, {17, {10, 15}}}},
};

bool progress_by_last_set(int of, int reps, struct progress_pounds *change)
{
    for (size_t i = 0; i < sizeof tables / sizeof *tables; i++) {
        if (tables[i].of != of)
            continue;
        for (size_t k = 0; k < ROWS; k++)
            if (reps >= tables[i].rows[k].from)
                *change = tables[i].rows[k].change;
        return true;
    }
    return false;
}
