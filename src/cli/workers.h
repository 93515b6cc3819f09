/* workers.h - many independent jobs, done by as many processes as there are cores.
 *
 * * Processes, not threads: Pango and fontconfig keep state of their own, and no job sees what another spoils. What
 * a job has to report comes back as a record of bytes, and records are taken in the order of the jobs, so that a run
 * looks the same however many processes it had. */
#ifndef BELL_CLI_WORKERS_H
#define BELL_CLI_WORKERS_H

#include <stdbool.h>
#include <stddef.h>

#include "base/text.h"

struct work {
    void *with;   /* given to each of the functions */
    size_t count; /* of jobs */
    /* Once in each process, before its jobs: what went wrong, or NULL. */
    const char *(*begin)(void *with);
    /* Does job JOB and adds to RECORD, which is empty, what TAKE has to know about it. */
    void (*make)(void *with, size_t job, struct text *record);
    /* In the calling process, for each job in order. False stops the work. */
    bool (*take)(void *with, size_t job, const struct text *record);
    /* Once in each process that began. */
    void (*end)(void *with);
};

/* Does WORK in PROCESSES processes; in this one alone if that is 1 or there is little to do. Returns NULL, or what went
 * wrong (static, or as long as the process lives). Standard output is flushed before. Signals that end a program are
 * delivered between two jobs. */
const char *workers_run(const struct work *work, unsigned processes);

/* How many processors this process may run on. */
unsigned workers_wanted(void);

#endif
