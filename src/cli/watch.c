#include "cli/watch.h"

#include <errno.h>
#include <glib.h>
#include <poll.h>
#include <stdalign.h>
#include <stdio.h>
#include <string.h>
#include <sys/inotify.h>
#include <sys/stat.h>
#include <unistd.h>

/* Editors save in several steps, a millisecond or two apart; nothing must happen for this long before anything is
 * reported or printed. If one takes longer, its file is read twice, which prints nothing twice. */
enum { QUIET_MILLISECONDS = 30 };

const char *watch_open(struct watch *watch)
{
    watch->latest = 0;
    watch->notify = inotify_init1(IN_CLOEXEC | IN_NONBLOCK);
    return watch->notify < 0 ? strerror(errno) : NULL;
}

void watch_close(struct watch *watch)
{
    if (watch->notify >= 0)
        close(watch->notify);
}

static void watch_folder(struct watch *watch, const char *path)
{
    /* A folder that is already watched keeps its watch; one that is gone has nothing to report. */
    inotify_add_watch(watch->notify, path,
                      IN_CLOSE_WRITE | IN_MOVED_TO | IN_MOVED_FROM | IN_DELETE | IN_CREATE |
                          IN_ONLYDIR);
}

static void watch_folder_of(struct watch *watch, struct arena *arena, const char *path)
{
    const char *slash = strrchr(path, '/');
    watch_folder(watch, slash ? arena_copy(arena, path, (size_t)(slash - path + 1)) : ".");
}

void watch_project(struct watch *watch, const struct project *project,
                   const struct options *options)
{
    if (options->path_count == 0)
        watch_folder(watch, ".");
    for (int i = 0; i < options->path_count; i++) {
        struct stat about;
        if (stat(options->paths[i], &about) == 0 && S_ISDIR(about.st_mode))
            watch_folder(watch, options->paths[i]);
        else
            watch_folder_of(watch, project->arena, options->paths[i]);
    }
    for (size_t i = 0; i < project->sources.count; i++)
        if (!project->sources.items[i].shelf)
            watch_folder_of(watch, project->arena, project->sources.items[i].path);
}

static bool is_plan(const char *name)
{
    size_t length = strlen(name);
    return length > 5 && name[0] != '.' && strcmp(name + length - 5, ".bell") == 0;
}

/* A new plan is waited for until it is written; a new folder may hold plans. */
static bool matters(const struct inotify_event *event)
{
    if (event->mask & IN_Q_OVERFLOW)
        return true;
    if (event->mask & IN_ISDIR)
        return true;
    return event->len > 0 && is_plan(event->name) && !(event->mask & IN_CREATE);
}

/* Reads what has happened; *ANY is set if it matters. False if reading failed. */
static bool take_events(struct watch *watch, bool *any)
{
    alignas(struct inotify_event) char bytes[4096];
    ssize_t length;
    while ((length = read(watch->notify, bytes, sizeof bytes)) > 0)
        for (char *at = bytes; at < bytes + length;) {
            const struct inotify_event *event = (const struct inotify_event *)(void *)at;
            *any = *any || matters(event);
            at += sizeof *event + event->len;
        }
    return length >= 0 || errno == EAGAIN || errno == EINTR;
}

/* Waits for MILLISECONDS, or without end if below 0, for something that matters; *ANY is set if it happens. */
static const char *await(struct watch *watch, int milliseconds, bool *any)
{
    struct pollfd look = {.fd = watch->notify, .events = POLLIN};
    int found = poll(&look, 1, milliseconds);
    if (found < 0 && errno != EINTR)
        return strerror(errno);
    if (found > 0 && !take_events(watch, any))
        return strerror(errno);
    if (*any)
        watch->latest = g_get_monotonic_time();
    return NULL;
}

const char *watch_wait(struct watch *watch)
{
    bool any = false;
    const char *wrong = NULL;
    while (!any && !wrong)
        wrong = await(watch, -1, &any);
    return wrong;
}

const char *watch_rest(struct watch *watch, bool *more)
{
    const long long rests = watch->latest ? watch->latest + QUIET_MILLISECONDS * 1000 : 0;
    const char *wrong = NULL;
    long long left;
    *more = false;
    do {
        left = rests - g_get_monotonic_time();
        wrong = await(watch, left > 0 ? (int)(left / 1000) + 1 : 0, more);
    } while (left > 0 && !*more && !wrong);
    return wrong;
}
