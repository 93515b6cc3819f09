#include <stdio.h>
#include <string.h>

#include "cli/commands.h"
#include "cli/tell.h"
#include "cli/project.h"
#include "cli/selection.h"
#include "cli/staged.h"
#include "export/export.h"
#include "model/programme.h"
#include "rules/rules.h"

static bool known_format(const char *name)
{
    if (strcmp(name, "text") == 0 || export_format_find(name))
        return true;
    struct text known = {0};
    for (size_t i = 0; i < export_format_count(); i++)
        text_addf(&known, ", %s", export_format_at(i)->name);
    tell_error("there is no format `%s`: text%s", name, text_get(&known));
    text_free(&known);
    return false;
}

/* Runs the checks over what was asked for. False, with a message, if none of it is planned. */
static bool check_project(struct project *project, const struct options *options)
{
    struct programme *programme = project->programme;
    /* A report counts the infos even if it does not list them. */
    enum severity least =
        options->infos || strcmp(options->format, "text") != 0 ? SEVERITY_INFO : SEVERITY_WARNING;
    if (!options->week && !options->from && !options->last && !options->athlete) {
        rules_run_wanted(programme, NULL, least, NULL, project->diag);
        return true;
    }
    const struct wanted wanted = selection_wanted(project, options);
    bool held = false; /* nothing may be planned of it because it is left out */
    for (size_t i = 0; i < programme->left_out_count; i++)
        held |= wanted.left_out[i];
    const struct occasion *const *occasions;
    if (!held && !selection_find(project, options, &occasions))
        return false;
    rules_run_wanted(programme, &wanted, least, NULL, project->diag);
    return true;
}

/* Checks what is in the folder, with what is staged laid over it. */
static int check(const struct options *options, const struct overlays *staged)
{
    confine_to_reading(options, NULL);
    struct project project;
    int status = EXIT_COULD_NOT;
    if (project_open_over(&project, options, PLAN_NEEDED, SHELF_NAMED, staged->items, staged->count)) {
        /* In a plan that was not fully understood, the rules would miss what is there. */
        bool incomplete = project.programme->incomplete;
        if (incomplete || check_project(&project, options))
            status = project_verdict(&project, options);
        if (incomplete && strcmp(options->format, "text") == 0)
            fputs("limits are checked once these errors are fixed\n", stderr);
    }
    project_close(&project);
    return status;
}

int command_check(const struct options *options)
{
    if (!known_format(options->format))
        return EXIT_COULD_NOT;
    struct arena *arena = arena_new();
    struct overlays staged = {0};
    int status = EXIT_COULD_NOT;
    if (!options->staged || staged_read(arena, options->paths, (size_t)options->path_count, &staged))
        status = check(options, &staged);
    arena_free(arena);
    return status;
}
