#include "cli/revision.h"

#include <glib.h>
#include <string.h>

#include "cli/tell.h"
#include "plan/plan_files.h"

/* The full name of the commit that NAME stands for: 40 or 64 hexadecimal digits. NULL, with a message, if there is
 * none. What begins like an option is not passed to git. */
static const char *commit_of(const struct git *git, const char *name)
{
    const char *const words[] = {"rev-parse", "--verify", "--quiet", "--end-of-options",
                                 arena_printf(git->arena, "%s^{commit}", name), NULL};
    struct text out = {0};
    bool found = *name && *name != '-' && git_ask_quietly(git, words, &out);
    const char *said = found ? text_get(&out) : "";
    size_t length = strspn(said, "0123456789abcdef");
    if (length == 40 || length == 64)
        return arena_copy(git->arena, said, length);
    tell_error("%s: there is no such folder, and no such revision of git", name);
    return NULL;
}

struct tree_files {
    struct git_file *items;
    size_t count, capacity;
};

/* Takes a line of `ls-tree`: MODE TYPE OBJECT, a tab, the path. Links lead to files that are listed themselves. */
static void take_line(const struct git *git, struct tree_files *files, char *line)
{
    char *path = strchr(line, '\t'), *type = strchr(line, ' ');
    if (!path || !type || !plan_is_name(path + 1) || strncmp(line, "100", 3) != 0 || strncmp(type, " blob ", 6) != 0)
        return;
    *path++ = '\0';
    files->items = arena_grow(git->arena, files->items, files->count, &files->capacity, sizeof *files->items);
    files->items[files->count++] = (struct git_file){type + 6, path};
}

static bool list_tree(const struct git *git, const char *commit, struct tree_files *files)
{
    const char *const words[] = {"ls-tree", "-r", "-z", "--full-tree", commit, NULL};
    struct text out;
    if (!git_ask(git, words, -1, &out))
        return false;
    for (char *line = out.data; line && line < out.data + out.length;) {
        char *next = line + strlen(line) + 1;
        take_line(git, files, line);
        line = next;
    }
    return true;
}

/* Plan files that are in the folder but not in the revision count as missing. */
static bool hide_others(const struct git *git, const struct tree_files *files, struct overlays *overlays)
{
    static const char *const words[] = {"ls-files", "--cached", "--others", "-z", NULL};
    struct text out;
    if (!git_ask(git, words, -1, &out))
        return false;
    GHashTable *there = g_hash_table_new(g_str_hash, g_str_equal);
    for (size_t i = 0; i < files->count; i++)
        g_hash_table_add(there, (gpointer)files->items[i].path);
    const char *end = text_get(&out) + out.length;
    for (const char *path = text_get(&out); path < end; path += strlen(path) + 1)
        if (plan_is_name(path) && g_hash_table_add(there, (gpointer)path))
            overlays_add(git->arena, overlays, (struct overlay){.path = arena_printf(git->arena, "%s/%s", git->top, path),
                                                                .absent = true});
    g_hash_table_destroy(there);
    return true;
}

bool revision_read(const struct git *git, const char *name, struct overlays *overlays)
{
    struct tree_files files = {0};
    const char *commit = commit_of(git, name);
    return commit && list_tree(git, commit, &files) && git_read_files(git, files.items, files.count, true, overlays) &&
           hide_others(git, &files, overlays);
}
