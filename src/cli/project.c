#define _DEFAULT_SOURCE /* realpath, the kinds of a folder's entries */

#include "cli/project.h"

#include <dirent.h>
#include <errno.h>
#include <glib.h>
#include <limits.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/text.h"
#include "cli/commands.h"
#include "export/export.h"
#include "resolve/resolve.h"
#include "rules/explain.h"
#include "rules/rules.h"
#include "source/screen.h"
#include "syntax/read.h"

enum { DEEPEST_FOLDER = 12, MOST_FILES = 5000 };

struct loading {
    struct project *project;
    const struct phrasebook *phrases;
    GHashTable *opened;    /* true paths of the files that were read, so that none is read twice */
    const char *root;      /* true path of the folder that `use` may not leave */
    enum plan_wish wish;
    bool shelf;            /* what is read now belongs to the shelf */
    size_t met;            /* plan files come across, read now or before */
    bool failed;
};

static void cannot(struct loading *loading, const char *path, const char *why)
{
    fprintf(stderr, "bellsheet: error: %s: %s\n", path, why);
    loading->failed = true;
}

static const char *true_path(struct arena *arena, const char *path)
{
    char *real = realpath(path, NULL);
    if (!real)
        return NULL;
    const char *copy = arena_copy(arena, real, strlen(real));
    free(real);
    return copy;
}

/* The true path of what is there, or PATH itself where that cannot be told. */
static const char *known_path(struct arena *arena, const char *path)
{
    const char *real = true_path(arena, path);
    return real ? real : path;
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

static void load_path(struct loading *loading, const char *path, const char *real, const char *shown, int depth);

/* --- use --- */

static bool inside(const char *root, const char *real)
{
    size_t length = strlen(root);
    return strncmp(root, real, length) == 0 && (real[length] == '/' || real[length] == '\0' || length == 1);
}

static void follow_use(struct loading *loading, struct node *use, const char *path, const char *shown)
{
    struct project *project = loading->project;
    const char *asked = use->first->text, *slash = strrchr(path, '/'), *shown_slash = strrchr(shown, '/');
    int folder = slash ? (int)(slash - path + 1) : 0, shown_folder = shown_slash ? (int)(shown_slash - shown + 1) : 0;
    const char *target = arena_printf(project->arena, "%.*s%s", folder, path, asked);
    const char *target_shown = arena_printf(project->arena, "%.*s%s", shown_folder, shown, asked);
    const char *real = true_path(project->arena, target);
    if (*asked == '/' || (real && !inside(loading->root, real))) {
        struct finding *finding = diag_error(project->diag, "use-outside", use->first->span,
                                             "`use` cannot leave the plan's own folder");
        diag_help(project->diag, finding, "keep the file in the plan's folder, or below it");
        use->code = USE_FAILED;
    } else if (!real) {
        diag_error(project->diag, "use-missing", use->first->span, "cannot open `%s`: %s", asked, strerror(errno));
        use->code = USE_FAILED;
    } else {
        load_path(loading, target, real, target_shown, 1);
    }
}

/* --- files --- */

static void load_file(struct loading *loading, const char *path, const char *real, const char *shown)
{
    struct project *project = loading->project;
    const char *wrong = NULL;
    loading->met++;
    if (g_hash_table_contains(loading->opened, real))
        return;
    bool standard = strcmp(path, "-") == 0;
    int file = source_read(&project->sources, path, standard ? "<standard input>" : shown, &wrong);
    if (file < 0) {
        cannot(loading, shown, wrong);
        return;
    }
    if (project->tree_count == MOST_FILES) {
        cannot(loading, shown, "a plan is at most 5000 files");
        return;
    }
    project->sources.items[file].shelf = loading->shelf;
    g_hash_table_add(loading->opened, (char *)real);
    struct tree *tree = read_file(project->arena, &project->sources, (unsigned)file, loading->phrases, project->diag);
    project->trees = arena_grow(project->arena, project->trees, project->tree_count, &project->tree_capacity,
                                sizeof *project->trees);
    project->trees[project->tree_count++] = tree;
    for (struct node *node = node_find(tree->root, STATEMENT_USE); node; node = node_next_alike(node))
        follow_use(loading, node, path, shown);
}

static bool is_plan(const char *name)
{
    size_t length = strlen(name);
    return length > 5 && strcmp(name + length - 5, ".bell") == 0;
}

struct entry {
    const char *name;
    unsigned char type; /* DT_REG...; DT_UNKNOWN where the file system does not tell */
};

static int by_name(const void *left, const void *right)
{
    return strcmp(((const struct entry *)left)->name, ((const struct entry *)right)->name);
}

/* What is in FOLDER, sorted, without names that start with a dot and files that are no plans. */
static struct entry *list_folder(struct arena *arena, const char *path, size_t *count, const char **wrong)
{
    DIR *folder = opendir(path);
    if (!folder) {
        *wrong = strerror(errno);
        return NULL;
    }
    struct entry *entries = NULL;
    size_t capacity = 0;
    for (struct dirent *entry; (entry = readdir(folder)) != NULL;) {
        if (entry->d_name[0] == '.' || (entry->d_type == DT_REG && !is_plan(entry->d_name)))
            continue;
        entries = arena_grow(arena, entries, *count, &capacity, sizeof *entries);
        const char *name = arena_copy(arena, entry->d_name, strlen(entry->d_name));
        entries[(*count)++] = (struct entry){name, entry->d_type};
    }
    closedir(folder);
    if (entries && *count > 1)
        qsort(entries, *count, sizeof *entries, by_name);
    return entries;
}

/* Is INNER, an ENTRY of the folder whose true path is FOLDER, a plan or a folder? *IS_FOLDER and its true path *REAL
 * then tell. Only what may be a link need be asked for. */
static bool find_entry(struct arena *arena, const struct entry *entry, const char *folder, const char *inner,
                       bool *is_folder, const char **real)
{
    if (entry->type == DT_REG || entry->type == DT_DIR) {
        *is_folder = entry->type == DT_DIR;
        *real = joined(arena, folder[1] ? folder : "", entry->name);
        return true;
    }
    struct stat about;
    if (stat(inner, &about) != 0 || (!S_ISDIR(about.st_mode) && !is_plan(entry->name)))
        return false;
    *is_folder = S_ISDIR(about.st_mode);
    *real = known_path(arena, inner);
    return true;
}

static void load_folder(struct loading *loading, const char *path, const char *real, const char *shown, int depth)
{
    struct arena *arena = loading->project->arena;
    size_t count = 0;
    const char *wrong = NULL;
    struct entry *entries = list_folder(arena, path, &count, &wrong);
    if (wrong) {
        cannot(loading, shown, wrong);
        return;
    }
    if (depth > DEEPEST_FOLDER)
        cannot(loading, shown, "folders of a plan lie at most 12 deep in one another");
    for (size_t i = 0; i < count && !loading->failed; i++) {
        const char *inner = joined(arena, path, entries[i].name), *inner_shown = joined(arena, shown, entries[i].name);
        const char *inner_real;
        bool is_folder;
        if (!find_entry(arena, &entries[i], real, inner, &is_folder, &inner_real))
            continue;
        if (!loading->shelf && !inside(loading->root, inner_real))
            cannot(loading, inner_shown, "this link leads out of the plan's folder");
        else if (is_folder)
            load_folder(loading, inner, inner_real, inner_shown, depth + 1);
        else
            load_file(loading, inner, inner_real, inner_shown);
    }
}

/* REAL is the true path of PATH; both are "-" for standard input. */
static void load_path(struct loading *loading, const char *path, const char *real, const char *shown, int depth)
{
    struct stat about = {0};
    if (strcmp(path, "-") != 0 && stat(path, &about) != 0) {
        cannot(loading, shown, strerror(errno));
        return;
    }
    if (!S_ISDIR(about.st_mode)) {
        load_file(loading, path, real, shown);
        return;
    }
    size_t before = loading->met;
    load_folder(loading, path, real, shown, depth);
    if (loading->met == before && !loading->failed && loading->wish == PLAN_NEEDED)
        cannot(loading, shown, "no plan in this folder (plans end in .bell)");
}

/* `gym/` and `gym` are shown alike. */
static const char *without_slash(struct arena *arena, const char *path)
{
    size_t length = strlen(path);
    while (length > 1 && path[length - 1] == '/')
        length--;
    return arena_copy(arena, path, length);
}

/* The true path of the folder of a plan whose true path is REAL: a file that is a link belongs where the link is. */
static const char *folder_of(struct arena *arena, const char *path, const char *real)
{
    struct stat about;
    if (strcmp(path, "-") == 0)
        return known_path(arena, ".");
    if (stat(path, &about) == 0 && S_ISDIR(about.st_mode))
        return real;
    const char *slash = strrchr(path, '/');
    return known_path(arena, slash ? arena_copy(arena, path, (size_t)(slash - path + 1)) : ".");
}

/* Returns the true path of what is in PATH. */
static const char *load_plan(struct loading *loading, const char *path)
{
    struct arena *arena = loading->project->arena;
    const char *shown = without_slash(arena, path);
    const char *real = strcmp(shown, "-") == 0 ? shown : known_path(arena, shown);
    loading->root = folder_of(arena, shown, real);
    load_path(loading, shown, real, shown, 1);
    return real;
}

static void load_shelf(struct loading *loading)
{
    struct arena *arena = loading->project->arena;
    const char *share = share_folder(arena);
    if (!share) {
        cannot(loading, BELL_SHARE_DIR, "the shelf of exercises is not installed here");
        return;
    }
    static const char *const rooms[] = {"exercises", "activities", "rounds", "limits"};
    loading->shelf = true;
    for (size_t i = 0; i < sizeof rooms / sizeof *rooms; i++) {
        const char *path = joined(arena, share, rooms[i]);
        load_path(loading, path, known_path(arena, path), joined(arena, "shelf", rooms[i]), 1);
    }
    loading->shelf = false;
}

/* --- the whole --- */

/* Tells one state of a plan from another; nobody is to be kept from forging it. */
const char *project_version(const struct project *project, const struct options *options)
{
    if (options->revision)
        return options->revision;
    uint64_t hash = 0;
    for (size_t i = 0; i < project->sources.count; i++) {
        const struct source *source = &project->sources.items[i];
        hash = text_hash(hash, source->text, source->length);
    }
    return arena_printf(project->arena, "%08x", (unsigned)(hash >> 32 ^ (hash & UINT32_MAX)));
}

static const char *plan_name(struct arena *arena, const char *real)
{
    const char *slash = strrchr(real, '/');
    const char *name = slash && slash[1] ? slash + 1 : "plan";
    return arena_copy(arena, name, is_plan(name) ? strlen(name) - 5 : strlen(name));
}

/* The shelf and the plans that OPTIONS name. */
static bool load_all(struct loading *loading, const struct options *options)
{
    static const char *const here[] = {"."};
    const char *const *paths = options->path_count ? options->paths : here;
    int count = options->path_count ? options->path_count : 1;
    load_shelf(loading);
    for (int i = 0; i < count && !loading->failed; i++) {
        const char *real = load_plan(loading, paths[i]);
        if (i == 0)
            loading->project->name = plan_name(loading->project->arena, real);
    }
    return !loading->failed;
}

bool project_open(struct project *project, const struct options *options, enum plan_wish wish)
{
    *project = (struct project){.arena = arena_new()};
    project->sources.arena = project->arena;
    project->diag = diag_new(project->arena, &project->sources);
    struct loading loading = {.project = project, .phrases = phrasebook_new(project->arena), .wish = wish,
                              .opened = g_hash_table_new(g_str_hash, g_str_equal)};
    bool loaded = load_all(&loading, options);
    g_hash_table_destroy(loading.opened);
    if (loaded)
        project->programme = programme_resolve(project->arena, &project->sources, project->trees,
                                               project->tree_count, options->today, project->diag);
    return loaded;
}

void project_close(struct project *project)
{
    arena_free(project->arena);
}

static void print_summary(const struct diag *diag, FILE *out)
{
    size_t errors = diag_count(diag, SEVERITY_ERROR), warnings = diag_count(diag, SEVERITY_WARNING);
    if (errors || warnings)
        fprintf(out, "%zu error%s, %zu warning%s\n", errors, errors == 1 ? "" : "s", warnings,
                warnings == 1 ? "" : "s");
}

/* Why a check looks is left out: what is said beside a name need not say what it fears. */
static const char *describe(struct arena *arena, const char *name)
{
    const struct rule *rule = rule_find(name);
    const struct explanation *page = explanation_find(name);
    const struct slip *slip = slip_find(name);
    if (rule && page)
        return arena_printf(arena, "%s\n\n%s\n\n%s", rule_title(rule), page->what, page->mend);
    return slip ? arena_printf(arena, "%s\n\n%s", slip->title, slip->words) : NULL;
}

int project_verdict(struct project *project, const struct options *options)
{
    struct diag *diag = project->diag;
    diag_sort(diag);
    struct text out = {0};
    const struct export_format *format = export_format_find(options->format);
    if (format) {
        struct export_context context = {.version = BELL_VERSION, .prefix = options->prefix,
                                         .infos = options->infos, .private = options->private,
                                         .describe = describe};
        format->write(diag, &context, &out);
        fwrite(text_get(&out), 1, out.length, stdout);
    } else {
        struct diag_style style = {.color = options->color, .infos = options->infos,
                                   .notes = options->notes, .most = (size_t)options->max_errors};
        diag_print(diag, &style, &out);
        fwrite(text_get(&out), 1, out.length, stderr);
        print_summary(diag, stderr);
    }
    text_free(&out);
    if (fflush(stdout) != 0) {
        fprintf(stderr, "bellsheet: error: standard output: %s\n", strerror(errno));
        return EXIT_COULD_NOT;
    }
    bool failed = diag_count(diag, SEVERITY_ERROR) || (options->strict && diag_count(diag, SEVERITY_WARNING));
    return failed ? EXIT_PLAN : EXIT_CLEAN;
}
