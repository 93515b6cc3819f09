/* watch.h - waits until a plan is saved. */
#ifndef BELL_CLI_WATCH_H
#define BELL_CLI_WATCH_H

#include "cli/project.h"

struct watch {
    int notify; /* descriptor of inotify */
};

/* Returns NULL, or what went wrong (errno's text). */
const char *watch_open(struct watch *watch);
void watch_close(struct watch *watch);

/* Looks from now on at the folders that hold the plans of PROJECT and those that OPTIONS name. Folders are watched,
 * not files: many editors save to a new file and rename it, and a plan may be added. */
void watch_project(struct watch *watch, const struct project *project,
                   const struct options *options);

/* Returns once a plan or folder there was written, renamed or removed and nothing more has happened for a moment:
 * NULL, or what went wrong. */
const char *watch_wait(struct watch *watch);

#endif
