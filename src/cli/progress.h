/* progress.h - a line that says how far long work is; on a terminal only, and only after a second. */
#ifndef BELL_CLI_PROGRESS_H
#define BELL_CLI_PROGRESS_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

struct progress {
    int64_t started; /* microseconds of a clock that never goes back */
    bool terminal, visible;
};

void progress_start(struct progress *progress);
void progress_show(struct progress *progress, size_t done, size_t all);

/* Takes the line away: before other output, and at the end. */
void progress_hide(struct progress *progress);

#endif
