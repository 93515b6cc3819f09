/* revision.h - the plan files of a revision of git, without a checkout. */
#ifndef BELL_CLI_REVISION_H
#define BELL_CLI_REVISION_H

#include "cli/git.h"

/* What to lay over the repository of GIT, whose top is found, so that its plans are those of revision NAME: every
 * plan file of the revision, and for files in the folder that the revision does not have, private and ignored ones
 * included, that they are missing. False, with a message, if there is no such revision. */
bool revision_read(const struct git *git, const char *name, struct overlays *overlays);

#endif
