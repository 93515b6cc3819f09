#include "figures/load.h"

#include <math.h>

#include "figures/mass.h"

static const int64_t REPS_MOST = 1000000000;

int64_t load_session(int64_t rpe, int seconds)
{
    return (rpe * seconds + 30) / 60;
}

int64_t load_tonnage(int64_t reps, int64_t mass)
{
    const int64_t gram = MASS_KG / 1000;

    reps = reps < REPS_MOST ? reps : REPS_MOST;
    mass = mass < MASS_LIMIT ? mass : MASS_LIMIT;
    /* Whole grams apart from the rest of one, so that no product leaves 64 bits. */
    return (mass / gram * reps + (mass % gram * reps + gram / 2) / gram + 500) / 1000;
}

static int64_t daily_sum(const int64_t *daily, size_t n)
{
    int64_t sum = 0;

    for (size_t i = 0; i < n; i++)
        sum += daily[i];
    return sum;
}

static bool daily_even(const int64_t *daily, size_t n)
{
    for (size_t i = 1; i < n; i++) {
        if (daily[i] != daily[0])
            return false;
    }
    return true;
}

struct load_week load_week_of(const int64_t daily[LOAD_DAYS], enum load_deviation deviation)
{
    struct load_week week = {0};
    double squares = 0.0;

    week.total = daily_sum(daily, LOAD_DAYS);
    week.mean = (double)week.total / (double)LOAD_DAYS;
    /* Asked of the whole numbers: a real deviation of an even week may come out a hair above 0. */
    week.even = daily_even(daily, LOAD_DAYS);
    if (week.even)
        return week;

    for (size_t i = 0; i < LOAD_DAYS; i++) {
        double from_mean = (double)daily[i] - week.mean;
        squares += from_mean * from_mean;
    }
    week.deviation = sqrt(squares / (deviation == LOAD_SAMPLE ? LOAD_DAYS - 1 : LOAD_DAYS));
    week.monotony = week.mean / week.deviation;
    week.strain = (double)week.total * week.monotony;
    return week;
}

static struct load_trend trend_make(double acute, double chronic)
{
    struct load_trend trend = {0};

    if (chronic > 0.0) {
        trend.known = true;
        trend.acute = acute;
        trend.chronic = chronic;
        trend.ratio = acute / chronic;
    }
    return trend;
}

static bool windows_fit(size_t n, int acute, int chronic)
{
    return acute >= 1 && chronic > acute && n >= (size_t)chronic;
}

static double mean_of(const int64_t *daily, size_t n)
{
    return (double)daily_sum(daily, n) / (double)n;
}

struct load_trend load_rolling(const int64_t *daily, size_t n, int acute, int chronic)
{
    if (!windows_fit(n, acute, chronic))
        return trend_make(0.0, 0.0);

    size_t near = (size_t)acute, far = (size_t)chronic;
    return trend_make(mean_of(daily + n - near, near), mean_of(daily + n - far, far));
}

struct load_trend load_uncoupled(const int64_t *daily, size_t n, int acute, int chronic)
{
    if (!windows_fit(n, acute, chronic))
        return trend_make(0.0, 0.0);

    size_t near = (size_t)acute, far = (size_t)chronic;
    return trend_make(mean_of(daily + n - near, near), mean_of(daily + n - far, far - near));
}

static double weighted_mean(const int64_t *daily, size_t n, int window)
{
    double lambda = 2.0 / (window + 1.0);
    double mean = (double)daily[0];

    for (size_t i = 1; i < n; i++)
        mean = lambda * (double)daily[i] + (1.0 - lambda) * mean;
    return mean;
}

struct load_trend load_weighted(const int64_t *daily, size_t n, int acute, int chronic)
{
    if (n == 0 || acute < 1 || chronic <= acute)
        return trend_make(0.0, 0.0);
    return trend_make(weighted_mean(daily, n, acute), weighted_mean(daily, n, chronic));
}
