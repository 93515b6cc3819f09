#include <pthread.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "cli/commands.h"
#include "cli/git.h"
#include "cli/revision.h"
#include "cli/sheet_jobs.h"
#include "cli/tell.h"
#include "compare/compare.h"
#include "model/programme.h"
#include "plan/plan_files.h"
#include "squad/squad.h"

/* A state of the plan: a folder as it is, or with a revision of git laid over it. */
struct diff_side {
    const char *path; /* of the folder or file to read */
    struct overlays overlays;
    struct project project;
    bool opened;  /* the project has to be closed */
    bool read;    /* it could be read, and the rest is valid */
    struct plan_parts parts;
    struct sheet_jobs sheets; /* by name, with their versions */
};

struct asked {
    struct arena *arena;
    const struct options *options;
    struct options wish;       /* the sheets that are compared */
    struct git git;
    struct diff_side sides[2]; /* OLD, NEW */
    const char *plan;          /* where in the repository the plan is */
    struct squad_memo *memo;   /* of both sides, in turn */
    pthread_mutex_t memo_held;
};

static bool exists(const char *path)
{
    struct stat about;
    return strcmp(path, "-") != 0 && stat(path, &about) == 0;
}

/* --- which two --- */

/* For NAME, which is no file or folder. */
static bool find_git(struct asked *asked, const char *name)
{
    if (asked->git.top)
        return true;
    asked->git = (struct git){.arena = asked->arena, .asks = arena_printf(asked->arena, "there is no folder `%s` here, and `diff` of a revision", name)};
    if (!git_find_top(&asked->git))
        return false;
    asked->git.asks = "`diff` of a revision";
    if (plan_is_inside(asked->git.top, plan_true_path(asked->arena, asked->plan)))
        return true;
    tell_error("%s is not in the repository of this folder; -C starts in another one", asked->plan);
    return false;
}

static bool find_side(struct asked *asked, struct diff_side *side, const char *name)
{
    side->path = name;
    if (exists(name))
        return true;
    side->path = asked->plan;
    return find_git(asked, name) && revision_read(&asked->git, name, &side->overlays);
}

static bool find_sides(struct asked *asked)
{
    const struct options *options = asked->options;
    if (options->path_count < 1 || options->path_count > 3) {
        tell_error("say what to compare: `bellsheet diff OLD NEW`, two folders or two revisions of git");
        return false;
    }
    asked->plan = options->path_count == 3 ? options->paths[2] : ".";
    return find_side(asked, &asked->sides[0], options->paths[0]) &&
           find_side(asked, &asked->sides[1], options->path_count > 1 ? options->paths[1] : asked->plan);
}

/* --- working each out --- */

static int by_name(const void *one, const void *other)
{
    const struct sheet_job *a = one, *b = other;
    return strcmp(a->stem, b->stem);
}

/* The sheets that `print` would make of all of SIDE, including those with errors. */
static void find_sheets(const struct asked *asked, struct diff_side *side)
{
    struct sheet_jobs *jobs = &side->sheets;
    *jobs = (struct sheet_jobs){.project = &side->project, .options = &asked->wish};
    sheet_jobs_find(jobs);
    struct sheet_origin origin = sheet_jobs_origin(jobs);
    origin.memo = asked->memo;
    struct sheet_versions *versions = sheet_versions_new(&origin);
    for (size_t i = 0; i < jobs->count; i++)
        jobs->items[i].version = sheet_version(versions, jobs->items[i].sheet, &jobs->items[i].group);
    if (jobs->count)
        qsort(jobs->items, jobs->count, sizeof *jobs->items, by_name);
}

/* Prints nothing, because the other side is worked out meanwhile. Of what they share, only the memo is written to. */
static void work_out(const struct asked *asked, struct diff_side *side)
{
    struct options options = *asked->options;
    options.paths = &side->path;
    options.path_count = 1;
    side->opened = true;
    side->read = project_open_quietly(&side->project, &options, PLAN_NEEDED, SHELF_NAMED, side->overlays.items,
                                      side->overlays.count);
    if (!side->read)
        return;
    struct project *project = &side->project;
    if (!project->programme->incomplete)
        rules_run(project->programme, project->diag);
    diag_sort(project->diag);
    parts_of(project->arena, project->programme, asked->memo, &side->parts);
    find_sheets(asked, side);
}

static void *work_out_old(void *with)
{
    struct asked *asked = with;
    work_out(asked, &asked->sides[0]);
    return NULL;
}

/* Works out both sides, at the same time if there can be a second thread. */
static void work_out_both(struct asked *asked)
{
    pthread_t beside;
    bool started = pthread_create(&beside, NULL, work_out_old, asked) == 0;
    if (!started)
        work_out_old(asked);
    work_out(asked, &asked->sides[1]);
    if (started)
        pthread_join(beside, NULL);
}

/* Reports what is wrong with the sides, OLD's first. False if one could not be read. */
static bool tell_sides(struct asked *asked)
{
    struct options options = *asked->options;
    options.format = "text";
    for (size_t i = 0; i < 2; i++) {
        struct diff_side *side = &asked->sides[i];
        if (!side->read) {
            project_tell_failure(&side->project);
            return false;
        }
        if (side->project.programme->incomplete)
            project_verdict(&side->project, &options);
    }
    return true;
}

/* --- sheets --- */

static void compare_sheets(struct asked *asked, struct comparison *comparison)
{
    const struct sheet_jobs *old = &asked->sides[0].sheets, *now = &asked->sides[1].sheets;
    for (size_t i = 0, k = 0; i < old->count || k < now->count;) {
        int order = i == old->count ? 1 : k == now->count ? -1 : strcmp(old->items[i].stem, now->items[k].stem);
        const struct sheet_job *was = order <= 0 ? &old->items[i++] : NULL, *is = order >= 0 ? &now->items[k++] : NULL;
        const struct sheet_job *either = was ? was : is;
        compare_sheet(comparison, sheet_file_name(asked->arena, &asked->wish, either->sheet, either->stem, 1),
                      was ? was->version : NULL, is ? is->version : NULL);
    }
}

/* --- the whole --- */

static int write_out(const struct asked *asked, const struct comparison *comparison)
{
    const struct options *options = asked->options;
    struct text out = {.arena = asked->arena};
    if (strcmp(options->format, "json") == 0)
        compare_json(comparison, BELL_VERSION, &out);
    else if (strcmp(options->format, "markdown") == 0)
        compare_markdown(comparison, &out);
    else
        compare_text(comparison, &(struct compare_style){.color = options->color_out}, &out);
    fwrite(text_get(&out), 1, out.length, stdout);
    return options->exit_code && !comparison_is_empty(comparison) ? EXIT_PLAN : EXIT_CLEAN;
}

static int compare(struct asked *asked)
{
    struct diff_side *old = &asked->sides[0], *now = &asked->sides[1];
    struct comparison comparison;
    const char *const reads[] = {old->path, now->path};
    confine(asked->options, &(struct sandbox){.reads = reads, .read_count = 2});
    asked->wish = (struct options){.all = true, .sheet = asked->options->sheet};
    asked->memo = squad_memo_shared(asked->arena, &asked->memo_held);
    work_out_both(asked);
    if (!tell_sides(asked))
        return EXIT_COULD_NOT;
    compare_plans(&comparison, asked->arena, &old->parts, &now->parts);
    compare_findings(&comparison, old->project.diag, old->path, now->project.diag, now->path);
    compare_sheets(asked, &comparison);
    return write_out(asked, &comparison);
}

int command_diff(const struct options *options)
{
    static const char *const formats[] = {"text", "markdown", "json"};
    size_t format = 0;
    while (format < 3 && strcmp(options->format, formats[format]) != 0)
        format++;
    if (format == 3) {
        tell_error("there is no format `%s`: text, markdown, json", options->format);
        return EXIT_COULD_NOT;
    }
    if (options->sheet && !sheet_jobs_known(options->sheet))
        return EXIT_COULD_NOT;
    struct asked asked = {.arena = arena_new(), .options = options};
    pthread_mutex_init(&asked.memo_held, NULL);
    int status = find_sides(&asked) ? compare(&asked) : EXIT_COULD_NOT;
    pthread_mutex_destroy(&asked.memo_held);
    for (size_t i = 0; i < 2; i++)
        if (asked.sides[i].opened)
            project_close(&asked.sides[i].project);
    arena_free(asked.arena);
    return status;
}
