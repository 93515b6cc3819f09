/* print_shelf.c - the shelf and the club's own exercises as a book. */
#include <stdio.h>
#include <string.h>

#include "base/output.h"
#include "base/signals.h"
#include "cli/commands.h"
#include "cli/print.h"
#include "cli/tell.h"
#include "layout/shelf.h"
#include "model/programme.h"
#include "render/render.h"

static const char NAME[] = "shelf.pdf";

/* Is there a plan, not the shelf alone? */
static bool has_plan(const struct project *project)
{
    for (size_t i = 0; i < project->sources.count; i++)
        if (!project->sources.items[i].shelf)
            return true;
    return false;
}

static void write_shelf(struct printing *printing, const char *version)
{
    const struct options *options = printing->options;
    const struct project *project = printing->project;
    const struct programme *programme = project->programme;
    struct arena *arena = arena_new();
    struct sheet_request request = {
        .arena = arena, .type = printing->type, .programme = programme,
        .paper = options->paper ? paper_find(options->paper) : NULL, .landscape = options->landscape,
        .plan = has_plan(project) ? project->name : "the shelf",
        .version = version,
        .date_words = "",
        .author = programme->gym_count ? programme->gyms[0]->name.shown : ""};
    const struct scene *scene = shelf_scene(&request);
    for (size_t i = 0; i < scene->problem_count; i++)
        fprintf(stderr, "bellsheet: warning: %s: %s\n", NAME, scene->problems[i].words);
    struct text bytes = {0};
    print_write(printing, NAME, render_pdf(&scene, 1, options->created, &bytes), &bytes);
    if (!printing->failed)
        print_say(printing, NAME);
    text_free(&bytes);
    arena_free(arena);
}

static int print_it(struct printing *printing)
{
    const struct options *options = printing->options;
    if (options->list) {
        print_say(printing, NAME);
        return EXIT_CLEAN;
    }
    const char *wrong = NULL;
    sigset_t before;
    signals_hold(&before); /* before the libraries start their threads */
    printing->type = type_open(&wrong);
    if (wrong) {
        tell_error("type: %s", wrong);
        return EXIT_COULD_NOT;
    }
    write_shelf(printing, project_version(printing->project, options));
    type_close(printing->type);
    signals_release(&before);
    return printing->failed ? EXIT_COULD_NOT : EXIT_CLEAN;
}

static bool options_fit(const struct options *options)
{
    const char *wrong = NULL;
    if (options->week || options->day || options->all || options->sheet || options->athlete || options->session)
        wrong = "--shelf prints no sessions: leave out --week, --on, --all, --sheet, --athlete and --session";
    else if (options->tile || options->index || options->depends || options->watch)
        wrong = "--shelf is one file: leave out --tile, --index, --depends and --watch";
    else if (!options->out && !options->list)
        wrong = "say where the files go: --out FOLDER";
    else if (options->paper && !paper_find(options->paper))
        wrong = "there is no such paper: A4, A3, A2, A1, Letter or Tabloid";
    if (wrong)
        tell_error("%s", wrong);
    return !wrong;
}

int print_shelf(const struct options *options)
{
    size_t there = 0;
    if (!options_fit(options) || !print_confine(options, &there))
        return EXIT_COULD_NOT;
    struct project project;
    int status = EXIT_COULD_NOT;
    if (project_open(&project, options, PLAN_WELCOME)) {
        struct printing printing = {.options = options, .project = &project};
        status = diag_count(project.diag, SEVERITY_ERROR) ? project_verdict(&project, options) : print_it(&printing);
    }
    project_close(&project);
    if (!options->list)
        output_drop_folder(options->out, there);
    return status;
}
