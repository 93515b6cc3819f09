#include "bench/timing.h"

#include <stdio.h>
#include <stdlib.h>
#include <time.h>

double timing_now(void)
{
    struct timespec now;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
    return (double)now.tv_sec * 1e3 + (double)now.tv_nsec / 1e6;
}

static int by_size(const void *left, const void *right)
{
    double a = *(const double *)left, b = *(const double *)right;
    return a < b ? -1 : a > b;
}

struct timing timing_sum(double *times, int runs)
{
    qsort(times, (size_t)runs, sizeof *times, by_size);
    return (struct timing){.median = times[runs / 2], .least = times[0], .most = times[runs - 1]};
}

struct timing timing_of(timing_work *work, void *with, int runs)
{
    double times[TIMING_MOST_RUNS];
    for (int i = 0; i < runs; i++) {
        double start = timing_now();
        work(with);
        times[i] = timing_now() - start;
    }
    return timing_sum(times, runs);
}

void timing_print(struct timing timing)
{
    char range[40];
    snprintf(range, sizeof range, "(%.3g-%.3g)", timing.least, timing.most);
    printf("  %8.3f  %-18s", timing.median, range);
}
