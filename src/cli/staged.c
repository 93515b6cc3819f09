#include "cli/staged.h"

#include <string.h>

#include "cli/git.h"
#include "cli/tell.h"
#include "plan/plan_files.h"

struct staging {
    struct git git;
    struct overlays *staged;
    struct git_file *entries;
    size_t count, capacity;
};

/* Takes a line of `ls-files --stage`: MODE OBJECT STAGE, a tab, the path. Links are what the folder has. */
static bool take_entry(struct staging *staging, char *line)
{
    char *path = strchr(line, '\t'), *object = strchr(line, ' ');
    if (!path || !object || !plan_is_name(path + 1))
        return true;
    *path++ = '\0';
    char *stage = strchr(++object, ' ');
    if (!stage || strncmp(line, "100", 3) != 0)
        return true;
    *stage++ = '\0';
    if (*stage != '0') {
        tell_error("%s: its two versions are not merged yet", path);
        return false;
    }
    staging->entries = arena_grow(staging->git.arena, staging->entries, staging->count, &staging->capacity,
                                  sizeof *staging->entries);
    staging->entries[staging->count++] = (struct git_file){object, path};
    return true;
}

static bool list_entries(struct staging *staging)
{
    static const char *const words[] = {"ls-files", "--stage", "-z", NULL};
    struct text out;
    if (!git_ask(&staging->git, words, -1, &out))
        return false;
    for (char *line = out.data; line && line < out.data + out.length;) {
        char *next = line + strlen(line) + 1;
        if (!take_entry(staging, line))
            return false;
        line = next;
    }
    return true;
}

/* Files that would not be part of a commit count as missing, except those that git is told to ignore. */
static bool hide_unstaged(struct staging *staging)
{
    static const char *const words[] = {"ls-files", "--others", "--exclude-standard", "-z", NULL};
    struct text out;
    if (!git_ask(&staging->git, words, -1, &out))
        return false;
    const char *end = text_get(&out) + out.length;
    for (const char *path = text_get(&out); path < end; path += strlen(path) + 1)
        if (plan_is_name(path))
            overlays_add(staging->git.arena, staging->staged, (struct overlay){.path = arena_printf(staging->git.arena, "%s/%s", staging->git.top, path), .absent = true});
    return true;
}

/* Is each of PATHS in the repository, and is every file among them staged? */
static bool can_be_staged(const struct staging *staging, const char *const *paths, size_t path_count)
{
    for (size_t i = 0; i < path_count; i++) {
        const char *real = plan_true_path(staging->git.arena, paths[i]);
        if (!plan_is_inside(staging->git.top, real)) {
            tell_error("%s is not in the repository of this folder; -C starts in another one", paths[i]);
            return false;
        }
        for (size_t k = 0; k < staging->staged->count; k++) {
            const struct overlay *overlay = &staging->staged->items[k];
            if (overlay->absent && text_same(overlay->path, real)) {
                tell_error("%s is not staged", paths[i]);
                return false;
            }
        }
    }
    return true;
}

bool staged_read(struct arena *arena, const char *const *paths, size_t path_count, struct overlays *staged)
{
    struct staging staging = {.git = {.arena = arena, .asks = "--staged"}, .staged = staged};
    *staged = (struct overlays){0};
    return git_find_top(&staging.git) && list_entries(&staging) &&
           git_read_files(&staging.git, staging.entries, staging.count, false, staged) && hide_unstaged(&staging) &&
           can_be_staged(&staging, paths, path_count);
}
