#include "plan/plan.h"

#include <errno.h>
#include <glib.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/text.h"
#include "figures/dates.h"
#include "plan/kept.h"
#include "plan/plan_files.h"
#include "plan/shelf_part.h"
#include "plan/shelf_index.h"
#include "plan/record_months.h"
#include "resolve/resolve.h"
#include "syntax/read.h"

enum { MOST_FILES = 5000, MOST_USES = 64 };

/* A file of a record that waits: how to open it, its true path, what messages call it, and its last day. */
struct record_month {
    const char *path, *real, *shown;
    int last;
};

struct plan_loading {
    struct project *project;
    const struct project_request *request;
    const struct phrasebook *phrases;
    struct plan_files files;
    const char *root;   /* true path of the plan's own folder; files.root is how far `use` may go */
    GHashTable *opened; /* true paths of the files that were read, so that none is read twice */
    int uses;           /* how many files use one another down to the one that is read now */
    bool shelf;         /* what is read now belongs to the shelf */
    bool later;         /* the shelf's files are opened, and read once it is known what is wanted of them */
    bool shelf_sound;   /* nothing was found in them */
    size_t shelf_count; /* files of the shelf, which come first */
    struct record_month *months; /* files of a record, read once the camps are known */
    size_t month_count, month_capacity;
    bool all_read;               /* the camps are: a month that is needed is read where it is met */
    int from;                    /* of what is read now, a month, the days from this one on; 0: all of it */
};

/* The first failure is the one to tell: what follows may come of it. */
static void cannot(void *with, const char *path, const char *why)
{
    struct plan_loading *loading = with;
    struct project *project = loading->project;
    if (project->failure.why)
        return;
    project->failure.path = path;
    project->failure.why = arena_copy(project->arena, why, strlen(why));
}

static bool has_failed(const struct plan_loading *loading)
{
    return loading->project->failure.why != NULL;
}

/* The bytes laid over the file whose true path is REAL, or NULL. */
static const struct overlay *overlay_find(const struct project_request *request, const char *real)
{
    for (size_t i = 0; i < request->overlay_count; i++)
        if (strcmp(request->overlays[i].path, real) == 0)
            return &request->overlays[i];
    return NULL;
}

static bool is_absent(const struct project_request *request, const char *real)
{
    const struct overlay *overlay = overlay_find(request, real);
    return overlay && overlay->absent;
}

/* --- use --- */

static bool load_path(struct plan_loading *loading, const char *path, const char *shown);

/* What `use` asks for, beside the file PATH. */
static const char *beside(struct arena *arena, const char *path, const char *asked)
{
    const char *slash = strrchr(path, '/');
    return arena_printf(arena, "%.*s%s", slash ? (int)(slash - path + 1) : 0, path, asked);
}

static void refuse_use(struct plan_loading *loading, struct node *use, enum diagnostic diagnostic,
                       const char *words, const char *help)
{
    struct diag *diag = loading->project->diag;
    struct finding *finding = diag_add(diag, SEVERITY_ERROR, diagnostic, use->first->span, words);
    if (help)
        diag_help(diag, finding, "%s", help);
    use->code = USE_FAILED;
}

static void follow_use(struct plan_loading *loading, struct node *use, const char *path, const char *shown)
{
    struct arena *arena = loading->project->arena;
    const char *asked = use->first->text, *target = beside(arena, path, asked);
    struct stat about;
    bool there = stat(target, &about) == 0;
    const char *missing = strerror(there ? ENOENT : errno), *real = plan_true_path(arena, target);
    const struct overlay *overlay = overlay_find(loading->request, real);
    there = overlay ? !overlay->absent : there;
    if (*asked == '/' || (there && !plan_is_inside(loading->files.root, real)))
        refuse_use(loading, use, DIAG_USE_OUTSIDE, "`use` cannot leave the plan's own folder",
                   "keep the file in the plan's folder, or below it");
    else if (!there)
        refuse_use(loading, use, DIAG_USE_MISSING, arena_printf(arena, "cannot open `%s`: %s", asked, missing), NULL);
    else if (loading->uses == MOST_USES)
        refuse_use(loading, use, DIAG_TOO_DEEP,
                   arena_printf(arena, "files use one another more than %d deep", MOST_USES),
                   "let one file use several, or give the command their folder");
    else
        load_path(loading, target, beside(arena, shown, asked));
}

/* --- files --- */

/* The bytes of PATH, as a source called SHOWN: its index, or -1 with *WRONG set. */
static int read_bytes(struct plan_loading *loading, const char *path, const char *real, const char *shown,
                      const char **wrong)
{
    struct sources *sources = &loading->project->sources;
    bool standard = strcmp(path, "-") == 0;
    const struct overlay *overlay = standard ? NULL : overlay_find(loading->request, real);
    if (!overlay)
        return source_read(sources, path, standard ? "<standard input>" : shown, wrong);
    if (overlay->length > SOURCE_LARGEST) {
        *wrong = SOURCE_TOO_LARGE;
        return -1;
    }
    int file = source_add(sources, shown, overlay->text, overlay->length);
    sources->items[file].path = arena_copy(sources->arena, path, strlen(path));
    sources->items[file].version = overlay->version;
    return file;
}

/* The empty tree of a file of the shelf that is read later; NULL with *WRONG set. */
static struct tree *load_only(struct plan_loading *loading, const char *path, const char *shown, const char **wrong)
{
    struct project *project = loading->project;
    int file = source_load(&project->sources, path, shown, wrong);
    if (file < 0)
        return NULL;
    project->sources.items[file].shelf = true;
    return read_nothing(project->arena, (unsigned)file);
}

/* A file's tree; NULL with *WRONG set. */
static struct tree *read_fresh(struct plan_loading *loading, const char *path, const char *real, const char *shown,
                               const char **wrong)
{
    struct project *project = loading->project;
    if (loading->shelf && loading->later)
        return load_only(loading, path, shown, wrong);
    int file = read_bytes(loading, path, real, shown, wrong);
    if (file < 0)
        return NULL;
    project->sources.items[file].shelf = loading->shelf;
    const struct source *source = &project->sources.items[file];
    struct extent skipped = {0, 0};
    if (loading->from)
        skipped = record_days_before(source->text, source->length, loading->from);
    return read_file_without(project->arena, &project->sources, (unsigned)file, skipped, loading->phrases, project->diag);
}

static void keep(struct project *project, const struct kept_file *file)
{
    project->kept = arena_grow(project->arena, project->kept, project->kept_count, &project->kept_capacity,
                               sizeof *project->kept);
    project->kept[project->kept_count++] = file;
}

/* The same of a file that may be read already. */
static struct tree *take_kept(struct plan_loading *loading, const char *path, const char *real, const char *shown,
                              const char **wrong)
{
    struct project *project = loading->project;
    const struct overlay *overlay = overlay_find(loading->request, real);
    const struct kept_ask ask = {.path = path, .real = real, .shown = shown,
                                 .bytes = overlay ? overlay->text : NULL,
                                 .length = overlay ? overlay->length : 0,
                                 .version = overlay ? overlay->version : -1, .shelf = loading->shelf,
                                 .from = loading->request->kept->in_part ? loading->from : 0};
    struct kept_file *file = kept_take(loading->request->kept, &ask, &project->sources, project->diag, wrong);
    if (!file)
        return NULL;
    keep(project, file);
    if (loading->shelf)
        kept_add_shelf(loading->request->kept, file);
    return file->tree;
}

/* Does the file wait until the camps are known? One that lies open in an editor does not. */
static bool waits(struct plan_loading *loading, const char *path, const char *real, const char *shown)
{
    int last = loading->shelf || loading->all_read ? 0 : record_month_end(real, loading->root);
    if (!last || overlay_find(loading->request, real))
        return false;
    loading->months = arena_grow(loading->project->arena, loading->months, loading->month_count,
                                 &loading->month_capacity, sizeof *loading->months);
    loading->months[loading->month_count++] = (struct record_month){path, real, shown, last};
    return true;
}

static bool load_file(void *with, const char *path, const char *real, const char *shown)
{
    struct plan_loading *loading = with;
    if (is_absent(loading->request, real) || waits(loading, path, real, shown))
        return true;
    struct project *project = loading->project;
    const char *wrong = NULL;
    arena_poll(project->arena);
    if (g_hash_table_contains(loading->opened, real))
        return true;
    struct tree *tree = loading->request->kept ? take_kept(loading, path, real, shown, &wrong)
                                               : read_fresh(loading, path, real, shown, &wrong);
    if (tree && project->tree_count == MOST_FILES)
        wrong = "a plan is at most 5000 files";
    if (!tree || wrong) {
        cannot(loading, shown, wrong);
        return false;
    }
    g_hash_table_add(loading->opened, (char *)real);
    project->trees = arena_grow(project->arena, project->trees, project->tree_count, &project->tree_capacity,
                                sizeof *project->trees);
    project->trees[project->tree_count++] = tree;
    loading->uses++;
    struct node *use = node_find(tree->root, STATEMENT_USE);
    for (; use && !has_failed(loading); use = node_next_alike(use)) {
        use->code = 0; /* of a tree that is kept it is of another time */
        follow_use(loading, use, path, shown);
    }
    loading->uses--;
    return !has_failed(loading);
}

/* A file with bytes laid over it may not be on the disk at all. */
static bool walk(struct plan_loading *loading, const char *path, const char *shown)
{
    const char *real = plan_true_path(loading->project->arena, path);
    if (!overlay_find(loading->request, real))
        return plan_files_walk(&loading->files, path, real, shown);
    loading->files.met++;
    return load_file(loading, path, real, shown);
}

static void need_plan(struct plan_loading *loading, size_t met_before, const char *shown)
{
    if (!has_failed(loading) && loading->files.met == met_before && loading->request->wish == PLAN_NEEDED)
        cannot(loading, shown, "no plan in this folder (plans end in .bell)");
}

static bool load_path(struct plan_loading *loading, const char *path, const char *shown)
{
    size_t before = loading->files.met;
    walk(loading, path, shown);
    need_plan(loading, before, shown);
    return !has_failed(loading);
}

/* Files that an editor has not saved yet lie in no folder: they belong to the plan whose folder they will lie in. */
static void load_unsaved(struct plan_loading *loading, const char *shown)
{
    const struct project_request *request = loading->request;
    size_t root = strlen(loading->root);
    for (size_t i = 0; i < request->overlay_count && !has_failed(loading); i++) {
        const char *path = request->overlays[i].path;
        bool inside = plan_is_inside(loading->root, path) && path[root] == '/' && plan_is_name(path);
        if (!inside || request->overlays[i].absent || g_hash_table_contains(loading->opened, path) || access(path, F_OK) == 0)
            continue;
        loading->files.met++;
        load_file(loading, path, path, arena_printf(loading->project->arena, "%s%s", shown, path + root));
    }
}

/* Returns the true path of what is in PATH. */
static const char *load_plan(struct plan_loading *loading, const char *path)
{
    struct arena *arena = loading->project->arena;
    const char *shown = plan_shown(arena, path), *real = plan_true_path(arena, shown);
    size_t before = loading->files.met;
    loading->root = plan_root(arena, shown);
    loading->files.root = plan_reach(arena, loading->root);
    walk(loading, shown, shown);
    if (strcmp(real, loading->root) == 0)
        load_unsaved(loading, shown);
    need_plan(loading, before, shown);
    return real;
}

/* The shelf was read by an earlier compile. */
static void take_shelf(struct plan_loading *loading)
{
    struct project *project = loading->project;
    const struct kept *kept = loading->request->kept;
    for (size_t i = 0; i < kept->shelf_count; i++) {
        struct kept_file *file = kept->shelf[i];
        g_hash_table_add(loading->opened, (char *)file->real);
        source_share(&project->sources, &file->source);
        diag_add_kept(project->diag, file->diag);
        keep(project, file);
        project->trees = arena_grow(project->arena, project->trees, project->tree_count, &project->tree_capacity,
                                    sizeof *project->trees);
        project->trees[project->tree_count++] = file->tree;
    }
}

/* The files of the shelf as another compile read them. */
static void open_again(struct plan_loading *loading)
{
    struct project *project = loading->project;
    const struct shelf_read *again = &loading->request->again;
    for (size_t i = 0; i < again->file_count; i++) {
        g_hash_table_add(loading->opened, (char *)plan_true_path(project->arena, again->sources[i].path));
        unsigned file = (unsigned)source_share(&project->sources, &again->sources[i]);
        project->trees = arena_grow(project->arena, project->trees, project->tree_count, &project->tree_capacity,
                                    sizeof *project->trees);
        project->trees[project->tree_count++] = read_nothing(project->arena, file);
    }
    loading->shelf_count = project->tree_count;
}

static void load_shelf(struct plan_loading *loading)
{
    struct arena *arena = loading->project->arena;
    const char *share = loading->request->share;
    if (!share) {
        cannot(loading, "share", "the shelf of exercises is not installed here");
        return;
    }
    struct kept *kept = loading->request->kept;
    if (kept && kept->shelf_read) {
        take_shelf(loading);
        return;
    }
    if (!kept && loading->request->again.file_count) {
        open_again(loading);
        return;
    }
    if (kept)
        kept->shelf_count = 0;
    loading->shelf = true;
    for (size_t i = 0; i < SHELF_FOLDERS && !has_failed(loading); i++)
        load_path(loading, arena_printf(arena, "%s/%s", share, shelf_folders[i]),
                  arena_printf(arena, "shelf/%s", shelf_folders[i]));
    loading->shelf = false;
    loading->shelf_count = loading->project->tree_count;
    if (kept)
        kept->shelf_read = !has_failed(loading);
}

/* --- the whole --- */

const char *project_hash(const struct project *project)
{
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

/* What was read of the shelf, with what is found in it told to DIAG. */
static struct shelf_part shelf_of(const struct plan_loading *loading, struct diag *diag)
{
    struct project *project = loading->project;
    return (struct shelf_part){.sources = &project->sources, .trees = project->trees,
                               .file_count = loading->shelf_count, .tree_count = project->tree_count,
                               .phrases = loading->phrases, .diag = diag, .again = loading->request->again};
}

/* An edited shelf is read whole, and first, so that what is wrong with it is reported as usual. */
static void check_shelf(struct plan_loading *loading)
{
    const struct shelf_part shelf = shelf_of(loading, loading->project->diag);
    if (!loading->later || has_failed(loading) || shelf_is_indexed(&shelf))
        return;
    shelf_read_all(&shelf);
    loading->later = false;
}

/* Reads the days of the record from the first week that a camp reaches into, or the four weeks before it: the load of its
 * first weeks is compared with theirs. What stays read is read whole where an editor has it. */
static void load_months(struct plan_loading *loading)
{
    enum { WEEKS_COMPARED = 4 };
    const struct project *project = loading->project;
    int first = first_camp_day(project->trees, project->tree_count);
    int from = first ? date_monday(first) - WEEKS_COMPARED * 7 : 0;
    loading->all_read = true;
    for (size_t i = 0; i < loading->month_count && !has_failed(loading); i++) {
        const struct record_month *month = &loading->months[i];
        loading->from = from;
        if (month->last >= from)
            load_file(loading, month->path, month->real, month->shown);
        loading->from = 0;
    }
}

/* The shelf and the plans that are asked for. */
static void load_all(struct plan_loading *loading)
{
    const struct project_request *request = loading->request;
    load_shelf(loading);
    check_shelf(loading);
    loading->shelf_sound = !request->kept && !loading->project->diag->count;
    for (size_t i = 0; i < request->path_count && !has_failed(loading); i++) {
        const char *real = load_plan(loading, request->paths[i]);
        if (i == 0)
            loading->project->name = plan_name(loading->project->arena, real);
    }
    load_months(loading);
}

static void drop_table(void *table)
{
    g_hash_table_destroy(table);
}

static GHashTable *path_set(struct arena *arena)
{
    GHashTable *set = g_hash_table_new(g_str_hash, g_str_equal);
    arena_at_end(arena, drop_table, set);
    return set;
}

/* Reads all that REQUEST names; of the shelf, where it asks for no more than is named, nothing as yet. */
static bool read_project(struct plan_loading *loading, struct project *project, struct arena *arena,
                         const struct project_request *request)
{
    *project = (struct project){.arena = arena, .sources = {.arena = arena}};
    project->diag = diag_new(arena, &project->sources);
    struct kept *kept = request->kept;
    *loading = (struct plan_loading){.project = project, .request = request, .opened = path_set(arena),
                                     .later = (request->shelf == SHELF_NAMED || request->again.file_count) && !kept,
                                     .phrases = kept ? kept->phrases : phrasebook_new(arena)};
    loading->files = (struct plan_files){.arena = arena, .folders = path_set(arena),
                                         .take = load_file, .cannot = cannot, .with = loading};
    if (kept)
        kept_begin(kept);
    load_all(loading);
    if (kept && !has_failed(loading))
        kept_end(kept);
    return !has_failed(loading);
}

/* Works out what was read, in ARENA. */
static void resolve(struct project *project, struct arena *arena, const struct project_request *request)
{
    project->programme = programme_resolve(arena, &project->sources, project->trees, project->tree_count,
                                           request->today, project->diag);
}

/* Notes for other compiles what was read of the shelf: ENTRIES of it, or all. */
static void note_shelf(const struct plan_loading *loading, struct project *project, const bool *entries)
{
    if (loading->shelf_sound)
        project->shelf = (struct shelf_read){project->sources.items, project->trees, loading->shelf_count, entries};
}

static void drop_arena(void *arena)
{
    arena_free(arena);
}

/* Works the plan out with what it names of the shelf. False where all of it is needed: an error may be a name that is
 * mistyped, which is compared with all names there are. PROJECT is then as it was. */
static bool resolve_named(struct plan_loading *loading, struct project *project)
{
    struct diag *before = project->diag;
    const struct shelf_part shelf = shelf_of(loading, before);
    const bool *entries = diag_count(before, SEVERITY_ERROR) ? NULL : shelf_read_named(&shelf);
    if (!entries)
        return false;
    struct arena *trial = arena_beside(project->arena);
    project->diag = diag_new(trial, &project->sources);
    diag_add_kept(project->diag, before);
    resolve(project, trial, loading->request);
    if (!diag_count(project->diag, SEVERITY_ERROR)) {
        arena_at_end(project->arena, drop_arena, trial);
        note_shelf(loading, project, entries);
        return true;
    }
    project->diag = before;
    project->programme = NULL;
    arena_free(trial);
    return false;
}

bool project_read(struct project *project, struct arena *arena, const struct project_request *request)
{
    struct plan_loading loading;
    bool read = read_project(&loading, project, arena, request);
    const struct shelf_part shelf = shelf_of(&loading, project->diag);
    if (read && loading.later)
        shelf_read_all(&shelf);
    return read;
}

bool project_load(struct project *project, struct arena *arena, const struct project_request *request)
{
    struct plan_loading loading;
    if (!read_project(&loading, project, arena, request))
        return false;
    if (loading.later && request->shelf == SHELF_NAMED && resolve_named(&loading, project))
        return true;
    const struct shelf_part shelf = shelf_of(&loading, project->diag);
    if (loading.later)
        shelf_read_all(&shelf);
    note_shelf(&loading, project, NULL);
    resolve(project, project->arena, request);
    return true;
}
