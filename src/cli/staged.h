/* staged.h - the plan files of git's index, instead of those in the folder. */
#ifndef BELL_CLI_STAGED_H
#define BELL_CLI_STAGED_H

#include "cli/git.h"

/* What to lay over the folder so that plans are as they are staged: the staged bytes of files that differ, and for
 * files that are not staged at all, that they are missing. Files that git ignores, such as private ones, remain.
 * Asks the program `git`, in the current folder; PATHS must be in its repository. False, with a message, if that
 * cannot be done. */
bool staged_read(struct arena *arena, const char *const *paths, size_t path_count, struct overlays *staged);

#endif
