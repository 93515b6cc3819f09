#include "figures/reliability.h"

#include <math.h>

double reliability_mean(const double *values, size_t count)
{
    double sum = 0;
    for (size_t i = 0; i < count; i++)
        sum += values[i];
    return count ? sum / (double)count : 0;
}

double reliability_deviation(const double *values, size_t count)
{
    double mean = reliability_mean(values, count), sum = 0;
    for (size_t i = 0; i < count; i++)
        sum += (values[i] - mean) * (values[i] - mean);
    return count > 1 ? sqrt(sum / (double)(count - 1)) : 0;
}

double reliability_typical_error(const double *differences, size_t count)
{
    return reliability_deviation(differences, count) / sqrt(2.0);
}

double reliability_least_change(double error)
{
    return 1.96 * sqrt(2.0) * error;
}

double reliability_worthwhile(double deviation)
{
    return 0.2 * deviation;
}

/* The share of the normal curve below Z. */
static double normal(double z)
{
    return 0.5 * erfc(-z / sqrt(2.0));
}

struct chances reliability_chances(double change, double error, double worthwhile)
{
    double spread = sqrt(2.0) * error;
    double above = 1 - normal((worthwhile - change) / spread), below = normal((-worthwhile - change) / spread);
    return (struct chances){above, 1 - above - below, below};
}

double jump_height(double seconds)
{
    return 9.81 * seconds * seconds / 8;
}
