#include <errno.h>
#include <glib.h>
#include <stdio.h>
#include <string.h>

#include "base/output.h"
#include "cli/commands.h"
#include "cli/print.h"
#include "cli/selection.h"
#include "cli/tell.h"
#include "model/programme.h"
#include "rules/rules.h"

static bool options_fit(const struct options *options)
{
    const char *wrong = NULL;
    bool files = options->index || options->depends || options->watch;
    bool asked = options->week || options->day || options->from || options->last || options->all;
    if (options->stale && !options->out && !options->versions)
        wrong = "say what was printed: --out FOLDER, or the versions on the sheets: --stale=3f9c2a1b,8d01c7e2";
    else if (options->stale && (options->list || files))
        wrong = "--stale makes no file: leave out --list, --index, --depends and --watch";
    else if (options->stale)
        return true;
    else if (!asked)
        wrong = "say which: --week N, --on DAY, --from DAY --to DAY, --month MONTH or --all";
    else if (!options->out && !options->list)
        wrong = "say where the files go: --out FOLDER";
    else if (options->list && files)
        wrong = "--list makes no file: leave out --index, --depends and --watch";
    else if ((options->paper && !paper_find(options->paper)) ||
             (options->tile && !paper_find(options->tile)))
        wrong = "there is no such paper: A4, A3, A2, A1, Letter or Tabloid";
    if (wrong)
        tell_error("%s", wrong);
    return !wrong && (!options->sheet || sheet_jobs_known(options->sheet));
}

static int finish(struct printing *printing)
{
    if (printing->failed)
        return EXIT_COULD_NOT;
    if (fflush(stdout) != 0) {
        tell_error("standard output: %s", strerror(errno));
        return EXIT_COULD_NOT;
    }
    bool errors = diag_count(printing->project->diag, SEVERITY_ERROR) > 0;
    if (errors) {
        int verdict = project_verdict(printing->project, printing->options);
        fputs(printing->count ? "what contains an error is not printed\n" : "nothing is printed while there are "
                                                                             "errors\n",
              stderr);
        return verdict;
    }
    if (!printing->count) {
        if (selection_known(printing->project, printing->options))
            tell_error("%s", sheet_jobs_missing(printing->project, printing->options));
        return EXIT_COULD_NOT;
    }
    return project_verdict(printing->project, printing->options);
}

bool print_confine(const struct options *options, size_t *there)
{
    const char *wrong = options->list ? NULL : output_make_folder(options->out, OUTPUT_OWNER_ALONE, there);
    if (wrong) {
        tell_error("%s: %s", options->out, wrong);
        return false;
    }
    if (!options->list)
        output_sweep(options->out);
    char *beside = options->depends ? g_path_get_dirname(options->depends) : NULL;
    char *around = options->list ? NULL : *there ? g_strndup(options->out, *there) : g_strdup(".");
    const char *const writes[] = {options->list ? NULL : options->out, beside};
    confine(options, &(struct sandbox){.reads = options->paths, .read_count = (size_t)options->path_count,
                                       .writes = writes, .write_count = 2, .clears = around});
    g_free(beside);
    g_free(around);
    return true;
}

static int print_all(struct printing *printing)
{
    const struct options *options = printing->options;
    print_sheets(printing);
    if (sheet_jobs_want(options, "phone") && !printing->failed)
        print_phone(printing);
    if (options->index && printing->count && !printing->failed)
        print_index(printing);
    if (sheet_jobs_want(options, "calendar") && !printing->failed)
        print_calendars(printing);
    if (options->depends && !printing->failed)
        print_depends(printing);
    return finish(printing);
}

/* Only for what was asked for: other athletes and other weeks are for `check` to judge. Returns what has errors. */
static const bool *find_errors(struct project *project, const struct options *options)
{
    bool *barred = arena_alloc(project->arena, project->programme->occasion_count + 1);
    const struct wanted wanted = sheet_jobs_wanted(project, options);
    rules_run_wanted(project->programme, &wanted, SEVERITY_ERROR, barred, project->diag);
    return barred;
}

int print_project(struct project *project, const struct options *options)
{
    struct printing printing = {.options = options, .project = project};
    /* A plan that cannot be read is not printed: a sheet with a hole in it looks like a plan. Nor is what breaks a
     * hold, a restriction or a `must` limit: on the wall nobody sees the finding. What was printed before stays, and
     * what others do is printed. */
    bool readable = diag_count(project->diag, SEVERITY_ERROR) == 0;
    if (options->depends && !print_can_depend(&printing))
        return EXIT_COULD_NOT;
    if (!project->programme->incomplete)
        printing.barred = find_errors(project, options);
    if (readable && printing.barred)
        return print_all(&printing);
    int verdict = project_verdict(project, options);
    fputs("nothing is printed for anybody until every line of the plan can be read\n", stderr);
    return verdict;
}

static int print_once(const struct options *options)
{
    struct project project;
    int status = EXIT_COULD_NOT;
    if (project_open(&project, options, PLAN_NEEDED))
        status = print_project(&project, options);
    project_close(&project);
    return status;
}

/* Reads the plan and a folder that was printed, and writes nothing. */
static int name_stale(const struct options *options)
{
    if (!options_fit(options))
        return EXIT_COULD_NOT;
    struct project project;
    int status = EXIT_COULD_NOT;
    confine_to_reading(options, options->out);
    if (project_open(&project, options, PLAN_NEEDED))
        status = project.programme->incomplete || diag_count(project.diag, SEVERITY_ERROR)
                     ? project_verdict(&project, options) : print_stale(&project, options);
    project_close(&project);
    return status;
}

/* The only symbol that libbellsheet-sheets exports: see sheets.c. */
__attribute__((visibility("default"))) int bell_sheets_print(const struct options *options)
{
    if (options->shelf)
        return print_shelf(options);
    size_t there = 0;
    if (options->stale)
        return name_stale(options);
    if (!options_fit(options) || !print_confine(options, &there))
        return EXIT_COULD_NOT;
    if (options->watch)
        return print_watching(options);
    int status = print_once(options);
    if (!options->list)
        output_drop_folder(options->out, there);
    return status;
}
