/* bellsheet: plain-text programmes for striking athletes, compiled into sheets, cards and a verdict. */
#include <errno.h>
#include <stdio.h>
#include <string.h>

#include "cli/commands.h"
#include "cli/tell.h"

static int run(int argc, char **argv)
{
    struct options options;
    int status = options_read(argc, argv, &options);
    if (status >= 0)
        return status;
    for (size_t i = 0; i < command_count; i++)
        if (strcmp(commands[i].name, options.command) == 0) {
            confine_command(&options, commands[i].needs);
            return commands[i].run(&options);
        }
    return EXIT_COULD_NOT; /* options_read let no other name through */
}

/* What was written to standard output must have arrived: a full disk shows only when the last of it is flushed. */
int main(int argc, char **argv)
{
    int status = run(argc, argv);
    bool lost = ferror(stdout) != 0;
    errno = 0;
    if ((fclose(stdout) != 0 || lost) && status != EXIT_COULD_NOT) {
        tell_error("standard output: %s", errno ? strerror(errno) : "it could not be written");
        status = EXIT_COULD_NOT;
    }
    return status;
}
