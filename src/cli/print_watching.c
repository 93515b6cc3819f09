/* print_watching.c - `print --watch`: files that do not change stay read, and the plan is read as soon as one does.
 * It does not wait for an editor to finish saving, but reports and prints nothing before that. */
#include <stdio.h>

#include "cli/commands.h"
#include "cli/print.h"
#include "cli/tell.h"
#include "cli/watch.h"
#include "plan/kept.h"

/* What went wrong with the watch, or NULL. */
static const char *print_again(const struct options *options, struct watch *watch, struct kept *kept)
{
    struct project project;
    struct arena *arena = arena_new();
    struct project_request request = project_request_of(arena, options, PLAN_NEEDED);
    request.kept = kept;
    bool opened = project_load(&project, arena, &request), more = false;
    watch_project(watch, &project, options);
    const char *wrong = watch_rest(watch, &more);
    if (!wrong && !more) {
        int status = opened ? print_project(&project, options) : EXIT_COULD_NOT;
        if (!opened)
            project_tell_failure(&project);
        fputs(status == EXIT_CLEAN ? "watching: printed\n"
                                   : "watching: there are errors; what could not be printed stays as it was\n",
              stderr);
        wrong = watch_wait(watch);
    }
    project_close(&project);
    return wrong;
}

int print_watching(const struct options *options)
{
    struct memory memory = {0};
    struct kept kept;
    struct watch watch;
    kept_open(&kept, &memory);
    kept.in_part = true;
    const char *wrong = watch_open(&watch);
    while (!wrong)
        wrong = print_again(options, &watch, &kept);
    tell_error("watching: %s", wrong);
    watch_close(&watch);
    memory_free(&memory, NULL);
    return EXIT_COULD_NOT;
}
