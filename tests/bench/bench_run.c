/* usage: bench_run RUNS NAME COMMAND... - runs the command so often, its output thrown away, and prints one line: the
 * middle wall time and its range, the middle processor time of it and its children, and the largest peak of memory. */
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/resource.h>
#include <sys/time.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#include "bench/timing.h"

static double wall_now(void)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)now.tv_sec * 1e3 + (double)now.tv_nsec / 1e6;
}

static double children_time(struct rusage *usage)
{
    getrusage(RUSAGE_CHILDREN, usage);
    return (double)(usage->ru_utime.tv_sec + usage->ru_stime.tv_sec) * 1e3 +
           (double)(usage->ru_utime.tv_usec + usage->ru_stime.tv_usec) / 1e3;
}

static int run_once(char **command)
{
    int status = 0;
    pid_t process = fork();
    if (process == 0) {
        int nowhere = open("/dev/null", O_RDWR);
        dup2(nowhere, 1);
        dup2(nowhere, 2);
        execvp(*command, command);
        _exit(127);
    }
    if (process < 0 || waitpid(process, &status, 0) < 0)
        return 1;
    return !WIFEXITED(status) || WEXITSTATUS(status) != 0;
}

int main(int argc, char **argv)
{
    double walls[TIMING_MOST_RUNS], times[TIMING_MOST_RUNS];
    int runs = argc > 3 ? atoi(argv[1]) : 0;
    struct rusage usage;
    if (runs < 1 || runs > TIMING_MOST_RUNS) {
        fputs("usage: bench_run RUNS NAME COMMAND...\n", stderr);
        return 2;
    }
    for (int i = 0; i < runs; i++) {
        double start = wall_now(), before = children_time(&usage);
        if (run_once(argv + 3)) {
            fprintf(stderr, "bench_run: %s failed\n", argv[3]);
            return 1;
        }
        walls[i] = wall_now() - start;
        times[i] = children_time(&usage) - before;
    }
    printf("%-44s", argv[2]);
    timing_print(timing_sum(walls, runs));
    timing_print(timing_sum(times, runs));
    printf("  %6.1f\n", (double)usage.ru_maxrss / 1024);
    return 0;
}
