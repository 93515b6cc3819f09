#include "cli/progress.h"

#include <glib.h>
#include <stdio.h>
#include <unistd.h>

void progress_start(struct progress *progress)
{
    *progress = (struct progress){.started = g_get_monotonic_time(), .terminal = isatty(STDERR_FILENO)};
}

void progress_show(struct progress *progress, size_t done, size_t all)
{
    enum { SECOND = 1000000 };
    if (!progress->terminal || g_get_monotonic_time() - progress->started < SECOND)
        return;
    fprintf(stderr, "\r%zu of %zu sheets", done, all);
    progress->visible = true;
}

void progress_hide(struct progress *progress)
{
    if (progress->visible)
        fputs("\r\033[K", stderr);
    progress->visible = false;
}
