#define _XOPEN_SOURCE 700 /* realpath */

#include "lsp/club.h"

#include <dirent.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "lsp/uri.h"
#include "plan/plan_files.h"

/* --- which folder --- */

static bool holds_plans(const char *folder)
{
    DIR *entries = opendir(folder);
    bool found = false;
    for (const struct dirent *entry; entries && !found && (entry = readdir(entries)) != NULL;)
        found = entry->d_name[0] != '.' && plan_is_name(entry->d_name);
    if (entries)
        closedir(entries);
    return found;
}

static bool has_entry(const char *folder, const char *name)
{
    struct stat about;
    char *path = g_strdup_printf("%s/%s", folder, name);
    bool found = stat(path, &about) == 0;
    g_free(path);
    return found;
}

/* Must no search go above FOLDER? */
static bool is_border(const char *folder)
{
    static const char *const controls[] = {".git", ".hg", ".svn", ".jj"};
    const char *home = getenv("HOME");
    if (folder[1] == '\0' || (home && strcmp(folder, home) == 0))
        return true;
    for (size_t i = 0; i < sizeof controls / sizeof *controls; i++)
        if (has_entry(folder, controls[i]))
            return true;
    return false;
}

/* The innermost folder of the workspace that contains PATH, or NULL. */
static const char *folder_around(const struct workspace *workspace, const char *path)
{
    const char *best = NULL;
    for (guint i = 0; i < workspace->folders->len; i++) {
        const char *folder = g_ptr_array_index(workspace->folders, i);
        if (plan_is_inside(folder, path) && (!best || strlen(folder) > strlen(best)))
            best = folder;
    }
    return best;
}

/* The topmost folder, from TOP down to that of PATH, that contains plans; that of PATH if none does. */
static char *topmost_below(const char *top, const char *path)
{
    char *own = g_path_get_dirname(path), *best = g_strdup(own);
    for (char *folder = g_strdup(own); plan_is_inside(top, folder);) {
        if (holds_plans(folder)) {
            g_free(best);
            best = g_strdup(folder);
        }
        char *above = strcmp(folder, top) == 0 ? g_strdup("") : g_path_get_dirname(folder);
        g_free(folder);
        folder = above;
        if (!*folder) {
            g_free(folder);
            break;
        }
    }
    g_free(own);
    return best;
}

/* The topmost folder above PATH that can be reached through folders that contain plans. */
static char *topmost_above(const char *path)
{
    char *folder = g_path_get_dirname(path);
    while (!is_border(folder)) {
        char *above = g_path_get_dirname(folder);
        const char *home = getenv("HOME");
        if (!holds_plans(above) || (home && strcmp(above, home) == 0)) {
            g_free(above);
            break;
        }
        g_free(folder);
        folder = above;
    }
    return folder;
}

static bool has_folder(const char *path)
{
    char *folder = g_path_get_dirname(path);
    bool found = g_file_test(folder, G_FILE_TEST_IS_DIR);
    g_free(folder);
    return found;
}

/* The folder of all that belongs to PATH; if that is PATH itself, sets *LONE. */
static char *find_root(const struct workspace *workspace, const char *path, bool *lone)
{
    const char *top = *path == '/' ? folder_around(workspace, path) : NULL;
    *lone = *path != '/' || !plan_is_name(path) || (workspace->folders->len && !top) || !has_folder(path);
    if (*lone)
        return g_strdup(path);
    return top ? topmost_below(top, path) : topmost_above(path);
}

/* --- clubs --- */

static void club_forget(struct club *club)
{
    arena_free(club->arena);
    club->arena = NULL;
    club->index = NULL;
    club->margins = NULL;
    club->files = NULL;
}

static void club_free(void *what)
{
    struct club *club = what;
    club_forget(club);
    bell_close(club->session);
    g_hash_table_destroy(club->published);
    g_free(club->root);
    g_free(club->edited);
    g_free(club);
}

static void open_session(const struct workspace *workspace, struct club *club)
{
    const struct bell_options options = {.share = workspace->share, .today = workspace->today};
    if (bell_open(&options, &club->session) == BELL_OK)
        bell_add_path(club->session, club->root);
}

static struct club *club_new(const struct workspace *workspace, const char *root, bool lone)
{
    struct club *club = g_new0(struct club, 1);
    club->root = g_strdup(root);
    club->lone = lone;
    club->stale = true;
    club->published = g_hash_table_new_full(g_str_hash, g_str_equal, g_free, g_free);
    open_session(workspace, club);
    g_ptr_array_add(workspace->clubs, club);
    return club;
}

static struct club *club_of(const struct workspace *workspace, const char *path)
{
    bool lone;
    char *root = find_root(workspace, path, &lone);
    struct club *club = NULL;
    for (guint i = 0; i < workspace->clubs->len && !club; i++) {
        struct club *other = g_ptr_array_index(workspace->clubs, i);
        if (other->lone == lone && strcmp(other->root, root) == 0)
            club = other;
    }
    if (!club)
        club = club_new(workspace, root, lone);
    g_free(root);
    return club;
}

static void enter_club(struct document *document, struct club *club)
{
    document->club = club;
    document->changed = club->stale = true;
    club->dropped = false;
}

static void leave_club(struct document *document)
{
    bell_uncover(document->club->session, document->path);
    document->club->stale = true;
    document->club = NULL;
}

/* Lays over the files of CLUB what was typed since the last time: once, however much it was. */
static void lay_over_all(const struct workspace *workspace, const struct club *club)
{
    for (guint i = 0; i < workspace->documents->len; i++) {
        struct document *document = g_ptr_array_index(workspace->documents, i);
        if (document->club != club || !document->changed)
            continue;
        long version = document->version > 0 ? (long)document->version : 0;
        bell_overlay(club->session, document->path, document->text, document->length, version);
        document->changed = false;
    }
}

bool club_refresh(struct workspace *workspace, struct club *club)
{
    if (!club->stale)
        return club->loaded;
    club_forget(club);
    lay_over_all(workspace, club);
    club->loaded = session_compile(club->session) == BELL_OK;
    club->arena = arena_new();
    club->files = arena_alloc(club->arena, (club->session->project.sources.count + 1) * sizeof *club->files);
    club->stale = false;
    club->unpublished = true;
    club->revision++;
    return club->loaded;
}

static enum bell_status make_programme(struct bell_session *session, void *with)
{
    const struct programme **programme = with;
    *programme = session_programme(session);
    return BELL_OK;
}

const struct programme *club_programme(const struct club *club)
{
    const struct programme *programme = NULL;
    session_guard(club->session, make_programme, &programme);
    return programme;
}

/* --- documents --- */

static void document_free(void *what)
{
    struct document *document = what;
    g_free(document->uri);
    g_free(document->path);
    g_free(document->real);
    free(document->text);
    g_free(document);
}

struct document *workspace_find(const struct workspace *workspace, const char *uri)
{
    for (guint i = 0; i < workspace->documents->len; i++) {
        struct document *document = g_ptr_array_index(workspace->documents, i);
        if (strcmp(document->uri, uri) == 0)
            return document;
    }
    return NULL;
}

static void set_path(struct document *document)
{
    struct arena *arena = arena_new();
    const char *path = uri_path(arena, document->uri);
    document->path = path ? g_strdup(path) : g_strdup_printf("unsaved:/%s", document->uri);
    document->real = g_strdup(path ? plan_true_path(arena, path) : document->path);
    arena_free(arena);
}

struct document *workspace_add(struct workspace *workspace, const char *uri, const char *text, size_t length)
{
    struct document *open = workspace_find(workspace, uri);
    if (open)
        workspace_remove(workspace, open);
    struct document *document = g_new0(struct document, 1);
    document->uri = g_strdup(uri);
    set_path(document);
    document_splice(document, 0, 0, text, length);
    g_ptr_array_add(workspace->documents, document);
    enter_club(document, club_of(workspace, document->path));
    return document;
}

void workspace_remove(struct workspace *workspace, struct document *document)
{
    leave_club(document);
    g_ptr_array_remove(workspace->documents, document);
}

void document_splice(struct document *document, size_t start, size_t end, const char *text, size_t length)
{
    size_t rest = document->length - end, whole = start + length + rest;
    if (whole + 1 > document->capacity) {
        document->capacity = whole + whole / 2 + 1;
        document->text = memory_resize(document->text, document->capacity);
    }
    memmove(document->text + start + length, document->text + end, rest);
    if (length)
        memcpy(document->text + start, text, length);
    document->length = whole;
    document->text[whole] = '\0';
    document->changed = true;
    if (!document->club)
        return;
    document->club->stale = true;
    g_free(document->club->edited);
    document->club->edited = g_strdup(document->path);
}

bool club_is_open(const struct workspace *workspace, const struct club *club)
{
    for (guint i = 0; i < workspace->documents->len; i++)
        if (((struct document *)g_ptr_array_index(workspace->documents, i))->club == club)
            return true;
    return false;
}

struct document *club_document(const struct workspace *workspace, const struct club *club, const struct source *source)
{
    struct document *found = NULL;
    for (guint i = 0; i < workspace->documents->len; i++) {
        struct document *document = g_ptr_array_index(workspace->documents, i);
        if (document->club == club && strcmp(document->path, source->path) == 0)
            return document;
    }
    if (source->version < 0)
        return NULL;
    struct arena *arena = arena_new();
    const char *real = plan_true_path(arena, source->path);
    for (guint i = 0; i < workspace->documents->len && !found; i++) {
        struct document *document = g_ptr_array_index(workspace->documents, i);
        if (document->club == club && strcmp(document->real, real) == 0)
            found = document;
    }
    arena_free(arena);
    return found;
}

int document_file(const struct workspace *workspace, const struct document *document)
{
    const struct sources *sources = &document->club->session->project.sources;
    for (size_t i = 0; i < sources->count; i++)
        if (sources->items[i].version >= 0 && club_document(workspace, document->club, &sources->items[i]) == document)
            return (int)i;
    return -1;
}

/* --- the workspace --- */

/* A session keeps one day for its whole life. */
void workspace_set_today(struct workspace *workspace, const char *today)
{
    workspace->today = today;
    for (guint i = 0; i < workspace->clubs->len; i++) {
        struct club *club = g_ptr_array_index(workspace->clubs, i);
        club_forget(club);
        bell_close(club->session);
        open_session(workspace, club);
        club->stale = true;
    }
    for (guint i = 0; i < workspace->documents->len; i++)
        ((struct document *)g_ptr_array_index(workspace->documents, i))->changed = true;
}

void workspace_open(struct workspace *workspace, const char *share, const char *today)
{
    *workspace = (struct workspace){.share = share,
                                    .today = today,
                                    .folders = g_ptr_array_new_with_free_func(g_free),
                                    .documents = g_ptr_array_new_with_free_func(document_free),
                                    .clubs = g_ptr_array_new_with_free_func(club_free)};
}

void workspace_close(struct workspace *workspace)
{
    g_ptr_array_free(workspace->documents, TRUE);
    g_ptr_array_free(workspace->clubs, TRUE);
    g_ptr_array_free(workspace->folders, TRUE);
}

void workspace_add_folder(struct workspace *workspace, const char *path)
{
    size_t length = strlen(path);
    while (length > 1 && path[length - 1] == '/')
        length--;
    g_ptr_array_add(workspace->folders, g_strndup(path, length));
}

void workspace_remove_folder(struct workspace *workspace, const char *path)
{
    for (guint i = 0; i < workspace->folders->len; i++) {
        if (strcmp(g_ptr_array_index(workspace->folders, i), path) == 0) {
            g_ptr_array_remove_index(workspace->folders, i);
            return;
        }
    }
}

void workspace_sort(struct workspace *workspace)
{
    for (guint i = 0; i < workspace->clubs->len; i++)
        ((struct club *)g_ptr_array_index(workspace->clubs, i))->stale = true;
    for (guint i = 0; i < workspace->documents->len; i++) {
        struct document *document = g_ptr_array_index(workspace->documents, i);
        struct club *club = club_of(workspace, document->path);
        if (club == document->club)
            continue;
        document->club->dropped = true;
        leave_club(document);
        enter_club(document, club);
    }
}
