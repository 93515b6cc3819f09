/* `bellsheet log`: logs to fill in, for what was planned and is not logged yet. */
#include <stdio.h>
#include <string.h>

#include "cli/append.h"
#include "cli/commands.h"
#include "cli/project.h"
#include "cli/selection.h"
#include "cli/tell.h"
#include "figures/dates.h"
#include "logs/skeleton.h"
#include "logs/stanzas.h"
#include "model/programme.h"

/* The stanzas of the file to add to, which need not be part of the plan. None if it cannot be read: writing it will
 * report that. */
static struct stanzas read_appended(struct arena *arena, const char *path)
{
    struct sources *sources = arena_alloc(arena, sizeof *sources);
    const char *wrong = NULL;
    sources->arena = arena;
    int file = path ? source_read(sources, path, path, &wrong) : -1;
    return file < 0 ? (struct stanzas){NULL, 0, 0}
                    : stanzas_of(arena, sources->items[file].text, sources->items[file].length);
}

/* Adds a stanza for OCCASION to OUT unless THERE has one. */
static void add_stanza(struct project *project, const struct stanzas *there, const struct occasion *occasion,
                       struct text *out)
{
    struct text one = {.arena = project->arena};
    skeleton_add(project->arena, project->programme, occasion, &one);
    const struct stanzas made = stanzas_of(project->arena, text_get(&one), one.length);
    if (stanzas_find(there, made.items[0].key))
        return;
    text_add(out, out->length ? "\n" : "");
    text_add_bytes(out, text_get(&one), one.length);
}

/* The logs of COUNT occasions, except those that are there. */
static void add_logs(struct project *project, const struct stanzas *there, const struct occasion *const *occasions,
                     size_t count, struct text *out)
{
    for (size_t i = 0; i < count; i++)
        if (!occasions[i]->log)
            add_stanza(project, there, occasions[i], out);
}

/* Has one of THERE a line of ATHLETE's private day already? */
static bool has_private_day(struct arena *arena, const struct stanzas *there, const struct athlete *athlete, int day)
{
    char date[DATE_TEXT_SIZE];
    const char *title = arena_printf(arena, "private %s", athlete->name.folded);
    date_format(day, date);
    for (size_t i = 0; i < there->count; i++) {
        const struct stanza *stanza = &there->items[i];
        if (strncmp(stanza->key, title, strlen(title)) == 0 &&
            strstr(arena_copy(arena, stanza->text, stanza->length), date))
            return true;
    }
    return false;
}

/* What is private of each day, once for each athlete who trains then. */
static void add_private(struct project *project, const struct stanzas *there, const struct occasion *const *occasions,
                        size_t count, struct text *out)
{
    for (size_t i = 0; i < count; i++) {
        bool met = has_private_day(project->arena, there, occasions[i]->athlete, occasions[i]->date);
        for (size_t k = 0; k < i && !met; k++)
            met = occasions[k]->athlete == occasions[i]->athlete && occasions[k]->date == occasions[i]->date;
        if (met)
            continue;
        text_add(out, out->length ? "\n" : "");
        skeleton_add_private(occasions[i]->athlete, occasions[i]->date, out);
    }
}

static int log_project(struct project *project, const struct options *options)
{
    const struct occasion *const *occasions;
    if (project->programme->incomplete)
        return project_verdict(project, options);
    size_t count = selection_find(project, options, &occasions);
    if (!count)
        return EXIT_COULD_NOT;
    const struct stanzas there = read_appended(project->arena, options->append);
    struct text out = {.arena = project->arena};
    if (options->private)
        add_private(project, &there, occasions, count, &out);
    else
        add_logs(project, &there, occasions, count, &out);
    if (!out.length) {
        tell_error("all of it is logged already");
        return EXIT_CLEAN;
    }
    if (options->append)
        return append_stanzas(options->append, &out, options->private);
    fwrite(text_get(&out), 1, out.length, stdout);
    return EXIT_CLEAN;
}

int command_log(const struct options *options)
{
    struct options asked = *options;
    if (options->append && strcmp(options->append, "-") == 0) {
        tell_error("--append takes the name of a file; without it the logs go to standard output");
        return EXIT_COULD_NOT;
    }
    if (!asked.day && !asked.from && !asked.last && !asked.week)
        asked.day = asked.today;
    struct project project;
    int status = EXIT_COULD_NOT;
    if (project_open(&project, options, PLAN_NEEDED))
        status = log_project(&project, &asked);
    project_close(&project);
    return status;
}
