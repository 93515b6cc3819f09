#define _XOPEN_SOURCE 700 /* realpath */

#include "cli/confine.h"

#include <glib.h>
#include <stdlib.h>
#include <string.h>

#include "base/arena.h"
#include "plan/plan_files.h"

/* What has to be read and written, while that is worked out. */
struct kept_paths {
    struct arena *arena;
    const char **reads, **writes;
    size_t read_count, read_room, write_count, write_room;
};

static void add_read(struct kept_paths *kept, const char *path)
{
    kept->reads = arena_grow(kept->arena, kept->reads, kept->read_count, &kept->read_room, sizeof *kept->reads);
    kept->reads[kept->read_count++] = path;
}

static void add_write(struct kept_paths *kept, const char *path)
{
    kept->writes = arena_grow(kept->arena, kept->writes, kept->write_count, &kept->write_room, sizeof *kept->writes);
    kept->writes[kept->write_count++] = path;
}

/* A file is written beside itself and then renamed, so its folder has to be writable, or the file itself if it is a
 * pipe or a device. A link leads to the file that is meant. */
static void add_written_file(struct kept_paths *kept, const char *path)
{
    char *real = realpath(path, NULL);
    char *folder = g_path_get_dirname(real ? real : path);
    add_write(kept, arena_copy(kept->arena, folder, strlen(folder)));
    add_write(kept, path);
    g_free(folder);
    free(real);
}

static void add_written_plan(struct kept_paths *kept, const char *path)
{
    if (strcmp(path, "-") != 0)
        add_write(kept, plan_reach(kept->arena, plan_root(kept->arena, path)));
}

static void add_writes(struct kept_paths *kept, const struct options *options, unsigned needs)
{
    bool changes = ((needs & APPLIES) && options->apply) || ((needs & CHANGES_PLAN) && !options->check && !options->diff);
    if (changes) {
        for (int i = 0; i < options->path_count; i++)
            add_written_plan(kept, options->paths[i]);
        if (!options->path_count)
            add_written_plan(kept, ".");
    }
    if ((needs & APPENDS) && options->append)
        add_written_file(kept, options->append);
    if ((needs & CHANGES_SECOND) && options->path_count > 1)
        add_written_file(kept, options->paths[1]);
}

static void enter(const struct options *options, struct kept_paths *kept)
{
    confine(options, &(struct sandbox){.reads = kept->reads, .read_count = kept->read_count,
                                       .writes = kept->writes, .write_count = kept->write_count});
    arena_free(kept->arena);
}

void confine(const struct options *options, const struct sandbox *sandbox)
{
    struct confinement confinement = sandbox_enter(sandbox);
    if (options->verbose)
        sandbox_describe(confinement, stderr);
}

void confine_command(const struct options *options, unsigned needs)
{
    if (needs & CONFINES_ITSELF)
        return;
    struct kept_paths kept = {.arena = arena_new()};
    for (int i = 0; i < options->path_count; i++)
        add_read(&kept, options->paths[i]);
    if ((needs & NEEDS_HERE) || !options->path_count)
        add_read(&kept, ".");
    if (options->rules)
        add_read(&kept, options->rules);
    add_writes(&kept, options, needs);
    enter(options, &kept);
}

void confine_to_reading(const struct options *options, const char *more)
{
    struct kept_paths kept = {.arena = arena_new()};
    for (int i = 0; i < options->path_count; i++)
        add_read(&kept, options->paths[i]);
    if (!options->path_count)
        add_read(&kept, ".");
    if (more)
        add_read(&kept, more);
    enter(options, &kept);
}
