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
    bool opened;
};

struct asked {
    struct arena *arena;
    const struct options *options;
    struct git git;
    struct diff_side sides[2]; /* OLD, NEW */
    const char *plan;     /* where in the repository the plan is */
};

static bool exists(const char *path)
{
    struct stat about;
    return strcmp(path, "-") != 0 && stat(path, &about) == 0;
}

/* --- which two --- */

static bool find_git(struct asked *asked)
{
    if (asked->git.top)
        return true;
    asked->git = (struct git){.arena = asked->arena, .asks = "`diff` of a revision"};
    if (!git_find_top(&asked->git))
        return false;
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
    return find_git(asked) && revision_read(&asked->git, name, &side->overlays);
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

/* --- reading them --- */

static bool read_side(const struct asked *asked, struct diff_side *side)
{
    struct options options = *asked->options;
    options.paths = &side->path;
    options.path_count = 1;
    side->opened = true;
    if (!project_open_over(&side->project, &options, PLAN_NEEDED, SHELF_NAMED, side->overlays.items, side->overlays.count))
        return false;
    options.format = "text";
    if (!side->project.programme->incomplete)
        rules_run(side->project.programme, side->project.diag);
    else
        project_verdict(&side->project, &options);
    diag_sort(side->project.diag);
    return true;
}

/* --- sheets --- */

static int by_name(const void *one, const void *other)
{
    const struct sheet_job *a = one, *b = other;
    return strcmp(a->stem, b->stem);
}

/* The sheets that `print` would make of all of SIDE, what contains an error among them, by name, with their versions. */
static struct sheet_jobs sheets_of(struct diff_side *side, const struct options *options, struct squad_memo *memo)
{
    struct sheet_jobs jobs = {.project = &side->project, .options = options};
    sheet_jobs_find(&jobs);
    struct sheet_origin origin = sheet_jobs_origin(&jobs);
    origin.memo = memo;
    struct sheet_versions *versions = sheet_versions_new(&origin);
    for (size_t i = 0; i < jobs.count; i++)
        jobs.items[i].version = sheet_version(versions, jobs.items[i].sheet, &jobs.items[i].group);
    if (jobs.count)
        qsort(jobs.items, jobs.count, sizeof *jobs.items, by_name);
    return jobs;
}

static void compare_sheets(struct asked *asked, struct comparison *comparison, struct squad_memo *memo)
{
    const struct options wish = {.all = true, .sheet = asked->options->sheet};
    const struct sheet_jobs old = sheets_of(&asked->sides[0], &wish, memo), now = sheets_of(&asked->sides[1], &wish, memo);
    for (size_t i = 0, k = 0; i < old.count || k < now.count;) {
        int order = i == old.count ? 1 : k == now.count ? -1 : strcmp(old.items[i].stem, now.items[k].stem);
        const struct sheet_job *was = order <= 0 ? &old.items[i++] : NULL, *is = order >= 0 ? &now.items[k++] : NULL;
        const struct sheet_job *either = was ? was : is;
        compare_sheet(comparison, sheet_file_name(asked->arena, &wish, either->sheet, either->stem, 1),
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
    if (!read_side(asked, old) || !read_side(asked, now))
        return EXIT_COULD_NOT;
    struct squad_memo *memo = squad_memo_new(asked->arena);
    compare_plans(&comparison, asked->arena, old->project.programme, now->project.programme, memo);
    compare_findings(&comparison, old->project.diag, old->path, now->project.diag, now->path);
    compare_sheets(asked, &comparison, memo);
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
    int status = find_sides(&asked) ? compare(&asked) : EXIT_COULD_NOT;
    for (size_t i = 0; i < 2; i++)
        if (asked.sides[i].opened)
            project_close(&asked.sides[i].project);
    arena_free(asked.arena);
    return status;
}
