/* Any bytes as a folder of plans: files that `use` one another, links and folders, in and out of it. It is read, or what could
 * not be had is named; nothing that lies outside is ever read. */
#include "fuzz/fuzz.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/output.h"
#include "fuzz/kept_file.h"
#include "model/programme.h"
#include "plan/plan.h"

enum { MOST_THINGS = 12, PATH_ROOM = 256 };

static char folder[64]; /* in it `plan`, what is read, and `out`, which is not its business */

static const char *const names[] = {"a.bell", "b.bell", "c.bell", "below/d.bell", "below/e.bell", "below", "f.txt", "g.bell"};
static const char *const targets[] = {"a.bell", "below",      "../out/secret.bell", "../out", "..", "/dev/null", "below/d.bell",
                                      "g.bell", "./b.bell",   "../plan/a.bell",     ".",      "below/../c.bell"};

static void path_of(const char *name, char *path)
{
    snprintf(path, PATH_ROOM, "%s/plan/%s", folder, name);
}

static void clear(void)
{
    char path[PATH_ROOM];
    for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
        path_of(names[i], path);
        if (unlink(path) != 0)
            rmdir(path);
    }
}

static void drop_folder(void)
{
    char path[PATH_ROOM];
    snprintf(path, sizeof path, "%s/out/secret.bell", folder);
    unlink(path);
    *strrchr(path, '/') = '\0';
    rmdir(path);
    path_of("", path);
    rmdir(path);
    rmdir(folder);
}

static void make_folder(void)
{
    char path[PATH_ROOM];
    if (*folder)
        return;
    strcpy(folder, access("/dev/shm", W_OK) == 0 ? "/dev/shm/fuzz-XXXXXX" : "/tmp/fuzz-XXXXXX");
    if (!mkdtemp(folder) || atexit(drop_folder) != 0)
        abort();
    path_of("", path);
    mkdir(path, 0700);
    snprintf(path, sizeof path, "%s/out", folder);
    mkdir(path, 0700);
    snprintf(path, sizeof path, "%s/out/secret.bell", folder);
    if (output_write(path, "athlete Outside\n", strlen("athlete Outside\n")))
        abort();
}

/* Nothing is made through a link that may lead out. */
static bool is_folder_below(void)
{
    char path[PATH_ROOM];
    struct stat about;
    path_of("below", path);
    return lstat(path, &about) == 0 && S_ISDIR(about.st_mode);
}

/* One thing of three bytes: a file that uses others and declares somebody, a link, or a folder. */
static void make_thing(const uint8_t *data)
{
    char path[PATH_ROOM], text[PATH_ROOM];
    path_of(names[data[0] % (sizeof names / sizeof *names)], path);
    if (strstr(path, "below/") && !is_folder_below())
        return;
    const char *target = targets[data[1] % (sizeof targets / sizeof *targets)];
    switch (data[2] % 4) {
    case 0: mkdir(path, 0700); break;
    case 1:
        if (symlink(target, path) != 0)
            return;
        break;
    default:
        snprintf(text, sizeof text, "use %s\nathlete Nobody %d\n", target, data[2]);
        if (symlink("x", path) == 0 && unlink(path) == 0) /* only where nothing is: else a link would be followed */
            output_write(path, text, strlen(text));
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    char root[PATH_ROOM], file[PATH_ROOM];
    if (size < 4)
        return 0;
    make_folder();
    for (size_t i = 1; i + 2 < size && i < 1 + 3 * MOST_THINGS; i += 3)
        make_thing(data + i);
    struct arena *arena = arena_new();
    path_of("", root);
    path_of(names[data[0] / 2 % 3], file);
    /* Who names a folder by a link means the folder that it leads to. */
    struct stat about;
    bool is_folder = stat(file, &about) == 0 && S_ISDIR(about.st_mode);
    const char *const paths[] = {data[0] % 2 || is_folder ? root : file};
    struct project project;
    const struct project_request request = {.share = kept_file(arena, "share"), .paths = paths, .path_count = 1, .shelf = SHELF_NAMED};
    bool loaded = project_load(&project, arena, &request);
    if (!loaded && !project.failure.why)
        abort();
    for (size_t i = 0; loaded && i < project.programme->athlete_count; i++)
        if (strcmp(project.programme->athletes[i]->name.shown, "Outside") == 0)
            abort();
    arena_free(arena);
    clear();
    return 0;
}
