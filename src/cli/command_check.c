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

/* Runs the checks over what was asked for. False, with a message, if none of it is planned; where something was not
 * understood, it may be there. */
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
    if (!programme->incomplete && !held && !selection_find(project, options, &occasions))
        return false;
    rules_run_wanted(programme, &wanted, least, NULL, project->diag);
    return true;
}

/* Whose limits are not checked, since what was not understood may concern them. */
static void tell_unchecked(const struct programme *programme)
{
    enum { NAMED = 5 };
    struct text names = {0};
    size_t unchecked = 0, said = 0;
    for (size_t i = 0; i < programme->athlete_count; i++)
        unchecked += programme->unclear[i];
    size_t named = unchecked > NAMED ? NAMED - 1 : unchecked;
    for (size_t i = 0; i < programme->athlete_count && said < named; i++) {
        if (!programme->unclear[i])
            continue;
        said++;
        text_addf(&names, "%s%s", said == 1 ? "" : said == unchecked ? " and " : ", ", programme->athletes[i]->name.shown);
    }
    if (unchecked > named)
        text_addf(&names, " and %zu more", unchecked - named);
    if (unchecked == programme->athlete_count)
        fputs("limits are checked once these errors are fixed\n", stderr);
    else if (unchecked)
        fprintf(stderr, "the limits of %s are checked once these errors are fixed\n", text_get(&names));
    text_free(&names);
}

/* Checks what is in the folder, with what is staged laid over it. */
static int check(const struct options *options, const struct overlays *staged)
{
    confine_to_reading(options, NULL);
    struct project project;
    int status = EXIT_COULD_NOT;
    if (project_open_over(&project, options, PLAN_NEEDED, SHELF_NAMED, staged->items, staged->count)) {
        if (check_project(&project, options))
            status = project_verdict(&project, options);
        if (project.programme->incomplete && strcmp(options->format, "text") == 0)
            tell_unchecked(project.programme);
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
