/* watch.h - waits until a plan is saved. */
#ifndef BELL_CLI_WATCH_H
#define BELL_CLI_WATCH_H

#include "cli/project.h"

struct watch {
    int notify;       /* descriptor of inotify */
    long long latest; /* when something happened last that matters, in microseconds; 0: nothing has */
};

/* Returns NULL, or what went wrong (errno's text). */
const char *watch_open(struct watch *watch);
void watch_close(struct watch *watch);

/* From now on, watches the folders of PROJECT's plans and those that OPTIONS name. Folders are watched, not files:
 * many editors save to a new file and rename it, and a plan may be added. */
void watch_project(struct watch *watch, const struct project *project,
                   const struct options *options);

/* Returns as soon as a plan or folder there is written, renamed or removed: NULL, or what went wrong. */
const char *watch_wait(struct watch *watch);

/* Returns once nothing more has happened for a moment. If something has, it returns with *MORE set, and what was
 * read since watch_wait may be half of what is being saved. */
const char *watch_rest(struct watch *watch, bool *more);

#endif
