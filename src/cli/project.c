#include "cli/project.h"

#include <errno.h>
#include <glib.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "base/text.h"
#include "cli/commands.h"
#include "cli/explain_page.h"
#include "cli/plan_files.h"
#include "export/export.h"
#include "resolve/resolve.h"
#include "rules/rules.h"
#include "source/screen.h"
#include "syntax/read.h"

enum { MOST_FILES = 5000, MOST_USES = 64 };

struct loading {
    struct project *project;
    const struct phrasebook *phrases;
    struct plan_files files;
    GHashTable *opened;    /* true paths of the files that were read, so that none is read twice */
    enum plan_wish wish;
    int uses;              /* how many files use one another down to the one that is read now */
    bool shelf;            /* what is read now belongs to the shelf */
    bool failed;
};

static void cannot(void *with, const char *path, const char *why)
{
    struct loading *loading = with;
    fprintf(stderr, "bellsheet: error: %s: %s\n", path, why);
    loading->failed = true;
}

/* --- use --- */

static bool load_path(struct loading *loading, const char *path, const char *shown);

/* What `use` asks for, beside the file PATH. */
static const char *beside(struct arena *arena, const char *path, const char *asked)
{
    const char *slash = strrchr(path, '/');
    return arena_printf(arena, "%.*s%s", slash ? (int)(slash - path + 1) : 0, path, asked);
}

static void refuse_use(struct loading *loading, struct node *use, enum diagnostic diagnostic,
                       const char *words, const char *help)
{
    struct diag *diag = loading->project->diag;
    struct finding *finding = diag_add(diag, SEVERITY_ERROR, diagnostic, use->first->span, words);
    if (help)
        diag_help(diag, finding, "%s", help);
    use->code = USE_FAILED;
}

static void follow_use(struct loading *loading, struct node *use, const char *path, const char *shown)
{
    struct arena *arena = loading->project->arena;
    const char *asked = use->first->text, *target = beside(arena, path, asked);
    struct stat about;
    bool there = stat(target, &about) == 0;
    const char *missing = strerror(errno);
    if (*asked == '/' || (there && !plan_is_inside(loading->files.root, plan_true_path(arena, target))))
        refuse_use(loading, use, DIAG_USE_OUTSIDE, "`use` cannot leave the plan's own folder",
                   "keep the file in the plan's folder, or below it");
    else if (!there)
        refuse_use(loading, use, DIAG_USE_MISSING, arena_printf(arena, "cannot open `%s`: %s", asked, missing), NULL);
    else if (loading->uses == MOST_USES)
        refuse_use(loading, use, DIAG_TOO_DEEP,
                   arena_printf(arena, "more than %d files use one another in a row", MOST_USES),
                   "let one file use several, or give the command their folder");
    else
        load_path(loading, target, beside(arena, shown, asked));
}

/* --- files --- */

static bool load_file(void *with, const char *path, const char *real, const char *shown)
{
    struct loading *loading = with;
    struct project *project = loading->project;
    const char *wrong = NULL;
    if (g_hash_table_contains(loading->opened, real))
        return true;
    bool standard = strcmp(path, "-") == 0;
    int file = source_read(&project->sources, path, standard ? "<standard input>" : shown, &wrong);
    if (file >= 0 && project->tree_count == MOST_FILES)
        wrong = "a plan is at most 5000 files";
    if (wrong) {
        cannot(loading, shown, wrong);
        return false;
    }
    project->sources.items[file].shelf = loading->shelf;
    g_hash_table_add(loading->opened, (char *)real);
    struct tree *tree = read_file(project->arena, &project->sources, (unsigned)file, loading->phrases, project->diag);
    project->trees = arena_grow(project->arena, project->trees, project->tree_count, &project->tree_capacity,
                                sizeof *project->trees);
    project->trees[project->tree_count++] = tree;
    loading->uses++;
    struct node *use = node_find(tree->root, STATEMENT_USE);
    for (; use && !loading->failed; use = node_next_alike(use))
        follow_use(loading, use, path, shown);
    loading->uses--;
    return !loading->failed;
}

static bool load_path(struct loading *loading, const char *path, const char *shown)
{
    size_t before = loading->files.met;
    bool loaded = plan_files_walk(&loading->files, path, shown);
    if (loaded && loading->files.met == before && loading->wish == PLAN_NEEDED)
        cannot(loading, shown, "no plan in this folder (plans end in .bell)");
    return loaded && !loading->failed;
}

/* Returns the true path of what is in PATH. */
static const char *load_plan(struct loading *loading, const char *path)
{
    struct arena *arena = loading->project->arena;
    const char *shown = plan_shown(arena, path);
    loading->files.root = plan_root(arena, shown);
    load_path(loading, shown, shown);
    return plan_true_path(arena, shown);
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
        load_path(loading, arena_printf(arena, "%s/%s", share, rooms[i]), arena_printf(arena, "shelf/%s", rooms[i]));
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
    return arena_copy(arena, name, plan_is_name(name) ? strlen(name) - 5 : strlen(name));
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
    loading.files = (struct plan_files){.arena = project->arena, .folders = g_hash_table_new(g_str_hash, g_str_equal),
                                        .take = load_file, .cannot = cannot, .with = &loading};
    bool loaded = load_all(&loading, options);
    g_hash_table_destroy(loading.files.folders);
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

int project_verdict(struct project *project, const struct options *options)
{
    struct diag *diag = project->diag;
    diag_sort(diag);
    struct text out = {0};
    const struct export_format *format = export_format_find(options->format);
    if (format) {
        struct export_context context = {.version = BELL_VERSION, .prefix = options->prefix,
                                         .infos = options->infos, .private = options->private,
                                         .describe = explain_describe};
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
