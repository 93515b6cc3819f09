#include "cli/git.h"

#include <errno.h>
#include <fcntl.h>
#include <spawn.h>
#include <stdio.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

#include "cli/tell.h"
#include "plan/plan_files.h"
#include "source/source.h"

extern char **environ;

enum { MOST_BYTES = 32 * SOURCE_LARGEST, MOST_WORDS = 16 };

void overlays_add(struct arena *arena, struct overlays *overlays, struct overlay overlay)
{
    overlays->items = arena_grow(arena, overlays->items, overlays->count, &overlays->capacity, sizeof *overlays->items);
    overlays->items[overlays->count++] = overlay;
}

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

/* As git_ask; *WHY is set to what to say if it fails, which names who asks. */
static bool run_git(const struct git *git, const char *const *words, int input, struct text *out, const char **why)
{
    /* A file watcher that the repository names would be one more program to run. */
    const char *argv[MOST_WORDS] = {"git", "-c", "core.fsmonitor=false", "-C", git->top};
    size_t count = 5;
    while (*words && count + 1 < MOST_WORDS)
        argv[count++] = *words++;
    argv[count] = NULL;
    pid_t process = 0;
    int from = -1, status = 0, failed = start_git((char *const *)argv, input, &process, &from);
    *out = (struct text){.arena = git->arena};
    if (failed) {
        *why = arena_printf(git->arena, "%s asks git, which cannot be started: %s", git->asks, strerror(failed));
        return false;
    }
    bool whole = read_all(from, out);
    close(from);
    while (waitpid(process, &status, 0) < 0 && errno == EINTR)
        continue;
    *why = arena_printf(git->arena, whole ? "%s needs a git repository that can be read"
                                          : "what %s asks git for is larger than plans can be", git->asks);
    return whole && WIFEXITED(status) && WEXITSTATUS(status) == 0;
}

bool git_ask(const struct git *git, const char *const *words, int input, struct text *out)
{
    const char *why;
    bool good = run_git(git, words, input, out, &why);
    if (!good)
        tell_error("%s", why);
    return good;
}

bool git_ask_quietly(const struct git *git, const char *const *words, struct text *out)
{
    const char *why;
    return run_git(git, words, -1, out, &why);
}

bool git_find_top(struct git *git)
{
    static const char *const words[] = {"rev-parse", "--show-toplevel", NULL};
    struct text out;
    git->top = ".";
    if (!git_ask(git, words, -1, &out))
        return false;
    const char *said = text_get(&out);
    git->top = plan_true_path(git->arena, arena_copy(git->arena, said, strcspn(said, "\n")));
    return true;
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
static bool lay_blobs(const struct git *git, const struct text *out, const struct git_file *files, size_t count, bool all,
                      struct overlays *overlays)
{
    const char *at = text_get(out), *end = at + out->length;
    for (size_t i = 0; i < count; i++) {
        size_t length = 0;
        const char *bytes = memchr(at, '\n', (size_t)(end - at));
        if (!bytes || sscanf(at, "%*s blob %zu", &length) != 1 || length >= (size_t)(end - bytes - 1)) {
            tell_error("%s: git does not have it", files[i].path);
            return false;
        }
        const char *path = arena_printf(git->arena, "%s/%s", git->top, files[i].path);
        ++bytes;
        if (all || !is_on_disk(path, bytes, length))
            overlays_add(git->arena, overlays, (struct overlay){.path = path, .text = bytes, .length = length});
        at = bytes + length + 1;
    }
    return true;
}

bool git_read_files(const struct git *git, const struct git_file *files, size_t count, bool all, struct overlays *overlays)
{
    static const char *const words[] = {"cat-file", "--batch", NULL};
    FILE *objects = tmpfile();
    if (!objects) {
        tell_error("%s needs room for a temporary file: %s", git->asks, strerror(errno));
        return false;
    }
    for (size_t i = 0; i < count; i++)
        fprintf(objects, "%s\n", files[i].object);
    struct text out;
    bool read = fflush(objects) == 0 && lseek(fileno(objects), 0, SEEK_SET) == 0 &&
                git_ask(git, words, fileno(objects), &out);
    fclose(objects);
    return read && lay_blobs(git, &out, files, count, all, overlays);
}
