#include "cli/staged.h"

#include <errno.h>
#include <fcntl.h>
#include <spawn.h>
#include <stdio.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

#include "base/text.h"
#include "cli/tell.h"
#include "plan/plan_files.h"
#include "source/source.h"

extern char **environ;

enum { MOST_BYTES = 32 * SOURCE_LARGEST, MOST_WORDS = 12 };

/* A plan in the index: the name of its bytes, and its path from the top. */
struct entry {
    const char *object, *path;
};

struct staging {
    struct arena *arena;
    struct staged *staged;
    const char *top; /* true path of the working tree */
    struct entry *entries;
    size_t count, capacity;
};

/* --- git --- */

/* Starts git with ARGV, reading from INPUT; *OUT is the end to read from. Returns 0, or errno. */
static int start_git(char *const *argv, int input, pid_t *process, int *out)
{
    int ends[2];
    if (pipe(ends) != 0)
        return errno;
    posix_spawn_file_actions_t actions;
    posix_spawn_file_actions_init(&actions);
    if (input >= 0)
        posix_spawn_file_actions_adddup2(&actions, input, STDIN_FILENO);
    else
        posix_spawn_file_actions_addopen(&actions, STDIN_FILENO, "/dev/null", O_RDONLY, 0);
    posix_spawn_file_actions_adddup2(&actions, ends[1], STDOUT_FILENO);
    posix_spawn_file_actions_addclose(&actions, ends[0]);
    posix_spawn_file_actions_addclose(&actions, ends[1]);
    int failed = posix_spawnp(process, "git", &actions, NULL, argv, environ);
    posix_spawn_file_actions_destroy(&actions);
    close(ends[1]);
    if (failed)
        close(ends[0]);
    *out = ends[0];
    return failed;
}

/* Reads to the end. False if there is more than a plan can be. */
static bool read_all(int from, struct text *out)
{
    char bytes[16384];
    ssize_t n;
    while ((n = read(from, bytes, sizeof bytes)) != 0) {
        if (n < 0 && errno == EINTR)
            continue;
        if (n < 0 || out->length + (size_t)n > MOST_BYTES)
            return false;
        text_add_bytes(out, bytes, (size_t)n);
    }
    return true;
}

/* What `git -C FOLDER WORDS...` prints, in the staging's arena. False if it fails; git itself has then said why, unless
 * it is not there. */
static bool ask_git(const struct staging *staging, const char *const *words, int input, struct text *out)
{
    /* A file watcher that the repository names would be one more program to run. */
    const char *argv[MOST_WORDS] = {"git", "-c", "core.fsmonitor=false", "-C", staging->top};
    size_t count = 5;
    while (*words && count + 1 < MOST_WORDS)
        argv[count++] = *words++;
    argv[count] = NULL;
    pid_t process = 0;
    int from = -1, status = 0, failed = start_git((char *const *)argv, input, &process, &from);
    if (failed) {
        tell_error("--staged asks git, which cannot be started: %s", strerror(failed));
        return false;
    }
    *out = (struct text){.arena = staging->arena};
    bool whole = read_all(from, out);
    close(from);
    while (waitpid(process, &status, 0) < 0 && errno == EINTR)
        continue;
    if (!whole || !WIFEXITED(status) || WEXITSTATUS(status) != 0) {
        tell_error(whole ? "--staged needs a git repository that can be read" : "what is staged is larger than plans can be");
        return false;
    }
    return true;
}

/* --- the index --- */

static bool find_top(struct staging *staging)
{
    static const char *const words[] = {"rev-parse", "--show-toplevel", NULL};
    struct text out;
    staging->top = ".";
    if (!ask_git(staging, words, -1, &out))
        return false;
    const char *said = text_get(&out);
    staging->top = plan_true_path(staging->arena, arena_copy(staging->arena, said, strcspn(said, "\n")));
    return true;
}

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
    staging->entries = arena_grow(staging->arena, staging->entries, staging->count, &staging->capacity,
                                  sizeof *staging->entries);
    staging->entries[staging->count++] = (struct entry){object, path};
    return true;
}

static bool list_entries(struct staging *staging)
{
    static const char *const words[] = {"ls-files", "--stage", "-z", NULL};
    struct text out;
    if (!ask_git(staging, words, -1, &out))
        return false;
    for (char *line = out.data; line && line < out.data + out.length;) {
        char *next = line + strlen(line) + 1;
        if (!take_entry(staging, line))
            return false;
        line = next;
    }
    return true;
}

static void lay(struct staging *staging, struct overlay overlay)
{
    struct staged *staged = staging->staged;
    staged->overlays = arena_grow(staging->arena, staged->overlays, staged->count, &staged->capacity,
                                  sizeof *staged->overlays);
    staged->overlays[staged->count++] = overlay;
}

/* Does the folder hold just these bytes? */
static bool is_on_disk(const char *path, const char *text, size_t length)
{
    struct arena *scratch = arena_new();
    size_t there;
    const char *wrong = NULL, *bytes = source_bytes(scratch, path, &there, &wrong);
    bool same = bytes && !wrong && there == length && memcmp(bytes, text, length) == 0;
    arena_free(scratch);
    return same;
}

/* OUT is what `cat-file --batch` prints for each entry in turn: OBJECT blob SIZE, a line end, the bytes, a line end. */
static bool lay_blobs(struct staging *staging, const struct text *out)
{
    const char *at = text_get(out), *end = at + out->length;
    for (size_t i = 0; i < staging->count; i++) {
        size_t length = 0;
        const char *bytes = memchr(at, '\n', (size_t)(end - at));
        if (!bytes || sscanf(at, "%*s blob %zu", &length) != 1 || length >= (size_t)(end - bytes - 1)) {
            tell_error("%s: git does not have what is staged of it", staging->entries[i].path);
            return false;
        }
        const char *path = arena_printf(staging->arena, "%s/%s", staging->top, staging->entries[i].path);
        if (!is_on_disk(path, ++bytes, length))
            lay(staging, (struct overlay){.path = path, .text = bytes, .length = length});
        at = bytes + length + 1;
    }
    return true;
}

static bool read_blobs(struct staging *staging)
{
    static const char *const words[] = {"cat-file", "--batch", NULL};
    FILE *objects = tmpfile();
    if (!objects) {
        tell_error("--staged needs room for a temporary file: %s", strerror(errno));
        return false;
    }
    for (size_t i = 0; i < staging->count; i++)
        fprintf(objects, "%s\n", staging->entries[i].object);
    struct text out;
    bool read = fflush(objects) == 0 && lseek(fileno(objects), 0, SEEK_SET) == 0 &&
                ask_git(staging, words, fileno(objects), &out);
    fclose(objects);
    return read && lay_blobs(staging, &out);
}

/* Files that would not be part of a commit are not there, but for those that git is told to ignore. */
static bool hide_unstaged(struct staging *staging)
{
    static const char *const words[] = {"ls-files", "--others", "--exclude-standard", "-z", NULL};
    struct text out;
    if (!ask_git(staging, words, -1, &out))
        return false;
    const char *end = text_get(&out) + out.length;
    for (const char *path = text_get(&out); path < end; path += strlen(path) + 1)
        if (plan_is_name(path))
            lay(staging, (struct overlay){.path = arena_printf(staging->arena, "%s/%s", staging->top, path), .absent = true});
    return true;
}

/* Is each of PATHS in the repository, and none a file that is not staged? */
static bool can_be_staged(const struct staging *staging, const char *const *paths, size_t path_count)
{
    for (size_t i = 0; i < path_count; i++) {
        const char *real = plan_true_path(staging->arena, paths[i]);
        if (!plan_is_inside(staging->top, real)) {
            tell_error("%s is not in the repository of this folder; -C starts in another one", paths[i]);
            return false;
        }
        for (size_t k = 0; k < staging->staged->count; k++) {
            const struct overlay *overlay = &staging->staged->overlays[k];
            if (overlay->absent && text_same(overlay->path, real)) {
                tell_error("%s is not staged", paths[i]);
                return false;
            }
        }
    }
    return true;
}

bool staged_read(struct arena *arena, const char *const *paths, size_t path_count, struct staged *staged)
{
    struct staging staging = {.arena = arena, .staged = staged};
    *staged = (struct staged){0};
    return find_top(&staging) && list_entries(&staging) && read_blobs(&staging) && hide_unstaged(&staging) &&
           can_be_staged(&staging, paths, path_count);
}
