#include "figures/morning.h"

#include <math.h>

struct morning_figure morning_compare(int sum, const int *before, size_t count)
{
    struct morning_figure figure = {0};
    if (count < MORNING_LEAST_DAYS)
        return figure;
    double total = 0, squares = 0;
    for (size_t i = 0; i < count; i++)
        total += before[i];
    figure.mean = total / (double)count;
    for (size_t i = 0; i < count; i++)
        squares += (before[i] - figure.mean) * (before[i] - figure.mean);
    figure.deviation = sqrt(squares / (double)(count - 1));
    if (figure.deviation < 1)
        figure.deviation = 1;
    figure.z = (sum - figure.mean) / figure.deviation;
    figure.known = true;
    return figure;
}
