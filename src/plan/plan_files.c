#define _DEFAULT_SOURCE /* realpath, the kinds of a folder's entries */

#include "plan/plan_files.h"

#include <dirent.h>
#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

enum { DEEPEST_FOLDER = 12 };

/* --- paths --- */

/* PATH's true path, or NULL. */
static const char *resolved(struct arena *arena, const char *path)
{
    char *real = realpath(path, NULL);
    if (!real)
        return NULL;
    const char *copy = arena_copy(arena, real, strlen(real));
    free(real);
    return copy;
}

const char *plan_true_path(struct arena *arena, const char *path)
{
    const char *real = strcmp(path, "-") == 0 ? path : resolved(arena, path);
    if (real)
        return real;
    const char *slash = strrchr(path, '/'), *name = slash ? slash + 1 : path;
    const char *folder = resolved(arena, slash ? arena_copy(arena, path, (size_t)(name - path)) : ".");
    return folder ? arena_printf(arena, "%s/%s", folder[1] ? folder : "", name) : path;
}

const char *plan_root(struct arena *arena, const char *path)
{
    struct stat about;
    if (strcmp(path, "-") == 0)
        return plan_true_path(arena, ".");
    if (stat(path, &about) == 0 && S_ISDIR(about.st_mode))
        return plan_true_path(arena, path);
    const char *slash = strrchr(path, '/');
    return plan_true_path(arena, slash ? arena_copy(arena, path, (size_t)(slash - path + 1)) : ".");
}

const char *plan_reach(struct arena *arena, const char *root)
{
    const char *slash = strrchr(root, '/');
    if (!slash || slash == root || access(arena_printf(arena, "%.*s/club.bell", (int)(slash - root), root), F_OK) != 0)
        return root;
    return arena_copy(arena, root, (size_t)(slash - root));
}

bool plan_is_inside(const char *root, const char *real)
{
    size_t length = strlen(root);
    return strncmp(root, real, length) == 0 && (real[length] == '/' || real[length] == '\0' || length == 1);
}

bool plan_is_name(const char *name)
{
    size_t length = strlen(name);
    return length > 5 && strcmp(name + length - 5, ".bell") == 0;
}

const char *plan_shown(struct arena *arena, const char *path)
{
    size_t length = strlen(path);
    while (length > 1 && path[length - 1] == '/')
        length--;
    return arena_copy(arena, path, length);
}

/* NAME in FOLDER. */
static const char *joined(struct arena *arena, const char *folder, const char *name)
{
    size_t length = strlen(folder), more = strlen(name);
    char *path = arena_alloc(arena, length + more + 2);
    memcpy(path, folder, length + 1);
    path[length] = '/';
    memcpy(path + length + 1, name, more + 1);
    return path;
}

/* --- folders --- */

struct folder_entry {
    const char *name;
    unsigned char type; /* DT_REG...; DT_UNKNOWN where the file system does not tell */
};

static int by_name(const void *left, const void *right)
{
    return strcmp(((const struct folder_entry *)left)->name, ((const struct folder_entry *)right)->name);
}

/* What is in the folder PATH, sorted, without names that start with a dot and files that are no plans. */
static struct folder_entry *list_folder(struct arena *arena, const char *path, size_t *count, const char **wrong)
{
    DIR *folder = opendir(path);
    if (!folder) {
        *wrong = strerror(errno);
        return NULL;
    }
    struct folder_entry *entries = NULL;
    size_t capacity = 0;
    for (struct dirent *entry; (entry = readdir(folder)) != NULL;) {
        if (entry->d_name[0] == '.' || (entry->d_type == DT_REG && !plan_is_name(entry->d_name)))
            continue;
        entries = arena_grow(arena, entries, *count, &capacity, sizeof *entries);
        const char *name = arena_copy(arena, entry->d_name, strlen(entry->d_name));
        entries[(*count)++] = (struct folder_entry){name, entry->d_type};
    }
    closedir(folder);
    if (entries && *count > 1)
        qsort(entries, *count, sizeof *entries, by_name);
    return entries;
}

/* Is INNER, an ENTRY of the folder whose true path is FOLDER, a plan or a folder? *IS_FOLDER and its true path *REAL
 * then tell. Only what may be a link need be asked for. */
static bool find_entry(struct arena *arena, const struct folder_entry *entry, const char *folder, const char *inner,
                       bool *is_folder, const char **real)
{
    if (entry->type == DT_REG || entry->type == DT_DIR) {
        *is_folder = entry->type == DT_DIR;
        *real = joined(arena, folder[1] ? folder : "", entry->name);
        return true;
    }
    struct stat about;
    if (stat(inner, &about) != 0 || (!S_ISDIR(about.st_mode) && !plan_is_name(entry->name)))
        return false;
    *is_folder = S_ISDIR(about.st_mode);
    *real = plan_true_path(arena, inner);
    return true;
}

static bool cannot(const struct plan_files *files, const char *shown, const char *why)
{
    files->cannot(files->with, shown, why);
    return false;
}

static bool take_file(struct plan_files *files, const char *path, const char *real, const char *shown)
{
    if (files->root && strcmp(path, "-") != 0 && !plan_is_inside(files->root, real))
        return cannot(files, shown, "this link leads out of the plan's folder");
    files->met++;
    return files->take(files->with, path, real, shown);
}

static bool walk_folder(struct plan_files *files, const char *path, const char *real, const char *shown, int depth)
{
    size_t count = 0;
    const char *wrong = NULL;
    if (files->root && !plan_is_inside(files->root, real))
        return cannot(files, shown, "this link leads out of the plan's folder");
    if (depth > DEEPEST_FOLDER)
        return cannot(files, shown, "the folders of a plan may be at most 12 deep");
    if (!g_hash_table_add(files->folders, (char *)real)) {
        files->met++; /* what is in it was come across before */
        return true;
    }
    struct folder_entry *entries = list_folder(files->arena, path, &count, &wrong);
    if (wrong)
        return cannot(files, shown, wrong);
    for (size_t i = 0; i < count; i++) {
        const char *inner = joined(files->arena, path, entries[i].name), *inner_real;
        const char *inner_shown = joined(files->arena, shown, entries[i].name);
        bool is_folder;
        if (find_entry(files->arena, &entries[i], real, inner, &is_folder, &inner_real) &&
            !(is_folder ? walk_folder(files, inner, inner_real, inner_shown, depth + 1)
                        : take_file(files, inner, inner_real, inner_shown)))
            return false;
    }
    return true;
}

bool plan_files_walk(struct plan_files *files, const char *path, const char *real, const char *shown)
{
    struct stat about = {0};
    if (strcmp(path, "-") != 0 && stat(path, &about) != 0)
        return cannot(files, shown, strerror(errno));
    return S_ISDIR(about.st_mode) ? walk_folder(files, path, real, shown, 1) : take_file(files, path, real, shown);
}
