/* share_folder.c - where the shelf is: beside the program in a build or an installation, otherwise where it was meant
 * to be installed. */
#include <limits.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "cli/project.h"

enum { FOLDERS_UP = 5 };

static bool has_shelf(struct arena *arena, const char *folder)
{
    struct stat there;
    return stat(arena_printf(arena, "%s/exercises", folder), &there) == 0 && S_ISDIR(there.st_mode);
}

const char *share_folder(struct arena *arena)
{
    char path[PATH_MAX];
    ssize_t length = readlink("/proc/self/exe", path, sizeof path - 1);
    path[length > 0 ? length : 0] = '\0';
    /* bin/bellsheet, build/bellsheet, and what is built deeper below the checkout. */
    for (int up = 0; up < FOLDERS_UP; up++) {
        char *slash = strrchr(path, '/');
        if (!slash)
            break;
        *slash = '\0';
        static const char *const beside[] = {"share/bellsheet", "share"};
        for (size_t i = 0; i < sizeof beside / sizeof *beside; i++) {
            const char *folder = arena_printf(arena, "%s/%s", path, beside[i]);
            if (has_shelf(arena, folder))
                return folder;
        }
    }
    return has_shelf(arena, BELL_SHARE_DIR) ? BELL_SHARE_DIR : NULL;
}
