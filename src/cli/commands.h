/* commands.h - the commands. Each is one file; each returns the exit status: 0 clean, 1 the plan has errors, 2 it
 * could not run. */
#ifndef BELL_CLI_COMMANDS_H
#define BELL_CLI_COMMANDS_H

#include <stddef.h>

#include "cli/confine.h"
#include "cli/options.h"

enum { EXIT_CLEAN = 0, EXIT_PLAN = 1, EXIT_COULD_NOT = 2 };

typedef int command_run(const struct options *options);

command_run command_check, command_find, command_print, command_explain, command_format, command_new, command_show, command_tally,
    command_limits, command_diff, command_lsp, command_close, command_trim, command_rework, command_next, command_log, command_join,
    command_import;

struct command {
    const char *name;
    const char *line;     /* what it does, in one line */
    const char *examples; /* of use, then what it does, for --help */
    const char *takes;    /* names of the options it takes, separated by spaces */
    command_run *run;
    unsigned needs;       /* enum command_need */
};

extern const struct command commands[];
extern const size_t command_count;

#endif
