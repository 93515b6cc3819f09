/* confine.h - what each command may still use of the machine, depending on what it was asked to do. */
#ifndef BELL_CLI_CONFINE_H
#define BELL_CLI_CONFINE_H

#include <stddef.h>

#include "cli/options.h"
#include "cli/sandbox.h"

/* What a command needs besides reading what it was given, and its two outputs: the sum of these. */
enum command_need {
    NEEDS_NOTHING = 0,
    NEEDS_HERE = 1,      /* reads the plan of the current folder, too */
    APPLIES = 2,         /* changes the plan if --apply asks for it */
    CHANGES_PLAN = 4,    /* always, except with --check and --diff */
    APPENDS = 8,         /* to the file of --append */
    CHANGES_SECOND = 16, /* the second file that it was given */
    CONFINES_ITSELF = 32 /* once git was asked, or once its folder is made */
};

/* Enters SANDBOX, and says so if --verbose asks for it. */
void confine(const struct options *options, const struct sandbox *sandbox);

/* Confines a command with such NEEDS, unless it does so itself. */
void confine_command(const struct options *options, unsigned needs);

/* Confines to reading the plan and MORE, which may be NULL. */
void confine_to_reading(const struct options *options, const char *more);

#endif
